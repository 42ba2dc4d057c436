//! What a maker does with Fustian, one file a topic.

mod damage;
mod reading;
mod slips;
