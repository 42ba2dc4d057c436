//! What is bought beside cloth, as data: what a need is, and what a price is for.

use super::{CordId, Expression, Garment, Price};
use crate::report::{DisplayUnit, INCH, amount};
use crate::source::Span;
use crate::syntax::tree::{Fastener, ZipperKind};
use std::sync::Arc;

/// Something bought, not cut: listed by the maker, or only priced.
#[derive(Clone, Debug)]
pub struct Notion {
    /// In the maker's words.
    pub title: Arc<str>,
    /// What these words name.
    pub name: NotionName,
    /// How many, or how long; none where it is only priced.
    pub amount: Option<Expression>,
    /// What one costs.
    pub price: Option<Price>,
    /// Where it is said.
    pub span: Span,
    /// From a library: it may price what a garment does not need.
    pub from_library: bool,
}

/// What kind of thing a notion is.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum NotionKind {
    /// A zip; of a price that says no more, of any kind.
    Zip(Option<ZipperKind>),
    /// A button, a snap, a hook and its eye, a toggle and its loop, a buckle; ties, by the length of one.
    Fastener(Fastener),
    /// Elastic, by its length.
    Elastic,
    /// Binding, by its length.
    Binding,
    /// Tape, by its length.
    Tape,
    /// A cord; of a price that says no more, any cord.
    Cord(Option<CordId>),
    /// Anything else, by its name in small letters.
    Other(Arc<str>),
}

/// What a need is, or what a price is for.
#[derive(Clone, Debug, PartialEq)]
pub struct NotionName {
    /// Which kind of thing.
    pub kind: NotionKind,
    /// What tells things of a kind apart, in millimetres: the length of a zip, the width of a button or a snap
    /// or of elastic, the finished width of binding. None in a price: of any measure.
    pub measure: Option<f64>,
}

impl NotionName {
    /// Whether a price for this is a price for that need.
    pub fn covers(&self, need: &NotionName) -> bool {
        let is_kind = match (&self.kind, &need.kind) {
            (NotionKind::Zip(None), NotionKind::Zip(_)) => true,
            (NotionKind::Cord(None), NotionKind::Cord(_)) => true,
            (one, other) => one == other,
        };
        is_kind && self.off(need).is_some()
    }

    /// By how much the measure of a need is off this one's: nothing where this says none. None where
    /// it is more than a tape shows: half of a step of it (a sixteenth below an inch, an eighth above), so
    /// that whatever is shown in any unit names the same thing.
    pub fn off(&self, need: &NotionName) -> Option<f64> {
        let Some(wanted) = self.measure else { return Some(0.0) };
        let off = (need.measure? - wanted).abs();
        let step = if wanted < INCH { INCH / 16.0 } else { INCH / 8.0 };
        (off <= step / 2.0 + 1e-6).then_some(off)
    }

    /// How closely a price names a thing: the more it says, the more.
    pub fn closeness(&self) -> u32 {
        let is_any = matches!(self.kind, NotionKind::Zip(None) | NotionKind::Cord(None));
        2 * u32::from(!is_any) + u32::from(self.measure.is_some())
    }

    /// In a maker's words, lengths as a tape shows them: "separating zip", "button 15 mm", "elastic
    /// 3 cm wide". A zip's length is not among them: its need tells it.
    pub fn words(&self, garment: &Garment) -> String {
        let wide = |before: &str, after: &str| match self.measure {
            Some(width) => format!("{before} {}{after}", amount(width, garment.unit)),
            None => before.trim_end_matches(", finished").to_owned(),
        };
        match &self.kind {
            NotionKind::Zip(Some(ZipperKind::Separating)) => "separating zip".to_owned(),
            NotionKind::Zip(Some(ZipperKind::Closed)) => "closed zip".to_owned(),
            NotionKind::Zip(Some(ZipperKind::Concealed)) => "concealed zip".to_owned(),
            NotionKind::Zip(None) => "zip".to_owned(),
            // Buttons and the like are sold by whole millimetres, else with one decimal, in any country; who says
            // inches means a fraction of one.
            NotionKind::Fastener(kind) => {
                let one = if *kind == Fastener::Hook { "hook and eye" } else { kind.one() };
                match self.measure {
                    Some(width) if garment.unit == DisplayUnit::Inch && is_on_inch_mark(width) => {
                        format!("{one} {}", amount(width, garment.unit))
                    }
                    Some(width) => format!("{one} {} mm", (width * 10.0).round() / 10.0 + 0.0),
                    None => one.to_owned(),
                }
            }
            NotionKind::Elastic => wide("elastic", " wide"),
            NotionKind::Tape => wide("tape", " wide"),
            NotionKind::Binding => wide("binding, finished", " wide"),
            NotionKind::Cord(Some(cord)) => format!("cord ({})", garment.cord(*cord).name),
            NotionKind::Cord(None) => "cord".to_owned(),
            NotionKind::Other(name) => name.to_string(),
        }
    }
}

/// Whether a width is a number of sixteenths of an inch, the finest mark of its tape.
fn is_on_inch_mark(width: f64) -> bool {
    let marks = width * 16.0 / INCH;
    (marks - marks.round()).abs() < 1e-6
}
