//! Checks: one small file a family.
