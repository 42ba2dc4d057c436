//! `let … between … and … so that …`: the unknown is found by trying.

use super::model::Quantity;
use super::root;
use super::work::Work;
use crate::garment::{Dimension, Solve, Unknown, ValueId, ValueKind};
use crate::limits::TRIES_OF_SOLVE;
use crate::report::{self, Diagnostic, Finding, Title, catalogue};

/// Into how many intervals the range is cut to look for changes of sign.
const INTERVALS: usize = 16;

impl Work<'_> {
    /// Finds one unknown; what hangs on it is worked out with the answer, or is unknown.
    pub(super) fn solve(&mut self, solve: &Solve) {
        match solve.unknown {
            Unknown::Value(value) => {
                let answer = self.solve_value(solve, value);
                self.set_value(value, answer);
            }
            Unknown::Amount(alteration) => {
                let answer = self.solve_amount(solve, alteration);
                if let Some(place) = self.amounts.get_mut(alteration.index()) {
                    *place = answer;
                }
            }
        }
        self.steps(solve);
    }

    /// Does what hangs on the unknown.
    pub(super) fn steps(&mut self, solve: &Solve) {
        for step in &solve.steps {
            self.step(step);
        }
    }

    fn set_value(&mut self, value: ValueId, to: Option<f64>) {
        if let Some(place) = self.values.get_mut(value.index()) {
            *place = to.map(Quantity::Scalar);
        }
    }

    fn solve_value(&mut self, solve: &Solve, id: ValueId) -> Option<f64> {
        let garment = self.garment;
        let value = garment.values.get(id.index())?;
        let ValueKind::Solved { low, high, left, right, condition } = &value.kind else { return None };
        let (least, most) = (self.scalar(low, None), self.scalar(high, None));
        let (least, most) = (least?, most?);
        if least >= most {
            let (from, to) = (figure(self, value.dimension, least), figure(self, value.dimension, most));
            self.mistake(least - most, "", || {
                let title = Title::new(format!(
                    "{} must lie between {from} and {to}, and no value is between them",
                    value.name
                ))
                .in_sizes();
                Diagnostic::new(&catalogue::SOLVE_NONE, low.span.to(high.span), title)
                    .help("write the smaller first, then the larger")
            });
            return None;
        }
        let was = self.mute(true);
        let mut off = |at: f64| {
            self.set_value(id, Some(at));
            self.steps(solve);
            Some(self.scalar(left, None)? - self.scalar(right, None)?)
        };
        let samples: Vec<(f64, Option<f64>)> = (0..=INTERVALS)
            .map(|step| {
                let share = step as f64 / INTERVALS as f64;
                let at = if step == INTERVALS { most } else { least + (most - least) * share };
                (at, off(at))
            })
            .collect();
        let known: Vec<(f64, f64)> = samples.iter().filter_map(|&(at, off)| Some((at, off?))).collect();
        let size = known.iter().fold(0.0_f64, |size, (_, off)| size.max(off.abs()));
        // What is left by rounding alone still counts as zero.
        let zero = 1e-10 * size.max(1.0);
        let flat =
            known.iter().all(|(_, off)| (off - known.first().map_or(0.0, |first| first.1)).abs() <= zero);
        let mut roots = Vec::new();
        if !flat {
            roots.extend(
                known.iter().filter(|(_, off)| off.abs() <= zero).map(|&(at, left)| root::Root { at, left }),
            );
            for pair in samples.windows(2) {
                let &[(low, Some(at_low)), (high, Some(at_high))] = pair else { continue };
                if at_low.abs() > zero && at_high.abs() > zero && (at_low > 0.0) != (at_high > 0.0) {
                    let tries = TRIES_OF_SOLVE.saturating_sub(INTERVALS + 1) / INTERVALS * 4;
                    roots.extend(root::between((low, at_low), (high, at_high), tries, &mut off));
                }
            }
        }
        self.mute(was);
        roots.sort_by(|a, b| a.at.total_cmp(&b.at));
        let of_value = |at: f64| figure(self, value.dimension, at);
        match roots.as_slice() {
            [one] => {
                if one.left.abs() > self.garment.tolerance.max(1e-6) {
                    self.report_jump(*condition, &value.name, &of_value(one.at), one.left, left.dimension);
                    return None;
                }
                Some(one.at)
            }
            [] if known.is_empty() => {
                // Whatever is wrong for every try, in what hangs on the unknown or in the condition
                // itself, has its own message; report it once.
                self.set_value(id, Some(0.5 * (least + most)));
                self.steps(solve);
                let (left, right) = (self.scalar(left, None), self.scalar(right, None));
                left.and(right).and(None)
            }
            [] => {
                let ends = (known.first().copied()?, known.last().copied()?);
                self.report_none(id, *condition, ends, flat, left.dimension);
                None
            }
            several => {
                let all: Vec<String> = several.iter().take(6).map(|root| of_value(root.at)).collect();
                self.mistake(several.len() as f64, "", || {
                    let title = Title::new(format!("this is true for more than one {}", value.name))
                        .in_sizes()
                        .then(format!(": {}", all.join(", ")));
                    Diagnostic::new(&catalogue::SOLVE_MANY, *condition, title)
                        .also(low.span.to(high.span), "between these")
                        .help("draw the two bounds closer, so that only the one you mean is between them")
                });
                None
            }
        }
    }

    fn report_none(
        &self,
        id: ValueId,
        condition: crate::source::Span,
        ends: ((f64, f64), (f64, f64)),
        flat: bool,
        dimension: Dimension,
    ) {
        let value = self.garment.value(id);
        let ((low, at_low), (high, at_high)) = ends;
        let of_value = |at: f64| figure(self, value.dimension, at);
        let shortfall = |off: f64| {
            let amount = figure(self, dimension, off.abs());
            if off > 0.0 { format!("{amount} too much") } else { format!("{amount} too little") }
        };
        let one_sided = self.one_sided(id);
        self.report(|size| {
            let message = match flat {
                true => Diagnostic::new(
                    &catalogue::SOLVE_NONE,
                    condition,
                    Title::new(format!("{} changes nothing in this condition", value.name))
                        .in_sizes()
                        .then(format!(": the left side stays {}", shortfall(at_low))),
                )
                .help(format!("let one of the two sides depend on {}", value.name)),
                false => Diagnostic::new(
                    &catalogue::SOLVE_NONE,
                    condition,
                    Title::new(format!(
                        "no {} from {} to {} makes this true",
                        value.name,
                        of_value(low),
                        of_value(high)
                    ))
                    .in_sizes()
                    .then(format!(
                        ": the left side is {} with the one, {} with the other",
                        shortfall(at_low),
                        shortfall(at_high)
                    )),
                )
                .help("set the bounds wider, or change what is compared"),
            };
            let mut message = message.also(value.span, "to be found");
            if let Some((span, words, help)) = &one_sided {
                message = message.also(*span, words.clone()).help(help.clone());
            }
            Finding::new(size, at_low.abs().min(at_high.abs()), message)
                .figure(&format!("with {}", of_value(low)), shortfall(at_low))
                .figure(&format!("with {}", of_value(high)), shortfall(at_high))
        });
    }

    /// Where one side of a condition alone is altered, what is said of it, and the way out.
    fn one_sided(&self, id: ValueId) -> Option<(crate::source::Span, String, String)> {
        let ValueKind::Solved { left, right, .. } = &self.garment.value(id).kind else { return None };
        let found = self.garment.altered_on_one_side(left, right)?;
        let alteration = self.garment.alteration(found.alteration);
        let names: Vec<&str> = found.partner.iter().map(|&piece| &*self.garment.piece(piece).name).collect();
        let (own, others) = (&self.garment.piece(found.piece).name, names.join(" and "));
        let verb = alteration.verb();
        Some((
            alteration.span,
            format!("{own} alone is altered here"),
            format!(
                "{verb} {others} in the same line, as {own} is; or, if it is meant so, set the bounds wider"
            ),
        ))
    }

    fn report_jump(
        &self,
        condition: crate::source::Span,
        name: &str,
        at: &str,
        left: f64,
        dimension: Dimension,
    ) {
        self.mistake(left.abs(), "", || {
            let off = figure(self, dimension, left.abs());
            let title = Title::new(format!("no {name} makes this exactly true"))
                .in_sizes()
                .then(format!(": near {at} it jumps, leaving a difference of {off}"));
            Diagnostic::new(&catalogue::SOLVE_NONE, condition, title)
                .help("look for `round`, `min` or `max` in what the condition depends on")
        });
    }
}

/// A value as people read it.
fn figure(work: &Work, dimension: Dimension, value: f64) -> String {
    match dimension {
        Dimension::Length => report::amount(value, work.garment.unit),
        Dimension::Angle => format!("{}°", super::work::plain(value.to_degrees())),
        Dimension::Area => format!("{} cm²", super::work::plain(value / 100.0)),
        Dimension::Number | Dimension::Point => super::work::plain(value),
    }
}
