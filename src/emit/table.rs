//! What is cut, as tables for people and for spreadsheets.

use super::cut_size::{cut_parts, extent};
use super::documents::{CutDocument, CutWay, ExtentDocument, HandDocument, LengthUnit};
use super::form::{Form, unit_of};
use super::json::{cut, parts};
use super::left_open::left_open;
use super::number::Figure;
use super::outline::finished_extent;
use super::sheet::{Sheet, in_markdown};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Part};
use crate::report::finely;
use crate::resolve::CutRow;
use crate::shape::Vec2;
use crate::syntax::tree::Hand;
use indexmap::{IndexMap, IndexSet};
use serde::Serialize;

/// Ways of the grain no farther apart than this, in degrees, are one.
const SAME_TURN: f64 = 1e-6;

/// A part in all sizes.
#[derive(Debug)]
struct PieceRow {
    part: String,
    label: String,
    /// How it is cut and how large, by size.
    cut: IndexMap<String, CutDocument>,
    /// How large it is finished, by size.
    finished: IndexMap<String, ExtentDocument>,
}

/// The pieces: how each is cut, how large it is cut (allowances included, opened out) and how large
/// it is finished (opened out, folded as worn), the sizes side by side. Fails where a figure is not finite.
pub fn pieces(garment: &Garment, sizes: &[&WorkedSize], form: Form) -> Result<String, serde_json::Error> {
    let rows = piece_rows(garment, sizes);
    let pages = |write: fn(&Sheet) -> String, words: fn(&str) -> String| {
        let of_cut = pieces_beside(garment, sizes, &rows, |row, size| row.cut.get(size)?.cut);
        let finished = pieces_beside(garment, sizes, &rows, |row, size| row.finished.get(size).copied());
        let title = words(&garment.title);
        format!(
            "{title}: cut width × height, with allowances\n\n{}\n{title}: finished width × height\n\n{}",
            write(&of_cut),
            write(&finished)
        )
    };
    Ok(match form {
        Form::Text => pages(Sheet::text, str::to_owned),
        Form::Markdown => pages(Sheet::markdown, in_markdown),
        Form::Csv => pieces_below(garment, &rows).csv(),
        Form::Json => {
            let rows: Vec<PieceForJson> = rows.iter().map(PieceForJson::new).collect();
            serde_json::to_string_pretty(&rows)? + "\n"
        }
    })
}

#[derive(Serialize)]
struct PieceForJson<'a> {
    part: &'a str,
    label: &'a str,
    unit: LengthUnit,
    sizes: IndexMap<&'a str, SizeForJson>,
}

#[derive(Serialize)]
struct SizeForJson {
    copies: u32,
    how: CutWay,
    #[serde(skip_serializing_if = "Option::is_none")]
    cut: Option<ExtentDocument>,
    finished: ExtentDocument,
}

impl<'a> PieceForJson<'a> {
    fn new(row: &'a PieceRow) -> Self {
        let sizes = row.finished.iter().filter_map(|(size, &finished)| {
            let cut = row.cut.get(size)?;
            Some((size.as_str(), SizeForJson { copies: cut.copies, how: cut.how, cut: cut.cut, finished }))
        });
        PieceForJson {
            part: &row.part,
            label: &row.label,
            unit: LengthUnit::Millimetre,
            sizes: sizes.collect(),
        }
    }
}

fn size_name(garment: &Garment, sized: &WorkedSize) -> String {
    garment.size(sized.id()).name.to_string()
}

fn piece_rows(garment: &Garment, sizes: &[&WorkedSize]) -> Vec<PieceRow> {
    let mut rows: IndexMap<(Part, Option<Hand>), PieceRow> = IndexMap::new();
    for sized in sizes {
        let size = size_name(garment, sized);
        let cuts = cut_parts(garment, sized);
        for (part, drawn) in parts(garment, &sized.drawn) {
            let Some((width, height)) = finished_extent(garment, drawn) else { continue };
            let finished = ExtentDocument { width: Figure(width), height: Figure(height) };
            for found in sized.drawn.cut_list.iter().filter(|row| row.part == part) {
                let on = found.hand.map_or(String::new(), |hand| format!(" on {}", hand.word()));
                let row = rows.entry((part, found.hand)).or_insert_with(|| PieceRow {
                    part: garment.part_name(Some(part.layer), part.piece) + &on,
                    label: garment.piece(part.piece).title.to_string(),
                    cut: IndexMap::new(),
                    finished: IndexMap::new(),
                });
                let large = cuts.get(&(part, found.hand)).and_then(|part| extent(part));
                row.cut.insert(size.clone(), cut(garment, found, large));
                row.finished.insert(size.clone(), finished);
            }
        }
    }
    rows.into_values().collect()
}

fn pieces_beside(
    garment: &Garment,
    sizes: &[&WorkedSize],
    rows: &[PieceRow],
    shown: impl Fn(&PieceRow, &str) -> Option<ExtentDocument>,
) -> Sheet {
    let mut sheet = Sheet::new(&["piece", "part", "cut"]);
    sheet.heading.extend(sizes.iter().map(|sized| size_name(garment, sized)));
    for row in rows {
        // The same in every size, but for a count that is reported size by size.
        let ways: IndexSet<String> = row.cut.values().map(cut_words).collect();
        let ways: Vec<String> = ways.into_iter().collect();
        let mut cells = vec![row.label.clone(), row.part.clone(), ways.join(" / ")];
        for sized in sizes {
            let extent = shown(row, &size_name(garment, sized));
            cells.push(extent.map_or_else(String::new, |extent| extent_words(extent, garment)));
        }
        sheet.rows.push(cells);
    }
    sheet
}

fn pieces_below(garment: &Garment, rows: &[PieceRow]) -> Sheet {
    let mut sheet = Sheet::new(&[
        "part",
        "label",
        "size",
        "copies",
        "how",
        "fold",
        "cut_width",
        "cut_height",
        "finished_width",
        "finished_height",
        "unit",
    ]);
    let (unit, millimetres) = unit_of(garment.unit);
    let side = |millimetre: Figure| Figure(millimetre.0 / millimetres).to_string();
    for row in rows {
        for (size, finished) in &row.finished {
            let cut = row.cut.get(size);
            let cut_size = cut.and_then(|cut| cut.cut);
            sheet.rows.push(vec![
                row.part.clone(),
                row.label.clone(),
                size.clone(),
                cut.map_or_else(String::new, |cut| cut.copies.to_string()),
                cut.map_or_else(String::new, |cut| how_words(cut.how).to_owned()),
                cut.map_or_else(String::new, |cut| fold_words(cut).to_owned()),
                cut_size.map_or_else(String::new, |size| side(size.width)),
                cut_size.map_or_else(String::new, |size| side(size.height)),
                side(finished.width),
                side(finished.height),
                unit.to_owned(),
            ]);
        }
    }
    sheet
}

/// "52.3 × 61 cm", or with two units where they differ; as exactly as seams are held to.
fn extent_words(extent: ExtentDocument, garment: &Garment) -> String {
    let words = |side: Figure| finely(side.0, garment.unit, garment.tolerance);
    let (width, height) = (words(extent.width), words(extent.height));
    match (width.rsplit_once(' '), height.rsplit_once(' ')) {
        (Some((number, first)), Some((_, second))) if first == second => format!("{number} × {height}"),
        _ => format!("{width} × {height}"),
    }
}

fn how_words(how: CutWay) -> &'static str {
    match how {
        CutWay::Alike => "alike",
        CutWay::Mirrored => "mirrored",
        CutWay::OnFold => "on fold",
    }
}

/// "1 on fold (centre)", "2 mirrored", "4", as the maker wrote it.
fn cut_words(cut: &CutDocument) -> String {
    let turned = match (cut.turned_over, cut.side) {
        (true, _) => ", turned over",
        (false, Some(HandDocument::Left)) => ", left",
        (false, Some(HandDocument::Right)) => ", right",
        (false, None) if cut.whole => ", whole",
        (false, None) => "",
    };
    // That a layer is fused is said of the layer; on which cloth is said of the piece.
    let some = cut.fused.as_ref().is_some_and(|fused| fused.to.is_some() || fused.of.is_some());
    let fused = if some { format!(", fused{}", fused_words(cut)) } else { String::new() };
    match (&cut.fold, cut.how) {
        (Some(fold), _) => format!("{} on fold ({fold}){turned}{fused}", cut.copies),
        (None, CutWay::Alike) => format!("{}{turned}{fused}", cut.copies),
        (None, how) => format!("{} {}{turned}{fused}", cut.copies, how_words(how)),
    }
}

/// " 1 of 2 to inner"
fn fused_words(cut: &CutDocument) -> String {
    let fused = cut.fused.as_ref();
    let share = fused.and_then(|fused| fused.of).map(|of| format!(" {} of {of}", cut.copies));
    let to = fused.and_then(|fused| fused.to.as_ref()).map(|to| format!(" to {to}"));
    share.unwrap_or_default() + &to.unwrap_or_default()
}

/// The edge on the fold.
fn fold_words(cut: &CutDocument) -> &str {
    cut.fold.as_deref().unwrap_or("none")
}

fn yes_or_no(said: bool) -> String {
    if said { "yes" } else { "no" }.to_owned()
}

/// "up", "across", "bias"; of any other way how far it is turned from across, in degrees.
fn grain_words(grain: Vec2) -> String {
    let turn = libm::atan2(grain.y, grain.x).to_degrees().rem_euclid(180.0);
    let is = |angle: f64| (turn - angle).abs() < SAME_TURN;
    match turn {
        _ if is(90.0) => "up".to_owned(),
        _ if is(0.0) || is(180.0) => "across".to_owned(),
        _ if is(45.0) || is(135.0) => "bias".to_owned(),
        turn => Figure(turn).to_string(),
    }
}

/// Sizes that are cut alike, and what is cut for them.
#[derive(Debug, Serialize)]
struct CutGroup {
    sizes: Vec<String>,
    /// Of the figures of the lines.
    unit: LengthUnit,
    cut_list: Vec<CutInSizes>,
    /// What is left open in seams, in words, where a place is said.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_open: Vec<String>,
}

/// A line of the cut list and how large it is cut in each of the sizes.
#[derive(Debug, Serialize)]
struct CutInSizes {
    #[serde(flatten)]
    cut: CutDocument,
    grain: String,
    cut_sizes: IndexMap<String, ExtentDocument>,
}

/// The cut list, fabric by fabric. Sizes that are cut alike are reported together.
pub fn cut_list(garment: &Garment, sizes: &[&WorkedSize], form: Form) -> Result<String, serde_json::Error> {
    let groups = cut_groups(garment, sizes);
    Ok(match form {
        Form::Text => {
            let notes =
                left_open(garment, sizes).iter().map(|line| format!("\n{line}\n")).collect::<String>();
            cut_pages(garment, &groups, Sheet::text, "") + &notes
        }
        Form::Markdown => {
            let notes = left_open(garment, sizes);
            let notes = notes.iter().map(|line| format!("\n{}\n", in_markdown(line))).collect::<String>();
            cut_pages(garment, &groups, Sheet::markdown, "## ") + &notes
        }
        Form::Csv => cut_sheet(garment, &groups).csv(),
        Form::Json => serde_json::to_string_pretty(&groups)? + "\n",
    })
}

fn cut_groups(garment: &Garment, sizes: &[&WorkedSize]) -> Vec<CutGroup> {
    let mut groups: Vec<(Vec<usize>, CutGroup)> = Vec::new();
    for (at, sized) in sizes.iter().enumerate() {
        let name = size_name(garment, sized);
        let same = |(alike, _): &&mut (Vec<usize>, CutGroup)| {
            let first = alike.first().and_then(|&first| sizes.get(first));
            first.is_some_and(|first| first.drawn.cut_list == sized.drawn.cut_list)
        };
        match groups.iter_mut().find(same) {
            Some((alike, group)) => {
                alike.push(at);
                group.sizes.push(name);
            }
            None => groups.push((
                vec![at],
                CutGroup {
                    sizes: vec![name],
                    unit: LengthUnit::Millimetre,
                    cut_list: Vec::new(),
                    left_open: Vec::new(),
                },
            )),
        }
    }
    for (alike, group) in &mut groups {
        let alike: Vec<&WorkedSize> = alike.iter().filter_map(|&at| sizes.get(at).copied()).collect();
        group.cut_list = cut_rows(garment, &alike);
        group.left_open = left_open(garment, &alike);
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// The lines of sizes that are cut alike, fabric by fabric.
fn cut_rows(garment: &Garment, alike: &[&WorkedSize]) -> Vec<CutInSizes> {
    let Some(first) = alike.first() else { return Vec::new() };
    let cuts: Vec<_> =
        alike.iter().map(|sized| (size_name(garment, sized), cut_parts(garment, sized))).collect();
    let mut rows: Vec<_> = first.drawn.cut_list.iter().collect();
    rows.sort_by_key(|row| row.fabric.map_or(usize::MAX, |fabric| fabric.index()));
    let in_sizes = |row: &CutRow| {
        let sizes = cuts
            .iter()
            .filter_map(|(size, parts)| Some((size.clone(), extent(parts.get(&(row.part, row.hand))?)?)));
        let grain =
            first.drawn.paper(row.part.paper).map_or_else(String::new, |drawn| grain_words(drawn.grain));
        CutInSizes { cut: cut(garment, row, None), grain, cut_sizes: sizes.collect() }
    };
    rows.into_iter().map(in_sizes).collect()
}

fn cut_pages(garment: &Garment, groups: &[CutGroup], draw: fn(&Sheet) -> String, mark: &str) -> String {
    let mut pages: Vec<String> = Vec::new();
    let credits = garment.credits.line();
    if !credits.is_empty() {
        let line = format!("{}, {credits}", garment.title);
        pages.push(if mark.is_empty() { line } else { in_markdown(&line) } + "\n");
    }
    for group in groups {
        let mut by_fabric: IndexMap<&str, Vec<&CutInSizes>> = IndexMap::new();
        for row in &group.cut_list {
            by_fabric.entry(&row.cut.fabric).or_default().push(row);
        }
        for (fabric, rows) in by_fabric {
            let title =
                garment.fabrics.iter().find(|known| *known.name == *fabric).map(|known| &*known.title);
            let mut sheet = Sheet::new(&["piece", "layer", "cut"]);
            sheet.heading.extend(group.sizes.iter().cloned());
            for row in rows {
                let mut cells = vec![row.cut.label.clone(), row.cut.layer.clone(), cut_words(&row.cut)];
                cells.extend(group.sizes.iter().map(|size| {
                    let extent = row.cut_sizes.get(size);
                    extent.map_or_else(String::new, |extent| extent_words(*extent, garment))
                }));
                sheet.rows.push(cells);
            }
            let title = match title {
                Some(title) if title != fabric => format!("{fabric}: {title}"),
                _ => fabric.to_owned(),
            };
            let title = if mark.is_empty() { title } else { in_markdown(&title) };
            pages.push(format!("{mark}{title}\n\n{}", draw(&sheet)));
        }
    }
    pages.join("\n")
}

fn cut_sheet(garment: &Garment, groups: &[CutGroup]) -> Sheet {
    let mut sheet = Sheet::new(&[
        "fabric",
        "layer",
        "piece",
        "label",
        "size",
        "copies",
        "how",
        "fold",
        "turned_over",
        "cut_width",
        "cut_height",
        "unit",
        "side",
        "whole",
        "grain",
        "fused",
    ]);
    let (unit, millimetres) = unit_of(garment.unit);
    let side = |millimetre: Figure| Figure(millimetre.0 / millimetres).to_string();
    for group in groups {
        for (row, size) in
            group.cut_list.iter().flat_map(|row| group.sizes.iter().map(move |size| (row, size)))
        {
            let cut_size = row.cut_sizes.get(size);
            sheet.rows.push(vec![
                row.cut.fabric.clone(),
                row.cut.layer.clone(),
                row.cut.piece.clone(),
                row.cut.label.clone(),
                size.clone(),
                row.cut.copies.to_string(),
                how_words(row.cut.how).to_owned(),
                fold_words(&row.cut).to_owned(),
                yes_or_no(row.cut.turned_over),
                cut_size.map_or_else(String::new, |size| side(size.width)),
                cut_size.map_or_else(String::new, |size| side(size.height)),
                unit.to_owned(),
                match row.cut.side {
                    Some(HandDocument::Left) => "left",
                    Some(HandDocument::Right) => "right",
                    None => "both",
                }
                .to_owned(),
                yes_or_no(row.cut.whole),
                row.grain.clone(),
                match &row.cut.fused {
                    Some(_) => format!("yes{}", fused_words(&row.cut)),
                    None => "no".to_owned(),
                },
            ]);
        }
    }
    sheet
}
