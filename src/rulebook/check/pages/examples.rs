//! Pages of faults of the examples, found by running them.

use crate::rulebook::check::Page;

pub const PAGES: &[Page] = &[
    Page {
        name: "no-examples",
        says: "A rule has no caller's line on which it speaks, or none on which it is silent.",
        why: "The examples show what the rule is for, and are run by `check` after every change.",
        wrong: "examples: {}",
        right: "examples:\n  speaks: [\"a 30 litre tank\"]\n  silent: [\"a 300 litre tank\"]",
    },
    Page {
        name: "example-fails",
        says: "A rule is silent on a line on which it must speak, or speaks on one on which it must not.",
        why: "The rule or the example is not what was meant; the message says which condition decided.",
        wrong: "",
        right: "",
    },
    Page {
        name: "example-unread",
        says: "An example holds words that are not understood.",
        why: "What is not understood is not tried, so that the example may hold by chance.",
        wrong: "speaks: [\"30 litre tank, wobbly\"]",
        right: "speaks: [\"30 litre tank\"]",
    },
    Page {
        name: "threshold-untried",
        says: "No example of a rule tries one of its limits on both sides.",
        why: "A limit that is tried on one side only may stand anywhere.",
        wrong: "when: [tank.nominal < 40 L]\nspeaks: [\"a 30 litre tank\"]",
        right: "when: [tank.nominal < 40 L]\nspeaks: [\"a 30 litre tank\"]\nsilent: [\"a 50 litre tank\"]",
    },
];
