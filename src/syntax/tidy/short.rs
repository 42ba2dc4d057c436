//! Bands and facings in the canonical spelling.

use super::entry::Entry;
use super::expression::{Printer, dotted, names};
use crate::source::Span;
use crate::syntax::tree::{
    Band, BandChange, Chain, Dotted, Expr, Facing, Name, PieceChange, SeamAlong, SeamChange, SeamItem,
    Underlap,
};

impl Printer<'_> {
    pub(super) fn band(&self, span: Span, band: &Band) -> Entry {
        let title = band.title.as_ref().map_or(String::new(), |title| format!(" {}", self.text(title)));
        let (name, layer, depth) = (&band.name.text, &band.layer.text, self.expr(&band.depth));
        let mut words = format!("band {name}{title} in {layer} {depth} deep");
        if band.folded {
            words += " folded";
        }
        if band.across.is_some() {
            words += " grain across";
        }
        words += if band.round { " round " } else { " along " };
        words += &self.chain(&band.edges);
        words += &self.band_ways(
            (band.inside.as_ref(), band.share.as_ref()),
            (band.joined.as_ref(), band.opening.as_ref()),
            band.underlap.as_ref(),
        );
        words += &stiffened(band.stiffened.as_ref());
        self.with_seam_items(Entry::line(span, words), &band.items)
    }

    pub(super) fn band_change(&self, span: Span, change: &BandChange) -> Entry {
        let mut words = format!("in band {}", names(&change.names));
        if let Some(depth) = &change.depth {
            words += &format!(" {} deep", self.expr(depth));
        }
        if let Some((round, edges)) = &change.edges {
            words += if *round { " round " } else { " along " };
            words += &self.chain(edges);
        }
        words += &self.band_ways(
            (change.inside.as_ref(), change.share.as_ref()),
            (change.joined.as_ref(), change.opening.as_ref()),
            change.underlap.as_ref(),
        );
        words += &stiffened(change.stiffened.as_ref());
        self.with_seam_items(Entry::line(span, words), &change.items)
    }

    pub(super) fn seam_change(&self, span: Span, change: &SeamChange) -> Entry {
        let how = if change.how == PieceChange::Replaces { "replace" } else { "add" };
        Entry::line(span, format!("in seam {} {how}", change.name.text))
            .block(change.items.iter().map(|item| self.seam_item(item)).collect())
    }

    fn band_ways(
        &self,
        (inside, share): (Option<&Chain>, Option<&Expr>),
        (joined, opening): (Option<&Dotted>, Option<&Dotted>),
        underlap: Option<&Underlap>,
    ) -> String {
        let mut words = String::new();
        if let Some(inside) = inside {
            words += &format!(" inside {}", self.chain(inside));
        }
        if let Some(share) = share {
            words += &format!(" at {}", self.expr(share));
        }
        if let Some(joined) = joined {
            words += &format!(" joined at {}", dotted(joined));
        }
        if let Some(opening) = opening {
            words += &format!(" opening at {}", dotted(opening));
        }
        if let Some(underlap) = underlap {
            words += &format!(" underlap {} at {}", self.expr(&underlap.length), underlap.at.text);
        }
        words
    }

    pub(super) fn facing(&self, span: Span, facing: &Facing) -> Entry {
        let title = facing.title.as_ref().map_or(String::new(), |title| format!(" {}", self.text(title)));
        let (name, layer, width) = (&facing.name.text, &facing.layer.text, self.expr(&facing.width));
        let edges = self.chain(&facing.edges);
        let mut words = format!("facing {name}{title} in {layer} {width} wide behind {edges}");
        words += &stiffened(facing.stiffened.as_ref());
        if facing.understitched.is_some() {
            words += " understitched";
        }
        if let Some(neatened) = &facing.neatened {
            let how = self.finishing(&neatened.kind, neatened.binding_stretch.as_ref());
            words += &format!(" neatened {how}");
        }
        self.with_seam_items(Entry::line(span, words), &facing.items)
    }

    fn with_seam_items(&self, entry: Entry, items: &[SeamItem]) -> Entry {
        match items.is_empty() {
            true => entry,
            false => entry.block(items.iter().map(|item| self.seam_item(item)).collect()),
        }
    }
}

/// `outer.collar to inside.collar along left + top + right`
pub(super) fn said_along(along: &SeamAlong) -> String {
    let [first, second] = &along.pieces;
    let edges: Vec<&str> = along.edges.iter().map(|edge| &*edge.text).collect();
    format!("{} to {} along {}", dotted(first), dotted(second), edges.join(" + "))
}

fn stiffened(layer: Option<&Name>) -> String {
    layer.map_or(String::new(), |layer| format!(" stiffened {}", layer.text))
}
