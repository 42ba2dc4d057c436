//! The order of work: all that is to be done, what has to be done before what, and an order that obeys.
//!
//! [`Work`] lists the jobs of a garment, [`Rules`] which of them waits for which, and a [`Schedule`] says when
//! each is done. Checks hold the maker's steps against the rules; [`find`] finds what the maker left out;
//! a [`Plan`] is all of it as steps.

mod arranged;
mod as_said;
mod bags;
mod buttons;
mod closed_straps;
mod covered;
mod doing;
mod found;
mod graph;
mod jobs;
mod joining;
mod joints;
mod joints_of_rings;
mod meeting;
mod met;
mod notions;
mod phase;
mod piping;
mod pivots;
mod placed;
mod plan;
mod planned;
mod reach;
mod rings;
mod rows_over;
mod rule;
mod rules;
mod schedule;
mod set_within;
mod shut_in;
mod solve;
mod stitched;
mod timetable;
mod titles;
mod why;
mod zips;

pub(crate) use crate::sewing::seam_kinds::BY_HAND;
pub use arranged::arranged;
pub use bags::{Bags, Shutting};
pub use closed_straps::{ClosedStrap, DrawnStrap, closed_straps, drawn_straps};
pub use doing::{Called, Doing};
pub use found::{Found, Reason, Reasons, broken_by, find};
pub use graph::{Given, Graph, Need};
pub use jobs::{Job, Jobs, Work};
pub use meeting::{Corner, Meeting};
pub(crate) use phase::is_band;
pub use phase::{Phase, Phases};
pub use piping::laid_in;
pub use plan::{Completion, is_unclear, plan};
pub use planned::{Plan, PlannedAction, PlannedGroup, PlannedTarget};
pub use reach::{Reach, stitchings_of};
pub use rows_over::{beside, rows_that_shut};
pub use rule::{Needs, Rule};
pub use rules::{Broken, Rules};
pub use schedule::{Act, Item, Noted, Schedule, Slip, SlipOfStep, When};
pub use shut_in::{ShutIn, shut_in};
pub use solve::{Key, Ordered, Solving};
pub use timetable::Timetable;
pub use titles::GroupTitle;
pub use why::Why;
