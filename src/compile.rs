//! The whole journey, from a file's name to a compiled garment and its report.

/// A compiled garment.
pub struct Compiled {}

/// Compiles.
pub fn compile() -> Compiled {
    Compiled {}
}
