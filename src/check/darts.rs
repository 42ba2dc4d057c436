//! `dart/kink`, `dart/legs`, `dart/narrow`, `dart/tiny`, `dart/blunt`, `dart/buttons`, `dart/points` and `pleat/step`: darts and
//! pleats that lie where they can be sewn, and what comes of it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdge, DrawnEdgeId, DrawnPiece, DrawnTakeUp, Mouth};
use crate::sewing::{SewnPart, TakenBy, piece_allowance};
use crate::shape::path::Path;
use crate::shape::pleat::Pleat;
use crate::shape::shut::Shut;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::{Point, Rect};

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::DART_KINK,
        &catalogue::DART_OUTSIDE,
        &catalogue::DART_LEGS,
        &catalogue::DART_NARROW,
        &catalogue::DART_TINY,
        &catalogue::DART_BLUNT,
        &catalogue::DART_BUTTONS,
        &catalogue::DART_POINTS,
        &catalogue::PLEAT_STEP,
    ],
    run: Run::PerSize(run),
};

/// By how many degrees an edge may turn over a shut dart (common practice: less is trimmed by eye).
const KINK: f64 = 3.0;
/// How far the legs of a dart may differ, in millimetres: what seams may.
const LEGS: f64 = 2.0;
/// How long a stitch is, in millimetres: 10 an inch (common practice).
const STITCH: f64 = 2.54;
/// How near to one another points of darts may lie, in millimetres: 1 cm, trade habit.
const APART: f64 = 10.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen = IdSet::default();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
        if drawn.take_ups.is_empty() {
            continue;
        }
        let looking = Looking { garment, size, drawn };
        looking.in_layer(part, findings);
        // The same paper in two layers is looked at once.
        if seen.insert(part.part.paper) {
            looking.at_paper(findings);
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    drawn: &'a DrawnPiece,
}

impl Looking<'_> {
    fn name(&self, placed: &DrawnTakeUp) -> &str {
        &self.garment.edge(placed.name).name
    }

    fn at_paper(&self, findings: &mut Vec<Finding>) {
        for (id, edge) in DrawnEdgeId::enumerate(&self.drawn.edges) {
            let own = self.drawn.take_ups_on(id);
            for (at, (placed, mouth)) in own.iter().enumerate() {
                let before =
                    at.checked_sub(1).and_then(|before| own.get(before)).map_or(0.0, |(_, one)| one.to);
                let after = own.get(at + 1).map_or_else(|| edge.path.length(), |(_, one)| one.from);
                findings.extend(match placed.shut() {
                    Shut::Wedge(_) => self.shut(placed, *mouth, edge, (before, after)),
                    Shut::Pleat(pleat) => {
                        let touches = |one: usize| match (own.get(one), own.get(one + 1)) {
                            (Some((_, one)), Some((_, next))) => next.from - one.to <= SAME_POINT,
                            _ => false,
                        };
                        let last = (at..).find(|&one| !touches(one)).unwrap_or(at);
                        let is_first = !at.checked_sub(1).is_some_and(touches);
                        let to = own.get(last).map_or(mouth.to, |(_, one)| one.to);
                        let after = own.get(last + 1).map_or_else(|| edge.path.length(), |(_, one)| one.from);
                        let beside = is_first.then_some([(before, mouth.from), (to, after)]);
                        let in_corner =
                            mouth.from <= SAME_POINT || mouth.to >= edge.path.length() - SAME_POINT;
                        self.folded(placed, &pleat, (edge, in_corner), beside)
                    }
                });
            }
        }
        let darts: Vec<&DrawnTakeUp> = self.drawn.take_ups.iter().filter(|one| one.pleat.is_none()).collect();
        let around: Vec<Rect> =
            self.drawn.edges.iter().map(|edge| edge.path.hull().inflate(APART, APART)).collect();
        findings.extend(darts.iter().filter_map(|placed| self.ends_on_edge(placed, &around)));
        findings.extend(darts.iter().filter_map(|placed| self.blunt(placed)));
        findings.extend(self.drawn.take_ups.iter().filter_map(|placed| self.tiny(placed)));
        for (at, &one) in darts.iter().enumerate() {
            let others = darts.iter().skip(at + 1);
            let points = |placed: &DrawnTakeUp| std::iter::once(placed.wedge.point).chain(placed.upper);
            for other in others {
                let apart = points(one)
                    .flat_map(|own| points(other).map(move |theirs| own.distance(theirs)))
                    .fold(f64::INFINITY, f64::min);
                if apart < APART {
                    findings.push(self.close(one, other, apart));
                }
            }
        }
    }

    /// A dart whose point lies on the outline, as a split through it leaves it. All round each edge lies a rectangle.
    fn ends_on_edge(&self, placed: &DrawnTakeUp, around: &[Rect]) -> Option<Finding> {
        let ends = std::iter::once(placed.wedge.point).chain(placed.upper);
        let on = |point: Point| {
            let edges = self.drawn.edges.iter().zip(around).filter(|(_, around)| around.contains(point));
            edges.map(|(edge, _)| edge).find(|edge| edge.path.is_near(point, ON_OUTLINE))
        };
        let edge = ends.into_iter().find_map(on)?;
        let (name, of) = (self.name(placed), words::edge(self.garment, edge.edge));
        let piece = &self.garment.piece(self.drawn.piece).name;
        let title = Title::new(format!("{name} is sewn to the very edge, {of}")).in_sizes();
        let message = Diagnostic::new(&catalogue::DART_OUTSIDE, placed.said, title)
            .also(
                self.garment.edge(edge.edge).span,
                format!("its point lies on {}", self.garment.edge(edge.edge).name),
            )
            .help(format!(
                "shut it in the paper: close dart {piece}.{name}; or let it stop short of that edge"
            ));
        Some(Finding::new(self.size.id(), 1.0, message).about(name))
    }

    /// What takes in less than a stitch is long; of nothing at all something else tells.
    fn tiny(&self, placed: &DrawnTakeUp) -> Option<Finding> {
        let is_pleat = placed.pleat.is_some();
        let is_tuck = placed.pleat.is_some_and(|pleat| pleat.sewn > 0.0 || pleat.tuck.is_some());
        let takes = placed.depth() * if is_pleat { 1.0 } else { 2.0 };
        if is_tuck || takes >= STITCH || takes <= SAME_POINT {
            return None;
        }
        let (name, word) = (self.name(placed), placed.word());
        // To a hundredth of a millimetre, whatever unit the file has: a tape does not show it.
        let mm = format!("{} mm", (takes * 100.0).round() / 100.0);
        let size = if is_pleat { "deep" } else { "wide" };
        let piece = words::piece(self.garment, self.drawn.piece);
        let title = Title::new(format!("{name} of {piece} is {mm} {size}")).in_sizes();
        let message = Diagnostic::new(&catalogue::DART_TINY, placed.said, title)
            .label("less than a stitch is long")
            .help(format!(
                "look at its figure and its unit: a bare number takes the unit that the file says; or leave the {word} \
                 out and ease the edge"
            ));
        Some(Finding::new(self.size.id(), STITCH - takes, message).about(name).figure(size, mm))
    }

    /// A dart that is sewn for less than it is wide, or stops more than half way before where it is directed to.
    fn blunt(&self, placed: &DrawnTakeUp) -> Option<Finding> {
        let unit = self.garment.unit;
        let [one, other] = placed.wedge.sides;
        let wide = one.distance(other);
        let ends = std::iter::once(placed.wedge.point).chain(placed.upper);
        let long = ends.map(|end| one.distance(end).max(other.distance(end))).fold(f64::INFINITY, f64::min);
        let stops = placed.stopping > long;
        if !stops && long >= wide || wide <= SAME_POINT {
            return None;
        }
        let name = self.name(placed);
        let (is, sewn, short) = (amount(wide, unit), amount(long, unit), amount(placed.stopping, unit));
        let title = Title::new(format!("{name} is {is} wide and sewn for {sewn} only")).in_sizes();
        let title = match stops {
            true => title.then(format!(": it stops {short} before the place that it is directed to")),
            false => title,
        };
        let warning = Diagnostic::new(&catalogue::DART_BLUNT, placed.said, title)
            .label("ends in a bag of cloth")
            .help(match stops {
                true => format!(
                    "let it stop nearer to that place: by less than {}, half the way",
                    amount((long + placed.stopping) / 2.0, unit)
                ),
                false => format!("make it longer than {is}, or narrower; or take two darts"),
            });
        let finding = Finding::new(self.size.id(), wide / long.max(1.0), warning).about(name);
        Some(finding.figure("wide", is).figure("sewn for", sewn))
    }

    /// What is wrong with an edge where its dart is shut.
    fn shut(
        &self,
        placed: &DrawnTakeUp,
        mouth: Mouth,
        edge: &DrawnEdge,
        (before, after): (f64, f64),
    ) -> Option<Finding> {
        let unit = self.garment.unit;
        let (name, edge_name) = (self.name(placed), &self.garment.edge(edge.edge).name);
        let [one, other] = placed.wedge.legs();
        let apart = (one - other).abs();
        let edge_span = self.garment.edge(edge.edge).span;
        if apart > LEGS {
            let by = amount(apart, unit);
            let title = Title::new(format!("one leg of {name} is {by} longer than the other")).in_sizes();
            let message = Diagnostic::new(&catalogue::DART_LEGS, placed.said, title)
                .label(format!("{} and {}", amount(one, unit), amount(other, unit)))
                .also(edge_span, edge_name.to_string())
                .help(format!(
                    "add `trued`: {edge_name} is then drawn as one curve with {name} shut, and its legs are alike; or \
                     move its mouth or its point, so that it leads in square to {edge_name}"
                ));
            let finding = Finding::new(self.size.id(), apart, message).about(name);
            return Some(
                finding.figure("one leg", amount(one, unit)).figure("the other", amount(other, unit)),
            );
        }
        let arriving = edge.path.arriving_between(before, mouth.from)?;
        let leaving = edge.path.leaving_between(mouth.to, after)?;
        let kink = placed.wedge.kink(arriving, leaving).abs().to_degrees();
        if kink <= KINK {
            return None;
        }
        let of = words::edge(self.garment, edge.edge);
        let turns = format!("{kink:.1}°");
        let title = Title::new(format!("{of} turns by {turns} where {name} is sewn shut")).in_sizes();
        let message = Diagnostic::new(&catalogue::DART_KINK, placed.said, title)
            .label("a dent, or a point, in the seam")
            .also(edge_span, edge_name.to_string())
            .help(format!(
                "add `trued`: {edge_name} is then drawn as one curve with {name} shut; or draw {edge_name} itself so that \
                 it turns back by {:.1}° on each side of {name}",
                kink / 2.0
            ));
        Some(Finding::new(self.size.id(), kink, message).about(name).figure("turns by", turns))
    }

    /// What is wrong with an edge where a fold of a pleat lies on its line: `beside` it, and those that touch it, are
    /// these stretches of the edge; of several that touch only the first is asked.
    fn folded(
        &self,
        placed: &DrawnTakeUp,
        pleat: &Pleat,
        (edge, in_corner): (&DrawnEdge, bool),
        beside: Option<[(f64, f64); 2]>,
    ) -> Option<Finding> {
        let unit = self.garment.unit;
        let of = words::edge(self.garment, edge.edge);
        let (name, edge_name) = (self.name(placed), &self.garment.edge(edge.edge).name);
        let tell = |weight: f64, title: Title, what: (&'static str, String)| {
            let message = Diagnostic::new(&catalogue::PLEAT_STEP, placed.said, title)
                .also(self.garment.edge(edge.edge).span, edge_name.to_string())
                .help(match (in_corner, placed.trued) {
                    // Laid on the fold of the piece: there is nothing of the edge before it.
                    (true, _) => format!(
                        "draw {edge_name} square to the fold as far as {name} takes it, {} from there",
                        amount(pleat.taken().hypot(), unit)
                    ),
                    (false, false) => format!(
                        "add `trued`: {edge_name} is then drawn as one curve with {name} folded; or let it be folded \
                         square to {edge_name}, which is so where no `along` is said"
                    ),
                    (false, true) => format!("draw {edge_name} with less of a corner beside {name}"),
                });
            Some(Finding::new(self.size.id(), weight, message).about(name).figure(what.0, what.1))
        };
        let step = pleat.step().abs();
        if step > LEGS {
            let by = amount(step, unit);
            let title = Title::new(format!("{of} steps by {by} where {name} is folded")).in_sizes();
            return tell(step, title, ("steps by", by));
        }
        let [before, after] = beside?.map(|(from, to)| edge.path.part(from, to));
        // At the fold of the piece the other half goes on as this one does.
        let square = pleat.taken();
        let is_left = |part: &Path| part.length() > SAME_POINT;
        let arriving = if is_left(&before) { before.tangent_at_end()? } else { square };
        let leaving = if is_left(&after) { after.tangent_at_start()? } else { square };
        let kink = placed.shut().kink(arriving, leaving).abs().to_degrees();
        if kink <= KINK {
            return None;
        }
        let turns = format!("{kink:.1}°");
        let title = Title::new(format!("{of} turns by {turns} where {name} is folded")).in_sizes();
        tell(kink, title, ("turns by", turns))
    }

    fn close(&self, one: &DrawnTakeUp, other: &DrawnTakeUp, apart: f64) -> Finding {
        let unit = self.garment.unit;
        let (name, second) = (self.name(one), self.name(other));
        let far = amount(apart, unit);
        let title = match apart < 0.05 {
            true => Title::new(format!("{name} and {second} end at one point")).in_sizes(),
            false => Title::new(format!("{name} and {second} end {far} from each other")).in_sizes(),
        };
        let message = Diagnostic::new(&catalogue::DART_POINTS, other.said, title)
            .also(one.said, format!("{name} is here"))
            .help("let one of them stop shorter: stopping 2.5 short");
        Finding::new(self.size.id(), APART - apart, message).about(name).figure("apart", far)
    }

    /// What hangs on how the edges are sewn.
    fn in_layer(&self, part: &SewnPart, findings: &mut Vec<Finding>) {
        let unit = self.garment.unit;
        for (id, edge) in DrawnEdgeId::enumerate(&self.drawn.edges) {
            let takers = part.fate(id).map_or(&[][..], |fate| &fate.takers);
            let buttoned = takers.iter().find(|taker| match taker.what {
                TakenBy::Closure(closure) => {
                    matches!(self.garment.closure(closure).kind, Some(ClosureKind::Fasteners(_)))
                }
                _ => false,
            });
            for (placed, _) in self.drawn.take_ups_on(id) {
                let name = self.name(placed);
                if let Some(buttoned) = buttoned {
                    let of = words::edge(self.garment, edge.edge);
                    let title =
                        Title::new(format!("{name} is taken from {of}, which is buttoned")).in_sizes();
                    let message = Diagnostic::new(&catalogue::DART_BUTTONS, placed.said, title)
                        .also(buttoned.span, "buttoned here")
                        .help(format!("take the {} from another edge", placed.word()));
                    findings.push(Finding::new(self.size.id(), 1.0, message).about(name));
                }
                let own = match part.fused {
                    true => None,
                    false => piece_allowance(self.garment, &self.size.drawn, part.part.piece),
                };
                let (None, Some(own)) = (placed.pressed, own) else { continue };
                let wide = placed.wedge.sides[0].distance(placed.wedge.sides[1]);
                let half = libm::sin(placed.wedge.angle().abs() / 2.0);
                let shorter = placed.wedge.legs()[0].min(placed.wedge.legs()[1]);
                if half > 0.0 && own / half < shorter {
                    continue;
                }
                let (width, both) = (amount(wide, unit), amount(2.0 * own, unit));
                let title = Title::new(format!("{name} is {width} wide at its mouth"))
                    .in_sizes()
                    .then(format!(", and its two allowances take {both}: there is nothing to cut open"));
                let message = Diagnostic::new(&catalogue::DART_NARROW, placed.said, title).help(
                    "press it to one side instead: pressed toward …; or give the piece a narrower allowance",
                );
                findings.push(
                    Finding::new(self.size.id(), 2.0 * own - wide, message)
                        .about(name)
                        .figure("width", width),
                );
            }
        }
    }
}
