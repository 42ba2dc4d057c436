//! The message about what comes too early.

use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::When;

/// `sooner` is done at `first`, but needs `later` done before it.
pub(super) fn too_early(sooner: (&str, When), later: (&str, When), why: &str) -> Diagnostic {
    let ((sooner, first), (later, second)) = (sooner, later);
    let title = format!("{sooner} comes before {later}, {why}");
    Diagnostic::new(&catalogue::STEP_EARLY, first.span, title)
        .label("too early")
        .also(second.span, "only here")
        .help(format!("{later} comes first: move it up, or {sooner} down"))
}
