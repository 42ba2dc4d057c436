//! What is cut, as tables for people and for spreadsheets.

use super::document::{CutDocument, CutWay, ExtentDocument};
use super::json::{cut, parts};
use super::number::Figure;
use super::outline::finished_extent;
use super::sheet::Sheet;
use crate::garment::{Garment, Part};
use crate::report::DisplayUnit;
use crate::report::amount;
use crate::resolve::SizedGarment;
use indexmap::{IndexMap, IndexSet};
use serde::Serialize;

/// How a table is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Columns aligned with blanks.
    Text,
    /// A Markdown table.
    Markdown,
    /// Comma-separated values (RFC 4180), a row for each size.
    Csv,
    /// JSON, in millimetres.
    Json,
}

/// A part in all sizes.
#[derive(Debug, Serialize)]
struct PieceRow {
    part: String,
    label: String,
    /// How it is cut, by size.
    #[serde(skip)]
    cut: IndexMap<String, CutDocument>,
    sizes: IndexMap<String, ExtentDocument>,
}

/// The pieces: how each is cut and how large it is finished (opened out, folded as worn), the sizes
/// side by side. Fails where a figure is not finite.
pub fn pieces(garment: &Garment, sizes: &[&SizedGarment], form: Form) -> Result<String, serde_json::Error> {
    let rows = piece_rows(garment, sizes);
    Ok(match form {
        Form::Text => format!("{}\n\n{}", heading(garment), pieces_beside(garment, sizes, &rows).text()),
        Form::Markdown => {
            format!("{}\n\n{}", heading(garment), pieces_beside(garment, sizes, &rows).markdown())
        }
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
    sizes: IndexMap<&'a str, SizeForJson>,
}

#[derive(Serialize)]
struct SizeForJson {
    copies: u32,
    how: CutWay,
    finished: ExtentDocument,
}

impl<'a> PieceForJson<'a> {
    fn new(row: &'a PieceRow) -> Self {
        let sizes = row.sizes.iter().filter_map(|(size, &finished)| {
            let cut = row.cut.get(size)?;
            Some((size.as_str(), SizeForJson { copies: cut.copies, how: cut.how, finished }))
        });
        PieceForJson { part: &row.part, label: &row.label, sizes: sizes.collect() }
    }
}

fn heading(garment: &Garment) -> String {
    format!("{}: finished width × height", garment.title)
}

fn size_name(garment: &Garment, sized: &SizedGarment) -> String {
    garment.sizes.get(sized.size).map_or_else(String::new, |size| size.name.to_string())
}

fn piece_rows(garment: &Garment, sizes: &[&SizedGarment]) -> Vec<PieceRow> {
    let mut rows: IndexMap<Part, PieceRow> = IndexMap::new();
    for sized in sizes {
        let size = size_name(garment, sized);
        for (part, drawn) in parts(garment, sized) {
            let Some((width, height)) = finished_extent(garment, drawn) else { continue };
            let row = rows.entry(part).or_insert_with(|| PieceRow {
                part: garment.part_name(Some(part.layer), part.piece),
                label: garment.piece(part.piece).title.to_string(),
                cut: IndexMap::new(),
                sizes: IndexMap::new(),
            });
            if let Some(found) = sized.cut_list.iter().find(|row| row.part == part) {
                row.cut.insert(size.clone(), cut(garment, found));
            }
            let extent = ExtentDocument { width: Figure(width), height: Figure(height) };
            row.sizes.insert(size.clone(), extent);
        }
    }
    rows.into_values().collect()
}

fn pieces_beside(garment: &Garment, sizes: &[&SizedGarment], rows: &[PieceRow]) -> Sheet {
    let mut sheet = Sheet::new(&["piece", "part", "cut"]);
    sheet.heading.extend(sizes.iter().map(|sized| size_name(garment, sized)));
    for row in rows {
        // The same in every size, but for a count that is told size by size.
        let ways: IndexSet<String> = row.cut.values().map(cut_words).collect();
        let ways: Vec<String> = ways.into_iter().collect();
        let mut cells = vec![row.label.clone(), row.part.clone(), ways.join(" / ")];
        for sized in sizes {
            let extent = row.sizes.get(&size_name(garment, sized));
            cells.push(extent.map_or_else(String::new, |extent| extent_words(*extent, garment.unit)));
        }
        sheet.rows.push(cells);
    }
    sheet
}

fn pieces_below(garment: &Garment, rows: &[PieceRow]) -> Sheet {
    let mut sheet =
        Sheet::new(&["part", "label", "size", "copies", "how", "fold", "width", "height", "unit"]);
    let (unit, millimetres) = match garment.unit {
        DisplayUnit::Millimetre => ("mm", 1.0),
        DisplayUnit::Centimetre => ("cm", 10.0),
        DisplayUnit::Inch => ("in", 25.4),
    };
    for row in rows {
        for (size, extent) in &row.sizes {
            let cut = row.cut.get(size);
            sheet.rows.push(vec![
                row.part.clone(),
                row.label.clone(),
                size.clone(),
                cut.map_or_else(String::new, |cut| cut.copies.to_string()),
                cut.map_or_else(String::new, |cut| how_words(cut.how).to_owned()),
                cut.and_then(|cut| cut.fold.clone()).unwrap_or_default(),
                Figure(extent.width.0 / millimetres).to_string(),
                Figure(extent.height.0 / millimetres).to_string(),
                unit.to_owned(),
            ]);
        }
    }
    sheet
}

/// "52.3 × 61 cm", or with two units where they differ.
fn extent_words(extent: ExtentDocument, unit: DisplayUnit) -> String {
    let (width, height) = (amount(extent.width.0, unit), amount(extent.height.0, unit));
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
    let turned = if cut.turned_over { ", turned over" } else { "" };
    match (&cut.fold, cut.how) {
        (Some(fold), _) => format!("{} on fold ({fold}){turned}", cut.copies),
        (None, CutWay::Alike) => format!("{}{turned}", cut.copies),
        (None, how) => format!("{} {}{turned}", cut.copies, how_words(how)),
    }
}

/// Sizes that are cut alike, and what is cut for them.
#[derive(Debug, Serialize)]
struct CutGroup {
    sizes: Vec<String>,
    cut_list: Vec<CutDocument>,
}

/// The cut list, fabric by fabric. Sizes that are cut alike are told together.
pub fn cut_list(garment: &Garment, sizes: &[&SizedGarment], form: Form) -> Result<String, serde_json::Error> {
    let groups = cut_groups(garment, sizes);
    Ok(match form {
        Form::Text => cut_pages(garment, &groups, Sheet::text, ""),
        Form::Markdown => cut_pages(garment, &groups, Sheet::markdown, "## "),
        Form::Csv => cut_sheet(&groups).csv(),
        Form::Json => serde_json::to_string_pretty(&groups)? + "\n",
    })
}

fn cut_groups(garment: &Garment, sizes: &[&SizedGarment]) -> Vec<CutGroup> {
    let mut groups: Vec<(usize, CutGroup)> = Vec::new();
    for (at, sized) in sizes.iter().enumerate() {
        let name = size_name(garment, sized);
        let same = |(first, _): &&mut (usize, CutGroup)| {
            sizes.get(*first).is_some_and(|first| first.cut_list == sized.cut_list)
        };
        match groups.iter_mut().find(same) {
            Some((_, group)) => group.sizes.push(name),
            None => {
                let mut rows: Vec<_> = sized.cut_list.iter().collect();
                rows.sort_by_key(|row| row.fabric.map_or(usize::MAX, |fabric| fabric.index()));
                let cut_list = rows.into_iter().map(|row| cut(garment, row)).collect();
                groups.push((at, CutGroup { sizes: vec![name], cut_list }));
            }
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

fn cut_pages(garment: &Garment, groups: &[CutGroup], draw: fn(&Sheet) -> String, mark: &str) -> String {
    let mut pages: Vec<String> = Vec::new();
    for group in groups {
        let mut by_fabric: IndexMap<&str, Vec<&CutDocument>> = IndexMap::new();
        for row in &group.cut_list {
            by_fabric.entry(&row.fabric).or_default().push(row);
        }
        for (fabric, rows) in by_fabric {
            let title =
                garment.fabrics.iter().find(|known| *known.name == *fabric).map(|known| &*known.title);
            let mut sheet = Sheet::new(&["piece", "layer", "cut"]);
            for row in rows {
                sheet.rows.push(vec![row.label.clone(), row.layer.clone(), cut_words(row)]);
            }
            let title = match title {
                Some(title) if title != fabric => format!("{fabric}: {title}"),
                _ => fabric.to_owned(),
            };
            let sizes = match groups.len() {
                1 => String::new(),
                _ => format!(", {}", group.sizes.join(", ")),
            };
            pages.push(format!("{mark}{title}{sizes}\n\n{}", draw(&sheet)));
        }
    }
    pages.join("\n")
}

fn cut_sheet(groups: &[CutGroup]) -> Sheet {
    let mut sheet =
        Sheet::new(&["fabric", "layer", "piece", "label", "copies", "how", "fold", "turned_over", "sizes"]);
    for group in groups {
        for row in &group.cut_list {
            sheet.rows.push(vec![
                row.fabric.clone(),
                row.layer.clone(),
                row.piece.clone(),
                row.label.clone(),
                row.copies.to_string(),
                how_words(row.how).to_owned(),
                row.fold.clone().unwrap_or_default(),
                if row.turned_over { "yes" } else { "no" }.to_owned(),
                group.sizes.join(" "),
            ]);
        }
    }
    sheet
}
