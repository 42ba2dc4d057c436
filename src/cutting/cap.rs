//! The cutting line of an edge with darts and pleats in it.

use super::allowed::{Darted, Laid};
use crate::shape::Affine;
use crate::shape::offset::{OffsetError, parallel};
use crate::shape::path::Path;
use crate::shape::pleat::{Pleat, pleat_cap};
use crate::shape::shut::Shut;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::wedge::{Capped, folded_cap, open_cut};

/// The edge moved to its left by `distance` (to its right where that is below 0), with the caps of its darts and
/// pleats: each stretch beside one is moved by itself and ends on its line, drawn on straight.
pub(super) fn with_caps(edge: &Path, distance: f64, darts: &[Darted]) -> Result<Path, OffsetError> {
    let length = edge.length();
    let ends = darts.iter().map(|dart| dart.mouth.0).chain([length]);
    let starts = std::iter::once(0.0).chain(darts.iter().map(|dart| dart.mouth.1));
    // Between folds that touch, and between one and a corner that it begins at, nothing is left.
    let stretches: Vec<Option<Path>> = starts
        .zip(ends)
        .map(|(from, to)| match to - from > SAME_POINT {
            true => parallel(&edge.part(from, to), distance).map(Some),
            false => Ok(None),
        })
        .collect::<Result<_, OffsetError>>()?;
    let mut line = stretches.first().cloned().flatten();
    let mut done: Vec<Path> = Vec::with_capacity(2 * darts.len() + 1);
    for (at, dart) in darts.iter().enumerate() {
        let next = stretches.get(at + 1).and_then(Option::as_ref);
        let capped = match (dart.shut, dart.laid) {
            (Shut::Wedge(wedge), laid) => match (line.as_ref(), next) {
                (Some(line), Some(next)) => match laid {
                    Laid::Pressed(toward) => folded_cap(&wedge, line, next, toward),
                    // Too narrow to be cut open is reported; it is then shown folded.
                    Laid::CutOpen(allowance) => {
                        open_cut(&wedge, line, next, allowance).or_else(|| folded_cap(&wedge, line, next, 0))
                    }
                },
                _ => None,
            },
            (Shut::Pleat(pleat), laid) => {
                let toward = if let Laid::Pressed(toward) = laid { toward } else { 0 };
                finished_over(&stretches, darts, at, &pleat, toward)
                    .and_then(|finished| pleat_cap(&pleat, line.as_ref(), next, &finished, toward))
            }
        };
        let (before, cap, after) = match capped {
            Some(Capped { before, cap, after }) => {
                (line.as_ref().map(|_| before), Some(cap), next.map(|_| after))
            }
            None => {
                let cap =
                    line.as_ref().zip(next).map(|(line, next)| Path::straight(line.end(), next.start()));
                (line.clone(), cap, next.cloned())
            }
        };
        done.extend([before, cap].into_iter().flatten());
        line = after;
    }
    done.extend(line);
    Path::in_a_row(&done).map_or_else(|| parallel(edge, distance), Ok)
}

/// One path after another, with what little is between them.
fn joined(before: Option<Path>, path: &Path) -> Path {
    match before {
        None => path.clone(),
        Some(before) if before.end().distance(path.start()) > SAME_POINT => {
            before.then(&Path::straight(before.end(), path.start())).then(path)
        }
        Some(before) => before.then(path),
    }
}

/// The cutting line under which the cloth of a pleat comes to lie once all is folded, from the line that its fold is
/// laid on and as it lies beside that line, as far as the pleat is deep; none where nothing is left of the edge there.
fn finished_over(
    stretches: &[Option<Path>],
    darts: &[Darted],
    at: usize,
    pleat: &Pleat,
    toward: usize,
) -> Option<Path> {
    let deep = pleat.taken().hypot() / 2.0;
    let mut by = Affine::IDENTITY;
    let mut whole: Option<Path> = None;
    let mut reached = 0.0;
    let mut next = at;
    while reached <= deep {
        let Some(dart) = darts.get(next) else { break };
        let path = match toward {
            0 => {
                by *= dart.shut.shutting();
                stretches.get(next + 1)
            }
            _ => {
                by *= dart.shut.shutting().inverse();
                stretches.get(next)
            }
        };
        if let Some(Some(path)) = path {
            let path = if toward == 0 { path.clone() } else { path.reversed() };
            reached += path.length();
            whole = Some(joined(whole, &path.transform(by)));
        }
        match if toward == 0 { Some(next + 1) } else { next.checked_sub(1) } {
            Some(further) => next = further,
            None => break,
        }
    }
    whole
}
