//! Lay plans: pieces placed on cloth, none over another, on as little length as can be found.
//!
//! The room takes outlines in and gives placements out; it knows nothing of garments, sizes or
//! text, and has no clock: work is counted, not timed. x runs along the cloth, y across it; all
//! lengths are millimetres.
//!
//! How a plan is found:
//! 1. `request` checks what was asked for; `pose` turns every outline every way it may lie.
//! 2. `convex` and `depth` prepare, for any two poses, how deep one lies in the other.
//! 3. `start` lays the pieces one after another, the largest first, each as far left as it goes;
//!    `rectangles` puts them together as such where they all are.
//! 4. `strive` shortens the cloth a little and lets `separate` push the overlaps out again,
//!    under weights that grow where an overlap persists (guided local search), over and over.
//! 5. `collision` holds the true outlines: a layout is a plan only where they are clear of each
//!    other, and the best plan is pushed together by them; [`verify`] measures the finished one
//!    once more.

mod board;
mod collision;
mod convex;
mod depth;
mod direct;
mod island;
mod outline;
mod overlap;
mod pose;
mod random;
mod rectangles;
mod relocate;
mod request;
mod separate;
mod start;
mod strive;
mod table;
mod verify;

pub use request::{
    Allowance, ClothEdge, Effort, Item, LayError, Placement, Plan, Progress, Repeat, Request, Turn,
};
pub use strive::search;
pub use verify::{Fault, placed_outline, verify};
