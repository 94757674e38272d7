//! Rules' names for the calculations of ammonia, nitrogen forms and nitrite.
//! In: concentrations, temperature, pH. Out: shares, concentrations, salt. Knows no formula.

use crate::units::measure::{Acidity, Concentration, IonicStrength, Mass, Salinity, Share, Temperature, Volume};
use crate::water::ammonia::{self, Protected};
use crate::water::basis::grounds::{MEMORY, READ, SECOND_HAND, WORKED_OUT};
use crate::water::nitrite;
use crate::water::nitrogen_forms::{Form, nitrogen_form};

const WEIGHTS: &str = "IUPAC 2021 abridged atomic weights";
const EMERSON: &str = "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383";
const CRITERIA: &str = "US EPA 2013, EPA-822-R-13-001";

super::signatures! {
    "ammonia fraction"("temperature" t: Temperature, "pH" ph: Acidity) -> Share
        = ammonia::unionised_fraction(t, ph);
        READ, EMERSON, "1 / (1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92 / T",
        "share of total ammonia that is un-ionised (toxic), fresh water";
    "ammonia fraction at ionic strength"("temperature" t: Temperature, "pH" ph: Acidity, "ionic strength" strength: IonicStrength) -> Share
        = ammonia::unionised_fraction_at_strength(t, ph, strength);
        READ, EMERSON, "1 / (1 + 10^(pKa - log activity - pH))",
        "the same with the salts of the water allowed for (mol/L)";
    "ammonia fraction in salt water"("temperature" t: Temperature, "salinity" salinity: Salinity, "pH" ph: Acidity) -> Share
        = ammonia::unionised_fraction_in_salt(t, salinity, ph);
        MEMORY, "US EPA 440/5-88-004 (1989) after Hampson 1977 and Whitfield 1974", "1 / (1 + 10^(pKa - pH)), pKa = 9.245 + 0.116 I + 0.0324 (25 - t)",
        "share of total ammonia that is un-ionised, 5 to 40 g/kg";
    "unionised ammonia"("total ammonia" tan: Concentration, "temperature" t: Temperature, "pH" ph: Acidity) -> Concentration
        = ammonia::unionised_ammonia(tan, t, ph);
        READ, EMERSON, "fraction x total ammonia",
        "un-ionised ammonia as N, from total ammonia as N, fresh water";
    "bearable ammonia"("limit of unionised ammonia" limit: Concentration, "temperature" t: Temperature, "pH" ph: Acidity) -> Concentration
        = ammonia::bearable_ammonia(limit, t, ph);
        READ, EMERSON, "limit / fraction",
        "total ammonia as N that keeps un-ionised ammonia at a limit";
    "acute ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::acute_criterion(ph, t, Protected { salmonids: false, mussels: false, early_stages: true });
        SECOND_HAND, CRITERIA, "k x min(51.93, 62.15 x 10^(0.036 (20 - t)))",
        "one-hour criterion for wild waters, total ammonia as N, no mussels, no salmonids";
    "acute mussel ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::acute_criterion(ph, t, Protected { salmonids: false, mussels: true, early_stages: true });
        SECOND_HAND, CRITERIA, "k x min(51.93, 23.12 x 10^(0.036 (20 - t)))",
        "one-hour criterion for wild waters, total ammonia as N, mussels or snails kept";
    "acute salmonid ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::acute_criterion(ph, t, Protected { salmonids: true, mussels: false, early_stages: true });
        SECOND_HAND, CRITERIA, "min(0.275 / a + 39.0 / b, k x 62.15 x 10^(0.036 (20 - t)))",
        "one-hour criterion for wild waters, total ammonia as N, trout kept, no mussels";
    "acute salmonid mussel ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::acute_criterion(ph, t, Protected { salmonids: true, mussels: true, early_stages: true });
        SECOND_HAND, CRITERIA, "min(0.275 / a + 39.0 / b, k x 23.12 x 10^(0.036 (20 - t)))",
        "one-hour criterion for wild waters, total ammonia as N, trout and mussels";
    "chronic ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::chronic_criterion(ph, t, Protected { salmonids: false, mussels: false, early_stages: true });
        SECOND_HAND, CRITERIA, "0.9405 x [pH] x min(6.92, 7.547 x 10^(0.028 (20 - t)))",
        "thirty-day criterion, total ammonia as N, fry present, no mussels: the nearest to a tank";
    "chronic ammonia criterion without fry"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::chronic_criterion(ph, t, Protected { salmonids: false, mussels: false, early_stages: false });
        SECOND_HAND, CRITERIA, "0.9405 x [pH] x 7.547 x 10^(0.028 (20 - max(t, 7)))",
        "thirty-day criterion, total ammonia as N, neither fry nor mussels";
    "chronic mussel ammonia criterion"("pH" ph: Acidity, "temperature" t: Temperature) -> Concentration
        = ammonia::chronic_criterion(ph, t, Protected { salmonids: false, mussels: true, early_stages: true });
        SECOND_HAND, CRITERIA, "0.8876 x [pH] x 2.126 x 10^(0.028 (20 - max(t, 7)))",
        "thirty-day criterion, total ammonia as N, mussels or snails kept";
    "ammonia from nitrogen"("as N" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrogen, Form::Ammonia);
        WORKED_OUT, WEIGHTS, "N x 1.2159", "ammonia as NH3, from the same as N";
    "ammonium from nitrogen"("as N" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrogen, Form::Ammonium);
        WORKED_OUT, WEIGHTS, "N x 1.2879", "ammonium as NH4, from the same as N";
    "nitrite from nitrogen"("as N" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrogen, Form::Nitrite);
        WORKED_OUT, WEIGHTS, "N x 3.2844", "nitrite as NO2, from the same as N";
    "nitrate from nitrogen"("as N" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrogen, Form::Nitrate);
        WORKED_OUT, WEIGHTS, "N x 4.4266", "nitrate as NO3, from the same as N";
    "nitrogen in ammonia"("as NH3" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Ammonia, Form::Nitrogen);
        WORKED_OUT, WEIGHTS, "NH3 / 1.2159", "ammonia as N, from the same as NH3";
    "nitrogen in ammonium"("as NH4" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Ammonium, Form::Nitrogen);
        WORKED_OUT, WEIGHTS, "NH4 / 1.2879", "ammonia as N, from the same as NH4";
    "nitrogen in nitrite"("as NO2" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrite, Form::Nitrogen);
        WORKED_OUT, WEIGHTS, "NO2 / 3.2844", "nitrite as N, from the same as NO2";
    "nitrogen in nitrate"("as NO3" value: Concentration) -> Concentration
        = nitrogen_form(value, Form::Nitrate, Form::Nitrogen);
        WORKED_OUT, WEIGHTS, "NO3 / 4.4266", "nitrate as N, from the same as NO3";
    "chloride for nitrite"("nitrite as N" nitrite: Concentration, "ratio" ratio: Share) -> Concentration
        = nitrite::chloride_wanted(nitrite, ratio);
        READ, "Southern Regional Aquaculture Center 462; Tomasso, Simco & Davis 1979", "ratio x nitrite",
        "chloride that keeps nitrite out of the blood of many fish";
    "salt for nitrite"("nitrite as N" nitrite: Concentration, "ratio" ratio: Share, "chloride present" present: Concentration, "water" water: Volume) -> Mass
        = nitrite::salt_for_nitrite(nitrite, ratio, present, water);
        READ, "Southern Regional Aquaculture Center 462; Tomasso, Simco & Davis 1979", "(ratio x nitrite - present) x 1.6485 x water",
        "plain salt to reach that chloride";
}
