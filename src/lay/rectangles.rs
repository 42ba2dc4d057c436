//! Where all pieces are rectangles (bands, cuffs, straps), they are put together as such: the
//! foremost gap is filled with the first piece in an order that fits it (the best-fit rule of
//! Burke, Kendall and Whitwell 2004, with the order searched for by simulated annealing, Kirkpatrick
//! and others 1983). Every packing without waste is that of some order.

use super::orientation::Orientations;
use super::random::Random;
use super::state::Layout;

/// More pieces than this are left to the general search.
const MOST: usize = 200;
/// After so many trials the clock is asked again.
const TRIALS_BETWEEN: u64 = 64;
/// How often the annealing begins anew; the best is kept.
const RUNS: u64 = 2;
/// The annealing begins and ends with steps back of this share of the length.
const WARM: f64 = 0.02;
const COLD: f64 = 2e-4;
/// How much cloth left out counts beside length: among equally long lays the denser one leads on.
const WASTE_COUNTS: f64 = 0.5;
/// What is over an edge by less, in millimetres, fits: rounding.
const HAIR: f64 = 1e-6;

/// A lay of rectangles, with about so many places looked at, or fewer where `spent` tells that all of the time for it is
/// spent (1.0 or more); none where some piece is no rectangle, or must lie at an edge of the cloth or on a repeat.
pub fn rectangle_layout(
    orientations: &Orientations,
    width: f64,
    space: f64,
    seed: u64,
    evaluations: u64,
    spent: &dyn Fn() -> f64,
) -> Option<Layout> {
    let count = orientations.copies.len();
    if !(2..=MOST).contains(&count)
        || !orientations.orientations.iter().all(|orientation| is_free_rectangle(orientations, orientation))
    {
        return None;
    }
    let packer = Packer { orientations, width: width + space, space };
    let mut best: Option<(f64, Vec<Choice>)> = None;
    let trials = (evaluations / RUNS / count as u64).max(1);
    for run in 0..RUNS {
        let spent = || spent() * RUNS as f64 - run as f64;
        let (cost, order) = packer.anneal(&mut Random::new(seed, 1000 + run), trials, &spent);
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, order));
        }
    }
    let (_, order) = best?;
    let mut placements = vec![(0usize, 0.0f32, 0.0f32); count];
    let mut skyline = Vec::new();
    let packed = packer.pack(&order, &mut skyline, &mut |choice, x, y| {
        let half = orientations.orientations[choice.orientation].half_exact;
        placements[choice.piece] = (choice.orientation, (x + half.0) as f32, (y + half.1) as f32);
    });
    Some(Layout { length: packed.length as f32, placements })
}

fn is_free_rectangle(orientations: &Orientations, orientation: &super::orientation::Orientation) -> bool {
    let bounds = 4.0 * orientation.half_exact.0 * orientation.half_exact.1;
    let fills = (orientations.area[orientation.item] - bounds).abs() <= 1e-6 * bounds;
    fills
        && orientation.turn.against.is_none()
        && orientation.lattice_x.step <= 0.0
        && orientation.lattice_y.step <= 0.0
}

/// A piece and how it lies.
#[derive(Clone, Copy)]
struct Choice {
    piece: usize,
    orientation: usize,
}

/// What an order comes to.
struct Packed {
    length: f64,
    cost: f64,
}

struct Packer<'a> {
    orientations: &'a Orientations,
    /// Of the cloth, and the space that every piece takes with it.
    width: f64,
    space: f64,
}

impl Packer<'_> {
    fn sides(&self, choice: Choice) -> (f64, f64) {
        let half = self.orientations.orientations[choice.orientation].half_exact;
        (2.0 * half.0 + self.space, 2.0 * half.1 + self.space)
    }

    /// The best order found in so many trials, or until all of its time is spent, and what it costs.
    fn anneal(&self, random: &mut Random, trials: u64, spent: &dyn Fn() -> f64) -> (f64, Vec<Choice>) {
        let choices = self.orientations.copies.iter().enumerate();
        let mut order: Vec<Choice> = choices
            .map(|(piece, &item)| Choice { piece, orientation: self.orientations.of_item[item][0] })
            .collect();
        random.shuffle(&mut order);
        let mut skyline = Vec::new();
        let mut cost = self.pack(&order, &mut skyline, &mut |_, _, _| {}).cost;
        let (mut best, mut best_order) = (cost, order.clone());
        let (warm, cold) = (WARM * cost, COLD * cost);
        let mut of_time = 0.0;
        for trial in 0..trials {
            if trial.is_multiple_of(TRIALS_BETWEEN) {
                of_time = spent();
            }
            if of_time >= 1.0 {
                break;
            }
            // It cools as its work is done, or its time passes.
            let share = f64::max(trial as f64 / trials as f64, of_time);
            let heat = warm * libm::pow(cold / warm, share);
            let before = order.clone();
            self.change(&mut order, random);
            let tried = self.pack(&order, &mut skyline, &mut |_, _, _| {}).cost;
            if tried <= cost || f64::from(random.unit()) < libm::exp((cost - tried) / heat) {
                cost = tried;
                if cost < best {
                    (best, best_order) = (cost, order.clone());
                }
            } else {
                order = before;
            }
        }
        (best, best_order)
    }

    /// Two pieces change places, one is taken elsewhere, or one is turned.
    fn change(&self, order: &mut [Choice], random: &mut Random) {
        let (one, other) = (random.below(order.len()), random.below(order.len()));
        match random.below(4) {
            0 => {
                let ways = &self.orientations.of_item[self.orientations.copies[order[one].piece]];
                order[one].orientation = ways[random.below(ways.len())];
                order.swap(one, other);
            }
            1 if one < other => order[one..=other].rotate_left(1),
            1 => order[other..=one].rotate_right(1),
            _ => order.swap(one, other),
        }
    }

    /// Fills the foremost gap with the first piece in the order that fits, again and again.
    fn pack(
        &self,
        order: &[Choice],
        skyline: &mut Vec<(f64, f64)>,
        lay: &mut dyn FnMut(Choice, f64, f64),
    ) -> Packed {
        // Where each stretch of the front begins across the cloth, and how far along it is.
        skyline.clear();
        skyline.push((0.0, 0.0));
        let mut left: Vec<Choice> = order.to_vec();
        let (mut length, mut waste) = (0.0f64, 0.0);
        while !left.is_empty() {
            let mut at = 0;
            for (other, stretch) in skyline.iter().enumerate() {
                if stretch.1 < skyline[at].1 {
                    at = other;
                }
            }
            let (from, x) = skyline[at];
            let to = skyline.get(at + 1).map_or(self.width, |next| next.0);
            let fitting = left.iter().position(|&choice| self.sides(choice).1 <= to - from + HAIR);
            let Some(fitting) = fitting else {
                // Nothing fits: the gap is given up, as far as its nearer neighbour.
                let before = at.checked_sub(1).map_or(f64::INFINITY, |before| skyline[before].1);
                let after = skyline.get(at + 1).map_or(f64::INFINITY, |after| after.1);
                let raised = before.min(after);
                if !raised.is_finite() {
                    // Wider than the cloth by rounding: it lies there nevertheless.
                    let choice = left.remove(0);
                    lay(choice, x, from);
                    skyline[at].1 = x + self.sides(choice).0;
                    length = length.max(skyline[at].1);
                    continue;
                }
                waste += (raised - x) * (to - from);
                skyline[at].1 = raised;
                if after <= raised {
                    skyline.remove(at + 1);
                }
                if before <= raised {
                    skyline.remove(at);
                }
                continue;
            };
            let choice = left.remove(fitting);
            let (long, wide) = self.sides(choice);
            lay(choice, x, from);
            let end = x + long;
            length = length.max(end);
            if to - from - wide > HAIR {
                skyline.insert(at + 1, (from + wide, x));
            }
            skyline[at].1 = end;
            if at > 0 && (skyline[at - 1].1 - end).abs() <= HAIR {
                skyline.remove(at);
            }
        }
        Packed { length: length - self.space, cost: length + WASTE_COUNTS * waste / self.width }
    }
}
