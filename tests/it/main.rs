//! What a maker does with Fustian, one file a topic.

mod alterations;
mod buttons;
mod catalogue;
mod cautions;
mod chain;
mod commands;
mod cutting;
mod cutting_lines;
mod damage;
mod documents;
mod drafting;
mod fates;
mod geometry;
mod lengthening;
mod measuring;
mod mistakes;
mod nothing_unnoticed;
mod outlines;
mod reading;
mod readme;
mod reference;
mod seams;
mod slips;
mod steps;
mod variations;
mod zip_fits;
