//! Pleats and tucks on their piece: where their folds are, and which way they are laid.

use super::dart::{Laid, edge_at, side_pressed};
use super::place::place_on;
use super::row::{Anchor, Direction, Way, row, walked};
use crate::garment::{
    CountedFrom, CutHow, EdgeId, Expression, Piece, PlaceAt, Pleat, PleatKind, PleatPlace, TakeUp,
};
use crate::limits;
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::model::{DrawnPiece, DrawnPleat, DrawnTakeUp, Mouth, TuckEnd};
use crate::resolve::sketch::{Sketch, ring};
use crate::resolve::work::{Work, plain};
use crate::shape::Point;
use crate::shape::line::meet_segment;
use crate::shape::outline::is_anticlockwise;
use crate::shape::path::Path;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;
use crate::source::Span;

/// How far from the edge the lines of a pleat that is not sewn down are marked, in millimetres: 8 cm (trade habit).
pub(super) const SHOWN: f64 = 80.0;

/// What a pleat measures, in millimetres.
struct Measures {
    depth: f64,
    /// Between two folds of a pair: of a box, and under an inverted pleat.
    wide: f64,
    count: usize,
    apart: f64,
    stitched: f64,
}

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

struct Placing<'p, 'g> {
    work: &'p Work<'g>,
    piece: &'p Piece,
    sketch: &'p Sketch,
    take_up: &'p TakeUp,
    pleat: &'p Pleat,
}

impl<'p> Placing<'p, '_> {
    fn name(&self) -> &str {
        &self.work.garment.edge(self.take_up.name).name
    }

    fn tell(&self, kind: &'static Entry, weight: f64, span: Span, title: String, help: String) {
        self.work.mistake(weight, self.name(), || {
            Diagnostic::new(kind, span, Title::new(title).in_sizes()).help(help)
        });
    }

    /// What it measures; reported where that cannot be folded.
    fn measures(&self) -> Option<Measures> {
        let (work, pleat, word) = (self.work, self.pleat, self.take_up.word());
        let scalar = |expression: &Expression| work.scalar(expression, Some(self.sketch));
        let above_0 = |expression: &Expression, what: &str| {
            let value = scalar(expression)?;
            if value > SAME_POINT {
                return Some(value);
            }
            let title = format!("{} is {} {what}", self.name(), work.amount(value));
            let help = format!("a {word} folds cloth away: give it a depth above 0 in every size");
            let help = if what == "deep" {
                help
            } else {
                format!("give a length above 0 in every size, or leave it out")
            };
            self.tell(&catalogue::PLEAT_NOTHING, -value, expression.span, title, help);
            None
        };
        let depth = above_0(&pleat.depth, "deep");
        let row = match &pleat.row {
            None => Some((1, 0.0)),
            Some((count, apart)) => {
                let (count, apart) = (self.count(count), above_0(apart, "apart"));
                count.zip(apart)
            }
        };
        let stitched = match &pleat.stitched {
            None => Some(0.0),
            Some(stitched) => above_0(stitched, "stitched down"),
        };
        let wide = match &pleat.kind {
            PleatKind::Knife => Some(0.0),
            PleatKind::Box(wide) | PleatKind::Inverted(wide) => match wide {
                None => depth.map(|depth| 2.0 * depth),
                Some(wide) => scalar(wide),
            },
        };
        let (depth, (count, apart), stitched, wide) = (depth?, row?, stitched?, wide?);
        let measures = Measures { depth, wide, count, apart, stitched };
        self.have_room(&measures).then_some(measures)
    }

    fn count(&self, count: &Expression) -> Option<usize> {
        let value = self.work.scalar(count, Some(self.sketch))?;
        let whole = libm::round(value);
        let word = self.take_up.word();
        if whole > limits::PLEATS as f64 {
            let title = format!(
                "{} {word}s are more than the {} that one row may have",
                plain(value),
                limits::PLEATS
            );
            let help = "make several rows of them, or gather the edge".to_owned();
            self.tell(&catalogue::LIMIT_PLEATS, value, count.span, title, help);
            return None;
        }
        if whole < 1.0 || (value - whole).abs() > 1e-9 {
            let title = format!("{} is to be folded {} times", self.name(), plain(value));
            let help = format!("{word}s are counted: 1 or more, a whole number in every size");
            self.tell(&catalogue::PLEAT_NOTHING, 1.0, count.span, title, help);
            return None;
        }
        Some(whole as usize)
    }

    /// Whether what lies under two folds that lead together, or away from each other, has room between them.
    fn have_room(&self, measures: &Measures) -> bool {
        let Measures { depth, wide, count, apart, .. } = *measures;
        let (work, name) = (self.work, self.name());
        let both = work.amount(2.0 * depth);
        let said = match &self.pleat.kind {
            PleatKind::Knife => return true,
            PleatKind::Box(said) | PleatKind::Inverted(said) => said,
        };
        let span = said.as_ref().map_or(self.take_up.span, |said| said.span);
        if wide < 2.0 * depth - SAME_POINT {
            let title =
                format!("{name} is {} wide, and the cloth under its two folds {both}", work.amount(wide));
            let help = format!(
                "make it {both} wide or wider, which it is by itself where nothing is said; or fold it less deep: {} at most",
                work.amount(wide / 2.0)
            );
            self.tell(&catalogue::PLEAT_TOO_DEEP, 2.0 * depth - wide, span, title, help);
            return false;
        }
        // From one to the next: what lies between the folds of a box above, and under an inverted pleat.
        let least = wide;
        if count > 1 && apart < least - SAME_POINT {
            let span = self.pleat.row.as_ref().map_or(span, |(_, apart)| apart.span);
            let title = format!(
                "one of {name} is {} wide, and the next only {} further on",
                work.amount(least),
                work.amount(apart)
            );
            let help = format!(
                "`apart` goes from the middle of one to the middle of the next as sewn: {} leaves no gap between them",
                work.amount(least)
            );
            self.tell(&catalogue::PLEAT_TOO_DEEP, least - apart, span, title, help);
            return false;
        }
        true
    }

    /// Which way its folds go; reported where a line that they are to run along is none for them.
    fn direction(&self, at: usize) -> Option<Direction> {
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
        let (work, drawn) = (self.work, self.sketch.drawn.as_ref()?);
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
        let inward = if is_anticlockwise(&ring(drawn)) { 1.0 } else { -1.0 };
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
            let backwards = way.backwards;
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
    fn along_fold(&self, drawn: &DrawnPiece, said: Direction) -> Option<Direction> {
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
    fn way(&self, at: usize, measures: &Measures) -> Option<Way> {
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

    /// Both ends of a tuck that goes to the edge `to`; reported where its lines do not get there.
    fn tuck(
        &self,
        drawn: &DrawnPiece,
        first: DrawnTakeUp,
        pleat: DrawnPleat,
        to: EdgeId,
    ) -> Option<[DrawnTakeUp; 2]> {
        let work = self.work;
        let ring = ring(drawn);
        let far: f64 = ring.iter().map(Path::length).sum();
        let mut hits = Vec::with_capacity(2);
        for side in first.wedge.sides {
            let found = meet_segment(side, side + pleat.into * far, &ring);
            let hit = found.into_iter().find(|hit| hit.along > AT_CORNER)?;
            // At a corner either edge may be meant.
            let on = |at: usize| drawn.edges.get(at).filter(|edge| work.garment.is_run_of(edge.edge, to));
            let beside = [hit.edge, (hit.edge + 1) % ring.len(), (hit.edge + ring.len() - 1) % ring.len()];
            let own = beside
                .into_iter()
                .find(|&at| on(at).is_some_and(|edge| edge.path.nearest(hit.point).distance <= ON_OUTLINE));
            let Some(own) = own else {
                let left_by = drawn.edges.get(hit.edge).map(|edge| edge.edge);
                self.report_leaves(left_by, to);
                return None;
            };
            hits.push((own, ring.get(own).map_or(0.0, |path| path.nearest(hit.point).at), hit.point));
        }
        let [one, other] = <[(usize, f64, Point); 2]>::try_from(hits).ok()?;
        if one.0 != other.0 {
            self.report_leaves(None, to);
            return None;
        }
        let edge = drawn.edges.get(one.0)?;
        let length = edge.path.length();
        if one.1.min(other.1) <= SAME_POINT || one.1.max(other.1) >= length - SAME_POINT {
            let title = format!("{} comes to a corner of {}", self.name(), work.garment.edge(to).name);
            let help = "move it in: something of both edges is left on both sides of a tuck".to_owned();
            self.tell(&catalogue::PLEAT_OFF_EDGE, 1.0, self.take_up.span, title, help);
            return None;
        }
        let here = DrawnPleat {
            ends: [one.2, other.2],
            sewn: first.wedge.sides[0].distance(one.2),
            tuck: Some(TuckEnd::First),
            ..pleat
        };
        let point = one.2.midpoint(other.2);
        let first =
            DrawnTakeUp { wedge: Wedge { point, ..first.wedge }, apex: point, pleat: Some(here), ..first };
        let point = first.wedge.sides[0].midpoint(first.wedge.sides[1]);
        let there =
            DrawnPleat { into: -pleat.into, ends: first.wedge.sides, tuck: Some(TuckEnd::Second), ..here };
        let second = DrawnTakeUp {
            wedge: Wedge { sides: [one.2, other.2], point },
            apex: point,
            mouth: Some(Mouth { edge: edge.edge, from: one.1.min(other.1), to: one.1.max(other.1) }),
            pleat: Some(there),
            ..first
        };
        Some([first, if one.1 <= other.1 { second } else { second.turned() }])
    }

    fn report_leaves(&self, by: Option<EdgeId>, to: EdgeId) {
        let work = self.work;
        let (name, to_name) = (self.name(), &work.garment.edge(to).name);
        let title = match by {
            Some(by) => format!("{name} meets {} before {to_name}", work.garment.edge(by).name),
            None => format!("the two lines of {name} meet {to_name} in different runs"),
        };
        work.mistake(1.0, name, || {
            let message =
                Diagnostic::new(&catalogue::PLEAT_SEWN, self.take_up.span, Title::new(title).in_sizes());
            let message = message.also(work.garment.edge(to).span, format!("{to_name} is here"));
            message.help("name the edge that it really comes to; or let it run along another line: along …")
        });
    }
}

/// The sine of the least angle between an edge and the folds that are taken from it: 30°.
const LEAST_SINE: f64 = 0.5;
/// The sine of the angle up to which two lines go one way.
const SAME_WAY: f64 = 1e-3;
