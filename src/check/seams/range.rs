//! `seam/range` and `seam/much-eased`: a fit whose most is less than its least, or that lets the first side be the shorter
//! one where it is to be eased or gathered, or the longer one where it is to be stretched; and more ease than a seam takes.

use super::sides::{Sides, length};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Fit, Garment, Seam, SeamId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, percent};
use crate::sewing::{SewnSeam, amount_of};
use crate::syntax::tree::FitKind;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_RANGE, &catalogue::SEAM_MUCH_EASED], run: Run::PerSize(run) };

/// So much of a seam is never eased in, as a share of what it is eased onto: supple wool over a sleeve cap takes a tenth.
const MOST_EASED: f64 = 0.16;
/// What arithmetic may leave of nothing.
const NOISE: f64 = 1e-9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned) {
        let Some(fit) = &seam.fit else { continue };
        let (least, most) = (amount_of(garment, sized, &fit.low), amount_of(garment, sized, &fit.high));
        let (Some(least), Some(most)) = (least, most) else { continue };
        let found = match least > most {
            true => Some((turned_round(garment, seam, fit, least, most), least - most)),
            false => beyond(garment, seam, fit, least, most)
                .or_else(|| much_eased(garment, size, (id, seam), fit, most)),
        };
        if let Some((mistake, by)) = found {
            findings.push(Finding::new(sized.size, by, mistake).about(seam.name.to_string()));
        }
    }
}

/// More than is ever eased into a seam: that is gathered. What is allowed may be twice as much.
fn much_eased(
    garment: &Garment,
    size: &WorkedSize,
    (id, seam): (SeamId, &Seam),
    fit: &Fit,
    most: f64,
) -> Option<(Diagnostic, f64)> {
    if fit.kind != FitKind::Easing {
        return None;
    }
    let sewn = size.sewn.seams.iter().filter(|sewn| sewn.seam == id && sewn.known && sewn.unpaired.is_none());
    let share = |of: f64, sewn: &SewnSeam| of / length(&sewn.second).max(f64::EPSILON);
    let (sewn, ease) = sewn
        .map(|sewn| (sewn, length(&sewn.first) - length(&sewn.second)))
        .find(|&(sewn, ease)| share(ease, sewn) > MOST_EASED || share(most, sewn) > 2.0 * MOST_EASED)?;
    let (unit, onto) = (garment.unit, length(&sewn.second));
    let is_eased = share(ease, sewn) > MOST_EASED;
    let much = if is_eased { ease } else { most };
    // Out of its range it is told as that.
    if ease - most > garment.tolerance || onto <= 0.0 {
        return None;
    }
    let (by, of) = (amount(much, unit), amount(onto, unit));
    let title = match is_eased {
        true => format!("{by} are eased onto {of} in {}", seam.words()),
        false => format!("{by} of ease are allowed in {}, on {of}", seam.words()),
    };
    let warning = Diagnostic::new(&catalogue::SEAM_MUCH_EASED, fit.high.span, Title::new(title).in_sizes())
        .label(format!("{} of it", percent(much / onto)))
        .help(
            "look at the figure and its unit: a tenth of a seam can be eased in; if it is gathered, say gathering and how many \
             times as long",
        );
    Some((warning, much))
}

fn shown(garment: &Garment, kind: FitKind, value: f64) -> String {
    match kind {
        FitKind::Easing => amount(value, garment.unit),
        FitKind::Gathering => format!("{} times", (value * 100.0).round() / 100.0),
        FitKind::Stretching => percent(value),
    }
}

fn turned_round(garment: &Garment, seam: &Seam, fit: &Fit, least: f64, most: f64) -> Diagnostic {
    let shown = |value: f64| shown(garment, fit.kind, value);
    let word = match fit.kind {
        FitKind::Easing => "easing",
        FitKind::Gathering => "gathering",
        FitKind::Stretching => "stretching",
    };
    let title =
        Title::new(format!("the {word} of {} is given from the most to the least", seam.words())).in_sizes();
    Diagnostic::new(&catalogue::SEAM_RANGE, fit.high.span, title)
        .label(format!("at most {}", shown(most)))
        .also(fit.low.span, format!("at least {}", shown(least)))
        .help(format!("write the lesser first, from {} to {}", shown(most), shown(least)))
}

/// Eased and gathered, the first side is never the shorter one; stretched, never the longer one: a
/// range that lets it be either hides every slip.
fn beyond(garment: &Garment, seam: &Seam, fit: &Fit, least: f64, most: f64) -> Option<(Diagnostic, f64)> {
    let is_beyond = match fit.kind {
        FitKind::Easing => least < -NOISE,
        FitKind::Gathering => least < 1.0 - NOISE,
        FitKind::Stretching => most > 1.0 + NOISE || least < -NOISE,
    };
    if !is_beyond {
        return None;
    }
    let sides = Sides::of(garment, seam);
    let (first, second) = (&sides.first, &sides.second);
    let low = shown(garment, fit.kind, least);
    let (span, label, by, title, help) = match fit.kind {
        FitKind::Easing if least < -NOISE => (
            fit.low.span,
            format!("{low}: {first} may be shorter"),
            -least,
            Title::new(format!("the easing of {} goes below 0", seam.words())).in_sizes(),
            format!("begin at 0; if {second} is the longer side, name it first and ease it in"),
        ),
        FitKind::Gathering if least < 1.0 - NOISE => (
            fit.low.span,
            format!("{low} as long: {first} may be shorter"),
            1.0 - least,
            Title::new(format!("what is gathered in {} may be shorter than what it meets", seam.words()))
                .in_sizes(),
            format!("begin at 1; if {second} is the longer side, name it first and gather it"),
        ),
        FitKind::Stretching if most > 1.0 + NOISE => (
            fit.high.span,
            format!("{} of {second}: {first} may be longer", shown(garment, fit.kind, most)),
            most - 1.0,
            Title::new(format!("what is stretched in {} may be longer than what it meets", seam.words()))
                .in_sizes(),
            format!("end at 100%; if {first} is the longer side, ease or gather it"),
        ),
        FitKind::Stretching if least < -NOISE => (
            fit.low.span,
            low,
            -least,
            Title::new(format!("the stretching of {} goes below 0", seam.words())).in_sizes(),
            format!("say how much of {second} {first} is at least, for example 80%"),
        ),
        _ => return None,
    };
    Some((Diagnostic::new(&catalogue::SEAM_RANGE, span, title).label(label).help(help), by))
}
