//! Rules' names for the calculations of stock, feed and waste.
//! In: lengths, masses, shares. Out: masses and masses per time. Knows no formula.

use crate::units::measure::{Length, Mass, MassRate, Rate, Share};
use crate::water::basis::grounds::{FROM_MEMORY, MEMORY, READ, WORKED_OUT};
use crate::water::waste;

super::signatures! {
    "fish mass"("length" length: Length, "a" a: Share, "b" b: Share) -> Mass
        = waste::fish_mass(length, a, b);
        READ, "Froese 2006, J. Appl. Ichthyol. 22:241-253", "a x length^b (g, cm)",
        "mass of one fish from its total length and the shape of its body";
    "total length"("length without tail" standard: Length, "tail factor" factor: Share) -> Length
        = waste::total_length(standard, factor);
        FROM_MEMORY, "from memory", "length x factor",
        "length of a fish to the tip of its tail, from the length without it";
    "feed per day"("fish mass" fish: Mass, "feed share per day" fed: Rate) -> MassRate
        = waste::feed(fish, fed);
        WORKED_OUT, "by definition", "fish mass x feed share",
        "dry feed a day";
    "dry feed"("wet feed" wet: MassRate, "dry share" share: Share) -> MassRate
        = waste::dry_feed(wet, share);
        WORKED_OUT, "by definition", "wet feed x dry share",
        "dry matter in frozen or live food";
    "ammonia from feed"("feed" feed: MassRate, "protein" protein: Share, "made per protein" made: Share) -> MassRate
        = waste::ammonia_from_feed(feed, protein, made);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "feed x protein x 0.092",
        "total ammonia nitrogen made a day, as N";
    "ammonia per protein"("nitrogen in protein" nitrogen: Share, "assimilated" assimilated: Share, "excreted" excreted: Share, "as ammonia" ammonia: Share) -> Share
        = waste::ammonia_per_protein(nitrogen, assimilated, excreted, ammonia);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "0.16 x 0.80 x 0.80 x 0.90",
        "the factor of ammonia from feed, from its parts";
    "ammonia molecule from feed"("feed" feed: MassRate, "protein" protein: Share) -> MassRate
        = waste::ammonia_molecule_from_feed(feed, protein);
        MEMORY, "Somerville et al. 2014, FAO Fisheries and Aquaculture Technical Paper 589, appendix 4", "feed x protein x 0.16 x 0.61 x 1.2",
        "ammonia made a day as NH3, by a design manual";
    "nitrogen in feed"("feed" feed: MassRate, "protein" protein: Share) -> MassRate
        = waste::nitrogen_in_feed(feed, protein);
        FROM_MEMORY, "16 % N in protein", "feed x protein x 0.16",
        "all nitrogen fed a day; what uneaten feed gives in the end";
    "solids from feed"("feed" feed: MassRate, "solids per feed" solids: Share) -> MassRate
        = waste::solids_from_feed(feed, solids);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "feed x 0.25",
        "dry dirt made a day";
    "oxygen from feed"("feed" feed: MassRate, "oxygen per feed" oxygen: Share) -> MassRate
        = waste::oxygen_from_feed(feed, oxygen);
        MEMORY, "Timmons & Ebeling, Recirculating Aquaculture", "feed x 0.25 (fish), x 0.40 (with bacteria)",
        "oxygen used over days, from feed";
}
