//! How long listening takes: the listener's making, a line of twelve words, a pasted thousand words, and whether the time
//! grows with the length alone. Run: `cargo bench --bench listen`. Prints medians; asserts nothing.

mod timing;

use std::hint::black_box;
use timing::median;
use weirline::listen::Listener;
use weirline::listen::reading::Context;
use weirline::rulebook::Book;

const TWELVE: [&str; 5] = [
    "55 gallon tank with 30 neon tetras and a canister 350 gph",
    "my nitrates are through the roof what do I do first please",
    "hob on the 29 gal rattles, 8 danios, fry present, intake bare",
    "do I need carbon in my external filter for 200 litres ?",
    "nitrite 0.25, ammonia 0, nitrate 40, pH 7.4, set up 3 weeks ago",
];
const PAGE: &str = "Hello, hoping somebody can help. It is 180 litres, four feet long, with a canister filter underneath that says \
    1000 litres per hour on the motor. There are six black widow tetras, four bronze corydoras and one big pleco. I changed a third \
    of the water on Sunday. Yesterday I tested with strips and got ammonia 0.5 and nitrate 40. Do I need to worry? ";

fn main() {
    let Ok(book) = Book::built_in() else { return println!("the built-in book is broken") };
    println!("listener made          {:>10.1?}", median(60, || drop(Listener::new(&book.knowledge))));
    let listener = Listener::new(&book.knowledge);
    let context = Context::default();
    let read = |text: &str| drop(black_box(listener.read(black_box(text), &context)));
    for line in TWELVE {
        println!(
            "{:>2} words               {:>10.1?}  {line}",
            line.split_whitespace().count(),
            median(2001, || read(line))
        );
    }
    for words in [250, 500, 1000, 2000, 4000, 8000] {
        let text: String = PAGE.split_inclusive(' ').cycle().take(words).collect();
        let took = median(21, || read(&text));
        println!("{words:>5} words            {took:>10.1?}  {:.2?} a word", took / words as u32);
    }
    for bytes in [1 << 16, 1 << 18, 1 << 20] {
        let text: String = PAGE.chars().cycle().take(bytes).collect();
        println!("{bytes:>7} bytes          {:>10.1?}", median(3, || read(&text)));
    }
}
