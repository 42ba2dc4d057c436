//! Outputs: one file each.
