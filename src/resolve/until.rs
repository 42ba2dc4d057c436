//! `lengthen … until … fits`: the amount with which a closure is as long as its zip.

use super::root;
use super::work::Work;
use super::zips::nearest;
use crate::garment::{AlterationId, AlterationKind, ClosureId, Solve};
use crate::limits::{LENGTH_MM, TRIES_OF_SOLVE};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::source::Span;

/// The words of one `until`.
#[derive(Clone, Copy)]
struct Until {
    alteration: AlterationId,
    closure: ClosureId,
    kind: AlterationKind,
    span: Span,
}

impl Work<'_> {
    /// The amount of an `until`, and the zip it is for. None where no amount will do, which was
    /// reported.
    pub(super) fn solve_amount(&mut self, solve: &Solve, id: AlterationId) -> Option<f64> {
        let garment = self.garment;
        let alteration = garment.alterations.get(id.index())?;
        let (kind, said) = (alteration.kind?, alteration.until()?);
        let until = Until { alteration: id, closure: said.closure, kind, span: said.span };
        let about = match &said.about {
            Some(about) => Some(self.scalar(about, None)?),
            None => None,
        };
        let (lengths, stocked) = self.inherit(self.zip_lengths(until.closure))?;
        let was = self.mute(true);
        let now = self.side_with(solve, until, 0.0);
        let about_side = match about {
            Some(about) if stocked => self.side_with(solve, until, about),
            _ => None,
        };
        self.mute(was);
        let Some(now) = now else {
            // What is wrong without any amount has its own message; report it.
            self.set_amount(id, Some(0.0));
            self.steps(solve);
            self.report_gone_sides(until.closure);
            return None;
        };
        let zip = match (stocked, about_side) {
            (false, _) => lengths.first().copied()?,
            (true, Some(wanted)) => nearest(&lengths, wanted)?,
            (true, None) => self.stocked_zip(until, &lengths, now)?,
        };
        if let Some(place) = self.chosen.get_mut(until.closure.index()) {
            *place = Some(zip);
        }
        let gap = kind.way() * (zip - now);
        if gap < -garment.tolerance.max(1e-6) {
            self.report_wrong_way(until, zip, now);
            return None;
        }
        if gap <= 1e-9 {
            return Some(0.0);
        }
        let was = self.mute(true);
        let found = self.amount_for(solve, until, zip, now, gap);
        self.mute(was);
        match found {
            Ok(amount) => Some(amount),
            Err(reached) => {
                self.report_no_amount(until, zip, now, reached);
                None
            }
        }
    }

    fn set_amount(&mut self, id: AlterationId, amount: Option<f64>) {
        if let Some(place) = self.amounts.get_mut(id.index()) {
            *place = amount;
        }
    }

    /// The closure's first side with that amount.
    fn side_with(&mut self, solve: &Solve, until: Until, amount: f64) -> Option<f64> {
        self.set_amount(until.alteration, Some(amount));
        self.steps(solve);
        self.sides(until.closure).map(|sides| sides[0])
    }

    /// Looks for a bracket along the straight line through the first two tries, then closes it.
    /// Without an answer: the length that was reached with the largest amount that could be made.
    fn amount_for(
        &mut self,
        solve: &Solve,
        until: Until,
        zip: f64,
        now: f64,
        gap: f64,
    ) -> Result<f64, Option<f64>> {
        let sign = until.kind.way();
        // Below zero as long as the amount is too small.
        let off = |work: &mut Self, amount: f64| {
            work.side_with(solve, until, amount).map(|side| sign * (side - zip))
        };
        let (mut low, mut at_low) = (0.0, -gap);
        let mut reached = None;
        // An amount that cannot be made is one too many: the largest that could be is sought.
        let mut never = f64::INFINITY;
        let mut next = if sign < 0.0 { gap / 8.0 } else { gap };
        for _ in 0..64 {
            match off(self, next) {
                None => {
                    never = next;
                    next = 0.5 * (low + next);
                    if never - low <= 1e-6 {
                        break;
                    }
                }
                Some(at) if at >= 0.0 => {
                    let tries = TRIES_OF_SOLVE / 2;
                    let root = root::between((low, at_low), (next, at), tries, |amount| off(self, amount));
                    let root = root.filter(|root| root.left.abs() <= self.garment.tolerance.max(1e-6));
                    return root.map(|root| root.at).ok_or(reached);
                }
                Some(at) => {
                    reached = Some(now + sign * (at + gap));
                    let slope = (at - at_low) / (next - low);
                    if slope <= 1e-9 && low > 0.0 {
                        break;
                    }
                    (low, at_low) = (next, at);
                    // A little past where the straight line says, so that the next try is enough.
                    let straight = if slope > 1e-9 { next - at / slope * 1.001 } else { 2.0 * next };
                    next = straight.clamp(1.000_001 * next, 8.0 * next);
                    if next >= never {
                        next = 0.5 * (low + never);
                    }
                    if next > LENGTH_MM || never - low <= 1e-6 {
                        break;
                    }
                }
            }
        }
        Err(reached)
    }

    /// The shortest zip in stock that is not shorter than the opening; of `shorten` the longest
    /// that is not longer.
    fn stocked_zip(&self, until: Until, lengths: &[f64], now: f64) -> Option<f64> {
        let within = self.garment.tolerance.max(1e-6);
        let shrinks = until.kind.way() < 0.0;
        let fits = lengths.iter().copied().filter(|&zip| match shrinks {
            false => zip >= now - within,
            true => zip <= now + within,
        });
        let best = fits.reduce(|best, zip| if (zip < best) != shrinks { zip } else { best });
        if best.is_none() {
            let nearest = nearest(lengths, now)?;
            self.report(|size| {
                let closure = self.garment.closure(until.closure);
                let (opening, zip) = (self.amount(now), self.amount(nearest));
                let which = if shrinks { "shorter" } else { "longer" };
                let opposite = until.kind.form().opposite;
                let instead =
                    opposite.map_or(String::new(), |kind| format!("{} instead, or ", kind.form().verb));
                let title =
                    Title::new(format!("no zip in stock for {} is {which} than the opening", closure.name))
                        .in_sizes()
                        .then(format!(": it is {opening}, and the nearest zip {zip}"));
                let message = Diagnostic::new(&catalogue::ZIPPER_STOCK, until.span, title)
                    .also(closure.kind_span, "the zips in stock")
                    .help(format!("{instead}stock a zip of {opening} or {which}"));
                Finding::new(size, (now - nearest).abs(), message)
                    .figure("opening", opening)
                    .figure("nearest zip", zip)
            });
        }
        best
    }

    fn report_wrong_way(&self, until: Until, zip: f64, now: f64) {
        self.report(|size| {
            let closure = self.garment.closure(until.closure);
            let (long, opening, by) = (self.amount(zip), self.amount(now), self.amount((zip - now).abs()));
            let (is, or) = match until.kind.way() > 0.0 {
                true => ("shorter", "or use a zip of at least"),
                false => ("longer", "or use a zip of at most"),
            };
            let instead = match until.kind.form().opposite {
                Some(opposite) => format!("{} by {by} instead, {or}", opposite.form().verb),
                None => format!("give the amount: by …, {or}"),
            };
            let title =
                Title::new(format!("{} ({long}) is already {by} {is} than the opening", closure.name))
                    .in_sizes();
            let message = Diagnostic::new(&catalogue::ZIPPER_LENGTH, until.span, title)
                .label(format!("the opening is {opening} before this"))
                .also(closure.kind_span, format!("the zip is {long}"))
                .help(format!("{instead} {opening}"));
            Finding::new(size, (zip - now).abs(), message)
                .figure("zip", long)
                .figure("opening", opening)
                .figure("too much", by)
        });
    }

    fn report_no_amount(&self, until: Until, zip: f64, now: f64, reached: Option<f64>) {
        self.report(|size| {
            let closure = self.garment.closure(until.closure);
            let word = until.kind.form().verb;
            let (long, opening) = (self.amount(zip), self.amount(now));
            let unmoved = reached.is_none_or(|reached| (reached - now).abs() <= 1e-6);
            let title = match unmoved {
                true => Title::new(format!("to {word} here does not change {}", closure.name))
                    .in_sizes()
                    .then(format!(": its opening stays {opening}")),
                false => Title::new(format!("no amount to {word} by makes {} fit", closure.name))
                    .in_sizes()
                    .then(format!(
                        ": the zip is {long}, the opening {opening}, and {} at the most",
                        reached.map_or(opening.clone(), |reached| self.amount(reached))
                    )),
            };
            let message = Diagnostic::new(&catalogue::SOLVE_NONE, until.span, title)
                .also(closure.span, "the closure")
                .help(match unmoved {
                    true => "use a line that crosses the edges of the closure, on the pieces it is sewn to",
                    false => "use another zip, or alter the pieces at a second line as well",
                });
            Finding::new(size, (zip - now).abs(), message).figure("zip", long).figure("opening", opening)
        });
    }
}
