//! What a maker does with Fustian, one file a topic.

mod alterations;
mod catalogue;
mod chain;
mod commands;
mod cutting;
mod damage;
mod documents;
mod drafting;
mod geometry;
mod lay_search;
mod lengthening;
mod measuring;
mod mistakes;
mod outlines;
mod reading;
mod readme;
mod reference;
mod slips;
mod variations;
mod zip_fits;
