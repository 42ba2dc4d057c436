//! One size in, one drawn garment out.
