//! What a maker may write wrongly: every seam, finish, placement, closure, opening, cord, strap, row of stitching,
//! take-up, notion and step of every example is changed in each way that a slip of the pen or of the mind changes it.
//! Each change is noticed, or it is sound, and then a rule of [`SOUND`] says why.
//!
//! The text is changed, not the model. Both ways are held: what a rule calls sound is not refused.

mod changes;
mod sound;
mod statements;
mod walked;

use changes::{Change, changes};
use rayon::prelude::*;
use sound::{NOTICED, SOUND};
use std::collections::{BTreeMap, BTreeSet};
use walked::{Walked, own, part_of};

/// Whether words are as a pattern says, in which `*` stands for anything.
fn is_like(words: &str, pattern: &str) -> bool {
    let mut parts = pattern.split('*');
    let Some(mut rest) = parts.next().and_then(|first| words.strip_prefix(first)) else { return false };
    let parts: Vec<&str> = parts.collect();
    for (at, part) in parts.iter().enumerate() {
        if at + 1 == parts.len() {
            return rest.ends_with(part);
        }
        let Some(found) = rest.find(part) else { return false };
        rest = &rest[found + part.len()..];
    }
    rest.is_empty()
}

/// The rule, and which of its words, by their places.
fn reason(change: &Change) -> Option<(usize, usize)> {
    let what = format!("{}: {}", change.walked.file, change.what);
    if NOTICED.iter().any(|(way, pattern)| *way == change.way && is_like(&what, pattern)) {
        return None;
    }
    SOUND.iter().enumerate().find_map(|(at, sound)| {
        let of_way = sound.way == change.way;
        Some((at, sound.what.iter().position(|pattern| of_way && is_like(&what, pattern))?))
    })
}

/// Each change of these is noticed or sound; at least so many are made, as many as when the rules were last read.
fn hold(walked: &[Walked], at_least: usize) {
    let all: Vec<Change> = walked.iter().copied().flat_map(changes).collect();
    // What a variation says of itself is no news.
    let own: BTreeMap<&str, Vec<String>> =
        walked.iter().map(|walked| (walked.file, walked.said(walked.text()))).collect();
    let told = all.par_iter().map(|change| {
        let mut told = change.walked.said(&change.text());
        told.retain(|one| !own[change.walked.file].contains(one));
        told
    });
    let told: Vec<Vec<String>> = told.collect();
    let mut wrong = Vec::new();
    for (change, told) in all.iter().zip(&told) {
        let name = format!("{}: {:?}: {}", change.walked.file, change.way, change.what);
        match (reason(change), told.is_empty()) {
            (None, false) | (Some(_), true) => {}
            (None, true) => wrong.push(format!("not noticed: {name}")),
            (Some((at, _)), false) => {
                let because = SOUND[at].because;
                wrong.push(format!("sound, for {because}; and refused: {name}\n    {}", told.join("\n    ")));
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "of {} changes {} are not as said:\n{}",
        all.len(),
        wrong.len(),
        wrong.join("\n")
    );
    assert!(all.len() >= at_least, "{} changes were made", all.len());
}

const DECK: &[Walked] = &[
    own("deck-smock", "M"),
    own("deck-zip", "M"),
    own("deck-hood", "M"),
    own("deck-storm-smock", "M"),
    own("deck-waistcoat", "M"),
];
const LINED: &[Walked] =
    &[own("deck-lined", "M"), own("mess-jacket", "M"), part_of("crew-library", "mess-jacket")];
const SKIRTS: &[Walked] = &[
    own("mess-skirt", "M"),
    own("mess-skirt-lined", "M"),
    own("mess-skirt-vent", "M"),
    own("mess-skirt-side", "M"),
    own("galley-apron", "one"),
];
const TROUSERS: &[Walked] = &[
    own("oilskin-trousers", "M"),
    own("mate-trousers", "M"),
    own("mate-trousers-fly", "M"),
    own("mate-trousers-jetted", "M"),
];
const SHIRTS: &[Walked] =
    &[own("purser-shirt", "M"), own("purser-shirt-placket", "M"), own("purser-shirt-band", "M")];
const STEWARDS: &[Walked] = &[
    own("steward-bodice", "M"),
    own("steward-bodice-faced", "M"),
    own("steward-princess", "M"),
    own("bias-slip", "M"),
];
const KNITS: &[Walked] = &[
    own("raglan-jersey", "M"),
    own("raglan-mate", "M"),
    part_of("crew-badge", "raglan-mate"),
    own("watch-cap", "M"),
    own("storm-hat", "M"),
    own("ticket-bag", "small"),
];
/// Examples in which nothing is sewn, finished, placed or done that is not said in another.
const SAY_NOTHING: [&str; 4] = ["deck-jacket", "deck-longer", "deck-cropped", "second-mate"];
const ALL: [&[Walked]; 7] = [DECK, LINED, SKIRTS, TROUSERS, SHIRTS, STEWARDS, KNITS];

#[test]
fn every_example_is_walked() {
    let walked = ALL.iter().copied().flatten().map(|one| one.file.to_owned());
    let walked: BTreeSet<String> = walked.chain(SAY_NOTHING.map(str::to_owned)).collect();
    assert_eq!(walked, walked::examples().into_iter().collect());
    for silent in SAY_NOTHING {
        assert!(changes(own(silent, "M")).is_empty(), "{silent} says something of its own");
    }
}

#[test]
fn each_rule_is_needed() {
    let all: Vec<Change> = ALL.iter().copied().flatten().copied().flat_map(changes).collect();
    let used: BTreeSet<(usize, usize)> = all.iter().filter_map(reason).collect();
    for (at, sound) in SOUND.iter().enumerate() {
        for (nth, pattern) in sound.what.iter().enumerate() {
            assert!(used.contains(&(at, nth)), "no change is as this says: {:?} {pattern}", sound.way);
        }
    }
}

#[test]
fn each_change_of_the_deck_family_is_noticed_or_sound() {
    hold(DECK, 175);
}

#[test]
fn each_change_of_lined_jackets_is_noticed_or_sound() {
    hold(LINED, 270);
}

#[test]
fn each_change_of_skirts_and_an_apron_is_noticed_or_sound() {
    hold(SKIRTS, 250);
}

#[test]
fn each_change_of_trousers_is_noticed_or_sound() {
    hold(TROUSERS, 410);
}

#[test]
fn each_change_of_shirts_is_noticed_or_sound() {
    hold(SHIRTS, 370);
}

#[test]
fn each_change_of_bodices_and_a_slip_is_noticed_or_sound() {
    hold(STEWARDS, 200);
}

#[test]
fn each_change_of_knits_and_a_bag_is_noticed_or_sound() {
    hold(KNITS, 300);
}
