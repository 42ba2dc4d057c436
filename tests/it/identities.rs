//! What any pattern drafter can say without knowing a figure: what is done and undone leaves the
//! paper as it was, a cut loses no cloth, and nothing depends on who did the work.

use crate::cases::cases;
use crate::drafting::{Drafted, draft, draft_in};
use fustian::emit::{document, to_text};
use fustian::shape::Point;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use proptest::prelude::*;

/// A front of any sensible proportions, with a curved neck, armhole and side, and what is done to it.
#[derive(Clone, Copy, Debug)]
struct Front {
    neck: f64,
    width: f64,
    depth: f64,
    hem: f64,
    long: f64,
    lean: f64,
}

fn fronts() -> impl Strategy<Value = Front> {
    (5.0..9.0_f64, 20.0..36.0_f64, 18.0..26.0_f64, 20.0..40.0_f64, 55.0..90.0_f64, -25.0..25.0_f64)
        .prop_map(|(neck, width, depth, hem, long, lean)| Front { neck, width, depth, hem, long, lean })
}

impl Front {
    /// The text, with an edge `side` as given and more lines after the piece.
    fn text(self, side: &str, rest: &str) -> String {
        let Front { neck, width, depth, hem, long, .. } = self;
        format!(
            r#"block piece front "Front" {{
  cut 1 on fold centre
  point neck_cf   = (0, -{neck})
  point neck_side = ({neck}, 0)
  point tip       = neck_side + (11, -4)
  point underarm  = ({width}, -{depth})
  point hem_side  = ({hem}, -{long})
  point hem_cf    = (0, -{long})
  outline from hem_cf {{
    centre    to neck_cf
    neckline  to neck_side  curve leaving right arriving square to shoulder
    shoulder  to tip
    armhole   to underarm   curve leaving square to shoulder arriving right
    side      to hem_side   {side}
    hem       to hem_cf
  }}
  line waist across at (0, -{waist})
  mark eyelet = (2, 2 - {long})
}}
{rest}"#,
            waist = (depth + long) / 2.0,
        )
    }

    fn curved(self, rest: &str) -> Drafted {
        let down = format!("curve leaving {}deg arriving {}deg", -90.0 + self.lean, -90.0 - self.lean);
        draft(&self.text(&down, rest)).drawn_soundly()
    }

    fn straight(self, rest: &str) -> Drafted {
        draft(&self.text("", rest)).drawn_soundly()
    }
}

const EDGES: [&str; 6] = ["centre", "neckline", "shoulder", "armhole", "side", "hem"];

/// Sixty-five places along every edge, evenly apart.
fn outline(drafted: &Drafted) -> Vec<Point> {
    let places = drafted.piece("front").edges.iter().flat_map(|edge| {
        let length = edge.path.length();
        (0..=64).map(move |step| edge.path.point_at_length(length * f64::from(step) / 64.0))
    });
    places.collect()
}

/// The same edges in the same places, to a thousandth of what is written.
fn agree(before: &Drafted, after: &Drafted) {
    assert_eq!(before.edges("front"), after.edges("front"));
    for (one, other) in outline(before).iter().zip(outline(after)) {
        assert!(one.distance(other) < 1e-5, "{one:?} became {other:?}");
    }
    for point in ["neck_cf", "neck_side", "tip", "underarm", "hem_side", "hem_cf", "eyelet"] {
        assert!(before.point("front", point).distance(after.point("front", point)) < 1e-5, "{point}");
    }
    let (from, to) = before.line("front", "waist");
    let (now_from, now_to) = after.line("front", "waist");
    assert!(from.distance(now_from) < 1e-5 && to.distance(now_to) < 1e-5);
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn lengthened_and_shortened_by_as_much_is_as_before(front in fronts(), by in 0.1..30.0_f64) {
        let done = format!("lengthen front at waist by {by}\nshorten front at waist by {by}");
        agree(&front.curved(""), &front.curved(&done));
        agree(&front.straight(""), &front.straight(&done));
    }

    #[test]
    fn lengthened_adds_the_strip_between_the_halves(front in fronts(), by in 0.1..30.0_f64) {
        // A curved side keeps its shape on both sides of a strip as wide as the line is long.
        let before = front.curved("");
        let (from, to) = before.line("front", "waist");
        let after = front.curved(&format!("lengthen front at waist by {by}"));
        let strip = from.distance(to) * by * 10.0;
        let grown = after.area("front") - before.area("front");
        // The side is joined without a corner, which moves it by a little near the line.
        prop_assert!((grown - strip).abs() < 0.02 * after.area("front"), "{} for {}", grown, strip);
        prop_assert!((after.length("front", "centre") - before.length("front", "centre") - by * 10.0).abs() < 1e-6);
    }

    #[test]
    fn opened_and_closed_is_as_before(front in fronts()) {
        let (before, after) = (front.curved(""), front.curved("open front at centre\nclose front at centre"));
        agree(&before, &after);
        let (before, after) = (before.piece("front"), after.piece("front"));
        prop_assert_eq!((before.cut, before.count), (after.cut, after.count));
    }

    #[test]
    fn a_cut_loses_no_cloth(front in fronts(), at in 0.15..0.85_f64) {
        let whole = front.curved("");
        let height = -front.neck - (front.long - front.neck) * at;
        let cut = format!("  line yoke across at (0, {height})\n}}\nsplit front at yoke into yoke, skirt\n");
        let down = format!("curve leaving {}deg arriving {}deg", -90.0 + front.lean, -90.0 - front.lean);
        let text = front.text(&down, "");
        let text = format!("{}{cut}", text.trim_end().trim_end_matches('}'));
        let parts = draft(&text).drawn_soundly();
        let together = parts.area("yoke") + parts.area("skirt");
        prop_assert!((together - whole.area("front")).abs() < 1e-3, "{} of {}", together, whole.area("front"));
    }

    /// The same figures in inches are 2.54 times as long (NIST SP 811) and 2.54² as large.
    #[test]
    fn the_same_figures_in_inches_are_larger_alike(front in fronts()) {
        let text = front.text("", "lengthen front at waist by 3");
        let (small, large) = (draft_in("cm", &text).drawn_soundly(), draft_in("in", &text).drawn_soundly());
        for edge in EDGES {
            let ratio = large.length("front", edge) / small.length("front", edge);
            prop_assert!((ratio - 2.54).abs() < 1e-7, "{}: {}", edge, ratio);
        }
        let ratio = large.area("front") / small.area("front");
        prop_assert!((ratio - 2.54 * 2.54).abs() < 1e-7, "{}", ratio);
    }

    /// Where on the paper a piece is drawn makes no difference to it.
    #[test]
    fn a_piece_drawn_elsewhere_is_the_same(front in fronts(), right in -80..80_i32, up in -80..80_i32) {
        let here = front.curved("");
        let down = format!("curve leaving {}deg arriving {}deg", -90.0 + front.lean, -90.0 - front.lean);
        let mut text = front.text(&down, "");
        for name in ["point neck_cf", "point neck_side", "point underarm", "point hem_side", "point hem_cf", "mark eyelet"] {
            let spot = text.lines().find(|line| line.contains(&format!("{name} "))).unwrap().to_owned();
            text = text.replace(&spot, &format!("{spot} + ({right}, {up})"));
        }
        let waist = (front.depth + front.long) / 2.0;
        text = text.replace(&format!("at (0, -{waist})"), &format!("at ({right}, {up} - {waist})"));
        let there = draft(&text).drawn_soundly();
        for edge in EDGES {
            prop_assert!((here.length("front", edge) - there.length("front", edge)).abs() < 1e-6, "{}", edge);
        }
        prop_assert!((here.area("front") - there.area("front")).abs() < 1e-4);
    }
}

fn crew(more: &[(&str, &str)]) -> MemoryLoader {
    let loader = MemoryLoader::new()
        .with("crew-library.fus", include_str!("../../examples/crew-library.fus"))
        .with("deck-smock.fus", include_str!("../../examples/deck-smock.fus"))
        .with("deck-zip.fus", include_str!("../../examples/deck-zip.fus"))
        .with("deck-lined.fus", include_str!("../../examples/deck-lined.fus"))
        .with("deck-jacket.fus", include_str!("../../examples/deck-jacket.fus"));
    more.iter().fold(loader, |loader, (path, text)| loader.with(path, *text))
}

fn written(compiled: &Compiled) -> String {
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics)).unwrap()
}

#[test]
fn the_result_is_the_same_however_many_work_on_it() {
    let loader =
        crew(&[("broken.fus", "variation \"Torn\" of \"deck-jacket.fus\"\nset ease = 1/0\nset cap = 3\n")]);
    for file in ["deck-jacket.fus", "broken.fus"] {
        let by: Vec<String> = [1, 2, 8]
            .map(|threads| {
                let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
                pool.install(|| written(&compile(&loader, file)))
            })
            .to_vec();
        assert!(by[0].len() > 1000, "{}", by[0]);
        assert!(by[0] == by[1] && by[0] == by[2], "{file} is not the same for 1, 2 and 8 threads");
    }
}

#[test]
fn a_variation_that_changes_nothing_is_its_base_to_the_byte() {
    let about = "about \"A pull-on smock for the deck crew, in dry-waxed cotton.\"\n";
    let same = format!("variation \"Deck smock\" of \"deck-smock.fus\"\n{about}");
    let again = format!("variation \"Deck smock\" of \"same.fus\"\n{about}");
    let loader = crew(&[("same.fus", &same), ("again.fus", &again)]);
    let base = written(&compile(&loader, "deck-smock.fus"));
    assert!(base.contains("outer.sleeve"));
    assert_eq!(written(&compile(&loader, "same.fus")), base);
    assert_eq!(written(&compile(&loader, "again.fus")), base, "nor does a variation of that");
}

#[test]
fn setting_what_is_so_already_changes_nothing() {
    let same = "variation \"Deck smock\" of \"deck-smock.fus\"\n\
                about \"A pull-on smock for the deck crew, in dry-waxed cotton.\"\n\
                set ease = 22 \"wearing ease at the chest\"\n\
                replace place pocket on front {\n  corner bottom_left at pocket_corner\n  topstitch left, right\n  \
                caught bottom in hem_band\n}\n";
    let loader = crew(&[("same.fus", same)]);
    assert_eq!(written(&compile(&loader, "same.fus")), written(&compile(&loader, "deck-smock.fus")));
}
