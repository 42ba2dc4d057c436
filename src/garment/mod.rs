//! Names found, units known, the variation merged, and the plan made.
