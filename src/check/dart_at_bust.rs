//! `dart/bust`: a dart that goes up past the point of the bust, or is directed to one that lies at the waist.

use super::dart_far::is_round;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnPiece, DrawnSpot, DrawnTakeUp};
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::DART_BUST], run: Run::PerSize(run) };

/// A dart that shapes the bust ends before its point, mostly 2 cm; one that ends so far beyond it, in millimetres, lies across what
/// is round.
const BEYOND: f64 = 10.0;
/// A dart further from the point than this, in millimetres, lies beside the bust.
const BESIDE: f64 = 40.0;
/// The point lies a hand above the waist, some 16 cm on a grown-up: less than this, in millimetres, and a figure was mistyped
/// (common proportions).
const ABOVE_WAIST: f64 = 60.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen = IdSet::default();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|drawn| !drawn.take_ups.is_empty()) else {
            continue;
        };
        let bust = drawn.spots.iter().find(|spot| is_round(&garment.point(spot.point).name));
        let Some(bust) = bust.filter(|_| seen.insert(part.part.paper)) else { continue };
        let looking = Looking { garment, size, drawn, bust };
        let darts = || drawn.take_ups.iter().filter(|one| one.pleat.is_none());
        match looking.at_waist(darts()) {
            Some(found) => findings.push(found),
            None => findings.extend(darts().filter_map(|dart| looking.beyond(dart))),
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    drawn: &'a DrawnPiece,
    bust: &'a DrawnSpot,
}

impl Looking<'_> {
    fn about(&self, name: &str) -> String {
        format!("{} {name}", self.garment.piece(self.drawn.piece).name)
    }

    /// A point at the waist, or below it, to which a dart is directed.
    fn at_waist<'a>(&self, mut darts: impl Iterator<Item = &'a DrawnTakeUp>) -> Option<Finding> {
        let dart = darts.find(|dart| dart.apex.distance(self.bust.at) <= super::dart_far::AT_POINT)?;
        let is_waist = |name: &str| name.split('_').any(|word| word == "waist");
        let lines = self.drawn.lines.iter().map(|line| (line.edge, &line.path));
        let mut own = lines.chain(self.drawn.edges.iter().map(|edge| (edge.edge, &edge.path)));
        let (waist, path) = own.find(|(edge, path)| {
            is_waist(&self.garment.edge(self.garment.whole_edge(*edge)).name) && lies_across(path)
        })?;
        let high = [path.start().y, path.end().y].into_iter().fold(f64::NEG_INFINITY, f64::max);
        let above = self.bust.at.y - high;
        if above >= ABOVE_WAIST {
            return None;
        }
        let (garment, unit) = (self.garment, self.garment.unit);
        let point = garment.point(self.bust.point);
        let waist = garment.edge(garment.whole_edge(waist));
        let piece = words::piece(garment, self.drawn.piece);
        let title = Title::new(match above {
            above if above > garment.tolerance => {
                format!("{} of {piece} lies only {} above {}", point.name, amount(above, unit), waist.name)
            }
            above if above < -garment.tolerance => {
                format!("{} of {piece} lies {} below {}", point.name, amount(-above, unit), waist.name)
            }
            _ => format!("{} of {piece} lies at {}", point.name, waist.name),
        });
        let named = garment.edge(dart.name);
        let advice = Diagnostic::new(&catalogue::DART_BUST, point.span, title.in_sizes())
            .label(format!("{} is directed to it", named.name))
            .also(waist.span, waist.name.to_string())
            .help(
                "the point of the bust lies a hand above the waist: look at the height that is given for it",
            );
        let finding =
            Finding::new(self.size.id(), ABOVE_WAIST - above, advice).about(self.about(&point.name));
        Some(finding.figure("above the waist", amount(above, unit)))
    }

    /// A dart that comes from below and ends above the point.
    fn beyond(&self, dart: &DrawnTakeUp) -> Option<Finding> {
        let [one, other] = dart.wedge.sides;
        let ends = [
            dart.upper.unwrap_or(dart.wedge.point),
            dart.upper.map_or(one.lerp(other, 0.5), |_| dart.wedge.point),
        ];
        let [tip, from] = ends;
        let beyond = tip.y - self.bust.at.y;
        let along = (self.bust.at.y - from.y) / (tip.y - from.y);
        if beyond <= BEYOND || !(0.0..=1.0).contains(&along) {
            return None;
        }
        let across = (from.lerp(tip, along).x - self.bust.at.x).abs();
        if across > BESIDE {
            return None;
        }
        let (garment, unit) = (self.garment, self.garment.unit);
        let (named, point) = (garment.edge(dart.name), garment.point(self.bust.point));
        let by = amount(beyond, unit);
        let piece = words::piece(garment, self.drawn.piece);
        let title =
            Title::new(format!("{} of {piece} goes {by} up past {}", named.name, point.name)).in_sizes();
        let advice = Diagnostic::new(&catalogue::DART_BUST, dart.said, title)
            .label("lies across what is round")
            .also(point.span, point.name.to_string())
            .help("a dart from below ends some 2 cm before the point of the bust: look at its place and at how far up it goes");
        Some(
            Finding::new(self.size.id(), beyond, advice).about(self.about(&named.name)).figure("past it", by),
        )
    }
}

fn lies_across(path: &Path) -> bool {
    let way = path.end() - path.start();
    way.x.abs() > way.y.abs()
}
