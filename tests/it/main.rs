//! What a maker does with Fustian, one file a topic.

mod damage;
mod geometry;
mod reading;
mod slips;
