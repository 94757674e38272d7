//! Rules' names for the calculations of intakes, guards and swimming.
//! In: flows, sizes, lengths. Out: areas and speeds. Knows no formula.

use crate::units::measure::{Area, Flow, Length, Rate, Share, Speed};
use crate::water::basis::grounds::{FROM_MEMORY, WORKED_OUT};
use crate::water::{intake, pore};

super::signatures! {
    "approach velocity"("flow" flow: Flow, "outside area" area: Area) -> Speed
        = intake::approach_speed(flow, area);
        WORKED_OUT, "continuity", "flow / outside area",
        "speed of the water at the outside of a strainer or guard";
    "opening velocity"("flow" flow: Flow, "outside area" area: Area, "open share" open: Share) -> Speed
        = intake::opening_speed(flow, area, open);
        WORKED_OUT, "continuity", "flow / (outside area x open share)",
        "speed through the slots, or at a guard partly blocked";
    "strainer area"("diameter" diameter: Length, "height" height: Length) -> Area
        = intake::strainer_area(diameter, height);
        WORKED_OUT, "geometry", "pi x diameter x height",
        "outside area of a round strainer";
    "foam guard area"("diameter" diameter: Length, "height" height: Length) -> Area
        = intake::foam_guard_area(diameter, height);
        WORKED_OUT, "geometry", "pi x diameter x height + pi / 4 x diameter^2",
        "outside area of a round foam guard: side and one end";
    "block guard area"("length" length: Length, "width" width: Length, "height" height: Length) -> Area
        = intake::block_guard_area(length, width, height);
        WORKED_OUT, "geometry", "2 (length + width) x height + length x width",
        "outside area of a square foam guard: four sides and one end";
    "swimming speed"("length" length: Length, "body lengths per second" lengths: Rate) -> Speed
        = intake::swim_speed(length, lengths);
        FROM_MEMORY, "design figures below published sustained speeds", "length x body lengths per second",
        "speed that a small fish holds against";
    "guard area needed"("flow" flow: Flow, "speed" speed: Speed, "blocked share" blocked: Share) -> Area
        = intake::guard_area_needed(flow, speed, blocked);
        WORKED_OUT, "continuity", "flow / speed / (1 - blocked)",
        "outside area of a guard that keeps the approach velocity at a speed";
    "flow a guard bears"("speed" speed: Speed, "guard area" area: Area, "blocked share" blocked: Share) -> Flow
        = intake::flow_a_guard_bears(speed, area, blocked);
        WORKED_OUT, "continuity", "speed x area x (1 - blocked)",
        "most flow that a guard bears at an approach velocity";
    "body width"("length" length: Length, "width share" share: Share) -> Length
        = pore::body_width(length, share);
        FROM_MEMORY, "share from memory", "length x 0.16",
        "width of a small fish's body";
}
