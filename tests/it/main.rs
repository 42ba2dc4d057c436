//! What a maker does with Fustian, one file a topic.

mod alterations;
mod bad_input;
mod catalogue;
mod chain;
mod commands;
mod cutting;
mod damage;
mod documents;
mod drafted;
mod drafting;
mod geometry;
mod handbook;
mod identities;
mod lengthening;
mod measuring;
mod mistakes;
mod mutations;
mod outlines;
mod reading;
mod readme;
mod reference;
mod slips;
mod speed;
mod variations;
mod zip_fits;
