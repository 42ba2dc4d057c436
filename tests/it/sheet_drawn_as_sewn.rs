//! Pictures show what is sewn as it is by then: darts shut, pocket bags at their seam, what is sewn on at the end of a sleeve;
//! and no word or letter lies on what it is said of.

use crate::sheet_page::{compiled as example_of, page_of, quick};
use crate::sheet_pictures::{Drawn, compiled, drawn, long, of_class, picture_of, said, with_facts};
use crate::workbench::example;
use fustian::sewing::order::Job;
use fustian::sheet::pictures::{Caption, Pictures};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// A bib, 20 cm wide below, with a dart of 4 cm, 15 cm long in its middle, on a band of 16 cm.
const BIB: &str = r#"
garment "Galley bib"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, band }
piece front "Front" {
  cut 1
  outline rectangle 20 by 30
  dart shape on bottom in the middle width 4 to (10, 15) pressed right trued
}
piece band "Band" { cut 1; outline rectangle 16 by 6 }
seam low  front.bottom to band.top { matching front.bottom_left with band.top_left }
finish front.left, front.right, front.top, band.left, band.right, band.bottom  overlocked
"#;

/// Once the dart is sewn its edge is about as long as the band's, where it was a quarter longer, and both its legs are one line of √(15² + 2²) = 15.13 cm.
#[test]
fn a_dart_that_is_sewn_is_drawn_shut() {
    with_facts(&compiled(BIB), |facts| {
        let picture = picture_of(facts, |job| matches!(job, Job::Seam(_)));
        let drawn = drawn(&picture.svg("a step", &said));
        let edges = of_class(&drawn, "n");
        let [one, other] = edges[..] else { panic!("two edges are sewn: {}", edges.len()) };
        assert!((long(one) / long(other) - 1.0).abs() < 0.05, "{} {}", long(one), long(other));
        let legs: Vec<&Drawn> =
            of_class(&drawn, "p").into_iter().filter(|line| line.points.len() == 2).collect();
        assert!(!legs.is_empty());
        let ends: Vec<(f64, f64)> = legs.iter().flat_map(|leg| leg.points.clone()).collect();
        let met =
            ends.iter().enumerate().any(|(nth, one)| ends.iter().skip(nth + 1).any(|other| one == other));
        assert!(!met, "its legs are one line: {ends:?}");
        let ratio = long(legs[0]) / long(one).max(long(other));
        assert!((ratio - 15.13 / 16.0).abs() < 0.03, "{ratio}");
        // Where it is sewn itself it is open still: its mouth is 4 of 20 cm.
        let picture = picture_of(facts, |job| matches!(job, Job::TakeUp(..)));
        let drawn = self::drawn(&picture.svg("a step", &said));
        let wide = |class: &str| {
            let [left, _, right, _] = of_class(&drawn, class)[0].bounds();
            right - left
        };
        let ratio = wide("n") / wide("w0");
        assert!((ratio - 4.0 / 20.0).abs() < 0.02, "{ratio}");
    });
}

/// The smock with a flounce of its own cloth in place of the cuff of rib: as wide as the wrist where it is sewn on.
const BELL: &str = r#"
variation "Bell smock" of "deck-smock.fus"
drop seam cuff
drop seam cuff_ends
drop measure cuff_finished
drop piece cuff
piece bell "Bell" {
  cut 2 mirrored
  point low_back = (-(wrist/2 + 12), -14)
  point top_back = (-(wrist/2 + 6), 0)
  point top_front = (wrist/2 + 6, 0)
  point low_front = (wrist/2 + 12, -14)
  outline from low_back {
    end_back   to top_back
    top        to top_front
    end_front  to low_front
    low        to low_back
  }
}
add bell to layer outer
seam bell_ends  bell.end_front to bell.end_back
seam bell_on    sleeve.wrist to bell.top  easing 0.05..1 { matching bell.top_front with sleeve.wrist_front }
finish bell.low  hem 2
in steps after "Collar" add "Bells" { sew bell_ends, bell_on; hem bell.low }
"#;

fn crew(name: &str, text: &str) -> Compiled {
    let names = ["deck-smock", "crew-library", "mate-trousers"];
    let loader = names.iter().fold(MemoryLoader::new().with(name, text), |loader, name| {
        loader.with(&format!("{name}.fus"), example(name).as_str())
    });
    let compiled = compile(&loader, name);
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics.first());
    compiled
}

/// In each view two sleeves, their bells and what else is of the first cloth: two shapes more than without bells, and they lie
/// lower than the sleeves and touch them.
#[test]
fn what_is_sewn_to_the_end_of_a_sleeve_lies_there() {
    let cover = |compiled: &Compiled| {
        with_facts(compiled, |facts| {
            let garment = Pictures::of(facts).garment.expect("it is shown");
            assert_eq!(garment.captions(), [Caption::Front, Caption::Back]);
            drawn(&garment.svg("the garment", &said)).into_iter().filter(|one| one.class == "r0").collect()
        })
    };
    let with_bells: Vec<Drawn> = cover(&crew("bell.fus", BELL));
    let without: Vec<Drawn> = cover(&crew("smock.fus", "variation \"Smock\" of \"deck-smock.fus\"\n"));
    assert_eq!(with_bells.len(), without.len() + 4);
    // The sleeves are drawn first, then what is sewn to them.
    let [first, second, third, fourth] = [0, 1, 2, 3].map(|nth| with_bells[nth].bounds());
    for (sleeve, bell) in [(first, third), (second, fourth)] {
        let apart = (bell[0] - sleeve[2]).max(sleeve[0] - bell[2]).max(bell[1] - sleeve[3]);
        assert!(apart <= 0.5 && bell[3] > sleeve[3], "{sleeve:?} {bell:?}");
    }
}

/// Both pocket bags hang at the side seam while it is sewn above and below them.
#[test]
fn pocket_bags_hang_at_the_seam_beside_them() {
    with_facts(&example_of("mess-skirt-lined"), |facts| {
        let pictures = Pictures::of(facts);
        let side = facts.rows.iter().position(|row| row.code == "2a").expect("the side seams are sewn");
        let pieces = pictures.steps[side].as_ref().expect("it is shown").pieces();
        assert!(pieces.iter().any(|title| title.contains("pocket bag")), "{pieces:?}");
        // The lining has no pockets.
        let lining = facts.rows.iter().position(|row| row.code == "3a").expect("so are those of the lining");
        let pieces = pictures.steps[lining].as_ref().expect("it is shown").pieces();
        assert!(!pieces.iter().any(|title| title.contains("pocket bag")), "{pieces:?}");
    });
}

/// The text nodes of a picture, where each stands.
fn texts(svg: &str) -> Vec<(String, f64, f64)> {
    let document = roxmltree::Document::parse(svg).expect("it is well formed");
    let all = document.descendants().filter(|node| node.has_tag_name("text"));
    let at =
        |node: &roxmltree::Node, name: &str| node.attribute(name).and_then(|at| at.parse().ok()).unwrap();
    all.map(|node| (node.text().unwrap_or_default().trim().to_owned(), at(&node, "x"), at(&node, "y")))
        .collect()
}

/// The trousers have two pockets in the back, of two narrow strips each: it is said twice that something is new there, below them.
#[test]
fn that_something_is_new_is_said_once_a_place() {
    let page = page_of(&example_of("mate-trousers-jetted"), &quick());
    let page = roxmltree::Document::parse_with_options(
        &page,
        roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() },
    );
    let page = page.expect("it is well formed");
    let garment = page
        .descendants()
        .find(|node| node.has_tag_name("svg") && node.attribute("class") == Some("pic"))
        .expect("the garment is shown");
    let new = garment
        .descendants()
        .filter(|node| node.has_tag_name("text") && node.text().is_some_and(|said| said.trim() == "new"));
    assert_eq!(new.count(), 2);
}

/// A pocket of 20 cm lies in the middle of a front of 40 by 60: the front's own number stands beside it, and the pocket's on it.
#[test]
fn a_name_stands_beside_what_lies_on_its_piece() {
    let text = r#"
garment "Galley apron"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, pocket }
piece front "Front" { cut 1; outline rectangle 40 by 60; mark corner = (10, 20) }
piece pocket "Pocket" { cut 1; outline rectangle 20 by 20 }
place pocket on front { corner bottom_left at corner; topstitch left, bottom, right }
finish front.left, front.right, front.top, front.bottom  overlocked
finish pocket.top  hem 2
steps { "Pocket" { hem pocket.top; place pocket; finish front.left, front.right, front.top, front.bottom } }
"#;
    with_facts(&compiled(text), |facts| {
        let picture = picture_of(facts, |job| matches!(job, Job::Place(..)));
        let svg = picture.svg("a step", &said);
        let shapes = drawn(&svg);
        let shapes = of_class(&shapes, "r0");
        let [left, top, right, bottom] = shapes.last().expect("the pocket is drawn").bounds();
        let is_on = |(_, x, y): &(String, f64, f64)| (left..=right).contains(x) && (top..=bottom).contains(y);
        let texts = texts(&svg);
        let find = |said: &str| texts.iter().find(|text| text.0 == said).expect("it is written");
        assert!(is_on(find("Pocket")) && !is_on(find("Front")), "{texts:?}");
    });
}

/// The end of a strap of 60 by 2 cm is drawn some 10 dots long, and its letter is 16 wide: it stands beyond it.
#[test]
fn no_letter_hides_the_edge_that_it_is_of() {
    let text = r#"
garment "Bell rope"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { strap }
piece strap "Strap" { cut 1; outline rectangle 60 by 2 }
finish strap.left, strap.right  hem 1
finish strap.top, strap.bottom  overlocked
steps { "Ends" { hem strap.left, strap.right; finish strap.top, strap.bottom } }
"#;
    with_facts(&compiled(text), |facts| {
        let picture = picture_of(facts, |job| matches!(job, Job::Finish(..)));
        let svg = picture.svg("a step", &said);
        let shapes = drawn(&svg);
        let strap = of_class(&shapes, "w0").first().expect("its wrong side is up").bounds();
        let [left, top, right, bottom] = strap;
        let letters: Vec<(String, f64, f64)> =
            texts(&svg).into_iter().filter(|(said, ..)| said.len() == 1 && said != "1").collect();
        // Half a letter's square is 8 dots; the last one stands in the section below.
        let beside = letters.iter().filter(|(_, x, y)| {
            let y = y - 4.5;
            (y + 8.0 <= top || y - 8.0 >= bottom || x + 7.5 <= left || x - 7.5 >= right) && y < bottom + 30.0
        });
        assert_eq!(beside.count(), 2, "{letters:?} {strap:?}");
    });
}

/// Where no order is said the inner edge of a facing is overlocked while the facing is by itself, and the hem comes last.
#[test]
fn a_facing_is_overlocked_before_it_is_sewn_on() {
    let text = r#"
garment "Galley curtain"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, facing }
piece front "Front" { cut 1; outline rectangle 60 by 90 }
piece facing "Facing" { cut 1; outline rectangle 60 by 6 }
seam edge  front.top to facing.top { matching front.top_left with facing.top_right }
finish facing.bottom  overlocked
finish front.left, front.right, front.bottom  hem 2
finish facing.left, facing.right  raw
"#;
    with_facts(&compiled(text), |facts| {
        let jobs = facts.rows.iter().flat_map(|row| row.targets(&facts.plan)).flat_map(|target| &target.jobs);
        let jobs: Vec<&Job> = jobs.collect();
        let at = |is_it: &dyn Fn(&Job) -> bool| jobs.iter().position(|job| is_it(job)).expect("it is done");
        let sewn = at(&|job| matches!(job, Job::Seam(_)));
        let first = at(&|job| matches!(job, Job::Finish(..)));
        assert!(first < sewn, "{jobs:?}");
        assert_eq!(
            jobs.iter().take(sewn).filter(|job| matches!(job, Job::Finish(..))).count(),
            1,
            "{jobs:?}"
        );
    });
}

/// The jacket's zip runs on along its collar, which stands behind the fronts' hollow necks: its number stands above, and lies on
/// neither front.
#[test]
fn the_number_of_a_collar_does_not_lie_across_the_neck() {
    with_facts(&example_of("deck-jacket"), |facts| {
        let picture = picture_of(facts, |job| matches!(job, Job::PutIn(_)));
        let svg = picture.svg("a step", &said);
        let shapes = drawn(&svg);
        let fronts: Vec<&Drawn> = of_class(&shapes, "r0")
            .into_iter()
            .filter(|one| one.bounds()[3] - one.bounds()[1] > 100.0)
            .collect();
        assert_eq!(fronts.len(), 2);
        let is_in = |ring: &[(f64, f64)], (x, y): (f64, f64)| {
            let next = ring.iter().cycle().skip(1);
            let crossed = ring.iter().zip(next).filter(|(one, other)| {
                (one.1 > y) != (other.1 > y)
                    && x < one.0 + (y - one.1) / (other.1 - one.1) * (other.0 - one.0)
            });
            crossed.count() % 2 == 1
        };
        // The foot line of a number stands 4.4 below the middle of its ring.
        let numbers = texts(&svg).into_iter().filter(|(said, ..)| said == "4");
        let numbers: Vec<(f64, f64)> = numbers.map(|(_, x, y)| (x, y - 4.4)).collect();
        assert_eq!(numbers.len(), 2);
        for at in numbers {
            assert!(!fronts.iter().any(|front| is_in(&front.points, at)), "{at:?}");
        }
    });
}
