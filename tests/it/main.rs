//! What a maker does with Fustian, one file a topic.

mod alterations;
mod beginning;
mod building;
mod catalogue;
mod chain;
mod commands;
mod comparing;
mod cutting;
mod damage;
mod documents;
mod drafting;
mod geometry;
mod lengthening;
mod mistakes;
mod outlines;
mod packing;
mod reading;
mod reference;
mod slips;
mod tidying;
mod tree_round_trip;
mod tree_text;
mod variations;
mod watching;
mod workbench;
mod zip_fits;
