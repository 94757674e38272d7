//! Draws a course: plain characters for the terminal, SVG for the sheet. In: a worked-out course, units. Out: text.
//! Computes nothing but where a point lies on the page.

use crate::doubt::course::Course;
use crate::units::Unit;

/// The marks of the lines, in order; each line is named beside its mark below the picture.
const MARKS: [char; 4] = ['*', 'o', '+', '.'];
const ROWS: usize = 9;
/// Measures of the SVG page.
const WIDTH: f64 = 520.0;
const HEIGHT: f64 = 240.0;
const LEFT: f64 = 46.0;
const BELOW: f64 = 52.0;
const ABOVE: f64 = 28.0;

/// The course in characters, `width` columns wide, with a scale at the left and the time below.
pub fn text(title: &str, course: &Course, unit: &Unit, time: &Unit, width: usize) -> String {
    let heights =
        |line: &crate::doubt::course::Line| line.heights.iter().map(|h| unit.from_base(*h)).collect::<Vec<f64>>();
    let lines: Vec<Vec<f64>> = course.lines.iter().map(heights).collect();
    let top = nice_top(lines.iter().flatten().copied().fold(0.0, f64::max));
    let label = |value: f64| format!("{value:.*}", usize::from(top < 5.0));
    let margin = label(top).len().max(label(0.0).len()) + 1;
    let columns = width.saturating_sub(margin + 2).clamp(20, 66);
    let row_of = |height: f64| ((height / top) * (ROWS - 1) as f64).round().clamp(0.0, (ROWS - 1) as f64) as usize;
    let sample =
        |line: &Vec<f64>, column: usize| line.get(column * line.len().saturating_sub(1) / (columns - 1)).copied();
    // The first line is drawn over the others.
    let mark_at = |row: usize, column: usize| {
        let mut marks = lines.iter().zip(MARKS);
        marks.find(|(line, _)| sample(line, column).is_some_and(|h| row_of(h) == row)).map_or(' ', |(_, mark)| mark)
    };
    let mut out = format!("{title}, {}\n", unit.shown);
    for n in 0..ROWS {
        let value = top * (ROWS - 1 - n) as f64 / (ROWS - 1) as f64;
        let scale = if n % 4 == 0 { label(value) } else { String::new() };
        let row: String = (0..columns).map(|column| mark_at(ROWS - 1 - n, column)).collect();
        out.push_str(&format!("{scale:>margin$}|{}\n", row.trim_end()));
    }
    out.push_str(&format!("{:>margin$}+{}\n", "", "-".repeat(columns)));
    let end = time.from_base(course.times.last().copied().unwrap_or(0.0));
    let last = format!("{end:.0} {}", time.shown);
    out.push_str(&format!("{:>margin$} 0{last:>pad$}\n", "", pad = columns - 1));
    for (line, mark) in course.lines.iter().zip(MARKS) {
        out.push_str(&format!("{:>margin$} {mark} {}\n", "", line.called));
    }
    out
}

/// The course as an SVG picture, lines told apart by their dashes as well as by their names.
pub fn svg(title: &str, course: &Course, unit: &Unit, time: &Unit) -> String {
    let top = nice_top(course.lines.iter().flat_map(|l| &l.heights).map(|h| unit.from_base(*h)).fold(0.0, f64::max));
    let over = course.times.last().copied().unwrap_or(1.0).max(f64::MIN_POSITIVE);
    let x = |t: f64| LEFT + (WIDTH - LEFT - 12.0) * t / over;
    let y = |h: f64| HEIGHT - BELOW - (HEIGHT - BELOW - ABOVE) * (unit.from_base(h) / top).clamp(0.0, 1.0);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" aria-label=\"{0}\" font-family=\"sans-serif\" font-size=\"11\">\n<text x=\"{LEFT}\" y=\"16\">{0}, {1}</text>\n",
        escape(title),
        escape(unit.shown)
    );
    for n in 0..=2 {
        let value = top * f64::from(n) / 2.0;
        let at = HEIGHT - BELOW - (HEIGHT - BELOW - ABOVE) * f64::from(n) / 2.0;
        out.push_str(&format!("<path d=\"M{LEFT} {at:.1}H{:.1}\" stroke=\"#bbb\" fill=\"none\"/><text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{value:.*}</text>\n", WIDTH - 12.0, LEFT - 5.0, at + 4.0, usize::from(top < 5.0)));
    }
    let end = time.from_base(over);
    out.push_str(&format!(
        "<text x=\"{LEFT}\" y=\"{0:.1}\">0</text><text x=\"{1:.1}\" y=\"{0:.1}\" text-anchor=\"end\">{end:.0} {2}</text>\n",
        HEIGHT - BELOW + 15.0,
        WIDTH - 12.0,
        escape(time.shown)
    ));
    let dashes = ["", "6 4", "2 3", "8 3 2 3"];
    for (n, line) in course.lines.iter().enumerate() {
        let points: Vec<String> =
            course.times.iter().zip(&line.heights).map(|(t, h)| format!("{:.1},{:.1}", x(*t), y(*h))).collect();
        let dash = dashes[n % dashes.len()];
        let legend = LEFT + 235.0 * (n % 2) as f64;
        let row = HEIGHT - 20.0 + 14.0 * (n / 2) as f64;
        out.push_str(&format!("<polyline points=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\" stroke-dasharray=\"{dash}\"/>\n", points.join(" ")));
        out.push_str(&format!("<path d=\"M{legend} {row}h24\" stroke=\"#000\" stroke-width=\"1.6\" stroke-dasharray=\"{dash}\"/><text x=\"{:.1}\" y=\"{:.1}\">{}</text>\n", legend + 30.0, row + 4.0, escape(&line.called)));
    }
    out.push_str("</svg>\n");
    out
}

/// The next round number above: 1, 2 or 5 times a power of ten.
fn nice_top(most: f64) -> f64 {
    if most <= 0.0 || !most.is_finite() {
        return 1.0;
    }
    let power = 10f64.powf(most.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|n| n * power).find(|top| *top >= most).unwrap_or(10.0 * power)
}

/// Text made safe for XML.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
