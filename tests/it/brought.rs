//! Patterns that were brought in, and what is asked of them.

use fustian::bring::{BringError, BringOptions, Brought, bring};
use fustian::cutting::WorkedSize;
use fustian::resolve::DrawnPiece;
use fustian::shape::path::Path;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// A drawing in millimetres: a unit of it is one.
pub fn in_mm(drawn: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='2000mm' height='2000mm' viewBox='0 0 2000 2000'>{drawn}</svg>"
    )
}

/// A drawing brought in as nothing else is said.
pub fn brought(name: &str, drawing: &str) -> Brought {
    brought_with(name, drawing, &BringOptions::default()).unwrap_or_else(|why| panic!("{why}\n{drawing}"))
}

/// The same as something is said.
pub fn brought_with(name: &str, drawing: &str, options: &BringOptions) -> Result<Brought, BringError> {
    bring(&[(name, drawing.as_bytes())], options)
}

/// The text without indents and columns.
pub fn plain(text: &str) -> String {
    let lines = text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "));
    lines.map(|line| line + "\n").collect()
}

/// The text compiled, which has to be a draft: all that is wrong is that nothing is sewn.
pub fn draft(text: &str) -> Compiled {
    let compiled = compiled(text);
    for one in compiled.diagnostics.iter().filter(|one| one.severity() == fustian::Severity::Mistake) {
        assert_eq!(one.slug(), "piece/unsewn", "{}\n{text}", one.title.as_str());
    }
    compiled
}

/// The text compiled.
pub fn compiled(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("draft.fus", text), "draft.fus")
}

/// A piece as it is drawn, in that size.
pub fn piece<'a>(compiled: &'a Compiled, size: usize, name: &str) -> &'a DrawnPiece {
    let sized: &WorkedSize = &compiled.sizes[size];
    let id = compiled.garment.pieces.iter().position(|piece| &*piece.name == name);
    let id = id.unwrap_or_else(|| panic!("there is no piece {name}"));
    let part = sized.sewn.parts.iter().find(|part| part.part.piece.index() == id);
    let part = part.unwrap_or_else(|| panic!("{name} is not cut"));
    sized.drawn.paper(part.part.paper).unwrap_or_else(|| panic!("{name} has no paper"))
}

/// How long an edge is in that size, in millimetres.
pub fn length(compiled: &Compiled, size: usize, of: &str, edge: &str) -> f64 {
    let drawn = piece(compiled, size, of);
    let found = drawn.edges.iter().find(|one| &*compiled.garment.edge(one.edge).name == edge);
    found.unwrap_or_else(|| panic!("{of} has no edge {edge}")).path.length()
}

/// The outline of a piece in that size.
pub fn outline(compiled: &Compiled, size: usize, of: &str) -> Vec<Path> {
    piece(compiled, size, of).edges.iter().map(|edge| edge.path.clone()).collect()
}

/// Its area in square millimetres.
pub fn area(compiled: &Compiled, size: usize, of: &str) -> f64 {
    fustian::shape::outline::signed_area(&outline(compiled, size, of)).abs()
}
