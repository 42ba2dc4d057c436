//! One searcher: it shortens the cloth, pushes the overlaps out, and keeps the best plan it found.

use super::board::{Board, Layout};
use super::collision::Collisions;
use super::depth::Depths;
use super::pose::Poses;
use super::random::Random;
use super::relocate::Care;
use super::request::Request;
use super::separate::{Attempt, Outcome, Patience};

/// What the search is about at the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// New arrangements.
    Explore,
    /// The best arrangement, pressed together.
    Press,
}

const CARE: Care = Care { anywhere: 22, beside: 8, nearby: 10, kept: 3 };
const EXPLORING: Patience = Patience { passes: 60, strikes: 3, care: CARE };
const PRESSING: Patience = Patience { passes: 40, strikes: 3, care: CARE };
/// By how much the cloth is shortened while exploring, as a part of its length.
const SHORTEN_FIRST: f32 = 0.02;
const SHORTEN_LEAST: f32 = 0.001;
/// By how much while pressing.
const PRESS_FIRST: f32 = 0.0008;
const PRESS_LEAST: f32 = 0.00002;
/// Where a short spell of pressing between explorations ends.
const PRESS_ONCE_LEAST: f32 = 0.0003;
/// How many pairs of large pieces change places after a failure.
const SWAPS: u32 = 3;
/// How many failures while exploring before the best plan is pressed once.
const FAILURES: u32 = 12;

/// One searcher.
pub struct Island<'a> {
    board: Board<'a>,
    random: Random,
    collisions: &'a Collisions<'a>,
    /// The shortest plan it knows.
    pub best: Layout,
    floor: f32,
    phase: Phase,
    attempt: Attempt,
    shorten: f32,
    press: f32,
    failed: Vec<(f32, Layout)>,
    failures: u32,
    pressing_once: bool,
    finished: bool,
}

impl<'a> Island<'a> {
    /// A searcher that starts from a plan.
    pub fn new(
        poses: &'a Poses,
        depths: &'a Depths<'a>,
        collisions: &'a Collisions<'a>,
        request: &Request,
        stream: u64,
        floor: f32,
        first: Layout,
    ) -> Self {
        let mut board = Board::new(poses, depths, request.minimum_space, first.clone());
        let attempt = Attempt::new(&mut board, EXPLORING);
        let mut island = Island {
            board,
            random: Random::new(request.seed, stream),
            collisions,
            best: first,
            floor,
            phase: Phase::Explore,
            attempt,
            shorten: SHORTEN_FIRST,
            press: PRESS_FIRST,
            failed: Vec::new(),
            failures: 0,
            pressing_once: false,
            finished: false,
        };
        island.set_out();
        island
    }

    /// Places looked at so far.
    pub fn looks(&self) -> u64 {
        self.board.looks
    }

    /// Whether nothing shorter can exist.
    pub fn finished(&self) -> bool {
        self.finished
    }

    /// Takes over a better plan from elsewhere.
    pub fn hear_of(&mut self, best: &Layout) {
        if best.length < self.best.length * 0.9998 {
            self.best = best.clone();
            self.failed.clear();
            self.failures = 0;
            self.set_out();
        }
    }

    /// Works until so many more places have been looked at, or `stop` says so.
    pub fn work(&mut self, looks: u64, phase: Phase, stop: &dyn Fn() -> bool) {
        if phase == Phase::Press && self.phase != Phase::Press {
            self.phase = Phase::Press;
            self.pressing_once = false;
            self.press = PRESS_FIRST;
            self.set_out();
        }
        let until = self.board.looks.saturating_add(looks);
        while self.board.looks < until && !self.finished && !stop() {
            match self.attempt.pass(&mut self.board, &mut self.random) {
                Outcome::Going => {}
                Outcome::Clear if self.collisions.is_feasible(&self.board.layout) => self.succeeded(),
                Outcome::Clear | Outcome::Stuck => self.gave_up(),
            }
        }
    }

    fn succeeded(&mut self) {
        self.best = self.board.layout.clone();
        let ends = self.best.lies.iter().map(|&(pose, x, _)| x + self.board.poses.poses[pose].half.0);
        self.best.length = ends.fold(0.0, f32::max);
        self.failed.clear();
        self.failures = 0;
        if self.phase == Phase::Explore {
            let factor = if self.attempt.passes < 15 { 1.25 } else { 0.8 };
            self.shorten = (self.shorten * factor).clamp(SHORTEN_LEAST, SHORTEN_FIRST);
        }
        self.set_out();
    }

    fn gave_up(&mut self) {
        self.failures += 1;
        match self.phase {
            Phase::Press => {
                self.press = (self.press * 0.85).max(PRESS_LEAST);
                if self.pressing_once && self.press <= PRESS_ONCE_LEAST {
                    self.pressing_once = false;
                    self.phase = Phase::Explore;
                    self.failures = 0;
                }
                self.set_out();
            }
            Phase::Explore if self.shorten > SHORTEN_LEAST * 1.5 => {
                self.shorten = (self.shorten * 0.5).max(SHORTEN_LEAST);
                self.set_out();
            }
            Phase::Explore if self.failures > FAILURES => {
                self.phase = Phase::Press;
                self.pressing_once = true;
                self.press = PRESS_FIRST;
                self.set_out();
            }
            Phase::Explore => self.disrupt(),
        }
    }

    /// Starts a new attempt from the best plan on a shorter cloth.
    fn set_out(&mut self) {
        let (part, patience) = match self.phase {
            Phase::Explore => (self.shorten, EXPLORING),
            Phase::Press => (self.press, PRESSING),
        };
        let target = (self.best.length * (1.0 - part)).max(self.floor);
        if target >= self.best.length {
            self.finished = true;
            return;
        }
        let by = self.best.length - target;
        let cut = self.random.between(0.0, self.best.length);
        let mut layout = Layout { length: target, lies: self.best.lies.clone() };
        for (piece, (pose, x, y)) in layout.lies.iter_mut().enumerate() {
            let moved = if *x > cut { *x - by } else { *x };
            (*pose, *x, *y) = self.nearest(piece, *pose, moved, *y, target);
        }
        self.board.lay(layout);
        self.attempt = Attempt::new(&mut self.board, patience);
    }

    /// The allowed spot nearest to a wish, in the pose wished for or in another where that does
    /// not fit on the cloth.
    fn nearest(&self, piece: usize, pose: usize, x: f32, y: f32, length: f32) -> (usize, f32, f32) {
        let poses = self.board.poses;
        let choices = std::iter::once(&pose).chain(&poses.of_item[poses.copies[piece]]);
        let mut spots =
            choices.filter_map(|&p| poses.poses[p].place_near((x, y), length).map(|(x, y)| (p, x, y)));
        spots.next().unwrap_or((pose, x, y))
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
        let poses = self.board.poses;
        let mut by_size: Vec<usize> = (0..poses.copies.len()).collect();
        let area = |piece: usize| poses.area[poses.copies[piece]];
        by_size.sort_by(|&a, &b| area(b).total_cmp(&area(a)).then(a.cmp(&b)));
        let large = &by_size[..by_size.len().div_ceil(2)];
        let mut swapped = 0;
        for _ in 0..40 {
            let (a, b) = (large[self.random.below(large.len())], large[self.random.below(large.len())]);
            if poses.copies[a] != poses.copies[b] {
                let (first, second) = (layout.lies[a], layout.lies[b]);
                layout.lies[a] = self.nearest(a, first.0, second.1, second.2, layout.length);
                layout.lies[b] = self.nearest(b, second.0, first.1, first.2, layout.length);
                swapped += 1;
                if swapped == SWAPS {
                    break;
                }
            }
        }
        self.board.lay(layout);
        self.attempt = Attempt::new(&mut self.board, EXPLORING);
    }
}
