//! Nothing is missing without a word: whatever could not be read or worked out, in any size, has a
//! mistake that accounts for it, or its want is itself a mistake.

use fustian::check::{account_for_garment, account_for_sizes};
use fustian::cutting::WorkedSize;
use fustian::garment::{Garment, Node, Outline, PieceOrigin, Plan, PlanStep, SizeId, ValueKind};
use fustian::report::{Diagnostic, Severity};
use fustian::resolve::{SizedGarment, resolve_size};
use fustian::sewing::{NotionNeed, NotionSource, Sewing};
use fustian::source::{MemoryLoader, Span};
use fustian::{Compiled, compile};
use rayon::prelude::*;

use super::telling_all::texts;

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus")
}

fn mistakes<'a>(compiled: &'a Compiled, slug: &str) -> Vec<&'a Diagnostic> {
    let all = compiled.diagnostics.iter();
    all.filter(|one| one.slug() == slug && one.severity() == Severity::Mistake).collect()
}

/// The head of a sleeve is divided, so that it has no `top` any more.
const SLEEVE: &str = r#"garment "Deck smock"
units cm
allowance 1
fabric shell "canvas" { width 150 }
layer outer in shell { sleeve, body }
CAP
piece body { outline rectangle 30 by 60; cut 2 mirrored; grain up }
piece sleeve {
  outline rectangle cap by 60
  cut 2 mirrored
  divide top 5 from top_left into low, high
  line middle across at (0, 30)
}
seam side sleeve.left to body.left
finish sleeve.right, sleeve.bottom, sleeve.low, sleeve.high, body.right, body.top, body.bottom raw
"#;

#[test]
fn a_solve_whose_condition_names_a_divided_edge_says_so() {
    let compiled = made(&SLEEVE.replace("CAP", "let cap between 4 and 22 so that length(sleeve.top) = 18"));
    let told = mistakes(&compiled, "edge/gone");
    assert_eq!(told.len(), 1, "{:#?}", compiled.diagnostics);
    let places: Vec<&str> = told[0].labels.iter().map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(places, ["sleeve.top", "divide top 5 from top_left into low, high"]);
    assert!(mistakes(&compiled, "lost/unreported").is_empty());
}

/// What is said outside of drawings is worked out too, whoever reads it: silence would be assent.
#[test]
fn a_requirement_of_a_divided_edge_is_not_met_in_silence() {
    for said in [
        "require length(sleeve.top) >= 3 \"the hand must pass\"",
        "notion \"braid\" length(sleeve.top) price 1 per m",
        "cord tie length(sleeve.top) through sleeve.bottom",
    ] {
        let compiled = made(&format!("{}{said}\n", SLEEVE.replace("CAP", "let cap = 20")));
        let told = mistakes(&compiled, "edge/gone");
        assert_eq!(told.len(), 1, "{said}: {:#?}", compiled.diagnostics);
        assert_eq!(compiled.map.text(told[0].span()), "sleeve.top", "{said}");
    }
}

#[test]
fn a_zip_along_a_divided_edge_says_so_whatever_is_lengthened_for_it() {
    let text = SLEEVE.replace("CAP", "let cap = 20").replace("sleeve.right, ", "");
    let compiled = made(&format!(
        "{text}closure cuff sleeve.top to sleeve.right {{ zipper closed 22 }}\nlengthen sleeve at middle until cuff fits\n"
    ));
    let told = mistakes(&compiled, "edge/gone");
    assert_eq!(told.len(), 1, "{:#?}", compiled.diagnostics);
    assert_eq!(compiled.map.text(told[0].span()), "sleeve.top");
}

#[test]
fn no_example_loses_anything() {
    for (name, loader) in texts() {
        let compiled = compile(&loader, &name);
        assert!(mistakes(&compiled, "lost/unreported").is_empty(), "{name}: {:#?}", compiled.diagnostics);
    }
}

/// A plan that forgets a step stands for every way in which something could get lost: the value, the
/// drawing, the alteration or the amount that is never made is reported.
#[test]
fn whatever_is_not_worked_out_is_reported() {
    let count: usize = texts()
        .par_iter()
        .map(|(name, loader)| {
            let Compiled { garment, plan, sizes, .. } = compile(loader, name);
            if sizes.is_empty() {
                return 0;
            }
            for at in 0..plan.steps.len() {
                let mut steps = plan.steps.clone();
                let forgotten = steps.remove(at);
                let forgetful = Plan { steps, left_out: plan.left_out.clone() };
                let (sized, found) = resolve_size(&garment, &forgetful, SizeId::from_index(0));
                let is_told = found.iter().any(|one| one.diagnostic.severity() == Severity::Mistake);
                let is_of_poison = match forgotten {
                    PlanStep::Alter(by, _) => garment.alteration(by).kind.is_none(),
                    _ => false,
                };
                assert!(is_told || is_of_poison, "{name}: {forgotten:?}, {:?}", sized.missing);
            }
            plan.steps.len()
        })
        .sum();
    assert!(count > 500, "{count} steps");
}

/// Each thing of a size is taken away in turn: with nothing reported, its want is.
#[test]
fn whatever_a_size_lacks_at_the_end_is_reported() {
    let counts: Vec<[usize; 5]> = texts()
        .par_iter()
        .map(|(name, loader)| {
            let Compiled { garment, sizes, .. } = compile(loader, name);
            let Some(WorkedSize { drawn: whole, sewn: sewing, .. }) = sizes.first() else { return [0; 5] };
            let lost = |sized: &SizedGarment, sewing: &Sewing| {
                let size = WorkedSize::sewn(&garment, sized.clone(), sewing.clone());
                account_for_sizes(&garment, &[size], &[])
            };
            // What is lost beside may be accounted for by what is told then.
            let before: Vec<String> =
                lost(whole, sewing).into_iter().map(|one| one.title.to_string()).collect();
            let is_new =
                |told: Vec<Diagnostic>| told.iter().any(|one| !before.contains(&one.title.to_string()));
            let mut counts = [0; 5];
            for at in (0..whole.values.len()).filter(|&at| whole.values[at].is_some()) {
                let mut sized = whole.clone();
                sized.values[at] = None;
                assert!(is_new(lost(&sized, sewing)), "{name}: {}", garment.values[at].name);
                counts[0] += 1;
            }
            for at in (0..whole.papers.len()).filter(|&at| whole.papers[at].is_some()) {
                let mut sized = whole.clone();
                sized.papers[at] = None;
                assert!(is_new(lost(&sized, sewing)), "{name}: paper {at}");
                counts[1] += 1;
            }
            for at in 0..sewing.seams.len() {
                let mut without = sewing.clone();
                without.seams[at].known = false;
                let seam = garment.seam(sewing.seams[at].seam);
                let is_told = is_new(lost(whole, &without));
                assert!(is_told || seam.poisoned || !sewing.seams[at].known, "{name}: {}", seam.name);
                counts[2] += 1;
            }
            for at in
                0..whole.zips.len() + whole.placed.len() + sewing.openings.len() + sewing.fasteners.len()
            {
                let (mut sized, mut without) = (whole.clone(), sewing.clone());
                let [zips, placed, openings] = [whole.zips.len(), whole.placed.len(), sewing.openings.len()];
                let was_there = if at < zips {
                    sized.zips[at].take().is_some()
                } else if at < zips + placed {
                    sized.placed[at - zips].take().is_some()
                } else if at < zips + placed + openings {
                    without.openings[at - zips - placed].take().is_some()
                } else {
                    without.fasteners.remove(at - zips - placed - openings);
                    true
                };
                // What is placed on nothing that is there has been reported as that.
                let placement = at.checked_sub(zips).and_then(|at| garment.placements.get(at));
                let is_told = placement.is_some_and(|placement| at < zips + placed && placement.poisoned);
                assert!(!was_there || is_told || is_new(lost(&sized, &without)), "{name}: {at}");
                counts[3] += usize::from(was_there);
            }
            // Zips and buttons are held to account as closures.
            let is_of_closure = |need: &NotionNeed| matches!(need.source, NotionSource::Closure(_));
            // What is set somewhere, and is bought as often as it is set, is not known where that is told to be wrong.
            let is_of_wrong_set = |need: &NotionNeed| match need.source {
                NotionSource::Listed(id) => garment.notion(id).amount.is_none() && !before.is_empty(),
                _ => false,
            };
            let is_held = |need: &NotionNeed| !is_of_closure(need) && !is_of_wrong_set(need);
            for at in (0..sewing.notions.len()).filter(|&at| is_held(&sewing.notions[at])) {
                let mut without = sewing.clone();
                let need = without.notions.remove(at);
                assert!(is_new(lost(whole, &without)), "{name}: {:?}", need.name);
                counts[4] += 1;
            }
            // Where something else is told the surface may be wanting for that.
            if sewing.surface.is_some() && before.is_empty() {
                let mut without = sewing.clone();
                without.surface = None;
                assert!(is_new(lost(whole, &without)), "{name}: the surface");
            }
            counts
        })
        .collect();
    for kind in 0..5 {
        let all: usize = counts.iter().map(|counts| counts[kind]).sum();
        assert!(all > 10, "{all} of the kind {kind}");
    }
}

/// Each thing of a garment is made poison in turn, as if it could not be made sense of: with nothing
/// reported, that is.
#[test]
fn whatever_could_not_be_made_sense_of_is_reported() {
    for (name, loader) in texts() {
        let whole = compile(&loader, &name).garment;
        let is_told = |garment: &Garment, span: Span| {
            account_for_garment(garment, &[]).iter().any(|one| one.span() == span)
        };
        for (at, value) in whole.values.iter().enumerate() {
            let mut garment = whole.clone();
            match &mut garment.values[at].kind {
                ValueKind::Body(value) | ValueKind::Let(value) | ValueKind::Measure { value, .. } => {
                    value.node = Node::Poison;
                }
                ValueKind::Solved { left, .. } => left.node = Node::Poison,
            }
            assert!(is_told(&garment, value.span), "{name}: {}", value.name);
        }
        for (at, piece) in whole.pieces.iter().enumerate() {
            let mut garment = whole.clone();
            garment.pieces[at].drawing.outline = Outline::None;
            let is_drawn = piece.origin == PieceOrigin::Drawn;
            assert!(!is_drawn || is_told(&garment, piece.span), "{name}: {}", piece.name);
        }
        for (at, alteration) in whole.alterations.iter().enumerate() {
            let mut garment = whole.clone();
            garment.alterations[at].kind = None;
            assert!(is_told(&garment, alteration.span), "{name}: {}", alteration.verb());
        }
        for (at, seam) in whole.seams.iter().enumerate() {
            let mut garment = whole.clone();
            garment.seams[at].poisoned = true;
            assert!(is_told(&garment, seam.name_span), "{name}: {}", seam.name);
        }
        for (at, closure) in whole.closures.iter().enumerate() {
            let mut garment = whole.clone();
            garment.closures[at].kind = None;
            assert!(is_told(&garment, closure.name_span), "{name}: {}", closure.name);
        }
        for (at, layer) in whole.layers.iter().enumerate() {
            let mut garment = whole.clone();
            garment.layers[at].fabric = None;
            assert!(is_told(&garment, layer.span), "{name}: {}", layer.name);
        }
        for (at, placement) in whole.placements.iter().enumerate() {
            let mut garment = whole.clone();
            garment.placements[at].poisoned = true;
            assert!(is_told(&garment, placement.span), "{name}: placement {at}");
        }
        for at in 0..3 {
            let mut garment = whole.clone();
            let flags = &mut garment.incomplete;
            *[&mut flags.layers, &mut flags.sewing, &mut flags.steps][at] = true;
            assert!(is_told(&garment, whole.heading), "{name}: {at}");
        }
    }
}

/// Two panels with a pocket: what a variation takes away is named where it is still used.
const PANELS: &str = r#"garment "Galley apron"
units cm
allowance 1
fabric shell "canvas" { width 150 }
layer outer in shell { front, back, pocket }
piece front { cut 2 mirrored; outline rectangle 30 by 60; line waist across at (0, 30); mark low = (5, 10) }
piece back { cut 2 mirrored; outline rectangle 30 by 60 }
piece pocket { cut 2; outline rectangle 12 by 12 }
place pocket on front { corner bottom_left at low; topstitch left, right, bottom }
finish pocket.top hem 2
seam side front.right to back.right
seam centre back.left to back.left
finish front.left, front.top, front.bottom, back.top, back.bottom  hem 1
steps {
  "All" { hem pocket.top; place pocket; sew side, centre; hem front.left, front.top, front.bottom, back.top, back.bottom }
}
"#;

fn variation(says: &str) -> Compiled {
    let loader = MemoryLoader::new()
        .with("apron.fus", PANELS)
        .with("other.fus", format!("variation \"Other\" of \"apron.fus\"\n{says}\n"));
    compile(&loader, "other.fus")
}

/// The seam goes away, and so does its place in the order of work.
#[test]
fn a_seam_that_is_joined_away_is_not_missed() {
    let compiled = variation("join front to back at right into body");
    assert!(compiled.diagnostics.is_empty(), "{:#?}", compiled.diagnostics);
    assert!(compiled.sizes.iter().all(|size| size.sewn.surface.is_some()));
}

#[test]
fn nothing_is_made_of_a_join_that_failed() {
    let compiled =
        variation("extend front.right by 1\nextend front.bottom by 2\njoin front to back at right into body");
    let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["alter/join-apart"], "{:#?}", compiled.diagnostics);
}

#[test]
fn what_was_placed_at_a_mark_that_is_cut_off_says_so() {
    let compiled = variation("cut off front at waist\nfinish front.waist hem 1");
    assert!(mistakes(&compiled, "lost/unreported").is_empty(), "{:#?}", compiled.diagnostics);
    let gone = mistakes(&compiled, "point/gone");
    assert_eq!(gone.len(), 1, "{:#?}", compiled.diagnostics);
    let places: Vec<&str> = gone[0].labels.iter().map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(places, ["corner bottom_left at low", "cut off front at waist"]);
    // The hem of the edge that is gone, and the step that it has.
    assert_eq!(mistakes(&compiled, "edge/gone").len(), 1, "{:#?}", compiled.diagnostics);
    let nothing: Vec<&str> =
        mistakes(&compiled, "step/nothing").iter().map(|one| compiled.map.text(one.span())).collect();
    assert!(nothing.contains(&"front.bottom"), "{:#?}", compiled.diagnostics);
}

/// Found by damage: buttons are counted from a point that nothing says the place of, and the line that they lie on begins there.
#[test]
fn buttons_that_are_counted_from_an_unknown_point_have_its_account() {
    let placket = |at: &str| {
        made(&format!(
            "garment \"Pantry shirt\"\nunits cm\nallowance 1\nsizes S, M\nbody {{ chest 88, 92 }}\n\
             fabric serge \"serge\" {{ width 140 }}\nlayer outer in serge {{ front }}\npiece front {{\n  cut 2 mirrored\n  \
             outline rectangle chest/4 + 4 by 60\n  point neck_cf = ({at}, 60)\n  point hem_cf = (2, 0)\n  \
             line centre from neck_cf to hem_cf\n}}\nclosure placket front.centre to front.centre {{\n  \
             buttons 3 of 15mm from 3 below neck_cf to 10 above hem_cf stand 2 left over right\n}}\n"
        ))
    };
    let sound = placket("2");
    assert!(mistakes(&sound, "lost/unreported").is_empty(), "{:#?}", sound.diagnostics);
    let unknown = placket("nonesuch");
    assert_eq!(mistakes(&unknown, "name/unknown").len(), 1, "{:#?}", unknown.diagnostics);
    assert!(mistakes(&unknown, "lost/unreported").is_empty(), "{:#?}", unknown.diagnostics);
}

/// Found by damage: an outline without edges, and edges that are divided before, or without, the line that makes them.
#[test]
fn what_draws_nothing_or_divides_nothing_says_so() {
    let pocket = |items: &str| {
        made(&format!(
            "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric serge \"serge\" {{ width 140 }}\nlayer outer in serge {{ pocket }}\n\
             piece pocket \"Pocket\" {{ cut 1; {items} }}\n"
        ))
    };
    let told = |items: &str| -> Vec<String> {
        let compiled = pocket(items);
        let wrong = compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
        // Nothing is sewn here.
        let wrong = wrong.filter(|one| one.slug() != "piece/unsewn");
        wrong.map(|one| format!("{}: {}", one.slug(), one.title)).collect()
    };
    let nothing = "point a = (0, 0); outline from a {}";
    assert_eq!(told(nothing), ["outline/missing: the outline of Pocket has no edges"]);
    let divided = |lines: &str| told(&format!("outline rectangle 14 by 16; {lines}"));
    let (first, second) =
        ("divide top 3 from top_left into near, far", "divide far 4 from top_right into middle, end");
    assert_eq!(divided(&format!("{first}; {second}")), [] as [&str; 0]);
    let early = ["alter/no-line: far of Pocket is divided before it is there"];
    assert_eq!(divided(&format!("{second}; {first}")), early);
    // Of an edge that is unknown nothing is made, and what is divided further follows from that.
    let unknown = first.replace("top 3", "tip 3");
    for lines in [format!("{unknown}; {second}"), format!("{second}; {unknown}")] {
        assert_eq!(
            divided(&lines),
            ["name/unknown: there is no edge or line of pocket called tip"],
            "{lines}"
        );
    }
}
