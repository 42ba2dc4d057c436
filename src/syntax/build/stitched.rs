//! Rows of topstitching and understitching, and tacks.

use super::{Builder, Kids, on_side};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{RowKind, Setting, SewnPlace, StitchedRow, Tack};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn stitched_row(&mut self, pair: Pair<Rule>) -> Option<StitchedRow> {
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_understitch => RowKind::Understitch,
            _ => RowKind::Topstitch,
        };
        let name = kids.next()?;
        let name = self.name(name);
        let distance = match kids.has(Rule::k_along) {
            true => None,
            false => {
                let distance = kids.next()?;
                kids.has(Rule::k_from);
                Some(self.value(distance)?)
            }
        };
        let edges = kids.next()?;
        let mut edges = self.sewn_words(edges);
        let rows = match kids.has(Rule::k_rows) {
            true => {
                let (count, _, apart) = (kids.next()?, kids.next()?, kids.next()?);
                Some((self.value(count)?, self.value(apart)?))
            }
            false => None,
        };
        self.on_side_of(&mut kids, edges.iter_mut().map(|sewn| &mut sewn.edge));
        kids.has(Rule::open);
        let stitch = match kids.only(Rule::stitch) {
            Some(stitch) => Some(self.stitch(stitch)?),
            None => None,
        };
        Some(StitchedRow { name, kind, distance, edges, rows, stitch })
    }

    pub(super) fn tack(&mut self, pair: Pair<Rule>) -> Option<Tack> {
        let mut kids = Kids::of(pair);
        let (name, from) = (kids.nth(1)?, kids.next()?);
        let (name, from) = (self.name(name), self.sewn_place(from)?);
        let to = match kids.has(Rule::k_to) {
            true => {
                let to = kids.next()?;
                Some(self.sewn_place(to)?)
            }
            false => None,
        };
        let bar = match kids.has(Rule::k_bar) {
            true => {
                let bar = kids.next()?;
                Some(self.value(bar)?)
            }
            false => None,
        };
        Some(Tack { name, from, to, bar })
    }

    /// `set eyelets "eyelet 5 mm" at hood.low, hood.high`
    pub(super) fn setting(&mut self, pair: Pair<Rule>) -> Option<Setting> {
        let mut kids = Kids::of(pair);
        let (name, notion) = (kids.nth(1)?, kids.next()?);
        let (name, notion) = (self.name(name), self.text(notion));
        let places = kids.filter(|kid| kid.as_rule() == Rule::tack_place);
        let places: Vec<SewnPlace> = places.filter_map(|place| self.sewn_place(place)).collect();
        Some(Setting { name, notion, places })
    }

    /// `front.tip`, `front.shoulder on left at 5 from neck_side`
    pub(super) fn sewn_place(&mut self, pair: Pair<Rule>) -> Option<SewnPlace> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let at = kids.next()?;
        let mut at = self.dotted(at);
        at.on = on_side(&mut kids);
        let place = self.any_place(&mut kids)?;
        at.on = at.on.or_else(|| on_side(&mut kids));
        Some(SewnPlace { at, place, span })
    }
}
