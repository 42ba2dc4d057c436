//! What differs from the base that a garment is a variation of, piece by piece and edge by edge, as pictures mark it.

use super::base::Differences;
use crate::emit::{Change, Differs, Fate};
use crate::garment::{Garment, Part};

/// A length that differs by less is not marked, in millimetres: half of what is written.
const NOTHING: f64 = 0.5;

/// The pieces and edges that differ, by the names that the document gives them.
#[derive(Clone, Debug, Default)]
pub struct Differing {
    added: Vec<String>,
    changed: Vec<(String, Vec<String>)>,
}

impl Differing {
    /// Of what differs; of an edge in the size that pictures show.
    pub(super) fn of(differences: &Differences, shown: &str) -> Differing {
        let mut differing = Differing::default();
        let changes = || differences.comparison.changes.get("pieces").into_iter().flatten();
        // A piece of which left and right are told apart here, or no longer, is there on both.
        let gone: Vec<&str> =
            changes().filter(|one| one.change == Fate::Gone).map(|one| part_of(&one.name)).collect();
        for change in changes() {
            let part = part_of(&change.name).to_owned();
            match change.change {
                Fate::Added if gone.contains(&part.as_str()) => differing.changed.push((part, Vec::new())),
                Fate::Added => differing.added.push(part),
                Fate::Changed => differing.changed.push((part, edges(change, shown))),
                Fate::Gone => {}
            }
        }
        for moved in differences.moved.iter().filter(|moved| moved.size == shown) {
            match differing.changed.iter_mut().find(|(part, _)| *part == moved.part) {
                Some((_, names)) => names.push(moved.edge.clone()),
                None if differing.added.contains(&moved.part) => {}
                None => differing.changed.push((moved.part.clone(), vec![moved.edge.clone()])),
            }
        }
        differing
    }

    /// Whether no piece differs.
    pub fn is_empty(&self) -> bool {
        self.added.is_empty() && self.changed.is_empty()
    }

    /// Whether the base has no such part.
    pub fn is_added(&self, garment: &Garment, part: Part) -> bool {
        self.added.contains(&garment.part_name(Some(part.layer), part.piece))
    }

    /// Whether the base has that part, otherwise.
    pub fn is_changed(&self, garment: &Garment, part: Part) -> bool {
        let name = garment.part_name(Some(part.layer), part.piece);
        self.changed.iter().any(|(own, _)| *own == name)
    }

    /// What of a changed part is said to differ: edges are among it, by their names.
    pub fn names<'d>(&'d self, garment: &Garment, part: Part) -> impl Iterator<Item = &'d str> + use<'d> {
        let name = garment.part_name(Some(part.layer), part.piece);
        let own = self.changed.iter().filter(move |(own, _)| *own == name);
        own.flat_map(|(_, names)| names.iter().map(String::as_str))
    }

    /// Whether an edge of a part is longer or shorter than on the base, lies elsewhere on its piece, or is not there.
    pub fn has_edge(&self, garment: &Garment, part: Part, edge: &str) -> bool {
        self.names(garment, part).any(|own| own == edge)
    }
}

/// The name of a part without the side of the body that it is for.
pub(super) fn part_of(name: &str) -> &str {
    name.split(' ').next().unwrap_or_default()
}

/// What of a piece differs by a length that shows, or is new, in that size.
fn edges(change: &Change, shown: &str) -> Vec<String> {
    let differs = |differs: &Differs| match differs {
        Differs::Length { old: Some(old), new: Some(new) } => {
            (old.rounded() - new.rounded()).abs() >= NOTHING
        }
        Differs::Length { old, new } => old.is_none() && new.is_some(),
        Differs::Words { old, new } => old.is_none() && new.is_some(),
        Differs::Redrawn { .. } => false,
    };
    let own = change.facts.iter().filter(|fact| fact.sizes.get(shown).is_some_and(differs));
    own.map(|fact| fact.what.clone()).collect()
}
