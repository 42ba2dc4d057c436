//! Words for a seam's sides.

use crate::check::words;
use crate::garment::{Chain, EdgeId, Garment, LayerId, Seam, SeamId, SewnEdge};
use crate::id_hash::IdSet;
use crate::resolve::{CornerName, SizedGarment};
use crate::sewing::{SeamEnd, Sewing, SewnSeam, SewnSide};
use crate::source::Span;
use smallvec::SmallVec;

/// Both sides of a seam in words: "Front", "Front and Back"; where they would be the same, "Front in
/// lining" or "the under_front of Sleeve".
pub(super) struct Sides {
    pub(super) first: String,
    pub(super) second: String,
    first_is_many: bool,
    second_is_many: bool,
}

impl Sides {
    pub(super) fn of(garment: &Garment, seam: &Seam) -> Self {
        let chains = [seam.first.first(), seam.second.first()];
        let edges = chains.map(|chain| chain.map_or(&[][..], |chain| &chain.edges));
        let titles = edges.map(|edges| unique(edges.iter().map(|sewn| words::piece(garment, sewn.piece))));
        let layers = edges.map(|edges| edges.iter().map(|sewn| sewn.layer).collect::<Vec<Option<LayerId>>>());
        let is_same = titles[0] == titles[1];
        let words = match (is_same, layers[0] != layers[1]) {
            (false, _) => titles,
            (true, true) => [0, 1].map(|side| {
                let each = edges[side].iter().map(|sewn| match sewn.layer {
                    Some(layer) => {
                        format!("{} in {}", words::piece(garment, sewn.piece), garment.layer(layer).name)
                    }
                    None => words::piece(garment, sewn.piece),
                });
                unique(each)
            }),
            // Copies of one piece, sewn to one another by the same edges.
            (true, false) if edges[0].len() > 1 && is_alike(edges[0], edges[1]) => {
                let [one, _] = titles;
                let piece = words::listed(&one);
                [format!("the first {piece}"), format!("the second {piece}")].map(|words| vec![words])
            }
            (true, false) => {
                edges.map(|edges| unique(edges.iter().map(|sewn| words::edge(garment, sewn.edge))))
            }
        };
        Sides {
            first: words::listed(&words[0]),
            second: words::listed(&words[1]),
            first_is_many: words[0].len() > 1,
            second_is_many: words[1].len() > 1,
        }
    }

    /// "Front is 2 cm longer than Back", the longer side first.
    pub(super) fn longer(&self, first_is_longer: bool, by: &str) -> String {
        let (longer, is_many, shorter) = match first_is_longer {
            true => (&self.first, self.first_is_many, &self.second),
            false => (&self.second, self.second_is_many, &self.first),
        };
        format!("{longer} {} {by} longer than {shorter}", if is_many { "are" } else { "is" })
    }

    /// "Band is", "Front and Back are".
    pub(super) fn first_is(&self) -> String {
        format!("{} {}", self.first, if self.first_is_many { "are" } else { "is" })
    }
}

fn is_alike(one: &[SewnEdge], other: &[SewnEdge]) -> bool {
    let edges = |side: &[SewnEdge]| side.iter().map(|sewn| sewn.edge).collect::<Vec<EdgeId>>();
    edges(one) == edges(other)
}

fn unique(words: impl Iterator<Item = String>) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for word in words {
        if !found.contains(&word) {
            found.push(word);
        }
    }
    found
}

/// " (M)"; nothing in a garment of one size.
pub(super) fn in_size(garment: &Garment, sized: &SizedGarment) -> String {
    match garment.sizes.len() > 1 {
        true => format!(" ({})", garment.size(sized.size).name),
        false => String::new(),
    }
}

/// Where a ply of a side is written.
pub(super) fn ply_span(seam: &Seam, second: bool, ply: usize) -> Span {
    let plies = if second { &seam.second } else { &seam.first };
    plies.get(ply).map_or(seam.name_span, |chain| chain.span)
}

/// The length of a side: of its first ply.
pub(super) fn length(side: &SewnSide) -> f64 {
    side.plies.first().map_or(0.0, |ply| ply.length)
}

/// So many edges in a row are compared one by one; only more are hashed.
const FEW_NAMED: usize = 8;

/// Whether an edge is named twice in a row on one side, which `edge/twice` reports: the side's length then means
/// nothing.
fn names_one_twice(seam: &Seam) -> bool {
    let many = |chain: &&Chain| chain.edges.len() > 1;
    seam.first.iter().chain(&seam.second).filter(many).any(|chain| {
        let mut first: SmallVec<[(Option<LayerId>, EdgeId); FEW_NAMED]> = SmallVec::new();
        let mut others = IdSet::default();
        chain.edges.iter().map(|sewn| (sewn.layer, sewn.edge)).any(|one| {
            if first.contains(&one) || (first.len() == FEW_NAMED && !others.insert(one)) {
                return true;
            }
            if first.len() < FEW_NAMED {
                first.push(one);
            }
            false
        })
    })
}

/// The seams of which something is to be said: known, paired, and of those that are sewn the same in
/// several layers the first.
pub(in crate::check) fn each<'a>(
    garment: &'a Garment,
    sewing: &'a Sewing,
) -> impl Iterator<Item = (&'a Seam, &'a SewnSeam)> {
    // A seam's layers follow one another.
    let mut seen: (Option<SeamId>, SmallVec<[(i64, i64); 4]>) = (None, SmallVec::new());
    let known = sewing.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none());
    let rounded = |length: f64| (length * 100.0).round() as i64;
    known
        .filter(|sewn| !names_one_twice(garment.seam(sewn.seam)))
        .filter(move |sewn| {
            if seen.0 != Some(sewn.seam) {
                seen = (Some(sewn.seam), SmallVec::new());
            }
            let lengths = (rounded(length(&sewn.first)), rounded(length(&sewn.second)));
            let is_new = !seen.1.contains(&lengths);
            seen.1.push(lengths);
            is_new
        })
        .map(|sewn| (garment.seam(sewn.seam), sewn))
}

/// "front.tip", with its layer where the seam says it; none of a corner without a name.
pub(in crate::check) fn corner(
    garment: &Garment,
    sewing: &Sewing,
    end: &SeamEnd,
    layer: bool,
) -> Option<String> {
    let CornerName::Named(point) = end.corner else { return None };
    let point = garment.point(point);
    let part = sewing.part(end.part).part;
    Some(format!("{}.{}", garment.part_name(layer.then_some(part.layer), part.piece), point.name))
}
