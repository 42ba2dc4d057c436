//! The key of marks: every line and sign of the sheet's pictures with what it means.

use super::Page;
use super::pieces::arrow;
use super::write::Html;
use kurbo::Point;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Mark {
    sample: Html,
    words: &'static str,
}

/// The marks: those of the pieces first, then those of the steps.
pub fn key(page: &Page) -> Vec<Mark> {
    let say = page.say;
    let line = |class: &str| format!("<path class=\"{class}\" d=\"M2 10H62\"/>");
    // As pictures of steps draw it: some lines lie on a wider white one.
    let drawn = |classes: &[&str]| {
        let lines: String = classes.iter().map(|class| line(class)).collect();
        format!("<g class=\"pic\">{lines}</g>")
    };
    let grain = arrow(Point::new(4.0, 10.0), Point::new(60.0, 10.0), true);
    let notch = "<path class=\"cut\" d=\"M2 5H62\"/><path class=\"notch\" d=\"M16 5V14M44 5V14M49 5V14\"/>";
    let number = "<circle class=\"numberring\" cx=\"32\" cy=\"10\" r=\"8\"/><text class=\"number\" x=\"32\" y=\"13.6\">1</text>";
    let now = "<g class=\"pic\"><path class=\"c\" d=\"M2 10H62\"/><path class=\"n\" d=\"M2 10H62\"/><rect class=\"q\" x=\"24\" y=\"1.5\" width=\"17\" height=\"17\"/><text x=\"32.5\" y=\"14.4\">A</text></g>";
    let signs = "<g class=\"pic\"><circle class=\"g\" cx=\"12\" cy=\"10\" r=\"4.4\"/><path class=\"g\" d=\"M32 5L37.5 14.5H26.5Z\"/><path class=\"g\" d=\"M47.5 5.5h9v9h-9Z\"/></g>";
    let gap = "<g class=\"pic\"><path class=\"p\" d=\"M2 10H18M46 10H62\"/><path class=\"i\" d=\"M18 4V16M46 4V16\"/></g>";
    let mut marks = vec![
        (line("cut"), say.key_cutting),
        (line("sewn"), say.key_stitching),
        (grain, say.key_grain),
        (line("onfold"), say.key_fold),
        (line("inner"), say.key_adjust),
        (notch.to_owned(), say.key_notch),
        (number.to_owned(), say.key_piece),
    ];
    if page.differing.is_some() {
        marks.push((line("differ"), say.key_differs));
    }
    if !page.cloths.is_empty() {
        marks.push((sides(page.cloths.len(), ['r', 'w']), say.key_right_wrong));
        marks.push((sides(page.cloths.len(), ['h', 'v']), say.key_done));
    }
    marks.extend([
        (now.to_owned(), say.key_now),
        (signs.to_owned(), say.key_meet),
        (drawn(&["c", "s"]), say.key_stitches),
        (drawn(&["c", "b"]), say.key_basting),
        (drawn(&["c", "l"]), say.key_slip),
        (gap.to_owned(), say.key_gap),
        (drawn(&["p"]), say.key_before),
        (drawn(&["f"]), say.key_folded),
    ]);
    marks.into_iter().map(|(shapes, words)| mark(&shapes, words)).collect()
}

/// Of each cloth one side above the other.
fn sides(cloths: usize, classes: [char; 2]) -> String {
    let shown = (0..cloths.min(5)).map(|at| {
        let left = 2 + 12 * at;
        let [above, below] = classes;
        format!(
            "<rect class=\"{above}{at}\" x=\"{left}\" y=\"1\" width=\"11\" height=\"8.5\"/><rect class=\"{below}{at}\" x=\"{left}\" y=\"10.5\" width=\"11\" height=\"8.5\"/><path class=\"j\" d=\"M{left} 1h11v18h-11ZM{left} 10h11\"/>"
        )
    });
    format!("<g class=\"pic\">{}</g>", shown.collect::<String>())
}

fn mark(shapes: &str, words: &'static str) -> Mark {
    let sample = format!(
        "<svg class=\"sample\" width=\"64\" height=\"20\" viewBox=\"0 0 64 20\" aria-hidden=\"true\">{shapes}</svg>"
    );
    Mark { sample: Value::from_safe_string(sample), words }
}
