//! What the marks of a piece have in common.

/// How far a notch goes in on an edge that has no allowance, in millimetres: common practice.
pub(super) const WITHOUT_ALLOWANCE: f64 = 4.0;

/// `pocket_corner` as people read it.
pub(super) fn words(name: &str) -> String {
    name.replace('_', " ")
}
