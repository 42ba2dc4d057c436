//! What is drawn to the trunk of a body.

use crate::garment::{Garment, PieceId, Used, ValueId, ValueKind};
use std::collections::HashSet;

/// Girths of the trunk.
pub(in crate::check) const TRUNK: [&str; 9] =
    ["bust", "chest", "underbust", "waist", "belly", "hip", "hips", "seat", "stomach"];

/// Whether the body has a girth of the trunk by name.
pub(super) fn knows_trunk(garment: &Garment) -> bool {
    garment.values.iter().any(|value| is_trunk(&value.kind, &value.name))
}

/// Whether a value is a girth of the trunk.
pub(super) fn is_trunk(kind: &ValueKind, name: &str) -> bool {
    matches!(kind, ValueKind::Body(_)) && TRUNK.contains(&name)
}

/// The girths of the trunk that pieces are drawn to, themselves or by way of other values.
pub(super) fn drawn_to_trunk(garment: &Garment, pieces: &[PieceId]) -> Vec<ValueId> {
    drawn_to_any(garment, pieces, &TRUNK)
}

/// Those measures of the body, by name, that pieces are drawn to, themselves or by way of other values.
pub(super) fn drawn_to_any(garment: &Garment, pieces: &[PieceId], names: &[&str]) -> Vec<ValueId> {
    let values = |used: Used| if let Used::Value(value) = used { Some(value) } else { None };
    let drawings = pieces.iter().flat_map(|&piece| garment.piece(piece).drawing.expressions());
    let mut open: Vec<ValueId> =
        drawings.flat_map(|expression| expression.uses()).filter_map(values).collect();
    let mut seen: HashSet<ValueId> = HashSet::new();
    let mut found = Vec::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let value = garment.value(id);
        if matches!(value.kind, ValueKind::Body(_)) && names.contains(&&*value.name) {
            found.push(id);
        }
        let expressions = value.kind.expressions();
        open.extend(expressions.into_iter().flat_map(|expression| expression.uses()).filter_map(values));
    }
    found
}
