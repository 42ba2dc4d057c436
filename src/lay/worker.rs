//! One worker: it shortens the cloth, pushes the overlaps out, and keeps the best plan it found.

use super::collision::Collisions;
use super::depth::Depths;
use super::orientation::Orientations;
use super::press::{Press, Pressing};
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

const SAMPLES: Samples = Samples { lowest: 4, anywhere: 22, beside: 8, nearby: 10, kept: 3 };
const EXPLORING: Budget = Budget { passes: 60, strikes: 3, samples: SAMPLES };
const COMPRESSING: Budget = Budget { passes: 40, strikes: 3, samples: SAMPLES };
/// By how much the cloth is shortened while exploring, as a part of its length. The least is more than can often be had: it
/// changes the arrangement, and what then fails by little is tried on more cloth, see [`RELAXED`].
const SHRINK_FIRST: f32 = 0.02;
const SHRINK_LEAST: f32 = 0.003;
/// By how much while compressing.
const COMPRESS_FIRST: f32 = 0.0008;
const COMPRESS_LEAST: f32 = 0.00002;
/// By how much it is shortened with all pieces moved at once, at first and at last.
const PRESS_FIRST: f32 = 0.002;
const PRESS_LEAST: f32 = 0.00002;
const PRESSING: Pressing = Pressing { reach: 20.0, rounds: 8, sweeps: 300 };
/// A plan is pressed only once the cloth is shortened by no more than this: before, shortening it is quicker.
const PRESSED_FROM: f32 = 0.006;
/// By how much a plan must be shorter than the one before that comes of a failure, as a part of its length.
const RELAXED: f32 = 0.0001;
/// A plan found in fewer passes was easy to find: the next one may be shorter by more.
const EASY: u32 = 15;
/// How many pairs of large pieces change places after a failure.
const SWAPS: u32 = 3;

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
    finished: bool,
    press: Press,
    /// Evaluations after which nothing may be begun.
    last: u64,
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
            finished: false,
            press: Press::default(),
            last: u64::MAX,
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
            self.shrink();
        }
    }

    /// Works until so many more places have been evaluated, or `stop` says so. No more than `left` are left of all.
    pub fn work(&mut self, evaluations: u64, left: u64, phase: Phase, stop: &dyn Fn() -> bool) {
        self.last = self.state.evaluations.saturating_add(left);
        if phase == Phase::Compress && self.phase != Phase::Compress {
            self.phase = Phase::Compress;
            self.compress_by = COMPRESS_FIRST;
            self.best = self.pressed(self.best.clone(), stop);
            self.shrink();
        }
        let until = self.state.evaluations.saturating_add(evaluations);
        while self.state.evaluations < until && !self.finished && !stop() {
            match self.attempt.pass(&mut self.state, &mut self.random, &mut self.press) {
                Outcome::Going => {}
                Outcome::Clear if self.collisions.is_feasible(&self.state.layout) => {
                    self.succeeded(stop);
                }
                Outcome::Clear | Outcome::Stuck => self.failed_once(stop),
            }
        }
    }

    /// The layout as it is, on no more cloth than it takes.
    fn tight(&self) -> Layout {
        let mut layout = self.state.layout.clone();
        let ends = layout
            .placements
            .iter()
            .map(|&(orientation, x, _)| x + self.state.orientations.orientations[orientation].half.0);
        layout.length = ends.fold(0.0, f32::max);
        layout
    }

    /// A plan made as short as it gets with all pieces moved at once; they keep to their neighbours.
    fn pressed(&mut self, mut plan: Layout, stop: &dyn Fn() -> bool) -> Layout {
        let mut by = PRESS_FIRST;
        while by > PRESS_LEAST && self.state.evaluations < self.last && !stop() {
            let target = (plan.length * (1.0 - by)).max(self.floor);
            if target >= plan.length {
                break;
            }
            self.state.lay(self.scaled(&plan, target));
            let clear = self.press.part(&mut self.state, PRESSING);
            if clear && self.collisions.is_feasible(&self.state.layout) {
                plan = self.tight();
                by *= 1.5;
            } else {
                by *= 0.4;
            }
        }
        plan
    }

    /// A layout on cloth of another length, all pieces moved in proportion.
    fn scaled(&self, from: &Layout, length: f32) -> Layout {
        let share = length / from.length;
        let placements = from.placements.iter().enumerate();
        let placements = placements
            .map(|(piece, &(orientation, x, y))| self.nearest(piece, orientation, x * share, y, length));
        Layout { length, placements: placements.collect() }
    }

    fn succeeded(&mut self, stop: &dyn Fn() -> bool) {
        let plan = self.tight();
        let easy = self.attempt.passes < EASY;
        self.best = if easy || self.shrink_by > PRESSED_FROM { plan } else { self.pressed(plan, stop) };
        self.failed.clear();
        if self.phase == Phase::Explore {
            let factor = if easy { 1.25 } else { 0.8 };
            self.shrink_by = (self.shrink_by * factor).clamp(SHRINK_LEAST, SHRINK_FIRST);
        }
        self.shrink();
    }

    /// Whether what failed comes clear on hardly less cloth than the plan takes: the shorter cloth has drawn the pieces into
    /// another arrangement, and more need not come of it at once.
    fn is_clear_when_relaxed(&mut self) -> bool {
        let target = (self.best.length * (1.0 - RELAXED)).max(self.floor);
        if target >= self.best.length {
            return false;
        }
        self.state.lay(self.scaled(&self.attempt.least_layout, target));
        self.press.part(&mut self.state, PRESSING) && self.collisions.is_feasible(&self.state.layout)
    }

    fn failed_once(&mut self, stop: &dyn Fn() -> bool) {
        if self.phase == Phase::Explore && self.is_clear_when_relaxed() {
            self.best = self.pressed(self.tight(), stop);
            self.failed.clear();
            self.shrink();
            return;
        }
        match self.phase {
            Phase::Compress => {
                self.compress_by = (self.compress_by * 0.85).max(COMPRESS_LEAST);
                self.shrink();
            }
            Phase::Explore if self.shrink_by > SHRINK_LEAST * 1.5 => {
                self.shrink_by = (self.shrink_by * 0.5).max(SHRINK_LEAST);
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
