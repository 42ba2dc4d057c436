//! `seam/back-to-front`: a sleeve that differs in front and back, and seems to be set in the wrong way
//! round.
//!
//! Right sides together a left sleeve goes into the left armhole, or else the right one does, back to
//! front: cloth allows both. Which is meant shows in where the crown comes to lie, and in the names of
//! the corners.

use super::named_after;
use super::runs::{corner_of, drawn, is_same_from_both_ends, point_name};
use super::sides::corner;
use crate::check::surface::opens_behind;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, Seam};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::CornerName;
use crate::sewing::{PartId, SeamEnd, SewnPly, SewnRun, SewnSeam, seam_edges};
use crate::shape::Point;
use std::cell::{LazyCell, OnceCell};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_BACK_TO_FRONT], run: Run::PerSize(run) };

/// A crown that lies nearer to the joint of its armhole by more than this the other way round, in
/// millimetres, shows that this is the way: sleeves are commonly drawn with it within 1 cm.
const NEARER: f64 = 12.0;
/// A cap rises over its ends by more than this share of the way between them; less has no crown.
const RISES: f64 = 0.1;
/// An edge that rises or falls by at least this share of the way between its ends is upright.
const UPRIGHT: f64 = 0.4;
/// A cap is looked at as a row of straight ways that leave it by no more than this, in millimetres.
const FLAT: f64 = 0.25;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.sewn.surface.as_ref().is_none_or(|surface| !surface.twists.is_empty()) {
        return;
    }
    findings.extend(named_after::exchanged(garment, size));
    let round = LazyCell::new(|| closed_round(&size.sewn.seams));
    for sewn in &size.sewn.seams {
        // Further plies, the inner layer of a yoke, lie on the first.
        let (Some(first), Some(second)) = (sewn.first.plies.first(), sewn.second.plies.first()) else {
            continue;
        };
        for (cap, armhole) in [(first, second), (second, first)] {
            let seam = garment.seam(sewn.seam);
            let looking = Looking { garment, size, seam, cap, armhole, crown: OnceCell::new() };
            if !looking.is_of_a_pair() {
                continue;
            }
            if !looking.is_tube(&round) {
                // A hood is open on the one side and sewn on the other: it need not differ in shape.
                let named = looking.by_names();
                let is_told = || opens_behind::all(garment, size).iter().any(|(told, _)| *told == sewn.seam);
                findings.extend(named.filter(|_| !is_told()));
                continue;
            }
            let differs = |_: &Finding| !is_same_from_both_ends(garment, size, &cap.runs);
            let found = looking
                .by_height()
                .or_else(|| looking.by_crown().or_else(|| looking.by_names()).filter(differs));
            findings.extend(found);
        }
    }
}

/// Corners of one part that a seam brings together: there it goes round by itself.
fn closed_round(seams: &[SewnSeam]) -> IdSet<(PartId, CornerName, CornerName)> {
    let ends = seams.iter().flat_map(|sewn| &sewn.ends).filter(|(one, other)| one.part == other.part);
    ends.flat_map(|(one, other)| [(one.part, one.corner, other.corner), (one.part, other.corner, one.corner)])
        .collect()
}

/// A cap and what it is set into.
struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    seam: &'a Seam,
    cap: &'a SewnPly,
    armhole: &'a SewnPly,
    /// What [`Looking::crown`] tells, once it has been asked for.
    crown: OnceCell<Option<(f64, bool)>>,
}

impl Looking<'_> {
    /// One of a pair, sewn to several others.
    fn is_of_a_pair(&self) -> bool {
        let Some(first) = self.cap.runs.first() else { return false };
        let is_of_one = self.cap.runs.iter().all(|run| (run.part, run.hand) == (first.part, first.hand));
        let is_pair = drawn(self.size, first).is_some_and(|drawn| drawn.cut == CutHow::Mirrored);
        let others = &self.armhole.runs;
        is_of_one
            && is_pair
            && others.len() > 1
            && others.first().map(|run| run.part) != others.last().map(|run| run.part)
            && others.iter().all(|run| run.part != first.part)
    }

    /// It is closed to a tube, as a sleeve is under the arm.
    fn is_tube(&self, round: &IdSet<(PartId, CornerName, CornerName)>) -> bool {
        let (Some(first), Some(last)) = (self.cap.runs.first(), self.cap.runs.last()) else { return false };
        let ends = corner_of(self.size, first, false).zip(corner_of(self.size, last, true));
        ends.is_some_and(|(start, end)| round.contains(&(first.part, start.corner, end.corner)))
    }

    fn length(&self) -> f64 {
        self.cap.length
    }

    /// How far along the cap its crown is, as a share, and whether it lies above the cap's ends on the paper:
    /// the place farthest from the straight way between them. None of what hardly rises.
    fn crown(&self) -> Option<(f64, bool)> {
        *self.crown.get_or_init(|| self.find_crown())
    }

    fn find_crown(&self) -> Option<(f64, bool)> {
        let mut places: Vec<(f64, Point)> = Vec::new();
        for run in &self.cap.runs {
            let mut flat = drawn(self.size, run)?.edge_at(run.edge)?.path.flatten(FLAT);
            if run.reversed {
                flat.reverse();
            }
            for point in flat {
                let (before, last) = places.last().copied().unwrap_or((0.0, point));
                places.push((before + last.distance(point), point));
            }
        }
        let ((whole, end), (_, start)) = (*places.last()?, *places.first()?);
        let across = end - start;
        let rises = |at: Point| (across.cross(at - start) / across.hypot()).abs();
        let risen = places.iter().map(|&(along, at)| (along, at, across.cross(at - start).abs()));
        let (along, at, _) = risen.max_by(|one, other| one.2.total_cmp(&other.2))?;
        let share = along / whole;
        (rises(at) > RISES * across.hypot()).then_some((share, at.y > start.midpoint(end).y))
    }

    /// The cap rises from both of its ends, and the armhole falls from where they lie: pieces are drawn
    /// upright.
    fn by_height(&self) -> Option<Finding> {
        let (first, last) = (self.armhole.runs.first()?, self.armhole.runs.last()?);
        let rises = |run: &SewnRun| -> Option<f64> {
            let path = &drawn(self.size, run)?.edge_at(run.edge)?.path;
            let way = if run.reversed { path.start() - path.end() } else { path.end() - path.start() };
            Some(way.y / way.hypot())
        };
        let (begins, ends) = (rises(first)?, rises(last)?);
        let falls = begins < -UPRIGHT && ends > UPRIGHT;
        if begins * ends >= 0.0 || begins.abs().min(ends.abs()) < UPRIGHT || self.crown()?.1 != falls {
            return None;
        }
        let title = format!(
            "{} seems to set {} in upside down: its crown lies where its armhole is lowest",
            self.seam.words(),
            self.piece()
        );
        let help = "its ends meet at the lowest place of the armhole, under the arm: match one of them with that; or \
                    name the edges in the order in which they lie from there";
        Some(self.warning(title, help.to_owned(), 0.0))
    }

    fn by_crown(&self) -> Option<Finding> {
        let [before, _] = self.armhole.runs.as_slice() else { return None };
        let joint = before.length / self.armhole.length;
        let (crown, _) = self.crown()?;
        let (chosen, other) =
            ((crown - joint).abs() * self.length(), (1.0 - crown - joint).abs() * self.length());
        if chosen - other <= NEARER {
            return None;
        }
        let unit = self.garment.unit;
        let title = format!(
            "{} seems to set {} in back to front: its crown lies {} beside the joint of its armhole",
            self.seam.words(),
            self.piece(),
            amount(chosen, unit)
        );
        let way = format!("the other way round it lies {} beside it", amount(other, unit));
        self.found(title, &way, chosen)
    }

    /// Each end of the cap bears the name of the piece that the other end is sewn to.
    fn by_names(&self) -> Option<Finding> {
        let ends = [self.cap.runs.first()?, self.cap.runs.last()?];
        let ends = [corner_of(self.size, ends[0], false)?, corner_of(self.size, ends[1], true)?];
        let names = [point_name(self.garment, &ends[0])?, point_name(self.garment, &ends[1])?];
        let piece = |run: &SewnRun| -> &str {
            let piece = self.size.sewn.part(run.part).part.piece;
            &self.garment.piece(piece).name
        };
        let pieces = [piece(self.armhole.runs.first()?), piece(self.armhole.runs.last()?)];
        let names_piece = |name: &str, piece: &str| {
            let (words, wanted): (Vec<&str>, Vec<&str>) =
                (name.split('_').collect(), piece.split('_').collect());
            words.windows(wanted.len()).any(|words| words == wanted)
        };
        let is_other =
            |end: usize| names_piece(names[end], pieces[1 - end]) && !names_piece(names[end], pieces[end]);
        if !is_other(0) || !is_other(1) {
            return None;
        }
        let title = format!(
            "{} seems to set {} in back to front: its {} is sewn to {}",
            self.seam.words(),
            self.piece(),
            names[0],
            self.garment.piece(self.size.sewn.part(self.armhole.runs.first()?.part).part.piece).title
        );
        self.found(title, "its two sides differ, and bear the names of what they are not sewn to", 0.0)
    }

    fn piece(&self) -> String {
        let part = self.cap.runs.first().map(|run| self.size.sewn.part(run.part).part);
        part.map(|part| words::piece(self.garment, part.piece)).unwrap_or_default()
    }

    fn found(&self, title: String, way: &str, weight: f64) -> Option<Finding> {
        let says_layer = seam_edges(self.seam).any(|sewn| sewn.layer.is_some());
        let word = |end: SeamEnd| corner(self.garment, &self.size.sewn, &end, says_layer);
        let start = corner_of(self.size, self.cap.runs.first()?, false).and_then(word);
        let other = corner_of(self.size, self.armhole.runs.last()?, true).and_then(word);
        let help = match (start, other) {
            (Some(start), Some(other)) => format!("{way}: matching {start} with {other}"),
            _ => format!("{way}: match the other end"),
        };
        Some(self.warning(title, help, weight))
    }

    fn warning(&self, title: String, help: String, weight: f64) -> Finding {
        let span = self.seam.matching.first().map(|(one, other)| one.span.to(other.span));
        let mut warning =
            Diagnostic::new(&catalogue::SEAM_BACK_TO_FRONT, span.unwrap_or(self.seam.name_span), title);
        if span.is_some() {
            warning = warning.label("matched so").also(self.seam.name_span, "in this seam");
        }
        Finding::new(self.size.drawn.size, weight, warning.help(help)).about(&*self.seam.name)
    }
}
