//! Tables of a column a size. Many sizes stand in several tables one below the other, so that none is wider than a phone.

use super::figures::Written;
use super::write::{Html, NAME_LETTERS, escaped, said};
use minijinja::Value;
use serde::Serialize;

/// Sizes that stand side by side: so many columns of three digits fit a phone.
const SIDE_BY_SIDE: usize = 8;

/// A table with its caption, in as many blocks as its sizes need.
#[derive(Debug, Serialize)]
pub struct Table {
    caption: Html,
    /// What its figures are in.
    units: &'static str,
    blocks: Vec<Block>,
}

#[derive(Debug, Serialize)]
struct Block {
    sizes: Vec<Head>,
    rows: Vec<BlockRow>,
}

#[derive(Debug, Serialize)]
struct Head {
    at: usize,
    name: Html,
}

#[derive(Debug, Serialize)]
struct BlockRow {
    title: Html,
    note: Html,
    cells: Vec<Cell>,
}

#[derive(Clone, Debug, Serialize)]
struct Cell {
    at: usize,
    main: Html,
    beside: Html,
}

/// A row before it is parted.
#[derive(Debug)]
pub struct TableRow {
    /// What it is of.
    pub title: Html,
    /// What stands small beneath.
    pub note: Html,
    /// One a size; none where a size has none.
    pub cells: Vec<Option<Written>>,
}

impl Table {
    /// Of these sizes; none without rows.
    pub fn of(caption: Html, units: &'static str, sizes: &[String], rows: &[TableRow]) -> Option<Table> {
        if rows.is_empty() {
            return None;
        }
        let blocks = sizes.len().div_ceil(SIDE_BY_SIDE).max(1);
        let each = sizes.len().div_ceil(blocks).max(1);
        let block = |from: usize| {
            let columns = from..(from + each).min(sizes.len());
            Block {
                sizes: columns.clone().map(|at| Head { at, name: said(&sizes[at], NAME_LETTERS) }).collect(),
                rows: rows
                    .iter()
                    .map(|row| BlockRow {
                        title: row.title.clone(),
                        note: row.note.clone(),
                        cells: columns
                            .clone()
                            .map(|at| cell(at, row.cells.get(at).and_then(Option::as_ref)))
                            .collect(),
                    })
                    .collect(),
            }
        };
        Some(Table { caption, units, blocks: (0..sizes.len()).step_by(each).map(block).collect() })
    }
}

fn cell(at: usize, written: Option<&Written>) -> Cell {
    let main = written.map_or("–", |written| &written.main);
    let beside = written.and_then(|written| written.beside.as_deref()).unwrap_or("");
    let html = |words: &str| Value::from_safe_string(escaped(words));
    Cell { at, main: html(main), beside: html(beside) }
}
