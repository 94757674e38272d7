//! Check tables of flow through tank and filter.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::flow;

pub const CHECKS: &[Check] = &[("filtration_turnover", turnover), ("filtration_bucket_flow", bucket_flow)];

fn turnover(row: &Row) {
    let flow = Flow::litres_per_hour(row.number("flow_L_per_h"));
    let media = Volume::litres(row.number("media_L"));
    let area = Area::square_metres(row.number("area_m2"));
    let void = Share::ratio(row.number("void"));
    let tank = Volume::litres(row.number("tank_L"));
    let turnover = both!(row, "turnover", flow::turnover(flow, tank));
    row.check("turnover_per_h", turnover.in_per_hour());
    row.check("passes_per_day", turnover.in_per_day());
    let back = both!(row, "flow for turnover", flow::flow_for_turnover(turnover, tank));
    row.check("flow_L_per_h", back.in_litres_per_hour());
    row.check("empty_bed_s", both!(row, "empty bed contact", flow::empty_bed_contact(media, flow)).in_seconds());
    row.check("pore_s", both!(row, "pore contact", flow::pore_contact(media, void, flow)).in_seconds());
    let speed = both!(row, "superficial speed", flow::superficial_speed(flow, area));
    row.check("superficial_mm_per_s", speed.in_millimetres_per_second());
}

fn bucket_flow(row: &Row) {
    let (v, dv) = (Volume::litres(row.number("litres")), Volume::litres(row.number("d_litres")));
    let (t, dt) = (Time::seconds(row.number("seconds")), Time::seconds(row.number("d_seconds")));
    let test = had!(row, flow::bucket_flow(v, t, dv, dt));
    let inputs = [v.in_base(), t.in_base(), dv.in_base(), dt.in_base()];
    row.signature("bucket flow", &inputs[..2], test.flow.in_base());
    row.signature("error of bucket flow", &inputs, test.likely_error.in_base());
    row.signature("worst error of bucket flow", &inputs, test.worst_error.in_base());
    row.signature("least bucket flow", &inputs, test.low.in_base());
    row.signature("greatest bucket flow", &inputs, test.high.in_base());
    row.check("flow_L_per_h", test.flow.in_litres_per_hour());
    row.check("err_independent", test.likely_error.in_litres_per_hour());
    row.check("err_worst", test.worst_error.in_litres_per_hour());
    row.check("low", test.low.in_litres_per_hour());
    row.check("high", test.high.in_litres_per_hour());
}
