//! Where things stand: the garment's head, its sizes and layers, and what is said of the newest text.

use super::said::{MessageView, messages};
use super::shown::Preview;
use crate::report::{Severity, summary};
use serde::Serialize;

/// Which garment is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Standing {
    /// That of the newest text.
    Sound,
    /// That of the last text that was sound; the newest is not.
    Broken,
    /// What can be shown of a draft of which no text was sound yet.
    Draft,
}

/// Where things stand.
#[derive(Clone, Debug, Serialize)]
pub struct StandingView {
    /// Tells one run of the program from the next.
    pub run: String,
    /// Counts the texts.
    pub serial: u64,
    /// The text of which the garment is shown.
    pub shown: u64,
    /// Which garment is shown.
    pub standing: Standing,
    /// The file as it was named.
    pub file: String,
    /// Files of the newest text.
    pub files: Vec<String>,
    /// What the garment is called.
    pub title: String,
    /// What is said about it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub about: Option<String>,
    /// Who drew it and the like.
    pub credits: String,
    /// Its sizes, smallest first.
    pub sizes: Vec<String>,
    /// Whether it has to be said which size something is of.
    pub names_sizes: bool,
    /// Its layers.
    pub layers: Vec<LayerView>,
    /// "2 mistakes, 1 warning"; nothing where there is nothing to fix.
    pub summary: String,
    /// How many of the messages are mistakes.
    pub mistakes: usize,
    /// The first messages.
    pub messages: Vec<MessageView>,
    /// How many there are beyond them.
    pub more: usize,
}

/// A layer.
#[derive(Clone, Debug, Serialize)]
pub struct LayerView {
    /// Its name.
    pub name: String,
    /// What it is cut from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cloth: Option<String>,
}

impl Preview {
    /// Where things stand.
    pub fn standing(&self) -> StandingView {
        let (garment, newest) = (self.shown.garment(), &self.newest);
        let is_mistake = |severity: Severity| severity == Severity::Mistake;
        let found = messages(&newest.map, &newest.diagnostics);
        StandingView {
            run: self.run.to_string(),
            serial: self.serial,
            shown: self.shown.serial,
            standing: match (self.shown.is_unfinished(), self.shown.serial == self.serial) {
                (true, _) => Standing::Draft,
                (false, true) => Standing::Sound,
                (false, false) => Standing::Broken,
            },
            file: self.file.to_string(),
            files: newest.map.files().iter().map(|file| file.name.to_string()).collect(),
            title: garment.title.to_string(),
            about: garment.about.as_deref().map(str::to_owned),
            credits: garment.credits.line(),
            sizes: garment.sizes.iter().map(|size| size.name.to_string()).collect(),
            names_sizes: garment.names_sizes(),
            layers: garment
                .layers
                .iter()
                .map(|layer| LayerView {
                    name: layer.name.to_string(),
                    cloth: layer.fabric.map(|fabric| garment.fabric(fabric).title.to_string()),
                })
                .collect(),
            summary: summary(&newest.diagnostics).unwrap_or_default(),
            mistakes: newest.diagnostics.iter().filter(|one| is_mistake(one.severity())).count(),
            more: newest.diagnostics.len() - found.len(),
            messages: found,
        }
    }
}
