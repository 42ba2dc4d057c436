//! Shorter and shorter cloth: the search as a whole.
//!
//! Two islands search on their own, each with its own random stream; after equal amounts of work
//! they compare, and the one behind goes on from the better plan. What they do depends on the seed
//! and on counted work alone, so one thread or two give the same plan.

use super::board::Layout;
use super::collision::Collisions;
use super::depth::Depths;
use super::island::{Island, Phase};
use super::pose::Poses;
use super::rectangles::rectangle_layout;
use super::request::{Allowance, Effort, LayError, Placement, Plan, Progress, Request};
use super::start::{first_layout, row_layout};
use super::verify::verify;

/// How many islands search.
const ISLANDS: u64 = 2;
/// Looks of one island between two comparisons.
const LOOKS_BETWEEN: u64 = 150_000;
/// From this part of the allowance on, the best plan is pressed together and nothing new begun.
const PRESS_FROM: f64 = 0.7;

/// Where all pieces are rectangles, so many times the looks go beforehand into laying them as such:
/// each is far cheaper than one at an outline.
const FOR_RECTANGLES: u64 = 3;

/// Looks of all islands together, at an effort, for so many pieces.
fn looks_of(effort: Effort, pieces: usize) -> u64 {
    match effort {
        Effort::Quick => (50_000 * pieces as u64).clamp(600_000, 2_000_000),
        Effort::Normal => 20_000_000,
        Effort::Long => 200_000_000,
    }
}

/// Finds a plan.
///
/// `progress` hears of every shorter plan. The plan that comes back has been checked: nothing
/// overlaps and nothing lies off the cloth by more than 0.01 mm.
///
/// # Errors
/// When the request cannot be met, see [`LayError`].
pub fn search(request: &Request, progress: &mut dyn FnMut(Progress)) -> Result<Plan, LayError> {
    let poses = Poses::of(request)?;
    let depths = Depths::new(&poses, request.minimum_space);
    let total_area: f64 = poses.copies.iter().map(|&item| poses.area[item]).sum();
    let mut first = first_layout(&poses, &depths, request.minimum_space);
    let of_rectangles = match request.allowance {
        Allowance::Work(effort) => FOR_RECTANGLES * looks_of(effort, poses.copies.len()),
        Allowance::Until(_) => FOR_RECTANGLES * looks_of(Effort::Normal, 0),
    };
    let rectangles =
        rectangle_layout(&poses, request.width, request.minimum_space, request.seed, of_rectangles);
    if let Some(rectangles) = rectangles.filter(|rectangles| rectangles.length < first.length) {
        first = rectangles;
    }
    let collisions = Collisions::new(&poses, request.width, request.minimum_space);
    let tell = |layout: &Layout, spent: f64| {
        let length = f64::from(layout.length);
        Progress { length, usage: total_area / (length * request.width), spent }
    };
    progress(tell(&first, 0.0));
    let floor = least_length(&poses).max((total_area / request.width * (1.0 - 1e-6)) as f32);
    let mut islands: Vec<Island> = (0..ISLANDS)
        .map(|stream| Island::new(&poses, &depths, &collisions, request, stream, floor, first.clone()))
        .collect();
    let mut best = first.clone();
    loop {
        let looks: u64 = islands.iter().map(Island::looks).sum();
        let spent = match request.allowance {
            Allowance::Work(effort) => looks as f64 / looks_of(effort, poses.copies.len()) as f64,
            Allowance::Until(spent) => spent(),
        };
        if spent >= 1.0 || islands.iter().any(Island::finished) {
            break;
        }
        let left = match request.allowance {
            Allowance::Work(effort) => {
                looks_of(effort, poses.copies.len()).saturating_sub(looks) / ISLANDS + 1
            }
            Allowance::Until(_) => u64::MAX,
        };
        let phase = if spent < PRESS_FROM { Phase::Explore } else { Phase::Press };
        run(&mut islands, request, LOOKS_BETWEEN.min(left), phase);
        if let Some(leader) =
            islands.iter().map(|island| &island.best).min_by(|a, b| a.length.total_cmp(&b.length))
            && leader.length < best.length
        {
            best = leader.clone();
            progress(tell(&best, spent.min(1.0)));
        }
        for island in &mut islands {
            island.hear_of(&best);
        }
    }
    let looks = islands.iter().map(Island::looks).sum();
    // The last word is an exact check; a plan that fails it gives way to a simpler one.
    let candidates = [collisions.compact(&best), best, first, row_layout(&poses, request.minimum_space)];
    let mut plan = Plan { length: 0.0, usage: 0.0, placements: Vec::new(), looks };
    for layout in &candidates {
        plan = written_out(request, &poses, layout, total_area, looks);
        if verify(request, &plan).is_empty() {
            break;
        }
    }
    Ok(plan)
}

/// Lets every island work, on as many threads as there may be.
fn run(islands: &mut [Island], request: &Request, looks: u64, phase: Phase) {
    let stop = || match request.allowance {
        Allowance::Work(_) => false,
        Allowance::Until(spent) => spent() >= 1.0,
    };
    if request.threads < 2 {
        for island in islands {
            island.work(looks, phase, &stop);
        }
        return;
    }
    std::thread::scope(|scope| {
        for island in islands {
            scope.spawn(|| island.work(looks, phase, &stop));
        }
    });
}

/// No plan can be shorter than this: every item in its shortest pose.
fn least_length(poses: &Poses) -> f32 {
    poses
        .copies
        .iter()
        .map(|&item| {
            let each = poses.of_item[item].iter().map(|&pose| poses.poses[pose].least_length());
            each.fold(f32::INFINITY, f32::min)
        })
        .fold(0.0, f32::max)
}

/// A layout as the caller wants it: in full precision, in the order of the request.
fn written_out(request: &Request, poses: &Poses, layout: &Layout, area: f64, looks: u64) -> Plan {
    let mut copies = vec![0usize; request.items.len()];
    let mut length = 0.0f64;
    let placements = layout
        .lies
        .iter()
        .map(|&(pose, x, y)| {
            let pose = &poses.poses[pose];
            let half = pose.half_exact;
            // f32 may have rounded a place over the edge of the cloth: the edge is exact.
            let x = f64::from(x).max(half.0);
            let room = (half.1, (request.width - half.1).max(half.1));
            let y = f64::from(y).clamp(room.0, room.1);
            length = length.max(x + half.0);
            let copy = copies[pose.item];
            copies[pose.item] += 1;
            Placement { item: pose.item, copy, turn: pose.turn, x: x - pose.centre.0, y: y - pose.centre.1 }
        })
        .collect();
    Plan { length, usage: area / (length * request.width), placements, looks }
}
