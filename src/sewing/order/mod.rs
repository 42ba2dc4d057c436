//! The order of work: all that is to be done, what has to be done before what, and an order that obeys.
//!
//! [`Work`] lists the jobs of a garment, [`Rules`] which of them waits for which, and a [`Schedule`] says when
//! each is done. Checks hold the maker's steps against the rules; [`worked_out`] finds what the maker left out.

mod buttons;
mod covered;
mod doing;
mod graph;
mod jobs;
mod joining;
mod joints;
mod meeting;
mod notions;
mod placed;
mod reach;
mod rings;
mod rule;
mod schedule;
mod stitched;
mod timetable;
mod why;
mod zips;

pub use doing::{Called, Doing};
pub use graph::{Given, Graph, Need};
pub use jobs::{Job, Jobs, Work};
pub use meeting::{Corner, Meeting};
pub use reach::{Reach, stitchings_of};
pub use rule::{Broken, Needs, Rule, Rules};
pub use schedule::{Act, Noted, Schedule, Slip, SlipOfStep, When};
pub use timetable::Timetable;
pub use why::Why;
