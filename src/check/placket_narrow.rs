//! `placket/narrow`: the over part of a placket that does not cover the window of its slit.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, Seam};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::finished;
use crate::sewing::SewnSeam;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACKET_NARROW], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for over in &size.sewn.seams {
        let Some(name) = garment.seam(over.seam).name.strip_suffix("_over") else { continue };
        let is_end = |other: &&SewnSeam| {
            garment.seam(other.seam).name.strip_suffix("_end") == Some(name)
                && slit(garment, garment.seam(other.seam)) == slit(garment, garment.seam(over.seam))
        };
        // Where there is no window nothing is sewn across its end.
        let Some(end) = size.sewn.seams.iter().find(is_end) else { continue };
        findings.extend(narrow(garment, size, name, over, end));
    }
}

/// The slit to a side of which a seam sews.
fn slit(garment: &Garment, seam: &Seam) -> Option<EdgeId> {
    let mut edges = seam.second.iter().flat_map(|chain| &chain.edges);
    garment.edge(edges.next()?.edge).side_of
}

fn narrow(
    garment: &Garment,
    size: &WorkedSize,
    name: &str,
    over: &SewnSeam,
    end: &SewnSeam,
) -> Option<Finding> {
    let slit = garment.edge(slit(garment, garment.seam(over.seam))?);
    let window = end.second.plies.first()?.length;
    let strip = over.first.plies.first()?.runs.first()?;
    let part = size.sewn.part(strip.part).part;
    let drawn = size.drawn.paper(part.paper).filter(|_| !garment.piece(part.piece).folds.is_empty())?;
    let wide = finished(garment, drawn, drawn.after(strip.edge))?;
    // A width of nothing, or less, is told as that.
    if wide <= 0.0 || wide >= window - garment.tolerance {
        return None;
    }
    let (wide_words, window_words) = (amount(wide, garment.unit), amount(window, garment.unit));
    let title = Title::new(format!("the over part of {name} is {wide_words} wide"))
        .in_any_size()
        .then(format!(", and does not cover the window of {}, which is {window_words}", slit.name));
    let warning = Diagnostic::new(&catalogue::PLACKET_NARROW, garment.seam(over.seam).name_span, title)
        .label(format!("over {wide_words}"))
        .also(slit.span, format!("window {window_words}"))
        .help(format!(
            "let the over part be as wide as the window at least, over {} in the placket; twice as wide is usual",
            words::written(&window_words)
        ));
    let finding = Finding::new(size.id(), window - wide, warning).about(name.to_owned());
    Some(finding.figure("over", wide_words).figure("window", window_words))
}
