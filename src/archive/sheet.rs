//! The sheet of a saved call. In: a call, a book. Out: the parts of the page. Draws nothing.

use super::call::SavedCall;
use super::conversation::{Conversation, Hear};
use super::replay::manner;
use crate::reply::sheet::{Sheet, sheet};
use crate::reply::{Shape, compose};
use crate::rulebook::Book;
use std::sync::Arc;

/// The sheet of a call as the book answers it now; `None` when nothing in it is about a filter or a tank.
pub fn of_call(call: &SavedCall, name: &str, book: &Arc<Book>, hear: &Arc<dyn Hear>) -> Option<Sheet> {
    let mut conversation = Conversation::new(book.clone(), hear.clone(), manner(call));
    call.exchanges.iter().for_each(|exchange| drop(conversation.take(&exchange.typed)));
    let units = conversation.manner_mut().shape.units;
    let held = conversation.call();
    let assessment = held.assessment.as_ref()?;
    let answer = compose(book, &held.ledger, assessment, &Shape { units, ..Shape::default() });
    let date = call.stamp_of(call.exchanges.len()).date.clone();
    Some(Sheet { name: name.replace('-', " "), date, ..sheet(book, assessment, &answer, units) })
}
