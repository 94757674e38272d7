//! Check tables of nitrification, media and porous grains.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::{media, nitrification, packing, pore, porous, temperature_factor};

pub const CHECKS: &[Check] = &[
    ("filtration_areal_rate", areal_rate),
    ("filtration_temperature_factor", temperature_factor),
    ("water_nitrification_temperature", nitrification_temperature),
    ("filtration_filter_steady_state", steady_state),
    ("filtration_media_capacity", media_capacity),
    ("filtration_bed_geometry", bed_geometry),
    ("filtration_foam_geometry", foam_geometry),
    ("filtration_oxygen_slab", oxygen_slab),
    ("filtration_oxygen_sphere", oxygen_sphere),
    ("filtration_porous_rule", porous_rule),
    ("filtration_media_mass", media_mass),
    ("filtration_bags", bags),
    ("filtration_layer_pressure", layer_pressure),
];

fn celsius(row: &Row) -> Temperature {
    Temperature::celsius(row.number("t_c"))
}

fn areal_rate(row: &Row) {
    let r1 = Speed::metres_per_day(row.number("r1_m_per_day"));
    let tan = Concentration::milligrams_per_litre(row.number("tan_mgN_per_L"));
    let (theta, t) = (Share::ratio(1.06), celsius(row));
    let rate = ArealRate::grams_per_square_metre_day;
    let d = Diffusivity::square_metres_per_second(1.96e-9);
    let layer = Length::micrometres(100.0);
    let half = Concentration::milligrams_per_litre(0.5);

    let linear = both!(row, "linear areal rate", nitrification::linear_rate(r1, tan, theta, t));
    row.check("linear", linear.in_grams_per_square_metre_day());
    let monod = both!(row, "monod areal rate", nitrification::monod_rate(rate(0.9), half, tan, theta, t));
    row.check("monod", monod.in_grams_per_square_metre_day());
    let root = both!(row, "half-order areal rate", nitrification::half_order_rate(rate(0.5), tan, theta, t));
    row.check("half_order", root.in_grams_per_square_metre_day());
    let ceiling = both!(row, "film ceiling", nitrification::film_ceiling(d, tan, layer));
    row.check("film_ceiling", ceiling.in_grams_per_square_metre_day());
    let used = both!(row, "areal rate", nitrification::areal_rate(r1, tan, theta, t, d, layer));
    row.check("used", used.in_grams_per_square_metre_day());
}

fn temperature_factor(row: &Row) {
    let (t, at) = (celsius(row), Temperature::celsius(20.0));
    for (column, theta) in [("f_low", 1.02), ("f_likely", 1.06), ("f_high", 1.09)] {
        let theta = Share::ratio(theta);
        let factor = both!(row, "temperature factor", temperature_factor::temperature_factor(theta, t, at));
        row.check(column, factor.in_ratio());
    }
    let energy = Share::ratio(68.0);
    let factor = both!(row, "arrhenius factor", temperature_factor::arrhenius_factor(energy, t));
    row.check("f_arrhenius", factor.in_ratio());
}

fn nitrification_temperature(row: &Row) {
    let theta = Share::ratio(row.number("theta"));
    let (t, at) = (celsius(row), Temperature::celsius(row.number("t_ref_c")));
    let factor = both!(row, "temperature factor", temperature_factor::temperature_factor(theta, t, at));
    row.expect(factor.in_ratio());
}

fn steady_state(row: &Row) {
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let area = Area::square_metres(row.number("area_m2"));
    let r1 = Speed::metres_per_day(row.number("r1_m_per_day"));
    let made = MassRate::milligrams_per_day(row.number("production_mgN_per_day"));
    let pass = both!(row, "single pass share", nitrification::single_pass_share(r1, area, flow));
    row.check("single_pass_efficiency", pass.in_ratio());
    let tan = both!(row, "standing ammonia", nitrification::standing_ammonia(made, flow, area, r1));
    row.check("tan_mgN_per_L", tan.in_milligrams_per_litre());
    let units = both!(row, "transfer units", nitrification::transfer_units(r1, area, flow));
    row.check("number_of_transfer_units", units.in_ratio());
}

fn media_capacity(row: &Row) {
    let volume = Volume::litres(row.number("media_L"));
    let surface = SpecificSurface::square_metres_per_cubic_metre(row.number("area_m2_per_m3"));
    let used = Share::ratio(row.number("use"));
    let r1 = Speed::metres_per_day(row.number("r1_m_per_day"));
    let tan = Concentration::milligrams_per_litre(row.number("tan_mgN_per_L"));
    let protein = Share::ratio(row.number("protein_fraction"));
    let fed = Rate::per_day(row.number("feed_fraction"));
    let (theta, t) = (Share::ratio(1.06), celsius(row));
    let (d, layer) = (Diffusivity::square_metres_per_second(1.96e-9), Length::micrometres(100.0));

    let area = both!(row, "media area", media::media_area(volume, surface, used));
    row.check("area_m2", area.in_square_metres());
    let rate = both!(row, "areal rate", nitrification::areal_rate(r1, tan, theta, t, d, layer));
    row.check("rate_gN_per_m2_per_day", rate.in_grams_per_square_metre_day());
    let capacity = both!(row, "media capacity", media::capacity(area, rate));
    row.check("capacity_mgN_per_day", capacity.in_milligrams_per_day());
    let feed = both!(row, "feed carried", media::feed_carried(capacity, protein, Share::ratio(0.092)));
    row.check("feed_g_per_day", feed.in_grams_per_day());
    let fish = both!(row, "fish carried", media::fish_carried(feed, fed));
    row.check("fish_g", fish.in_grams());
}

fn bed_geometry(row: &Row) {
    let outer = Length::millimetres(row.number("outer_mm"));
    let length = Length::millimetres(row.number("length_mm"));
    let bore = Length::millimetres(row.number("bore_mm"));
    let void = Share::ratio(row.number("void"));
    let surface = match row.text("shape") {
        "sphere" => both!(row, "sphere surface", media::sphere_surface(outer, void)),
        "solid_cylinder" => both!(row, "cylinder surface", media::cylinder_surface(outer, length, void)),
        "ring" => {
            let gaps = Share::ratio(0.40);
            let bed = had!(row, media::ring_bed(outer, length, bore, gaps));
            let inputs = [outer.in_base(), length.in_base(), bore.in_base(), gaps.in_base()];
            row.signature("ring surface", &inputs, bed.surface.in_base());
            row.signature("ring void", &inputs, bed.void.in_base());
            row.check("void", bed.void.in_ratio());
            bed.surface
        }
        other => panic!("unknown shape {other}"),
    };
    row.check("area_m2_per_m3", surface.in_square_metres_per_cubic_metre());
}

fn foam_geometry(row: &Row) {
    let ppi = PoreCount::per_inch(row.number("ppi"));
    let void = Share::ratio(row.number("void"));
    row.check("cell_mm", both!(row, "foam cell", pore::cell(ppi)).in_millimetres());
    row.check("strut_mm", both!(row, "foam strut", pore::strut(ppi, void)).in_millimetres());
    let surface = both!(row, "foam surface", pore::foam_surface(ppi, void));
    row.check("area_m2_per_m3", surface.in_square_metres_per_cubic_metre());
}

/// Diffusivity, oxygen at the skin and uptake, as the tables of oxygen in grains give them.
fn grain(row: &Row) -> (Diffusivity, Concentration, ConcentrationRate) {
    (
        Diffusivity::square_metres_per_second(row.number("d_eff_m2_per_s")),
        Concentration::milligrams_per_litre(row.number("o2_surface_mg_per_L")),
        ConcentrationRate::grams_per_cubic_metre_hour(row.number("uptake_g_per_m3_per_h")),
    )
}

fn oxygen_slab(row: &Row) {
    let (d, skin, uptake) = grain(row);
    let depth = both!(row, "oxygen depth", porous::oxygen_depth(d, skin, uptake));
    row.check("depth_mm", depth.in_millimetres());
    let sphere = both!(row, "largest aerobic grain", porous::aerobic_sphere(d, skin, uptake));
    row.check("sphere_fully_aerobic_diameter_mm", sphere.in_millimetres());
    let flux = both!(row, "oxygen flux", porous::oxygen_flux(d, skin, uptake));
    row.check("o2_flux_g_per_m2_per_day", flux.in_grams_per_square_metre_day());
    let again = both!(row, "oxygen depth from flux", porous::oxygen_depth_from_flux(d, skin, flux));
    row.check("depth_mm", again.in_millimetres());
}

fn oxygen_sphere(row: &Row) {
    let size = Length::millimetres(row.number("grain_mm"));
    let (d, skin, uptake) = grain(row);
    let core = had!(row, porous::oxygen_free_core(size, d, skin, uptake));
    let inputs = [size.in_base(), d.in_base(), skin.in_base(), uptake.in_base()];
    row.signature("oxygen-free core", &inputs, core.diameter.in_base());
    row.signature("oxygen-free share", &inputs, core.share.in_base());
    row.signature("aerobic shell", &inputs, core.shell.in_base());
    row.check("core_diameter_mm", core.diameter.in_millimetres());
    row.check("shell_mm", core.shell.in_millimetres());
    row.check("anoxic_share", core.share.in_ratio());
}

fn porous_rule(row: &Row) {
    let fish = Mass::grams(row.number("fish_g"));
    let fed = Rate::per_day(row.number("feed_fraction"));
    let protein = Share::ratio(row.number("protein_fraction"));
    let made = Share::ratio(0.092);
    let mass = Mass::kilograms(row.number("media_kg"));
    let bulk = Concentration::kilograms_per_cubic_metre(row.number("bulk_kg_per_m3"));
    let grains = Share::ratio(row.number("grain_share"));
    let rule = had!(row, porous::porous_rule(fish, fed, protein, made, mass, bulk, grains));
    let inputs = [
        fish.in_base(),
        fed.in_base(),
        protein.in_base(),
        made.in_base(),
        mass.in_base(),
        bulk.in_base(),
        grains.in_base(),
    ];
    row.signature("removal asked of porous media", &inputs, rule.asked.in_base());
    row.signature("oxygen uptake of porous media", &inputs, rule.uptake.in_base());
    row.signature("largest aerobic grain at a load", &inputs, rule.aerobic.in_base());
    row.signature("largest dirty aerobic grain at a load", &inputs, rule.aerobic_dirty.in_base());
    row.check("n_mg_per_day", rule.nitrogen.in_milligrams_per_day());
    row.check("media_L", both!(row, "media volume", packing::media_volume(mass, bulk)).in_litres());
    row.check("needed_mgN_per_L_per_day", rule.asked.in_milligrams_per_litre_day());
    row.check("uptake_g_per_m3_per_h", rule.uptake.in_grams_per_cubic_metre_hour());
    row.check("aerobic_sphere_mm", rule.aerobic.in_millimetres());
    row.check("aerobic_sphere_dirty_mm", rule.aerobic_dirty.in_millimetres());
    row.check("cod_needed_mg", rule.demand.in_milligrams_per_day());
    row.check("cod_in_solids_mg", rule.supply.in_milligrams_per_day());
}

fn media_mass(row: &Row) {
    let space = Volume::litres(row.number("space_L"));
    let bulk = Concentration::kilograms_per_cubic_metre(row.number("bulk_kg_per_m3"));
    let packed = Share::ratio(row.number("packing"));
    row.check("kg", both!(row, "media mass", packing::media_mass(space, bulk, packed)).in_kilograms());
    let volume = both!(row, "packed media", packing::packed_volume(space, packed));
    row.check("media_L", volume.in_litres());
    row.check("lost_L", space.in_litres() - volume.in_litres());
}

fn bags(row: &Row) {
    let need = Mass::kilograms(row.number("need_kg"));
    let size = Mass::kilograms(row.number("bag_kg"));
    let found = had!(row, packing::bags(need, size));
    row.signature("bags", &[need.in_base(), size.in_base()], found.count.in_base());
    row.signature("left in bags", &[need.in_base(), size.in_base()], found.left.in_base());
    row.check("bags", found.count.in_ratio());
    row.check("left_kg", found.left.in_kilograms());
}

fn layer_pressure(row: &Row) {
    let density = Concentration::kilograms_per_cubic_metre(row.number("grain_kg_per_m3"));
    let void = Share::ratio(row.number("void"));
    let depth = Length::metres(row.number("depth_m"));
    let pressure = both!(row, "layer pressure", packing::layer_pressure(density, void, depth));
    row.check("pressure_Pa", pressure.in_pascals());
}
