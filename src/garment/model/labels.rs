//! What people read of an edge, a line, a mark or a seam, also where that was copied, split or joined since.

use super::{EdgeId, Garment, PointId, Seam, Symbol};

impl Garment {
    /// What people read of an edge or line; none where its maker says nothing for people.
    pub fn edge_label(&self, edge: EdgeId) -> Option<&str> {
        let mut at = Some(Symbol::Edge(edge));
        while let Some(Symbol::Edge(id)) = at {
            if let Some(label) = &self.edge(id).label {
                return Some(label);
            }
            at = self.named_after(Symbol::Edge(id));
        }
        None
    }

    /// Whether that is a line at which makers lengthen or shorten the piece.
    pub fn is_to_adjust(&self, line: EdgeId) -> bool {
        let mut at = Some(Symbol::Edge(line));
        while let Some(Symbol::Edge(id)) = at {
            if self.edge(id).adjust {
                return true;
            }
            at = self.named_after(Symbol::Edge(id));
        }
        false
    }

    /// What people read of a mark; none where its maker says nothing for people.
    pub fn point_label(&self, point: PointId) -> Option<&str> {
        let mut at = Some(point);
        while let Some(id) = at {
            if let Some(label) = &self.point(id).label {
                return Some(label);
            }
            at = self.point(id).same_as.or(self.point(id).copied_from);
        }
        None
    }

    /// An edge in a sentence: "side", or "side seam (side)" where it has a label.
    pub fn edge_words(&self, edge: EdgeId) -> String {
        worded(self.edge_label(edge), &self.edge(edge).name)
    }

    /// What is written at a line on the cut piece: its label, else its name, and whether it is there to be cut
    /// apart.
    pub fn line_words(&self, line: EdgeId) -> String {
        let words = match self.edge_label(line) {
            Some(label) => label.to_owned(),
            None => self.edge(line).name.replace('_', " "),
        };
        if self.is_to_adjust(line) { format!("{words}: lengthen or shorten here") } else { words }
    }

    /// What is written at a mark on the cut piece.
    pub fn point_words(&self, point: PointId) -> String {
        self.point_label(point).map_or_else(|| self.point(point).name.replace('_', " "), str::to_owned)
    }
}

impl Seam {
    /// The seam in a sentence: "the side seam", or "the left side (side)" where it has a label.
    pub fn words(&self) -> String {
        match &self.label {
            Some(label) => format!("the {}", worded(Some(label), &self.name)),
            None => format!("the {} seam", self.name),
        }
    }
}

/// A label with the name by which the text has it.
fn worded(label: Option<&str>, name: &str) -> String {
    match label {
        Some(label) if label.replace(' ', "_").eq_ignore_ascii_case(name) => label.to_owned(),
        Some(label) => format!("{label} ({name})"),
        None => name.to_owned(),
    }
}
