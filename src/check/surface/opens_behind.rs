//! `seam/back-to-front` of hoods and collars: closed where what they are sewn to is open, and open where
//! that is closed.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, Join, JoinedBy, JoinedPly, PlyAt, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_BACK_TO_FRONT], run: Run::PerForm(run) };

/// How a piece goes on in the middle, beyond the end of a seam.
#[derive(Clone, Copy, PartialEq)]
enum Middle {
    /// Its other half is there, on a fold.
    Folded,
    /// Its other half is sewn on.
    Sewn,
    /// Nothing of it is there.
    Open,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    findings.extend(all(garment, size).into_iter().map(|(_, finding)| finding));
}

/// Every such seam, and what is said of it.
pub(in crate::check) fn all(garment: &Garment, size: &WorkedSize) -> Vec<(SeamId, Finding)> {
    let mut findings = Vec::new();
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return findings;
    };
    let mut known: IdSet<SeamId> = IdSet::default();
    let is_same = |one: &Join, other: &Join| match (one.by, other.by) {
        (JoinedBy::Seam { sewn, sewing, .. }, JoinedBy::Seam { sewn: other, sewing: time, .. }) => {
            (sewn, sewing) == (other, time)
        }
        _ => false,
    };
    for cells in surface.joins.chunk_by(is_same) {
        let (Some(first), Some(last)) = (cells.first(), cells.last()) else { continue };
        let JoinedBy::Seam { seam, .. } = first.by else { continue };
        let (Some([one, other]), Some([last_one, last_other])) = (two_sides(first), two_sides(last)) else {
            continue;
        };
        let middles = |start: &JoinedPly, end: &JoinedPly| {
            let at =
                |ply: &JoinedPly, at_end: bool| beyond(surface, size, ply.stretch, at_end != ply.against);
            Some([at(start, false)?, at(end, true)?])
        };
        let is_open = |middles: [Middle; 2]| middles.map(|middle| middle == Middle::Open);
        let (Some(own), Some(others)) = (middles(one, last_one), middles(other, last_other)) else {
            continue;
        };
        if [own, others].iter().all(|&one| is_open(one)[0] == is_open(one)[1]) {
            continue;
        }
        let ends = [is_open(own), is_open(others)];
        // A fold on the open end of what has a fold of its own is reported by `seam/fold-end`.
        let is_sewn = own.iter().chain(&others).any(|middle| *middle == Middle::Sewn);
        let is_other = ends[1] == [ends[0][1], ends[0][0]] && is_sewn;
        let both = [(one, last_one), (other, last_other)];
        if is_other && known.insert(seam) {
            findings.push((seam, reported(garment, size, surface, seam, both, own)));
        }
        let sides = [(own, others, both), (others, own, [both[1], both[0]])];
        for (hood, neck, both) in sides {
            let is_hood = is_open(neck) == [false; 2] && hood.contains(&Middle::Sewn);
            if is_hood && opens_at_back(size, surface, both, is_open(hood)) && known.insert(seam) {
                findings.push((seam, behind(garment, size, surface, seam, both, is_open(hood))));
            }
        }
    }
    findings
}

/// What lies in a stack from both sides of its seam: both plies of a band go on alike in the middle.
fn two_sides(join: &Join) -> Option<[&JoinedPly; 2]> {
    let first = join.plies.iter().find(|ply| matches!(ply.at, PlyAt::First(_)))?;
    let second = join.plies.iter().find(|ply| matches!(ply.at, PlyAt::Second(_)))?;
    Some([first, second])
}

/// What lies beyond the end of a stretch, round its face; none where it is something else than the middle.
fn beyond(surface: &Surface, size: &WorkedSize, stretch: StretchId, at_end: bool) -> Option<Middle> {
    let own = surface.side_of(stretch);
    let next = if at_end { surface.next(stretch) } else { surface.before(stretch) };
    let side = surface.side_of(next);
    if side.edge == own.edge && side.mirrored != own.mirrored {
        return Some(Middle::Folded);
    }
    let Some(join) = surface.stretch(next).join.map(|join| surface.join(join)) else {
        return Some(Middle::Open);
    };
    let face = |at: FaceId| surface.face(at);
    let (mine, part) = (face(side.face), |at: FaceId| size.sewn.part(face(at).part).part);
    let mut others =
        join.plies.iter().filter(|ply| ply.stretch != next).map(|ply| surface.side_of(ply.stretch));
    if others.clone().any(|other| other.edge == side.edge && face(other.face).pair == mine.pair) {
        return Some(Middle::Sewn);
    }
    // A facing that lies on it does not close it.
    let is_facing =
        |other: FaceId| face(other).hand == mine.hand && part(other).layer != part(side.face).layer;
    others.all(|other| is_facing(other.face)).then_some(Middle::Open)
}

/// So much deeper a neck is in front than behind, at least, in millimetres.
const DEEPER: f64 = 10.0;

/// Whether what is open at one end of a neck that is closed all round is open there where the neck is less deep: that is
/// the back.
fn opens_at_back(
    size: &WorkedSize,
    surface: &Surface,
    [(hood, hood_last), (start, end)]: [(&JoinedPly, &JoinedPly); 2],
    open: [bool; 2],
) -> bool {
    if open[0] == open[1] || surface.face_of(start.stretch) == surface.face_of(end.stretch) {
        return false;
    }
    let (at, at_end) = match open[0] {
        true => (hood.stretch, hood.against),
        false => (hood_last.stretch, !hood_last.against),
    };
    // What a closure closes is open for another reason.
    let free = if at_end { surface.next(at) } else { surface.before(at) };
    let mut closed = surface.closures.iter().flat_map(|line| line.sides.iter().flatten());
    if closed.any(|(stretch, _)| *stretch == free) {
        return false;
    }
    let depths = [depth(size, surface, start, false), depth(size, surface, end, true)];
    match depths {
        [Some(first), Some(last)] if open[0] => last - first > DEEPER,
        [Some(first), Some(last)] => first - last > DEEPER,
        _ => false,
    }
}

/// How far the middle of a neck lies below where the neck's edge ends at the shoulder, as its piece is drawn.
fn depth(size: &WorkedSize, surface: &Surface, ply: &JoinedPly, at_end: bool) -> Option<f64> {
    let side = surface.side_of(ply.stretch);
    let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper)?;
    let path = &drawn.edge_at(side.edge)?.path;
    let at_start = (at_end != ply.against) == side.mirrored;
    let (middle, shoulder) = if at_start { (path.start(), path.end()) } else { (path.end(), path.start()) };
    Some(shoulder.y - middle.y)
}

fn behind(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: SeamId,
    [(hood, _), (start, end)]: [(&JoinedPly, &JoinedPly); 2],
    open: [bool; 2],
) -> Finding {
    let seam = garment.seam(seam);
    let piece = |ply: &JoinedPly| {
        let part = size.sewn.part(surface.face(surface.face_of(ply.stretch)).part).part;
        words::piece(garment, part.piece)
    };
    let (back, front) = if open[0] { (start, end) } else { (end, start) };
    let (name, back, front) = (piece(hood), piece(back), piece(front));
    let title = format!(
        "{name} seems to open behind: it is open at {back}, and closed at {front}, where the neck is deeper"
    );
    let warning = Diagnostic::new(&catalogue::SEAM_BACK_TO_FRONT, seam.name_span, title)
        .label("sewn on so")
        .help(format!(
            "leave the edge open that lies at {front}, where the face is, and close the other; if it is to open behind, \
             nothing needs to change"
        ));
    Finding::new(size.drawn.size, 0.0, warning).about(&*seam.name)
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: SeamId,
    sides: [(&JoinedPly, &JoinedPly); 2],
    own: [Middle; 2],
) -> Finding {
    let seam = garment.seam(seam);
    let piece = |ply: &JoinedPly| {
        let part = size.sewn.part(surface.face(surface.face_of(ply.stretch)).part).part;
        words::piece(garment, part.piece)
    };
    let [(start, end), (other_start, other_end)] = sides;
    // Of what is one piece all along, to what is there besides.
    let (name, closed_on, open_on) = match own[0] {
        Middle::Folded | Middle::Sewn => (piece(start), piece(other_start), piece(other_end)),
        Middle::Open => (piece(end), piece(other_end), piece(other_start)),
    };
    let title = format!(
        "{} seems to set {name} on back to front: it is closed at {closed_on}, which is open there, and \
         open at {open_on}, which is closed",
        seam.words()
    );
    let span = seam.matching.first().map(|(one, other)| one.span.to(other.span));
    let mut warning = Diagnostic::new(&catalogue::SEAM_BACK_TO_FRONT, span.unwrap_or(seam.name_span), title);
    if span.is_some() {
        warning = warning.label("matched so").also(seam.name_span, "in this seam");
    }
    let warning = warning.help("match the other end, so that both open in the same place");
    Finding::new(size.drawn.size, 0.0, warning).about(&*seam.name)
}
