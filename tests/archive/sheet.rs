//! The sheet of a call: what is in the filter in the water's order, dangers first, one file that needs nothing else.

use crate::reply::shipped;
use weirline::archive::call::{Exchange, SavedCall, Stamp};
use weirline::archive::listener;
use weirline::archive::sheet::of_call;
use weirline::reply::sheet::Sheet;
use weirline::reply::{lines::set, paint::paint, sheet_html, sheet_text};

fn sheet(lines: &[&str]) -> Option<Sheet> {
    let exchange = |line: &&str| Exchange { typed: line.to_string(), ..Exchange::default() };
    let mut call = SavedCall { exchanges: lines.iter().map(exchange).collect(), ..SavedCall::default() };
    call.head.stamp = Stamp { date: Some("2026-11-25".to_string()), ..Stamp::default() };
    let book = shipped();
    of_call(&call, "mrs-<hall>", &book, &listener(&book.knowledge))
}

fn layers(sheet: &Sheet) -> Vec<(String, String, f64)> {
    sheet.filters.iter().flat_map(|f| &f.layers).map(|l| (l.called.clone(), l.amount.clone(), l.share)).collect()
}

/// A quarter, a quarter, a half of 3 x 2 litres, as the book's own plan says.
#[test]
fn the_plan_stands_in_the_waters_order_with_amounts() {
    let sheet =
        sheet(&["canister 1000 l/h, 3 baskets of 2 litres, 200 litre tank, 12 platies", "how often do I clean it?"])
            .unwrap();
    let found = layers(&sheet);
    let amounts: Vec<(&str, f64)> = found.iter().map(|(_, amount, share)| (amount.as_str(), *share)).collect();
    assert_eq!(amounts, [("1.5 L", 0.25), ("1.5 L", 0.25), ("3 L", 0.5)]);
    assert!(found[0].0.starts_with("Coarse foam") && found[1].0.starts_with("Medium foam"), "{found:?}");
    assert!(!sheet.filters[0].as_said);
    assert!(sheet.cleaning.iter().any(|w| w.say.contains("strainer")), "{:?}", sheet.cleaning);
    assert!(sheet.kept.iter().any(|(name, said)| name == "Tank" && said.contains("200 L")), "{:?}", sheet.kept);
    assert!(sheet.dangers.iter().any(|d| d.contains("plugs")), "{:?}", sheet.dangers);
}

#[test]
fn what_was_said_to_be_in_it_goes_before_the_plan() {
    let sheet =
        sheet(&["180 litres, hang-on filter 1000 l/h, 1 litre coarse foam, 3 litres of sintered glass"]).unwrap();
    assert!(sheet.filters[0].as_said);
    let found = layers(&sheet);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!((found[0].1.as_str(), found[0].2, found[1].2), ("1 L", 0.25, 0.75), "{found:?}");
}

#[test]
fn the_page_is_one_file_and_names_are_harmless() {
    let html = sheet_html::html(&sheet(&["55 gallon, 30 small tetras, fry present, hang-on filter 400 gph"]).unwrap());
    for other in ["<script", "src=", "http:", "https:", "url(", "@import", "<hall>"] {
        assert!(!html.replace("http://www.w3.org/2000/svg", "").contains(other), "{other}");
    }
    assert!(html.contains("mrs &lt;hall&gt;") && html.contains("2026-11-25"));
    // Dangers to people stand before everything else.
    assert!(html.find("class=\"danger\"").unwrap() < html.find("What to do").unwrap());
    let open = |tag: &str| html.matches(&format!("<{tag}>")).count() + html.matches(&format!("<{tag} ")).count();
    for tag in ["div", "section", "p", "ul", "li", "table", "tr", "td", "span", "dl", "h2"] {
        assert_eq!(open(tag), html.matches(&format!("</{tag}>")).count(), "{tag}");
    }
}

#[test]
fn the_ripening_curve_comes_with_a_new_filter() {
    let sheet =
        sheet(&["180 litres, 20 guppies, canister 1000 l/h, set up 1 week ago, ammonia 1, nitrite 0.5"]).unwrap();
    assert!(sheet.curves.iter().all(|(_, drawn)| drawn.starts_with("<svg") && drawn.contains("polyline")));
    assert!(!sheet.curves.is_empty(), "no curve");
}

#[test]
fn the_text_has_the_same_parts_and_nothing_makes_no_sheet() {
    let sheet = sheet(&["canister 1000 l/h, 3 baskets of 2 litres, 200 litre tank, 12 platies"]).unwrap();
    let text = paint(&set(&sheet_text::page(&sheet), 80), false);
    for part in [
        "mrs-<hall>".replace('-', " ").as_str(),
        "Danger",
        "What is in",
        "1.5 L",
        "[ ] ",
        "Cleaning",
        "Figures",
        "not a guarantee",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert!(text.lines().all(|line| line.chars().count() <= 80));
    assert!(self::sheet(&["hello"]).is_none());
}
