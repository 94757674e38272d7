//! Rules' names for the calculations of tank volume.
//! In: lengths, a nominal volume. Out: volumes. Knows no formula.

use crate::units::measure::{Length, Share, Volume};
use crate::water::basis::grounds::{PRACTICE, WORKED_OUT};
use crate::water::tank;

super::signatures! {
    "box volume"("length" length: Length, "width" width: Length, "height" height: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::box_volume(length, width, height, glass, gap);
        WORKED_OUT, "plane geometry", "(length - 2 glass) x (width - 2 glass) x (height - glass - gap)",
        "water space of a box-shaped tank from its outside measures";
    "bow-front volume"("length" length: Length, "width" width: Length, "height" height: Length, "bow" bow: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::bow_front_volume(length, width, height, bow, glass, gap);
        WORKED_OUT, "plane geometry", "(box area + circular segment) x (height - glass - gap)",
        "water space of a tank with a bowed front; width is that of the straight sides";
    "cylinder volume"("diameter" diameter: Length, "height" height: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::cylinder_volume(diameter, height, glass, gap);
        WORKED_OUT, "plane geometry", "pi / 4 x (diameter - 2 glass)^2 x (height - glass - gap)",
        "water space of an upright cylinder";
    "hexagon volume"("width across flats" across: Length, "height" height: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::hexagon_volume(across, height, glass, gap);
        WORKED_OUT, "plane geometry", "0.866 x (across - 2 glass)^2 x (height - glass - gap)",
        "water space of a six-sided tank";
    "quarter-round volume"("radius" radius: Length, "height" height: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::quarter_round_volume(radius, height, glass, gap);
        WORKED_OUT, "plane geometry", "quarter circle less its panes x (height - glass - gap)",
        "water space of a rounded corner tank";
    "half-round volume"("diameter" diameter: Length, "height" height: Length, "glass" glass: Length, "gap" gap: Length) -> Volume
        = tank::half_round_volume(diameter, height, glass, gap);
        WORKED_OUT, "plane geometry", "half circle less its panes x (height - glass - gap)",
        "water space of a half-round tank";
    "oval pond volume"("length" length: Length, "width" width: Length, "mean depth" depth: Length) -> Volume
        = tank::oval_pond_volume(length, width, depth);
        WORKED_OUT, "plane geometry", "pi / 4 x length x width x mean depth",
        "water in an oval pond";
    "water from nominal size"("nominal" nominal: Volume, "share" share: Share) -> Volume
        = tank::water_from_nominal(nominal, share);
        PRACTICE, "common practice", "nominal x share",
        "water really in a tank of which only the printed size is known";
}
