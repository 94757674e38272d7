//! Doubt: a case and an engine to how sure each finding is, how wide each figure, what it hangs on and what to ask next.
//! One mechanism: plausible versions of the case, tried. Knows no wording.

pub mod asked;
pub mod assessment;
pub mod course;
pub mod held;
pub mod next_question;
pub mod sureness;
pub mod versions;
pub mod what_if;

pub use assessment::{Assessment, TankView, assess, assess_supposing};
pub use next_question::NextQuestion;
