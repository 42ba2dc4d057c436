//! `caution/cord`, `caution/small-parts` and `caution/flame`: safety of children's clothes. Each
//! names the rule, and defers to the law where the garment is sold.
//!
//! Names are read in English. A maker may write in any language, and that must not switch a caution off: where
//! no name tells where a cord lies, or what is bought, the caution is given and says what cannot be told.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Closure, ClosureKind, Cord, Dimension, EdgeId, Finish, FinishKind, Garment, Piece, SewnEdge, Strap,
    StrapEnd, StrapId, ValueId, ValueKind,
};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{SewnStrap, amount_of, straps};
use crate::source::Span;
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::CAUTION_CORD, &catalogue::CAUTION_SMALL_PARTS, &catalogue::CAUTION_FLAME],
    run: Run::PerSize(run),
};

/// What may hang out of a channel at waist or hem, in millimetres: 3 in (16 CFR 1120.3, ASTM F1816).
const HANGING_OUT: f64 = 76.2;
/// Sizes 2T to 12, and 2T to 16, taken as ages in years.
const NECK_AGES: (f64, f64) = (2.0, 12.0);
const WAIST_AGES: (f64, f64) = (2.0, 16.0);
/// Small parts are judged so for children under this age in years (16 CFR 1501, from memory).
const SMALL_PARTS_AGE: f64 = 3.0;
/// A child's head is at least so much round, in millimetres (common proportions: some 45 cm at one year).
const HEAD: f64 = 450.0;
/// Words for things that are small and can come off.
const SMALL: [&str; 9] = ["button", "snap", "popper", "toggle", "bead", "rivet", "pompom", "sequin", "hook"];
/// Words in the name of a cord, its edge or its piece that tell that it lies at the neck. Where in
/// doubt it is the neck: the stricter rule.
const AT_NECK: [&str; 3] = ["hood", "neck", "collar"];
/// Words that tell that it lies elsewhere.
const ELSEWHERE: [&str; 14] = [
    "waist", "hem", "hip", "bottom", "leg", "ankle", "foot", "cuff", "wrist", "sleeve", "hand", "pocket",
    "bag", "knee",
];
/// Words for things that are bought by the piece and are no small parts.
const HARMLESS: [&str; 16] = [
    "loop",
    "label",
    "tape",
    "ribbon",
    "thread",
    "yarn",
    "elastic",
    "binding",
    "zip",
    "cord",
    "lace",
    "pad",
    "wadding",
    "interfacing",
    "patch",
    "strap",
];
/// What is tied round the body and cut loose is called by one of these words.
const TIED: [&str; 8] = ["belt", "belts", "sash", "sashes", "tie", "ties", "girdle", "scarf"];
const LAW: &str = "the law where it is sold decides";

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let Some(ages) = garment.wearer.ages else { return };
    for cord in &garment.cords {
        findings.push(cord_caution(garment, sized, cord, ages));
    }
    for closure in &garment.closures {
        let is_tied = matches!(&closure.kind, Some(ClosureKind::Fasteners(row)) if row.kind == Fastener::Tie);
        if is_tied {
            findings.push(tie_caution(garment, sized, closure));
        }
    }
    for finish in &garment.finishes {
        let FinishKind::Bound(binding) = &finish.kind else { continue };
        if !binding.running_on.is_empty() || !binding.loops.is_empty() {
            findings.push(binding_caution(garment, sized, finish));
        }
    }
    let sewn = straps(garment, sized);
    for (id, strap) in StrapId::enumerate(&garment.straps) {
        let sewn = sewn.iter().find(|sewn| sewn.strap == id);
        findings.push(strap_caution(garment, sized, strap, sewn));
    }
    findings.extend(garment.pieces.iter().filter_map(|piece| sash_caution(garment, sized, piece)));
    if ages.0 < SMALL_PARTS_AGE {
        for closure in &garment.closures {
            let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
            if row.kind != Fastener::Tie {
                let what = format!("the {} of {}", row.kind.many(), closure.name);
                findings.push(small(garment, sized, &what, closure.kind_span));
            }
        }
        let bought = garment.notions.iter().filter(|notion| notion.amount.is_some());
        for notion in bought {
            let title = notion.title.to_lowercase();
            let is_one_of = |words: &[&str]| words.iter().any(|word| title.contains(word));
            let is_counted = notion.amount.as_ref().is_some_and(|said| said.dimension != Dimension::Length);
            if is_one_of(&SMALL) {
                findings.push(small(garment, sized, &notion.title, notion.span));
            } else if is_counted && !is_one_of(&HARMLESS) {
                findings.push(perhaps_small(garment, sized, &notion.title, notion.span));
            }
        }
    }
    if garment.wearer.for_sleep {
        flame(garment, sized, findings);
    }
}

fn overlap(one: (f64, f64), other: (f64, f64)) -> bool {
    one.0 <= other.1 && other.0 <= one.1
}

fn cord_caution(garment: &Garment, sized: &SizedGarment, cord: &Cord, ages: (f64, f64)) -> Finding {
    let own = cord.name.to_lowercase();
    let is_said = AT_NECK.iter().any(|word| own.contains(word));
    let is_elsewhere = ELSEWHERE.iter().any(|word| own.contains(word))
        || cord.through.iter().any(|sewn| is_named(garment, sewn, &ELSEWHERE));
    let through = cord.through.iter().find(|sewn| is_said || is_at_neck(garment, sewn));
    let (title, label, rule) = match (through, cord.through.first()) {
        (Some(edge), _) => {
            let title = format!("{} is a cord at the neck of a child's garment", cord.name);
            let label = format!("{} is taken for neck or hood", words::edge(garment, edge.edge));
            let rule = match overlap(ages, NECK_AGES) {
                true => {
                    "in sizes 2T to 12 a drawstring at hood or neck of outerwear is a substantial product \
                     hazard (16 CFR 1120.3; ASTM F1816): take elastic, snaps or a zip instead"
                }
                false => "16 CFR 1120.3 and ASTM F1816 cover drawstrings at hood and neck in sizes 2T to 12",
            };
            (title, label, rule.to_owned())
        }
        (None, Some(first)) if !is_elsewhere => {
            let edge = words::edge(garment, first.edge);
            let title = format!("{} is a cord in a child's garment, perhaps at its neck", cord.name);
            let label = format!("whether {edge} lies at neck or hood is not to be told");
            let rule = format!(
                "at hood or neck of outerwear in sizes 2T to 12 a drawstring is a substantial product hazard (16 CFR \
                 1120.3; ASTM F1816): take elastic, snaps or a zip instead; elsewhere, {}; what the cord, the edge or \
                 its piece is called tells it in English: hood, neck, waist, hem",
                waist_rule(garment, sized, cord, ages)
            );
            (title, label, rule)
        }
        (None, first) => {
            let title = format!("{} is a cord at waist or hem of a child's garment", cord.name);
            let edge = first.map_or_else(|| "it".to_owned(), |sewn| words::edge(garment, sewn.edge));
            let label = format!("{edge} is taken for waist or hem");
            (title, label, waist_rule(garment, sized, cord, ages))
        }
    };
    let message = Diagnostic::new(&catalogue::CAUTION_CORD, cord.span, title)
        .label(label)
        .also(garment.wearer.span, "worn by a child")
        .help(format!("{rule}; in Europe EN 14682 says where cords may be and how long; {LAW}"));
    Finding::new(sized.size, 0.0, message)
}

fn waist_rule(garment: &Garment, sized: &SizedGarment, cord: &Cord, ages: (f64, f64)) -> String {
    if !overlap(ages, WAIST_AGES) {
        return "16 CFR 1120.3 and ASTM F1816 cover drawstrings at waist and hem in sizes 2T to 16"
            .to_owned();
    }
    let most = amount(HANGING_OUT, garment.unit);
    let hanging = cord.ends.as_ref().and_then(|ends| amount_of(garment, sized, ends));
    let here = match hanging {
        Some(hanging) if hanging > HANGING_OUT => {
            format!(" ({} here, which is more)", amount(hanging, garment.unit))
        }
        Some(hanging) => format!(" ({} here)", amount(hanging, garment.unit)),
        None => " (how much hangs out is not given)".to_owned(),
    };
    format!(
        "in sizes 2T to 16 at most 3 in ({most}) may hang out of the channel of outerwear when the garment \
         is at its widest{here}, with no toggles or knots at the ends, and bar-tacked if it is one string \
         (16 CFR 1120.3; ASTM F1816)"
    )
}

/// A binding that runs on is a tie, and one that leaves its edge makes a loop.
fn binding_caution(garment: &Garment, sized: &SizedGarment, finish: &Finish) -> Finding {
    let at_neck = finish.edges.iter().any(|sewn| is_at_neck(garment, sewn));
    let edge = finish.edges.first().map_or_else(String::new, |sewn| words::edge(garment, sewn.edge));
    let place = if at_neck { ", at the neck of" } else { " on" };
    let title = format!("the binding of {edge} runs on beyond it{place} a child's garment");
    let message = Diagnostic::new(&catalogue::CAUTION_CORD, finish.kind_span, title)
        .label("ties or loops")
        .also(garment.wearer.span, "worn by a child")
        .help(format!(
            "keep them short, and out of the way of wheels and doors; in Europe EN 14682 says where ties and loops \
             may be and how long; {LAW}"
        ));
    Finding::new(sized.size, 0.0, message).about(edge)
}

/// Straps catch as loops do; one with a free end as a cord does.
fn strap_caution(
    garment: &Garment,
    sized: &SizedGarment,
    strap: &Strap,
    sewn: Option<&SewnStrap>,
) -> Finding {
    let own = strap.name.to_lowercase();
    let mut ends = strap.runs.iter().flat_map(|run| run.ends());
    let named = |end: &StrapEnd| {
        let point = garment.point(end.point);
        let piece = garment.piece(point.piece);
        let names = [point.name.to_lowercase(), piece.name.to_lowercase(), piece.title.to_lowercase()];
        names.iter().any(|name| AT_NECK.iter().any(|word| name.contains(word)))
    };
    let at_neck = AT_NECK.iter().any(|word| own.contains(word)) || ends.any(named);
    let hangs = strap.runs.iter().any(|run| run.to.is_none());
    let place = if at_neck { "at the neck of" } else { "on" };
    let what = if hangs { "a strap with a loose end" } else { "a loop of cloth" };
    let title = format!("{} is {what} {place} a child's garment", strap.name);
    // A loop goes round the neck once the head goes through.
    let around = sewn.into_iter().flat_map(|sewn| &sewn.runs).map(|run| run.free + run.across.unwrap_or(0.0));
    let around = around.fold(0.0, f64::max);
    let is_noose = !hangs && around >= child_head(garment, sized);
    let (label, short) = match (hangs, is_noose) {
        (true, _) => ("an end that hangs loose".to_owned(), "keep it short"),
        (false, true) => (
            format!("{} round: a child's head goes through", amount(around, garment.unit)),
            "make it far shorter",
        ),
        (false, false) => ("sewn on at both ends".to_owned(), "keep it short"),
    };
    let message = Diagnostic::new(&catalogue::CAUTION_CORD, strap.name_span, title)
        .label(label)
        .also(garment.wearer.span, "worn by a child")
        .help(format!(
            "{short}, and out of the way of wheels and doors; in Europe EN 14682 says where ties, loops and straps may be and \
             how long; {LAW}"
        ));
    Finding::new(sized.size, around, message).about(&*strap.name)
}

/// The girth of the head, or the least that a child's has.
fn child_head(garment: &Garment, sized: &SizedGarment) -> f64 {
    let mut values = ValueId::enumerate(&garment.values);
    let head = values
        .find(|(_, value)| matches!(value.kind, ValueKind::Body(_)) && &*value.name == "head")
        .and_then(|(id, _)| sized.scalar(id));
    head.filter(|head| *head > 0.0).unwrap_or(HEAD)
}

/// Ties hang loose when they are undone, as the ends of a cord do.
fn tie_caution(garment: &Garment, sized: &SizedGarment, closure: &Closure) -> Finding {
    let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
    let is_said = AT_NECK.iter().any(|word| closure.name.to_lowercase().contains(word));
    let at_neck = is_said || edges.any(|sewn| is_at_neck(garment, sewn));
    let (place, rule) = match at_neck {
        true => ("at the neck of", "take elastic, snaps or a zip there instead"),
        false => ("on", "keep them short, and out of the way of wheels and doors"),
    };
    let title = format!("{} is tied, {place} a child's garment", closure.name);
    let message = Diagnostic::new(&catalogue::CAUTION_CORD, closure.kind_span, title)
        .label("ends that hang loose")
        .also(garment.wearer.span, "worn by a child")
        .help(format!("{rule}; in Europe EN 14682 says where ties and sashes may be and how long; {LAW}"));
    Finding::new(sized.size, 0.0, message).about(&*closure.name)
}

/// A belt that is cut loose is tied round the body, and its ends hang down.
fn sash_caution(garment: &Garment, sized: &SizedGarment, piece: &Piece) -> Option<Finding> {
    let mut words =
        [&*piece.name, &*piece.title].into_iter().flat_map(|name| name.split(|of: char| !of.is_alphabetic()));
    if !piece.cut.loose || !words.any(|word| TIED.contains(&&*word.to_lowercase())) {
        return None;
    }
    let title = format!("{} is tied round a child's garment", piece.title);
    let message = Diagnostic::new(&catalogue::CAUTION_CORD, piece.span, title)
        .label("ends that hang loose")
        .also(garment.wearer.span, "worn by a child")
        .help(format!(
            "sew it on at the back, and keep its ends short and out of the way of wheels and doors; or close it with buttons or \
             snaps; in Europe EN 14682 says where ties and sashes may be and how long; {LAW}"
        ));
    Some(Finding::new(sized.size, 0.0, message).about(&*piece.name))
}

/// Whether an edge is at neck or hood: named so, or its piece; or in a ring that passes the head.
fn is_at_neck(garment: &Garment, sewn: &SewnEdge) -> bool {
    is_named(garment, sewn, &AT_NECK) || passes_head(garment, sewn.edge)
}

/// Whether the name of an edge, or of its piece, has one of some words in it.
fn is_named(garment: &Garment, sewn: &SewnEdge, words: &[&str]) -> bool {
    let edge = garment.edge(sewn.edge);
    let piece = garment.piece(edge.piece);
    let names = [edge.name.to_lowercase(), piece.name.to_lowercase(), piece.title.to_lowercase()];
    names.iter().any(|name| words.iter().any(|word| name.contains(word)))
}

fn passes_head(garment: &Garment, edge: EdgeId) -> bool {
    let rings = garment.openings.iter().filter(|opening| &*garment.value(opening.passes).name == "head");
    let mut edges = rings.flat_map(|opening| &opening.ring.edges);
    edges.any(|sewn| garment.is_run_of(edge, sewn.edge) || garment.is_run_of(sewn.edge, edge))
}

fn small(garment: &Garment, sized: &SizedGarment, what: &str, span: Span) -> Finding {
    let message = Diagnostic::new(
        &catalogue::CAUTION_SMALL_PARTS,
        span,
        format!("{what}: small parts for a child under three"),
    )
    .label("can come off")
    .also(garment.wearer.span, "worn from this age on")
    .help(format!(
        "for children under 3 years buttons, snaps and the like are judged as small parts (16 CFR 1501): \
             close it without them, or have them tested as sewn on; {LAW}"
    ));
    Finding::new(sized.size, 0.0, message).about(what)
}

/// What is bought by the piece and called by no word that is known here.
fn perhaps_small(garment: &Garment, sized: &SizedGarment, what: &str, span: Span) -> Finding {
    let title = format!("{what}: is it a small part? the garment is for a child under three");
    let message = Diagnostic::new(&catalogue::CAUTION_SMALL_PARTS, span, title)
        .label("not known by this name")
        .also(garment.wearer.span, "worn from this age on")
        .help(format!(
            "for children under 3 years whatever is small and can come off is judged as a small part (16 CFR 1501): \
             have it tested as sewn on, or leave it out; {LAW}"
        ));
    Finding::new(sized.size, 0.0, message).about(what)
}

/// Raised fibre in children's nightwear.
fn flame(garment: &Garment, sized: &SizedGarment, findings: &mut Vec<Finding>) {
    for layer in garment.layers.iter().filter(|layer| !layer.pieces.is_empty()) {
        let Some(fabric) = layer.fabric.map(|id| garment.fabric(id)) else { continue };
        let Some(raised) = fabric.raised else { continue };
        let title = format!("{} has a raised surface, and this is nightwear for a child", fabric.title);
        let message = Diagnostic::new(&catalogue::CAUTION_FLAME, raised, title)
            .label("raised fibre catches fire easily")
            .also(layer.span, "cut from it")
            .also(garment.wearer.span, "for sleep")
            .help(format!(
                "children's sleepwear must pass flammability tests (16 CFR 1615 and 1616; cloth at large: \
                 16 CFR 1610): ask for a cloth that is sold for it; {LAW}"
            ));
        findings.push(Finding::new(sized.size, 0.0, message).about(&*layer.name));
    }
}
