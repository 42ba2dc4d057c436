//! A comparison for spreadsheets: a row a cause, and then one a fact and size.

use super::{Comparison, Differs};
use crate::emit::form::unit_of;
use crate::emit::number::Figure;
use crate::emit::sheet::Sheet;

impl Comparison {
    /// Comma-separated values (RFC 4180); lengths in the garment's unit, which each row of one names.
    pub fn csv(&self) -> String {
        let heading =
            ["section", "name", "label", "change", "what", "size", "old", "new", "unit", "file", "line"];
        let mut sheet = Sheet::new(&heading);
        let mut row = |cells: [&str; 11]| sheet.rows.push(cells.map(str::to_owned).to_vec());
        for cause in &self.causes {
            let (old, new) = (cause.old.as_deref().unwrap_or(""), cause.new.as_deref().unwrap_or(""));
            let change = match (&cause.old, &cause.new) {
                (None, _) => "added",
                (_, None) => "gone",
                _ => "changed",
            };
            let line = cause.line.to_string();
            let cells =
                ["cause", &cause.what, "", change, &cause.words, "", old, new, "", &cause.file, &line];
            row(cells);
        }
        for (sizes, change) in [(&self.sizes_added, "added"), (&self.sizes_gone, "gone")] {
            sizes.iter().for_each(|size| row(["sizes", size, "", change, "", size, "", "", "", "", ""]));
        }
        let (unit, millimetres) = unit_of(self.shown_in);
        for (section, changes) in &self.changes {
            for change in changes {
                let (label, fate) = (change.label.as_deref().unwrap_or(""), change.change.to_string());
                if change.facts.is_empty() {
                    row([section, &change.name, label, &fate, "", "", "", "", "", "", ""]);
                }
                for fact in &change.facts {
                    for (size, differs) in &fact.sizes {
                        let figure = |mm: Option<Figure>| {
                            mm.map_or_else(String::new, |mm| Figure(mm.0 / millimetres).to_string())
                        };
                        let (old, new, unit) = match differs {
                            Differs::Length { old, new } => (figure(*old), figure(*new), unit),
                            Differs::Words { old, new } => {
                                (old.clone().unwrap_or_default(), new.clone().unwrap_or_default(), "")
                            }
                            Differs::Redrawn { moved: Some(moved), .. } => {
                                (String::new(), format!("moved by {}", figure(Some(*moved))), unit)
                            }
                            Differs::Redrawn { moved: None, .. } => {
                                (String::new(), "drawn with other points".to_owned(), "")
                            }
                        };
                        let (what, name) = (fact.what.as_str(), change.name.as_str());
                        row([section, name, label, &fate, what, size, &old, &new, unit, "", ""]);
                    }
                }
            }
        }
        sheet.csv()
    }
}
