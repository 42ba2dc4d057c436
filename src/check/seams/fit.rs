//! `seam/ease`, `seam/gather`, and shares outside of the maker's range.

use super::copies::too_few;
use super::lengths::{figures, or_more_of_it, subject};
use super::sides::{Sides, each, in_size, length, ply_span};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, INCH, Title, amount, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnFit, SewnSeam};
use crate::syntax::tree::{ClothKind, FitKind};

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::SEAM_EASE, &catalogue::SEAM_CAP_EASE, &catalogue::SEAM_GATHER],
    run: Run::PerSize(run),
};

/// The most ease over a sleeve cap that the cloth takes, in millimetres: 1½ in for supple cloth, 1 in
/// for knits, firm wovens and leather. Virginia Cooperative Extension, publication 346-122 (1985).
fn most_ease(kind: ClothKind) -> f64 {
    match kind {
        ClothKind::WovenSupple => 1.5 * INCH,
        ClothKind::Knit | ClothKind::WovenFirm | ClothKind::Leather => INCH,
    }
}

fn cloth_word(kind: ClothKind) -> &'static str {
    match kind {
        ClothKind::WovenSupple => "a supple cloth",
        ClothKind::WovenFirm => "a firm woven cloth",
        ClothKind::Knit => "a knit",
        ClothKind::Leather => "leather",
    }
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for (seam, sewn) in each(garment, sewing) {
        let Some(fit) = sewn.fit else { continue };
        match fit.kind {
            FitKind::Easing => {
                findings.extend(ease(garment, sized, sewing, seam, sewn, fit));
                findings.extend(cap(garment, sized, sewing, seam, sewn));
            }
            FitKind::Gathering | FitKind::Stretching => {
                findings.extend(share(garment, sized, sewing, seam, sewn, fit));
            }
        }
    }
}

fn range(low: String, high: String) -> String {
    if low == high { low } else { format!("{low} to {high}") }
}

fn ease(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    sewn: &SewnSeam,
    fit: SewnFit,
) -> Option<Finding> {
    let unit = garment.unit;
    let ease = length(&sewn.first) - length(&sewn.second);
    let out = (fit.low - ease).max(ease - fit.high);
    if out <= garment.tolerance {
        return None;
    }
    let sides = Sides::of(garment, seam);
    let allowed = range(amount(fit.low, unit), amount(fit.high, unit));
    let title = match ease < 0.0 {
        true => Title::new(format!("{} has no ease", seam.words()))
            .in_any_size()
            .then(format!(": {}; {allowed} was to be eased in", sides.longer(false, &amount(-ease, unit)))),
        false => {
            let way = if ease > fit.high { "more" } else { "less" };
            Title::new(format!("{} has {} of ease", seam.words(), amount(ease, unit)))
                .in_sizes()
                .then(format!(", {} {way} than was allowed", amount(out, unit)))
        }
    };
    let size = in_size(garment, sized);
    let help = match ease > fit.high {
        true => format!("make {} {} shorter, or allow more", sides.first, amount(out, unit)),
        false => format!("make {} {} longer, or allow less", sides.first, amount(out, unit)),
    };
    let span = seam.fit.as_ref().map_or(seam.name_span, |fit| fit.span);
    let mistake = Diagnostic::new(&catalogue::SEAM_EASE, span, title)
        .label(format!("{allowed} was allowed"))
        .also(ply_span(seam, false, 0), format!("{}{size}", amount(length(&sewn.first), unit)))
        .also(ply_span(seam, true, 0), format!("{}{size}", amount(length(&sewn.second), unit)));
    let mistake = or_more_of_it(mistake, too_few(garment, sized, sewing, sewn), help);
    let finding = Finding::new(sized.size, out, mistake).about(subject(garment, seam, sewn));
    Some(figures(garment, finding, &sides, sewn))
}

/// A sleeve cap is one edge that is eased into two or more.
fn cap(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Option<Finding> {
    let unit = garment.unit;
    let ([own], Some(other)) = (sewn.first.plies.first()?.runs.as_slice(), sewn.second.plies.first()) else {
        return None;
    };
    if other.runs.len() < 2 || sewn.first.plies.len() > 1 {
        return None;
    }
    let ease = length(&sewn.first) - length(&sewn.second);
    let layer = garment.layer(sewing.part(own.part).part.layer);
    let kind = layer.fabric.and_then(|id| garment.fabric(id).kind)?;
    let most = most_ease(kind);
    if ease - most <= garment.tolerance {
        return None;
    }
    let title = Title::new(format!("{} has {} of ease", seam.words(), amount(ease, unit)))
        .in_sizes()
        .then(format!(": {} takes about {} in a sleeve cap", cloth_word(kind), amount(most, unit)));
    let span = seam.fit.as_ref().map_or(seam.name_span, |fit| fit.span);
    let advice = Diagnostic::new(&catalogue::SEAM_CAP_EASE, span, title)
        .label("much to ease in")
        .help(format!("lower the cap by about half of the {} that are too much", amount(ease - most, unit)));
    Some(
        Finding::new(sized.size, ease, advice)
            .about(subject(garment, seam, sewn))
            .figure("ease", amount(ease, unit)),
    )
}

/// Gathers and stretching: the first side as a share of the second.
fn share(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    sewn: &SewnSeam,
    fit: SewnFit,
) -> Option<Finding> {
    let unit = garment.unit;
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    if second <= 0.0 {
        return None;
    }
    let share = first / second;
    let out = (fit.low - share).max(share - fit.high);
    if out * second <= garment.tolerance {
        return None;
    }
    let sides = Sides::of(garment, seam);
    let is_gathered = fit.kind == FitKind::Gathering;
    let word = |share: f64| match is_gathered {
        true => format!("{}", (share * 100.0).round() / 100.0),
        false => percent(share),
    };
    let allowed = range(word(fit.low), word(fit.high));
    let (kind, title) = match is_gathered {
        true => (
            &catalogue::SEAM_GATHER,
            Title::new(format!(
                "in {} {} {} times as long as {}",
                seam.words(),
                sides.first_is(),
                word(share),
                sides.second
            ))
            .in_sizes()
            .then(format!("; {allowed} times was allowed")),
        ),
        false => (
            &catalogue::SEAM_UNEQUAL,
            Title::new(format!(
                "in {} {} {} of {}",
                seam.words(),
                sides.first_is(),
                word(share),
                sides.second
            ))
            .in_sizes()
            .then(format!("; {allowed} was allowed")),
        ),
    };
    let wanted = second * if share > fit.high { fit.high } else { fit.low };
    let way = if share > fit.high { "shorter" } else { "longer" };
    let help = format!(
        "make {} {} {way}, or allow {}",
        sides.first,
        amount((first - wanted).abs(), unit),
        word(share)
    );
    let size = in_size(garment, sized);
    let span = seam.fit.as_ref().map_or(seam.name_span, |fit| fit.span);
    let mistake = Diagnostic::new(kind, span, title)
        .label(format!("{allowed} was allowed"))
        .also(ply_span(seam, false, 0), format!("{}{size}", amount(first, unit)))
        .also(ply_span(seam, true, 0), format!("{}{size}", amount(second, unit)));
    let mistake = or_more_of_it(mistake, too_few(garment, sized, sewing, sewn), help);
    let finding = Finding::new(sized.size, out, mistake)
        .about(subject(garment, seam, sewn))
        .figure(&sides.first, amount(first, unit))
        .figure(&sides.second, amount(second, unit))
        .figure("share", word(share));
    Some(finding)
}
