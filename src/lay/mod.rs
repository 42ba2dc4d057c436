//! Lay plans: pieces placed on cloth, none over another, on as little length as can be found.
//!
//! The room takes outlines in and gives placements out; it knows nothing of garments, sizes or
//! text, and has no clock: work is counted, not timed. x runs along the cloth, y across it; all
//! lengths are millimetres.
//!
//! How a plan is found:
//! 1. `request` checks what was asked for; `orientation` turns every outline every way it may lie.
//! 2. `convex` and `depth` prepare, for any two orientations of pieces, how deep one lies in the other.
//! 3. `construct` lays the pieces one after another, the largest first, each as far left as it goes;
//!    `rectangles` puts them together as such where they all are.
//! 4. `search` shortens the cloth a little and lets `separate` push the overlaps out again,
//!    under weights that grow where an overlap persists (guided local search), over and over;
//!    a piece's new place is looked for all over the cloth at once (`grid`, `field`, `sample`);
//!    `press` moves all pieces at once where hardly more is wrong than that they lie too close;
//!    `either` searches two ways to lie and goes on with the shorter.
//! 5. `collision` holds the true outlines: a layout is a plan only where they are clear of each
//!    other, and the best plan is pushed together by them; [`verify`] measures the finished one
//!    once more.

mod collision;
mod construct;
mod convex;
mod depth;
mod direct;
mod either;
mod field;
mod grid;
mod half_planes;
mod near;
mod orientation;
mod outline;
mod overlap;
mod press;
mod random;
mod rectangles;
mod request;
mod sample;
mod search;
mod separate;
#[cfg(test)]
mod squares;
mod state;
mod table;
mod verify;
mod worker;

pub use either::{Join, search_either};
pub use request::{
    Allowance, ClothEdge, Effort, Item, LayError, Placement, Plan, Progress, Repeat, Request, Turn,
};
pub use search::search;
pub use verify::{Fault, placed_outline, verify};
