//! Courses over time: the lines of a picture at evenly spaced moments. In: a picture, one assessed tank. Out: points. The
//! formulae are the book's; nothing is computed here but when. Knows no drawing.

use super::assessment::TankView;
use crate::engine::world::Bound;
use crate::engine::{Engine, Value};
use crate::rulebook::Book;
use crate::rulebook::book::{Picture, TIME};

/// One line of a picture: its name and its heights at each moment, in base units.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub called: String,
    pub heights: Vec<f64>,
}

/// A picture worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Seconds at each moment, from 0.
    pub times: Vec<f64>,
    pub lines: Vec<Line>,
}

/// Works a picture out at `moments` moments; `None` when a line has an unknown in it or fewer than two moments are asked.
pub fn course(book: &Book, picture: &Picture, view: &TankView, moments: usize) -> Option<Course> {
    let (time, _) = book.rules.figure(TIME)?;
    if moments < 2 {
        return None;
    }
    let engine = Engine { schema: &book.schema, book: &book.rules };
    let mut state = view.state.clone();
    let times: Vec<f64> = (0..moments).map(|n| picture.over * n as f64 / (moments - 1) as f64).collect();
    let mut lines: Vec<Line> =
        picture.lines.iter().map(|(called, _)| Line { called: called.clone(), heights: Vec::new() }).collect();
    for moment in &times {
        state.set_figure(time, 0, Value::Number(*moment));
        for (line, (_, code)) in lines.iter_mut().zip(&picture.lines) {
            let value = engine.evaluation(&view.world, &state).value(code, &mut Bound::default());
            line.heights.push(value.number()?);
        }
    }
    Some(Course { times, lines })
}
