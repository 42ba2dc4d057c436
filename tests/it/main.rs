//! What a maker does with Fustian, one file a topic.

mod catalogue;
mod chain;
mod commands;
mod damage;
mod documents;
mod geometry;
mod lay_search;
mod reading;
mod reference;
mod slips;
mod variations;
