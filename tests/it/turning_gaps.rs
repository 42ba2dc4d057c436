//! Gaps for turning of which it is said where in their seam they lie. Every figure is worked out by hand.

use crate::drafting::same;
use crate::workbench::{NOTHING, mistake, said, told, with};
use fustian::compile;
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;

/// A cloth of 60 by 40 and its lining, sewn together all round from its upper left corner on.
const CLOTH: &str = "garment \"Stove cloth\"
units cm
allowance 1
fabric canvas \"apron canvas\" { width 150 }
fabric fleece \"curly fleece\" { width 150 }
layer outer in canvas { cloth }
layer lining in fleece { cloth }
piece cloth \"Cloth\" {
  cut 1
  outline rectangle 60 by 40
  mark tag = (24, 0)
}
seam round  outer.cloth.top + outer.cloth.right + outer.cloth.bottom + outer.cloth.left to lining.cloth.top + lining.cloth.right + lining.cloth.bottom + lining.cloth.left {
  matching outer.cloth.top_left with lining.cloth.top_left
  leaving gap 15 in lining
}
steps { \"Cloth\" { sew round; turn through gap in round; slipstitch gap in round } }
";

fn leaving(words: &str) -> String {
    with(CLOTH, &[("leaving gap 15 in lining", &format!("leaving gap {words}"))])
}

/// From where to where along a seam, in millimetres.
type Stretch = (f64, f64);

/// Where along the seam the gap lies, and the notches of the lining's edges, in centimetres from where each edge starts.
fn lies(text: &str) -> (Option<Stretch>, Vec<(String, f64)>) {
    let compiled = compile(&MemoryLoader::new().with("own.fus", text.to_owned()), "own.fus");
    assert_eq!(told(text), []);
    let sewn = &compiled.sizes[0].sewn;
    let gap = sewn.seams[0].gaps.first().map(|gap| gap.at.expect("it lies somewhere").first);
    let part = &sewn.parts[1];
    let drawn = compiled.sizes[0].drawn.paper(part.part.paper).expect("the cloth");
    let notches = part.notches.iter().map(|notch| {
        let edge = drawn.edge_at(notch.edge).expect("an edge").edge;
        (compiled.garment.edge(edge).name.to_string(), notch.along / 10.0)
    });
    (gap.map(|(from, to)| (from / 10.0, to / 10.0)), notches.collect())
}

/// Once round from the upper left corner: the top is 60, the right 40, the bottom from 100 to 160, the left to 200. A
/// rectangle is drawn from its lower left corner against the clock, so that the seam runs along the bottom as it is not
/// drawn: 3 to 18 from the lower right corner are 42 to 57 along it.
#[test]
fn a_gap_lies_where_it_is_counted_to_and_is_notched_at_its_ends() {
    for (words, from, notches) in [
        ("3..18 from bottom_right along cloth.bottom in lining", 103.0, [("bottom", 42.0), ("bottom", 57.0)]),
        ("3..18 from bottom_left along cloth.bottom in lining", 142.0, [("bottom", 3.0), ("bottom", 18.0)]),
        ("3..18 from cloth.left along cloth.bottom in lining", 142.0, [("bottom", 3.0), ("bottom", 18.0)]),
        ("15 in the middle along cloth.bottom in lining", 122.5, [("bottom", 22.5), ("bottom", 37.5)]),
        ("15 in the middle along lining.cloth.right in lining", 72.5, [("right", 12.5), ("right", 27.5)]),
        // From the mark, which is 24 from the lower left corner, 40 more end at the right and 15 may lie either way.
        ("3..30 from tag along cloth.bottom in lining", 106.0, [("bottom", 27.0), ("bottom", 54.0)]),
    ] {
        let (gap, found) = lies(&leaving(words));
        let long = if words.starts_with("3..30") { 27.0 } else { 15.0 };
        let (start, end) = gap.expect("its place is said");
        same(start * 10.0, from * 10.0);
        same(end * 10.0, (from + long) * 10.0);
        assert_eq!(found.len(), 2, "{words}: {found:?}");
        for (found, wanted) in found.iter().zip(notches) {
            assert_eq!(found.0, wanted.0, "{words}");
            same(found.1 * 10.0, wanted.1 * 10.0);
        }
    }
    // Of one of which nothing is said there is nothing to mark.
    assert_eq!(lies(&leaving("15 in lining")), (None, Vec::new()));
}

/// What the seam marks outside of the gap's layer is not marked: the gap alone is the lining's.
#[test]
fn a_gap_of_one_side_seam_is_notched_in_its_layer_alone() {
    let text = "garment \"Mess tunic\"\nunits cm\nallowance 1\nfabric canvas \"apron canvas\" { width 150 }\n\
        fabric cotton \"blue cotton\" { width 150 }\nlayer outer in canvas { front, back }\nlayer lining in cotton { front, back }\n\
        piece front \"Front\" { cut 1 on fold left; outline rectangle 30 by 60 }\n\
        piece back \"Back\" { cut 1 on fold left; outline rectangle 30 by 60 }\n\
        seam side front.right to back.right { leaving gap 20..35 from front.bottom_right in lining, left }\n\
        seam edge outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom\n\
        seam top outer.front.top + outer.back.top to lining.front.top + lining.back.top\n";
    let compiled = compile(&MemoryLoader::new().with("own.fus", text.to_owned()), "own.fus");
    for part in &compiled.sizes[0].sewn.parts {
        let layer = &compiled.garment.layer(part.part.layer).name;
        let sides: Vec<f64> =
            part.notches.iter().filter(|notch| notch.edge.index() == 1).map(|notch| notch.along).collect();
        match &**layer {
            // The right edge is drawn upward.
            "lining" => {
                assert_eq!(sides.len(), 2, "{layer}: {sides:?}");
                same(sides[0], 200.0);
                same(sides[1], 350.0);
            }
            _ => assert!(sides.is_empty(), "{layer}: {sides:?}"),
        }
    }
}

#[test]
fn a_place_that_cannot_be_is_told_with_its_reason() {
    for (words, title) in [
        ("15 from bottom_left in lining", "may lie on either side of what it is counted from"),
        ("10 from bottom_left in lining", "may lie on either side"),
        ("15 from tag along cloth.bottom in lining", "may lie on either side"),
        ("50..65 from bottom_left along cloth.bottom in lining", "goes 5 cm beyond the end of bottom"),
        ("50 in the middle along cloth.left in lining", "goes 5 cm beyond the end of left"),
        ("15 from bottom_left along cloth.top in lining", "is counted from does not lie on that seam"),
    ] {
        let told = told(&leaving(words));
        let own: Vec<_> = told.iter().filter(|(slug, _)| *slug == "gap/place").collect();
        assert!(matches!(own.as_slice(), [(_, told)] if told.contains(title)), "{words}: {told:?}");
    }
    for (words, slug) in [
        ("3..18 in the middle in lining", "gap/place"),
        ("15 from bottom_left along cloth.middle in lining", "name/unknown"),
        ("15 from bottom_lft along cloth.bottom in lining", "name/unknown"),
        ("18..3 from bottom_left along cloth.bottom in lining", "value/negative"),
        ("3.. from bottom_left in lining", "syntax/expected"),
    ] {
        assert!(said(&leaving(words)).contains(&slug), "{words}: {:?}", told(&leaving(words)));
    }
    assert_eq!(said(&leaving("15 at bottom_left along cloth.bottom in lining")), NOTHING);
    let one_side = with(&mistake("gap-place-sides"), &[(" in lining\n}", " in lining, left\n}")]);
    assert_eq!(said(&one_side), NOTHING);
}

#[test]
fn its_place_is_spelled_in_one_way() {
    let text = leaving("3 .. 18 at bottom_left  along cloth.bottom in lining");
    let spelled = tidied(&text);
    assert!(
        spelled.contains("leaving gap 3..18 from bottom_left along cloth.bottom in lining\n"),
        "{spelled}"
    );
    assert_eq!(tidied(&spelled), spelled);
    let text = leaving("15 in the middle along cloth.bottom in lining");
    assert!(tidied(&text).contains("leaving gap 15 in the middle along cloth.bottom in lining\n"));
}

fn tidied(text: &str) -> String {
    let mut map = SourceMap::default();
    let file = map.add("own.fus", text.to_owned());
    tidy(&map, file).expect("it can be read")
}

/// The cut list says it too, where a place is said.
#[test]
fn the_cut_list_says_what_is_left_open() {
    let list_as = |words: &str, form: fustian::emit::Form| {
        let compiled = compile(&MemoryLoader::new().with("own.fus", leaving(words)), "own.fus");
        let sizes: Vec<_> = compiled.sizes.iter().collect();
        fustian::emit::cut_list(&compiled.garment, &sizes, form).expect("a list")
    };
    let list = |words: &str| list_as(words, fustian::emit::Form::Text);
    let said = list("3..18 from bottom_left along cloth.bottom in lining");
    let wanted = "leave open in the round seam in lining: 15 cm, from 3 cm to 18 cm from cloth.bottom_left along cloth.bottom";
    assert!(said.contains(wanted), "{said}");
    let middle = list("15 in the middle along lining.cloth.right in lining");
    assert!(middle.contains("15 cm, in the middle along lining.cloth.right"), "{middle}");
    assert!(!list("15 in lining").contains("leave open"));
    let json = list_as("15 in the middle along lining.cloth.right in lining", fustian::emit::Form::Json);
    let json: serde_json::Value = serde_json::from_str(&json).expect("json");
    let open = json[0]["left_open"][0].as_str().expect("a line");
    assert!(open.contains("15 cm, in the middle along lining.cloth.right"), "{json:#}");
    let json = list_as("15 in lining", fustian::emit::Form::Json);
    assert!(!json.contains("left_open"), "{json}");
}

/// So do the steps, in both languages.
#[test]
fn the_steps_say_where_a_gap_lies() {
    use fustian::sheet::sentences::step_texts;
    use fustian::sheet::{Facts, Language, Run};
    let read = |words: &str, language: Language| -> String {
        let compiled = compile(&MemoryLoader::new().with("own.fus", leaving(words)), "own.fus");
        let document = compiled.document().expect("a sound garment");
        let facts = Facts::of(&compiled.garment, compiled.sizes.iter().collect(), &document).expect("a size");
        let texts = step_texts(&facts, language);
        let runs = texts.iter().flat_map(|text| &text.sentences).flat_map(|sentence| &sentence.0);
        let words = runs.map(|run| match run {
            Run::Words(words) | Run::Term(_, words) => words.clone(),
            Run::Piece(number, _) => format!("({number})"),
            Run::Figure(figure) => format!("{}", figure.values[0].unwrap_or_default() / 10.0),
            _ => String::new(),
        });
        words.collect()
    };
    let place = "3..18 from bottom_left along cloth.bottom in lining";
    let english = read(place, Language::English);
    assert!(english.contains("It lies between its notches on the bottom edge of (1), counted from ‘bottom left’ of (1): from 3 to 18."), "{english}");
    let german = read(place, Language::German);
    assert!(german.contains("Sie liegt zwischen ihren Knipsen auf Kante „bottom“ von (1), von „bottom left“ von (1) aus: von 3 bis 18."), "{german}");
    assert!(
        read("15 in the middle along cloth.bottom in lining", Language::English)
            .contains("It lies in the middle of the bottom edge of (1)")
    );
    assert!(!read("15 in lining", Language::English).contains("It lies"));
}

/// A pouch in two sizes, one of 5.5 and one of 30: in the small one the gap of 14 cannot be elsewhere, in the large one the
/// lining has a seam for it. That is told whichever size comes first.
#[test]
fn every_size_is_asked_for_its_gaps() {
    let pouch = "garment \"Pouch\"\nunits cm\nallowance 1\nsizes s, l\nlet long = each 5.5, 30\n\
        fabric canvas \"waxed canvas\" { width 150; kind woven firm }\nfabric twill \"lining twill\" { width 140; kind woven supple }\n\
        layer outer in canvas { front, back }\nlayer lining in twill { front, back }\n\
        piece front \"Front\" { cut 1; outline rectangle long by long }\npiece back \"Back\" { cut 1; outline rectangle long by long }\n\
        seam round front.left + front.bottom + front.right to back.left + back.bottom + back.right { leaving gap 14 in outer }\n\
        seam mouth_front outer.front.top to lining.front.top\nseam mouth_back outer.back.top to lining.back.top\n\
        steps { \"Bag\" { sew round, mouth_front, mouth_back; turn through gap in round; slipstitch gap in round } }\n";
    let turned = pouch.replace("sizes s, l", "sizes l, s").replace("5.5, 30", "30, 5.5");
    for text in [pouch.to_owned(), turned] {
        assert!(
            crate::workbench::said(&text).contains(&"gap/outside"),
            "{:?}",
            crate::workbench::told(&text)
        );
    }
}

/// Half a cloth of 30 by 14 on the fold: its foot is 30 long, and a gap of 18 in its middle lies from 6 to 24. Sewn all
/// round from the foot on, it would lie on both sides of where the seam begins; from the head on, which is 30, a side of 14,
/// the foot of 30 and the other side, its middle is at 30/2 + 14 + 30/2 = 44 of 88, and one of 13 lies from 37.5 to 50.5.
#[test]
fn in_the_middle_of_an_edge_that_runs_on_across_the_fold() {
    let cloth = |seams: &str| {
        format!(
            "garment \"Pot holder\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150; kind woven firm }}\n\
             layer o in canvas {{ cloth }}\nlayer l in canvas {{ cloth }}\n\
             piece cloth \"Cloth\" {{\n  cut 1 on fold left\n  outline rectangle 15 by 14\n}}\n{seams}"
        )
    };
    let foot = cloth(
        "seam foot o.cloth.bottom to l.cloth.bottom { leaving gap 18 in the middle along l.cloth.bottom }\n\
         seam sides o.cloth.right to l.cloth.right\nseam head o.cloth.top to l.cloth.top\n",
    );
    let at = |text: &str| {
        let compiled = compile(&MemoryLoader::new().with("own.fus", text.to_owned()), "own.fus");
        assert_eq!(told(text), [], "{text}");
        let gap = compiled.sizes[0].sewn.seams.iter().find_map(|sewn| sewn.gaps.first()).expect("a gap");
        gap.at.map(|at| (at.first.0 / 10.0, at.first.1 / 10.0))
    };
    let (from, to) = at(&foot).expect("it lies somewhere");
    same(from, 6.0);
    same(to, 24.0);
    let round = |edges: [&str; 3]| {
        let of = |layer: &str| edges.map(|edge| format!("{layer}.cloth.{edge}")).join(" + ");
        let (o, l) = (of("o"), of("l"));
        cloth(&format!("seam round {o} to {l} {{ leaving gap 13 in the middle along l.cloth.bottom }}\n"))
    };
    let (from, to) = at(&round(["top", "right", "bottom"])).expect("it lies somewhere");
    same(from, 37.5);
    same(to, 50.5);
    let seamed =
        ("gap/place", "the gap in the round seam lies where that begins, which goes round".to_owned());
    assert_eq!(told(&round(["bottom", "right", "top"])), [seamed]);
}
