//! What the call holds while a line is read: tanks, filters, the subject that carries on. In: the context, and each
//! finding as it comes. Out: numbers for things, subjects for clauses without one. Knows no words.

use super::found::Found;
use super::name::Name;
use super::reading::{Called, Context, Said, Says, Statement, Subject, Wanted};
use crate::units::{Amount, Unit};

/// A tank spoken of.
#[derive(Clone, Debug, PartialEq)]
pub struct TankKnown {
    pub number: u16,
    pub size: Option<Amount>,
    pub kind: Option<String>,
    /// In this line.
    pub here: bool,
}

/// A filter spoken of.
#[derive(Clone, Debug, PartialEq)]
pub struct FilterKnown {
    pub number: u16,
    pub kind: Option<String>,
    pub here: bool,
    pub has_flow: bool,
    pub tank: u16,
}

#[derive(Clone, Debug, Default)]
pub struct State {
    pub tanks: Vec<TankKnown>,
    pub filters: Vec<FilterKnown>,
    /// The tank spoken of now.
    pub tank: u16,
    pub filter: u16,
    /// The thing last spoken of: its figures may follow in the next clause.
    pub subject: Option<Subject>,
    pub stock: Option<Subject>,
    pub medium: Option<Subject>,
    /// Fish counted in this line.
    pub here: Vec<(Subject, f64)>,
    /// Kinds of fish told so far.
    pub fish: Vec<String>,
    /// The length of the biggest fish of a group.
    pub biggest: Option<Amount>,
    /// The event told last in this line.
    pub event: Option<Subject>,
    /// The unit in which a length of fish was told.
    pub length_unit: Option<&'static Unit>,
    /// The unit in which a size of the tank was told.
    pub size_unit: Option<&'static Unit>,
    /// The unit in which a flow was told.
    pub flow_unit: Option<&'static Unit>,
    /// An order was announced: the next medium's place in it.
    pub order: Option<usize>,
    /// The foam whose pores were told in this line.
    pub pores_told: Option<Subject>,
    /// A reading was told in this line.
    pub line_readings: bool,
    /// The fish spoken of last have no number yet.
    pub uncounted: bool,
    /// Fish and filters whose tank was said in this line.
    pub places: Vec<Subject>,
    /// Fish and filters of the clause before, whose tank was not said in it.
    pub listed: Vec<Subject>,
    /// A place was said in this line.
    pub placed: bool,
    /// The noun named last in this line is none of ours: "the heater".
    pub foreign: bool,
    /// Something was said to have been moved.
    pub moved: bool,
    /// A kind that the filter was said not to be.
    pub not_kind: Option<String>,
    /// The reading last named.
    pub label: Option<Name>,
    /// When the event told last in this line happened.
    pub when: Option<Said>,
    /// The attribute last given a value.
    pub last: Option<(Subject, String)>,
    /// Every filter of a group takes what follows: "2 canisters 350gph each".
    pub group: Vec<u16>,
    /// "one 200, one 350": how many of the group have been told.
    pub told: usize,
    pub held: Vec<Statement>,
    /// How many are left after a loss was told in this line.
    pub left_told: bool,
    /// Hours of the day told in this line.
    pub hours: Vec<super::clock::Hour>,
    /// The figures that open questions wait for.
    pub wanted: Vec<Wanted>,
    /// A group that is counted again: the new number takes the place of the old one.
    pub recounted: Option<Subject>,
    /// What the caller calls his tanks and filters.
    pub called: Vec<Called>,
    /// The gallon that was said in so many words: "us", "imp".
    pub gallon: Option<&'static str>,
    /// The unit in which the call counts volumes.
    pub volume_unit: Option<&'static str>,
}

impl State {
    /// `beside`: kinds of filter that run beside another one.
    pub fn new(context: &Context, beside: &[String], find: impl Fn(&str) -> Option<Name>) -> Self {
        let mut state = State {
            tank: 1,
            filter: 1,
            held: context.held.clone(),
            called: context.called.clone(),
            wanted: super::open_question::wanted(context),
            ..Self::default()
        };
        for statement in &context.held {
            state.note(&statement.subject, &statement.says, false);
        }
        state.tank = 1;
        // "is 26 degrees too hot for white clouds" ... "there's ten": the fish asked about.
        if state.stock.is_none() {
            let about = context.last_ask.iter().flat_map(|a| &a.about).find(|s| s.thing == "stock" && s.kind.is_some());
            state.stock = about.cloned();
        }
        // "guppies" ... "maybe 15 or 20": named last, without a number.
        state.uncounted = context.held.last().is_some_and(|s| {
            s.subject.thing == "stock"
                && s.says == Says::Present
                && s.subject.kind.is_some()
                && s.subject.stage.is_none()
        });
        // The reading told last goes on in the next line: "and the tank 60".
        let last = context.held.last().filter(|s| matches!(s.subject.thing.as_str(), "reading" | "source"));
        state.label = last.and_then(|s| match &s.says {
            Says::Value { attribute, value: Said::Amount(_), .. } => find(attribute),
            _ => None,
        });
        let lamp = |number: u16| {
            let known = state.filters.iter().find(|f| f.number == number).and_then(|f| f.kind.as_ref());
            known.is_some_and(|k| beside.contains(k))
        };
        let last = context.held.iter().rev().find(|s| s.subject.thing == "filter" && !lamp(s.subject.number));
        state.filter = last.map_or(1, |s| s.subject.number);
        // The last thing spoken of carries on over a line end, but only for stock and media.
        state
    }

    /// Takes a finding into what is known.
    pub fn take(&mut self, found: &Found) {
        self.note(&found.subject, &found.says, true);
        if let Says::Value { attribute, value: Said::Amount(a), .. } = &found.says
            && let (Some(count), "count", "stock") = (a.likely, attribute.as_str(), found.subject.thing.as_str())
        {
            self.here.push((found.subject.clone(), count));
        }
        if found.subject.thing == "event" {
            self.event = Some(found.subject.clone());
        }
        if let Says::Value { attribute, value, .. } = &found.says
            && found.subject.thing == "event"
            && attribute == "when"
        {
            self.when = Some(value.clone());
        }
        if let Says::Value { attribute, .. } = &found.says {
            self.last = Some((found.subject.clone(), attribute.clone()));
        }
    }

    /// A figure that was denied: what it was of is spoken of, without the figure.
    pub fn unsay(&mut self, found: &Found) {
        let subject = &found.subject;
        match subject.thing.as_str() {
            "tank" => self.tanks.iter_mut().filter(|t| t.number == subject.number).for_each(|t| t.size = None),
            "stock" => {
                self.here.retain(|(s, _)| s != subject);
                (self.stock, self.uncounted) = (Some(subject.clone()), true);
            }
            _ => {}
        }
        self.subject = Some(subject.clone());
    }

    fn note(&mut self, subject: &Subject, says: &Says, here: bool) {
        let gone = matches!(says, Says::Dropped | Says::Absent);
        match subject.thing.as_str() {
            "tank" => {
                let tank = self.tank_entry(subject.number, here);
                match says {
                    Says::Value { attribute, value: Said::Amount(amount), .. } if attribute == "nominal" => {
                        tank.size = Some(*amount)
                    }
                    Says::Value { attribute, value: Said::Amount(amount), .. }
                        if matches!(attribute.as_str(), "length" | "width" | "height") =>
                    {
                        self.size_unit = Some(amount.unit);
                    }
                    Says::Value { attribute, value: Said::Word(word), .. } if attribute == "kind" => {
                        tank.kind = Some(word.clone())
                    }
                    _ => {}
                }
            }
            "filter" if gone => self.filters.retain(|f| f.number != subject.number),
            "filter" => {
                let filter = self.filter_entry(subject.number, here);
                filter.tank = subject.tank;
                match says {
                    Says::Value { attribute, value: Said::Word(word), .. } if attribute == "kind" => {
                        filter.kind = Some(word.clone())
                    }
                    Says::Value { attribute, value: Said::Amount(a), .. } if attribute.ends_with("flow") => {
                        filter.has_flow = true;
                        self.flow_unit = Some(a.unit);
                    }
                    _ => {}
                }
            }
            "reading" if here => self.line_readings = true,
            "stock" => {
                if let Says::Value { attribute, value: Said::Amount(a), .. } = says
                    && attribute == "length"
                {
                    self.length_unit = Some(a.unit);
                }
                if let Says::Value { attribute, value: Said::Amount(a), .. } = says
                    && attribute == "biggest"
                {
                    (self.biggest, self.length_unit) = (Some(*a), Some(a.unit));
                }
                if let Some(kind) = subject.kind.as_ref().filter(|k| !gone && !self.fish.contains(k)) {
                    self.fish.push(kind.clone());
                }
                self.stock = Some(subject.clone());
            }
            "medium" => self.medium = Some(subject.clone()),
            _ => {}
        }
        self.uncounted = here && subject.thing == "stock" && *says == Says::Present && subject.kind.is_some();
        if here && !gone {
            let mut subject = subject.clone();
            // Grown fish are the fish themselves; fry are others.
            if subject.kind.is_some() && matches!(subject.stage.as_deref(), Some("adult" | "young" | "breeding")) {
                subject.stage = None;
                self.stock = Some(subject.clone());
            }
            self.subject = Some(subject);
        }
    }

    fn tank_entry(&mut self, number: u16, here: bool) -> &mut TankKnown {
        let at = match self.tanks.iter().position(|t| t.number == number) {
            Some(at) => at,
            None => {
                self.tanks.push(TankKnown { number, size: None, kind: None, here });
                self.tanks.len() - 1
            }
        };
        self.tanks[at].here |= here;
        &mut self.tanks[at]
    }

    fn filter_entry(&mut self, number: u16, here: bool) -> &mut FilterKnown {
        let at = match self.filters.iter().position(|f| f.number == number) {
            Some(at) => at,
            None => {
                self.filters.push(FilterKnown { number, kind: None, here, has_flow: false, tank: 1 });
                self.filters.len() - 1
            }
        };
        self.filters[at].here |= here;
        &mut self.filters[at]
    }

    pub fn next_tank(&self) -> u16 {
        self.tanks.iter().map(|t| t.number).max().unwrap_or(0) + 1
    }

    pub fn next_filter(&self) -> u16 {
        self.filters.iter().map(|f| f.number).max().unwrap_or(0) + 1
    }

    /// The tank of that size, whatever its unit when none is said.
    pub fn tank_of_size(&self, value: f64, unit: Option<&str>) -> Option<u16> {
        self.tanks
            .iter()
            .find(|t| {
                t.size.is_some_and(|s| {
                    s.likely.or(s.high) == Some(value) && unit.is_none_or(|u| same_unit(u, s.unit.name))
                })
            })
            .map(|t| t.number)
    }

    pub fn size_of(&self, tank: u16) -> Option<Amount> {
        self.tanks.iter().find(|t| t.number == tank).and_then(|t| t.size)
    }

    /// The value held for an attribute, latest first.
    pub fn value(&self, subject: &Subject, attribute: &str) -> Option<&Said> {
        self.held.iter().rev().find_map(|s| match &s.says {
            Says::Value { attribute: a, value, .. } if a == attribute && same_thing(&s.subject, subject) => Some(value),
            _ => None,
        })
    }
}

/// Any gallon is a gallon here.
fn same_unit(one: &str, other: &str) -> bool {
    one == other || one.ends_with("gal") && other.ends_with("gal")
}

/// The same thing, whichever tank it was said to stand in.
pub fn same_thing(one: &Subject, other: &Subject) -> bool {
    // A test, a change, plants and food are of one tank; fish and filters can be moved.
    let of_a_tank = matches!(one.thing.as_str(), "reading" | "change" | "plant" | "feed");
    one.thing == other.thing
        && one.kind == other.kind
        && one.stage == other.stage
        && one.number == other.number
        && (!of_a_tank || one.tank == other.tank)
}
