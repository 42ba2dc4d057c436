//! A pattern that is already drawn comes in: from a plotter's file, a vector drawing or traced points to a garment
//! text that a person goes on with.
//!
//! Each format has a reader that makes [`traced::Traced`] of its bytes and understands nothing more. What comes after
//! is one for all: corners are found and matched over the sizes, curves fitted, edges named, the text written.

pub mod read;
pub mod traced;

mod alike_sizes;
mod allowances;
mod astray;
mod at_most;
mod bends;
mod close_notches;
mod corners;
mod course;
mod curve_points;
mod cusps;
mod cut_in;
mod displaced;
mod edges;
mod error;
mod exchanged_names;
mod figures;
mod file_sizes;
mod fit;
mod fit_again;
mod flat_edges;
mod folds;
mod grain_beside;
mod growth;
mod handles;
mod hems;
mod inside;
mod jumps;
mod lacking;
mod length;
mod lines;
mod look;
mod median;
mod mirrored;
mod names;
mod notches;
mod odd_sizes;
mod options;
mod outlines;
mod outside;
mod parting;
mod partners;
mod pattern;
mod rounded;
mod runs;
mod side_by_side;
mod sizes;
mod sketch;
mod spikes;
mod suspect;
mod thinned;
mod told;
mod trade_words;
mod turned_edges;
mod turned_over;
mod unclear_counts;
mod understand;
mod unlike_lines;
mod unmatched;
mod walks;
mod write;
mod zigzag;

pub use error::BringError;
pub use figures::TextUnit;
pub use look::MARK as LOOK_MARK;
pub use options::BringOptions;
pub use read::{ReadOptions, SizesFrom};

use traced::Traced;

/// A pattern that has come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Brought {
    /// The garment's text: a draft whose pieces are drawn.
    pub text: String,
    /// A picture of what was understood, as the text of an SVG file.
    pub look: String,
    /// What was left out, guessed or is in doubt, one sentence each.
    pub remarks: Vec<String>,
}

/// Reads drawings, each a name and its bytes, and writes one garment of all their pieces.
///
/// # Errors
/// Where one cannot be read, or what was read makes no pieces: all that is wrong at once.
pub fn bring(files: &[(&str, &[u8])], options: &BringOptions) -> Result<Brought, BringError> {
    let (traced, mut wrong) = traced(files, options);
    let named = files.first().map_or("", |(name, _)| name);
    if traced.pieces.is_empty() {
        let nothing = || BringError::new(named, "there is no closed outline in it, so no piece of a pattern");
        return Err(BringError::together(wrong).unwrap_or_else(nothing));
    }
    if let Some(why) = sizes::too_many(&traced) {
        return Err(BringError::new(named, why));
    }
    let (pattern, mut remarks) = match understand::understand(&traced, options) {
        Ok(understood) => understood,
        Err(more) => {
            // What explains more than itself stands before what is wrong.
            let causes = traced.causes.iter().map(|why| BringError::new(named, why.trim_end_matches('.')));
            wrong.splice(0..0, causes);
            wrong.extend(more);
            let nothing = || BringError::new(named, "it is not understood");
            return Err(BringError::together(wrong).unwrap_or_else(nothing));
        }
    };
    if let Some(wrong) = BringError::together(wrong) {
        return Err(wrong);
    }
    remarks.extend(unclear_counts::told(&traced, &pattern));
    Ok(Brought { text: write::text(&pattern), look: look::picture(&pattern), remarks })
}

/// A picture of what drawings hold, as the text of an SVG file, where no garment comes of them: every outline in every
/// size, each corner by its number, and what does not close. None where nothing of them can be read.
pub fn sketch(files: &[(&str, &[u8])], options: &BringOptions) -> Option<String> {
    let (traced, _) = traced(files, options);
    (!traced.pieces.is_empty() || !traced.open.is_empty()).then(|| sketch::sketch(&traced, options.corner))
}

/// What all files hold, and all that is wrong with them. A drawing that is there twice is read once.
fn traced(files: &[(&str, &[u8])], options: &BringOptions) -> (Traced, Vec<BringError>) {
    let (mut traced, mut wrong) = (Traced::default(), Vec::new());
    let mut each: Vec<(&str, Traced)> = Vec::new();
    for (at, (name, bytes)) in files.iter().enumerate() {
        if let Some((first, _)) = files.iter().take(at).find(|(_, other)| other == bytes) {
            traced.remarks.push(match first == name {
                true => format!("{name} is named twice, and comes in once"),
                false => format!("{name} holds the same as {first}, letter for letter, and is left out"),
            });
            continue;
        }
        match read::read(bytes, name, &options.read) {
            // More pieces than come in are not looked at one by one.
            Ok(own) if own.pieces.len() > crate::limits::DRAWING_PIECES => {
                wrong.push(BringError::new(name, sizes::too_many_pieces(own.pieces.len())));
            }
            Ok(own) => each.push((name, own)),
            Err(why) => wrong.push(why),
        }
    }
    traced.remarks.extend(file_sizes::by_file(&mut each));
    each.into_iter().for_each(|(_, own)| traced.add(own));
    wrong.append(&mut traced.wrong);
    (traced, wrong)
}
