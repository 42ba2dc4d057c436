//! The exact check of a finished plan, in `f64`, from the request alone: nothing that the search
//! prepared is used.

use super::orientation::turned;
use super::outline::clean;
use super::overlap::{Placed, apart, close_pairs, overlap};
use super::request::{Placement, Plan, Point, Request};

/// What may be wrong by so much is right, in millimetres.
pub const TOLERANCE: f64 = 0.01;

/// What is wrong with a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// Two placements overlap, or keep less than the minimum space.
    Overlap(usize, usize),
    /// A placement lies off the cloth by so much.
    Outside(usize, f64),
    /// An item is not laid as often as it was asked for.
    Count(usize),
}

/// The outline of a placement, on the cloth.
pub fn placed_outline(request: &Request, placement: &Placement) -> Vec<Point> {
    let Some(item) = request.items.get(placement.item) else { return Vec::new() };
    let mut outline = turned(&item.outline, placement.turn);
    for p in &mut outline {
        *p = (p.0 + placement.x, p.1 + placement.y);
    }
    outline
}

/// Everything that is wrong with a plan by more than 0.01 mm.
pub fn verify(request: &Request, plan: &Plan) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, item) in request.items.iter().enumerate() {
        if plan.placements.iter().filter(|p| p.item == index).count() != item.quantity {
            faults.push(Fault::Count(index));
        }
    }
    let outlines: Vec<Placed> =
        plan.placements.iter().map(|p| Placed::new(clean(&placed_outline(request, p)))).collect();
    for (index, Placed { low, high, .. }) in outlines.iter().enumerate() {
        let over = [-low.0, -low.1, high.0 - plan.length, high.1 - request.width];
        let worst = over.into_iter().fold(f64::NEG_INFINITY, f64::max);
        if worst > TOLERANCE || !worst.is_finite() {
            faults.push(Fault::Outside(index, worst));
        }
    }
    let space = request.minimum_space;
    let shrunk: Vec<Placed> = outlines.iter().map(|outline| outline.drawn_in(TOLERANCE / 2.0)).collect();
    for (first, second) in close_pairs(&outlines, space) {
        let clear = if space > 0.0 {
            apart(&outlines[first], &outlines[second], space - TOLERANCE)
        } else {
            !overlap(&shrunk[first], &shrunk[second])
        };
        if !clear {
            faults.push(Fault::Overlap(first.min(second), first.max(second)));
        }
    }
    faults
}
