//! The sheet as one HTML file that prints on A4 or letter: no script, nothing fetched. In: the parts of a sheet. Out: HTML.
//! Black on white; what is dangerous stands in a box.

use super::curve::escape;
use super::sheet::{Filter, Sheet, Work};

const STYLE: &str = "
@page { margin: 16mm 17mm; }
* { box-sizing: border-box; }
body { font: 10.5pt/1.42 'Liberation Sans', Arial, Helvetica, sans-serif; color: #111; background: #fff; max-width: 178mm; margin: 10mm auto; padding: 0 4mm; }
header { display: flex; justify-content: space-between; align-items: baseline; border-bottom: 2.5pt solid #111; padding-bottom: 2mm; margin-bottom: 5mm; }
h1 { font-size: 19pt; font-weight: 700; letter-spacing: -.2pt; margin: 0; }
header p { margin: 0; text-align: right; color: #444; }
h2 { font-size: 12pt; margin: 6mm 0 2mm; border-bottom: .6pt solid #999; padding-bottom: .8mm; break-after: avoid; }
h3 { font-size: 10.5pt; margin: 3.5mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1.5mm; }
section, .work, .filter, figure { break-inside: avoid; }
.danger { border: 2pt solid #111; padding: 2.5mm 4mm; margin: 0 0 4mm; }
.danger p { margin: .6mm 0; font-weight: 700; }
.filter { display: grid; grid-template-columns: 72mm 1fr; gap: 7mm; align-items: start; }
.path { border: .8pt solid #111; }
.path .way { background: #111; color: #fff; padding: .8mm 3mm; font-size: 9pt; }
.layer { padding: 1.6mm 3mm; border-top: .8pt solid #111; display: flex; flex-direction: column; justify-content: center; }
.layer b { font-size: 11pt; }
.layer span { color: #333; }
.layer:nth-of-type(odd) { background: #f1f1f1; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .6mm 4mm; margin: 0; }
dt { color: #555; } dd { margin: 0; }
.when { display: inline-block; width: 22mm; text-indent: 0; font-weight: 700; }
.work { margin: 0 0 2.5mm; }
.work p { padding-left: 22mm; text-indent: -22mm; margin-bottom: .8mm; }
ul { list-style: none; margin: 0; padding: 0 0 0 22mm; }
li { padding-left: 6mm; text-indent: -6mm; margin: .5mm 0; }
li::before { content: '\\25a1'; display: inline-block; width: 6mm; text-indent: 0; font-size: 12pt; line-height: 1; }
.plain ul { padding-left: 0; } .plain li::before { content: '\\2013'; font-size: inherit; }
table { border-collapse: collapse; width: 100%; font-size: 9pt; }
td { padding: 1mm 3mm 1mm 0; vertical-align: top; border-top: .5pt solid #ccc; }
td:last-child { white-space: nowrap; padding-right: 0; text-align: right; font-weight: 700; }
td:nth-child(2) { color: #444; }
figure { margin: 2mm 0; } figure svg { width: 125mm; height: auto; }
footer { margin-top: 7mm; border-top: .6pt solid #999; padding-top: 1.5mm; font-size: 8.5pt; color: #444; }
@media print { body { margin: 0; padding: 0; max-width: none; } }
@media (max-width: 640px) { .filter { grid-template-columns: 1fr; } }
";

/// The height of a path of layers in millimetres, shared by their amounts; no layer is lower than its two lines.
const PATH: f64 = 60.0;
const LOWEST: f64 = 13.0;

/// The whole file.
pub fn html(sheet: &Sheet) -> String {
    let mut body = String::new();
    let name = escape(&sheet.name);
    let date = sheet.date.as_deref().map(escape).unwrap_or_default();
    let about = [name.clone(), date].into_iter().filter(|t| !t.is_empty()).collect::<Vec<_>>().join(" &middot; ");
    body.push_str(&format!("<header><h1>Your filter</h1><p>{about}</p></header>\n"));
    if !sheet.dangers.is_empty() {
        body.push_str(&format!("<section class=\"danger\">{}</section>\n", paragraphs(&sheet.dangers)));
    }
    if !sheet.filters.is_empty() {
        body.push_str("<h2>What is in it</h2>\n");
        sheet.filters.iter().for_each(|filter| body.push_str(&of_filter(filter, sheet.filters.len() > 1)));
    }
    section(&mut body, "What to do", &works(&sheet.work));
    section(&mut body, "Cleaning", &works(&sheet.cleaning));
    if !sheet.cautions.is_empty() {
        let list = format!("<div class=\"plain\">{}</div>\n", list(&sheet.cautions));
        section(&mut body, "Mind", &list);
    }
    section(&mut body, "What it is worked out for", &facts(&sheet.kept));
    if !sheet.figures.is_empty() {
        let rows: String = sheet
            .figures
            .iter()
            .map(|f| {
                let cells = [&f.called, &f.worked, &f.result].map(|c| format!("<td>{}</td>", escape(c)));
                format!("<tr>{}</tr>\n", cells.concat())
            })
            .collect();
        body.push_str(&format!("<h2>Figures</h2>\n<table>\n{rows}</table>\n"));
    }
    for (title, drawn) in &sheet.curves {
        body.push_str(&format!("<section><h2>{}</h2><figure>{drawn}</figure></section>\n", escape(title)));
    }
    let assumed = match sheet.assumed.is_empty() {
        true => String::new(),
        false => format!("<p>Assumed, because it was not said: {}.</p>", escape(&sheet.assumed.join("; "))),
    };
    body.push_str(&format!("<footer>{assumed}<p>{}</p></footer>\n", escape(super::sheet_text::CLOSING)));
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"generator\" content=\"weirline sheet\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>Your filter: {name}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n{body}</body>\n</html>\n"
    )
}

fn section(body: &mut String, title: &str, inside: &str) {
    if !inside.is_empty() {
        body.push_str(&format!("<h2>{title}</h2>\n{inside}"));
    }
}

fn paragraphs(texts: &[String]) -> String {
    texts.iter().map(|t| format!("<p>{}</p>", escape(t))).collect()
}

fn list(texts: &[String]) -> String {
    let items: String = texts.iter().map(|t| format!("<li>{}</li>", escape(t))).collect();
    format!("<ul>{items}</ul>")
}

fn facts(facts: &[(String, String)]) -> String {
    if facts.is_empty() {
        return String::new();
    }
    let rows: String = facts.iter().map(|(k, v)| format!("<dt>{}</dt><dd>{}</dd>", escape(k), escape(v))).collect();
    format!("<dl>{rows}</dl>\n")
}

fn works(works: &[Work]) -> String {
    let one = |work: &Work| {
        let steps = if work.steps.is_empty() { String::new() } else { list(&work.steps) };
        format!(
            "<div class=\"work\"><p><span class=\"when\">{}</span>{}</p>{steps}</div>\n",
            work.when,
            escape(&work.say)
        )
    };
    works.iter().map(one).collect()
}

/// The layers as the water meets them, each as high as its share.
fn of_filter(filter: &Filter, several: bool) -> String {
    let head = if several { format!("<h3>{}</h3>\n", escape(&filter.called)) } else { String::new() };
    if filter.layers.is_empty() {
        return format!("{head}{}", facts(&filter.facts));
    }
    let layers: String = filter
        .layers
        .iter()
        .enumerate()
        .map(|(n, layer)| {
            let height = (layer.share * PATH).max(LOWEST);
            format!(
                "<div class=\"layer\" style=\"min-height:{height:.0}mm\"><b>{}. {}</b><span>{}</span></div>",
                n + 1,
                escape(&layer.called),
                escape(&layer.amount)
            )
        })
        .collect();
    let note = match filter.as_said {
        true => "As you told it.",
        false => "In the order the water meets it.",
    };
    format!(
        "{head}<div class=\"filter\"><div class=\"path\"><div class=\"way\">&#9660; water comes in</div>{layers}<div class=\"way\">&#9660; water goes out</div></div><div><p>{note}</p>{}</div></div>\n",
        facts(&filter.facts)
    )
}
