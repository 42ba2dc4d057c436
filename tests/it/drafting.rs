//! What the tests of drawing and altering share: compile a text, look at what was drawn.

use fustian::garment::Garment;
use fustian::resolve::{DrawnPiece, SizedGarment};
use fustian::shape::Point;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// A compiled text.
pub struct Drafted {
    compiled: Compiled,
}

/// Compiles a text that stands under a heading in centimetres.
pub fn draft(text: &str) -> Drafted {
    draft_in("cm", text)
}

/// Compiles a text that stands under a heading in that unit.
pub fn draft_in(unit: &str, text: &str) -> Drafted {
    let text = format!("garment \"Deck smock\"\nunits {unit}\nallowance 1cm\ntolerance 2mm\n{text}\n");
    let loader = MemoryLoader::new().with("smock.fus", text);
    Drafted { compiled: compile(&loader, "smock.fus") }
}

impl Drafted {
    fn garment(&self) -> &Garment {
        &self.compiled.garment
    }

    /// The garment in a size.
    pub fn size(&self, size: usize) -> &SizedGarment {
        &self.compiled.sizes[size].drawn
    }

    /// Fails with all titles if anything was told of reading, drawing, altering or solving; checks of
    /// sewing do not matter here.
    pub fn drawn_soundly(self) -> Self {
        let told: Vec<String> = self
            .compiled
            .diagnostics
            .iter()
            .filter(|diagnostic| {
                let family = diagnostic.slug().split('/').next().unwrap_or_default();
                let drawing = "syntax text name unit table outline line mark notch divide arc curve strip alter solve \
                               value limit pair fold replace drop zipper";
                // A curve that slants where it is cut swings, and yet it is drawn as it was said.
                let swings = diagnostic.slug() == "alter/s-bend";
                !swings && drawing.split_whitespace().any(|known| known == family)
                    || diagnostic.slug() == "edge/gone"
            })
            .map(|diagnostic| format!("{}: {}", diagnostic.slug(), diagnostic.title))
            .collect();
        assert!(told.is_empty(), "{told:#?}");
        self
    }

    /// The titles of the messages of one slug.
    pub fn told(&self, slug: &str) -> Vec<String> {
        let told = self.compiled.diagnostics.iter().filter(|diagnostic| diagnostic.slug() == slug);
        told.map(|diagnostic| diagnostic.title.to_string()).collect()
    }

    /// Every slug that was told.
    pub fn slugs(&self) -> Vec<&'static str> {
        self.compiled.diagnostics.iter().map(|diagnostic| diagnostic.slug()).collect()
    }

    /// A piece as it is cut in the first size: `front`, `outer.front`.
    pub fn piece(&self, name: &str) -> &DrawnPiece {
        self.piece_in(0, name)
    }

    /// A piece as it is cut.
    pub fn piece_in(&self, size: usize, name: &str) -> &DrawnPiece {
        self.find(size, name)
            .unwrap_or_else(|| panic!("{name} is not drawn: {:#?}", self.compiled.diagnostics))
    }

    fn find(&self, size: usize, name: &str) -> Option<&DrawnPiece> {
        let (layer, name) = match name.split_once('.') {
            Some((layer, name)) => (Some(layer), name),
            None => (None, name),
        };
        let garment = self.garment();
        let at = garment.papers.iter().position(|paper| {
            let own = paper.layer.map(|layer| garment.layer(layer).name.as_ref());
            *garment.piece(paper.piece).name == *name && own == layer
        })?;
        self.size(size).papers[at].as_deref()
    }

    /// Whether a piece could not be drawn, or was split or joined.
    pub fn is_missing(&self, name: &str) -> bool {
        self.find(0, name).is_none()
    }

    /// The length of an edge in millimetres in the first size, all its runs on the piece together.
    pub fn length(&self, piece: &str, edge: &str) -> f64 {
        self.length_in(0, piece, edge)
    }

    /// The length of an edge in millimetres.
    pub fn length_in(&self, size: usize, piece: &str, edge: &str) -> f64 {
        let runs = self.piece_in(size, piece).edges.iter();
        let lengths: Vec<f64> = runs
            .filter(|drawn| *self.garment().edge(drawn.edge).name == *edge)
            .map(|drawn| drawn.path.length())
            .collect();
        assert!(!lengths.is_empty(), "{piece} has no edge {edge}");
        lengths.iter().sum()
    }

    /// Where a point of a piece is in the first size, in millimetres.
    pub fn point(&self, piece: &str, point: &str) -> Point {
        self.point_in(0, piece, point)
    }

    /// Where a point lies.
    pub fn point_in(&self, size: usize, piece: &str, point: &str) -> Point {
        let spots = self.piece_in(size, piece).spots.iter();
        let mut found = spots.filter(|spot| *self.garment().point(spot.point).name == *point);
        found.next().unwrap_or_else(|| panic!("{piece} has no point {point}")).at
    }

    /// The ends of a line of a piece in the first size.
    pub fn line(&self, piece: &str, line: &str) -> (Point, Point) {
        let lines = self.piece(piece).lines.iter();
        let mut found = lines.filter(|drawn| *self.garment().edge(drawn.edge).name == *line);
        let found = found.next().unwrap_or_else(|| panic!("{piece} has no line {line}"));
        (found.path.start(), found.path.end())
    }

    /// The names of a piece's edges, in order.
    pub fn edges(&self, piece: &str) -> Vec<String> {
        let edges = self.piece(piece).edges.iter();
        edges.map(|drawn| self.garment().edge(drawn.edge).name.to_string()).collect()
    }

    /// The area inside a piece, in square millimetres.
    pub fn area(&self, piece: &str) -> f64 {
        let ring: Vec<_> = self.piece(piece).edges.iter().map(|edge| edge.path.clone()).collect();
        fustian::shape::outline::signed_area(&ring).abs()
    }

    /// What the alterations came to in a size, in the order written.
    pub fn amounts(&self, size: usize) -> &[Option<f64>] {
        &self.size(size).amounts
    }

    /// A value in a size.
    pub fn value(&self, size: usize, name: &str) -> Option<f64> {
        let at = self.garment().values.iter().position(|value| *value.name == *name)?;
        self.size(size).scalar(fustian::garment::ValueId::from_index(at))
    }
}

/// Fails unless two lengths in millimetres agree to 0.01 mm, the last digit that is written.
#[track_caller]
pub fn same(found: f64, expected: f64) {
    assert!((found - expected).abs() < 0.01, "{found} instead of {expected}");
}

/// The same of places.
#[track_caller]
pub fn same_place(found: Point, expected: (f64, f64)) {
    assert!(found.distance(expected.into()) < 0.01, "{found:?} instead of {expected:?}");
}
