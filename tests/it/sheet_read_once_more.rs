//! Sheets as a stranger reads them who sews from them: what is folded lies folded from then on, and each thing is said as it is.

use crate::sheet_pictures::{Drawn, compiled, drawn, long, of_class, picture_of, said, with_facts};
use crate::sheet_sentences::{read, with_texts};
use crate::workbench::browser::Browser;
use crate::workbench::{examples, run};
use fustian::compile;
use fustian::garment::ActionTarget;
use fustian::sewing::order::Job;
use fustian::sheet::Language;
use fustian::sheet::pictures::Pictures;
use fustian::source::MemoryLoader;
use serde_json::json;

/// How wide and how high the first shape of a class is.
fn size(drawn: &[Drawn], class: &str) -> (f64, f64) {
    let [left, top, right, bottom] = of_class(drawn, class).first().expect("it is drawn").bounds();
    (right - left, bottom - top)
}

/// An apron of 40 by 60 cm with a pleat 2 cm deep, which takes 4, on a band of 36.
const PLEATED: &str = r#"
garment "Galley apron"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { skirt, band }
piece skirt "Skirt" {
  cut 1
  outline rectangle 40 by 60
  pleat fold_over on top at 12 from left depth 2 toward left HELD
}
piece band "Band" { cut 1; outline rectangle 36 by 6 }
seam waist  band.bottom to skirt.top { matching band.bottom_left with skirt.top_left }
finish skirt.left, skirt.right, skirt.bottom, band.left, band.right, band.top  overlocked
"#;

/// Once it is laid and basted its edge is as long as the band's, where it was a ninth longer; the hem is 40 as before. Where it is laid
/// itself it lies open. Stitched down it is no wider for as far as that.
#[test]
fn a_pleat_that_is_basted_is_drawn_shut() {
    for held in ["", "stitched down 20"] {
        with_facts(&compiled(&PLEATED.replace("HELD", held)), |facts| {
            let picture = picture_of(facts, |job| matches!(job, Job::Seam(_)));
            let drawn = drawn(&picture.svg("a step", &said));
            let edges = of_class(&drawn, "n");
            let [one, other] = edges[..] else { panic!("two edges are sewn: {}", edges.len()) };
            assert!((long(one) / long(other) - 1.0).abs() < 0.01, "{} {}", long(one), long(other));
            let (wide, high) = size(&drawn, "r0");
            assert!((wide / long(one) - 40.0 / 36.0).abs() < 0.01, "{wide} {}", long(one));
            assert!((high / wide - 60.0 / 40.0).abs() < 0.01, "{high} {wide}");
            let picture = picture_of(facts, |job| matches!(job, Job::TakeUp(..)));
            let drawn = self::drawn(&picture.svg("a step", &said));
            let outline = of_class(&drawn, "o").first().expect("it is drawn").points.clone();
            assert_eq!(outline.len(), 5, "a rectangle, closed: {outline:?}");
            // The garment's picture shows it shut too, on both views: nothing of the skirt is as wide as its hem at the waist.
            let garment = Pictures::of(facts).garment.expect("it is shown");
            let drawn = self::drawn(&garment.svg("the garment", &said));
            let skirts: Vec<&Drawn> = drawn.iter().filter(|one| one.class == "r0").collect();
            let top_of = |skirt: &Drawn| {
                let [_, top, ..] = skirt.bounds();
                let at_top = skirt.points.iter().filter(|(_, y)| y - top < 0.3).map(|(x, _)| *x);
                at_top.clone().fold(f64::MIN, f64::max) - at_top.fold(f64::MAX, f64::min)
            };
            let shares = skirts.iter().map(|skirt| {
                let [left, _, right, _] = skirt.bounds();
                top_of(skirt) / (right - left)
            });
            assert!(
                shares.clone().any(|share| (share - 0.9).abs() < 0.01),
                "{:?}",
                shares.collect::<Vec<_>>()
            );
        });
    }
}

/// Two tucks of 1 cm across a bib of 40 by 60 take 4 from both its sides: it is 56 high once they are sewn, and each is one line.
#[test]
fn tucks_that_are_sewn_are_drawn_shut() {
    let text = r#"
garment "Galley bib"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { bib, side }
piece bib "Bib" {
  cut 1
  outline rectangle 40 by 60
  tuck cross on left at 20 from top_left depth 1 count 2 apart 4 toward bottom to right
}
piece side "Side" { cut 1; outline rectangle 10 by 56 }
seam flank  bib.left to side.right { matching bib.top_left with side.top_right }
finish bib.top, bib.right, bib.bottom, side.left, side.top, side.bottom  overlocked
"#;
    with_facts(&compiled(text), |facts| {
        let picture = picture_of(facts, |job| matches!(job, Job::Seam(_)));
        let drawn = drawn(&picture.svg("a step", &said));
        let edges = of_class(&drawn, "n");
        let [one, other] = edges[..] else { panic!("two edges are sewn: {}", edges.len()) };
        assert!((long(one) / long(other) - 1.0).abs() < 0.01, "{} {}", long(one), long(other));
        let shapes = of_class(&drawn, "r0").into_iter().map(Drawn::bounds);
        let shares = shapes.map(|[left, top, right, bottom]| (bottom - top) / (right - left));
        assert!(
            shares.clone().any(|share| (share - 56.0 / 40.0).abs() < 0.01),
            "{:?}",
            shares.collect::<Vec<_>>()
        );
    });
}

/// What is to be done in the order in which it is told: the words of each step, and the names that its jobs have in the plan.
fn order(text: &str) -> Vec<Job> {
    with_facts(&compiled(text), |facts| {
        let targets = facts.rows.iter().flat_map(|row| row.targets(&facts.plan));
        targets.flat_map(|target| target.jobs.iter().copied()).collect()
    })
}

fn place(jobs: &[Job], is_it: impl Fn(&Job) -> bool) -> usize {
    jobs.iter().position(is_it).unwrap_or_else(|| panic!("it is done: {jobs:?}"))
}

/// A lined bib that its fronts close, with what closes it caught between both layers of their edges.
fn bib(closed: &str) -> String {
    format!(
        r#"
garment "Deck bib"
units cm
allowance 1
fabric drill "drill" {{ width 150 }}
layer outer in drill {{ front, back }}
layer lining in drill {{ front, back }}
piece front "Front" {{ cut 2 mirrored; drawn left; outline rectangle 24 by 50 }}
piece back "Back" {{ cut 1 on fold left; drawn right; outline rectangle 24 by 50 }}
seam side front.right to back.right {{ matching front.top_right with back.top_right }}
closure fasten front.left to front.left {{ {closed} }}
seam edge outer.front.left to lining.front.left enclosing fasten
seam top outer.front.top + outer.back.top to lining.front.top + lining.back.top
seam low outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom {{
  leaving gap 15 in the middle along back.bottom
}}
"#
    )
}

fn told(text: &str) -> String {
    with_texts(&compiled(text), Language::ALL[0], read)
}

#[track_caller]
fn says(told: &str, what: &str) {
    assert!(told.contains(what), "no “{what}” in\n{told}");
}

/// Loops and ties have their ends in the seam: they are basted before it. Toggles are sewn on to meet their loops after it, of ties
/// nothing is left to be done; buttons go through what the seam has joined.
#[test]
fn what_has_its_ends_in_a_seam_is_basted_before_it() {
    let loops = order(&bib("toggles 3 of 40mm"));
    let basted = place(&loops, |job| matches!(job, Job::PutIn(_)));
    let toggles = place(&loops, |job| matches!(job, Job::Closure(_)));
    let last = loops.iter().rposition(|job| matches!(job, Job::Seam(_))).unwrap();
    assert!(basted < place(&loops, |job| matches!(job, Job::Seam(_))) && last < toggles, "{loops:?}");
    let text = told(&bib("toggles 3 of 40mm"));
    says(&text, "Baste loops [A] to the left edge of the right (1) Front, their ends at the edge");
    says(&text, "to meet their loops: 3 of 40 mm");
    let ties = order(&bib("ties 3 of 30"));
    assert!(ties.iter().any(|job| matches!(job, Job::PutIn(_))), "{ties:?}");
    assert!(!ties.iter().any(|job| matches!(job, Job::Closure(_))), "{ties:?}");
    says(&told(&bib("ties 3 of 30")), "an end of each at the edge: 3 a side, 30 cm long.");
    let hooks = order(&bib("hooks 3"));
    assert!(!hooks.iter().any(|job| matches!(job, Job::PutIn(_))), "{hooks:?}");
}

/// Said late, it is told as a zip is that is put in after its seam.
#[test]
fn loops_that_are_basted_after_their_seam_are_told() {
    let steps = |order: &str| {
        let text = format!("{}steps {{\n{order}\n}}\n", bib("toggles 3 of 40mm"));
        let compiled = compile(&MemoryLoader::new().with("own.fus", text.as_str()), "own.fus");
        compiled.has_mistakes()
    };
    let rest = "\"Rest\" { sew top, low; turn through gap in low; slipstitch gap in low; sew fasten }";
    assert!(!steps(&format!("\"Seams\" {{ sew side; baste fasten; sew edge }}\n{rest}")));
    assert!(!steps(&format!("\"Seams\" {{ sew side, edge }}\n{rest}")));
    assert!(steps(&format!("\"Seams\" {{ sew side, edge; baste fasten }}\n{rest}")));
}

/// A square gusset of 8 cm under the arm: its first two edges are sewn to the sleeve and the front while these lie flat, and what
/// follows round its corner with what closes it there.
#[test]
fn a_gusset_is_set_in_round_its_corner() {
    let text = r#"
garment "Bosun's work jacket"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, back, sleeve, gusset }
piece front "Front" {
  cut 2 mirrored
  drawn left
  point a = (0, 0)
  point b = (28, 0)
  point g1 = (28, 36)
  point g2 = (28, 44)
  point tip = (28, 64)
  point n = (9, 64)
  point c = (0, 56)
  outline from a { hem to b; side to g1; gus to g2; arm to tip; shoulder to n; neck to c curve leaving down arriving left; centre to a }
}
piece back "Back" {
  cut 1 on fold centre
  drawn right
  point a = (0, 0)
  point b = (28, 0)
  point g1 = (28, 36)
  point g2 = (28, 44)
  point tip = (28, 64)
  point n = (9, 64)
  point c = (0, 62)
  outline from a { hem to b; side to g1; gus to g2; arm to tip; shoulder to n; neck to c curve leaving down arriving left; centre to a }
}
piece sleeve "Sleeve" {
  cut 2 mirrored
  outline rectangle 40 by 45
  divide left 8 from top_left into gus_l, left
  divide right 8 from top_right into gus_r, right
}
piece gusset "Gusset" { cut 2 mirrored; outline rectangle 8 by 8 }
seam shoulder front.shoulder to back.shoulder
seam arm sleeve.top to front.arm + back.arm { matching sleeve.top_left with front.g2 }
seam gus_1 gusset.left to sleeve.gus_l { matching gusset.top_left with sleeve.top_left }
seam gus_2 gusset.top to front.gus { matching gusset.top_left with front.g2 }
seam gus_3 gusset.bottom to sleeve.gus_r { matching gusset.bottom_right with sleeve.top_right }
seam gus_4 gusset.right to back.gus { matching gusset.bottom_right with back.g2 }
seam under sleeve.left to sleeve.right
seam side front.side to back.side
finish front.hem, back.hem, sleeve.bottom, front.centre hem 2
finish front.neck, back.neck bound 1
"#;
    let compiled = compiled(text);
    let seams = with_facts(&compiled, |facts| {
        let targets = facts.rows.iter().flat_map(|row| row.targets(&facts.plan));
        let seams = targets.filter_map(|target| match target.target {
            ActionTarget::Seam(id) => Some(facts.garment.seam(id).name.to_string()),
            _ => None,
        });
        seams.collect::<Vec<String>>()
    });
    assert_eq!(seams, ["shoulder", "arm", "gus_1", "gus_2", "gus_4", "gus_3", "under", "side"]);
}

/// Of a pocket that is cut on the fold its right edge is drawn, and it has a left one too. So has a band.
#[test]
fn both_edges_of_what_is_drawn_as_a_half_are_named() {
    let text = r#"
garment "Galley apron"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, pocket }
piece front "Front" { cut 1; outline rectangle 40 by 60; mark corner = (20, 20) }
piece pocket "Pocket" { cut 1 on fold left; outline rectangle 10 by 20 }
place pocket on front { corner bottom_left at corner; topstitch bottom, right }
finish front.left, front.right, front.top, front.bottom  hem 2
finish pocket.top  hem 2
"#;
    let text = told(text);
    says(&text, "press the allowances of the bottom, left and right edges of (2) Pocket");
    says(&text, "Topstitch its bottom, left and right edges.");
    let curved = told(&text_of_curved());
    says(&curved, "both slope edges of (1) Front");
}

/// What a maker has named keeps its name, and is said to be there on both sides.
fn text_of_curved() -> String {
    r#"
garment "Galley bib"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front }
piece front "Front" {
  cut 1 on fold centre
  point low_c = (0, 0)
  point low = (20, 0)
  point high = (10, 40)
  point high_c = (0, 40)
  outline from low_c { hem to low; slope to high; top to high_c; centre to low_c }
}
finish front.slope  hem 1
finish front.hem, front.top  hem 2
"#
    .to_owned()
}

/// A box pleat at the fold is one pleat of two folds, of which each half has one.
#[test]
fn a_box_pleat_in_the_middle_is_one() {
    let text = r#"
garment "Galley skirt"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { skirt, band }
piece skirt "Skirt" {
  cut 1 on fold left
  outline rectangle 40 by 60
  pleat middle_pleat on top at the fold depth 2 box
}
piece band "Band" { cut 1 on fold left; outline rectangle 36 by 6 }
seam waist  band.bottom to skirt.top
finish skirt.right, skirt.bottom, band.right, band.top  hem 1
"#;
    says(&told(text), "Lay the middle pleat [A] of (1) Skirt along its lines and baste it at the edge.");
}

/// A band that is joined behind goes round the whole neck of an open front in one go, folded as it is.
#[test]
fn a_folded_band_goes_round_in_one_go() {
    let text = r#"
garment "Deck robe"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, back, band }
piece front "Front" {
  cut 2 mirrored
  drawn left
  point low = (0, 0)
  point side_low = (30, 0)
  point side_high = (30, 40)
  point tip = (30, 60)
  point neck = (10, 60)
  outline from low { hem to side_low; side to side_high; arm to tip; shoulder to neck; opening to low }
}
piece back "Back" { cut 1 on fold middle; drawn right
  point low_c = (0, 0)
  point side_low = (30, 0)
  point side_high = (30, 40)
  point tip = (30, 60)
  point neck = (10, 60)
  point neck_c = (0, 60)
  outline from low_c { hem to side_low; side to side_high; arm to tip; shoulder to neck; neckline to neck_c; middle to low_c }
}
piece band "Band" { cut 2 mirrored; outline rectangle total(front.opening + back.neckline)/2 by 10; folded top to bottom }
seam shoulder  front.shoulder to back.shoulder
seam band_back band.right to band.right
seam side      front.side to back.side
seam neck      band.bottom and band.top to front.opening + back.neckline { matching band.bottom_left with front.low }
finish front.hem, back.hem, front.arm, back.arm  hem 1
seam band_ends band.left across the fold
"#;
    let text = told(text);
    says(&text, "Sew the neck seam [");
    assert!(!text.contains("neck seams"), "{text}");
}

/// Printed on letter paper (251 mm high between its margins, 96 dots an inch) no step takes much more than two fifths of a page, so that
/// none can leave more of one empty: scenes stand beside one another where they would be taller.
#[test]
fn no_step_leaves_half_a_page_empty() {
    let Some(mut browser) = Browser::start() else { return };
    let high = 251.0 / 25.4 * 96.0;
    let folder = examples();
    for name in ["mate-trousers-jetted", "purser-shirt", "mess-skirt-vent"] {
        let file = format!("{name}.fus");
        let told = run(folder.path(), &["sheet", &file, "-o", "page.html", "--no-lays", "--paper", "letter"]);
        assert!(told.status.success(), "{told:?}");
        // As wide as the paper without its margins: 188 mm.
        browser.size(710, 949, false);
        browser.open(&format!("file://{}", folder.path().join("page.html").display()));
        browser.ask("Emulation.setEmulatedMedia", json!({ "media": "print" }));
        let measured = browser.run(
            "[...document.querySelectorAll('.step')].map(step => [step.id, step.getBoundingClientRect().height, \
             step.querySelector('svg.tall') !== null, [...step.querySelectorAll('.picture svg.tall > g')].every(scene => \
             scene.getBoundingClientRect().right <= 711)])",
        );
        let measured = measured.as_array().expect("the steps");
        assert!(measured.iter().any(|step| step[2] == json!(true)), "{name} has tall steps");
        for step in measured {
            assert!(step[1].as_f64().expect("a height") < 0.43 * high, "{name}: {step}");
            assert_eq!(step[3], json!(true), "{name}: {step}");
        }
        browser.ask("Emulation.setEmulatedMedia", json!({ "media": "" }));
    }
}

/// The runs of a strip that is shown rolled out: the second ply of a yoke lies under the first, and not in the middle of the seam.
#[test]
fn what_lies_on_a_part_of_a_seam_lies_there() {
    let text = r#"
garment "Deck panel"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { first, second, third, over, band }
piece first "First" { cut 1; outline rectangle 30 by 20 }
piece second "Second" { cut 1; outline rectangle 20 by 20 }
piece third "Third" { cut 1; outline rectangle 10 by 20 }
piece over "Over" { cut 1; outline rectangle 10 by 8 }
piece band "Band" { cut 1; outline rectangle 60 by 10 }
seam one  first.right to second.left { matching first.top_right with second.top_left }
seam two  second.right to third.left { matching second.top_right with third.top_left }
finish over.left, over.right, over.bottom  hem 1
seam long  first.top + second.top + (third.top and over.top) to band.bottom {
  matching first.top_left with band.bottom_left
  matching over.top_left with third.top_left
}
finish first.left, first.bottom, second.bottom, third.right, third.bottom, band.left, band.right, band.top  hem 1
"#;
    let compiled = compiled(text);
    with_facts(&compiled, |facts| {
        let long = facts.garment.seams.iter().position(|seam| &*seam.name == "long").unwrap();
        let step = facts.rows.iter().position(|row| {
            row.targets(&facts.plan).iter().any(|target| match target.target {
                ActionTarget::Seam(id) => &*facts.garment.seam(id).name == "long",
                _ => false,
            })
        });
        assert!(long > 0);
        let picture = Pictures::of(facts).steps[step.unwrap()].clone().expect("it is shown");
        let drawn = drawn(&picture.svg("a step", &said));
        // All that is sewn now is drawn straight: nothing is eased. The last 10 of 60 cm are sewn twice on one side.
        let sewn: Vec<(f64, f64)> = of_class(&drawn, "n")
            .into_iter()
            .map(|line| {
                let [left, _, right, _] = line.bounds();
                (left, right)
            })
            .collect();
        let (from, to) = sewn
            .iter()
            .fold((f64::MAX, f64::MIN), |(from, to), (left, right)| (from.min(*left), to.max(*right)));
        let last = from + (to - from) * 5.0 / 6.0;
        let ends = sewn.iter().filter(|(left, right)| (left - last).abs() < 1.0 && (right - to).abs() < 1.0);
        // The band's, the third piece's, and that of what lies on it.
        assert_eq!(ends.count(), 3, "{sewn:?}");
        assert!(of_class(&drawn, "n").iter().all(|line| line.points.len() == 2), "nothing ripples");
    });
}

/// A round bag: its side is closed before its base is set in, though the base is a ring as it is drawn and the side could be sewn
/// last; the cord comes out at the eyelets that are set in its channel.
#[test]
fn a_round_base_is_set_into_what_is_closed() {
    let text = r#"
garment "Berth kit bag"
units cm
allowance 1.5
let across = 24
let round = across * 3.1416
fabric canvas "waxed canvas" { width 150 }
fabric cotton "cotton lining" { width 150 }
notion "eyelet 8 mm" 2
layer outer in canvas { body, base }
layer lining in cotton { body, base }
piece body "Body" {
  cut 1
  outline rectangle round by 50
  mark eyelet_left = (round/2 - 3, 48.5)
  mark eyelet_right = (round/2 + 3, 48.5)
  mark badge = (round/2, 20)
}
piece base "Base" {
  cut 1
  point north = (0, across/2)
  point south = (0, -(across/2))
  outline from north { right_half to south arc about (0, 0) clockwise; left_half to north arc about (0, 0) clockwise }
}
seam bottom base.right_half + base.left_half to body.bottom { matching base.north with body.bottom_left }
seam side   body.left to body.right
seam mouth  outer.body.top to lining.body.top { leaving gap 14 in the middle }
topstitch mouth_row 3 from outer.body.top
cord mouth_cord 150 through outer.body.top ends 20 free
set eyelets "eyelet 8 mm" at outer.body.eyelet_left, outer.body.eyelet_right
"#;
    let compiled = compiled(text);
    let seams = with_facts(&compiled, |facts| {
        let targets = facts.rows.iter().flat_map(|row| row.targets(&facts.plan));
        let seams = targets.filter_map(|target| match target.target {
            ActionTarget::Seam(id) if target.jobs.iter().any(|job| matches!(job, Job::Seam(_))) => {
                Some(facts.garment.seam(id).name.to_string())
            }
            _ => None,
        });
        seams.collect::<Vec<String>>()
    });
    assert_eq!(seams, ["side", "bottom", "side", "bottom", "mouth"]);
    let text = told(text);
    says(&text, "It goes in and comes out at ‘eyelet left’ of (1) and ‘eyelet right’ of (1).");
}

/// What is called after what it is is not called so twice.
#[test]
fn pleats_that_are_called_pleats_are_named_once() {
    let text = PLEATED.replace("HELD", "").replace("fold_over", "pleat");
    says(&told(&text), "Lay the pleat [A] of (1) Skirt along its lines");
}
