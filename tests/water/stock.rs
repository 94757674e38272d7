//! Check tables of stock, feed and waste.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::{media, waste};

pub const CHECKS: &[Check] = &[
    ("filtration_fish_mass", fish_mass),
    ("filtration_feed_to_waste", feed_to_waste),
    ("filtration_fao589_example", fao_example),
];

fn fish_mass(row: &Row) {
    assert!(!row.text("shape").is_empty());
    let length = Length::centimetres(row.number("length_cm"));
    let (a, b) = (Share::ratio(row.number("a")), Share::ratio(row.number("b")));
    let mass = both!(row, "fish mass", waste::fish_mass(length, a, b));
    row.check("mass_g", mass.in_grams());
}

fn feed_to_waste(row: &Row) {
    let fish = Mass::grams(row.number("fish_g"));
    let fed = Rate::per_day(row.number("feed_fraction_per_day"));
    let protein = Share::ratio(row.number("protein_fraction"));
    let feed = both!(row, "feed per day", waste::feed(fish, fed));
    row.check("feed_g_per_day", feed.in_grams_per_day());

    let tan = both!(row, "ammonia from feed", waste::ammonia_from_feed(feed, protein, Share::ratio(0.092)));
    row.check("tan_mgN_per_day", tan.in_milligrams_per_day());
    let r = Share::ratio;
    let chain = both!(row, "ammonia per protein", waste::ammonia_per_protein(r(0.16), r(0.80), r(0.80), r(0.90)));
    let tan = both!(row, "ammonia from feed", waste::ammonia_from_feed(feed, protein, chain));
    row.check("tan_chain_mgN_per_day", tan.in_milligrams_per_day());

    let ammonia = both!(row, "ammonia molecule from feed", waste::ammonia_molecule_from_feed(feed, protein));
    row.check("nh3_fao_mg_per_day", ammonia.in_milligrams_per_day());
    row.check("nh3_fao_as_mgN_per_day", ammonia.in_milligrams_per_day() / (17.031 / 14.007));
    let solids = both!(row, "solids from feed", waste::solids_from_feed(feed, r(0.25)));
    row.check("solids_dry_g_per_day", solids.in_grams_per_day());
    let oxygen = both!(row, "oxygen from feed", waste::oxygen_from_feed(feed, r(0.25)));
    row.check("o2_fish_mg_per_day", oxygen.in_milligrams_per_day());
    let oxygen = both!(row, "oxygen from feed", waste::oxygen_from_feed(feed, r(0.40)));
    row.check("o2_system_mg_per_day", oxygen.in_milligrams_per_day());
}

/// Each row is one step of the worked example.
fn fao_example(row: &Row) {
    let feed = MassRate::grams_per_day(200.0);
    let protein = Share::ratio(0.32);
    let nitrogen = both!(row, "nitrogen in feed", waste::nitrogen_in_feed(feed, protein));
    let ammonia = both!(row, "ammonia molecule from feed", waste::ammonia_molecule_from_feed(feed, protein));
    let rate = ArealRate::grams_per_square_metre_day(0.57);
    let area = both!(row, "media area needed", media::area_needed(ammonia, rate));
    let surface = SpecificSurface::square_metres_per_cubic_metre(300.0);
    let all = Share::ratio(1.0);
    let volume = both!(row, "media needed", media::media_needed(ammonia, rate, surface, all));
    let got = match row.text("step") {
        "feed_g_per_day" => feed.in_grams_per_day(),
        "protein_g" => nitrogen.in_grams_per_day() / 0.16,
        "nitrogen_g" => nitrogen.in_grams_per_day(),
        "nitrogen_excreted_g" => ammonia.in_grams_per_day() / 1.2,
        "ammonia_g_per_day" => ammonia.in_grams_per_day(),
        "area_m2" => area.in_square_metres(),
        "media_litres" => volume.in_litres(),
        other => panic!("unknown step {other}"),
    };
    row.check("value", got);
}
