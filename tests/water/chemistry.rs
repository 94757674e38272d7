//! Check tables of ammonia, nitrite and the forms of nitrogen.

use super::table::{Check, Row};
use weirline::units::measure::*;
use weirline::water::ammonia::{self, Protected};
use weirline::water::nitrite;
use weirline::water::nitrogen_forms::{self, Form};

pub const CHECKS: &[Check] = &[
    ("water_ammonia_fraction", ammonia_fraction),
    ("water_ammonia_fraction_ionic", ammonia_fraction_ionic),
    ("water_ammonia_fraction_salt", ammonia_fraction_salt),
    ("water_tan_allowed", tan_allowed),
    ("water_epa2013_ammonia", criteria),
    ("water_nitrogen_forms", nitrogen_form),
    ("filtration_nitrogen_units", nitrogen_factor),
    ("water_nitrite_chloride", nitrite_chloride),
];

fn celsius(row: &Row) -> Temperature {
    Temperature::celsius(row.number("t_c"))
}

fn ph(row: &Row) -> Acidity {
    Acidity::ph(row.number("ph"))
}

fn ammonia_fraction(row: &Row) {
    let (t, ph) = (celsius(row), ph(row));
    let fraction = both!(row, "ammonia fraction", ammonia::unionised_fraction(t, ph));
    row.expect(fraction.in_ratio());
    let tan = Concentration::milligrams_per_litre(2.0);
    let part = both!(row, "unionised ammonia", ammonia::unionised_ammonia(tan, t, ph));
    row.expect(part.in_milligrams_per_litre() / 2.0);
}

fn ammonia_fraction_ionic(row: &Row) {
    let (t, ph) = (celsius(row), ph(row));
    let strength = IonicStrength::moles_per_litre(row.number("ionic_strength"));
    let got =
        both!(row, "ammonia fraction at ionic strength", ammonia::unionised_fraction_at_strength(t, ph, strength));
    row.expect(got.in_ratio());
}

fn ammonia_fraction_salt(row: &Row) {
    let (t, ph) = (celsius(row), ph(row));
    let salinity = Salinity::grams_per_kilogram(row.number("salinity"));
    let got = both!(row, "ammonia fraction in salt water", ammonia::unionised_fraction_in_salt(t, salinity, ph));
    row.expect(got.in_ratio());
}

fn tan_allowed(row: &Row) {
    let limit = Concentration::milligrams_per_litre(row.number("nh3n_limit"));
    let (t, ph) = (celsius(row), ph(row));
    let got = both!(row, "bearable ammonia", ammonia::bearable_ammonia(limit, t, ph));
    row.expect(got.in_milligrams_per_litre());
}

fn criteria(row: &Row) {
    let (t, ph) = (celsius(row), ph(row));
    let of = |salmonids, mussels, early_stages| Protected { salmonids, mussels, early_stages };
    let (signature, got) = match row.text("criterion") {
        "cmc" => ("acute mussel ammonia criterion", had!(row, ammonia::acute_criterion(ph, t, of(false, true, true)))),
        "cmc_nomussel" => {
            ("acute ammonia criterion", had!(row, ammonia::acute_criterion(ph, t, of(false, false, true))))
        }
        "cmc_salmonid" => (
            "acute salmonid mussel ammonia criterion",
            had!(row, ammonia::acute_criterion(ph, t, of(true, true, true))),
        ),
        "cmc_salmonid_nomussel" => {
            ("acute salmonid ammonia criterion", had!(row, ammonia::acute_criterion(ph, t, of(true, false, true))))
        }
        "ccc" => {
            ("chronic mussel ammonia criterion", had!(row, ammonia::chronic_criterion(ph, t, of(false, true, true))))
        }
        "ccc_fry" => {
            ("chronic ammonia criterion", had!(row, ammonia::chronic_criterion(ph, t, of(false, false, true))))
        }
        other => panic!("unknown criterion {other}"),
    };
    row.signature(signature, &[ph.in_base(), t.in_base()], got.in_base());
    row.expect(got.in_milligrams_per_litre());
}

fn form(name: &str) -> Form {
    match name {
        "N" | "NO3-N" | "NO2-N" | "TAN-N" => Form::Nitrogen,
        "NH3" => Form::Ammonia,
        "NH4" => Form::Ammonium,
        "NO2" => Form::Nitrite,
        "NO3" => Form::Nitrate,
        other => panic!("unknown form {other}"),
    }
}

fn change_form(row: &Row, value: f64) -> f64 {
    let value = Concentration::milligrams_per_litre(value);
    let (from, to) = (form(row.text("from")), form(row.text("to")));
    let got = had!(row, nitrogen_forms::nitrogen_form(value, from, to));
    let signature = match (from, to) {
        (Form::Nitrogen, Form::Ammonia) => "ammonia from nitrogen",
        (Form::Nitrogen, Form::Ammonium) => "ammonium from nitrogen",
        (Form::Nitrogen, Form::Nitrite) => "nitrite from nitrogen",
        (Form::Nitrogen, Form::Nitrate) => "nitrate from nitrogen",
        (Form::Ammonia, Form::Nitrogen) => "nitrogen in ammonia",
        (Form::Ammonium, Form::Nitrogen) => "nitrogen in ammonium",
        (Form::Nitrite, Form::Nitrogen) => "nitrogen in nitrite",
        (Form::Nitrate, Form::Nitrogen) => "nitrogen in nitrate",
        _ => return got.in_milligrams_per_litre(),
    };
    row.signature(signature, &[value.in_base()], got.in_base());
    got.in_milligrams_per_litre()
}

fn nitrogen_form(row: &Row) {
    row.expect(change_form(row, row.number("value")));
}

fn nitrogen_factor(row: &Row) {
    row.check("factor", change_form(row, 1.0));
}

fn nitrite_chloride(row: &Row) {
    let nitrite = Concentration::milligrams_per_litre(row.number("no2n"));
    let present = Concentration::milligrams_per_litre(row.number("cl_present"));
    let (ratio, water) = (Share::ratio(row.number("ratio")), Volume::litres(row.number("volume_l")));
    let salt = both!(row, "salt for nitrite", nitrite::salt_for_nitrite(nitrite, ratio, present, water));
    row.expect(salt.in_grams());
    let wanted = both!(row, "chloride for nitrite", nitrite::chloride_wanted(nitrite, ratio));
    let missing = (wanted.in_milligrams_per_litre() - row.number("cl_present")).max(0.0);
    row.expect(missing * 58.44 / 35.45 * water.in_litres() / 1000.0);
}
