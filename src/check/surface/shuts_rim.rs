//! `seam/shuts-body` and `seam/shuts-rim`: a seam that sews two large pieces together along the whole of a rim:
//! the waist of trousers front to back, an armhole, a cuff.
//!
//! Cut open again such a seam leaves a hole that nothing but its own two sides bound. So does every seam between other
//! seams; but round the ends of that the cloth lies all round, and round the ends of what shuts a rim it lies half
//! round, as in the corners of a pillow.

use super::runs_on::angle;
use super::trunk::knows_trunk;
use super::worn::{drawn_to, is_loose, passed};
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId, SeamId, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::surface::{FaceId, Gluing, Join, JoinedBy, PlyAt, StretchId, Surface};
use crate::shape::outline::signed_area;
use smallvec::SmallVec;
use std::cell::OnceCell;

/// Round a place within the cloth lie 360 degrees of it, round the end of a rim that is shut twice a corner's.
const SHUT: f64 = 250.0;
/// Front and back are at least so large a share of the largest piece; facings, bands, cuffs and collars, which are
/// doubled and shut on purpose, are less.
const LARGE: f64 = 0.4;
/// What is worn round a trunk has a rim at least so wide, as a share of the girth; more may be stretched.
const LEAST: f64 = 0.75;
/// No body part goes through less than this, in millimetres: a turned point, the end of a belt.
const NARROW: f64 = 120.0;

/// A seam that shuts a rim.
pub(super) struct Shuts {
    seam: SeamId,
    edges: [EdgeId; 2],
    /// How long the rim is that it shuts.
    long: f64,
}

/// Every seam that shuts a rim; nothing of what is not drawn to the trunk of a body.
pub(super) fn all(garment: &Garment, size: &WorkedSize) -> Vec<Shuts> {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), true) = (surface, knows_trunk(garment)) else { return Vec::new() };
    let looking = Looking { garment, size, surface, closed: OnceCell::new() };
    let sewn = |join: &Join| match join.by {
        JoinedBy::Seam { seam, sewn, .. } => Some((seam, sewn)),
        JoinedBy::Placing(_) => None,
    };
    let mut found: Vec<Shuts> = Vec::new();
    let mut largest: Option<f64> = None;
    for cells in surface.joins.chunk_by(|one, other| sewn(one) == sewn(other)) {
        let Some((seam, _)) = cells.first().and_then(sewn) else { continue };
        if found.iter().any(|shuts| shuts.seam == seam) || !looking.is_plain(cells) {
            continue;
        }
        let Some(long) = looking.shut(cells, seam).filter(|long| *long > NARROW) else { continue };
        let largest = *largest
            .get_or_insert_with(|| surface.face_ids().map(|face| looking.area(face)).fold(0.0, f64::max));
        let edges = looking.edges(cells);
        if let Some(edges) = edges.filter(|_| looking.are_large(cells, LARGE * largest)) {
            found.push(Shuts { seam, edges, long });
        }
    }
    // Beside an end that is shut, the long seams of a leg or a sleeve end in corners too.
    let piece = |edge: EdgeId| garment.edge(edge).piece;
    let pieces = |shuts: &Shuts| shuts.edges.map(piece);
    let least: Vec<f64> = found
        .iter()
        .map(|one| {
            let same = found.iter().filter(|other| pieces(other) == pieces(one));
            same.map(|other| other.long).fold(f64::INFINITY, f64::min)
        })
        .collect();
    let mut least = least.into_iter();
    found.retain(|one| least.next().is_none_or(|least| one.long <= 2.0 * least));
    found
}

/// What shuts rims of a garment for the trunk of a body, that trunk and its girth, and whether a rim is left that it
/// goes into.
fn looked_at(garment: &Garment, size: &WorkedSize) -> Option<(Vec<Shuts>, (ValueId, f64), bool)> {
    let shuts = all(garment, size);
    let surface = size.sewn.surface.as_ref().filter(|_| !shuts.is_empty())?;
    let faces = surface.components().into_iter().max_by_key(Vec::len)?;
    if is_loose(garment, size, surface, &faces) {
        return None;
    }
    let trunk = passed(garment, size).or_else(|| drawn_to(garment, size, surface, &faces))?;
    let rims = size.rims(garment).unwrap_or_default();
    let is_way_in = rims.iter().any(|rim| rim.ring.opens().max(rim.ring.length) >= LEAST * trunk.1);
    Some((shuts, trunk, is_way_in))
}

/// Whether a seam is told to shut a rim.
pub(super) fn tells(garment: &Garment, size: &WorkedSize, seam: SeamId) -> bool {
    looked_at(garment, size).is_some_and(|(shuts, ..)| shuts.iter().any(|shuts| shuts.seam == seam))
}

/// What is to be said of seams that shut rims.
pub(super) struct Shutting {
    /// They shut the last rim that the trunk goes into.
    pub(super) is_all: bool,
    /// One of them shuts a rim that the trunk would go through.
    pub(super) is_wide: bool,
    /// One for each.
    pub(super) findings: Vec<Finding>,
}

/// Of each seam that shuts a rim of a garment for the trunk of a body, that it does.
pub(super) fn found(garment: &Garment, size: &WorkedSize) -> Shutting {
    let Some((shuts, (trunk, needed), is_way_in)) = looked_at(garment, size) else {
        return Shutting { is_all: false, is_wide: false, findings: Vec::new() };
    };
    let is_wide = shuts.iter().any(|shuts| shuts.long >= LEAST * needed);
    let trunk = (&*garment.value(trunk).name, amount(needed, garment.unit));
    let told = |shuts: &Shuts| reported(garment, size, shuts, (!is_way_in).then_some(&trunk));
    Shutting { is_all: !is_way_in, is_wide, findings: shuts.iter().map(told).collect() }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    /// With the closures closed, once that is asked for.
    closed: OnceCell<Gluing>,
}

impl<'a> Looking<'a> {
    fn drawn(&self, face: FaceId) -> Option<&'a DrawnPiece> {
        self.size.drawn.paper(self.size.sewn.part(self.surface.face(face).part).part.paper)
    }

    fn piece(&self, face: FaceId) -> PieceId {
        self.size.sewn.part(self.surface.face(face).part).part.piece
    }

    fn area(&self, face: FaceId) -> f64 {
        let Some(drawn) = self.drawn(face).filter(|_| !self.surface.face(face).flap) else { return 0.0 };
        let ring: Vec<_> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
        signed_area(&ring).abs()
    }

    /// Two plies of one layer all along, of two pieces.
    fn is_plain(&self, cells: &[Join]) -> bool {
        cells.iter().all(|cell| {
            let [one, other] = cell.plies.as_slice() else { return false };
            let [face, beside] = [one, other].map(|ply| self.surface.face_of(ply.stretch));
            matches!((one.at, other.at), (PlyAt::First(_), PlyAt::Second(_)))
                && !cell.gap
                && self.surface.face(face).layer == self.surface.face(beside).layer
                && {
                    let origins = self.garment.origins(self.piece(beside));
                    !self.garment.origins(self.piece(face)).iter().any(|origin| origins.contains(origin))
                }
        })
    }

    fn are_large(&self, cells: &[Join], least: f64) -> bool {
        let mut plies = cells.iter().flat_map(|cell| &cell.plies);
        plies.all(|ply| self.area(self.surface.face_of(ply.stretch)) >= least)
    }

    /// The edges of the first of its plies.
    fn edges(&self, cells: &[Join]) -> Option<[EdgeId; 2]> {
        let plies = &cells.first()?.plies;
        let edge = |at: usize| {
            let stretch = plies.get(at)?.stretch;
            self.size.sewn.edge_of(&self.size.drawn, self.surface, stretch).map(|(_, edge)| edge)
        };
        Some([edge(0)?, edge(1)?])
    }

    /// How long the rim is that a seam shuts. One that a closure parts, as a waist below an open back, is a rim once that
    /// is closed.
    fn shut(&self, cells: &[Join], seam: SeamId) -> Option<f64> {
        let (surface, open) = (self.surface, &self.size.sewn.gluing);
        let is_closed = |at: StretchId| {
            surface.closures.iter().flat_map(|line| line.sides.iter().flatten()).any(|own| own.0 == at)
        };
        match self.shut_as(open, cells, seam) {
            Err(Some(beyond)) if is_closed(beyond) => {
                let closed = self.closed.get_or_init(|| open.clone().closed(surface));
                self.shut_as(closed, cells, seam).ok()
            }
            found => found.ok(),
        }
    }

    /// How long a rim is that is without the seam a hole of its own sides alone, round both of whose ends the
    /// cloth lies half round; else what the hole goes on in.
    fn shut_as(&self, gluing: &Gluing, cells: &[Join], seam: SeamId) -> Result<f64, Option<StretchId>> {
        let surface = self.surface;
        let is_cut = |at: StretchId| {
            let join = surface.stretch(at).join.map(|join| surface.join(join).by);
            matches!(join, Some(JoinedBy::Seam { seam: by, .. }) if by == seam)
        };
        let first = cells.first().and_then(|cell| cell.plies.first()).ok_or(None)?.stretch;
        let (mut at, mut against) = (first, false);
        // A rim is a few stretches.
        let mut seen: SmallVec<[StretchId; 16]> = SmallVec::new();
        let (mut long, mut ends) = (0.0, 0);
        while !seen.contains(&at) {
            seen.push(at);
            if !is_cut(at) {
                return Err(Some(at));
            }
            long += surface.length(at);
            let (next, met_at_end) = gluing.turn_cut(surface, &is_cut, at, !against);
            if gluing.partner(at).is_some_and(|partner| partner.stretch == next) {
                let corners = gluing.corners_cut(surface, &is_cut, at, !against);
                let angles =
                    corners.iter().map(|&corner| angle(&self.size.drawn, &self.size.sewn, surface, corner));
                if angles.sum::<Option<f64>>().ok_or(None)? > SHUT {
                    return Err(None);
                }
                ends += 1;
            }
            (at, against) = (next, met_at_end);
        }
        let other = gluing.partner(first).ok_or(None)?.stretch;
        (at == first && ends == 2 && seen.contains(&other)).then_some(long).ok_or(None)
    }
}

/// Words of edges, and what goes through there.
const THROUGH: [(&[&str], &[&str], &str); 7] = [
    (&["neck", "neckline", "collar"], &["head"], "head"),
    (&["armhole", "armholes", "armscye", "scye", "arm"], &["arm"], "arm"),
    (&["cuff", "wrist", "sleeve"], &["hand"], "hand"),
    (&["waist", "waistline"], &["hip", "hips", "seat"], "waist"),
    (&["hip", "seat"], &["hip", "hips", "seat"], "hip"),
    (&["ankle", "foot", "leg"], &["foot", "heel"], "foot"),
    (&["hem", "bottom"], &[], "body"),
];

/// What can no longer go through: what an opening says, else what the edge's name tells.
fn part_of_body<'a>(garment: &'a Garment, shuts: &Shuts) -> Option<&'a str> {
    let is_own = |edge: EdgeId| shuts.edges.iter().any(|&own| garment.is_run_of(own, edge));
    let said = garment.openings.iter().find(|opening| opening.ring.edges.iter().any(|one| is_own(one.edge)));
    if let Some(opening) = said {
        return Some(&garment.value(opening.passes).name);
    }
    let is_named = |word: &str| {
        shuts.edges.iter().any(|&edge| garment.edge(edge).name.split('_').any(|part| part == word))
    };
    let (_, measures, plain) = THROUGH.iter().find(|(words, ..)| words.iter().any(|word| is_named(word)))?;
    let known = measures.iter().find_map(|wanted| {
        let body = |kind: &ValueKind| matches!(kind, ValueKind::Body(_));
        garment.values.iter().find(|value| body(&value.kind) && *value.name == **wanted)
    });
    Some(known.map_or(plain, |value| &value.name))
}

fn reported(garment: &Garment, size: &WorkedSize, shuts: &Shuts, trunk: Option<&(&str, String)>) -> Finding {
    let seam = garment.seam(shuts.seam);
    let [one, other] = shuts.edges.map(|edge| words::edge(garment, edge));
    let through = part_of_body(garment, shuts).map_or("nothing".to_owned(), |part| format!("no {part}"));
    let title = format!(
        "{} sews {one} to {other} from end to end: it is shut there, and {through} goes through",
        seam.words()
    );
    let entry = if trunk.is_some() { &catalogue::SEAM_SHUTS_BODY } else { &catalogue::SEAM_SHUTS_RIM };
    let long = amount(shuts.long, garment.unit);
    let [first, second] = shuts
        .edges
        .map(|edge| format!("{}.{}", garment.piece(garment.edge(edge).piece).name, garment.edge(edge).name));
    let instead = format!(
        "finish both edges instead, finish {first}, {second}  hem …, or sew a band or a sleeve to them; front and back are \
         sewn to each other at sides and shoulders alone"
    );
    let (label, help) = match trunk {
        Some((name, girth)) => {
            (format!("shuts what opened by {long}, and no opening is left for a {name} of {girth}"), instead)
        }
        None => (
            format!("shuts what opened by {long} all round"),
            format!(
                "{instead}; if it is to be shut, like the foot of a sleeping suit, nothing needs to change"
            ),
        ),
    };
    let found = Diagnostic::new(entry, seam.name_span, title).label(label).help(help);
    Finding::new(size.id(), shuts.long, found).about(&*seam.name).figure("shut", long)
}
