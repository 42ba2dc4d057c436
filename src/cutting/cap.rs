//! The cutting line of an edge with darts in it.

use super::allowed::{Darted, Laid};
use crate::shape::offset::{OffsetError, parallel};
use crate::shape::path::Path;
use crate::shape::wedge::{Capped, folded_cap, open_cut};

/// The edge moved to its left by `distance` (to its right where that is below 0), with the caps of its darts:
/// each stretch beside a dart is moved by itself and ends on the dart's leg, drawn on straight.
pub(super) fn with_caps(edge: &Path, distance: f64, darts: &[Darted]) -> Result<Path, OffsetError> {
    let length = edge.length();
    let ends = darts.iter().map(|dart| dart.mouth.0).chain([length]);
    let starts = std::iter::once(0.0).chain(darts.iter().map(|dart| dart.mouth.1));
    let stretches: Result<Vec<Path>, OffsetError> =
        starts.zip(ends).map(|(from, to)| parallel(&edge.part(from, to), distance)).collect();
    let stretches = stretches?;
    let mut stretches = stretches.into_iter();
    let Some(mut line) = stretches.next() else { return parallel(edge, distance) };
    let mut done: Option<Path> = None;
    for (dart, after) in darts.iter().zip(stretches) {
        let capped = match dart.laid {
            Laid::Pressed(toward) => folded_cap(&dart.wedge, &line, &after, toward),
            // Too narrow to be cut open is reported; it is then shown folded.
            Laid::CutOpen(allowance) => open_cut(&dart.wedge, &line, &after, allowance)
                .or_else(|| folded_cap(&dart.wedge, &line, &after, 0)),
        };
        let Capped { before, cap, after } = capped.unwrap_or_else(|| Capped {
            before: line.clone(),
            cap: Path::straight(line.end(), after.start()),
            after,
        });
        let so_far = before.then(&cap);
        done = Some(done.map_or_else(|| so_far.clone(), |done| done.then(&so_far)));
        line = after;
    }
    Ok(done.map_or_else(|| line.clone(), |done| done.then(&line)))
}
