//! Lines of an open call that nothing came of: what was not understood is shown, and how the line itself was read.

use weirline::reply::text::Length;

const SAID: &str = "200 litres, 12 discus, two canisters";

#[test]
fn a_pronoun_in_an_open_call_is_never_off_the_point() {
    let book = super::shipped();
    for line in ["and does that one want shampooing as well", "zzz or leave it", "is the other one broken in"] {
        let page = super::shown(&book, Length::Brief, &[SAID, line]);
        assert!(!page.contains("not about tanks"), "{line}: {page}");
    }
}

#[test]
fn a_word_at_the_head_does_not_stand_for_the_rest() {
    let book = super::shipped();
    for line in ["ok, curtains drawn tonight then. thanks", "right, gubbins it is"] {
        let page = super::shown(&book, Length::Brief, &[SAID, line]);
        assert!(page.contains("Not understood"), "{line}: {page}");
        assert!(!page.contains("yes or no"), "{line}: {page}");
    }
}

#[test]
fn how_a_line_was_read_is_shown_of_the_last_line_whatever_came_of_it() {
    let book = super::shipped();
    let page = super::shown(&book, Length::Brief, &[SAID, "ok, curtains drawn tonight then", "listen"]);
    let (_, last) = page.rsplit_once("Words").expect("the words of a line");
    assert!(last.contains("curtains") && !last.contains("discus"), "{page}");
}
