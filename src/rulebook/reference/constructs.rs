//! The constructs of the rule language, each with examples that a test runs on the shipped vocabulary. In: nothing.
//! Out: texts.

/// One construct.
pub struct Construct {
    pub name: &'static str,
    pub says: &'static str,
    pub examples: &'static [Example],
}

pub enum Example {
    /// A condition or formula; facts as `stock 2.length = 3 cm`, `stock: 2`, `only stock`; what comes of it: `true`,
    /// `false`, `unknown`, or a quantity.
    Gives { write: &'static str, where_: &'static [&'static str], gives: &'static str },
    /// A piece of a rule file.
    Entry { yaml: &'static str },
}

const fn gives(write: &'static str, where_: &'static [&'static str], gives: &'static str) -> Example {
    Example::Gives { write, where_, gives }
}

pub const CONSTRUCTS: &[Construct] = &[
    Construct {
        name: "Facts",
        says: "`thing.attribute`, as the vocabulary declares it. A fact that nobody said is unknown, and a condition that needs it is neither true nor false: the rule waits, and the program may ask. Facts that the vocabulary assumes are always known.",
        examples: &[
            gives("tank.nominal < 40 L", &["tank.nominal = 30 L"], "true"),
            gives("tank.nominal < 40 L", &[], "unknown"),
        ],
    },
    Construct {
        name: "Quantities",
        says: "A number with its unit, a blank between. Any unit of the same sort will do.",
        examples: &[
            gives("tank.nominal < 11 usgal", &["tank.nominal = 40 L"], "true"),
            gives("tank.temperature >= 77 F", &["tank.temperature = 25 C"], "true"),
        ],
    },
    Construct {
        name: "Comparisons",
        says: "`<`, `<=`, `>`, `>=`, `=`, `!=`; or `between` with two ends, both included.",
        examples: &[
            gives("reading.ph <= 6.5 pH", &["reading.ph = 6.5 pH"], "true"),
            gives("tank.temperature between 22 C and 26 C", &["tank.temperature = 26 C"], "true"),
            gives("tank.temperature between 22 C and 26 C", &["tank.temperature = 27 C"], "false"),
        ],
    },
    Construct {
        name: "Kinds",
        says: "A kind is one of a list, of the vocabulary or of a table; it is compared with `=` or `!=`, without quotes.",
        examples: &[
            gives("tank.kind = pond", &["tank.kind = pond"], "true"),
            gives("tank.kind != marine", &["tank.kind = pond"], "true"),
        ],
    },
    Construct {
        name: "And, or, not",
        says: "`and` needs both, `or` one; `not` turns round. False decides `and`, true decides `or`, whatever is unknown beside it. `and` binds closer than `or`; brackets help.",
        examples: &[
            gives("tank.kind = pond or tank.nominal > 400 L", &["tank.kind = pond"], "true"),
            gives("tank.kind = pond and tank.nominal > 400 L", &["tank.kind = pond"], "unknown"),
            gives("not tank.kind = pond", &["tank.kind = marine"], "true"),
        ],
    },
    Construct {
        name: "Is known",
        says: "Asks whether something was said or can be worked out; itself never unknown.",
        examples: &[
            gives("reading.nitrate is known", &[], "false"),
            gives("reading.nitrate is not known", &[], "true"),
        ],
    },
    Construct {
        name: "Arithmetic",
        says: "`+`, `-`, `*`, `/`, `^` and brackets. Units are carried along: what is added or compared must be of one sort. What cannot be divided is unknown.",
        examples: &[
            gives(
                "filter.rated flow / tank.nominal",
                &["filter: 1", "filter 1.rated flow = 400 L/h", "tank.nominal = 100 L"],
                "4 per hour",
            ),
            gives(
                "tank.length * tank.width * tank.height",
                &["tank.length = 100 cm", "tank.width = 40 cm", "tank.height = 50 cm"],
                "200 L",
            ),
        ],
    },
    Construct {
        name: "Choices",
        says: "`a if condition else b` takes the first value whose condition holds. A value without a condition is taken if it is known, else the next. A condition that is unknown makes the whole unknown.",
        examples: &[
            gives("tank.water else tank.nominal * 85 %", &["tank.nominal = 100 L"], "85 L"),
            gives("2 if tank.kind = pond else 1", &["tank.kind = pond"], "2"),
        ],
    },
    Construct {
        name: "Any and every",
        says: "`any thing with condition`, `every thing with condition`, over things of which there may be several. Within `with`, a bare attribute is that of the thing met. When nothing was said of such things, it is unknown whether there is any.",
        examples: &[
            gives(
                "any stock with length < 4 cm",
                &["stock: 2", "stock 1.length = 10 cm", "stock 2.length = 3 cm"],
                "true",
            ),
            gives(
                "every stock with length < 4 cm",
                &["stock: 2", "stock 1.length = 10 cm", "stock 2.length = 3 cm"],
                "false",
            ),
            gives("any stock with length < 4 cm", &[], "unknown"),
            gives("any stock with length < 4 cm", &["only stock"], "false"),
        ],
    },
    Construct {
        name: "Count, sum, least, greatest",
        says: "`count of thing`, and `sum of`, `least of`, `greatest of` a value `over` a thing; all may carry `with` and a condition.",
        examples: &[
            gives(
                "count of stock with length < 4 cm",
                &["stock: 2", "stock 1.length = 10 cm", "stock 2.length = 3 cm"],
                "1",
            ),
            gives("sum of count over stock", &["stock: 2", "stock 1.count = 10", "stock 2.count = 3"], "13"),
            gives(
                "greatest of length over stock",
                &["stock: 2", "stock 1.length = 10 cm", "stock 2.length = 3 cm"],
                "10 cm",
            ),
        ],
    },
    Construct {
        name: "Calculations",
        says: "Formulae of water, flow and filters are called by name, with their values in brackets; the page of calculations lists them.",
        examples: &[gives(
            "ammonia fraction(tank.temperature, reading.ph) > 5 %",
            &["tank.temperature = 25 C", "reading.ph = 8 pH"],
            "true",
        )],
    },
    Construct {
        name: "Figures",
        says: "A named formula, or a number with how widely it may be wrong; other formulae, conditions and texts use its name. `for` works it out once for each of several things.",
        examples: &[Example::Entry {
            yaml: "figures:\n- figure: reach of a lamp\n  is: 60 cm\n  between: 40 to 80 cm\n  shown in: cm\n  means: How deep a usual lamp feeds plants.\n  basis: [from memory]\n- figure: depth beyond the lamp\n  is: tank.height - reach of a lamp\n  shown in: cm\n  basis: [worked out]",
        }],
    },
    Construct {
        name: "Rules",
        says: "All conditions under `when` must hold. The rule then concludes something that others read, advises, or both. `for` tries it once for each of several things. Texts name figures in braces. The act says in a few fixed words what the advice comes to; `not:` before it is its opposite.",
        examples: &[Example::Entry {
            yaml: "rules:\n- rule: bowl-of-fish\n  topic: enough\n  when:\n  - tank.shape = bowl\n  - tank.nominal < 20 L\n  advise:\n    urgency: this week\n    act: larger tank\n    say: A bowl of {tank.nominal} is too small for any fish; look for a tank with a filter.\n    steps:\n    - Change a quarter of the water every other day until then.\n    because: So little water turns foul within a day of one feed too many.\n  cautions: []\n  basis: [common practice]\n  examples:\n    speaks: [\"12 litre bowl, 1 goldfish\"]\n    silent: [\"60 litre tank, 1 goldfish\"]",
        }],
    },
    Construct {
        name: "Conclusions",
        says: "What one rule concludes is a condition of others, by its name. It holds when one of the rules that conclude it holds; it is denied when none of them can.",
        examples: &[Example::Entry {
            yaml: "rules:\n- rule: water-is-cold\n  topic: oxygen\n  when: [tank.temperature < 15 C]\n  conclude: [cold water]\n  basis: [worked out]\n  examples:\n    speaks: [\"100 litres, 10 C\"]\n    silent: [\"100 litres, 25 C\"]\n- rule: slow-digestion\n  topic: feed\n  when: [cold water]\n  advise:\n    urgency: in time\n    act: feed less\n    say: Feed little while the water is cold.\n    because: Cold fish digest slowly, and what lies about rots.\n  basis: [common practice]\n  examples:\n    speaks: [\"100 litres, 10 C\"]\n    silent: [\"100 litres, 25 C\"]",
        }],
    },
    Construct {
        name: "Order of rules",
        says: "Priority is never a number: a rule outranks others by name, with the reason. One that is itself outranked outranks nobody.",
        examples: &[Example::Entry {
            yaml: "rules:\n- rule: young-need-food-often\n  topic: feed\n  when: [tank.fry = yes]\n  advise:\n    urgency: today\n    act: feed often\n    say: Feed the young four times a day, and little each time.\n    because: They have no reserves.\n  basis: [common practice]\n  outranks:\n  - rule: cold-water-needs-less-food\n    because: Young fish starve within a day.\n  examples:\n    speaks: [\"100 litres, 10 guppies, fry present\"]\n    silent: [\"100 litres, 10 guppies\"]\n- rule: cold-water-needs-less-food\n  topic: feed\n  when: [tank.temperature < 15 C]\n  advise:\n    urgency: in time\n    act: \"not: feed often\"\n    say: Feed little while the water is cold.\n    because: Cold fish digest slowly.\n  basis: [common practice]\n  examples:\n    speaks: [\"100 litres, 10 C\"]\n    silent: [\"100 litres, 25 C\"]",
        }],
    },
    Construct {
        name: "Pictures",
        says: "A curve over time where one says more than a number. Its formulae may read the figure `time`, which the picture sets moment by moment.",
        examples: &[Example::Entry {
            yaml: "figures:\n- figure: time\n  is: 0 d\n  means: Set by a picture, moment by moment.\n  basis: [worked out]\npictures:\n- picture: Nitrate without a change\n  topic: water change\n  over: 8 wk\n  shown in: mg/L\n  lines:\n  - called: without a change\n    is: reading.nitrate + 5 mg/L per week * time\n  basis: [worked out]",
        }],
    },
];
