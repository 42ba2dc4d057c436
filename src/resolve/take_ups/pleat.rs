//! Pleats and tucks on their piece: where their folds are, and which way they are laid.

use super::dart::{Laid, edge_at, side_pressed};
use super::place::place_on;
use super::placing::Placing;
use super::pleat_measures::Measures;
use super::row::{Anchor, Direction, Stretch, Way, row, walked};
use crate::garment::{CountedFrom, CutHow, Piece, PlaceAt, Pleat, PleatKind, PleatPlace, TakeUp};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnPleat, DrawnTakeUp, Mouth};
use crate::resolve::sketch::Sketch;
use crate::resolve::work::Work;
use crate::shape::outline::is_anticlockwise;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;

/// How far from the edge the lines of a pleat that is not sewn down are marked, in millimetres: 8 cm (trade habit).
pub(super) const SHOWN: f64 = 80.0;

/// The folds of a pleat or tuck on its piece; reported if they have no place there.
pub(super) fn pleat(
    work: &Work,
    piece: &Piece,
    sketch: &Sketch,
    take_up: &TakeUp,
    pleat: &Pleat,
) -> Option<Vec<DrawnTakeUp>> {
    let placing = Placing { work, piece, sketch, take_up, pleat };
    let measures = placing.measures();
    let at = edge_at(work, piece, sketch, take_up, pleat.edge)?;
    let along = placing.direction(at);
    placing.folds(at, &measures?, along?)
}

impl Placing<'_, '_> {
    /// Which way its folds go; reported where a line that they are to run along is none for them.
    pub(super) fn direction(&self, at: usize) -> Option<Direction> {
        let Some((line, span)) = self.pleat.along else { return Some(Direction::Square) };
        let (work, drawn) = (self.work, self.sketch.drawn.as_ref()?);
        let name = &work.garment.edge(line).name;
        let Some(path) = self.sketch.path(line) else {
            if !work.edge_is_reported(drawn, line) {
                let title = format!("there is no {name} here to fold along");
                let help = "name an edge that the outline really has, or a line".to_owned();
                self.tell(&catalogue::EDGE_GONE, 1.0, span, title, help);
            }
            return work.inherit(None);
        };
        let also = |message: Diagnostic| message.also(work.garment.edge(line).span, "declared here");
        if path.off_straight() > ON_OUTLINE {
            work.mistake(path.off_straight(), self.name(), || {
                let title =
                    Title::new(format!("{} is folded along {name}, which is not straight", self.name()));
                also(Diagnostic::new(&catalogue::PLEAT_ALONG, span, title.in_sizes()))
                    .help("cloth folds along a straight line only: draw a straight line for it")
            });
            return None;
        }
        let way = path.end() - path.start();
        let edge = &drawn.edges.get(at)?.path;
        let chord = edge.end() - edge.start();
        let sine = way.cross(chord).abs() / (way.hypot() * chord.hypot()).max(f64::MIN_POSITIVE);
        if sine < LEAST_SINE {
            work.mistake(1.0 - sine, self.name(), || {
                let own = &work.garment.edge(self.pleat.edge).name;
                let title = Title::new(format!("{name} runs along {own}, and {} is folded from there inward", self.name()));
                also(Diagnostic::new(&catalogue::PLEAT_ALONG, span, title.in_sizes())).help(format!(
                    "name a line that leads from {own} into the piece, at 30° to it or more; or leave `along` out: \
                     folds are then square to {own}"
                ))
            });
            return None;
        }
        Some(Direction::Along(way / way.hypot()))
    }

    fn folds(&self, at: usize, measures: &Measures, direction: Direction) -> Option<Vec<DrawnTakeUp>> {
        let drawn = self.sketch.drawn.as_ref()?;
        let path = &drawn.edges.get(at)?.path;
        let steps = row(&self.pleat.kind, measures.wide, measures.depth, measures.count, measures.apart);
        let way = self.way(at, measures)?;
        let direction = match way.anchor {
            Anchor::Half => self.along_fold(drawn, direction)?,
            _ => direction,
        };
        let folds = walked(path, &steps, measures.depth, &way, direction);
        let (first, last) = (folds.first()?, folds.last()?);
        let (from, to) = (first.from.min(last.from), first.to.max(last.to));
        let length = path.length();
        let fold = self.fold_end(drawn, at);
        // At the fold of the piece it may begin in the corner; something of the edge is left everywhere else.
        let starts = from > SAME_POINT || (fold == Some(false) && from > -SAME_POINT);
        let ends = to < length - SAME_POINT || (fold == Some(true) && to < length + SAME_POINT);
        if !starts || !ends {
            let pairs = !matches!(self.pleat.kind, PleatKind::Knife);
            let past_fold = pairs && (fold == Some(false) && !starts || fold == Some(true) && !ends);
            self.report_off_edge((from, length - to), to - from, length, past_fold);
            return None;
        }
        self.laid(at, &folds, measures, direction, way.backwards)
    }

    /// The folds of a row at these stretches of edge `at`, in the row's order, as they are laid.
    pub(super) fn laid(
        &self,
        at: usize,
        folds: &[Stretch],
        measures: &Measures,
        direction: Direction,
        backwards: bool,
    ) -> Option<Vec<DrawnTakeUp>> {
        let (work, drawn) = (self.work, self.sketch.drawn.as_ref()?);
        let path = &drawn.edges.get(at)?.path;
        let length = path.length();
        let (first, last) = (folds.first()?, folds.last()?);
        let (from, to) = (first.from.min(last.from), first.to.max(last.to));
        let ring = drawn.edges.iter().map(|edge| &edge.path);
        let inward = if is_anticlockwise(ring) { 1.0 } else { -1.0 };
        let toward = match &self.pleat.toward {
            None => None,
            Some(pressed) => {
                let sides = [path.point_at_length(from), path.point_at_length(to)];
                let wedge = Wedge { sides, point: sides[0].midpoint(sides[1]) };
                let laid =
                    Laid { name: self.name(), said: self.take_up.span, kind: &catalogue::PLEAT_TOWARD };
                Some(side_pressed(work, drawn, laid, &wedge, pressed)?)
            }
        };
        let mut all = Vec::with_capacity(folds.len());
        for (nth, one) in folds.iter().enumerate() {
            let sides = [one.from, one.to].map(|along| path.point_at_length(along));
            let across = (sides[1] - sides[0]).turn_90() * inward;
            let into = match direction {
                Direction::Square => across / across.hypot().max(f64::MIN_POSITIVE),
                Direction::Along(line) => {
                    if line.dot(across) < 0.0 {
                        -line
                    } else {
                        line
                    }
                }
            };
            let laid_on = toward.unwrap_or(usize::from(one.outward != backwards));
            let long = if measures.stitched > 0.0 { measures.stitched } else { SHOWN };
            let ends = sides.map(|side| side + into * long);
            let point = ends[0].midpoint(ends[1]);
            let pleat = DrawnPleat { into, sewn: measures.stitched, ends, nth, tuck: None };
            let placed = DrawnTakeUp {
                name: self.take_up.name,
                declared: self.take_up.name,
                mouth: Some(Mouth { edge: self.pleat.edge, from: one.from.max(0.0), to: one.to.min(length) }),
                wedge: Wedge { sides, point },
                upper: None,
                apex: point,
                pressed: Some(laid_on),
                near: usize::from(backwards),
                stopping: 0.0,
                trued: self.pleat.trued,
                said: self.take_up.span,
                moved: None,
                pleat: Some(pleat),
            };
            match self.pleat.to {
                None => all.push(placed),
                Some(to) => all.extend(self.tuck(drawn, placed, pleat, to)?),
            }
        }
        Some(all)
    }

    /// In the middle of a whole piece its folds run along the fold of the half; reported where they are to run
    /// another way.
    pub(super) fn along_fold(&self, drawn: &DrawnPiece, said: Direction) -> Option<Direction> {
        let CutHow::OnFold(fold) = self.piece.cut.how else { return Some(said) };
        let path = &drawn.edge(fold)?.path;
        let way = path.end() - path.start();
        let way = way / way.hypot().max(f64::MIN_POSITIVE);
        if let (Direction::Along(line), Some((_, span))) = (said, self.pleat.along)
            && line.cross(way).abs() > SAME_WAY
        {
            let name = &self.work.garment.edge(fold).name;
            let title = format!(
                "{} lies in the middle of {}, and is folded along another line than {name}",
                self.name(),
                self.piece.title
            );
            let help =
                format!("leave `along` out: at the fold it is folded along {name}, alike on both sides");
            self.tell(&catalogue::PLEAT_ALONG, line.cross(way).abs(), span, title, help);
            return None;
        }
        Some(Direction::Along(way))
    }

    /// Where the row begins, and which way it goes.
    pub(super) fn way(&self, at: usize, measures: &Measures) -> Option<Way> {
        let drawn = self.sketch.drawn.as_ref()?;
        let length = drawn.edges.get(at)?.path.length();
        let fold = self.fold_end(drawn, at);
        let pairs = !matches!(self.pleat.kind, PleatKind::Knife);
        let from_fold =
            |end: bool| Way { at: if end { length } else { 0.0 }, backwards: end, anchor: Anchor::Half };
        let place = match &self.pleat.place {
            PleatPlace::Fold => match fold {
                Some(end) => return Some(from_fold(end)),
                None => {
                    self.report_no_fold();
                    return None;
                }
            },
            PleatPlace::On(place) => place,
        };
        let placed = place_on(self.work, self.sketch, at, place)?;
        if let (true, Some(end)) = (pairs, fold) {
            let off = if end { length - placed.along } else { placed.along };
            if off.abs() <= AT_CORNER {
                return Some(from_fold(end));
            }
            if matches!(place.at, PlaceAt::Middle | PlaceAt::Share(_)) && measures.count == 1 {
                let own = &self.work.garment.edge(self.pleat.edge).name;
                let title = format!(
                    "{own} is half of {}: in the middle of it there is one such {} on each side",
                    self.piece.title,
                    self.take_up.word()
                );
                let fold = match self.piece.cut.how {
                    CutHow::OnFold(fold) => self.work.garment.edge(fold).name.to_string(),
                    _ => own.to_string(),
                };
                let help = format!(
                    "one in the middle of the whole: write `at the fold`; two of them: write `at 50% from {fold}`"
                );
                self.tell(&catalogue::PLEAT_FOLD, 1.0, self.take_up.span, title, help);
                return None;
            }
        }
        // At a mark between the ends, from where it goes neither way, the row has its middle.
        let at_mark = matches!(place.at, PlaceAt::From(_, CountedFrom::Point(_)))
            && placed.amount.is_some_and(|amount| amount.abs() <= SAME_POINT)
            && (SAME_POINT..length - SAME_POINT).contains(&placed.along);
        let anchor = match (placed.amount.is_some() && !at_mark, pairs) {
            (false, _) => Anchor::Middle,
            (true, false) => Anchor::Start,
            (true, true) => Anchor::First,
        };
        Some(Way { at: placed.along, backwards: placed.backwards, anchor })
    }

    /// Whether the edge ends (true) or begins (false) at the fold of a half; none where neither.
    fn fold_end(&self, drawn: &DrawnPiece, at: usize) -> Option<bool> {
        let CutHow::OnFold(fold) = self.piece.cut.how else { return None };
        let count = drawn.edges.len();
        let is = |place: usize| {
            drawn.edges.get(place % count).is_some_and(|edge| self.work.garment.is_run_of(edge.edge, fold))
        };
        match (is(at + count - 1), is(at + 1)) {
            (true, false) => Some(false),
            (false, true) => Some(true),
            _ => None,
        }
    }

    /// Reports that a pleat that is let in would lie beyond an end of its edge.
    pub(super) fn report_off_row(&self, over: f64, length: f64) {
        let work = self.work;
        work.report(|size| {
            let (name, of) = (self.name(), &work.garment.edge(self.pleat.edge).name);
            let (long, by) = (work.amount(length), work.amount(over));
            let title = match over > SAME_POINT {
                true => format!("{name} would be let in {by} past an end of {of}"),
                false => format!("{name} would be let in at a corner of {of}"),
            };
            let message =
                Diagnostic::new(&catalogue::PLEAT_OFF_EDGE, self.take_up.span, Title::new(title).in_sizes())
                    .also(work.garment.edge(self.pleat.edge).span, format!("{of} is {long} long"))
                    .help("move it in: something of the edge is left on both sides of a pleat");
            Finding::new(size, over, message).about(name).figure("length of the edge", long)
        });
    }

    fn report_no_fold(&self) {
        let work = self.work;
        work.mistake(1.0, self.name(), || {
            let own = &work.garment.edge(self.pleat.edge).name;
            let (title, help) = match self.piece.cut.how {
                CutHow::OnFold(_) => (
                    format!("{own} does not end at the fold of {}", self.piece.title),
                    "take it from an edge that ends there, or say how far from a corner it is",
                ),
                CutHow::Alike | CutHow::Mirrored => (
                    format!("{} is not cut on the fold", self.piece.title),
                    "say where on the edge it is: in the middle, or so far from a corner",
                ),
            };
            let message =
                Diagnostic::new(&catalogue::PLEAT_FOLD, self.take_up.span, Title::new(title).in_sizes());
            message.also(self.piece.cut.span, "how it is cut").help(help)
        });
    }

    fn report_off_edge(&self, left: (f64, f64), width: f64, length: f64, past_fold: bool) {
        let work = self.work;
        let over = -left.0.min(left.1);
        work.report(|size| {
            let (name, of) = (self.name(), &work.garment.edge(self.pleat.edge).name);
            let (wide, long) = (work.amount(width), work.amount(length));
            let title = match width >= length - SAME_POINT {
                true => format!("{name} needs {wide} of {of}, which is only {long} long"),
                false if over <= SAME_POINT => format!("nothing of {of} is left beside {name}"),
                false => format!("{name} needs {wide} of {of} and reaches {} past its end", work.amount(over)),
            };
            let message = Diagnostic::new(&catalogue::PLEAT_OFF_EDGE, self.take_up.span, Title::new(title).in_sizes())
                .also(work.garment.edge(self.pleat.edge).span, format!("{of} is {long} long"))
                .help(match past_fold {
                    true => {
                        "one in the middle of the whole piece is said to be `at the fold`; any other lies on one half, with \
                         something of the edge on both sides"
                    }
                    false => {
                        "move it in, fold it less deep, or make the edge wider: a knife pleat takes twice its depth, a box \
                         or inverted one four times, and something of the edge is left on both sides"
                    }
                });
            Finding::new(size, over, message).about(name).figure("needs", wide).figure("length of the edge", long)
        });
    }
}

/// The sine of the least angle between an edge and the folds that are taken from it: 30°.
const LEAST_SINE: f64 = 0.5;
/// The sine of the angle up to which two lines go one way.
const SAME_WAY: f64 = 1e-3;
