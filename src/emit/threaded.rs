//! Cords and elastic in the document.

use super::documents::{ChannelDocument, CordDocument, ElasticDocument};
use super::number::Figure;
use super::openings::said;
use crate::garment::{CordId, Expression, FinishId, Garment};
use crate::resolve::SizedGarment;
use crate::sewing::{RunsThrough, Sewing, amount_of};

/// The cords of a size.
pub(super) fn cords(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<CordDocument> {
    let long = |amount: &Expression| amount_of(garment, sized, amount).map(Figure);
    let cords = CordId::enumerate(&garment.cords);
    cords
        .map(|(id, cord)| CordDocument {
            name: cord.name.to_string(),
            length: long(&cord.length),
            ends: cord.ends.as_ref().and_then(long),
            through: cord.through.iter().map(|sewn| said(garment, &[*sewn], "")).collect(),
            channels: channels(sewing, RunsThrough::Cord(id)),
        })
        .collect()
}

/// The elastic of a size.
pub(super) fn elastic(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<ElasticDocument> {
    let long = |amount: &Expression| amount_of(garment, sized, amount).map(Figure);
    let finishes = FinishId::enumerate(&garment.finishes);
    finishes
        .filter_map(|(id, finish)| {
            let (width, length) = finish.kind.elastic()?;
            Some(ElasticDocument {
                name: said(garment, &finish.edges, ", "),
                width: long(width),
                length: long(length),
                channels: channels(sewing, RunsThrough::Elastic(id)),
            })
        })
        .collect()
}

fn channels(sewing: &Sewing, of: RunsThrough) -> Option<Vec<ChannelDocument>> {
    let own = sewing.channels.as_ref()?.iter().filter(|channel| channel.of == of);
    Some(own.map(|own| ChannelDocument { length: Figure(own.length), ring: own.ring }).collect())
}
