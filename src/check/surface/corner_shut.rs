//! `seam/corner-shut`: the left one of a pair sewn to the right one along two edges that meet in a corner, or at
//! an end that its side seams leave open: trousers whose inseams join leg to leg, a hem sewn to itself.
//!
//! Along its centre a pair is sewn left to right; what lies round the corner from there is the end of a tube, or
//! goes round a leg. A hood is sewn so on purpose, in one seam; so is a bag. Only pieces drawn to the trunk of a
//! body are looked at.

use super::shuts_rim;
use super::trunk::{knows_trunk, trunk_girths};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, LayerId, PieceId, SeamId};
use crate::id_hash::{IdIndexMap, IdSet};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::surface::{Join, JoinedBy, Surface};
use crate::shape::outline::is_anticlockwise;
use smallvec::SmallVec;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_CORNER_SHUT], run: Run::PerSize(run) };

/// Two edges whose outline turns by more than this meet in a corner, in degrees.
const CORNER: f64 = 30.0;

/// A piece in one layer.
type Own = (PieceId, LayerId);

/// What an edge is sewn to.
#[derive(Default)]
struct Sewn {
    /// The seam that sews all of it to the same edge of the other copy.
    on_itself: Option<SeamId>,
    /// The pieces, other than its own, that it is sewn to in its layer.
    others: SmallVec<[PieceId; 2]>,
    /// A part of it is sewn to something else.
    elsewhere: bool,
}

type Edges = IdIndexMap<(Own, DrawnEdgeId), Sewn>;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), true) = (surface, knows_trunk(garment)) else { return };
    // Few things are sewn left to right, and fewer of them to the trunk.
    let girths = trunk_girths(garment);
    let is_to_trunk = |piece| {
        let origins = garment.origins(piece);
        origins.iter().flat_map(|&of| garment.drawn_to(of)).any(|girth| girths.contains(girth))
    };
    if !surface.joins.iter().filter_map(|join| on_itself(size, surface, join)).any(is_to_trunk) {
        return;
    }
    let edges = sewn_edges(size, surface);
    let crossing = |own: Own, edge| {
        edges.get(&(own, edge)).filter(|sewn| !sewn.elsewhere).and_then(|sewn| sewn.on_itself)
    };
    let mut seen: IdSet<Own> = IdSet::default();
    let mut found = Vec::new();
    for &(own, edge) in edges.keys() {
        if crossing(own, edge).is_none() || !seen.insert(own) {
            continue;
        }
        let Some(drawn) = drawn(garment, size, own) else { continue };
        if !is_to_trunk(own.0) {
            continue;
        }
        let at = Looking { garment, size, own, drawn, edges: &edges };
        if let Some((finding, twin)) = at.corner(&crossing).or_else(|| at.end(&crossing)) {
            found.push(finding);
            seen.extend(twin);
        }
    }
    // Where front is sewn to back all along, a pair's centre seams lie between such edges, and are sound. It is looked at
    // last, since it costs more than all the rest.
    if !found.is_empty() && shuts_rim::all(garment, size).is_empty() {
        findings.extend(found);
    }
}

fn drawn<'a>(garment: &Garment, size: &'a WorkedSize, own: Own) -> Option<&'a DrawnPiece> {
    size.drawn.paper(garment.paper_of(Some(own.1), own.0)?)
}

/// The piece of which a seam sews an edge to the same edge of another copy.
fn on_itself(size: &WorkedSize, surface: &Surface, join: &Join) -> Option<PieceId> {
    let (JoinedBy::Seam { .. }, [one, other]) = (join.by, join.plies.as_slice()) else { return None };
    let [one, other] = [one, other].map(|ply| surface.side_of(ply.stretch));
    if one.edge != other.edge || (one.face, one.mirrored) == (other.face, other.mirrored) {
        return None;
    }
    let [part, beside] = [one.part, other.part].map(|part| size.sewn.part(part).part);
    ((part.piece, part.layer) == (beside.piece, beside.layer)).then_some(part.piece)
}

fn sewn_edges(size: &WorkedSize, surface: &Surface) -> Edges {
    let mut edges = Edges::default();
    edges.reserve(2 * surface.joins.len());
    for join in &surface.joins {
        let JoinedBy::Seam { seam, .. } = join.by else { continue };
        let sides = join.plies.iter().map(|ply| surface.side_of(ply.stretch));
        let sides: SmallVec<[_; 2]> = sides
            .map(|side| {
                let part = size.sewn.part(side.part).part;
                ((part.piece, part.layer), side.edge, (side.face, side.mirrored))
            })
            .collect();
        for &(own, edge, copy) in &sides {
            let sewn = edges.entry((own, edge)).or_default();
            let is_itself = match sides.as_slice() {
                [one, other] => one.0 == other.0 && one.1 == other.1 && one.2 != other.2,
                _ => false,
            };
            if is_itself {
                sewn.on_itself = Some(seam);
                continue;
            }
            sewn.elsewhere = true;
            let others = sides.iter().filter(|(other, _, at)| *at != copy && other.1 == own.1);
            sewn.others.extend(others.map(|(other, ..)| other.0).filter(|piece| *piece != own.0));
        }
    }
    edges
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    own: Own,
    drawn: &'a DrawnPiece,
    edges: &'a Edges,
}

impl Looking<'_> {
    /// Two edges that meet in a corner, each sewn to itself by a seam of its own; or one beside the fold.
    fn corner(
        &self,
        crossing: &dyn Fn(Own, DrawnEdgeId) -> Option<SeamId>,
    ) -> Option<(Finding, Option<Own>)> {
        let fold = match self.drawn.cut {
            CutHow::OnFold(fold) => Some(fold),
            CutHow::Alike | CutHow::Mirrored => None,
        };
        DrawnEdgeId::enumerate(&self.drawn.edges).find_map(|(edge, drawn)| {
            let next = self.drawn.after(edge);
            let is_fold =
                |id: DrawnEdgeId| self.drawn.edge_at(id).is_some_and(|edge| Some(edge.edge) == fold);
            let (one, other) = (crossing(self.own, edge), crossing(self.own, next));
            let seams = match (one, other) {
                (Some(one), Some(other)) if one != other => [(edge, Some(one)), (next, Some(other))],
                (Some(one), None) if is_fold(next) => [(next, None), (edge, Some(one))],
                (None, Some(other)) if is_fold(edge) => [(edge, None), (next, Some(other))],
                _ => return None,
            };
            let turns = {
                let after = self.drawn.edge_at(next)?.path.tangent_at_start()?;
                let before = drawn.path.tangent_at_end()?;
                let turn = before.cross(after).atan2(before.dot(after)).to_degrees();
                if is_anticlockwise(self.drawn.edges.iter().map(|edge| &edge.path)) { turn } else { -turn }
            };
            (turns > CORNER).then(|| self.beside(seams)).flatten()
        })
    }

    /// The edge that is told of comes second: the one that another piece has as long, sewn so too, or the one that
    /// lies across the paper, as hems and waists do, or what is said later.
    fn beside(&self, [one, other]: [(DrawnEdgeId, Option<SeamId>); 2]) -> Option<(Finding, Option<Own>)> {
        let twin = |edge: DrawnEdgeId| self.twin(edge);
        let is_first = match (twin(one.0), twin(other.0)) {
            _ if one.1.is_none() => false,
            (Some(_), None) => true,
            (None, Some(_)) => false,
            _ => match self.lies_across(one.0) - self.lies_across(other.0) {
                more if more.abs() > 0.5 => more > 0.0,
                _ => one.1 > other.1,
            },
        };
        let [(beside, beside_seam), (edge, seam)] = if is_first { [other, one] } else { [one, other] };
        let (garment, piece) = (self.garment, words::piece(self.garment, self.own.0));
        let (seam, name, next) = (garment.seam(seam?), self.name(edge)?, self.name(beside)?);
        let title = match beside_seam {
            Some(_) => format!(
                "{} sews the {name} of {piece} left to right, and its {next} is sewn so too: the corner \
                 between them is shut",
                seam.words()
            ),
            None => format!(
                "{} sews the {name} of {piece} to itself, beside the fold {next}: the corner there is shut",
                seam.words()
            ),
        };
        let mut warning = Diagnostic::new(&catalogue::SEAM_CORNER_SHUT, seam.name_span, title)
            .label("joins left and right round the corner");
        if let Some(other) = beside_seam {
            warning = warning.also(garment.seam(other).name_span, "joins left and right up to there");
        }
        self.finding(warning, edge, &seam.name)
    }

    /// The same of another piece is told with it.
    fn finding(&self, warning: Diagnostic, edge: DrawnEdgeId, name: &str) -> Option<(Finding, Option<Own>)> {
        let twin = self.twin(edge);
        let warning = match &twin {
            Some(twin) => {
                warning.also(self.garment.seam(twin.seam).name_span, format!("so is {}", twin.name))
            }
            None => warning,
        };
        let finding = Finding::new(self.size.id(), 0.0, warning.help(self.help(edge))).about(name);
        Some((finding, twin.map(|twin| twin.own)))
    }

    fn lies_across(&self, edge: DrawnEdgeId) -> f64 {
        self.drawn.edge_at(edge).map_or(0.0, |edge| {
            let way = edge.path.end() - edge.path.start();
            way.x.abs() / way.hypot()
        })
    }

    /// An edge that is sewn to itself between two that are sewn to one other piece: the end of a leg.
    fn end(&self, crossing: &dyn Fn(Own, DrawnEdgeId) -> Option<SeamId>) -> Option<(Finding, Option<Own>)> {
        let others = |edge: DrawnEdgeId| {
            let sewn = self.edges.get(&(self.own, edge)).filter(|sewn| sewn.on_itself.is_none());
            sewn.map_or(&[][..], |sewn| sewn.others.as_slice())
        };
        let is_mirrored = self.drawn.cut == CutHow::Mirrored;
        DrawnEdgeId::enumerate(&self.drawn.edges).filter(|_| is_mirrored).find_map(|(edge, _)| {
            let seam = self.garment.seam(crossing(self.own, edge)?);
            let before = others(self.drawn.before(edge));
            let shared = others(self.drawn.after(edge)).iter().find(|piece| before.contains(piece))?;
            let (piece, name) = (words::piece(self.garment, self.own.0), self.name(edge)?);
            let title = format!(
                "{} sews the {name} of the left {piece} to that of the right one, between two edges that are \
                 sewn to {}: what goes round there is shut",
                seam.words(),
                words::piece(self.garment, *shared)
            );
            let warning = Diagnostic::new(&catalogue::SEAM_CORNER_SHUT, seam.name_span, title)
                .label("joins left and right");
            self.finding(warning, edge, &seam.name)
        })
    }

    fn help(&self, edge: DrawnEdgeId) -> String {
        let piece = &self.garment.piece(self.own.0).name;
        let name = self.name(edge).unwrap_or_default();
        let each = match self.twin(edge) {
            Some(twin) => format!("where it goes round a leg sew {piece}.{name} to {}", twin.name),
            None => "where it goes round a leg sew it to the piece beside it".to_owned(),
        };
        format!(
            "{each}; where a body, a leg or an arm goes through leave it open: finish {piece}.{name}  hem 2"
        )
    }

    fn name(&self, edge: DrawnEdgeId) -> Option<String> {
        Some(self.garment.edge(self.drawn.edge_at(edge)?.edge).name.to_string())
    }

    /// An edge of another piece in the same layer, as long, that is sewn to itself too.
    fn twin(&self, edge: DrawnEdgeId) -> Option<Twin> {
        let garment = self.garment;
        let long = self.drawn.edge_at(edge)?.path.length();
        let mut others = self.edges.iter().filter(|((own, _), sewn)| {
            own.1 == self.own.1 && own.0 != self.own.0 && sewn.on_itself.is_some() && !sewn.elsewhere
        });
        others.find_map(|(&(own, edge), sewn)| {
            let edge = drawn(garment, self.size, own)?.edge_at(edge)?;
            let is_as_long = (edge.path.length() - long).abs() <= garment.tolerance;
            let name = format!("{}.{}", garment.piece(own.0).name, garment.edge(edge.edge).name);
            Some(Twin { own, seam: sewn.on_itself.filter(|_| is_as_long)?, name })
        })
    }
}

/// An edge of another piece that is sewn to itself, too: "back.inseam".
struct Twin {
    own: Own,
    seam: SeamId,
    name: String,
}
