//! `closure/pairing`, and the words for copies that cannot be paired.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, LayerId, SewnEdge};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnLayers, Unpaired, unpaired_closures};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOSURE_PAIRING], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    if garment.closures.is_empty() {
        return;
    }
    for (id, unpaired) in unpaired_closures(garment, sized, &sewing.finder(garment, sized)) {
        let closure = garment.closure(id);
        let name = &closure.name;
        let words = Words {
            entry: &catalogue::CLOSURE_PAIRING,
            takes: format!("{name} takes"),
            among: format!("in {name}"),
            to_itself: "an edge closes on itself where left meets right",
            place: "closure",
            edges: closure.first.edges.iter().chain(&closure.second.edges).collect(),
        };
        let found = words.unpaired(garment, sized, sewing, &unpaired);
        findings.push(Finding::new(sized.size, f64::from(unpaired.many), found).about(&**name));
    }
}

/// What a message on unpaired copies is worded with.
pub(super) struct Words<'a> {
    /// What it is.
    pub(super) entry: &'static Entry,
    /// "the side seam takes".
    pub(super) takes: String,
    /// "in the side seam".
    pub(super) among: String,
    /// When an edge may be named on both sides.
    pub(super) to_itself: &'static str,
    /// "seam".
    pub(super) place: &'static str,
    /// All edges that it names.
    pub(super) edges: Vec<&'a SewnEdge>,
}

impl Words<'_> {
    pub(super) fn unpaired(
        &self,
        garment: &Garment,
        sized: &SizedGarment,
        sewing: &Sewing,
        unpaired: &Unpaired,
    ) -> Diagnostic {
        let &Unpaired { few, few_span, many, many_span, .. } = unpaired;
        let (fewer, more) = (sewing.part(unpaired.fewer).part, sewing.part(unpaired.more).part);
        let edge = |span: Span, piece| {
            let named = self.edges.iter().find(|sewn| sewn.span == span);
            named.map_or_else(|| words::piece(garment, piece), |sewn| words::edge(garment, sewn.edge))
        };
        let (fewer_edge, more_edge) = (edge(few_span, fewer.piece), edge(many_span, more.piece));
        let cut = |piece| garment.piece(piece).cut.span;
        if few_span == many_span {
            let title = format!("{} {fewer_edge} {}, but it occurs {}", self.takes, times(many), times(few));
            let name = &garment.piece(fewer.piece).name;
            return Diagnostic::new(self.entry, few_span, title)
                .label(format!("occurs {}", times(few)))
                .also(cut(fewer.piece), "how many are cut")
                .help(format!(
                    "{}: cut {name} in pairs, cut 2 mirrored; or name the other edge",
                    self.to_itself
                ));
        }
        if let Some(named) = self.named_again(garment, few_span) {
            return self.of_one_named_again(unpaired, &named, [&fewer_edge, &more_edge]);
        }
        let title = format!(
            "the copies {} cannot be paired: {more_edge} occurs {}, {fewer_edge} {}",
            self.among,
            times(many),
            times(few)
        );
        let halves = |piece, count: u32| {
            let is_half = sized
                .papers
                .iter()
                .flatten()
                .any(|drawn| drawn.piece == piece && matches!(drawn.cut, CutHow::OnFold(_)));
            if is_half {
                format!("occurs {}, once on each half", times(count))
            } else {
                format!("occurs {}", times(count))
            }
        };
        Diagnostic::new(self.entry, many_span, title)
            .label(halves(more.piece, many))
            .also(few_span, halves(fewer.piece, few))
            .also(cut(more.piece), "how many are cut")
            .help(format!(
                "cut as many of {} as of {}, or name both in the {} as often as they occur",
                garment.piece(more.piece).name,
                garment.piece(fewer.piece).name,
                self.place
            ))
    }

    /// An edge that is named more than once; what else is meant in one of the places may be its twin.
    fn named_again(&self, garment: &Garment, span: Span) -> Option<NamedAgain> {
        let own = self.edges.iter().find(|sewn| sewn.span == span)?;
        let is_own = |sewn: &&&SewnEdge| (sewn.edge, sewn.layer) == (own.edge, own.layer);
        let places: Vec<Span> = self.edges.iter().filter(is_own).map(|sewn| sewn.span).collect();
        let layers = SewnLayers::new(garment).meant(None, own.piece);
        let is_left = |layer: &LayerId| {
            own.layer.is_some()
                && !self.edges.iter().any(|sewn| sewn.edge == own.edge && sewn.layer == Some(*layer))
        };
        let twin = layers.into_iter().find(is_left);
        let word =
            |layer| format!("{}.{}", garment.part_name(Some(layer), own.piece), garment.edge(own.edge).name);
        (places.len() > 1).then(|| NamedAgain { places, twin: twin.map(word) })
    }

    fn of_one_named_again(
        &self,
        unpaired: &Unpaired,
        named: &NamedAgain,
        [fewer_edge, more_edge]: [&str; 2],
    ) -> Diagnostic {
        let many = named.places.len() as u32;
        let title = format!(
            "{} {fewer_edge} {}, which leaves {} of it for each; of {more_edge} there are {}",
            self.takes,
            times(many),
            unpaired.few,
            unpaired.many
        );
        let mut places = named.places.iter().rev();
        let last = places.next().copied().unwrap_or(unpaired.few_span);
        let mut mistake = Diagnostic::new(self.entry, last, title).label("named again here");
        for place in places {
            mistake = mistake.also(*place, "named here");
        }
        let mistake = mistake.also(unpaired.many_span, format!("occurs {}", times(unpaired.many)));
        match &named.twin {
            Some(twin) => mistake.help(format!("another is meant in one of these places: {twin}?")),
            None => mistake.help("name another edge in one of these places"),
        }
    }
}

/// An edge that is named more than once, and its twin in a layer that is not named.
struct NamedAgain {
    places: Vec<Span>,
    twin: Option<String>,
}

fn times(count: u32) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        _ => format!("{count} times"),
    }
}
