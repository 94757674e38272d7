//! The tables are complete: as many entries as the collections they were made from, and nothing in them is empty.

use super::book;
use weirline::knowledge::advice::Danger;
use weirline::knowledge::table::Table;

/// Counts of the collections that the tables were made from, taken when they were made.
#[test]
fn every_table_has_as_many_entries_as_were_collected() {
    let counts = [
        (Table::Stock, 456),
        (Table::Group, 48),
        (Table::Stage, 5),
        (Table::Plant, 31),
        (Table::Medium, 41),
        (Table::Filter, 25),
        (Table::Treatment, 32),
        (Table::Symptom, 58),
        (Table::Question, 48),
        (Table::Caution, 41),
        (Table::Ambiguous, 53),
        // 18 bodies, 6 feeds and feeding in the cold, 3 messes, 3 currents, 11 ways of breeding, 3 size words,
        // 7 plantings, 7 places in the water's way
        (Table::Class, 18 + 7 + 3 + 3 + 11 + 3 + 7 + 7),
    ];
    for (table, count) in counts {
        assert_eq!(book().count(table), count, "entries of {table:?}");
    }
    assert!(book().count(Table::Term) >= 100);
    assert!(book().count(Table::Job) >= 17);
}

#[test]
fn every_group_has_kinds_and_its_generic_entry_is_generic_or_named_for_it() {
    for group in &book().groups {
        assert!(book().stock.iter().any(|s| s.group == group.group), "{} has no kinds", group.group);
    }
}

#[test]
fn layers_of_a_filter_can_fill_its_space() {
    for filter in book().filters.iter().filter(|f| !f.order.is_empty()) {
        let sum = |end: fn(weirline::units::Spread) -> Option<f64>| -> f64 {
            let shares =
                filter.order.iter().map(|l| weirline::units::parse::quantity(&l.share).expect("checked").base());
            shares.map(|s| end(s).expect("a share has both ends")).sum()
        };
        let (low, likely, high) = (sum(|s| s.low), sum(|s| s.likely), sum(|s| s.high));
        assert!(low <= 1.0 + 1e-9 && high >= 0.7 - 1e-9, "{}: {low} to {high}", filter.filter);
        assert!((0.5..=1.05).contains(&likely), "{}: likely shares add up to {likely}", filter.filter);
    }
}

/// In a filter that takes a stack of media, strainers stand before the homes of bacteria.
#[test]
fn layers_stand_in_the_way_of_the_water() {
    let path = |medium: &str| book().amount(Table::Medium, medium, "path").and_then(|s| s.likely).expect("a path");
    for filter in &book().filters {
        // A corner box is weighed down by its stones and takes its floss on top; a reactor and a tower are single beds.
        if ["box-air", "trickle"].contains(&filter.filter.as_str()) {
            continue;
        }
        let paths: Vec<f64> = filter.order.iter().map(|l| path(&l.medium)).filter(|p| *p != 30.0).collect();
        assert!(paths.is_sorted(), "{}: {paths:?}", filter.filter);
    }
}

#[test]
fn cautions_about_people_say_who_decides() {
    for caution in book().cautions.iter().filter(|c| c.danger == Danger::People) {
        assert!(!caution.defer_to.is_empty() && caution.says.ends_with('.'), "{}", caution.caution);
    }
}

#[test]
fn in_every_job_the_plug_is_pulled_before_hands_go_in() {
    for job in &book().jobs {
        let first = job.steps.iter().position(|s| s.cautions.iter().any(|c| c == "unplug-first"));
        let opened = job.steps.iter().position(|s| {
            ["Lift", "Open", "Take", "Reach", "Slide", "Unclip"]
                .iter()
                .any(|verb| s.act.starts_with(&format!("{verb} ")))
        });
        if let (Some(first), Some(opened)) = (first, opened) {
            assert!(first <= opened, "{}: step {} before step {}", job.job, opened + 1, first + 1);
        }
        for step in &job.steps {
            assert!(step.act.starts_with(|c: char| c.is_ascii_uppercase()), "{}: {}", job.job, step.act);
        }
    }
}

/// The work that callers are led through: every kind of filter that is opened, refits, starts, moves and repairs.
const JOBS: &str = "refit-hang-on-back, clean-hang-on-back, refit-canister, clean-canister, refit-internal-filter, set-up-sponge-filter, \
    wash-sponge, set-up-foam-wall, lay-out-sump, clean-pressure-filter, wash-a-bay, take-out-gravel-plate, flush-fluidised-sand, \
    make-foam-guard, swap-cartridge-for-foam, seed-second-filter, start-tank-without-fish, start-tank-with-fish, \
    close-pond-filter-for-winter, measure-real-flow, measure-media-space, change-water, restart-after-power-cut, \
    move-house-with-filter, check-used-filter, renew-sealing-ring, free-the-impeller";

#[test]
fn the_work_of_the_trade_is_there_with_its_tools_and_when_to_stop() {
    for name in JOBS.split(", ").map(str::trim) {
        let job = book().jobs.iter().find(|j| j.job == name);
        let job = job.unwrap_or_else(|| panic!("there is no job `{name}`"));
        assert!(!job.tools.is_empty(), "{name} needs tools");
        assert!(!job.stop_and_ask.is_empty(), "{name} does not say when to stop and ask");
    }
}

/// What a reader of a term may need next is explained too, and no job or symptom is left without a way on.
#[test]
fn texts_are_there_and_short_enough_to_be_read_out() {
    for term in &book().terms {
        assert!(term.says.ends_with('.') && !term.example.is_empty(), "{}", term.term);
        assert!(term.says.len() < 300 && term.example.len() < 160, "{} is too long", term.term);
    }
    for job in &book().jobs {
        assert!(job.steps.len() >= 5, "{} has few steps", job.job);
        for step in &job.steps {
            assert!(step.act.split_whitespace().count() <= 25, "{}: {} is too long", job.job, step.act);
        }
    }
    for symptom in &book().symptoms {
        assert!(!symptom.causes.is_empty() && !symptom.questions.is_empty(), "{}", symptom.symptom);
    }
}

#[test]
fn postcard_gives_back_the_same_tables() {
    let bytes = postcard::to_stdvec(book()).expect("tables can be written");
    let again: weirline::knowledge::Knowledge = postcard::from_bytes(&bytes).expect("and read");
    assert_eq!(format!("{:?}", again), format!("{:?}", book()));
}
