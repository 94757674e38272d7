//! The order in which figures and rules are worked out, and circles among them. In: a compiled book. Out: its `order`,
//! `readers` and `ranked`, or a fault for each circle. Knows no case.

use super::book::{Rulebook, Step};
use super::build::steps;
use super::code::Read;
use crate::source::{Fault, Place};

/// Sorts `count` nodes so that each stands after those it needs, the lower number first where it is free.
/// Also gives one circle, if there is one; nodes of circles and behind them are left out of the order.
pub fn sorted<'n>(count: usize, needs: impl Fn(usize) -> &'n Vec<usize>) -> (Vec<usize>, Option<Vec<usize>>) {
    #[derive(Clone, Copy, PartialEq)]
    enum Mark {
        New,
        Open,
        Done,
        Stuck,
    }
    let mut marks = vec![Mark::New; count];
    let (mut out, mut circle) = (Vec::with_capacity(count), None);
    for start in 0..count {
        if marks[start] != Mark::New {
            continue;
        }
        marks[start] = Mark::Open;
        // (node, which of its needs is next): an own stack, so that a long chain cannot overflow the real one.
        let mut path = vec![(start, 0)];
        while let Some((node, next)) = path.last_mut() {
            let node = *node;
            match needs(node).get(*next).copied() {
                Some(need) => {
                    *next += 1;
                    match marks[need] {
                        Mark::New => {
                            marks[need] = Mark::Open;
                            path.push((need, 0));
                        }
                        Mark::Open => {
                            let from = path.iter().position(|(n, _)| *n == need).unwrap_or(0);
                            let nodes: Vec<usize> = path[from..].iter().map(|(n, _)| *n).collect();
                            nodes.iter().for_each(|n| marks[*n] = Mark::Stuck);
                            circle.get_or_insert(nodes);
                        }
                        Mark::Stuck => marks[node] = Mark::Stuck,
                        Mark::Done => {}
                    }
                }
                None => {
                    let stuck = marks[node] == Mark::Stuck;
                    if !stuck {
                        marks[node] = Mark::Done;
                        out.push(node);
                    }
                    path.pop();
                    if let Some((above, _)) = path.last()
                        && stuck
                    {
                        marks[*above] = Mark::Stuck;
                    }
                }
            }
        }
    }
    (out, circle)
}

/// Fills `order`, `readers` and `ranked`.
pub fn order(book: &mut Rulebook, faults: &mut Vec<Fault>) {
    let steps = steps(book);
    let figures = book.figures.len();
    let needs: Vec<Vec<usize>> = steps
        .iter()
        .map(|step| {
            let reads = match step {
                Step::Figure(n) => &book.figures[*n as usize].reads,
                Step::Rule(n) => &book.rules[*n as usize].reads,
            };
            let mut needs = Vec::new();
            for read in reads {
                match read {
                    Read::Figure(n) => needs.push(*n as usize),
                    Read::Conclusion(n) => {
                        needs.extend(book.conclusions[*n as usize].by.iter().map(|r| figures + *r as usize));
                    }
                    _ => {}
                }
            }
            needs
        })
        .collect();
    let (sorted_steps, circle) = sorted(steps.len(), |n| &needs[n]);
    if let Some(circle) = circle
        && circle.iter().any(|n| *n >= figures)
    {
        let name = |n: usize| if n < figures { &book.figures[n].name } else { &book.rules[n - figures].name };
        let place = |n: usize| if n < figures { &book.figures[n].place } else { &book.rules[n - figures].place };
        let names: Vec<String> = circle.iter().map(|n| format!("`{}`", name(*n))).collect();
        let first = circle.iter().copied().find(|n| *n >= figures).unwrap_or(circle[0]);
        let what = format!("these go round in a circle: {}", names.join(", "));
        let mut fault = Fault::error("circle", place(first).clone(), what);
        for n in circle.iter().filter(|n| **n != first) {
            fault = fault.other(place(*n).clone(), "needs one of the others");
        }
        faults.push(fault.cure("let one of them stand on facts alone"));
    }
    book.order = sorted_steps.iter().map(|n| steps[*n]).collect();
    for (rank, step) in book.order.iter().enumerate() {
        let reads = match step {
            Step::Figure(n) => &book.figures[*n as usize].reads,
            Step::Rule(n) => &book.rules[*n as usize].reads,
        };
        for read in reads {
            book.readers.add(*read, rank as u16);
        }
    }
    rank(book, faults);
}

fn rank(book: &mut Rulebook, faults: &mut Vec<Fault>) {
    let mut above: Vec<Vec<usize>> = vec![vec![]; book.rules.len()];
    for (n, rule) in book.rules.iter().enumerate() {
        for (outranked, _) in &rule.outranks {
            above[*outranked as usize].push(n);
        }
    }
    let (ranked, circle) = sorted(book.rules.len(), |n| &above[n]);
    if let Some(circle) = circle {
        let names: Vec<String> = circle.iter().map(|n| format!("`{}`", book.rules[*n].name)).collect();
        let place: Place = book.rules[circle[0]].place.clone();
        let what = format!("these rules outrank one another in a circle: {}", names.join(", "));
        faults.push(Fault::error("circle", place, what).cure("take one `outranks` out"));
    }
    for (rule, above) in book.rules.iter_mut().zip(&above) {
        rule.outranked_by = above.iter().map(|n| *n as u16).collect();
    }
    book.ranked = ranked.into_iter().map(|n| n as u16).collect();
}
