//! One worker: it shortens the cloth, pushes the overlaps out, and keeps the best plan it found.

use super::collision::Collisions;
use super::depth::Depths;
use super::orientation::Orientations;
use super::random::Random;
use super::request::Request;
use super::sample::Samples;
use super::separate::{Attempt, Budget, Outcome};
use super::state::{Layout, State};

/// What the search is about at the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// New arrangements.
    Explore,
    /// The best arrangement, compressed.
    Compress,
}

const SAMPLES: Samples = Samples { anywhere: 22, beside: 8, nearby: 10, kept: 3 };
const EXPLORING: Budget = Budget { passes: 60, strikes: 3, samples: SAMPLES };
const COMPRESSING: Budget = Budget { passes: 40, strikes: 3, samples: SAMPLES };
/// By how much the cloth is shortened while exploring, as a part of its length.
const SHRINK_FIRST: f32 = 0.02;
const SHRINK_LEAST: f32 = 0.001;
/// By how much while compressing.
const COMPRESS_FIRST: f32 = 0.0008;
const COMPRESS_LEAST: f32 = 0.00002;
/// Where a short spell of compressing between explorations ends.
const COMPRESS_ONCE_LEAST: f32 = 0.0003;
/// How many pairs of large pieces change places after a failure.
const SWAPS: u32 = 3;
/// How many failures while exploring before the best plan is compressed once.
const FAILURES: u32 = 12;

/// One worker of the search.
pub struct Worker<'a> {
    state: State<'a>,
    random: Random,
    collisions: &'a Collisions<'a>,
    /// The shortest plan it knows.
    pub best: Layout,
    floor: f32,
    phase: Phase,
    attempt: Attempt,
    shrink_by: f32,
    compress_by: f32,
    failed: Vec<(f32, Layout)>,
    failures: u32,
    compressing_once: bool,
    finished: bool,
}

impl<'a> Worker<'a> {
    /// A worker that starts from a plan.
    pub fn new(
        orientations: &'a Orientations,
        depths: &'a Depths<'a>,
        collisions: &'a Collisions<'a>,
        request: &Request,
        stream: u64,
        floor: f32,
        first: Layout,
    ) -> Self {
        let mut state = State::new(orientations, depths, request.minimum_space, first.clone());
        let attempt = Attempt::new(&mut state, EXPLORING);
        let mut worker = Worker {
            state,
            random: Random::new(request.seed, stream),
            collisions,
            best: first,
            floor,
            phase: Phase::Explore,
            attempt,
            shrink_by: SHRINK_FIRST,
            compress_by: COMPRESS_FIRST,
            failed: Vec::new(),
            failures: 0,
            compressing_once: false,
            finished: false,
        };
        worker.shrink();
        worker
    }

    /// Places evaluated so far.
    pub fn evaluations(&self) -> u64 {
        self.state.evaluations
    }

    /// Whether nothing shorter can exist.
    pub fn finished(&self) -> bool {
        self.finished
    }

    /// Takes over a better plan from elsewhere.
    pub fn adopt(&mut self, best: &Layout) {
        if best.length < self.best.length * 0.9998 {
            self.best = best.clone();
            self.failed.clear();
            self.failures = 0;
            self.shrink();
        }
    }

    /// Works until so many more places have been evaluated, or `stop` says so.
    pub fn work(&mut self, evaluations: u64, phase: Phase, stop: &dyn Fn() -> bool) {
        if phase == Phase::Compress && self.phase != Phase::Compress {
            self.phase = Phase::Compress;
            self.compressing_once = false;
            self.compress_by = COMPRESS_FIRST;
            self.shrink();
        }
        let until = self.state.evaluations.saturating_add(evaluations);
        while self.state.evaluations < until && !self.finished && !stop() {
            match self.attempt.pass(&mut self.state, &mut self.random) {
                Outcome::Going => {}
                Outcome::Clear if self.collisions.is_feasible(&self.state.layout) => self.succeeded(),
                Outcome::Clear | Outcome::Stuck => self.failed_once(),
            }
        }
    }

    fn succeeded(&mut self) {
        self.best = self.state.layout.clone();
        let ends = self
            .best
            .placements
            .iter()
            .map(|&(orientation, x, _)| x + self.state.orientations.orientations[orientation].half.0);
        self.best.length = ends.fold(0.0, f32::max);
        self.failed.clear();
        self.failures = 0;
        if self.phase == Phase::Explore {
            let factor = if self.attempt.passes < 15 { 1.25 } else { 0.8 };
            self.shrink_by = (self.shrink_by * factor).clamp(SHRINK_LEAST, SHRINK_FIRST);
        }
        self.shrink();
    }

    fn failed_once(&mut self) {
        self.failures += 1;
        match self.phase {
            Phase::Compress => {
                self.compress_by = (self.compress_by * 0.85).max(COMPRESS_LEAST);
                if self.compressing_once && self.compress_by <= COMPRESS_ONCE_LEAST {
                    self.compressing_once = false;
                    self.phase = Phase::Explore;
                    self.failures = 0;
                }
                self.shrink();
            }
            Phase::Explore if self.shrink_by > SHRINK_LEAST * 1.5 => {
                self.shrink_by = (self.shrink_by * 0.5).max(SHRINK_LEAST);
                self.shrink();
            }
            Phase::Explore if self.failures > FAILURES => {
                self.phase = Phase::Compress;
                self.compressing_once = true;
                self.compress_by = COMPRESS_FIRST;
                self.shrink();
            }
            Phase::Explore => self.disrupt(),
        }
    }

    /// Starts a new attempt from the best plan on a shorter cloth.
    fn shrink(&mut self) {
        let (part, budget) = match self.phase {
            Phase::Explore => (self.shrink_by, EXPLORING),
            Phase::Compress => (self.compress_by, COMPRESSING),
        };
        let target = (self.best.length * (1.0 - part)).max(self.floor);
        if target >= self.best.length {
            self.finished = true;
            return;
        }
        let by = self.best.length - target;
        let cut = self.random.between(0.0, self.best.length);
        let mut layout = Layout { length: target, placements: self.best.placements.clone() };
        for (piece, (orientation, x, y)) in layout.placements.iter_mut().enumerate() {
            let moved = if *x > cut { *x - by } else { *x };
            (*orientation, *x, *y) = self.nearest(piece, *orientation, moved, *y, target);
        }
        self.state.lay(layout);
        self.attempt = Attempt::new(&mut self.state, budget);
    }

    /// The allowed place nearest to a wish, in the orientation wished for or in another where that does
    /// not fit on the cloth.
    fn nearest(&self, piece: usize, orientation: usize, x: f32, y: f32, length: f32) -> (usize, f32, f32) {
        let orientations = self.state.orientations;
        let choices = std::iter::once(&orientation).chain(&orientations.of_item[orientations.copies[piece]]);
        let mut candidates = choices
            .filter_map(|&p| orientations.orientations[p].place_near((x, y), length).map(|(x, y)| (p, x, y)));
        candidates.next().unwrap_or((orientation, x, y))
    }

    /// Starts again from one of the failed layouts, the least overlapping the likeliest, with a
    /// few large pieces changing places.
    fn disrupt(&mut self) {
        let entry = (self.attempt.least(), self.attempt.least_layout.clone());
        let at = self.failed.partition_point(|(total, _)| *total < entry.0);
        self.failed.insert(at, entry);
        self.failed.truncate(12);
        let pick = (self.random.bell().abs() * 0.25 * self.failed.len() as f32) as usize;
        let mut layout = self.failed[pick.min(self.failed.len() - 1)].1.clone();
        let orientations = self.state.orientations;
        let mut by_size: Vec<usize> = (0..orientations.copies.len()).collect();
        let area = |piece: usize| orientations.area[orientations.copies[piece]];
        by_size.sort_by(|&a, &b| area(b).total_cmp(&area(a)).then(a.cmp(&b)));
        let large = &by_size[..by_size.len().div_ceil(2)];
        let mut swapped = 0;
        for _ in 0..40 {
            let (a, b) = (large[self.random.below(large.len())], large[self.random.below(large.len())]);
            if orientations.copies[a] != orientations.copies[b] {
                let (first, second) = (layout.placements[a], layout.placements[b]);
                layout.placements[a] = self.nearest(a, first.0, second.1, second.2, layout.length);
                layout.placements[b] = self.nearest(b, second.0, first.1, first.2, layout.length);
                swapped += 1;
                if swapped == SWAPS {
                    break;
                }
            }
        }
        self.state.lay(layout);
        self.attempt = Attempt::new(&mut self.state, EXPLORING);
    }
}
