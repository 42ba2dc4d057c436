//! Shorter and shorter cloth: the search as a whole.
//!
//! Two workers search on their own, each with its own random stream; after equal amounts of work
//! they compare, and the one behind goes on from the better plan. What they do depends on the seed
//! and on counted work alone, so one thread or two give the same plan.

use super::collision::Collisions;
use super::construct::{first_layout, row_layout};
use super::depth::Depths;
use super::orientation::Orientations;
use super::rectangles::rectangle_layout;
use super::request::{Allowance, Effort, LayError, Placement, Plan, Progress, Request};
use super::state::Layout;
use super::verify::verify;
use super::worker::{Phase, Worker};

/// How many workers search.
const WORKERS: u64 = 2;
/// Evaluations of one worker between two comparisons.
const EVALUATIONS_BETWEEN: u64 = 150_000;
/// From this part of the allowance on, the best plan is compressed and nothing new begun.
const COMPRESS_FROM: f64 = 0.9;

/// So many evaluations must be allowed for each two orientations for depths on grids to pay for their making, in a lay of
/// one piece; of many pieces each takes a smaller part of the cloth and of the grid.
const EVALUATIONS_FOR_GRIDS: u64 = 10_000;

/// Where all pieces are rectangles, so many times the evaluations go beforehand into laying them as
/// such: each is far cheaper than one at an outline.
const FOR_RECTANGLES: u64 = 3;

/// Of an allowance of time they may take this part.
const RECTANGLES_UNTIL: f64 = 0.3;

/// Evaluations of all workers together, at an effort, for so many pieces.
fn evaluations_of(effort: Effort, pieces: usize) -> u64 {
    match effort {
        Effort::Brief => evaluations_of(Effort::Quick, pieces) / 5,
        Effort::Quick => (50_000 * pieces as u64).clamp(600_000, 2_000_000),
        Effort::Normal => 20_000_000,
        Effort::Long => 200_000_000,
    }
}

/// Whether there is so much to search that depths on grids pay for their making.
fn is_worth_grids(allowance: Allowance, orientations: &Orientations) -> bool {
    let (ways, pieces) = (orientations.orientations.len() as u64, orientations.copies.len() as u64);
    match allowance {
        Allowance::Work(effort) => {
            evaluations_of(effort, orientations.copies.len()) >= EVALUATIONS_FOR_GRIDS * ways * ways / pieces
        }
        Allowance::Until(_) => true,
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
    let found = searching(request, |mut search| {
        progress(search.told());
        search.work(1.0, progress);
        search.plan()
    });
    found?
}

/// A search that has begun.
pub(super) struct Search<'a> {
    request: &'a Request<'a>,
    orientations: &'a Orientations,
    collisions: &'a Collisions<'a>,
    workers: Vec<Worker<'a>>,
    first: Layout,
    best: Layout,
    total_area: f64,
}

/// Begins a search and does something with it. What it looks things up in lives as long.
pub(super) fn searching<R>(request: &Request, then: impl FnOnce(Search) -> R) -> Result<R, LayError> {
    let orientations = Orientations::of(request)?;
    let mut depths = Depths::new(&orientations, request.minimum_space);
    if is_worth_grids(request.allowance, &orientations) {
        depths = depths.with_grids();
    }
    let total_area: f64 = orientations.copies.iter().map(|&item| orientations.area[item]).sum();
    let mut first = first_layout(&orientations, &depths, request.minimum_space);
    let of_rectangles = match request.allowance {
        Allowance::Work(effort) => FOR_RECTANGLES * evaluations_of(effort, orientations.copies.len()),
        Allowance::Until(_) => FOR_RECTANGLES * evaluations_of(Effort::Normal, 0),
    };
    // Of what is left of the time as this search begins.
    let begun = match request.allowance {
        Allowance::Work(_) => 0.0,
        Allowance::Until(spent) => spent().min(1.0),
    };
    let spent_on_rectangles = || match request.allowance {
        Allowance::Work(_) => 0.0,
        Allowance::Until(_) if begun >= 1.0 => 1.0,
        Allowance::Until(spent) => (spent() - begun) / ((1.0 - begun) * RECTANGLES_UNTIL),
    };
    let rectangles = rectangle_layout(
        &orientations,
        request.width,
        request.minimum_space,
        request.seed,
        of_rectangles,
        &spent_on_rectangles,
    );
    if let Some(rectangles) = rectangles.filter(|rectangles| rectangles.length < first.length) {
        first = rectangles;
    }
    let collisions = Collisions::new(&orientations, request.width, request.minimum_space);
    let floor = least_length(&orientations).max((total_area / request.width * (1.0 - 1e-6)) as f32);
    let workers = (0..WORKERS)
        .map(|stream| Worker::new(&orientations, &depths, &collisions, request, stream, floor, first.clone()))
        .collect();
    let best = first.clone();
    Ok(then(Search {
        request,
        orientations: &orientations,
        collisions: &collisions,
        workers,
        first,
        best,
        total_area,
    }))
}

impl Search<'_> {
    fn evaluations(&self) -> u64 {
        self.workers.iter().map(Worker::evaluations).sum()
    }

    /// How much of the allowance is spent: 1 for all of it.
    fn spent(&self) -> f64 {
        match self.request.allowance {
            Allowance::Work(effort) => {
                self.evaluations() as f64 / evaluations_of(effort, self.orientations.copies.len()) as f64
            }
            Allowance::Until(spent) => spent(),
        }
    }

    /// How it stands.
    pub(super) fn told(&self) -> Progress {
        let length = f64::from(self.best.length);
        let usage = self.total_area / (length * self.request.width);
        Progress { length, usage, spent: self.spent().min(1.0) }
    }

    /// Searches until so much of the allowance is spent, in whole rounds: whoever stops on the way and goes on finds what
    /// whoever never stops does.
    pub(super) fn work(&mut self, until: f64, progress: &mut dyn FnMut(Progress)) {
        loop {
            let spent = self.spent();
            if spent >= until || self.workers.iter().any(Worker::finished) {
                return;
            }
            let left = match self.request.allowance {
                Allowance::Work(effort) => {
                    let all = evaluations_of(effort, self.orientations.copies.len());
                    all.saturating_sub(self.evaluations()) / WORKERS + 1
                }
                Allowance::Until(_) => u64::MAX,
            };
            let phase = if spent < COMPRESS_FROM { Phase::Explore } else { Phase::Compress };
            run(&mut self.workers, self.request, left, phase);
            let plans = self.workers.iter().map(|worker| &worker.best);
            if let Some(leader) = plans.min_by(|a, b| a.length.total_cmp(&b.length))
                && leader.length < self.best.length
            {
                self.best = leader.clone();
                progress(Progress { spent: spent.min(1.0), ..self.told() });
            }
            for worker in &mut self.workers {
                worker.adopt(&self.best);
            }
        }
    }

    /// The plan that was found.
    ///
    /// # Errors
    /// [`LayError::Unsound`].
    pub(super) fn plan(self) -> Result<Plan, LayError> {
        let (request, orientations, evaluations) = (self.request, self.orientations, self.evaluations());
        let compact = self.collisions.compact(&self.best);
        // The last word is an exact check; a plan that fails it gives way to a simpler one.
        let candidates = [compact, self.best, self.first, row_layout(orientations, request.minimum_space)];
        let mut plans = candidates
            .iter()
            .map(|layout| written_out(request, orientations, layout, self.total_area, evaluations));
        plans.find(|plan| verify(request, plan).is_empty()).ok_or(LayError::Unsound)
    }
}

/// Lets every worker work until the next comparison, or until nothing is left, on as many threads as there may be.
fn run(workers: &mut [Worker], request: &Request, left: u64, phase: Phase) {
    let evaluations = EVALUATIONS_BETWEEN.min(left);
    let stop = || match request.allowance {
        Allowance::Work(_) => false,
        Allowance::Until(spent) => spent() >= 1.0,
    };
    if request.threads < 2 {
        for worker in workers {
            worker.work(evaluations, left, phase, &stop);
        }
        return;
    }
    std::thread::scope(|scope| {
        for worker in workers {
            scope.spawn(|| worker.work(evaluations, left, phase, &stop));
        }
    });
}

/// No plan can be shorter than this: every item in its shortest orientation.
fn least_length(orientations: &Orientations) -> f32 {
    orientations
        .copies
        .iter()
        .map(|&item| {
            let each = orientations.of_item[item]
                .iter()
                .map(|&orientation| orientations.orientations[orientation].least_length());
            each.fold(f32::INFINITY, f32::min)
        })
        .fold(0.0, f32::max)
}

/// A layout as the caller wants it: in full precision, in the order of the request.
fn written_out(
    request: &Request,
    orientations: &Orientations,
    layout: &Layout,
    area: f64,
    evaluations: u64,
) -> Plan {
    let mut copies = vec![0usize; request.items.len()];
    let mut length = 0.0f64;
    let placements = layout
        .placements
        .iter()
        .map(|&(orientation, x, y)| {
            let orientation = &orientations.orientations[orientation];
            let half = orientation.half_exact;
            // f32 may have rounded a place over the edge of the cloth: the edge is exact.
            let x = f64::from(x).max(half.0);
            let room = (half.1, (request.width - half.1).max(half.1));
            let y = f64::from(y).clamp(room.0, room.1);
            length = length.max(x + half.0);
            let copy = copies[orientation.item];
            copies[orientation.item] += 1;
            Placement {
                item: orientation.item,
                copy,
                turn: orientation.turn,
                x: x - orientation.centre.0,
                y: y - orientation.centre.1,
            }
        })
        .collect();
    Plan { length, usage: area / (length * request.width), placements, evaluations }
}
