//! Check tables of intakes, guards and foam pores.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::pore::Verdict;
use weirline::water::{intake, pore};

pub const CHECKS: &[Check] = &[
    ("filtration_intake_velocity", intake_velocity),
    ("filtration_fry_intake_area", fry_intake_area),
    ("filtration_foam_pore", foam_pore),
];

fn intake_velocity(row: &Row) {
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let outer = Length::millimetres(row.number("outer_mm"));
    let height = Length::millimetres(row.number("height_mm"));
    let open = Share::ratio(row.number("open_fraction"));
    let area = match row.text("kind") {
        "strainer" => both!(row, "strainer area", intake::strainer_area(outer, height)),
        "foam_cylinder" => both!(row, "foam guard area", intake::foam_guard_area(outer, height)),
        other => panic!("unknown kind {other}"),
    };
    row.check("area_cm2", area.in_square_centimetres());
    let approach = both!(row, "approach velocity", intake::approach_speed(flow, area));
    row.check("approach_mm_per_s", approach.in_millimetres_per_second());
    let through = both!(row, "opening velocity", intake::opening_speed(flow, area, open));
    row.check("local_mm_per_s", through.in_millimetres_per_second());
}

fn fry_intake_area(row: &Row) {
    let length = Length::millimetres(row.number("fry_length_mm"));
    let lengths = Rate::per_second(row.number("body_lengths_per_s"));
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let speed = both!(row, "swimming speed", intake::swim_speed(length, lengths));
    row.check("max_approach_mm_per_s", speed.in_millimetres_per_second());
    for (column, blocked) in [("area_clean_cm2", Share::ratio(0.0)), ("area_half_blocked_cm2", Share::ratio(0.5))] {
        let area = both!(row, "guard area needed", intake::guard_area_needed(flow, speed, blocked));
        row.check(column, area.in_square_centimetres());
        let back = both!(row, "flow a guard bears", intake::flow_a_guard_bears(speed, area, blocked));
        row.check("flow_L_per_h", back.in_litres_per_hour());
    }
}

fn foam_pore(row: &Row) {
    let ppi = PoreCount::per_inch(row.number("ppi"));
    let half = Share::ratio(0.5);
    let width = Length::millimetres(row.number("body_width_mm"));
    row.check("cell_mm", both!(row, "foam cell", pore::cell(ppi)).in_millimetres());
    row.check("window_mm", both!(row, "foam window", pore::window(ppi, half)).in_millimetres());
    let verdict = match had!(row, pore::pore_verdict(ppi, half, width)) {
        Verdict::KeptOut => "kept_out",
        Verdict::MostlyKeptOut => "mostly",
        Verdict::Passes => "passes",
    };
    row.same("verdict", verdict);
    let coarsest = both!(row, "coarsest foam", pore::coarsest_foam(width));
    assert_eq!(verdict == "kept_out", ppi >= coarsest, "{}", row.place());
}
