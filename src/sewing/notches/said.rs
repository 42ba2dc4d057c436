//! Notches that a seam's braces say: `notch 8 from underarm`.

use super::anchors::{Anchor, way_from_inside};
use super::{Notching, Pair, lengths, marks_of};
use crate::garment::{Dimension, NotchAt, Seam, SeamNotch};
use crate::sewing::amounts::amount_of;
use crate::sewing::model::{SewnSeam, StretchEnd};

impl Pair {
    /// Where a notch that is said stands on both sides.
    fn said(notch: &SeamNotch, first: f64, second: f64) -> Self {
        let mark = Some(StretchEnd::Notch(notch.span, None));
        Pair { first, second, double: notch.double, mark, notched: true, marks: marks_of(mark) }
    }
}

impl Notching<'_, '_> {
    /// `notch 8 from underarm`: at equal distance from that end on every ply.
    pub(super) fn said(&mut self, seam: &Seam, sewn: &SewnSeam, share: f64, pairs: &mut Vec<Pair>) {
        for notch in &seam.notches {
            let Some(distance) = amount_of(self.garment, self.sized, notch.amount()) else { continue };
            let from = match &notch.at {
                NotchAt::From(_, from) => from,
                NotchAt::Share(_) => {
                    let (first, second) = (lengths(sewn, 0).0 * distance, lengths(sewn, 1).0 * distance);
                    pairs.push(Pair::said(notch, first, second));
                    continue;
                }
            };
            let is_share = notch.amount().dimension == Dimension::Number;
            let mut anchors = self.anchors(sewn, from);
            if anchors.is_empty() {
                anchors.extend(self.station(sewn, from).and_then(|(side, station)| {
                    let own = lengths(sewn, side).0;
                    let far = if is_share { distance * own } else { distance };
                    let forward = way_from_inside(station, far, own)?;
                    Some(Anchor { side, station, forward, from_end: station > own / 2.0, hand: None })
                }));
            }
            for anchor in anchors {
                let Anchor { side, station, forward, from_end, .. } = anchor;
                let (own, other) = lengths(sewn, side);
                let distance = if is_share { distance * own } else { distance };
                let share = if side == 1 { 1.0 / share } else { share };
                let at = if forward { station + distance } else { station - distance };
                let across = match from_end {
                    true => other - (own - at) * share,
                    false => at * share,
                };
                if at < 0.0 || at > own || across < 0.0 || across > other {
                    continue;
                }
                let (first, second) = if side == 1 { (across, at) } else { (at, across) };
                pairs.push(Pair::said(notch, first, second));
            }
        }
    }
}
