//! The sheet that goes back with a refitted filter: what is in it, in the water's order, what to do, when to clean, cautions,
//! figures, curves. In: a book, an assessed call, its answer. Out: the parts of the page. Computes nothing, draws nothing.

use super::amounts::{TIED, Voice};
use super::answer::{Advice, Answer};
use super::curve;
use super::own_units::{Choice, OwnUnits};
use super::text::urgency_label;
use super::wording::Wording;
use crate::doubt::{Assessment, course};
use crate::engine::world::Bound;
use crate::knowledge::advice::Danger;
use crate::rulebook::Book;
use crate::rulebook::raw::Urgency;
use crate::source::words::{capital, harmless};

/// Figures of the book that plan a filling, in the order in which the water meets what they measure. A book without them
/// gives a sheet without a plan; its advice stands below all the same.
const PLANNED: [&str; 3] = ["coarse litres", "medium litres", "bio litres"];
/// Topics of advice that tell when and how to clean.
const CLEANING: [&str; 2] = ["cleaning interval", "cleaning"];
/// Where a medium stands in the water's way, as the vocabulary names it.
const PLACES: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "last"];
/// Figures on the sheet: one column of a page.
const MOST_FIGURES: usize = 14;
/// Moments of a curve.
const MOMENTS: usize = 61;

/// The parts of the sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// Whose it is: the name of the call.
    pub name: String,
    pub date: Option<String>,
    pub filters: Vec<Filter>,
    /// Tank, animals and readings, as they were said.
    pub kept: Vec<(String, String)>,
    pub work: Vec<Work>,
    pub cleaning: Vec<Work>,
    pub dangers: Vec<String>,
    pub cautions: Vec<String>,
    pub figures: Vec<Line>,
    /// Title and picture.
    pub curves: Vec<(String, String)>,
    pub assumed: Vec<String>,
}

/// One filter with its filling.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filter {
    pub called: String,
    pub facts: Vec<(String, String)>,
    /// In the order in which the water meets them.
    pub layers: Vec<Layer>,
    /// The layers are what the caller said is in it, not what is planned.
    pub as_said: bool,
}

/// One layer: "coarse foam, 10 to 15 ppi", "1.5 L".
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layer {
    pub called: String,
    pub amount: String,
    /// Its share of the room, for the picture; 0 where amounts are unknown.
    pub share: f64,
}

/// One piece of advice.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Work {
    pub when: &'static str,
    pub say: String,
    pub steps: Vec<String>,
}

/// One figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    pub called: String,
    pub worked: String,
    pub result: String,
}

fn plain(text: &str) -> String {
    harmless(&text.replace(TIED, " "))
}

/// The sheet of a call. `units`: as for its answers.
pub fn sheet(book: &Book, assessment: &Assessment, answer: &Answer, units: Option<Choice>) -> Sheet {
    let mut sheet = Sheet::default();
    let several = assessment.tanks.len() > 1;
    for view in &assessment.tanks {
        let own = OwnUnits::of(&view.case, &book.schema, units);
        let wording = Wording { book, view, own, several_tanks: several };
        wording.filters(&mut sheet);
        wording.kept(&mut sheet);
        wording.curves(answer, &mut sheet);
    }
    let topic = |a: &Advice| book.rules.rules[a.finding.0 as usize].topic.as_str();
    for advice in &answer.advice {
        let say = match &advice.about {
            Some(about) => plain(&format!("{}: {}", capital(about), advice.say)),
            None => plain(&advice.say),
        };
        let steps = advice.steps.iter().map(|s| plain(s)).collect();
        let work = Work { when: urgency_label(advice.urgency), say, steps };
        if CLEANING.contains(&topic(advice)) {
            sheet.cleaning.push(work);
        } else if advice.urgency < Urgency::GoodToKnow || !advice.steps.is_empty() {
            sheet.work.push(work);
        }
        for caution in &advice.cautions {
            let list = if caution.danger == Danger::People { &mut sheet.dangers } else { &mut sheet.cautions };
            let says = plain(&caution.says);
            if !list.contains(&says) {
                list.push(says);
            }
        }
    }
    let figures = answer.figures.iter().filter(|f| f.numbers.is_some() || f.asked).take(MOST_FIGURES);
    sheet.figures.extend(figures.map(|f| Line {
        called: plain(&capital(&f.called)),
        worked: plain(&[f.formula.clone(), f.numbers.clone()].into_iter().flatten().collect::<Vec<_>>().join(" = ")),
        result: plain(&f.result),
    }));
    sheet.assumed = answer.assumed.iter().map(|a| plain(a)).collect();
    sheet
}

impl Wording<'_> {
    fn filters(&self, sheet: &mut Sheet) {
        let Some(thing) = self.book.schema.thing("filter") else { return };
        for instance in 0..self.view.case.count(thing) {
            let mut facts = Vec::new();
            for id in self.book.schema.attributes_of(thing) {
                if let Some(fact) = self.fact(id, instance).filter(|f| f.is_said()) {
                    let value = self.value(id, fact, Voice::Written);
                    facts.push((plain(&capital(&self.book.schema.of(id).called)), plain(&value)));
                }
            }
            let said = self.said_layers(instance);
            let as_said = !said.is_empty();
            let layers = if as_said { said } else { self.planned_layers(instance) };
            let called = match self.several_tanks {
                true => format!("{}, tank {}", self.thing(thing, instance), self.view.tank),
                false => self.thing(thing, instance),
            };
            sheet.filters.push(Filter { called: plain(&capital(&called)), facts, layers: shared(layers), as_said });
        }
    }

    /// The media that were said to be in this filter, or in the only one, with their litres if those are known.
    fn said_layers(&self, filter: u16) -> Vec<(Layer, f64)> {
        let schema = &self.book.schema;
        let (Some(medium), Some(filters)) = (schema.thing("medium"), schema.thing("filter")) else { return vec![] };
        // A medium whose filter was not said counts for each, as it does for the rules.
        let bound = Bound::to(Some(filters), filter);
        let mut layers = Vec::new();
        for n in 0..self.view.case.count(medium) {
            if !self.view.world.belongs(medium, n, &bound) {
                continue;
            }
            let value = |name: &str| -> Option<String> {
                let id = schema.attribute(medium, name)?;
                Some(plain(&self.value(id, self.fact(id, n).filter(|f| f.is_said())?, Voice::Written)))
            };
            if value("wanted").is_some() {
                continue;
            }
            let kind =
                schema.attribute(medium, "kind").and_then(|id| Some(self.value(id, self.fact(id, n)?, Voice::Written)));
            let called = plain(&kind.unwrap_or_else(|| self.thing(medium, n)));
            // "coarse foam" says its grade already.
            let more = [value("grade").filter(|grade| !called.contains(grade.as_str())), value("pores")];
            let called = [vec![called], more.into_iter().flatten().collect()].concat().join(", ");
            let amount = value("volume").or_else(|| value("mass")).or_else(|| value("thickness"));
            let litres =
                schema.attribute(medium, "volume").and_then(|id| self.fact(id, n)).and_then(|f| f.spread.likely);
            let place = value("position").and_then(|p| PLACES.iter().position(|place| *place == p));
            let layer = Layer { called: capital(&called), amount: amount.unwrap_or_default(), share: 0.0 };
            layers.push((place.unwrap_or(PLACES.len() / 2), layer, litres.unwrap_or(0.0)));
        }
        layers.sort_by_key(|(place, ..)| *place);
        layers.into_iter().map(|(_, layer, litres)| (layer, litres)).collect()
    }

    fn planned_layers(&self, instance: u16) -> Vec<(Layer, f64)> {
        let mut layers = Vec::new();
        for name in PLANNED {
            let Some((n, _)) = self.book.rules.figure(name) else { continue };
            let instance = self.instance_of(n, instance);
            let litres = self.view.range(self.book, n, instance).and_then(|range| range.likely).unwrap_or(0.0);
            if litres > 0.0
                && let Some(quantity) = self.quantity(n, instance)
            {
                let called = capital(&self.book.rules.figures[n as usize].called);
                let layer =
                    Layer { called: plain(&called), amount: plain(&quantity.about(Voice::Written)), share: 0.0 };
                layers.push((layer, litres));
            }
        }
        layers
    }

    /// What was said of the tank, the animals and the water.
    fn kept(&self, sheet: &mut Sheet) {
        let schema = &self.book.schema;
        for name in ["tank", "stock", "reading", "change"] {
            let Some(thing) = schema.thing(name) else { continue };
            for instance in 0..self.view.case.count(thing) {
                let said = schema.attributes_of(thing).filter_map(|id| {
                    let fact = self.fact(id, instance).filter(|f| f.is_said())?;
                    let attribute = schema.of(id);
                    // The group is named by its kind; which gallon is in every amount.
                    let is_named = matches!(attribute.name.as_str(), "kind" | "stage" | "gallon");
                    (!is_named).then(|| format!("{} {}", attribute.called, self.value(id, fact, Voice::Written)))
                });
                let said: Vec<String> = said.map(|s| plain(&s)).collect();
                if !said.is_empty() {
                    sheet.kept.push((plain(&capital(&self.thing(thing, instance))), said.join(", ")));
                }
            }
        }
    }

    /// The curves of topics on which something is advised.
    fn curves(&self, answer: &Answer, sheet: &mut Sheet) {
        let rules = &self.book.rules.rules;
        for picture in &self.book.rules.pictures {
            let is_meant = answer.advice.iter().any(|a| {
                a.tank == self.view.tank
                    && a.urgency < Urgency::GoodToKnow
                    && rules[a.finding.0 as usize].topic == picture.topic
            });
            if let Some(course) = is_meant.then(|| course::course(self.book, picture, self.view, MOMENTS)).flatten() {
                let time = OwnUnits::chosen(Choice::Litres).unit(picture.over, crate::units::Dimension::TIME, None);
                let drawn = curve::svg(&picture.name, &course, picture.shown_in, time);
                sheet.curves.push((capital(&picture.name), drawn));
            }
        }
    }
}

/// Layers with their shares of the whole, where every amount is known.
fn shared(layers: Vec<(Layer, f64)>) -> Vec<Layer> {
    let all: f64 = layers.iter().map(|(_, litres)| litres).sum();
    let known = layers.iter().all(|(_, litres)| *litres > 0.0);
    let share = |litres: f64| if known { litres / all } else { 0.0 };
    layers.into_iter().map(|(layer, litres)| Layer { share: share(litres), ..layer }).collect()
}
