//! `step/shut` of what is caught in a bag: a flap or a collar between the two plies of a bag lies inside it
//! until that is turned.

use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::order::{ShutIn, Timetable, shut_in};
use crate::sewing::surface::{Bag, Surface};

/// Seams of pieces that hang on a closed bag only between its plies, sewn after it is closed and before it is
/// turned.
pub(super) fn seams_shut_in(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    timetable: &Timetable,
    bags: &[Bag],
) -> Vec<Finding> {
    let seam = |at: usize| size.sewn.seams.get(at).map(|sewn| garment.seam(sewn.seam));
    let told = |one: ShutIn| {
        let (closing, seam) = (seam(one.closing)?, seam(one.seam)?);
        let title = format!(
            "{} is sewn when {} has shut in what it joins, which is not turned yet",
            seam.words(),
            closing.words()
        );
        let mistake = Diagnostic::new(&catalogue::STEP_SHUT, one.when.span, title)
            .label("lies between the plies")
            .also(closing.name_span, "closes it in")
            .also(one.turned.span, "turned only here")
            .help(format!("sew {} in a step before {}", seam.name, closing.name));
        Some(Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name))
    };
    shut_in(garment, &size.sewn, surface, timetable, bags).into_iter().filter_map(told).collect()
}
