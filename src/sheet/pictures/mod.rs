//! Pictures of a sheet, drawn from the sewn surface of one size.
//!
//! Which scene is drawn follows from what is done and how the pieces lie, never from their names: pieces are laid edge to
//! edge where their edges fit, on one another where they lie under the needle, rolled out where lengths differ, and beside
//! one another with their edges marked where nothing else is true.

mod assembled;
mod body;
mod canvas;
mod closing;
mod clusters;
mod collars;
mod crowns;
mod doubled;
mod finishing;
mod fit;
mod flat;
mod folded;
mod ink;
mod laid;
mod layout;
mod making;
mod marking;
mod outside;
mod patches;
mod placing;
mod plies;
mod rolled;
mod scenes;
mod seam;
mod shut;
mod signs;
mod turning;
mod upright;
mod write;

pub use canvas::Caption;
pub use ink::{defs, style};
pub use write::WIDTH;

use super::{Differing, Facts};
use crate::report::DisplayUnit;
use crate::sewing::surface::Surface;
use canvas::{Mark, Panel};
use making::{Making, NEVER};

/// A picture, before it is written.
#[derive(Clone, Debug)]
pub struct Picture {
    panels: Vec<Panel>,
    unit: DisplayUnit,
}

impl Picture {
    /// The picture as SVG. `alt` is told to those who do not see it; `words` says what a scene is, nothing where nothing
    /// is to stand there. It names the classes and patterns of [`style`] and [`defs`].
    pub fn svg(&self, alt: &str, words: &dyn Fn(Caption) -> String) -> String {
        write::write(&self.panels, self.unit, alt, words)
    }

    /// Which scenes it shows, in their order.
    pub fn captions(&self) -> Vec<Caption> {
        self.panels.iter().filter_map(|panel| panel.caption).collect()
    }

    /// The letters of what is sewn in it, each once, in their order.
    pub fn letters(&self) -> Vec<String> {
        let marks = self.panels.iter().flat_map(|panel| &panel.marks);
        let mut letters: Vec<String> = Vec::new();
        for mark in marks {
            if let Mark::Tag { letter, .. } = mark
                && !letters.contains(letter)
            {
                letters.push(letter.clone());
            }
        }
        letters
    }

    /// The titles of the pieces in it, each once.
    pub fn pieces(&self) -> Vec<String> {
        let mut titles: Vec<String> = Vec::new();
        for label in self.panels.iter().flat_map(|panel| &panel.labels) {
            if !titles.contains(&label.title) {
                titles.push(label.title.clone());
            }
        }
        titles
    }
}

/// The pictures of a sheet.
#[derive(Clone, Debug, Default)]
pub struct Pictures {
    /// One a step, in the order of [`Facts::rows`]; none where words are all there is.
    pub steps: Vec<Option<Picture>>,
    /// The garment, front and back.
    pub garment: Option<Picture>,
}

impl Pictures {
    /// All pictures of a sheet.
    pub fn of(facts: &Facts) -> Pictures {
        Pictures::marking(facts, None)
    }

    /// The same, with what differs from a base marked on the garment.
    pub fn marking(facts: &Facts, differing: Option<&Differing>) -> Pictures {
        let nothing = Surface::default();
        let mut making = Making::new(facts, &nothing);
        making.differing = differing;
        let unit = facts.garment.unit;
        let picture = |panels: Vec<Panel>| {
            let panels: Vec<Panel> = panels.into_iter().filter(|panel| !panel.is_empty()).collect();
            (!panels.is_empty()).then_some(Picture { panels, unit })
        };
        let mut steps = Vec::with_capacity(facts.rows.len());
        for step in 0..facts.rows.len() {
            making.reach(step);
            steps.push(picture(scenes::step(&making, step)));
        }
        making.reach(NEVER);
        Pictures { steps, garment: picture(assembled::garment(&making)) }
    }
}
