//! The book's pictures: their lines against the same course stepped here day by day, and the order in which a filter ripens.

use super::call::BOOK;
use weirline::case::Ledger;
use weirline::doubt::course::{Course, course};
use weirline::doubt::{TankView, assess};
use weirline::units::unit;

const DAY: f64 = 86400.0;
const MILLIGRAMS_PER_LITRE: f64 = 1e-3;

fn tank(line: &str) -> TankView {
    let mut ledger = Ledger::default();
    ledger.take(crate::listen::listener().read(line, &ledger.context()));
    assess(&BOOK, &ledger).tanks.remove(0)
}

/// The picture of a topic, one moment a day. Where the tap's nitrate was not said, 10 mg/L of it is assumed.
fn drawn(topic: &str, view: &TankView) -> Course {
    let picture =
        BOOK.rules.pictures.iter().find(|p| p.topic == topic).unwrap_or_else(|| panic!("no picture of {topic}"));
    let moments = (picture.over / DAY).round() as usize + 1;
    course(&BOOK, picture, view, moments).unwrap_or_else(|| panic!("the picture of {topic} has an unknown in it"))
}

fn figure(view: &TankView, name: &str, shown: &str) -> f64 {
    let (n, _) = BOOK.rules.figure(name).unwrap_or_else(|| panic!("no figure `{name}`"));
    unit::by_name(shown).unwrap().from_base(view.state.figure(n, 0).number().unwrap())
}

#[test]
fn nitrate_follows_the_saw_tooth_and_the_straight_line() {
    let view = tank("100 litres, 20 guppies, nitrate 40, 25% water change every week");
    let daily = figure(&view, "rise for a picture", "mg/L per week") / 7.0;
    assert!(daily > 0.0);
    let picture = drawn("water change", &view);
    let mut level = 40.0;
    for day in 0..picture.times.len() {
        if day > 0 {
            level += daily;
            if day % 7 == 0 {
                level = 0.25 * 10.0 + 0.75 * level;
            }
        }
        let (with, without) = (picture.lines[0].heights[day], picture.lines[2].heights[day]);
        assert!((with / MILLIGRAMS_PER_LITRE - level).abs() < 1e-6, "day {day}: {with}, stepped {level}");
        let straight = 40.0 + daily * day as f64;
        assert!((without / MILLIGRAMS_PER_LITRE - straight).abs() < 1e-6, "day {day}: {without}, straight {straight}");
    }
}

#[test]
fn half_changed_each_time_ends_lower_than_a_quarter() {
    let view = tank("100 litres, 20 guppies, nitrate 40, 25% water change every week");
    let picture = drawn("capacity nitrate", &view);
    let last = |n: usize| *picture.lines[n].heights.last().unwrap();
    assert!(last(1) < last(0));
    // The third line is the aim, the same from end to end.
    assert!(picture.lines[2].heights.iter().all(|h| *h == picture.lines[2].heights[0]));
}

/// The moment of the greatest height.
fn peak(heights: &[f64]) -> usize {
    (0..heights.len()).fold(0, |best, n| if heights[n] > heights[best] { n } else { best })
}

#[test]
fn ammonia_falls_before_nitrite_peaks_and_seed_hastens_both() {
    let view = tank("new tank 100 litres, not cycled, 25C");
    let bare = drawn("cycle", &view);
    let (ammonia, nitrite) = (&bare.lines[0].heights, &bare.lines[1].heights);
    assert!((ammonia[0] / MILLIGRAMS_PER_LITRE - 1.5).abs() < 1e-9);
    assert_eq!(nitrite[0], 0.0);
    let halved = ammonia.iter().position(|h| *h < ammonia[0] / 2.0).expect("ammonia falls by half");
    assert!(halved < peak(nitrite), "halved on day {halved}, nitrite highest on day {}", peak(nitrite));
    let both = drawn("mature", &view);
    let (slow, quick) = (&both.lines[0].heights, &both.lines[1].heights);
    assert!(peak(quick) < peak(slow));
    assert!(quick[peak(quick)] <= slow[peak(slow)]);
}
