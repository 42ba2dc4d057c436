//! `button/count`, `button/beyond`, `button/sides`, `button/edge`, `button/stand` and `button/spacing`.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Buttons, Closure, ClosureId, ClosureKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{MOST_BUTTONS, Row, RowTrouble, Sewing, amount_of, lay_buttons};
use crate::shape::Point;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::BUTTON_COUNT,
        &catalogue::BUTTON_BEYOND,
        &catalogue::BUTTON_SIDES,
        &catalogue::BUTTON_EDGE,
        &catalogue::BUTTON_STAND,
        &catalogue::BUTTON_SPACING,
    ],
    run: Run::PerSize(run),
};

/// What there is at least between a button's rim and the edge, in millimetres: common practice has
/// the stand at least half a button and an eighth of an inch wide, often a whole button.
pub(super) const BESIDE: f64 = 3.0;
/// A line so many times as long as it is far from an edge is nearest, in its middle, to the edge of its stand.
const CLEAR_OF_ENDS: f64 = 3.0;
/// Trade habit for the distance between the buttons of a front, in millimetres (common practice).
const SPACING: [f64; 2] = [60.0, 120.0];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let finder = size.finder(garment);
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Buttons(buttons)) = &closure.kind else { continue };
        let row = Look { garment, sized, closure, buttons };
        match lay_buttons(garment, sized, &finder, id) {
            Ok(laid) => row.laid(&laid, sewing, findings),
            Err(RowTrouble::Reported) => {}
            Err(RowTrouble::Count(count)) => findings.push(row.no_count(count)),
            Err(RowTrouble::Beyond(first, by)) => findings.push(row.beyond(first, by)),
        }
    }
}

/// One row in one size.
struct Look<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    closure: &'a Closure,
    buttons: &'a Buttons,
}

impl Look<'_> {
    fn shown(&self, mm: f64) -> String {
        amount(mm, self.garment.unit)
    }

    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.sized.size, weight, diagnostic).about(&*self.closure.name)
    }

    fn no_count(&self, count: f64) -> Finding {
        let title = Title::new(format!("{} has {count} buttons", self.closure.name)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_COUNT, self.buttons.count.span, title)
            .label("not a whole number of buttons")
            .help(format!("write a whole number, from 1 to {MOST_BUTTONS}"));
        self.finding(0.0, mistake)
    }

    fn beyond(&self, first: bool, by: f64) -> Finding {
        let which = if first { "first" } else { "last" };
        let anchor = if first { &self.buttons.from } else { &self.buttons.to };
        let by_words = self.shown(by);
        let name = &self.closure.name;
        let title =
            Title::new(format!("the {which} button of {name} lies {by_words} beyond the end of its line"))
                .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_BEYOND, anchor.span, title)
            .label("not on the line")
            .also(self.closure.first.span, "the line")
            .also(self.garment.point(anchor.point).span, "measured from here")
            .help(match amount_of(self.garment, self.sized, &anchor.distance) {
                Some(said) if said - by > self.garment.tolerance => {
                    format!("from that point the line has room for {}", at_most(said - by, self.garment.unit))
                }
                _ => "measure from another point, or the other way: below instead of above".to_owned(),
            });
        self.finding(by, mistake).figure("beyond by", by_words)
    }

    fn laid(&self, laid: &Row, sewing: &Sewing, findings: &mut Vec<Finding>) {
        let [first, second] = laid.sides;
        let by = (first - second).abs();
        if by > self.garment.tolerance {
            findings.push(self.uneven(first, second));
        }
        let Some(row) = &laid.row else { return };
        self.at_edge(laid, sewing, row.size, findings);
        self.stand(row.size, findings);
        findings.extend(self.drawn_stand());
        if let Some(spacing) = row.spacing.filter(|spacing| *spacing < SPACING[0] || *spacing > SPACING[1]) {
            findings.push(self.spacing(spacing, row.count));
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
            .help("make both sides equally long, or buttons and buttonholes do not meet");
        self.finding((first - second).abs(), mistake).figure("first side", one).figure("second side", other)
    }

    /// What is said of the stand.
    fn stand(&self, size: f64, findings: &mut Vec<Finding>) {
        let Some(said) = &self.buttons.stand else { return };
        let Some(stand) = amount_of(self.garment, self.sized, said) else { return };
        let needed = size / 2.0 + BESIDE;
        if stand >= needed {
            return;
        }
        let title = Title::new(format!(
            "a stand of {} is too narrow for a button of {}",
            self.shown(stand),
            self.shown(size)
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_EDGE, said.span, title)
            .label(self.shown(stand))
            .also(self.buttons.size.span, self.shown(size))
            .help(format!("give it {} or more, or take a smaller button", self.shown(needed)));
        findings.push(self.finding(needed - stand, mistake).about(format!("{} stand", self.closure.name)));
    }

    /// Where the centre line lies inside a piece, the piece is drawn with its stand, which is as wide as
    /// was said. It is measured from the middle of the line, clear of the edges at its ends.
    fn drawn_stand(&self) -> Option<Finding> {
        let said = self.buttons.stand.as_ref()?;
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
        let mut worst: Option<(f64, crate::garment::EdgeId)> = None;
        let own = |edge| {
            let sides = self.closure.first.edges.iter().chain(&self.closure.second.edges);
            sides.into_iter().any(|sewn| self.garment.is_run_of(edge, sewn.edge))
        };
        for &(part, at) in &laid.places {
            let Some(drawn) = self.sized.paper(sewing.part(part).part.paper) else { continue };
            for edge in drawn.edges.iter().filter(|edge| !own(edge.edge)) {
                let away = distance(edge.path.nearest(at).point, at);
                if away < needed - 0.01 && worst.is_none_or(|(least, _)| away < least) {
                    worst = Some((away, edge.edge));
                }
            }
        }
        let Some((away, edge)) = worst else { return };
        let title = Title::new(format!(
            "a button of {} comes within {} of {}",
            self.shown(size),
            self.shown(away),
            words::edge(self.garment, edge)
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::BUTTON_EDGE, self.closure.kind_span, title)
            .label(format!("its middle needs {}", self.shown(needed)))
            .also(self.garment.edge(edge).span, "this edge")
            .help("move it in, widen the stand, or take a smaller button");
        findings.push(self.finding(needed - away, mistake).figure("from the edge", self.shown(away)));
    }

    fn spacing(&self, spacing: f64, count: u32) -> Finding {
        let is = self.shown(spacing);
        let [low, high] = SPACING.map(|habit| self.shown(habit));
        let row = spacing * f64::from(count.saturating_sub(1));
        let (way, wanted) = match spacing < SPACING[0] {
            true => ("close together", (row / SPACING[0]).floor() + 1.0),
            false => ("far apart", (row / SPACING[1]).ceil() + 1.0),
        };
        let title = Title::new(format!("the buttons of {} are {is} apart", self.closure.name))
            .in_sizes()
            .then(format!(": {way}"));
        let advice = Diagnostic::new(&catalogue::BUTTON_SPACING, self.buttons.count.span, title)
            .label(format!("{is} from middle to middle"))
            .help(format!("{low} to {high} is usual: for example {} buttons", wanted.max(2.0)));
        self.finding((spacing - SPACING[0]).abs(), advice).figure("apart", is)
    }
}

fn distance(one: Point, other: Point) -> f64 {
    (one - other).hypot()
}
