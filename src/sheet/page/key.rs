//! The key of marks: every line and sign of the sheet's pictures with what it means.

use super::Page;
use super::write::Html;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Mark {
    sample: Html,
    words: &'static str,
}

/// The marks, those of the pieces first.
pub fn key(page: &Page) -> Vec<Mark> {
    let say = page.say;
    let cloths = page.cloths.len();
    let line = |class: &str| format!("<path class=\"{class}\" d=\"M2 10H62\"/>");
    let mut marks = vec![
        mark(&line("cut"), say.key_cutting),
        mark(&line("sewn"), say.key_stitching),
        mark(
            &super::pieces::arrow(kurbo::Point::new(4.0, 10.0), kurbo::Point::new(60.0, 10.0), true),
            say.key_grain,
        ),
        mark(&line("onfold"), say.key_fold),
        mark(&line("inner"), say.key_adjust),
        mark(
            "<path class=\"cut\" d=\"M2 5H62\"/><path class=\"notch\" d=\"M16 5V14M44 5V14M49 5V14\"/>",
            say.key_notch,
        ),
        mark(
            "<circle class=\"numberring\" cx=\"32\" cy=\"10\" r=\"8\"/><text class=\"number\" x=\"32\" y=\"13.6\">1</text>",
            say.key_piece,
        ),
    ];
    if cloths > 0 {
        let shown = page.cloths.iter().take(5).enumerate().map(|(at, _)| {
            let left = 2 + 12 * at;
            format!(
                "<rect class=\"laid\" x=\"{left}\" y=\"1\" width=\"11\" height=\"8.5\" fill=\"url(#cloth-{at})\"/><rect class=\"laid\" x=\"{left}\" y=\"10.5\" width=\"11\" height=\"8.5\" fill=\"url(#pale-{at})\"/>"
            )
        });
        marks.push(mark(&shown.collect::<String>(), say.key_right_wrong));
    }
    marks
}

fn mark(shapes: &str, words: &'static str) -> Mark {
    let sample = format!(
        "<svg class=\"sample\" width=\"64\" height=\"20\" viewBox=\"0 0 64 20\" aria-hidden=\"true\">{shapes}</svg>"
    );
    Mark { sample: Value::from_safe_string(sample), words }
}
