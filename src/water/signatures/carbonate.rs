//! Rules' names for the calculations of KH, CO2, chlorine and doses.
//! In: hardness, pH, temperature, water. Out: concentrations, pH, masses. Knows no formula.

use crate::units::measure::{Acidity, Concentration, Mass, MassRate, Pressure, Share, Temperature, Time, Volume};
use crate::water::basis::grounds::{PRACTICE, READ, WORKED_OUT};
use crate::water::chlorine::Thiosulfate;
use crate::water::{alkalinity, carbonate, chlorine, dose};

const EQUILIBRIUM: &str = "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040, Davies activity";

super::signatures! {
    "dissolved carbon dioxide"("KH" kh: Concentration, "temperature" t: Temperature, "pH" ph: Acidity) -> Concentration
        = carbonate::carbon_dioxide(kh, t, ph);
        READ, EQUILIBRIUM, "HCO3 x h / K1",
        "CO2 in fresh water, where carbonate is the only buffer";
    "carbon dioxide by thumb"("KH" kh: Concentration, "pH" ph: Acidity) -> Concentration
        = carbonate::carbon_dioxide_by_thumb(kh, ph);
        PRACTICE, "common practice", "3 x dKH x 10^(7 - pH)",
        "the rule of thumb: 0.74 to 0.98 of the true value";
    "aired pH"("KH" kh: Concentration, "temperature" t: Temperature, "CO2 of the air" air: Pressure) -> Acidity
        = carbonate::aired_ph(kh, t, air);
        READ, EQUILIBRIUM, "pH at which CO2 is that of the air",
        "pH of a water after airing";
    "mixed pH"("first volume" v1: Volume, "first KH" kh1: Concentration, "first pH" ph1: Acidity, "second volume" v2: Volume, "second KH" kh2: Concentration, "second pH" ph2: Acidity, "temperature" t: Temperature) -> Acidity
        = carbonate::mixed_ph((v1, kh1, ph1), (v2, kh2, ph2), t);
        READ, EQUILIBRIUM, "pH of the mixed KH and total carbon",
        "pH of two waters mixed, about";
    "KH used"("nitrogen" nitrogen: Mass, "alkalinity per nitrogen" factor: Share, "water" water: Volume) -> Concentration
        = alkalinity::kh_used(nitrogen, factor, water);
        WORKED_OUT, "stoichiometry", "nitrogen x 7.1455 / water",
        "KH that nitrification takes; -3.57 for denitrification gives it back";
    "time to KH"("now" now: Concentration, "floor" floor: Concentration, "ammonia made" made: MassRate, "alkalinity per nitrogen" factor: Share, "water" water: Volume) -> Time
        = alkalinity::time_to_kh(now, floor, made, factor, water);
        WORKED_OUT, "mass balance", "(now - floor) x water / (ammonia x 7.1455)",
        "time until KH is down to a floor without a change";
    "baking soda for KH"("KH rise" rise: Concentration, "water" water: Volume) -> Mass
        = alkalinity::bicarbonate(rise, water);
        WORKED_OUT, "arithmetic", "rise x water x 84.006 / 50.04",
        "sodium hydrogencarbonate to raise KH; test for ammonia first";
    "KH after baking soda"("KH" now: Concentration, "baking soda" soda: Mass, "water" water: Volume) -> Concentration
        = alkalinity::kh_after_bicarbonate(now, soda, water);
        WORKED_OUT, "arithmetic", "KH + soda / water x 50.04 / 84.006",
        "KH once baking soda is in";
    "thiosulfate crystals"("chlorine" level: Concentration, "water" water: Volume, "moles per chlorine" moles: Share) -> Mass
        = chlorine::thiosulfate(level, water, moles, Thiosulfate::Pentahydrate);
        WORKED_OUT, "reaction to tetrathionate, sulfur or sulfate", "chlorine x water / 70.90 x moles x 248.17",
        "sodium thiosulfate pentahydrate that removes chlorine; 2 mol covers every path";
    "thiosulfate powder"("chlorine" level: Concentration, "water" water: Volume, "moles per chlorine" moles: Share) -> Mass
        = chlorine::thiosulfate(level, water, moles, Thiosulfate::Anhydrous);
        WORKED_OUT, "reaction to tetrathionate, sulfur or sulfate", "chlorine x water / 70.90 x moles x 158.10",
        "anhydrous sodium thiosulfate that removes chlorine";
    "ammonia from chloramine"("chloramine" level: Concentration, "free ammonia of the tap" free: Concentration, "share changed" share: Share) -> Concentration
        = chlorine::chloramine_ammonia(level, free, share);
        WORKED_OUT, "NH2Cl: one N for each Cl2", "(chloramine x 0.1976 + free ammonia) x share",
        "total ammonia as N that chloraminated tap water leaves in the tank";
    "dose"("target" target: Concentration, "water" water: Volume, "active share" active: Share) -> Mass
        = dose::dose(target, water, active);
        WORKED_OUT, "arithmetic", "target x water / active share",
        "mass for a concentration; the label and the vet decide";
    "dose after a change"("target" target: Concentration, "water" water: Volume, "share changed" share: Share, "time since the dose" time: Time, "half-life" half: Time) -> Mass
        = dose::redose(target, water, share, time, half);
        WORKED_OUT, "arithmetic", "target x (1 - (1 - share) x 0.5^(time / half-life)) x water",
        "what to add back after a change; half-life 0 does not decay";
    "ammonium chloride"("target" target: Concentration, "water" water: Volume) -> Mass
        = dose::ammonium_chloride(target, water);
        WORKED_OUT, "arithmetic", "target x water x 3.819",
        "ammonium chloride for a total ammonia as N, for a start without fish";
    "ammonia solution"("target" target: Concentration, "water" water: Volume, "strength" strength: Share, "density" density: Concentration) -> Volume
        = dose::ammonia_solution(target, water, strength, density);
        WORKED_OUT, "arithmetic", "target x water x 1.2159 / (strength x density)",
        "plain ammonia solution for a total ammonia as N, for a start without fish";
}
