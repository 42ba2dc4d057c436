//! Lines that run along an edge, everywhere equally far inside it, as the fold of a hem does.

use super::figures::TextUnit;
use super::pattern::{Piece, nearest};
use crate::bring::length::length;
use kurbo::{BezPath, ParamCurve, ParamCurveArclen, PathSeg, Point};

/// How far inside its edge such a line may lie, in millimetres.
const DEPTHS: std::ops::RangeInclusive<f64> = 5.0..=80.0;
/// How evenly, in millimetres.
const EVEN: f64 = 0.5;
/// How much of its edge it runs along at least.
const MOST_OF_IT: f64 = 0.8;
/// At how many places it is looked at.
const PLACES: u32 = 12;

/// A line that runs along an edge.
#[derive(Debug, Clone, PartialEq)]
pub struct HemLine {
    /// Which edge.
    pub edge: usize,
    /// How far inside it, in the first size and the last, in millimetres.
    pub depth: (f64, f64),
}

/// The lines of a piece that run so in every size, each along the one edge that it does.
pub fn hem_lines(
    piece: &Piece,
    sizes: usize,
    unit: TextUnit,
    holds: bool,
    remarks: &mut Vec<String>,
) -> Vec<HemLine> {
    let mut found: Vec<HemLine> = Vec::new();
    // What is called after something else is no hem.
    let may_be = |name: &str| ["line", "hem", "fold", "turn"].iter().any(|word| name.starts_with(word));
    for line in piece.lines.iter().filter(|line| line.edges.first().is_some_and(|first| may_be(&first.name)))
    {
        let along: Vec<HemLine> = (0..piece.outline.edges.len())
            .filter(|edge| Some(*edge) != piece.fold)
            .filter_map(|edge| {
                let depth = |size| depth(&line.whole(size), &piece.outline.path(edge, size));
                let depths: Option<Vec<f64>> = (0..sizes).map(depth).collect();
                let depths = depths?;
                Some(HemLine { edge, depth: (*depths.first()?, *depths.last()?) })
            })
            .collect();
        // Along two edges it is the middle of a band.
        let [only] = along.as_slice() else { continue };
        let (Some(edge), Some(first)) = (piece.outline.edges.get(only.edge), line.edges.first()) else {
            continue;
        };
        let (deep, piece_name) = (unit.about(only.depth.0), &piece.name);
        let measured = format!("{deep} {}", unit.word());
        let way = match holds || piece.sewn {
            true => format!("if a hem is folded there, say finish {piece_name}.{}  hem {deep}", edge.name),
            false => "if a hem is folded there, the outline is where the cloth is cut: `allowance` says what it holds".to_owned(),
        };
        remarks.push(format!(
            "{piece_name}: {} runs {measured} inside {}, all along it; {way}",
            first.name, edge.name
        ));
        found.push(only.clone());
    }
    found
}

/// How far a line runs inside an edge, where that is the same everywhere.
fn depth(line: &BezPath, edge: &[PathSeg]) -> Option<f64> {
    let segments: Vec<PathSeg> = line.segments().collect();
    let long: f64 = segments.iter().map(|one| length(one, 0.1)).sum();
    let beside: f64 = edge.iter().map(|one| length(one, 0.1)).sum();
    if long < MOST_OF_IT * beside {
        return None;
    }
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for place in 0..=PLACES {
        let (_, away) = nearest(edge, at(&segments, long * f64::from(place) / f64::from(PLACES))?)?;
        (least, most) = (least.min(away), most.max(away));
    }
    (most - least <= EVEN && DEPTHS.contains(&least)).then(|| f64::midpoint(least, most))
}

fn at(segments: &[PathSeg], along: f64) -> Option<Point> {
    let mut before = 0.0;
    for segment in segments {
        let long = length(segment, 0.1);
        if before + long >= along {
            return Some(segment.eval(segment.inv_arclen((along - before).max(0.0), 0.1)));
        }
        before += long;
    }
    segments.last().map(|last| last.end())
}
