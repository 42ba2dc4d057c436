//! Darts, pleats and tucks in the document.

use super::documents::{SlitDocument, TakeUpDocument, TakeUpKind};
use super::number::Figure;
use super::outline::point;
use super::steps::pressed_words;
use crate::garment::{EdgeId, Garment, TakeUpForm};
use crate::resolve::{DrawnPiece, DrawnPleat, DrawnSlit, DrawnTakeUp, SizedGarment};
use crate::sewing::amount_of;

/// The take-ups of a piece, in the order declared.
pub(super) fn take_ups(garment: &Garment, sized: &SizedGarment, drawn: &DrawnPiece) -> Vec<TakeUpDocument> {
    drawn.take_ups.iter().map(|one| take_up(garment, sized, one)).collect()
}

/// How far apart the folds of a row are, as sewn.
fn apart(garment: &Garment, sized: &SizedGarment, name: EdgeId) -> Option<f64> {
    let TakeUpForm::Pleat(pleat) = &garment.take_up(name)?.form else { return None };
    amount_of(garment, sized, &pleat.row.as_ref()?.1)
}

fn take_up(garment: &Garment, sized: &SizedGarment, drawn: &DrawnTakeUp) -> TakeUpDocument {
    let [one, other] = drawn.wedge.sides;
    let ends: Vec<_> = match drawn.pleat {
        None => std::iter::once(drawn.wedge.point).chain(drawn.upper).collect(),
        Some(pleat) if pleat.sewn > 0.0 => pleat.ends.to_vec(),
        Some(_) => Vec::new(),
    };
    TakeUpDocument {
        name: garment.edge(drawn.name).name.to_string(),
        kind: match drawn.pleat {
            None => TakeUpKind::Dart,
            Some(DrawnPleat { tuck: None, .. }) => TakeUpKind::Pleat,
            Some(_) => TakeUpKind::Tuck,
        },
        fold: drawn.pleat.map(|pleat| pleat.nth + 1),
        depth: drawn.pleat.map(|_| Figure(drawn.depth())),
        apart: apart(garment, sized, drawn.name).map(Figure),
        edge: drawn.mouth.map(|mouth| garment.edge(mouth.edge).name.to_string()),
        along: drawn.mouth.map(|mouth| [Figure(mouth.from), Figure(mouth.to)]),
        width: Figure(one.distance(other)),
        long: drawn.upper.map(|upper| Figure(drawn.wedge.point.distance(upper))),
        angle: Figure(if drawn.pleat.is_some() { 0.0 } else { drawn.wedge.angle().abs().to_degrees() }),
        sides: [point(one), point(other)],
        points: ends.into_iter().map(point).collect(),
        directed_to: (drawn.apex != drawn.wedge.point).then(|| point(drawn.apex)),
        legs: drawn.leg_lengths().map(Figure),
        pressed_to: drawn.pressed,
        pressed: pressed_words(garment, drawn.name),
        trued_by: drawn.moved.map(Figure),
    }
}

/// The slits of a piece, in the order declared.
pub(super) fn slits(garment: &Garment, drawn: &DrawnPiece) -> Vec<SlitDocument> {
    drawn.uncut().slits.iter().map(|one| slit(garment, one)).collect()
}

fn slit(garment: &Garment, drawn: &DrawnSlit) -> SlitDocument {
    SlitDocument {
        name: garment.edge(drawn.name).name.to_string(),
        edge: drawn.mouth.map(|mouth| garment.edge(mouth.edge).name.to_string()),
        along: drawn.mouth.map(|mouth| [Figure(mouth.from), Figure(mouth.to)]),
        window: Figure(drawn.window()),
        lengths: [0, 1].map(|at| Figure(drawn.sides[at].distance(drawn.ends[at]))),
        sides: drawn.sides.map(point),
        ends: drawn.ends.map(point),
    }
}
