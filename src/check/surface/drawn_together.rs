//! `seam/drawn-together`: a piece that lies on another in a seam, and by whose corner two places of that are sewn together.

use super::cloth::cloth;
use crate::check::seams::matched_off::matched_off;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId, SewnSpot};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::CornerName;
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, JoinedPly, PlyAt, StretchId, Surface, Union};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_DRAWN_TOGETHER], run: Run::PerSize(run) };

/// What lies on another piece has no more than this share of its cloth.
const LESS: f64 = 0.8;

/// What lies in a stack beside another ply of its side, and is sewn to the same face by its next edge too.
struct Corner {
    seam: SeamId,
    other: SeamId,
    /// The ply's stretch at the corner, and whether the corner is its end along the ring.
    own: (StretchId, bool),
    /// The two places of the face, each the stretch that begins there along its ring.
    places: [usize; 2],
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface else { return };
    let mut known: IdSet<SeamId> = IdSet::default();
    for join in surface.joins.iter().filter(|join| join.plies.len() > 2) {
        let JoinedBy::Seam { seam, sewn, .. } = join.by else { continue };
        if known.contains(&seam) || !has_equal_plies(garment, size, sewn) {
            continue;
        }
        // A corner that is matched with no end of the run below it is told by `seam/matching`.
        if size.sewn.seams.get(sewn).is_some_and(|sewn| matched_off(garment, size, sewn).is_some()) {
            continue;
        }
        let is_one_side = |one: &JoinedPly, other: &JoinedPly| {
            use PlyAt::{Caught, First, Second};
            matches!((one.at, other.at), (First(_), First(_)) | (Second(_), Second(_)) | (Caught, _))
        };
        // What lies on another piece is smaller than it, as a pocket bag is.
        let lies_on = |own: &JoinedPly, host: &JoinedPly| {
            let cloth = |ply: &JoinedPly| cloth(size, surface, &[surface.face_of(ply.stretch)]);
            cloth(own) < LESS * cloth(host)
        };
        // It goes on in nothing beyond the seam.
        let ends_there = |ply: &&JoinedPly| size.sewn.gluing.partner(ply.stretch).is_none();
        let (lying, others): (Vec<&JoinedPly>, Vec<&JoinedPly>) = join.plies.iter().partition(ends_there);
        let all = lying.into_iter().chain(others);
        let pairs = all.flat_map(|own| join.plies.iter().map(move |host| (own, host)));
        let found = pairs
            .filter(|(own, host)| own.stretch != host.stretch && is_one_side(own, host))
            .find_map(|(own, host)| {
                let is_sound = |sewn| has_equal_plies(garment, size, sewn);
                let corner = corner(surface, seam, own, host, &is_sound)?;
                (lies_on(own, host) && is_apart(surface, surface.face_of(own.stretch), corner.places))
                    .then_some(corner)
            });
        if let Some(corner) = found {
            known.insert(seam);
            findings.push(reported(garment, size, surface, &corner));
        }
    }
}

/// Whether the plies of each side of a sewn seam are as long as one another; where they are not, what lies where is not
/// known, and that is told.
fn has_equal_plies(garment: &Garment, size: &WorkedSize, sewn: usize) -> bool {
    size.sewn.seams.get(sewn).is_some_and(|sewn| {
        [&sewn.first.plies, &sewn.second.plies].into_iter().all(|plies| {
            let long = || plies.iter().map(|ply| ply.length);
            long().fold(0.0, f64::max) - long().fold(f64::INFINITY, f64::min) <= garment.tolerance
        })
    })
}

/// A corner at which a ply goes on into another seam with the face that it lies on, at another place of that.
fn corner(
    surface: &Surface,
    seam: SeamId,
    own: &JoinedPly,
    host: &JoinedPly,
    is_sound: &dyn Fn(usize) -> bool,
) -> Option<Corner> {
    let (face, under) = (surface.face_of(own.stretch), surface.face_of(host.stretch));
    if face == under {
        return None;
    }
    [false, true].into_iter().find_map(|at_end| {
        let next = if at_end { surface.next(own.stretch) } else { surface.before(own.stretch) };
        let join: JoinId = surface.stretch(next).join?;
        let join = surface.join(join);
        let JoinedBy::Seam { seam: other, sewn, .. } = join.by else { return None };
        if !is_sound(sewn) {
            return None;
        }
        let there = join.plies.iter().find(|ply| ply.stretch == next)?;
        let [beside] =
            join.plies.iter().filter(|ply| surface.face_of(ply.stretch) == under).collect::<Vec<_>>()[..]
        else {
            return None;
        };
        let place = surface.corner(host.stretch, at_end != (own.against != host.against));
        let other_place = surface.corner(beside.stretch, at_end == (there.against != beside.against));
        let places = [place, other_place];
        (other != seam && place != other_place).then_some(Corner {
            seam,
            other,
            own: (own.stretch, at_end),
            places,
        })
    })
}

/// Whether without a face two corners are two places.
fn is_apart(surface: &Surface, without: FaceId, places: [usize; 2]) -> bool {
    let mut corners = Union::new(surface.stretches.len());
    for join in &surface.joins {
        let mut plies = join.plies.iter().filter(|ply| surface.face_of(ply.stretch) != without);
        let Some(first) = plies.next() else { continue };
        for ply in plies {
            for at_start in [false, true] {
                let at = |ply: &JoinedPly| surface.corner(ply.stretch, at_start == ply.against);
                corners.join(at(first), at(ply));
            }
        }
    }
    corners.root(places[0]) != corners.root(places[1])
}

fn reported(garment: &Garment, size: &WorkedSize, surface: &Surface, corner: &Corner) -> Finding {
    let (seam, other) = (garment.seam(corner.seam), garment.seam(corner.other));
    let (stretch, at_end) = corner.own;
    let part = size.sewn.part(surface.face(surface.face_of(stretch)).part).part;
    let piece = words::piece(garment, part.piece);
    let begins = if at_end { surface.next(stretch) } else { stretch };
    let drawn = size.drawn.paper(part.paper);
    let named = drawn.and_then(|drawn| match drawn.edge_at(surface.side_of(begins).edge)?.corner {
        CornerName::Named(point) => Some(point),
        _ => None,
    });
    let name = named.map_or_else(|| "a corner".to_owned(), |point| garment.point(point).name.to_string());
    // Both places lie on one face, whose ring has two ways between them.
    let [from, to] = corner.places;
    let under = surface.face_of(StretchId::from_index(from));
    let ring: Vec<StretchId> = surface.stretches_of(under).collect();
    let between = |from: usize, to: usize| -> f64 {
        let start = ring.iter().position(|at| at.index() == from).unwrap_or(0);
        let way = ring.iter().cycle().skip(start).take(ring.len());
        way.take_while(|at| at.index() != to).map(|&at| surface.length(at)).sum()
    };
    let apart = amount(between(from, to).min(between(to, from)), garment.unit);
    let on = words::piece(garment, size.sewn.part(surface.face(under).part).part.piece);
    let title = format!(
        "{} sews {name} of {piece} to {on} {apart} from where {} sews it to: both places would be drawn together",
        seam.words(),
        other.name
    );
    let is_own = |point: &crate::garment::SewnPoint| match point.point {
        SewnSpot::Point(own) => named.is_some_and(|named| garment.is_point_of(named, own)),
        SewnSpot::RunEnd { .. } => false,
    };
    let matched = seam.matching.iter().find(|(one, other)| is_own(one) || is_own(other));
    let span = matched.map_or(seam.name_span, |(one, other)| one.span.to(other.span));
    let mistake = Diagnostic::new(&catalogue::SEAM_DRAWN_TOGETHER, span, title)
        .label(if matched.is_some() { "matched so" } else { "laid so" })
        .also(other.name_span, format!("sews {name} elsewhere"))
        .help(format!(
            "turn it round in {}: match this corner with the other end; or leave the matching out, and what {} joins says \
             which way it lies",
            seam.name, other.name
        ));
    Finding::new(size.id(), 0.0, mistake).about(&*seam.name).figure("apart", apart)
}
