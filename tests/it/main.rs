//! What a maker does with Fustian, one file a topic.

mod alterations;
mod catalogue;
mod chain;
mod commands;
mod cutting;
mod cutting_lines;
mod damage;
mod documents;
mod drafting;
mod geometry;
mod lengthening;
mod measuring;
mod mistakes;
mod nothing_unnoticed;
mod outlines;
mod reading;
mod readme;
mod reference;
mod slips;
mod variations;
mod zip_fits;
