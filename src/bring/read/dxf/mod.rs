//! Patterns from DXF: after ASTM D6673-10, one block a piece and size with numbered layers, or plain, as a CAD program
//! writes closed lines.
//!
//! Codes and their meanings are those of Autodesk's published DXF reference, releases 12 to 2018, in their text form.
//! A reader of our own, since of some forty kinds of entity a pattern holds ten, and what is wrong must be said with its
//! line in a maker's words.

mod chain;
mod courses;
mod differing;
mod doubts;
mod entity;
mod file;
mod gather;
mod item;
mod layers;
mod named;
mod nothing;
mod numbers;
mod one;
mod open_ends;
mod outlines;
mod parse;
mod piece_layers;
mod place;
mod roles;
mod sew_lines;
mod sized;
mod tags;
mod test_square;
mod twice;
mod units;
mod words;

use super::ReadOptions;
use super::letters::{base_name, shown};
use super::said::{Key, keyed};
use crate::bring::BringError;
use crate::bring::traced::Traced;
use crate::limits;
use file::File;
use gather::Gathering;
use place::{Group, Placed};
use std::collections::HashSet;

/// The pieces of a DXF file.
///
/// # Errors
/// What is no DXF text, breaks off, holds a number that is none, an outline that is open, blocks that put down
/// themselves, sizes that nothing names, or more than limits allow.
pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced, BringError> {
    if bytes.len() > limits::DRAWING_BYTES {
        let why = format!(
            "it is {} MB large; at most {} MB are read: take out what is no pattern",
            bytes.len() / (1024 * 1024),
            limits::DRAWING_BYTES / (1024 * 1024)
        );
        return Err(BringError::new(file_name, why));
    }
    let file = file::read(bytes, file_name)?;
    let mut of_unit = Vec::new();
    let mut unit = units::unit(&file, file_name, options, &mut of_unit);
    let mut placed = place::placed(&file, file_name, unit.taken.size)?;
    placed.loose = chain::joined(std::mem::take(&mut placed.loose));
    let squares = test_square::by_square(&mut placed, &mut unit, file_name, options.scale.is_none());
    let mut remarks = if squares.is_said { Vec::new() } else { of_unit };
    remarks.extend(squares.remarks);
    remarks.append(&mut placed.remarks);
    let causes = std::mem::take(&mut placed.causes);
    let nothing = std::mem::take(&mut placed.nothing);
    let mut gathering = Gathering::new(file_name, *options, unit.taken.clone());
    gathering.wrong.extend(squares.wrong);
    gathering.wrong.extend(file.tally.wrong.iter().cloned());
    gather_all(placed, file_name, options, &mut gathering)?;
    gathering.sample_size = sample_size(&file);
    remarks.extend(nothing::remarks(&nothing, file_name));
    let mut traced = gathering.traced(remarks).map_err(|why| {
        let all = std::iter::once(why.clone()).chain(nothing::mistakes(&nothing, file_name));
        BringError::together(all.collect()).unwrap_or(why)
    })?;
    traced.causes.splice(0..0, causes);
    traced.in_inches = unit.in_inches;
    traced.dated = dated(&file);
    for (kind, count) in &file.tally.left_out {
        let words = match count {
            1 => format!("1 {kind} is no line of a pattern and was left out."),
            count => format!("{count} {kind} are no lines of a pattern and were left out."),
        };
        traced.remarks.push(words);
    }
    Ok(traced)
}

fn gather_all(
    placed: Placed,
    file: &str,
    options: &ReadOptions,
    gathering: &mut Gathering,
) -> Result<(), BringError> {
    let are_numbered = placed.groups.iter().any(|group| outlines::is_numbered(&group.items));
    for Group { block, mut items, times } in placed.groups {
        let whose = block.as_deref().map_or_else(String::new, |name| format!("block {}", shown(name)));
        gathering.causes.extend(numbers::mended(&mut items, are_numbered, &whose, base_name(file)));
        gather(items, block.as_deref(), times, &whose, (file, options), gathering)?;
    }
    let mut loose = placed.loose;
    if are_numbered {
        gathering.causes.extend(numbers::without_frames(&mut loose, base_name(file)));
    }
    let is_all = gathering.is_empty();
    if is_all || outlines::holds_outline(&loose) {
        gather(loose, None, (1, 0), "the drawing", (file, options), gathering)
    } else {
        gathering.outside(&loose);
        Ok(())
    }
}

/// The pieces among what is drawn together.
fn gather(
    mut items: Vec<item::Item>,
    block: Option<&str>,
    times: (u32, u32),
    whose: &str,
    (file, options): (&str, &ReadOptions),
    gathering: &mut Gathering,
) -> Result<(), BringError> {
    gathering.closed.extend(chain::closed(&mut items, base_name(file)));
    let is_numbered = outlines::is_numbered(&items);
    if !is_numbered && let Some(found) = layers::by_size(&items, options) {
        return gather_sizes(found, block, (file, whose), gathering);
    }
    if !is_numbered && let Some(found) = piece_layers::piece_layers(&items, options) {
        return piece_layers::gather(found, (file, whose), gathering);
    }
    let split = outlines::split(items, file, whose)?;
    gathering.copied(split.copies)?;
    if let Some(wrong) = split.wrong {
        gathering.wrong.push(wrong);
        gathering.boundary(&split.rest);
        return Ok(());
    }
    let count = split.clusters.len();
    for mut cluster in split.clusters {
        // In a block all belongs to its only outline, what lies beside it too.
        if count == 1 && block.is_some() {
            cluster.items.extend(split.rest.iter().cloned());
        }
        let layer = cluster.layer.clone();
        let line = cluster.line;
        gathering.add(block, times, (&layer, line), sized::drawn(cluster, is_numbered));
    }
    if count != 1 || block.is_none() {
        gathering.outside(&split.rest);
    }
    Ok(())
}

/// The pieces of sizes that are layers.
fn gather_sizes(
    found: layers::BySize,
    block: Option<&str>,
    (file, whose): (&str, &str),
    gathering: &mut Gathering,
) -> Result<(), BringError> {
    if found.sizes.len() > limits::SIZES {
        let why = format!(
            "its layers are {} sizes; a garment has at most {}: `sizes-from` says what else tells sizes apart",
            found.sizes.len(),
            limits::SIZES
        );
        return Err(BringError::new(file, why));
    }
    for (layer, line) in &found.around {
        gathering.remarks.push(layers::left_out(layer, *line, base_name(file)));
    }
    gathering.copied(found.copies)?;
    gathering.begin_layers(found.sizes.len());
    // What is on no size's layer lies in no piece if it lies in none in any size, and is told once.
    let mut common: Option<Vec<item::Item>> = None;
    for (size, items) in found.sizes {
        let split = outlines::split(items, file, whose)?;
        gathering.wrong.extend(split.wrong);
        let drawn = split.clusters.into_iter().map(|mut cluster| {
            cluster.size = Some(size.clone());
            (cluster.line, sized::drawn(cluster, false))
        });
        gathering.layer(block, &size, drawn.collect());
        let (mut own, mut rest): (Vec<_>, Vec<_>) =
            split.rest.into_iter().partition(|item| found.layers.contains(&*item.layer));
        // Words beside say what a line of the size is.
        own.extend(rest.iter().filter(|item| matches!(item.what, item::What::Words(..))).cloned());
        gathering.outside(&own);
        if let Some(before) = common {
            let lines: HashSet<usize> = before.iter().map(|item| item.line).collect();
            rest.retain(|item| lines.contains(&item.line));
        }
        common = Some(rest);
    }
    gathering.outside(&common.unwrap_or_default());
    Ok(())
}

/// When the drawing was made, as its texts of the style say it.
fn dated(file: &File) -> Option<String> {
    let said = |wanted: Key| {
        let mut all = file.entities.iter().flat_map(units::words);
        all.find_map(|text| keyed(text).filter(|(key, value)| *key == wanted && !value.is_empty()))
            .map(|(_, value)| value.to_owned())
    };
    let date = said(Key::Date)?;
    Some(said(Key::Time).map_or(date.clone(), |time| format!("{date}, {time}")))
}

/// The size that the style's text names as the one that it was drawn in.
fn sample_size(file: &File) -> Option<String> {
    file.entities.iter().flat_map(units::words).find_map(|text| {
        keyed(text)
            .filter(|(key, size)| *key == Key::SampleSize && !size.is_empty())
            .map(|(_, size)| size.to_owned())
    })
}
