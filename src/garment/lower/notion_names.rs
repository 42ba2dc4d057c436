//! What the words of a notion name: once, here, so that needs and prices meet as data.

use super::Lowering;
use crate::garment::{CordId, NotionKind, NotionName};
use crate::syntax::read_length;
use crate::syntax::tree::{Fastener, Unit, ZipperKind};

/// Words that add nothing to what a measure is of.
const FILLING: [&str; 4] = ["wide", "long", "finished", "of"];
const UNITS: [&str; 6] = ["mm", "cm", "m", "in", "ft", "yd"];

impl Lowering<'_> {
    /// Names every notion, once cords are known.
    pub(super) fn name_notions(&mut self) {
        for at in 0..self.garment.notions.len() {
            let notion = &self.garment.notions[at];
            let cord = |word: &str| {
                let mut cords = CordId::enumerate(&self.garment.cords);
                cords.find(|(_, cord)| cord.name.to_lowercase() == word).map(|(id, _)| id)
            };
            let name = notion_name(&notion.title, self.unit_at(notion.span), &cord);
            self.garment.notions[at].name = name;
        }
    }
}

/// What a title names: a kind of thing, and its measure in any unit (`2 cm`, `3/4in`, `¾"`; a bare
/// number is of `unit`). What reads as neither is a thing of that name.
pub(super) fn notion_name(title: &str, unit: Unit, cord: &dyn Fn(&str) -> Option<CordId>) -> NotionName {
    let lower = title.to_lowercase();
    let words: Vec<&str> =
        lower.split(|letter: char| letter.is_whitespace() || "()".contains(letter)).collect();
    let words: Vec<&str> =
        words.into_iter().map(|word| word.trim_end_matches(',')).filter(|word| !word.is_empty()).collect();
    let named = measured(&words, unit).and_then(|(measure, rest)| {
        let kind = kind_of(&rest, cord)?;
        // A cord is known by its name alone.
        (!(matches!(kind, NotionKind::Cord(_)) && measure.is_some())).then_some(NotionName { kind, measure })
    });
    let other = || NotionKind::Other(lower.split_whitespace().collect::<Vec<_>>().join(" ").into());
    named.unwrap_or_else(|| NotionName { kind: other(), measure: None })
}

/// The measure among words, and the other words; nothing where a measure cannot be read.
fn measured<'w>(words: &[&'w str], unit: Unit) -> Option<(Option<f64>, Vec<&'w str>)> {
    let is_number = |word: &&str| word.starts_with(|first: char| first.is_numeric());
    let mut rest: Vec<&str> = Vec::new();
    let mut measure = None;
    let mut at = 0;
    while let Some(&word) = words.get(at) {
        at += 1;
        if !is_number(&word) {
            if !FILLING.contains(&word) {
                rest.push(word);
            }
            continue;
        }
        let mut written = word.to_owned();
        // `1 1/2in`: a whole number and its fraction.
        if let Some(fraction) = words.get(at).filter(|next| is_number(next) && !word.contains(['/', '.'])) {
            written = format!("{written} {fraction}");
            at += 1;
        }
        if let Some(apart) = words.get(at).filter(|next| UNITS.contains(next)) {
            written += apart;
            at += 1;
        }
        let length = read_length(&written, unit).ok().filter(|length| *length > 0.0)?;
        if measure.replace(length).is_some() {
            return None;
        }
    }
    Some((measure, rest))
}

fn kind_of(words: &[&str], cord: &dyn Fn(&str) -> Option<CordId>) -> Option<NotionKind> {
    let zip = |word: &str| matches!(word, "zip" | "zips" | "zipper" | "zippers");
    Some(match words {
        [one] if zip(one) => NotionKind::Zip(None),
        ["separating", one] if zip(one) => NotionKind::Zip(Some(ZipperKind::Separating)),
        ["closed", one] if zip(one) => NotionKind::Zip(Some(ZipperKind::Closed)),
        ["concealed", one] if zip(one) => NotionKind::Zip(Some(ZipperKind::Concealed)),
        ["button" | "buttons"] => NotionKind::Fastener(Fastener::Button),
        ["snap" | "snaps"] => NotionKind::Fastener(Fastener::Snap),
        ["hook" | "hooks"] | ["hook" | "hooks", "and", "eye" | "eyes" | "bar" | "bars"] => {
            NotionKind::Fastener(Fastener::Hook)
        }
        ["toggle" | "toggles"] => NotionKind::Fastener(Fastener::Toggle),
        ["buckle" | "buckles"] => NotionKind::Fastener(Fastener::Buckle),
        ["tie" | "ties"] => NotionKind::Fastener(Fastener::Tie),
        ["elastic"] => NotionKind::Elastic,
        ["binding"] => NotionKind::Binding,
        ["tape"] => NotionKind::Tape,
        ["cord"] => NotionKind::Cord(None),
        ["cord", name] => NotionKind::Cord(Some(cord(name)?)),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(title: &str) -> (NotionKind, Option<f64>) {
        let cord = |word: &str| (word == "waist_cord").then_some(CordId::FIRST);
        let name = notion_name(title, Unit::Centimetre, &cord);
        (name.kind, name.measure.map(|measure| (measure * 1000.0).round() / 1000.0))
    }

    /// 1 in is 25.4 mm exactly (NIST SP 811, App. B).
    #[test]
    fn kind_and_measure_in_any_unit() {
        for (title, width) in [
            ("elastic 2 cm wide", 20.0),
            ("Elastic, 20mm", 20.0),
            ("3/4in elastic", 19.05),
            ("elastic 3/4 in wide", 19.05),
            ("¾\" elastic", 19.05),
            ("elastic 1 1/2 in", 38.1),
            ("elastic 2", 20.0),
        ] {
            assert_eq!(name(title), (NotionKind::Elastic, Some(width)), "{title}");
        }
        let fastener = NotionKind::Fastener;
        assert_eq!(name("button 15 mm"), (fastener(Fastener::Button), Some(15.0)));
        assert_eq!(name("snaps 12mm"), (fastener(Fastener::Snap), Some(12.0)));
        assert_eq!(name("hooks and eyes"), (fastener(Fastener::Hook), None));
        assert_eq!(name("buckle 1in"), (fastener(Fastener::Buckle), Some(25.4)));
        assert_eq!(name("binding, finished 1 cm wide"), (NotionKind::Binding, Some(10.0)));
        let separating = NotionKind::Zip(Some(ZipperKind::Separating));
        assert_eq!(name("separating zip"), (separating.clone(), None));
        assert_eq!(name("separating zip 65 cm long"), (separating, Some(650.0)));
        assert_eq!(name("zip"), (NotionKind::Zip(None), None));
        assert_eq!(name("cord (waist_cord)"), (NotionKind::Cord(Some(CordId::FIRST)), None));
    }

    #[test]
    fn what_reads_as_neither_is_a_thing_of_that_name() {
        for title in
            ["hanging loop", "button thread", "elastic 2 by 3 cm", "cord (neck)", "elastic .5 cm", "2"]
        {
            let (kind, measure) = name(title);
            assert_eq!((kind, measure), (NotionKind::Other(title.into()), None), "{title}");
        }
        assert_eq!(name("Hanging  Loop").0, NotionKind::Other("hanging loop".into()));
    }
}
