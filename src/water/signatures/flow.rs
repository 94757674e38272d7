//! Rules' names for the calculations of flow through tank and filter.
//! In: flows, volumes, areas. Out: rates, times, speeds. Knows no formula.

use crate::units::measure::{Area, Flow, Rate, Share, Speed, Time, Volume};
use crate::water::basis::grounds::{FROM_MEMORY, WORKED_OUT};
use crate::water::flow;

super::signatures! {
    "turnover"("flow" flow: Flow, "water" water: Volume) -> Rate
        = flow::turnover(flow, water);
        WORKED_OUT, "by definition", "flow / water",
        "how often the filter passes the water of the tank";
    "flow for turnover"("turnover" turnover: Rate, "water" water: Volume) -> Flow
        = flow::flow_for_turnover(turnover, water);
        WORKED_OUT, "by definition", "turnover x water",
        "flow that gives a turnover";
    "real flow"("rated flow" rated: Flow, "real share" share: Share) -> Flow
        = flow::real_flow(rated, share);
        FROM_MEMORY, "shares from memory", "rated flow x real share",
        "flow really delivered, from the one printed on the filter";
    "empty bed contact"("media" media: Volume, "flow" flow: Flow) -> Time
        = flow::empty_bed_contact(media, flow);
        WORKED_OUT, "by definition", "media / flow",
        "contact time as if the media filled nothing";
    "pore contact"("media" media: Volume, "void" void: Share, "flow" flow: Flow) -> Time
        = flow::pore_contact(media, void, flow);
        WORKED_OUT, "by definition", "void x media / flow",
        "contact time in the gaps of the media";
    "superficial speed"("flow" flow: Flow, "cross-section" area: Area) -> Speed
        = flow::superficial_speed(flow, area);
        WORKED_OUT, "continuity", "flow / cross-section",
        "speed of the water through the media chamber as if it were empty";
    "bucket flow"("bucket" bucket: Volume, "time" time: Time) -> Flow
        = flow::bucket_flow(bucket, time, Volume::base(0.0), Time::base(0.0)).map(|test| test.flow);
        WORKED_OUT, "by definition", "bucket / time",
        "flow by bucket and stopwatch";
    "error of bucket flow"("bucket" bucket: Volume, "time" time: Time, "error of the bucket" dv: Volume, "error of the time" dt: Time) -> Flow
        = flow::bucket_flow(bucket, time, dv, dt).map(|test| test.likely_error);
        WORKED_OUT, "Gauss' law of errors", "flow x sqrt((dV / V)^2 + (dt / t)^2)",
        "likely error of a bucket test";
    "worst error of bucket flow"("bucket" bucket: Volume, "time" time: Time, "error of the bucket" dv: Volume, "error of the time" dt: Time) -> Flow
        = flow::bucket_flow(bucket, time, dv, dt).map(|test| test.worst_error);
        WORKED_OUT, "first order", "flow x (dV / V + dt / t)",
        "error of a bucket test when both readings are wrong the same way";
    "least bucket flow"("bucket" bucket: Volume, "time" time: Time, "error of the bucket" dv: Volume, "error of the time" dt: Time) -> Flow
        = flow::bucket_flow(bucket, time, dv, dt).map(|test| test.low);
        WORKED_OUT, "by definition", "(V - dV) / (t + dt)",
        "least flow that a bucket test allows";
    "greatest bucket flow"("bucket" bucket: Volume, "time" time: Time, "error of the bucket" dv: Volume, "error of the time" dt: Time) -> Flow
        = flow::bucket_flow(bucket, time, dv, dt).map(|test| test.high);
        WORKED_OUT, "by definition", "(V + dV) / (t - dt)",
        "greatest flow that a bucket test allows";
    "bypass share"("flow through the media" through: Flow, "flow" whole: Flow) -> Share
        = flow::bypass_share(through, whole);
        WORKED_OUT, "continuity", "1 - through / flow",
        "share of the flow that goes past the media";
}
