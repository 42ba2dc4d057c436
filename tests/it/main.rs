//! What a maker does with Fustian, one file a topic.

mod catalogue;
mod chain;
mod commands;
mod cutting;
mod damage;
mod documents;
mod geometry;
mod mistakes;
mod reading;
mod reference;
mod seams;
mod slips;
mod variations;
