//! What a maker does with Fustian, one file a topic.

mod chain;
mod damage;
mod geometry;
mod mistakes;
mod reading;
mod slips;
mod variations;
