//! `turn/strap`: shell and lining sewn together along both edges of a strap, a shoulder between neck and armhole, when the way
//! round it is closed.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::order::{ClosedStrap, Timetable, closed_straps};
use crate::sewing::surface::{Bag, Surface};

/// The straps of bags that are turned after, of each the first.
pub(super) fn straps_closed(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    timetable: &Timetable,
    bags: &[Bag],
) -> Vec<Finding> {
    let seam = |at: usize| size.sewn.seams.get(at).map(|sewn| garment.seam(sewn.seam));
    let told = |strap: ClosedStrap| {
        let [first, second] = strap.along;
        let (first, second) = (seam(first)?, seam(second)?);
        let mut round: Vec<&Seam> = strap.round.iter().filter_map(|&at| seam(at)).collect();
        round.dedup_by_key(|seam| seam.name_span);
        let piece = size.sewn.part(surface.face(strap.face).part).part.piece;
        let title = format!(
            "between {} and {} {} becomes a tube that cannot be turned: the way round it is closed already",
            first.words(),
            second.words(),
            words::piece(garment, piece)
        );
        let mut warning = Diagnostic::new(&catalogue::TURN_STRAP, strap.when.span, title)
            .label("closes the tube")
            .also(first.name_span, "its other edge");
        for seam in &round {
            warning = warning.also(seam.name_span, "closes the way round it");
        }
        let names: Vec<String> = round.iter().map(|seam| seam.name.to_string()).collect();
        let help = format!(
            "leave one seam of the way round it, {}, open in shell and lining until {} is sewn and all is turned; or sew {} by hand \
             after all others, {{ stitch handstitch }}; or turn before it, pull it out through the gap to sew it, and turn once more",
            words::either(&names),
            second.name,
            second.name
        );
        Some(Finding::new(size.drawn.size, 0.0, warning.help(help)).about(&*second.name))
    };
    closed_straps(garment, &size.drawn, &size.sewn, timetable, bags).into_iter().filter_map(told).collect()
}
