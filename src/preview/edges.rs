//! Edges by name: what the page points at.

use super::mates::Mates;
use super::shapes::down;
use crate::cutting::{CutPart, WorkedSize};
use crate::emit::Figure;
use crate::garment::{EdgeId, Garment};
use crate::resolve::DrawnEdgeId;
use crate::sewing::PartId;
use crate::shape::path::Path;
use indexmap::IndexMap;
use kurbo::Vec2;
use serde::Serialize;

/// An edge of a part, or the outline of a piece that is placed on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EdgeView {
    /// Its name among all: `outer.front.side`.
    pub key: String,
    /// What people call it.
    pub name: String,
    /// Where it lies, in every size that is shown: x and y by turns.
    pub lines: Vec<Vec<Figure>>,
    /// The names of the edges that it is sewn, or closed, to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub mates: Vec<String>,
    /// Whether it can be pointed at; the outline of what is placed only is lit.
    pub pointed: bool,
}

/// How far a line on the page may lie from its edge, in millimetres.
const FLAT: f64 = 0.3;

/// The edges of a part, by id, and the name of each among all: a second one of the same name is counted.
pub(super) fn keys(garment: &Garment, part: &CutPart) -> IndexMap<EdgeId, String> {
    let mut keys: IndexMap<EdgeId, String> = IndexMap::new();
    let name = part.name(garment);
    let mut counts: IndexMap<&str, usize> = IndexMap::new();
    for &edge in &part.edges {
        if keys.contains_key(&edge) {
            continue;
        }
        let own = &*garment.edge(edge).name;
        let count = counts.entry(own).or_insert(0);
        *count += 1;
        let key = if *count == 1 { format!("{name}.{own}") } else { format!("{name}.{own} {count}") };
        keys.insert(edge, key);
    }
    keys
}

/// The name of the outline of a piece that is placed on a part.
pub(super) fn placed_key(garment: &Garment, part: &CutPart, piece: &str) -> String {
    format!("{}: {piece}", part.name(garment))
}

/// The parts that are cut by one: of one that is cut alike for both sides, of which more is told apart, both.
pub(super) fn owners(size: &WorkedSize, part: &CutPart) -> Vec<PartId> {
    let Some(left) = size.sewn.index.of(part.part) else { return Vec::new() };
    let both = std::iter::once(left).chain(size.sewn.index.twin(left));
    let is_own = |id: &PartId| part.hand.is_none_or(|hand| size.sewn.index.hand(*id) == Some(hand));
    both.filter(is_own).collect()
}

/// The edge as the size has it drawn.
pub(super) fn drawn_edge(size: &WorkedSize, part: &CutPart, edge: EdgeId) -> Option<DrawnEdgeId> {
    let drawn = size.drawn.paper(part.part.paper)?;
    DrawnEdgeId::enumerate(&drawn.edges).find(|(_, own)| own.edge == edge).map(|(id, _)| id)
}

/// The edges of a part that is shown in some sizes, smallest first, moved; `mates` are those of the first.
pub(super) fn edges(
    garment: &Garment,
    members: &[&CutPart],
    size: Option<(&WorkedSize, &Mates)>,
    by: Vec2,
) -> Vec<EdgeView> {
    let Some(first) = members.first() else { return Vec::new() };
    let mut found: IndexMap<EdgeId, EdgeView> = IndexMap::new();
    for (edge, key) in keys(garment, first) {
        let mates = size.map_or_else(Vec::new, |(size, mates)| {
            let at = drawn_edge(size, first, edge);
            let own = owners(size, first).into_iter().zip(at.iter().cycle());
            let mut named: Vec<String> =
                own.flat_map(|(part, at)| mates.of_edge(part, *at)).flat_map(|(_, mates)| mates).collect();
            let mut kept = std::collections::HashSet::new();
            named.retain(|mate| kept.insert(mate.clone()));
            named
        });
        let name = garment.edge_words(edge);
        found.insert(edge, EdgeView { key, name, lines: Vec::new(), mates, pointed: true });
    }
    for part in members {
        for (edge, path) in part.edges.iter().zip(part.stitching.iter().chain(part.holes.iter().flatten())) {
            if let Some(view) = found.get_mut(edge) {
                view.lines.push(flat(path, by));
            }
        }
    }
    let mut views: IndexMap<String, EdgeView> =
        found.into_values().map(|view| (view.key.clone(), view)).collect();
    for part in members {
        for guide in part.guides.iter().filter(|guide| guide.kind == crate::cutting::GuideKind::Placed) {
            let key = placed_key(garment, part, &guide.name);
            let view = views.entry(key.clone()).or_insert_with(|| EdgeView {
                key,
                name: guide.name.clone(),
                lines: Vec::new(),
                mates: Vec::new(),
                pointed: false,
            });
            view.lines.push(flat(&guide.path, by));
        }
    }
    views.into_values().collect()
}

fn flat(path: &Path, by: Vec2) -> Vec<Figure> {
    let points = path.flatten(FLAT);
    points.into_iter().map(|point| down(point + by)).flat_map(|at| [Figure(at.x), Figure(at.y)]).collect()
}
