//! Laws of nature that hold for any input: directions, balances, one formula turned round by another.

use proptest::prelude::*;
use weirline::units::measure::*;
use weirline::water::course::{Start, course};
use weirline::water::head_loss::{self, Fluid};
use weirline::water::hose::{self, Hose};
use weirline::water::power_cut::{self, StillTank, Until};
use weirline::water::pump::{self, System};
use weirline::water::{ammonia, carbonate, cleaning, clogging, density, heat, oxygen, porous, weir};

fn celsius(t: f64) -> Temperature {
    Temperature::celsius(t)
}

proptest! {
    #![proptest_config(crate::tries(300))]

    #[test]
    fn salt_makes_water_heavier(s in 0.0..41.0, t in 0.0..40.0, more in 0.0..1.0) {
        let dense = |s, t| density::density(Salinity::grams_per_kilogram(s), celsius(t)).unwrap();
        prop_assert!(dense(s + more, t) >= dense(s, t));
        let gravity = density::specific_gravity(Salinity::grams_per_kilogram(s), celsius(t), celsius(25.0)).unwrap();
        let back = density::salinity_from_gravity(gravity, celsius(t), celsius(25.0)).unwrap();
        prop_assert!((back.in_grams_per_kilogram() - s).abs() < 1e-6);
    }

    #[test]
    fn warm_salt_high_water_holds_less_oxygen(t in 0.0..39.0, s in 0.0..39.0, z in 0.0..4000.0) {
        let holds = |t, s, z| {
            let p = oxygen::pressure_at(Length::metres(z)).unwrap();
            oxygen::saturation(celsius(t), Salinity::grams_per_kilogram(s), p).unwrap()
        };
        prop_assert!(holds(t + 1.0, s, z) < holds(t, s, z));
        prop_assert!(holds(t, s + 1.0, z) < holds(t, s, z));
        prop_assert!(holds(t, s, z + 500.0) < holds(t, s, z));
    }

    #[test]
    fn small_fish_use_more_for_their_mass(m in 0.2..2000.0, t in 0.0..31.0) {
        let used = |m, t| oxygen::fish_use(Mass::grams(m), celsius(t)).unwrap().in_milligrams_per_hour();
        prop_assert!(used(2.0 * m, t) > used(m, t));
        prop_assert!(used(2.0 * m, t) < 2.0 * used(m, t));
        prop_assert!(used(m, t + 1.0) > used(m, t));
    }

    #[test]
    fn airing_turns_carbon_dioxide_round(kh in 0.5..25.0, t in 5.0..35.0, ph in 6.0..8.4) {
        let kh = Concentration::german_degrees(kh);
        let gas = carbonate::carbon_dioxide(kh, celsius(t), Acidity::ph(ph)).unwrap();
        prop_assert!(carbonate::carbon_dioxide(kh, celsius(t), Acidity::ph(ph + 0.1)).unwrap() < gas);
        // The air whose CO2 that is, by Henry's law, gives the pH back.
        let henry = 10f64.powf(carbonate::constants(celsius(t)).unwrap().henry);
        let air = Pressure::atmospheres(gas.in_grams_per_litre() / 44.009 / henry);
        if (100.0..10000.0).contains(&air.in_microatmospheres()) {
            let back = carbonate::aired_ph(kh, celsius(t), air).unwrap();
            prop_assert!((back.in_ph() - ph).abs() < 1e-6);
        }
    }

    #[test]
    fn a_mix_lies_between_its_waters(a in 1.0..20.0, b in 1.0..20.0, p in 6.0..8.5, q in 6.0..8.5, v in 0.1..0.9) {
        let water = |v, kh, ph| (Volume::litres(v), Concentration::german_degrees(kh), Acidity::ph(ph));
        let mix = carbonate::mixed_ph(water(v, a, p), water(1.0 - v, b, q), celsius(25.0)).unwrap().in_ph();
        prop_assert!(mix > p.min(q) - 0.02 && mix < p.max(q) + 0.02, "{mix}");
        let alone = carbonate::mixed_ph(water(v, a, p), water(0.0, b, q), celsius(25.0)).unwrap().in_ph();
        prop_assert!((alone - p).abs() < 1e-6);
    }

    #[test]
    fn a_siphon_loses_what_drives_it(dh in 0.001..3.0, bore in 4.0..40.0, length in 0.1..10.0, k in 1.0..12.0, rough in 1.0..5.0) {
        let hose = Hose {
            bore: Length::millimetres(bore),
            length: Length::metres(length),
            fittings: Share::ratio(k),
            roughness: Share::ratio(rough),
        };
        let flow = hose::siphon_flow(Length::metres(dh), hose, Fluid::WARM).unwrap();
        let reynolds = hose::hose_reynolds(flow, hose, Fluid::WARM).unwrap().in_ratio();
        let lost = hose::hose_head(flow, hose, Fluid::WARM).unwrap().in_metres();
        // At the change from laminar to turbulent the loss jumps, and no flow loses just that much.
        prop_assert!((lost / dh - 1.0).abs() < 1e-6 || (reynolds / 2300.0 - 1.0).abs() < 1e-6, "{lost} {dh} {reynolds}");
        prop_assert!(hose::siphon_flow(Length::metres(dh * 1.1), hose, Fluid::WARM).unwrap() >= flow);
    }

    #[test]
    fn pump_and_filter_agree(h0 in 0.2..5.0, q in 100.0..6000.0, lift in 0.0..6.0, a in 0.0..1e-3, b in 0.0..1e-6) {
        let system = System {
            shutoff: Length::metres(h0),
            free_flow: Flow::litres_per_hour(q),
            lift: Length::metres(lift),
            linear: LinearLoss::metres_per_litre_hour(a),
            square: SquareLoss::metres_per_litre_hour_squared(b),
        };
        let flow = pump::operating_flow(system).unwrap();
        let at = flow.in_litres_per_hour();
        if lift >= h0 {
            prop_assert_eq!(at, 0.0);
        } else {
            let head = pump::pump_head(system.shutoff, system.free_flow, flow).unwrap().in_metres();
            prop_assert!((head - lift - a * at - b * at * at).abs() < 1e-9 * h0);
            prop_assert!(at <= q * (1.0 + 1e-12));
        }
    }

    #[test]
    fn a_lip_passes_what_its_head_says(q in 1.0..20000.0, width in 0.01..2.0) {
        let (flow, width) = (Flow::litres_per_hour(q), Length::metres(width));
        let back = weir::lip_flow(width, weir::lip_head(flow, width).unwrap()).unwrap();
        prop_assert!((back.in_litres_per_hour() / q - 1.0).abs() < 1e-9);
    }

    #[test]
    fn faster_water_and_finer_media_lose_more(v in 1e-4..0.05, d in 0.5..16.0, e in 0.36..0.47, ppi in 5.0..60.0) {
        let grain = |v, d, e| {
            let (d, e, v) = (Length::millimetres(d), Share::ratio(e), Speed::metres_per_second(v));
            head_loss::grain_loss(d, e, v, Length::metres(0.1), Fluid::WARM).unwrap()
        };
        prop_assert!(grain(v * 1.1, d, e) > grain(v, d, e));
        prop_assert!(grain(v, d * 1.1, e) < grain(v, d, e));
        prop_assert!(grain(v, d, e + 0.01) < grain(v, d, e));
        let foam = |ppi| {
            let k = head_loss::foam_permeability(PoreCount::per_inch(ppi), Share::ratio(0.02)).unwrap();
            let speed = Speed::metres_per_second(v);
            head_loss::foam_loss(k, Share::ratio(0.09), speed, Length::metres(0.05), Fluid::WARM).unwrap()
        };
        prop_assert!(foam(ppi * 1.1) > foam(ppi));
    }

    #[test]
    fn dirt_only_closes(s in 0.0..0.98, more in 0.0..0.02, e in 0.1..0.99) {
        let foam = |s| clogging::foam_permeability_left(Share::ratio(s)).unwrap().in_ratio();
        let grains = |s| clogging::grain_permeability_left(Share::ratio(e), Share::ratio(s)).unwrap().in_ratio();
        prop_assert!(foam(s + more) <= foam(s) && grains(s + more) <= grains(s));
        prop_assert!(grains(s) <= foam(s) + 1e-12);
        prop_assert_eq!((foam(0.0), foam(1.0)), (1.0, 0.0));
    }

    #[test]
    fn a_grain_keeps_its_core_by_the_balance(d in 1.0..40.0, k in 0.1..200.0, s in 0.5..9.0) {
        let diffusivity = Diffusivity::square_metres_per_second(1e-9);
        let skin = Concentration::milligrams_per_litre(s);
        let uptake = ConcentrationRate::grams_per_cubic_metre_hour(k);
        let core = porous::oxygen_free_core(Length::millimetres(d), diffusivity, skin, uptake).unwrap();
        let largest = porous::aerobic_sphere(diffusivity, skin, uptake).unwrap().in_millimetres();
        let (radius, inner) = (d / 2e3, core.diameter.in_metres() / 2.0);
        if d <= largest {
            prop_assert_eq!(core.share.in_ratio(), 0.0);
        } else {
            let met = k / 3600.0 / 6e-9 * (radius * radius - 3.0 * inner * inner + 2.0 * inner.powi(3) / radius);
            prop_assert!((met / s - 1.0).abs() < 1e-7, "{met} {s}");
        }
        prop_assert!((core.diameter.in_millimetres() + 2.0 * core.shell.in_millimetres() - d).abs() < 1e-9 * d);
    }

    #[test]
    fn a_surface_only_helps(v in 20.0..500.0, a in 0.0..2.0, r in 1.0..300.0, start in 3.5..8.0) {
        let tank = |a| StillTank {
            water: Volume::litres(v),
            surface: Area::square_metres(a),
            transfer: Speed::metres_per_hour(0.01),
            used: MassRate::milligrams_per_hour(r),
            saturation: Concentration::milligrams_per_litre(8.2),
        };
        let level = Concentration::milligrams_per_litre;
        let bare = power_cut::time_without_surface(Volume::litres(v), level(start), level(3.0), MassRate::milligrams_per_hour(r));
        let bare = bare.unwrap().in_hours();
        match power_cut::time_to_oxygen(tank(a), level(start), level(3.0)).unwrap() {
            Until::After(time) => prop_assert!(time.in_hours() >= bare * (1.0 - 1e-9)),
            Until::Never => prop_assert!(power_cut::settled_oxygen(tank(a)).unwrap() >= level(3.0 - 1e-9)),
        }
        // A hair of surface is as good as none.
        match power_cut::time_to_oxygen(tank(1e-12), level(start), level(3.0)).unwrap() {
            Until::After(time) => prop_assert!((time.in_hours() / bare - 1.0).abs() < 1e-6),
            Until::Never => prop_assert!(false, "never"),
        }
    }

    #[test]
    fn a_colder_room_costs_more_heat(tw in 20.0..32.0, ta in 5.0..19.0, humid in 0.0..1.0) {
        let (wall, top, glass) = (Area::square_metres(1.0), Area::square_metres(0.3), Length::millimetres(6.0));
        let open = |ta| heat::open_loss(wall, glass, top, celsius(tw), celsius(ta), Share::ratio(humid)).unwrap();
        let shut = |ta| heat::lidded_loss(wall, glass, top, celsius(tw), celsius(ta)).unwrap();
        prop_assert!(open(ta) > open(ta + 1.0) && shut(ta) > shut(ta + 1.0));
        prop_assert!(open(ta) > shut(ta), "evaporation costs more than a lid");
    }

    #[test]
    fn nitrogen_is_kept(t in 10.0..30.0, dose in 0.5..4.0, q in 1e-3..2.0) {
        let start = Start {
            temperature: celsius(t),
            dose: Concentration::milligrams_per_litre(dose),
            capacity: ConcentrationRate::milligrams_per_litre_day(q),
            redose_below: None,
        };
        let mut before = dose;
        for levels in course(start, Share::ratio(40.0)).unwrap() {
            let [a, i, n] = [levels.ammonia, levels.nitrite, levels.nitrate].map(Concentration::in_milligrams_per_litre);
            prop_assert!((a + i + n - dose).abs() < 1e-9 * dose.max(1.0), "{a} {i} {n}");
            prop_assert!(a <= before + 1e-12);
            before = a;
        }
    }

    #[test]
    fn the_flow_falls_to_its_share_in_that_time(q in 100.0..2000.0, part in 0.3..0.99, days in 1.0..60.0) {
        let (clean, later) = (Flow::litres_per_hour(q), Flow::litres_per_hour(q * part));
        let fall = cleaning::flow_decline(clean, later, Time::days(days)).unwrap();
        let time = cleaning::time_to_flow(fall, Share::ratio(part)).unwrap();
        prop_assert!((time.in_days() / days - 1.0).abs() < 1e-9);
    }
}

/// Davies' activity of a singly charged ion at 0.1 mol/L and 25 degC is 0.78 (textbooks, from memory): the odds of un-ionised ammonia
/// change by that factor.
#[test]
fn a_tenth_molar_salt_lowers_activity_to_0_78() {
    let strength = IonicStrength::moles_per_litre(0.1);
    let odds = |fraction: Share| fraction.in_ratio() / (1.0 - fraction.in_ratio());
    let (t, ph) = (celsius(25.0), Acidity::ph(8.0));
    let salted = odds(ammonia::unionised_fraction_at_strength(t, ph, strength).unwrap());
    let pure = odds(ammonia::unionised_fraction(t, ph).unwrap());
    assert!((salted / pure - 0.78).abs() < 0.005, "{}", salted / pure);
}

#[test]
fn borders_are_held_where_it_is_said() {
    let fresh = Salinity::base(0.0);
    let level = Pressure::atmospheres(1.0);
    let at = |t| oxygen::saturation(celsius(t), fresh, level).unwrap();
    assert_eq!(at(45.0), at(40.0));
    assert_eq!(at(-3.0), at(0.0));
    assert_eq!(density::density(fresh, celsius(60.0)), density::density(fresh, celsius(40.0)));
    let used = |m| oxygen::fish_use(Mass::grams(m), celsius(25.0)).unwrap();
    assert_eq!(used(0.01), used(0.2));
    assert_eq!(used(9000.0), used(5000.0));
    assert!(oxygen::fish_use(Mass::grams(0.0), celsius(25.0)).is_err());
}
