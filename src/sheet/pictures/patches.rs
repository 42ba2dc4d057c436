//! What is placed on a piece, where it lies on its flat copy.

use super::canvas::Panel;
use super::fit::rigid;
use super::flat::closed;
use super::ink::Stroke;
use super::laid::{Laid, Shown, label};
use super::making::Making;
use crate::garment::EdgeId;
use crate::sewing::surface::FaceId;
use crate::shape::path::Path;
use crate::shape::{Affine, Point};
use crate::syntax::tree::Hand;

/// A placed piece.
pub struct Placed {
    /// What is placed.
    pub face: FaceId,
    /// Its outline, on its host's flat copy.
    pub outline: Vec<Path>,
    /// The edges that are stitched down.
    pub stitched: Vec<Path>,
    /// The edges that are caught elsewhere.
    pub caught: Vec<Path>,
    /// From its own flat copy to where it lies on its host's.
    pub by: Option<Affine>,
}

/// The placing by which a face lies on another, by its place.
pub fn host_of(making: &Making, face: FaceId) -> Option<usize> {
    making.surface.placings.iter().position(|placing| placing.placed == face)
}

impl Placed {
    /// By its place among the surface's placings. None where it is not known where it lies.
    pub fn of(making: &Making, at: usize) -> Option<Placed> {
        let placing = making.surface.placings.get(at)?;
        let patch = making.patches.iter().find(|patch| patch.id == placing.placement)?;
        let host = making.flat(placing.host)?;
        let placed = making.surface.face(placing.placed);
        let before = making
            .surface
            .placings
            .iter()
            .take(at)
            .filter(|other| (other.host, other.placement) == (placing.host, placing.placement));
        let drawn = making.garment.piece(host.drawn.piece).drawn.map_or(Hand::Left, |(hand, _)| hand);
        let hand = placed.hand.or(patch.placement.hand);
        let beyond = match hand {
            Some(hand) => hand != drawn,
            None => before.count() % 2 == 1,
        };
        let to = match host.mirror.filter(|_| beyond) {
            Some(mirror) => host.base * mirror,
            None => host.base,
        };
        let corners: Vec<Point> = patch.outline.iter().map(Path::start).collect();
        let to = to * host.carried(&corners);
        let is_caught =
            |edge: EdgeId| patch.placement.caught.iter().any(|one| making.garment.is_run_of(edge, one.edge));
        let moved = |caught: bool| -> Vec<Path> {
            let own = patch.rows.iter().filter(|(edge, _)| is_caught(*edge) == caught);
            own.map(|(_, path)| path.transform(to)).collect()
        };
        let outline = patch.outline.iter().map(|path| path.transform(to)).collect();
        let own = making.flat(placing.placed)?;
        let mut pairs: Vec<(Point, Point)> = Vec::new();
        for (edge, path) in &patch.placed.edges {
            if let Some(drawn) = own.drawn.edge(*edge) {
                pairs.push((own.base * drawn.path.start(), to * path.start()));
                pairs.push((own.base * drawn.path.end(), to * path.end()));
            }
        }
        let ways = [false, true].into_iter().filter_map(|reflect| rigid(&pairs, reflect));
        let by = ways.min_by(|one, other| one.1.total_cmp(&other.1)).map(|(by, _)| by);
        Some(Placed { face: placing.placed, outline, stitched: moved(false), caught: moved(true), by })
    }

    /// Draws it on its host, with its stitched edges in that stroke.
    pub fn draw(
        &self,
        making: &Making,
        host: &Laid,
        panel: &mut Panel,
        shown: Shown,
        stroke: Stroke,
        letter: Option<&str>,
    ) {
        let Some(flat) = making.flat(self.face) else { return };
        let outline = host.by * closed(self.outline.iter());
        panel.cloth(outline.clone(), making.cloth(flat.layer, true, shown.joined));
        panel.line(outline, if shown.joined { Stroke::Joined } else { Stroke::Outline });
        for path in &self.stitched {
            panel.line(host.path(path).to_bez(), stroke);
        }
        if let (Some(letter), Some(path)) =
            (letter, self.stitched.iter().max_by(|a, b| a.length().total_cmp(&b.length())))
        {
            let path = host.path(path);
            let middle = path.length() / 2.0;
            panel.tag(
                path.point_at_length(middle),
                path.tangent_at_length(middle).unwrap_or_default(),
                letter,
            );
        }
        if shown.labelled {
            let ring: Vec<Point> =
                self.outline.iter().flat_map(|path| path.flatten(0.5)).map(|at| host.by * at).collect();
            let (number, title) = making.called(flat.part);
            panel.labels.push(label(&ring, number, &title));
        }
    }
}

/// The faces of hosts and what lies on each, beside one another.
pub fn beside(rings: &[Vec<Point>], gap: f64) -> Vec<Affine> {
    let mut right = 0.0;
    let each = rings.iter().map(|ring| {
        let Some(bounds) = super::fit::bounds(ring) else { return Affine::IDENTITY };
        let by = Affine::translate((right - bounds.x0, -bounds.center().y));
        right += bounds.width() + gap;
        by
    });
    each.collect()
}
