//! Files that lead round to themselves.

use super::{Link, LinkWord, Loading};
use crate::report::{Diagnostic, catalogue};
use crate::source::FileId;

impl Loading<'_> {
    /// Reports a circle: `way` leads from the first file on, and its last file names `again`, which is on it.
    pub(super) fn circle(&mut self, way: &[FileId], again: FileId, closing: Link) {
        let from = way.iter().position(|&id| id == again).unwrap_or(0);
        let round = way.get(from..).unwrap_or_default();
        let name = |id: FileId| self.map.file(id).name.to_string();
        let onward: Vec<Link> = round.windows(2).filter_map(|pair| self.link_between(pair)).collect();
        let words = onward.iter().chain([&closing]).map(|link| link.by);
        let mut round_trip = String::new();
        for (&id, word) in round.iter().zip(words.clone()) {
            let word = if word == LinkWord::Of { "is of" } else { "is with" };
            round_trip.push_str(&format!("{} {word} ", name(id)));
        }
        round_trip.push_str(&name(again));
        let only_bases = words.clone().all(|word| word == LinkWord::Of);
        let title = match (round.len(), only_bases) {
            (1, true) => format!("{} is a variation of itself", name(again)),
            (1, false) => format!("{} is combined with itself", name(again)),
            (_, true) => format!("the bases go round in a circle: {round_trip}"),
            (_, false) => format!("the files go round in a circle: {round_trip}"),
        };
        let mut mistake =
            Diagnostic::new(&catalogue::FILE_CIRCLE, closing.span, title).label("this closes the circle");
        for link in &onward {
            mistake = mistake.also(link.span, "leads on from here");
        }
        let help = match only_bases {
            true => "one of them must be a garment and not a variation",
            false => "take one of these files out of the others' headings",
        };
        self.chain.mistakes.push(mistake.help(help));
    }

    fn link_between(&self, pair: &[FileId]) -> Option<Link> {
        let [from, to] = pair else { return None };
        self.named.get(from)?.links().find(|(id, _)| id == to).map(|(_, link)| link)
    }
}
