//! Two pieces whose names are exchanged in one size: each is then drawn there as the other is in the other sizes.

use super::course::Course;
use super::names::one_line;
use super::traced::{Traced, TracedPiece};
use super::turned_over::{off_ring, places};
use crate::report::listed;
use indexmap::IndexMap;
use kurbo::{Point, Rect, Vec2};

/// Of more pieces it is not asked: each would be held beside each.
const MOST_PIECES: usize = 40;
/// A piece has to lie so many times nearer to the other one's sizes than to its own …
const NEARER: f64 = 1.7;
/// … and so far from its own, in millimetres.
const APART: f64 = 2.5;

/// As wide and as high as the other one's sizes it has to be nearer by this share.
const LIKE: f64 = 0.9;

/// Two pieces that are exchanged in a size.
pub struct Exchanged {
    /// Which pieces.
    pub pieces: [usize; 2],
    /// What is said of them.
    pub words: String,
}

/// The pieces that are exchanged.
pub fn exchanged(traced: &Traced) -> Vec<Exchanged> {
    let pieces = &traced.pieces;
    if pieces.len() > MOST_PIECES {
        return Vec::new();
    }
    let drawn: Vec<IndexMap<&str, Vec<Point>>> = pieces.iter().map(rings).collect();
    let mut found: Vec<Exchanged> = Vec::new();
    for (other, (piece, beside)) in pieces.iter().zip(&drawn).enumerate() {
        for (at, (first, own)) in pieces.iter().zip(&drawn).enumerate().take(other) {
            let is_known = |at: usize| found.iter().any(|known| known.pieces.contains(&at));
            if is_known(at) || is_known(other) {
                continue;
            }
            if let Some(size) = own.keys().find(|size| are_exchanged(own, beside, size)) {
                let others: Vec<&str> = own.keys().copied().filter(|other| other != size).collect();
                found.push(Exchanged {
                    pieces: [at, other],
                    words: format!(
                        "{} and {} are exchanged in {}: each is drawn there as the other is in {}; give them each other's names ({})",
                        one_line(&first.name),
                        one_line(&piece.name),
                        one_line(size),
                        listed(&others),
                        one_line(&first.origin)
                    ),
                });
            }
        }
    }
    found
}

/// By size, places along the outline, seen from the middle of what it covers.
fn rings(piece: &TracedPiece) -> IndexMap<&str, Vec<Point>> {
    let each = piece.sizes.iter().filter_map(|(size, drawn)| {
        let course = Course::of(&drawn.outline)?;
        let middle = course.bounds().center().to_vec2();
        // What reaches far is told as that.
        let is_near = course.reach().size().max_side() < crate::limits::LENGTH_MM;
        let ring = if is_near { places(&course) } else { Vec::new() };
        Some((size.as_str(), ring.into_iter().map(|at| at - middle).collect()))
    });
    each.collect()
}

/// How wide and how high points lie.
fn extent(points: &[Point]) -> Vec2 {
    let first = points.first().copied().unwrap_or_default();
    let all = points.iter().fold(Rect::from_points(first, first), |all, at| all.union_pt(*at));
    Vec2::new(all.width(), all.height())
}

fn are_exchanged(one: &IndexMap<&str, Vec<Point>>, other: &IndexMap<&str, Vec<Point>>, size: &str) -> bool {
    let (Some(own), Some(beside)) = (one.get(size), other.get(size)) else { return false };
    let is_of = |ring: &[Point], mine: &IndexMap<&str, Vec<Point>>, theirs: &IndexMap<&str, Vec<Point>>| {
        let apart = |all: &IndexMap<&str, Vec<Point>>| -> Vec<f64> {
            let others = all.iter().filter(|(other, _)| **other != size);
            others.map(|(_, other)| off_ring(other, ring)).collect()
        };
        let (from_mine, from_theirs) = (apart(mine), apart(theirs));
        let mean = |all: &[f64]| all.iter().sum::<f64>() / all.len().max(1) as f64;
        let (far, near) = (mean(&from_mine), mean(&from_theirs));
        from_mine.len() > 1 && from_theirs.len() > 1 && far > APART && NEARER * near < far
    };
    // Most are told at a glance: they are as wide and as high as their own other sizes are.
    let is_like = |ring: &[Point], mine: &IndexMap<&str, Vec<Point>>, theirs: &IndexMap<&str, Vec<Point>>| {
        let apart = |all: &IndexMap<&str, Vec<Point>>| -> f64 {
            let others = all.iter().filter(|(other, _)| **other != size);
            others.map(|(_, other)| (extent(other) - extent(ring)).hypot()).sum()
        };
        apart(theirs) < LIKE * apart(mine)
    };
    let may_be = || is_like(own, one, other) && is_like(beside, other, one);
    !own.is_empty() && !beside.is_empty() && may_be() && is_of(own, one, other) && is_of(beside, other, one)
}
