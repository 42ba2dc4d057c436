//! `elastic/long`, `elastic/loose`, `elastic/slack`, `elastic/short` and `elastic/tight`: elastic against the channel that it
//! runs through, and against the body.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Finish, FinishId, FinishKind, Garment, Used, ValueId, ValueKind};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::{Channel, RunsThrough, amount_of};

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::ELASTIC_LONG,
        &catalogue::ELASTIC_LOOSE,
        &catalogue::ELASTIC_SLACK,
        &catalogue::ELASTIC_SHORT,
        &catalogue::ELASTIC_TIGHT,
    ],
    run: Run::PerSize(run),
};

/// How many times as long as its elastic a channel may be: common practice gathers casings to between
/// two thirds and a third, and beyond a quarter the folds of no cloth find room in them.
pub(super) const GATHERED: f64 = 4.0;
/// Elastic that is shorter than this share of its channel is not short, but another figure than was meant.
const SLIP: f64 = 0.05;
/// Elastic is cut a tenth to a twentieth shorter than the body where it sits (common practice); with less than this share
/// taken off it is not stretched, and holds nothing up.
const TAKEN_OFF: f64 = 0.03;
/// Of a body's girth elastic has more than this share: with less it cuts in.
const CUTS_IN: f64 = 0.7;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let Some(channels) = &sewing.channels else { return };
    for (id, finish) in FinishId::enumerate(&garment.finishes) {
        let Some((_, long)) = finish.kind.elastic() else { continue };
        // Less than nothing is reported as that.
        let Some(length) = amount_of(garment, sized, long).filter(|length| *length >= 0.0) else { continue };
        let own = || channels.iter().filter(|channel| channel.of == RunsThrough::Elastic(id));
        let by_length = |one: &&Channel, other: &&Channel| one.length.total_cmp(&other.length);
        let (Some(shortest), Some(longest)) = (own().min_by(by_length), own().max_by(by_length)) else {
            continue;
        };
        let look = Look { garment, sized, finish, long, length };
        if length > shortest.length + garment.tolerance {
            findings.push(look.too_long(shortest));
        } else if longest.length > GATHERED * length {
            findings.push(look.too_short(longest));
        } else if shortest.ring {
            findings.extend(look.loose().or_else(|| look.slack()).or_else(|| look.tight()));
        }
    }
}

struct Look<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finish: &'a Finish,
    /// The elastic's length, as it is said.
    long: &'a Expression,
    length: f64,
}

impl Look<'_> {
    fn edges(&self) -> String {
        let mut edges: Vec<String> =
            self.finish.edges.iter().map(|sewn| words::edge(self.garment, sewn.edge)).collect();
        once_each(&mut edges);
        words::listed(&edges)
    }

    fn shown(&self, mm: f64) -> String {
        amount(mm, self.garment.unit)
    }

    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.sized.size, weight, diagnostic).figure("elastic", self.shown(self.length))
    }

    /// What it runs through, or is sewn on to.
    fn what(&self) -> &'static str {
        if matches!(self.finish.kind, FinishKind::Elastic(..)) { "edge" } else { "casing" }
    }

    fn around(&self, channel: &Channel) -> String {
        let ring = if channel.ring { " all round" } else { "" };
        format!("the {} is {}{ring}", self.what(), self.shown(channel.length))
    }

    fn too_long(&self, channel: &Channel) -> Finding {
        let by = self.length - channel.length;
        let title = Title::new(format!(
            "the elastic is {} longer than {}",
            self.shown(by),
            match self.what() {
                "casing" => format!("the casing of {} that it runs through", self.edges()),
                _ => format!("{}, which it is sewn on to", self.edges()),
            }
        ))
        .in_sizes();
        let first = self.finish.edges.first().map_or(self.finish.span, |sewn| sewn.span);
        let mistake = Diagnostic::new(&catalogue::ELASTIC_LONG, self.long.span, title)
            .label(self.shown(self.length))
            .also(first, self.around(channel))
            .help(format!(
                "say how long it is worn, which is less than its {}: it is the elastic that draws it in",
                self.what()
            ));
        self.finding(by, mistake).figure(self.what(), self.shown(channel.length))
    }

    fn too_short(&self, channel: &Channel) -> Finding {
        let title = Title::new(format!(
            "the elastic of {} gathers its {} to less than a quarter",
            self.edges(),
            self.what()
        ))
        .in_sizes();
        let first = self.finish.edges.first().map_or(self.finish.span, |sewn| sewn.span);
        let warning = Diagnostic::new(&catalogue::ELASTIC_SHORT, self.long.span, title)
            .label(self.shown(self.length))
            .also(first, self.around(channel))
            .help(match self.length < channel.length * SLIP {
                true => "look at its figure: elastic is a tenth to a twentieth shorter than the body where it sits, as `waist * 92%` \
                         is, or `waist * 0.92`"
                    .to_owned(),
                false => format!(
                    "take elastic that is at least {} long, or less cloth",
                    at_least(channel.length / GATHERED, self.garment.unit)
                ),
            });
        self.finding(channel.length / self.length.max(1.0), warning)
            .figure(self.what(), self.shown(channel.length))
    }

    /// Against the one body measure that its length is worked out from.
    fn loose(&self) -> Option<Finding> {
        let (id, body) = self.measured_by()?;
        let by = self.length - body;
        if !by.is_finite() || by <= self.garment.tolerance {
            return None;
        }
        let measure = self.garment.value(id);
        let title = Title::new(format!(
            "the elastic of {} is {} longer than the {}",
            self.edges(),
            self.shown(by),
            measure.name
        ))
        .in_sizes();
        let warning = Diagnostic::new(&catalogue::ELASTIC_LOOSE, self.long.span, title)
            .label(self.shown(self.length))
            .also(measure.span, format!("the body has {} there", self.shown(body)))
            .help(format!(
                "take it shorter than the body, {} * 90% for one; what joins its ends is added without being said",
                measure.name
            ));
        Some(self.finding(by, warning).figure(&measure.name, self.shown(body)))
    }

    /// Against the body measure that its edges are called after, else the one that it is worked out from.
    fn slack(&self) -> Option<Finding> {
        let (id, body) = self.sits_at().or_else(|| self.measured_by())?;
        let least = body * (1.0 - TAKEN_OFF);
        if !body.is_finite() || self.length <= least + self.garment.tolerance {
            return None;
        }
        let measure = self.garment.value(id);
        let (is, there, name) = (self.shown(self.length), self.shown(body), &measure.name);
        let title = Title::new(match self.length - body {
            more if more > self.garment.tolerance => {
                format!("the elastic of {} is {} longer than the {name}", self.edges(), self.shown(more))
            }
            less if less < -self.garment.tolerance => {
                format!(
                    "the elastic of {} is only {} shorter than the {name}",
                    self.edges(),
                    self.shown(-less)
                )
            }
            _ => format!("the elastic of {} is as long as the {name}", self.edges()),
        })
        .in_sizes();
        let first = self.finish.edges.first().map_or(self.finish.span, |sewn| sewn.span);
        let mut advice = Diagnostic::new(&catalogue::ELASTIC_SLACK, self.long.span, title).label(is);
        if self.measured_by().is_none_or(|(other, _)| other != id) {
            advice = advice.also(first, format!("called after the {name}"));
        }
        let advice = advice.also(measure.span, format!("the body has {there} there")).help(format!(
            "take it a tenth or a twentieth shorter than the body where it sits, {name} * 90% for one; if something \
             else holds it up there, nothing needs to change"
        ));
        Some(self.finding(self.length - least, advice).figure(name, there))
    }

    /// Against the body measure that its edges are called after, else the one that it is worked out from.
    fn tight(&self) -> Option<Finding> {
        let (id, body) = self.sits_at().or_else(|| self.measured_by())?;
        let least = body * CUTS_IN;
        if !body.is_finite() || self.length >= least - self.garment.tolerance {
            return None;
        }
        let measure = self.garment.value(id);
        let name = &measure.name;
        let title = Title::new(format!(
            "the elastic of {} is {} shorter than the {name}",
            self.edges(),
            self.shown(body - self.length)
        ))
        .in_sizes()
        .then(", and cuts in");
        let advice = Diagnostic::new(&catalogue::ELASTIC_TIGHT, self.long.span, title)
            .label(format!("{} of {}", percent(self.length / body), self.shown(body)))
            .also(measure.span, format!("the body has {} there", self.shown(body)))
            .help(format!(
                "take it a tenth or a twentieth shorter than the body where it sits, {name} * 90% for one; if it is very soft, or \
                 sits elsewhere, nothing needs to change"
            ));
        Some(self.finding(least - self.length, advice).figure(name, self.shown(body)))
    }

    /// The one body measure whose name is a word of the names of its edges.
    fn sits_at(&self) -> Option<(ValueId, f64)> {
        let mut found = None;
        for sewn in &self.finish.edges {
            let name = &self.garment.edge(self.garment.whole_edge(sewn.edge)).name;
            let mut body = ValueId::enumerate(&self.garment.values).filter(|(_, value)| {
                let is_named = || **name == *value.name || name.split('_').any(|word| word == &*value.name);
                matches!(value.kind, ValueKind::Body(_)) && is_named()
            });
            let (id, _) = body.next()?;
            if found.replace(id).is_some_and(|before| before != id) {
                return None;
            }
        }
        let id = found?;
        Some((id, self.sized.scalar(id)?))
    }

    fn measured_by(&self) -> Option<(ValueId, f64)> {
        let mut found = None;
        for used in self.long.uses() {
            let Used::Value(id) = used else { continue };
            if matches!(self.garment.value(id).kind, ValueKind::Body(_)) && found.replace(id).is_some() {
                return None;
            }
        }
        let id = found?;
        Some((id, self.sized.scalar(id)?))
    }
}
