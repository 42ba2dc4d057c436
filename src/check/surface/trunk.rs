//! What is drawn to the trunk of a body.

use crate::garment::{Garment, PieceId, ValueId, ValueKind};

/// Girths of the trunk.
pub(in crate::check) const TRUNK: [&str; 9] =
    ["bust", "chest", "underbust", "waist", "belly", "hip", "hips", "seat", "stomach"];

/// Whether the body has a girth of the trunk by name.
pub(in crate::check) fn knows_trunk(garment: &Garment) -> bool {
    garment.values.iter().any(|value| is_trunk(&value.kind, &value.name))
}

/// Whether a value is a girth of the trunk.
pub(super) fn is_trunk(kind: &ValueKind, name: &str) -> bool {
    matches!(kind, ValueKind::Body(_)) && TRUNK.contains(&name)
}

/// All girths of the trunk that the body has.
pub(super) fn trunk_girths(garment: &Garment) -> Vec<ValueId> {
    let girths = ValueId::enumerate(&garment.values).filter(|(_, value)| is_trunk(&value.kind, &value.name));
    girths.map(|(id, _)| id).collect()
}

/// The girths of the trunk that pieces are drawn to, themselves or by way of other values.
pub(super) fn drawn_to_trunk(garment: &Garment, pieces: &[PieceId]) -> Vec<ValueId> {
    drawn_to_any(garment, pieces, &TRUNK)
}

/// Those measures of the body, by name, that pieces are drawn to, themselves or by way of other values.
pub(super) fn drawn_to_any(garment: &Garment, pieces: &[PieceId], names: &[&str]) -> Vec<ValueId> {
    let all = pieces.iter().flat_map(|&piece| garment.drawn_to(piece)).copied();
    let mut found: Vec<ValueId> = all.filter(|&id| names.contains(&&*garment.value(id).name)).collect();
    found.sort_unstable();
    found.dedup();
    found
}
