//! Notches that lie so near to one another in some size that nobody tells them apart there, and are no double one: where sizes
//! have them apart, the one or the other is drawn wrong, and no text says both.

use super::names::one_line;
use super::pattern::{Notch, Piece};
use crate::report::listed;
use crate::sewing::LEAST_APART;

/// Notches nearer than this, in millimetres, are at one place.
const ONE_PLACE: f64 = 0.5;
/// By so much lengths differ from what is written of them, in millimetres.
const ROUNDED: f64 = 0.02;

/// Takes notches out that lie too near to each other: both, and of a double one and a single one the single one. What is said
/// of that, one sentence each.
pub fn leave_out(piece: &mut Piece, lengths: &[Vec<f64>], sizes: &[String]) -> Vec<String> {
    let (mut told, mut gone) = (Vec::new(), vec![false; piece.notches.len()]);
    for (at, one) in piece.notches.iter().enumerate() {
        for (other_at, other) in piece.notches.iter().enumerate().skip(at + 1) {
            if one.edge != other.edge || gone.get(at) == Some(&true) || gone.get(other_at) == Some(&true) {
                continue;
            }
            let apart = apart([one, other], lengths);
            let Some(words) = told_of(piece, [one, other], &apart, sizes) else { continue };
            told.push(words);
            let is_one_double = one.double != other.double;
            for (at, notch) in [(at, one), (other_at, other)] {
                if let Some(gone) = gone.get_mut(at) {
                    *gone = !(is_one_double && notch.double);
                }
            }
        }
    }
    let mut gone = gone.into_iter();
    piece.notches.retain(|_| gone.next() != Some(true));
    told
}

/// How far two notches of one edge lie apart, by size.
fn apart(notches: [&Notch; 2], lengths: &[Vec<f64>]) -> Vec<f64> {
    let place = |notch: &Notch, size: usize| {
        let along = notch.along.get(size).copied().unwrap_or(0.0);
        let long = lengths.get(size).and_then(|lengths| lengths.get(notch.edge)).copied().unwrap_or(0.0);
        if notch.from_end { long - along } else { along }
    };
    let [one, other] = notches;
    (0..lengths.len()).map(|size| (place(one, size) - place(other, size)).abs()).collect()
}

/// What is said of two notches that are so far apart; nothing where they are told apart in every size.
fn told_of(piece: &Piece, [one, other]: [&Notch; 2], apart: &[f64], sizes: &[String]) -> Option<String> {
    let is_near = |apart: f64| apart > ONE_PLACE - ROUNDED && apart < LEAST_APART + ROUNDED;
    let least = apart.iter().copied().filter(|apart| is_near(*apart)).reduce(f64::min)?;
    let in_sizes = |wanted: bool| -> Vec<String> {
        let named = sizes.iter().zip(apart).filter(|(_, apart)| is_near(**apart) == wanted);
        named.map(|(name, _)| one_line(name)).filter(|name| !name.is_empty()).collect()
    };
    let (near, far) = (in_sizes(true), in_sizes(false));
    let most = apart.iter().copied().filter(|apart| !is_near(*apart)).fold(0.0, f64::max);
    let within =
        |names: &[String]| if names.is_empty() { String::new() } else { format!(" in {}", listed(names)) };
    let name = piece.outline.edges.get(one.edge).map_or("", |edge| &*edge.name);
    let what = if one.double != other.double { "a single and a double notch" } else { "two notches" };
    let elsewhere = match far.is_empty() {
        true => String::new(),
        false => format!(", and {most:.1} mm{}: is one of them drawn wrong", within(&far)),
    };
    let left_out =
        if one.double != other.double { "the single one is left out" } else { "both are left out" };
    let mark = if far.is_empty() { "; " } else { "? " };
    let left_out = if far.is_empty() { left_out.to_owned() } else { first_letter_high(left_out) };
    Some(format!(
        "{}: {what} of {name} lie {least:.1} mm apart{}, where they are not told apart{elsewhere}{mark}{left_out}",
        piece.name,
        within(&near)
    ))
}

fn first_letter_high(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
