//! Check tables of head loss, hoses, pumps, lips and clogging.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::clogging;
use weirline::water::head_loss::{self, Fluid};
use weirline::water::hose::{self, Hose};
use weirline::water::pump::{self, System};
use weirline::water::weir::{self, Governs};

pub const CHECKS: &[Check] = &[
    ("filtration_packed_bed", packed_bed),
    ("filtration_foam_head_loss", foam_head_loss),
    ("filtration_hose", hose_loss),
    ("filtration_siphon", siphon),
    ("filtration_operating_point", operating_point),
    ("filtration_pump_power", pump_power),
    ("filtration_weir", lip),
    ("filtration_standpipe", standpipe),
    ("filtration_drain_back", drain_back),
    ("filtration_clogging", clogged),
    ("filtration_bypass", bypass),
];

const WARM: Fluid = Fluid::WARM;

fn packed_bed(row: &Row) {
    let grain = Length::millimetres(row.number("d_mm"));
    let void = Share::ratio(row.number("void"));
    let speed = Speed::metres_per_second(row.number("superficial_m_per_s"));
    let depth = Length::metres(row.number("depth_m"));
    let fluid = Fluid {
        density: Concentration::kilograms_per_cubic_metre(row.number("rho")),
        viscosity: Viscosity::pascal_seconds(row.number("mu")),
    };
    assert_eq!(fluid, WARM, "the signatures count with this water");
    let inputs = [grain.in_base(), void.in_base(), speed.in_base(), depth.in_base()];

    let lost = had!(row, head_loss::grain_loss(grain, void, speed, depth, fluid));
    row.signature("grain bed loss", &inputs, lost.in_base());
    row.check("ergun_Pa", lost.in_pascals());
    // Other correlations, as cross-checks: Carman 1937 and Erdim, Akgiray & Demir 2015 from the fluids library.
    row.check_within("carman_Pa", lost.in_pascals(), 0.25);
    row.check_within("erdim_Pa", lost.in_pascals(), 0.25);
    let viscous = had!(row, head_loss::viscous_grain_loss(grain, void, speed, depth, fluid));
    row.signature("viscous grain bed loss", &inputs, viscous.in_base());
    row.check("kozeny_carman_Pa", viscous.in_pascals());
    let share = had!(row, head_loss::viscous_share(grain, void, speed, fluid));
    row.signature("viscous share", &inputs[..3], share.in_base());
    row.check("viscous_share", share.in_ratio());
    let reynolds = had!(row, head_loss::bed_reynolds(grain, void, speed, fluid));
    row.signature("bed reynolds number", &inputs[..3], reynolds.in_base());
    row.check("re_ergun", reynolds.in_ratio());
    let head = had!(row, head_loss::head(lost, fluid));
    row.signature("head of pressure", &[lost.in_base()], head.in_base());
    row.check("ergun_mm_water", head.in_millimetres());
}

fn foam_head_loss(row: &Row) {
    let ppi = PoreCount::per_inch(row.number("ppi"));
    let (c, f) = (Share::ratio(row.number("c")), Share::ratio(row.number("inertia_F")));
    let speed = Speed::metres_per_second(row.number("superficial_m_per_s"));
    let thickness = Length::metres(row.number("thickness_m"));
    let k = both!(row, "foam permeability", head_loss::foam_permeability(ppi, c));
    row.check("permeability_m2", k.in_square_metres());
    let lost = had!(row, head_loss::foam_loss(k, f, speed, thickness, WARM));
    let inputs = [k.in_base(), f.in_base(), speed.in_base(), thickness.in_base()];
    row.signature("foam loss", &inputs, lost.in_base());
    row.check("dp_Pa", lost.in_pascals());
    row.check("mm_water", had!(row, head_loss::head(lost, WARM)).in_millimetres());
}

fn hose_loss(row: &Row) {
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let bore = Length::millimetres(row.number("bore_mm"));
    let length = Length::metres(row.number("length_m"));
    let fittings = Share::ratio(row.number("sum_k"));
    let hose = Hose::smooth(bore, length, fittings);
    let speed = had!(row, hose::hose_speed(flow, hose));
    row.signature("hose speed", &[flow.in_base(), bore.in_base()], speed.in_base());
    row.check("velocity_m_per_s", speed.in_metres_per_second());
    let reynolds = had!(row, hose::hose_reynolds(flow, hose, WARM));
    row.signature("hose reynolds number", &[flow.in_base(), bore.in_base()], reynolds.in_base());
    row.check("reynolds", reynolds.in_ratio());
    let friction = both!(row, "friction factor", hose::friction_factor(reynolds));
    row.check("f", friction.in_ratio());
    row.check_within("f_library", friction.in_ratio(), 0.06);
    let head = had!(row, hose::hose_head(flow, hose, WARM));
    let inputs = [flow.in_base(), bore.in_base(), length.in_base(), fittings.in_base(), 1.0];
    row.signature("hose head", &inputs, head.in_base());
    row.check("head_m", head.in_metres());
}

fn siphon(row: &Row) {
    let difference = Length::metres(row.number("level_difference_m"));
    let bore = Length::millimetres(row.number("bore_mm"));
    let length = Length::metres(row.number("length_m"));
    let fittings = Share::ratio(row.number("sum_k"));
    let hose = Hose::smooth(bore, length, fittings);
    let inputs = [difference.in_base(), bore.in_base(), length.in_base(), fittings.in_base(), 1.0];
    let speed = had!(row, hose::siphon_speed(difference, hose, WARM));
    row.signature("siphon speed", &inputs, speed.in_base());
    row.check("velocity_m_per_s", speed.in_metres_per_second());
    let flow = had!(row, hose::siphon_flow(difference, hose, WARM));
    row.signature("siphon flow", &inputs, flow.in_base());
    row.check("flow_L_per_h", flow.in_litres_per_hour());
}

fn operating_point(row: &Row) {
    let shutoff = Length::metres(row.number("shutoff_head_m"));
    let free_flow = Flow::litres_per_hour(row.number("free_flow_L_per_h"));
    let lift = Length::metres(row.number("static_head_m"));
    let linear = LinearLoss::metres_per_litre_hour(row.number("a_m_per_Lh"));
    let square = SquareLoss::metres_per_litre_hour_squared(row.number("b_m_per_Lh2"));
    let flow = had!(row, pump::operating_flow(System { shutoff, free_flow, lift, linear, square }));
    let inputs = [shutoff.in_base(), free_flow.in_base(), lift.in_base(), linear.in_base(), square.in_base()];
    row.signature("operating flow", &inputs, flow.in_base());
    row.check("flow_L_per_h", flow.in_litres_per_hour());
    let head = both!(row, "pump head", pump::pump_head(shutoff, free_flow, flow));
    row.check("pump_head_m", head.in_metres());
}

fn pump_power(row: &Row) {
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let head = Length::metres(row.number("head_m"));
    let mains = Power::watts(row.number("watts"));
    row.check("hydraulic_W", both!(row, "water power", pump::water_power(flow, head)).in_watts());
    row.check("efficiency", both!(row, "pump efficiency", pump::efficiency(flow, head, mains)).in_ratio());
}

fn lip(row: &Row) {
    let (width, head) = (Length::metres(row.number("width_m")), Length::metres(row.number("head_m")));
    let flow = both!(row, "lip flow", weir::lip_flow(width, head));
    row.check("suppressed_L_per_h", flow.in_litres_per_hour());
    let notch = both!(row, "notch flow", weir::notch_flow(width, head));
    row.check("francis_L_per_h", notch.in_litres_per_hour());
    let back = both!(row, "lip head", weir::lip_head(flow, width));
    row.check("head_back_m", back.in_metres());
    // Rehbock is near from about 30 mm; at the 3 mm of a filter's lip it gives 64 % more, outside its own range.
    let apart = if head.in_millimetres() >= 30.0 { 0.06 } else { 0.40 };
    row.check_within("rehbock_L_per_h", flow.in_litres_per_hour(), apart);
}

fn standpipe(row: &Row) {
    let (bore, head) = (Length::millimetres(row.number("bore_mm")), Length::metres(row.number("head_m")));
    let pipe = had!(row, weir::standpipe(bore, head));
    row.signature("standpipe flow", &[bore.in_base(), head.in_base()], pipe.flow.in_base());
    row.check("weir_L_per_h", pipe.weir.in_litres_per_hour());
    row.check("orifice_L_per_h", pipe.orifice.in_litres_per_hour());
    row.check("flow_L_per_h", pipe.flow.in_litres_per_hour());
    let governs = match pipe.governs {
        Governs::Weir => "weir",
        Governs::Orifice => "orifice",
    };
    row.same("governs", governs);
}

fn drain_back(row: &Row) {
    let surface = Area::square_centimetres(row.number("tank_surface_cm2"));
    let depth = Length::centimetres(row.number("depth_cm"));
    let (pipes, free) = (Volume::litres(row.number("pipes_L")), Volume::litres(row.number("free_room_L")));
    let back = both!(row, "drain back", weir::drain_back(surface, depth, pipes));
    // The column counts the surface layer alone; what hangs in the pipes comes to it.
    let layer = had!(row, weir::drain_back(surface, depth, Volume::base(0.0)));
    row.check("back_L", layer.in_litres());
    assert!((back.in_litres() - layer.in_litres() - pipes.in_litres()).abs() < 1e-9);
    let room = both!(row, "room left in the sump", weir::room_left(free, back));
    row.same("fits", if room.in_litres() >= 0.0 { "1" } else { "0" });
}

fn clogged(row: &Row) {
    let (void, filled) = (Share::ratio(row.number("void_clean")), Share::ratio(row.number("share_filled")));
    let grains = both!(row, "grain permeability left", clogging::grain_permeability_left(void, filled));
    row.check("k_over_k0", grains.in_ratio());
    let foam = both!(row, "foam permeability left", clogging::foam_permeability_left(filled));
    row.check("cube_only", foam.in_ratio());
}

fn bypass(row: &Row) {
    let clean = Length::millimetres(row.number("clean_loss_mm"));
    let height = Length::millimetres(row.number("lip_mm"));
    let share = both!(row, "share filled at bypass", clogging::share_at_bypass(clean, height));
    row.check("share_filled", share.in_ratio());
    // At that share the dirty loss stands as high as the lip.
    if share.in_ratio() > 0.0 {
        let dirty = both!(row, "dirty foam loss", clogging::dirty_foam_loss(clean, share));
        assert!((dirty.in_millimetres() / height.in_millimetres() - 1.0).abs() < 1e-9, "{}", row.place());
    }
}
