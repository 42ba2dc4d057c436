//! Pure geometry: knows nothing of garments, sizes or text. Lengths are millimetres, y is up.
