//! All that is known of one edge: what becomes of it, and how long it is in every size, beside what it is sewn to.

use super::edges::{drawn_edge, keys, owners};
use super::mates::{Mates, is_measured};
use super::said::PlaceView;
use super::shown::Shown;
use crate::cutting::{CutPart, WorkedSize};
use crate::emit::taker_words;
use crate::garment::{EdgeId, Garment, SeamId};
use crate::report::amount;
use crate::resolve::{DrawnEdgeId, finished};
use crate::sewing::{PartId, SewnSeam, SewnSide, TakenBy};
use crate::syntax::tree::FitKind;
use serde::Serialize;

/// One edge.
#[derive(Clone, Debug, Serialize)]
pub struct EdgeFacts {
    /// Its name among all: `outer.front.side`.
    pub key: String,
    /// The piece, for people.
    pub piece: String,
    /// The part.
    pub part: String,
    /// The edge, for people.
    pub name: String,
    /// Where its name is declared.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub declared: Option<PlaceView>,
    /// Its allowance, as a tape shows it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowance: Option<String>,
    /// What becomes of it; nothing where nothing takes it.
    pub fates: Vec<FateView>,
    /// Titles of the figures.
    pub columns: Vec<String>,
    /// Its figures, a row for each size.
    pub rows: Vec<SizeRow>,
}

impl EdgeFacts {
    /// Leaves out a column that says of every size what the first one says.
    fn without_twice_told(&mut self, column: usize) {
        if self.rows.iter().all(|row| row.figures.get(column) == row.figures.first()) {
            self.columns.remove(column);
            for row in &mut self.rows {
                row.figures.remove(column);
            }
        }
    }
}

/// What takes an edge.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FateView {
    /// In words: "seam side".
    pub words: String,
    /// On that side of the body alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on: Option<&'static str>,
    /// What it is sewn, closed or laid to.
    pub mates: Vec<MateView>,
}

/// An edge that another is sewn to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MateView {
    /// Its name among all.
    pub key: String,
    /// It is the same edge, of another copy.
    pub itself: bool,
}

/// The figures of one size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SizeRow {
    /// The size.
    pub size: String,
    /// Its figures, one a column.
    pub figures: Vec<String>,
}

/// No more seams than this are measured beside an edge.
const MEASURED: usize = 2;

/// The edge of that name; none where there is none.
pub(super) fn edge_facts(shown: &Shown, key: &str) -> Option<EdgeFacts> {
    let garment = shown.garment();
    let (first, part, edge) = find(shown, key)?;
    let size = shown.sizes().get(first)?;
    let mates = Mates::new(garment, size, shown.cut(first)?);
    let owners = owners(size, part);
    let mut facts = EdgeFacts {
        key: key.to_owned(),
        piece: garment.piece(part.part.piece).title.to_string(),
        part: part.name(garment),
        name: garment.edge_words(edge),
        declared: declared(shown, edge),
        allowance: None,
        fates: Vec::new(),
        columns: vec!["length".to_owned()],
        rows: Vec::new(),
    };
    let mut seams: Vec<SeamId> = Vec::new();
    if let Some(at) = drawn_edge(size, part, edge) {
        for &owner in &owners {
            let sewn = size.sewn.part(owner);
            let allowance = sewn.fate(at).and_then(|fate| fate.allowance);
            facts.allowance = facts.allowance.or(allowance.map(|width| amount(width, garment.unit)));
            let on = sewn.hand.filter(|_| owners.len() > 1).map(|hand| hand.word());
            facts.fates.extend(fates(garment, &mates, (owner, at), key, on));
            let takers = sewn.fate(at).into_iter().flat_map(|fate| &fate.takers);
            seams.extend(takers.filter_map(|taker| match taker.what {
                TakenBy::Seam(seam, _) => Some(seam),
                _ => None,
            }));
        }
        facts.fates = both_alike(facts.fates);
        let is_inside =
            owners.iter().any(|&id| size.sewn.part(id).fate(at).is_some_and(|fate| fate.folded_in));
        if is_inside {
            facts.fates.push(FateView { words: "folded in".to_owned(), on: None, mates: Vec::new() });
        }
        if owners.iter().any(|&id| size.sewn.part(id).fused) {
            facts.fates.push(FateView { words: "fused on".to_owned(), on: None, mates: Vec::new() });
        }
    }
    seams.sort();
    seams.dedup();
    seams.truncate(MEASURED);
    for &seam in &seams {
        let name = &garment.seam(seam).name;
        facts.columns.extend([
            format!("its side of {name}"),
            format!("other side of {name}"),
            "fit".to_owned(),
        ]);
    }
    for (at, size) in shown.sizes().iter().enumerate() {
        facts.rows.push(row(shown, at, size, key, &seams));
    }
    for number in (0..seams.len()).rev() {
        facts.without_twice_told(1 + 3 * number);
    }
    Some(facts)
}

/// The first size that has such an edge, its part and its id.
fn find<'a>(shown: &'a Shown, key: &str) -> Option<(usize, &'a CutPart, EdgeId)> {
    (0..shown.sizes().len()).find_map(|at| {
        let (part, edge) = find_in(shown, at, key)?;
        Some((at, part, edge))
    })
}

fn find_in<'a>(shown: &'a Shown, at: usize, key: &str) -> Option<(&'a CutPart, EdgeId)> {
    let garment = shown.garment();
    let mut parts = shown.cut(at)?.parts.iter();
    parts.find_map(|part| {
        let rest = key.strip_prefix(&part.name(garment))?;
        if !rest.starts_with('.') {
            return None;
        }
        let (edge, _) = keys(garment, part).into_iter().find(|(_, own)| own == key)?;
        Some((part, edge))
    })
}

fn declared(shown: &Shown, edge: EdgeId) -> Option<PlaceView> {
    let (span, map) = (shown.garment().edge(edge).span, &shown.compiled.map);
    if span.hi <= span.lo || map.files().is_empty() {
        return None;
    }
    let (file, line, column) = map.place(span);
    let words = [String::new(), map.text(span).chars().take(120).collect(), String::new()];
    Some(PlaceView { file: file.to_owned(), line, column, text: String::new(), words })
}

fn fates(
    garment: &Garment,
    mates: &Mates,
    (part, edge): (PartId, DrawnEdgeId),
    key: &str,
    on: Option<&'static str>,
) -> Vec<FateView> {
    let taken = mates.of_edge(part, edge).into_iter();
    taken
        .map(|(taker, mates)| FateView {
            words: taker_words(garment, &taker),
            on,
            mates: mates.into_iter().map(|mate| MateView { itself: mate == key, key: mate }).collect(),
        })
        .collect()
}

/// What is the same on both sides of the body is said once.
fn both_alike(fates: Vec<FateView>) -> Vec<FateView> {
    let mut told: Vec<FateView> = Vec::new();
    for fate in fates {
        match told.iter_mut().find(|own| own.words == fate.words && own.mates == fate.mates) {
            Some(own) => own.on = None,
            None => told.push(fate),
        }
    }
    told
}

fn row(shown: &Shown, at: usize, size: &WorkedSize, key: &str, seams: &[SeamId]) -> SizeRow {
    let garment = shown.garment();
    let unit = garment.unit;
    let name = garment.size(size.id()).name.to_string();
    let nothing = || vec![String::new(); 1 + 3 * seams.len()];
    let Some((part, edge)) = find_in(shown, at, key) else {
        return SizeRow { size: name, figures: nothing() };
    };
    let drawn = size.drawn.paper(part.part.paper).zip(drawn_edge(size, part, edge));
    let long = drawn.and_then(|(drawn, edge)| finished(garment, drawn, edge));
    let mut figures = vec![long.map_or_else(String::new, |long| amount(long, unit))];
    let owners = owners(size, part);
    for &seam in seams {
        let sewn = size.sewn.seams.iter().filter(|sewn| sewn.seam == seam && is_measured(sewn));
        let sides =
            sewn.flat_map(|sewn| [(sewn, &sewn.first, &sewn.second), (sewn, &sewn.second, &sewn.first)]);
        let own = sides.into_iter().find(|(_, own, _)| {
            let mut runs = own.plies.iter().flat_map(|ply| &ply.runs);
            runs.any(|run| owners.contains(&run.part) && drawn.is_some_and(|(_, edge)| run.edge == edge))
        });
        figures.extend(match own {
            Some((sewn, own, other)) => {
                let (own, theirs) = (long_of(own), long_of(other));
                [amount(own, unit), amount(theirs, unit), fit(garment, sewn, own - theirs)]
            }
            None => [const { String::new() }; 3],
        });
    }
    SizeRow { size: name, figures }
}

fn long_of(side: &SewnSide) -> f64 {
    side.plies.first().map_or(0.0, |ply| ply.length)
}

/// How two sides fit whose lengths differ by so much.
fn fit(garment: &Garment, seam: &SewnSeam, longer: f64) -> String {
    if longer.abs() <= garment.tolerance.max(0.5) {
        return "even".to_owned();
    }
    let far = amount(longer.abs(), garment.unit);
    let said = seam.fit.map(|fit| match fit.kind {
        FitKind::Easing => "eased",
        FitKind::Gathering => "gathered",
        FitKind::Stretching => "stretched",
    });
    match said {
        Some(word) => format!("{far} {word}"),
        None if longer > 0.0 => format!("{far} longer"),
        None => format!("{far} shorter"),
    }
}
