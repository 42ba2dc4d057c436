//! `button/count`, `button/beyond`, `button/sides`, `button/edge`, `button/stand` and `button/spacing`, of
//! buttons, snaps, hooks, toggles and ties; `button/close`, `closure/lap`, `closure/ridge` and `closure/buckle`.

use super::button_level::heights;
use super::two_rows::TwoRows;
use super::{Check, Run, button_off_cloth, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    AnchorAt, Closure, ClosureId, ClosureKind, CutHow, EdgeId, Fasteners, FinishId, FinishKind, Garment,
    SewnEdge, Strap,
};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, at_most, catalogue};
use crate::resolve::{DrawnEdgeId, SizedGarment, finished};
use crate::sewing::{MOST_FASTENERS, Row, RowTrouble, Sewing, TakenBy, Taker, amount_of, lay_fasteners};
use crate::shape::Point;
use crate::shape::path::Path;
use crate::source::Span;
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::BUTTON_COUNT,
        &catalogue::BUTTON_BEYOND,
        &catalogue::EDGE_PLACE,
        &catalogue::BUTTON_SIDES,
        &catalogue::BUTTON_EDGE,
        &catalogue::BUTTON_STAND,
        &catalogue::BUTTON_SPACING,
        &catalogue::BUTTON_CLOSE,
        &catalogue::CLOSURE_LAP,
        &catalogue::CLOSURE_RIDGE,
        &catalogue::CLOSURE_BUCKLE,
    ],
    run: Run::PerSize(run),
};

/// What there is at least between a button's rim and the edge, in millimetres: common practice has
/// the stand at least half a button and an eighth of an inch wide, often a whole button.
pub(super) const BESIDE: f64 = 3.0;
/// No further than this from a fold it lies on that, in millimetres.
const ON_FOLD: f64 = 0.5;
/// A line so many times as long as it is far from an edge is nearest, in its middle, to the edge of its stand.
const CLEAR_OF_ENDS: f64 = 3.0;
/// What there is at least between the rims of two of them, in millimetres.
pub(super) const BETWEEN: f64 = 2.0;
/// So much less wide than its buckle a strap still holds, as a share (common practice).
const LOOSE_IN_BUCKLE: f64 = 0.3;

/// Trade habit for the distance from one to the next, in millimetres (common practice); none of buckles.
fn usual(kind: Fastener) -> Option<[f64; 2]> {
    match kind {
        Fastener::Button => Some([60.0, 120.0]),
        Fastener::Snap => Some([25.0, 150.0]),
        Fastener::Hook => Some([8.0, 40.0]),
        Fastener::Toggle => Some([80.0, 200.0]),
        Fastener::Tie => Some([60.0, 400.0]),
        Fastener::Buckle => None,
    }
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let finder = size.finder(garment);
    let mut rows = TwoRows::default();
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let row = Look { garment, sized, closure, said };
        match lay_fasteners(garment, sized, &finder, id) {
            Ok(laid) => {
                row.sides(&laid, size, findings);
                let off = button_off_cloth::off_cloth(garment, size, (closure, said), &laid);
                row.laid(&laid, sewing, off.is_some(), findings);
                findings.extend(off);
                findings.extend(rows.over_one_another(garment, size, id, laid));
            }
            Err(RowTrouble::Reported) => {}
            Err(RowTrouble::Count(count)) => findings.push(row.no_count(count)),
            Err(RowTrouble::Beyond(first, by)) => findings.push(row.beyond(first, by, false)),
            Err(RowTrouble::TooNear(first, by)) => findings.push(row.beyond(first, by, true)),
            Err(RowTrouble::FromWhichEnd(first, share)) => findings.extend(row.end_unsaid(first, share)),
        }
    }
}

/// One row in one size.
struct Look<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    closure: &'a Closure,
    said: &'a Fasteners,
}

impl Look<'_> {
    fn shown(&self, mm: f64) -> String {
        amount(mm, self.garment.unit)
    }

    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.sized.size, weight, diagnostic).about(&*self.closure.name)
    }

    fn no_count(&self, count: f64) -> Finding {
        let many = self.said.kind.many();
        let title = Title::new(format!("{} has {count} {many}", self.closure.name)).in_sizes();
        let at = self.said.count.as_ref().map_or(self.closure.kind_span, |count| count.span);
        let mistake = Diagnostic::new(&catalogue::BUTTON_COUNT, at, title)
            .label(format!("not a whole number of {many}"))
            .help(format!("write a whole number, from 1 to {MOST_FASTENERS}"));
        self.finding(0.0, mistake)
    }

    /// Half of a line is the same from both ends, and no other share is.
    fn end_unsaid(&self, first: bool, share: f64) -> Option<Finding> {
        let (from, to) = self.said.between.as_ref()?;
        let anchor = if first { from } else { to };
        let percent = libm::round(share * 1e5) / 1e3;
        let title = Title::new(format!("{percent} % of {} from which end?", self.closure.name)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::EDGE_PLACE, anchor.span, title)
            .label("from where?")
            .help(format!("say from where: {percent}% from one of its corners; 50% is the middle"));
        Some(self.finding(1.0, mistake))
    }

    fn beyond(&self, first: bool, by: f64, too_near: bool) -> Finding {
        let which = if first { "first" } else { "last" };
        let one = self.said.kind.one();
        let by_words = self.shown(by);
        let name = &self.closure.name;
        let title =
            Title::new(format!("the {which} {one} of {name} lies {by_words} beyond the end of its line"))
                .in_sizes();
        let Some(anchor) = self.said.between.as_ref().map(|(from, to)| if first { from } else { to }) else {
            let mistake = Diagnostic::new(&catalogue::BUTTON_BEYOND, self.closure.kind_span, title);
            return self.finding(by, mistake);
        };
        let mistake = Diagnostic::new(&catalogue::BUTTON_BEYOND, anchor.span, title)
            .label("not on the line")
            .also(self.closure.first.span, "the line")
            .help(match &anchor.at {
                AnchorAt::Beside { distance, .. } => match amount_of(self.garment, self.sized, distance) {
                    Some(said) if too_near => {
                        let least = at_least(said + by, self.garment.unit);
                        format!("from that point the line begins at {least}")
                    }
                    Some(said) if said - by > self.garment.tolerance => {
                        let room = at_most(said - by, self.garment.unit);
                        format!("from that point the line has room for {room}")
                    }
                    _ => "measure from another point, or the other way: below instead of above".to_owned(),
                },
                AnchorAt::Point(_) => "name a place on the line that the row stands on".to_owned(),
                AnchorAt::Share(_) => "say it: in the middle, or at 30% from one of its corners".to_owned(),
            });
        let mistake = match anchor.point() {
            Some(point) => mistake.also(self.garment.point(point).span, "measured from here"),
            None => mistake,
        };
        self.finding(by, mistake).figure("beyond by", by_words)
    }

    /// Whether buttons and buttonholes meet. Of lines inside the pieces only the part counts on which they stand, where it is
    /// known at which heights that lies.
    fn sides(&self, laid: &Row, size: &WorkedSize, findings: &mut Vec<Finding>) {
        let [first, second] = laid.sides;
        let heights = heights(self.garment, size, laid);
        let told = heights
            .as_ref()
            .and_then(|heights| heights.reported(self.garment, size, self.closure, self.said.kind.many()));
        let is_enough =
            told.is_some() || heights.is_some() && self.are_lines() && self.said.between.is_some();
        // An end that does not go through its buckle is told as that.
        let row = laid.row.as_ref().filter(|row| row.kind == Fastener::Buckle);
        let inside = row.and_then(|row| row.size).filter(|inside| *inside > 0.0);
        let is_stuck = inside.is_some_and(|inside| self.buckle(&size.sewn, inside).is_some());
        if (first - second).abs() > self.garment.tolerance && !is_enough && !is_stuck {
            findings.push(self.uneven(first, second));
        }
        findings.extend(told);
    }

    /// Whether both sides are lines inside pieces.
    fn are_lines(&self) -> bool {
        let named = self.closure.first.edges.iter().chain(&self.closure.second.edges);
        named.into_iter().all(|sewn| self.garment.edge(sewn.edge).line)
    }

    fn laid(&self, laid: &Row, sewing: &Sewing, is_off: bool, findings: &mut Vec<Finding>) {
        let Some(row) = &laid.row else { return };
        if let Some(size) = row.size.filter(|_| row.kind.is_lapped()) {
            if !is_off {
                self.at_edge(laid, sewing, size, findings);
            }
            self.stand(size, findings);
            findings.extend(self.no_lap(sewing));
        } else if self.said.is_lapped() {
            // Of a hook, a toggle or a buckle it is not said how much of it lies across the edge.
            self.stand(0.0, findings);
        }
        if let Some(size) = row.size.filter(|_| row.kind == Fastener::Snap) {
            findings.extend(self.on_ridge(laid, sewing, size));
        }
        if let Some(size) = row.size.filter(|size| row.kind == Fastener::Buckle && *size > 0.0) {
            findings.extend(self.buckle(sewing, size));
        }
        findings.extend(self.drawn_stand());
        // A line that runs out over the edge of its piece is longer than was meant.
        let Some(spacing) = row.spacing.filter(|_| !is_off) else { return };
        let least = row.size.filter(|_| row.kind.is_lapped()).map_or(BETWEEN, |size| size + BETWEEN);
        if spacing < least {
            findings.push(self.close(spacing, least, row.count));
        } else if let Some(usual) = usual(row.kind).filter(|[low, high]| spacing < *low || spacing > *high) {
            findings.push(self.spacing(spacing, row.count, usual));
        }
    }

    fn uneven(&self, first: f64, second: f64) -> Finding {
        let (one, other) = (self.shown(first), self.shown(second));
        let title = Title::new(format!(
            "the sides of {} differ by {}",
            self.closure.name,
            self.shown((first - second).abs())
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_SIDES, self.closure.first.span, title)
            .label(one.clone())
            .also(self.closure.second.span, other.clone())
            .help(match (self.are_lines(), self.said.kind) {
                (true, kind) => format!(
                    "a line need go no further than the {} do: draw both of one length, line … from … to …, from the \
                     first of them to the last",
                    kind.many()
                ),
                (false, Fastener::Button) => {
                    "make both sides equally long, or buttons and buttonholes do not meet".to_owned()
                }
                (false, kind) => format!("make both sides equally long, or the {} do not meet", kind.many()),
            });
        self.finding((first - second).abs(), mistake).figure("first side", one).figure("second side", other)
    }

    /// What is said of the stand.
    fn stand(&self, size: f64, findings: &mut Vec<Finding>) {
        let Some(said) = &self.said.stand else { return };
        let Some(stand) = amount_of(self.garment, self.sized, said) else { return };
        let needed = size / 2.0 + BESIDE;
        // That nothing is less than nothing is told of every length.
        if stand >= needed || stand < 0.0 {
            return;
        }
        let (is, one) = (self.shown(stand), self.said.kind.one());
        let what = match size > 0.0 {
            true => format!("a {one} of {}", self.shown(size)),
            false => format!("a {one}"),
        };
        let title = Title::new(format!("a stand of {is} is too narrow for {what}")).in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_EDGE, said.span, title).label(is);
        let needed_words = self.shown(needed);
        let mistake = match size > 0.0 {
            true => mistake
                .also(self.size_span(), self.shown(size))
                .help(format!("give it {needed_words} or more, or take a smaller {one}")),
            false => mistake.help(format!("give it {needed_words} or more; as a rule 2 to 4 cm lap")),
        };
        findings.push(self.finding(needed - stand, mistake).about(format!("{} stand", self.closure.name)));
    }

    /// Where the centre line lies inside a piece, the piece is drawn with its stand, which is as wide as
    /// was said. It is measured from the middle of the line, clear of the edges at its ends.
    fn drawn_stand(&self) -> Option<Finding> {
        let said = self.said.stand.as_ref()?;
        let stand = amount_of(self.garment, self.sized, said)?;
        let mut worst: Option<(f64, crate::garment::EdgeId)> = None;
        for sewn in self.closure.first.edges.iter().chain(&self.closure.second.edges) {
            for drawn in self.sized.papers.iter().flatten() {
                let own = drawn.lines.iter().filter(|line| self.garment.is_run_of(line.edge, sewn.edge));
                for line in own {
                    let middle = line.path.point_at_length(line.path.length() / 2.0);
                    let edges =
                        drawn.edges.iter().map(|edge| (edge.path.nearest(middle).distance, edge.edge));
                    let Some((wide, edge)) = edges.min_by(|one, other| one.0.total_cmp(&other.0)) else {
                        continue;
                    };
                    let is_clear = line.path.length() > CLEAR_OF_ENDS * wide;
                    if is_clear && worst.is_none_or(|(least, _)| (wide - stand).abs() > (least - stand).abs())
                    {
                        worst = Some((wide, edge));
                    }
                }
            }
        }
        let (wide, edge) = worst.filter(|(wide, _)| (wide - stand).abs() > self.garment.tolerance)?;
        let (is, drawn) = (self.shown(stand), self.shown(wide));
        let title = Title::new(format!(
            "{} has a stand of {is}, but {} lies {drawn} beyond its line",
            self.closure.name,
            words::edge(self.garment, edge)
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_STAND, said.span, title)
            .label(is)
            .also(self.garment.edge(edge).span, drawn.clone())
            .help(format!(
                "draw the line {} from that edge, or the edge so far beyond the line; only if both sides are to \
                 overlap by twice {drawn} write stand {}",
                self.shown(stand),
                words::written(&drawn)
            ));
        let finding = self.finding((wide - stand).abs(), mistake);
        Some(finding.about(format!("{} drawn stand", self.closure.name)).figure("drawn", drawn))
    }

    /// How near the edges of the pieces the buttons really are; the edge that is itself the centre
    /// line goes on by the stand.
    fn at_edge(&self, laid: &Row, sewing: &Sewing, size: f64, findings: &mut Vec<Finding>) {
        let needed = size / 2.0 + BESIDE;
        let mut worst: Option<(f64, EdgeId, bool)> = None;
        let own = |edge| {
            let sides = self.closure.first.edges.iter().chain(&self.closure.second.edges);
            sides.into_iter().any(|sewn| self.garment.is_run_of(edge, sewn.edge))
        };
        for &(part, at) in &laid.places {
            let Some(drawn) = self.sized.paper(sewing.part(part).part.paper) else { continue };
            for edge in drawn.edges.iter().filter(|edge| !own(edge.edge)) {
                let away = distance(edge.path.nearest(at).point, at);
                // Beyond a fold the cloth goes on, to the same one of the other half.
                let is_fold =
                    matches!(drawn.cut, CutHow::OnFold(fold) if self.garment.is_run_of(edge.edge, fold));
                if is_fold && (away < ON_FOLD || 2.0 * away >= size + BETWEEN) {
                    continue;
                }
                if away < needed - 0.01 && worst.is_none_or(|(least, ..)| away < least) {
                    worst = Some((away, edge.edge, is_fold));
                }
            }
        }
        let Some((away, edge, is_fold)) = worst else { return };
        let one = self.said.kind.one();
        let (label, help) = match is_fold {
            true => (
                "folded here: the other half has one as near",
                format!(
                    "let the row end {} before the fold, or unfold the piece, so that it goes on over both halves",
                    self.shown(needed)
                ),
            ),
            false => ("this edge", format!("move it in, widen the stand, or take a smaller {one}")),
        };
        let title = Title::new(format!(
            "a {one} of {} comes within {} of {}",
            self.shown(size),
            self.shown(away),
            words::edge(self.garment, edge)
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_EDGE, self.closure.kind_span, title)
            .label(format!("its middle needs {}", self.shown(needed)))
            .also(self.garment.edge(edge).span, label)
            .help(help);
        findings.push(self.finding(needed - away, mistake).figure("from the edge", self.shown(away)));
    }

    /// Where the size is said.
    fn size_span(&self) -> Span {
        self.said.size.as_ref().map_or(self.closure.kind_span, |size| size.span)
    }

    /// Nothing laps over the edge that buttons or snaps lie on. (What meets loops at an edge is said as toggles.)
    fn no_lap(&self, sewing: &Sewing) -> Option<Finding> {
        let stand = match &self.said.stand {
            Some(said) => amount_of(self.garment, self.sized, said)?,
            None => 0.0,
        };
        if stand > 0.0 {
            return None;
        }
        let named = self.closure.first.edges.iter().chain(&self.closure.second.edges);
        let free = |edge: EdgeId| {
            sewing.parts.iter().any(|part| {
                let drawn = self.sized.paper(part.part.paper);
                drawn.into_iter().flat_map(|drawn| drawn.edges.iter().zip(&part.edges)).any(
                    |(drawn, fate)| {
                        let sewn = |taker: &Taker| matches!(taker.what, TakenBy::Seam(..));
                        self.garment.is_run_of(drawn.edge, edge) && !fate.takers.iter().any(sewn)
                    },
                )
            })
        };
        let sewn = named.into_iter().find(|sewn| free(sewn.edge))?;
        let (many, edge) = (self.said.kind.many(), words::edge(self.garment, sewn.edge));
        let title =
            Title::new(format!("the {many} of {} lie on {edge}, where nothing laps over", self.closure.name));
        let mistake = Diagnostic::new(&catalogue::CLOSURE_LAP, self.closure.kind_span, title.in_sizes())
            .label("no stand")
            .also(sewn.span, "the cloth ends here")
            .help(format!(
                "say how far each side goes on beyond it: stand 2; or name a line inside the piece that the {many} \
                 lie on; hooks, toggles and ties hold sides edge to edge"
            ));
        Some(self.finding(0.0, mistake).about(format!("{} lap", self.closure.name)))
    }

    /// A snap is pressed through even cloth: its rim clears the inner edge of a hem.
    fn on_ridge(&self, laid: &Row, sewing: &Sewing, size: f64) -> Option<Finding> {
        let mut worst: Option<(f64, f64, FinishId, EdgeId)> = None;
        for &(part, at) in &laid.places {
            let part = sewing.part(part);
            let Some(drawn) = self.sized.paper(part.part.paper) else { continue };
            let away = |path: &Path| distance(path.nearest(at).point, at);
            let edges =
                drawn.edges.iter().zip(&part.edges).map(|(edge, fate)| (away(&edge.path), edge, fate));
            if let Some((away, edge, fate)) = edges.min_by(|one, other| one.0.total_cmp(&other.0)) {
                for taker in &fate.takers {
                    let TakenBy::Finish(id) = taker.what else { continue };
                    let FinishKind::Hem(hem) = &self.garment.finish(id).kind else { continue };
                    let Some(deep) = amount_of(self.garment, self.sized, &hem.depth) else { continue };
                    let over = size / 2.0 - (away - deep).abs();
                    if over > self.garment.tolerance && worst.is_none_or(|(most, ..)| over > most) {
                        worst = Some((over, deep, id, edge.edge));
                    }
                }
            }
        }
        let (over, deep, finish, edge) = worst?;
        let (size, deep) = (self.shown(size), self.shown(deep));
        let edge = words::edge(self.garment, edge);
        let title = Title::new(format!("a snap of {size} lies across the inner edge of the hem of {edge}"));
        let warning = Diagnostic::new(&catalogue::CLOSURE_RIDGE, self.closure.kind_span, title.in_sizes())
            .label(format!("half on two plies and half on one, by {}", self.shown(over)))
            .also(self.garment.finish(finish).kind_span, deep)
            .help("move it onto the hem or clear of it, or turn a deeper hem");
        Some(self.finding(over, warning).about(format!("{} {edge}", self.closure.name)))
    }

    /// The strap that goes through a buckle is as wide as the buckle's bar, or a little less.
    fn buckle(&self, sewing: &Sewing, size: f64) -> Option<Finding> {
        let mut worst: Option<(f64, f64, &SewnEdge)> = None;
        for sewn in self.closure.first.edges.iter().chain(&self.closure.second.edges) {
            for part in &sewing.parts {
                let Some(drawn) = self.sized.paper(part.part.paper) else { continue };
                for (at, edge) in DrawnEdgeId::enumerate(&drawn.edges) {
                    let is_meant = self.garment.is_run_of(edge.edge, sewn.edge);
                    let Some(wide) = finished(self.garment, drawn, at).filter(|_| is_meant) else { continue };
                    // What ends on the fold goes on in the other half; an end that lies clear of it is whole.
                    let goes_on = |fold: EdgeId| {
                        let mut beside = [drawn.before(at), drawn.after(at)].into_iter();
                        beside.any(|at| {
                            drawn.edge_at(at).is_some_and(|edge| self.garment.is_run_of(edge.edge, fold))
                        })
                    };
                    let halves = match drawn.cut {
                        CutHow::OnFold(fold) if goes_on(fold) => 2.0,
                        _ => 1.0,
                    };
                    let wide = wide * halves;
                    let off = (wide - size).abs();
                    let is_off =
                        wide > size + self.garment.tolerance || wide < size * (1.0 - LOOSE_IN_BUCKLE);
                    if is_off && worst.is_none_or(|(most, ..)| off > most) {
                        worst = Some((off, wide, sewn));
                    }
                }
            }
        }
        let (off, wide, sewn) = worst?;
        let (is, bar) = (self.shown(wide), self.shown(size));
        let edge = words::edge(self.garment, sewn.edge);
        let title =
            Title::new(format!("the buckle of {} is {bar} wide inside, {edge} {is}", self.closure.name));
        let mistake = Diagnostic::new(&catalogue::CLOSURE_BUCKLE, self.size_span(), title.in_sizes())
            .label(match wide > size {
                true => "it does not go through".to_owned(),
                false => format!("{} of play", self.shown(size - wide)),
            })
            .also(sewn.span, is.clone())
            .help(match self.end_of_strap(sewn, size) {
                Some(end) => format!(
                    "a buckle is sewn to the ends of straps: name {end} there, which is as wide as the buckle"
                ),
                None => format!("take a buckle of {is}, or make that end {bar} wide"),
            });
        Some(self.finding(off, mistake).about(format!("{} {edge}", self.closure.name)).figure("wide", is))
    }

    /// The free end of a strap that goes through the buckle and that no closure takes, where an edge of something else is
    /// named.
    fn end_of_strap(&self, named: &SewnEdge, size: f64) -> Option<String> {
        let garment = self.garment;
        if garment.straps.iter().any(|strap| strap.piece == named.piece) {
            return None;
        }
        let takes = |piece| {
            let sides =
                garment.closures.iter().flat_map(|one| one.first.edges.iter().chain(&one.second.edges));
            sides.into_iter().any(|sewn| sewn.piece == piece)
        };
        let goes_through = |strap: &&Strap| {
            let wide = amount_of(garment, self.sized, &strap.width);
            let is_free = strap.runs.iter().any(|run| run.to.is_none());
            let fits = |wide: f64| wide <= size + garment.tolerance && wide >= size * (1.0 - LOOSE_IN_BUCKLE);
            is_free && wide.is_some_and(fits) && !takes(strap.piece)
        };
        garment.straps.iter().find(goes_through).map(|strap| format!("{}.top", strap.name))
    }

    /// Two of them would lie over one another.
    fn close(&self, spacing: f64, least: f64, count: u32) -> Finding {
        let (is, many) = (self.shown(spacing), self.said.kind.many());
        let most = (spacing * f64::from(count.saturating_sub(1)) / least).floor() + 1.0;
        let title = Title::new(format!("the {many} of {} are only {is} apart", self.closure.name)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_CLOSE, self.closure.kind_span, title)
            .label(format!("each takes {}", self.shown(least)))
            .help(format!("there is room for {most} of them"));
        self.finding(least - spacing, mistake).figure("apart", is)
    }

    fn spacing(&self, spacing: f64, count: u32, usual: [f64; 2]) -> Finding {
        let is = self.shown(spacing);
        let many = self.said.kind.many();
        let [low, high] = usual.map(|habit| self.shown(habit));
        let row = spacing * f64::from(count.saturating_sub(1));
        let (way, wanted) = match spacing < usual[0] {
            true => ("close together", (row / usual[0]).floor() + 1.0),
            false => ("far apart", (row / usual[1]).ceil() + 1.0),
        };
        let title = Title::new(format!("the {many} of {} are {is} apart", self.closure.name))
            .in_sizes()
            .then(format!(": {way}"));
        let at = self.said.count.as_ref().map_or(self.closure.kind_span, |count| count.span);
        let advice = Diagnostic::new(&catalogue::BUTTON_SPACING, at, title)
            .label(format!("{is} from middle to middle"))
            .help(format!("{low} to {high} is usual: for example {} {many}", wanted.max(2.0)));
        self.finding((spacing - usual[0]).abs(), advice).figure("apart", is)
    }
}

fn distance(one: Point, other: Point) -> f64 {
    (one - other).hypot()
}
