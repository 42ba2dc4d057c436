//! The one in the middle.

/// Of numbers the one that as many are less than as are more; of an even count the upper of the two, 0 of none.
pub fn median(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied().unwrap_or(0.0)
}
