//! The end of a two-part placket that does not fill the window of its slit, in the words of the placket.

use super::sides::length;
use crate::check::words;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::SewnSeam;

/// What is said of the seam that a placket makes across the end of its window; none of any other seam.
pub(super) fn unfilled(
    garment: &Garment,
    sized: &SizedGarment,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Option<Finding> {
    let ([strip], [end]) = (seam.first.first()?.edges.as_slice(), seam.second.first()?.edges.as_slice())
    else {
        return None;
    };
    let slit = garment.edge(garment.edge(end.edge).side_of?);
    // What a placket makes has the placket's own words.
    let is_made = strip.span.lo < end.span.lo && end.span.hi <= strip.span.hi;
    let placket = seam.name.strip_suffix("_end").filter(|_| is_made)?;
    let unit = garment.unit;
    let (under, window) = (amount(length(&sewn.first), unit), amount(length(&sewn.second), unit));
    let by = (length(&sewn.first) - length(&sewn.second)).abs();
    let title = Title::new(format!("the under part of {placket} is {under} wide"))
        .in_any_size()
        .then(format!(", and fills the window of {}, which is {window}", slit.name));
    let mistake = Diagnostic::new(&catalogue::SEAM_UNEQUAL, strip.span, title)
        .label(format!("under {under}"))
        .also(slit.span, format!("window {window}"))
        .help(format!(
            "let the two be one width: under {} in the placket, or window {} in the slit",
            words::written(&window),
            words::written(&under)
        ));
    let finding = Finding::new(sized.size, by, mistake).about(&*seam.name);
    Some(finding.figure("under", under).figure("window", window))
}
