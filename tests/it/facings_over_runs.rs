//! Facings along runs of edges, and on the sides of the body that their edges name.

use crate::workbench::{NOTHING, mistake, said, told, with};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;
use fustian::{Compiled, compile};

/// A mouth of 30 in the middle of an apron's top of 70, faced 5 deep.
const APRON: &str = "garment \"Chart apron\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 140; kind woven firm }
layer outer in drill { apron }
piece apron \"Apron\" { cut 1; outline rectangle 70 by 60 }
facing mouth \"Mouth facing\" in outer 5 wide behind apron.top 20..50 from top_left
finish apron.top, apron.left, apron.right, apron.bottom hem 2
steps { \"All\" { finish mouth_apron.top_near, mouth_apron.top_far, mouth_apron.inner; sew mouth; hem apron.top, apron.left, apron.right, apron.bottom } }
";

fn compiled(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus")
}

/// The edges of a strip, by their names, and how long each is.
fn edges(compiled: &Compiled, piece: &str) -> Vec<(String, f64)> {
    let garment = &compiled.garment;
    let papers = compiled.sizes[0].drawn.papers.iter().flatten();
    let strip = papers.into_iter().find(|drawn| &*garment.piece(drawn.piece).name == piece).expect("drawn");
    strip.edges.iter().map(|edge| (garment.edge(edge.edge).name.to_string(), edge.path.length())).collect()
}

/// 30 along the edge and the inside, 5 at both ends.
#[test]
fn a_strip_ends_square_inside_an_edge() {
    assert_eq!(said(APRON), NOTHING);
    let mut found = edges(&compiled(APRON), "mouth_apron");
    found.sort_by(|one, other| one.0.cmp(&other.0));
    let by_hand = [("inner", 300.0), ("top", 300.0), ("top_far", 50.0), ("top_near", 50.0)];
    assert_eq!(found.len(), by_hand.len(), "{found:?}");
    for ((name, length), (own, hand)) in found.iter().zip(by_hand) {
        assert_eq!(name, own);
        assert!((length - hand).abs() < 1e-6, "{name}: {length}");
    }
}

/// From a corner: the near end is what the strip cuts off the edge beside it. In a curve both ends are square to it, so
/// that on a quarter of a circle of 20, of which a half is faced 5 deep on its outside, the inside is 25 · π/4 long.
#[test]
fn a_strip_begins_at_a_corner_and_goes_round_a_curve() {
    let text = "garment \"Collar guard\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 140; kind woven firm }
layer outer in drill { guard }
piece guard \"Guard\" {
  cut 1
  point middle = (0, 0)
  point low = (0, -20)
  point side = (20, 0)
  point far = (40, 0)
  point corner = (40, -40)
  point bottom = (0, -40)
  outline from low {
    neck to side arc about middle anticlockwise
    shoulder to far
    right to corner
    hem to bottom
    front to low
  }
}
facing neck_facing in outer 5 wide behind guard.neck 50% from side
finish guard.shoulder, guard.right, guard.hem, guard.front hem 1
finish guard.neck bound 1
finish neck_facing_guard.shoulder overlocked
";
    let all = told(text);
    assert!(all.iter().all(|(slug, _)| *slug == "steps/none"), "{all:?}");
    let found = edges(&compiled(text), "neck_facing_guard");
    let length = |name: &str| found.iter().find(|(own, _)| own == name).map(|(_, length)| *length);
    let quarter = std::f64::consts::FRAC_PI_4;
    for (name, by_hand) in
        [("neck", 200.0 * quarter), ("inner", 250.0 * quarter), ("shoulder", 50.0), ("neck_far", 50.0)]
    {
        let length = length(name).unwrap_or_else(|| panic!("{name} of {found:?}"));
        assert!((length - by_hand).abs() < 0.02, "{name}: {length} and not {by_hand}");
    }
    assert_eq!(length("neck_near"), None);
}

#[test]
fn what_no_strip_can_be_made_of_is_told() {
    for (from, to, slug, words) in [
        ("20..50 from top_left", "20..80 from top_left", "run/too-long", "70 cm long"),
        ("5 wide", "65 wide", "strip/broken", "65 cm wide"),
        (
            "apron.top 20..50 from top_left",
            "apron.top 20..50 from top_left + apron.right",
            "strip/broken",
            "left out",
        ),
        ("from top_left\n", "from bottom_left\n", "edge/place", "bottom_left is not on top"),
    ] {
        let all = told(&with(APRON, &[(from, to)]));
        let found = all.iter().any(|(own, title)| *own == slug && title.contains(words));
        assert!(found, "{to}: {all:?}");
    }
    assert!(mistake("strip-broken-run").contains("twice") || mistake("strip-broken-run").contains("20 from"));
    assert!(mistake("strip-broken-sides").contains("on left"));
}

#[test]
fn a_strip_along_a_run_is_laid_out_as_it_is_written() {
    let written = "garment \"Apron\"\npiece apron \"Apron\" { outline rectangle 70 by 60 }\n\
         piece stay \"Stay\" { outline strip of apron along left, top   20  from top_left width 3 }\n";
    let mut map = SourceMap::default();
    let id = map.add("apron.fus".to_owned(), written.to_owned());
    let text = tidy(&map, id).expect("a sound text");
    assert!(text.contains("outline strip of apron along left, top 20 from top_left width 3"), "{text}");
}
