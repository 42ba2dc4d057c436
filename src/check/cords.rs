//! `cord/short`, `cord/ends`, `cord/channel` and `cord/seam`: cords and what they run through.

use super::cord_shut::furthest_row;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Cord, CordId, FinishKind, Garment, Seam, SeamId, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{SizedGarment, sewn_layer};
use crate::sewing::{Channel, Finder, Place, RunsThrough, Sewing, TakenBy, amount_of};
use crate::source::Span;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::CORD_CHANNEL, &catalogue::CORD_SEAM, &catalogue::CORD_ENDS, &catalogue::CORD_SHORT],
    run: Run::PerSize(run),
};

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    if garment.cords.is_empty() {
        return;
    }
    let finder = size.finder(garment);
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let look = Look { garment, sized, sewing, cord };
        let mut has_channel = true;
        let mut lacks_row = false;
        for sewn in &cord.through {
            if let Some(finding) = look.no_channel(&finder, sewn) {
                has_channel = false;
                // One row makes the channel of all its edges.
                let is_again = std::mem::replace(&mut lacks_row, look.lies_between(&finder, sewn));
                if !(is_again && lacks_row) {
                    findings.push(finding);
                }
            }
        }
        let Some(long) = amount_of(garment, sized, &cord.length).filter(|long| *long >= 0.0) else {
            continue;
        };
        if let Some(ends) = look.ends(long) {
            findings.push(ends);
        } else if has_channel {
            findings.extend(look.short(id, long).or_else(|| look.all_at_its_ends(id, long)));
        }
    }
}

/// The narrowest cord has a channel of so many millimetres (common practice).
pub(super) const NARROWEST: f64 = 5.0;
/// Cloth is drawn together on a cord to no less than this share of it.
const DRAWN: f64 = 0.25;

struct Look<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    sewing: &'a Sewing,
    cord: &'a Cord,
}

impl Look<'_> {
    fn shown(&self, mm: f64) -> String {
        amount(mm, self.garment.unit)
    }

    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.sized.size, weight, diagnostic).about(&*self.cord.name)
    }

    fn ends(&self, long: f64) -> Option<Finding> {
        let said = self.cord.ends.as_ref()?;
        let ends = amount_of(self.garment, self.sized, said)?;
        let over = 2.0 * ends - long;
        if over <= self.garment.tolerance {
            return None;
        }
        let title =
            Title::new(format!("the free ends of {} are longer than all of it", self.cord.name)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::CORD_ENDS, said.span, title)
            .label(format!("{} at each end, {} together", self.shown(ends), self.shown(2.0 * ends)))
            .also(self.cord.length.span, self.shown(long))
            .help("ends is what hangs out at each of its two ends; the length is that of the whole cord");
        Some(
            self.finding(over, mistake)
                .figure("ends", self.shown(2.0 * ends))
                .figure("cord", self.shown(long)),
        )
    }

    /// With its ends hanging out so far, less is left in its channel than could be drawn together.
    fn all_at_its_ends(&self, id: CordId, long: f64) -> Option<Finding> {
        let said = self.cord.ends.as_ref()?;
        let ends = amount_of(self.garment, self.sized, said)?;
        let own = self.sewing.channels.iter().flatten().filter(|channel| channel.of == RunsThrough::Cord(id));
        let channel = own.map(|channel| channel.length).fold(0.0, f64::max);
        let left = long - 2.0 * ends;
        if left >= DRAWN * channel || !channel.is_finite() || self.is_beside_elastic() {
            return None;
        }
        let (is_left, of) = (self.shown(left), self.shown(channel));
        let title = Title::new(format!(
            "with its ends out {} has {is_left} left in a channel of {of}",
            self.cord.name
        ));
        let mistake = Diagnostic::new(&catalogue::CORD_ENDS, said.span, title.in_sizes())
            .label(format!("{} at each end, {} together", self.shown(ends), self.shown(2.0 * ends)))
            .also(self.cord.length.span, self.shown(long))
            .help(format!(
                "say how much hangs out as it is worn, or take a cord of {}, so that it lies spread in its channel",
                self.shown(channel + 2.0 * ends)
            ));
        Some(self.finding(DRAWN * channel - left, mistake).figure("left", is_left).figure("channel", of))
    }

    /// Whether elastic runs through the same casing, to whose ends short cords may be sewn.
    fn is_beside_elastic(&self) -> bool {
        let elastic = self.garment.finishes.iter().filter(|finish| finish.kind.elastic().is_some());
        let mut elastic = elastic.flat_map(|finish| &finish.edges);
        elastic.any(|sewn| self.cord.through.iter().any(|through| through.edge == sewn.edge))
    }

    /// Shorter than what it runs through as it lies spread out. Where elastic runs through the same
    /// casing, short cords may be sewn to it.
    fn short(&self, id: CordId, long: f64) -> Option<Finding> {
        if self.is_beside_elastic() {
            return None;
        }
        let own = self.sewing.channels.iter().flatten().filter(|channel| channel.of == RunsThrough::Cord(id));
        let channel: &Channel = own.max_by(|one, other| one.length.total_cmp(&other.length))?;
        let by = channel.length - long;
        if !by.is_finite() || by <= self.garment.tolerance {
            return None;
        }
        let title =
            Title::new(format!("{} is {} shorter than what it runs through", self.cord.name, self.shown(by)))
                .in_sizes();
        let ring = if channel.ring { " all round" } else { "" };
        let edges = self.cord.through.first().map_or(self.cord.span, |sewn| sewn.span);
        let ends = self.cord.ends.as_ref().and_then(|ends| amount_of(self.garment, self.sized, ends));
        let least = channel.length + 2.0 * ends.unwrap_or(0.0).max(0.0);
        let and_ends =
            if ends.is_some_and(|ends| ends > 0.0) { ", its ends with it" } else { " and what hangs out" };
        let mistake = Diagnostic::new(&catalogue::CORD_SHORT, self.cord.length.span, title)
            .label(self.shown(long))
            .also(edges, format!("{}{ring}", self.shown(channel.length)))
            .help(format!(
                "take a cord of {}{and_ends}, so that it stays out when the cloth lies spread",
                self.shown(least)
            ));
        Some(
            self.finding(by, mistake)
                .figure("cord", self.shown(long))
                .figure("channel", self.shown(channel.length)),
        )
    }

    /// Whether an edge is sewn to another layer, with nothing that makes a channel of both.
    fn lies_between(&self, finder: &Finder, sewn: &SewnEdge) -> bool {
        let layer = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece));
        let places = layer.map(|layer| finder.in_layer(layer, sewn)).unwrap_or_default();
        places.iter().any(|place| {
            let fate = self.sewing.part(place.part).edges.get(place.edge.index());
            let seam = fate.and_then(|fate| {
                fate.takers.iter().find_map(|taker| match taker.what {
                    TakenBy::Seam(id, _) => Some(self.garment.seam(id)),
                    _ => None,
                })
            });
            let mut edges = seam.into_iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
            edges.any(|chain| chain.edges.iter().any(|named| named.layer.is_some()))
        })
    }

    /// What an edge is instead of a channel.
    fn no_channel(&self, finder: &Finder, sewn: &SewnEdge) -> Option<Finding> {
        let layer = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece))?;
        finder.in_layer(layer, sewn).iter().find_map(|place| self.at(place, sewn))
    }

    fn at(&self, place: &Place, sewn: &SewnEdge) -> Option<Finding> {
        let garment = self.garment;
        let fate = self.sewing.part(place.part).edges.get(place.edge.index())?;
        // None, or several, is reported as that.
        let [taker] = fate.takers.as_slice() else { return None };
        let edge = words::edge(garment, sewn.edge);
        let (what, where_said, help): (String, Span, String) = match taker.what {
            TakenBy::Finish(id) => {
                let finish = garment.finish(id);
                let what = match finish.kind {
                    FinishKind::Raw => "raw",
                    FinishKind::Overlocked => "overlocked",
                    FinishKind::Tape(_) => "taped",
                    FinishKind::TurnedUnderOnto(_) => "turned under",
                    // A hem and a binding are channels too: cloth that is turned over and stitched down.
                    FinishKind::Hem(_)
                    | FinishKind::Bound(_)
                    | FinishKind::Elastic(..)
                    | FinishKind::Casing(..)
                    | FinishKind::Poison => return None,
                };
                let name = &garment.edge(sewn.edge).name;
                let piece = &garment.piece(sewn.piece).name;
                (what.to_owned(), finish.kind_span, format!("finish {piece}.{name} as a casing: casing 2"))
            }
            TakenBy::Fold => (
                "the middle of a piece on the fold".to_owned(),
                taker.span,
                "name the edge that is turned over for it, with a casing".to_owned(),
            ),
            TakenBy::Closure(id) => (
                format!("closed by {}", garment.closure(id).name),
                taker.span,
                "name the edge that is turned over for it, with a casing".to_owned(),
            ),
            TakenBy::Seam(id, _) => return self.in_seam(id, sewn, &edge),
            TakenBy::Topstitched(_) | TakenBy::Caught(..) | TakenBy::Strap(_) => return None,
        };
        let title = format!("{} cannot run through {edge}, which is {what}", self.cord.name);
        let mistake = Diagnostic::new(&catalogue::CORD_CHANNEL, sewn.span, title)
            .label("no channel")
            .also(where_said, what)
            .help(help);
        Some(self.finding(0.0, mistake))
    }

    /// Between two layers a cord runs where a row beside their seam makes a channel of them.
    fn between_layers(&self, id: SeamId, through: &SewnEdge, edge: &str) -> Option<Finding> {
        let garment = self.garment;
        let seam = garment.seam(id);
        let chains = || seam.first.iter().chain(&seam.second);
        let same = |one: &SewnEdge, other: &SewnEdge| {
            garment.is_run_of(one.edge, other.edge) || garment.is_run_of(other.edge, one.edge)
        };
        let rows = || garment.rows.iter().flat_map(|row| &row.edges).map(|beside| &beside.sewn);
        // A row beside what the edge lies on, in the other layer, makes its channel as well.
        let own = chains().find_map(|chain| {
            let at = chain.edges.iter().position(|named| same(named, through))?;
            Some((at, chain.edges.len()))
        });
        let beside: Vec<&SewnEdge> = match own {
            Some((at, many)) if chains().all(|chain| chain.edges.len() == many) => {
                chains().filter_map(|chain| chain.edges.get(at)).collect()
            }
            _ => chains().flat_map(|chain| &chain.edges).collect(),
        };
        if rows().any(|row| beside.iter().any(|named| same(named, row))) {
            return furthest_row(garment, self.sized, &beside)
                .filter(|room| *room < NARROWEST - garment.tolerance.min(1.0))
                .map(|room| self.narrow(through, edge, room));
        }
        let title = format!("{} runs through {edge}, where no row makes a channel for it", self.cord.name);
        // One row beside all that it runs through: from this edge on, since what comes before has its row.
        let later = self.cord.through.iter().filter(|sewn| sewn.span.lo >= through.span.lo);
        let named = later.map(|sewn| {
            format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
        });
        let row = named.collect::<Vec<String>>().join(", ");
        let warning = Diagnostic::new(&catalogue::CORD_SEAM, through.span, title)
            .label("it would lie anywhere between the layers")
            .also(seam.name_span, "sewn edge to edge here")
            .help(format!("stitch a row beside the seam: topstitch {}_row 2 from {row}", self.cord.name));
        Some(self.finding(0.0, warning))
    }

    /// Between a seam and a row that leaves no room for it.
    fn narrow(&self, through: &SewnEdge, edge: &str, room: f64) -> Finding {
        let room_words = self.shown(room);
        let title = Title::new(format!(
            "{} runs through {edge}, where the row leaves it a channel of {room_words}",
            self.cord.name
        ));
        let warning = Diagnostic::new(&catalogue::CORD_SEAM, through.span, title.in_sizes())
            .label("no cord goes through")
            .help(format!(
                "stitch the row further from the seam: {} and more, by how thick the cord is",
                self.shown(NARROWEST)
            ));
        self.finding(NARROWEST - room, warning).figure("room", room_words)
    }

    /// An edge that a folded band is sewn to: the channel is in the band.
    fn in_band(&self, seam: &Seam, sewn: &SewnEdge, band: &SewnEdge, edge: &str) -> Finding {
        let garment = self.garment;
        let own = words::piece(garment, band.piece);
        let named = format!("{}.{}", garment.part_name(band.layer, band.piece), garment.edge(band.edge).name);
        let title =
            format!("{} runs through {edge}, which lies in a seam: the channel is in {own}", self.cord.name);
        let warning = Diagnostic::new(&catalogue::CORD_SEAM, sewn.span, title)
            .label("no channel")
            .also(seam.name_span, format!("{own}, folded, is sewn on here"))
            .help(format!("name the folded band that it runs in: through {named}"));
        self.finding(0.0, warning)
    }

    /// A seam of two plies of one layer, neither of them folded over, has its allowances open to one
    /// side.
    fn in_seam(&self, id: SeamId, sewn: &SewnEdge, edge: &str) -> Option<Finding> {
        let garment = self.garment;
        let seam = garment.seam(id);
        let plies = seam.first.len() + seam.second.len();
        let edges = || seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        let is_folded = edges().any(|named| !garment.piece(named.piece).folds.is_empty());
        let of_layers = edges().any(|named| named.layer.is_some());
        if seam.poisoned {
            return None;
        }
        let band = edges().find(|named| !garment.piece(named.piece).folds.is_empty());
        if let Some(band) = band.filter(|_| garment.piece(sewn.piece).folds.is_empty()) {
            return Some(self.in_band(seam, sewn, band, edge));
        }
        if plies > 2 || is_folded {
            return None;
        }
        if of_layers {
            return self.between_layers(id, sewn, edge);
        }
        let title = format!("{} runs through {edge}, which is a plain seam", self.cord.name);
        let warning = Diagnostic::new(&catalogue::CORD_SEAM, sewn.span, title)
            .label("open to one side")
            .also(seam.name_span, "sewn here")
            .help("name the edge that is turned over for it, or stitch the allowances of this seam down as a channel");
        Some(self.finding(0.0, warning))
    }
}
