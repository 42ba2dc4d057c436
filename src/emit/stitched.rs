//! Rows of topstitching and understitching, and tacks, in the document.

use super::documents::{RowPlaceDocument, SetDocument, StitchedRowDocument, TackDocument, TackPlaceDocument};
use super::number::Figure;
use super::openings::said;
use super::outline::point;
use super::seams::hand;
use crate::garment::{EdgeId, Garment, RowId, TackEnd, TackId, TackSpot};
use crate::resolve::SizedGarment;
use crate::sewing::{PartId, Sewing, SewnPart, amount_of, set_count};

/// The rows of a size.
pub(super) fn rows(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<StitchedRowDocument> {
    let finder = sewing.finder(garment, sized);
    let document = |(id, row): (RowId, &crate::garment::StitchedRow)| {
        let (mut length, mut count) = (0.0, 0);
        for (part, sewn) in PartId::enumerate(&sewing.parts) {
            let own = || sewn.rows.iter().filter(|own| own.row == id);
            let lines = sewn.line_rows.iter().filter(|own| own.row == id).map(|own| own.length);
            let all = own().map(|own| own.length).chain(lines.clone()).sum::<f64>();
            length += all * f64::from(finder.times(part));
            count = count.max(lines.count().min(1));
            let beside_one = own().next().map_or(0, |first| {
                own().filter(|other| (other.edge, other.along) == (first.edge, first.along)).count()
            });
            count = count.max(beside_one);
        }
        StitchedRowDocument {
            name: row.name.to_string(),
            kind: row.kind.word().to_owned(),
            along: row.edges.iter().map(|edge| said(garment, &[edge.sewn], "")).collect(),
            distance: row.distance.as_ref().and_then(|said| amount_of(garment, sized, said)).map(Figure),
            rows: count as u32,
            apart: row
                .rows
                .as_ref()
                .filter(|_| count > 1)
                .and_then(|(_, apart)| amount_of(garment, sized, apart))
                .map(Figure),
            stitch: row.stitch.as_ref().map(|stitch| stitch.number),
            length: Figure(length),
            places: sewing.parts.iter().flat_map(|part| places(garment, sized, part, id)).collect(),
        }
    };
    RowId::enumerate(&garment.rows).map(document).collect()
}

/// Where a row lies on a part.
fn places(garment: &Garment, sized: &SizedGarment, part: &SewnPart, id: RowId) -> Vec<RowPlaceDocument> {
    let drawn = sized.paper(part.part.paper);
    let place = |edge: EdgeId, distance, along: Option<(f64, f64)>, length| RowPlaceDocument {
        part: garment.part_name(Some(part.part.layer), part.part.piece),
        hand: part.hand.map(hand),
        edge: garment.edge(edge).name.to_string(),
        distance,
        run: along.map(|(from, to)| [Figure(from), Figure(to)]),
        length: Figure(length),
    };
    let beside = part.rows.iter().filter(|row| row.row == id).filter_map(|row| {
        let edge = drawn?.edge_at(row.edge)?.edge;
        Some(place(edge, Some(Figure(row.distance)), row.along, row.length))
    });
    let lines = part.line_rows.iter().filter(|row| row.row == id);
    beside.chain(lines.map(|row| place(row.line, None, None, row.length))).collect()
}

/// The tacks of a size.
pub(super) fn tacks(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<TackDocument> {
    let tacks = TackId::enumerate(&garment.tacks).filter(|(_, tack)| tack.sets.is_none());
    let tacks = tacks.map(|(id, tack)| TackDocument {
        name: tack.name.to_string(),
        holds: tack.ends.iter().map(|end| place_words(garment, end)).collect(),
        places: tack_places(garment, sewing, id),
        bar: tack.bar.as_ref().and_then(|bar| amount_of(garment, sized, bar)).map(Figure),
    });
    tacks.collect()
}

/// What is set in a size.
pub(super) fn sets(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<SetDocument> {
    let finder = sewing.finder(garment, sized);
    let sets =
        TackId::enumerate(&garment.tacks).filter_map(|(id, tack)| Some((id, tack, tack.sets.as_ref()?)));
    let sets = sets.map(|(id, tack, set)| SetDocument {
        name: tack.name.to_string(),
        notion: set.notion.map(|notion| garment.notion(notion).title.to_string()),
        count: set_count(garment, sized, &finder, sewing.surface.as_ref(), tack),
        at: tack.ends.iter().map(|end| place_words(garment, end)).collect(),
        places: tack_places(garment, sewing, id),
    });
    sets.collect()
}

/// Where a tack lies on each part.
fn tack_places(garment: &Garment, sewing: &Sewing, id: TackId) -> Vec<TackPlaceDocument> {
    let own = sewing
        .parts
        .iter()
        .flat_map(|part| part.tacks.iter().filter(move |own| own.tack == id).map(move |own| (part, own.at)));
    let places = own.map(|(part, at)| TackPlaceDocument {
        part: garment.part_name(Some(part.part.layer), part.part.piece),
        hand: part.hand.map(hand),
        at: point(at),
    });
    places.collect()
}

fn place_words(garment: &Garment, end: &TackEnd) -> String {
    let part = garment.part_name(end.layer, end.piece);
    match &end.spot {
        TackSpot::Point(point) => format!("{part}.{}", garment.point(*point).name),
        TackSpot::Edge(edge, _) => format!("{part}.{}", garment.edge(*edge).name),
    }
}
