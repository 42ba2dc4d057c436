//! What the commands share that show pieces as they are cut.

use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{picked, report};
use fustian::Compiled;
use fustian::cutting::{Cutting, WorkedSize};
use fustian::garment::{Garment, Part};
use fustian::report::{group, nearest, summary};
use rayon::prelude::*;

/// The sizes of those names, to be cut. Allowances that do not fit are reported, and the command then ends.
pub fn cut_sizes<'a>(
    compiled: &'a Compiled,
    sizes: &[String],
) -> Result<Result<Vec<&'a WorkedSize>, Outcome>, Trouble> {
    let garment = &compiled.garment;
    let picked = picked(compiled, sizes)?;
    let cuts: Vec<&Cutting> = picked.par_iter().map(|size| size.cut(garment)).collect();
    let names: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let found = group(cuts.iter().flat_map(|cut| cut.findings.clone()).collect(), &names);
    if !found.is_empty() {
        report(compiled, &found);
        if let Some(words) = summary(&found) {
            output::say(&format!("{words}\n"));
        }
        return Ok(Err(Outcome::Mistakes));
    }
    if cuts.iter().all(|cut| cut.parts.is_empty()) {
        return Err(nothing_to_cut());
    }
    Ok(Ok(picked))
}

/// The same sizes as they are cut, only the pieces of those names where some are given.
pub fn cut_pieces(
    compiled: &Compiled,
    sizes: &[String],
    pieces: &[String],
) -> Result<Result<Vec<Cutting>, Outcome>, Trouble> {
    let sizes = match cut_sizes(compiled, sizes)? {
        Ok(sizes) => sizes,
        Err(outcome) => return Ok(Err(outcome)),
    };
    let mut cuts: Vec<Cutting> = sizes.iter().map(|size| size.cut(&compiled.garment).clone()).collect();
    only(&compiled.garment, pieces, &mut cuts)?;
    if cuts.iter().all(|cut| cut.parts.is_empty()) {
        return Err(nothing_to_cut());
    }
    Ok(Ok(cuts))
}

fn nothing_to_cut() -> Trouble {
    Trouble::Message("there is nothing to cut here: no layer has a piece".to_owned())
}

/// Leaves only the pieces, or parts, of those names.
pub fn only(garment: &Garment, names: &[String], cuts: &mut [Cutting]) -> Result<(), Trouble> {
    let Some(named) = named(garment, names)? else { return Ok(()) };
    for cut in cuts {
        cut.parts.retain(|part| named.contains(&part.part));
    }
    Ok(())
}

/// The parts of those names: all of a piece, or one layer's. None where no name is given.
pub fn named(garment: &Garment, names: &[String]) -> Result<Option<Vec<Part>>, Trouble> {
    if names.is_empty() {
        return Ok(None);
    }
    let called: Vec<(Part, [String; 2])> = garment
        .parts()
        .into_iter()
        .map(|part| {
            let of_all = garment.part_name(None, part.piece);
            (part, [of_all, garment.part_name(Some(part.layer), part.piece)])
        })
        .collect();
    let known: Vec<&str> = called.iter().flat_map(|(_, names)| names).map(String::as_str).collect();
    for name in names {
        if !known.contains(&name.as_str()) {
            let meant = nearest(name, known.iter().copied())
                .map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
            return Err(Trouble::Message(format!("there is no piece {name:?} to cut here{meant}")));
        }
    }
    let meant = called.iter().filter(|(_, called)| names.iter().any(|name| called.contains(name)));
    Ok(Some(meant.map(|(part, _)| *part).collect()))
}
