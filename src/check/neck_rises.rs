//! `neck/rises`: a neckline that is drawn upwards, whose middle lies higher than where it meets the shoulder.
//!
//! A neckline is told by how it lies, and not by its name: it goes from the top of a piece's middle, a fold or what opens there,
//! to an edge that leads away to the side and is sewn to a piece on which the neckline goes on.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece};
use crate::sewing::surface::{JoinedBy, StretchId, Surface};
use crate::sewing::{PartId, TakenBy};
use crate::shape::Point;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NECK_RISES], run: Run::PerSize(run) };

/// By how much the middle of a neckline may rise above its ends, in millimetres: boat necks go straight across and hollow a
/// little under the weight of the cloth, and what stands up rises at the shoulder as well (common practice).
const RISES: f64 = 15.0;
/// A middle is upright, and a shoulder leads away to the side, by this share: raglan seams go down twice as far as to the
/// side at the most, the sides of skirts further.
const ASLANT: f64 = 0.5;
/// A neckline is at least so wide to each side, in millimetres.
const WIDE: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let looking = Looking { garment, size, surface };
    for (part, sewn) in PartId::enumerate(&size.sewn.parts).filter(|(_, part)| !part.fused) {
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        // Of what lies across the cloth or on the bias the paper does not tell which way is up.
        if drawn.grain.y.abs() < drawn.grain.x.abs() * 2.0 {
            continue;
        }
        let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(edge, _)| edge);
        findings.extend(edges.filter_map(|edge| looking.rises(part, drawn, edge)).take(1));
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl Looking<'_> {
    fn rises(&self, part: PartId, drawn: &DrawnPiece, neck: DrawnEdgeId) -> Option<Finding> {
        // Most edges are none from their two ends alone.
        let rise = drawn.edge_at(neck)?.path.end() - drawn.edge_at(neck)?.path.start();
        if rise.y.abs() <= RISES || rise.x.abs() < WIDE {
            return None;
        }
        // A cut at a wrist leads up, too.
        if self.is_side_of_slit(drawn, neck) {
            return None;
        }
        let (before, after) = (drawn.before(neck), drawn.after(neck));
        [(before, after, neck), (after, before, after)].into_iter().find_map(
            |(middle, shoulder, at_middle)| {
                let starts_at_middle = at_middle == neck;
                let path = &drawn.edge_at(neck)?.path;
                let (top, end) = match starts_at_middle {
                    true => (path.start(), path.end()),
                    false => (path.end(), path.start()),
                };
                let far = |edge: DrawnEdgeId, at: Point| -> Option<Point> {
                    let path = &drawn.edge_at(edge)?.path;
                    Some(if path.start().distance(at) <= path.end().distance(at) {
                        path.end()
                    } else {
                        path.start()
                    })
                };
                let (below, tip) = (far(middle, top)?, far(shoulder, end)?);
                let (down, away, across) = (top - below, tip - end, end - top);
                let is_upright = down.y > 0.0 && down.x.abs() <= ASLANT * down.y;
                let leads_away = away.x * across.x > 0.0 && away.x.abs() >= ASLANT * away.y.abs();
                let is_wide = across.x.abs() >= WIDE;
                let rises = top.y - end.y;
                let is_it = rises > RISES && is_upright && leads_away && is_wide;
                if !is_it || !self.is_middle(part, drawn, middle) || !self.goes_on(part, neck, shoulder) {
                    return None;
                }
                Some(self.reported(drawn, neck, at_middle, rises))
            },
        )
    }

    /// Whether an edge is the middle of its piece: its fold, or an edge that is closed, finished or sewn to its own twin.
    fn is_middle(&self, part: PartId, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
        let Some(own) = drawn.edge_at(edge) else { return false };
        if let CutHow::OnFold(fold) = drawn.cut {
            return own.edge == fold || self.is_side_of_slit(drawn, edge);
        }
        let piece = self.size.sewn.part(part).part.piece;
        drawn.cut == CutHow::Mirrored
            && self.stretches(part, edge).all(|stretch| {
                let partner = self.size.sewn.gluing.partner(stretch);
                partner.is_none_or(|partner| self.piece_of(partner.stretch) == piece)
            })
    }

    fn is_side_of_slit(&self, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
        drawn.edge_at(edge).is_some_and(|edge| self.garment.edge(edge.edge).side_of.is_some())
    }

    /// Whether what is done to a neckline is done to the edge that it runs on into over the shoulder.
    fn goes_on(&self, part: PartId, neck: DrawnEdgeId, shoulder: DrawnEdgeId) -> bool {
        let own = self.done_to(part, neck);
        self.stretches(part, shoulder).any(|stretch| {
            let Some(partner) = self.size.sewn.gluing.partner(stretch) else { return false };
            let side = self.surface.side_of(partner.stretch);
            let beyond = self.size.sewn.part(side.part).part;
            let Some(drawn) = self.size.drawn.paper(beyond.paper).filter(|_| side.part != part) else {
                return false;
            };
            [drawn.before(side.edge), drawn.after(side.edge)]
                .into_iter()
                .any(|next| self.done_to(side.part, next) == own)
        })
    }

    /// What takes an edge; nothing where it is left, finished by itself, or sewn to what lies on it: a facing, a lining.
    fn done_to(&self, part: PartId, edge: DrawnEdgeId) -> Option<TakenBy> {
        let sewn = self.size.sewn.part(part);
        let taker = sewn.fate(edge)?.takers.iter().find_map(|taker| match taker.what {
            TakenBy::Seam(..) => Some(taker.what),
            _ => None,
        })?;
        let origins = self.garment.origins(sewn.part.piece);
        let lies_on_it = self.stretches(part, edge).any(|stretch| {
            let Some(join) = self.surface.stretch(stretch).join.map(|join| self.surface.join(join)) else {
                return false;
            };
            let is_seam = matches!(join.by, JoinedBy::Seam { .. });
            let mut others = join.plies.iter().map(|ply| ply.stretch).filter(|other| *other != stretch);
            is_seam
                && others.any(|other| {
                    let beside = self.garment.origins(self.piece_of(other));
                    origins.iter().any(|own| beside.contains(own))
                })
        });
        (!lies_on_it).then_some(taker)
    }

    fn piece_of(&self, stretch: StretchId) -> PieceId {
        self.size.sewn.part(self.surface.face(self.surface.face_of(stretch)).part).part.piece
    }

    /// The stretches of an edge on all copies of its part.
    fn stretches(&self, part: PartId, edge: DrawnEdgeId) -> impl Iterator<Item = StretchId> {
        let surface = self.surface;
        let faces = surface.face_ids().filter(move |&face| surface.face(face).part == part);
        let sides = faces.flat_map(move |face| surface.sides_of(face));
        let sides = sides.filter(move |&side| surface.side(side).edge == edge && !surface.side(side).fold);
        sides.flat_map(move |side| surface.stretches_on(side))
    }

    fn reported(&self, drawn: &DrawnPiece, neck: DrawnEdgeId, at_middle: DrawnEdgeId, rises: f64) -> Finding {
        let garment = self.garment;
        let edge = drawn.edge_at(neck).map(|drawn| drawn.edge);
        let by = amount(rises, garment.unit);
        let name = edge.map_or(String::new(), |edge| words::edge(garment, edge));
        let title = Title::new(format!("the middle of {name} lies {by} above the shoulder")).in_sizes();
        let corner = drawn.edge_at(at_middle).map(|drawn| drawn.corner);
        let own = edge.map_or(garment.heading, |edge| garment.edge(edge).span);
        let warning = match corner {
            Some(CornerName::Named(point)) => {
                Diagnostic::new(&catalogue::NECK_RISES, garment.point(point).span, title)
                    .label(format!("{by} higher than where the neckline meets the shoulder"))
                    .also(own, "rises to the middle")
            }
            _ => Diagnostic::new(&catalogue::NECK_RISES, own, title).label("rises to the middle"),
        };
        let warning = warning.help(
            "look at the sign of its height: a front neck lies some 6 to 9 cm below the neck end of the shoulder in the middle, \
             a back neck 1 to 3",
        );
        Finding::new(self.size.id(), rises, warning).about(name).figure("above", by)
    }
}
