//! Words that several checks need.

use crate::garment::{Dimension, EdgeId, Garment, Grain, PieceId, SewnPoint, SewnSpot};
use crate::report::amount;
pub(super) use crate::report::listed;

/// The sizes' names, smallest first.
pub(super) fn size_names(garment: &Garment) -> Vec<String> {
    garment.sizes.iter().map(|size| size.name.to_string()).collect()
}

/// What people read of a piece: "Front".
pub(super) fn piece(garment: &Garment, piece: PieceId) -> String {
    garment.piece(piece).title.to_string()
}

/// "the hem of Front".
pub(super) fn edge(garment: &Garment, edge: EdgeId) -> String {
    let named = garment.edge(edge);
    format!("the {} of {}", garment.edge_words(edge), piece(garment, named.piece))
}

/// "front.tip", "front.side.near": a corner as a seam's braces name it.
pub(super) fn point(garment: &Garment, point: &SewnPoint) -> String {
    let (piece, name) = match point.point {
        SewnSpot::Point(point) => {
            let named = garment.point(point);
            (named.piece, named.name.to_string())
        }
        SewnSpot::RunEnd { run, far } => {
            let named = garment.edge(garment.whole_edge(run));
            (named.piece, format!("{}.{}", named.name, if far { "far" } else { "near" }))
        }
    };
    format!("{}.{name}", garment.part_name(point.layer, piece))
}

/// "a, b or c".
pub(super) fn either(all: &[String]) -> String {
    match all.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => all.concat(),
    }
}

/// An amount as it is written in a file: "1.5cm" of "1.5 cm", "1 1/2in" of "1 1/2 in".
pub(super) fn written(amount: &str) -> String {
    match amount.rsplit_once(' ') {
        Some((number, unit)) => format!("{number}{unit}"),
        None => amount.to_owned(),
    }
}

/// A value as a maker reads it: lengths as a tape shows them, angles in degrees, areas in cm².
pub(super) fn value(garment: &Garment, value: f64, dimension: Dimension) -> String {
    match dimension {
        Dimension::Length => amount(value, garment.unit),
        Dimension::Angle => format!("{}°", rounded(value.to_degrees(), 10.0)),
        Dimension::Area => format!("{} cm²", rounded(value / 100.0, 10.0)),
        Dimension::Number | Dimension::Point => rounded(value, 1000.0),
    }
}

/// Rounded to one part of `parts`, without needless zeros and without "-0".
fn rounded(value: f64, parts: f64) -> String {
    format!("{}", (value * parts).round() / parts + 0.0)
}

/// "up", "across", "on the bias", "along centre".
pub(super) fn grain(garment: &Garment, grain: Grain) -> String {
    match grain {
        Grain::Up => "up".to_owned(),
        Grain::Across => "across".to_owned(),
        Grain::Bias => "on the bias".to_owned(),
        Grain::Along(edge) => format!("along {}", garment.edge(edge).name),
    }
}
