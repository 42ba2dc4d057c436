//! Rows of topstitching and understitching, and tacks, in the document.

use super::documents::{StitchedRowDocument, TackDocument};
use super::number::Figure;
use super::openings::said;
use crate::garment::{Garment, RowId, TackEnd, TackSpot};
use crate::resolve::SizedGarment;
use crate::sewing::{PartId, Sewing, amount_of};

/// The rows of a size.
pub(super) fn rows(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<StitchedRowDocument> {
    let finder = sewing.finder(garment, sized);
    let document = |(id, row): (RowId, &crate::garment::StitchedRow)| {
        let (mut length, mut count) = (0.0, 0);
        for (part, sewn) in PartId::enumerate(&sewing.parts) {
            let own = || sewn.rows.iter().filter(|own| own.row == id);
            length += own().map(|own| own.length).sum::<f64>() * f64::from(finder.times(part));
            let beside_one = own().next().map_or(0, |first| {
                own().filter(|other| (other.edge, other.along) == (first.edge, first.along)).count()
            });
            count = count.max(beside_one);
        }
        StitchedRowDocument {
            name: row.name.to_string(),
            kind: row.kind.word().to_owned(),
            along: row.edges.iter().map(|edge| said(garment, &[edge.sewn], "")).collect(),
            distance: amount_of(garment, sized, &row.distance).map(Figure),
            rows: count as u32,
            stitch: row.stitch.as_ref().map(|stitch| stitch.number),
            length: Figure(length),
        }
    };
    RowId::enumerate(&garment.rows).map(document).collect()
}

/// The tacks of a size.
pub(super) fn tacks(garment: &Garment, sized: &SizedGarment) -> Vec<TackDocument> {
    let place = |end: &TackEnd| {
        let part = garment.part_name(end.layer, end.piece);
        match &end.spot {
            TackSpot::Point(point) => format!("{part}.{}", garment.point(*point).name),
            TackSpot::Edge(edge, _) => format!("{part}.{}", garment.edge(*edge).name),
        }
    };
    let tacks = garment.tacks.iter().map(|tack| TackDocument {
        name: tack.name.to_string(),
        holds: tack.ends.iter().map(place).collect(),
        bar: tack.bar.as_ref().and_then(|bar| amount_of(garment, sized, bar)).map(Figure),
    });
    tacks.collect()
}
