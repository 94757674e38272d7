//! Pages of faults found by reasoning about what conditions can hold.

use crate::rulebook::check::Page;

pub const PAGES: &[Page] = &[
    Page {
        name: "implausible-number",
        says: "A fact is compared with a number that it can never plausibly have.",
        why: "Callers who say such a number are asked again, so that the comparison always comes out the same. Mostly a digit or a unit slipped.",
        wrong: "reading.ph > 74 pH",
        right: "reading.ph > 7.4 pH",
    },
    Page {
        name: "never-true",
        says: "Nothing can satisfy a condition, alone or together with the others of its rule.",
        why: "All conditions of a rule must hold at once; the rule would never speak.",
        wrong: "- reading.ph > 9 pH\n- reading.ph < 7 pH",
        right: "- reading.ph > 9 pH or reading.ph < 7 pH",
    },
    Page {
        name: "always-true",
        says: "A condition holds of everything.",
        why: "It tells nothing apart; what was meant is something else, or nothing.",
        wrong: "- reading.ph >= 0 pH",
        right: "- reading.ph is known",
    },
    Page {
        name: "adds-nothing",
        says: "A condition holds whenever another condition of its rule does.",
        why: "It can be taken out without any change, or was meant otherwise.",
        wrong: "- tank.nominal < 40 L\n- tank.nominal < 60 L",
        right: "- tank.nominal < 40 L",
    },
    Page {
        name: "never-speaks",
        says: "A rule waits for a conclusion that can never be drawn in its own case.",
        why: "The rules that conclude it ask for what this rule excludes.",
        wrong: "- small tank\n- tank.nominal > 100 L",
        right: "- small tank",
    },
    Page {
        name: "always-outranked",
        says: "Whenever a rule holds, another one holds that outranks it.",
        why: "Its advice is never given.",
        wrong: "",
        right: "",
    },
    Page {
        name: "opposite-advice",
        says: "Two rules advise opposite things about one thing, and none outranks the other.",
        why: "The caller would be told both. The line shown makes both speak: paste it at the prompt.",
        wrong: "act: rinse the media\n---\nact: \"not: rinse the media\"",
        right: "outranks:\n- {rule: flow-has-dropped, because: New bacteria are lost more easily.}",
    },
    Page {
        name: "may-be-unknown",
        says: "A text names a figure or fact that may be unknown when the rule speaks.",
        why: "There would be a hole in the sentence.",
        wrong: "when: [filter.kind = sponge]\nsay: \"It turns over {turnover}.\"",
        right: "when: [filter.kind = sponge, turnover is known]\nsay: \"It turns over {turnover}.\"",
    },
];
