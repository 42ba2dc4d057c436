//! `closure/out-of-reach`, `strap/long` and `strap/slant` of two straps that are sewn in at their one ends and closed on one another at their
//! other ones: too short to meet across what lies between them, or so long that they hang down.

use super::narrow_sleeve::is_caught;
use crate::check::over_cloth::{OverCloth, beyond_fold};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, ClosureKind, Fasteners, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, at_most, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::surface::{ClosureLine, FaceId, StretchId, Surface};
use crate::shape::Point;
use crate::syntax::tree::Fastener;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::CLOSURE_OUT_OF_REACH, &catalogue::STRAP_LONG, &catalogue::STRAP_SLANT],
    run: Run::PerSize(run),
};

/// Straps that draw a back in are no shorter together than this share of the way between their places.
const LEAST: f64 = 0.5;
/// Closer together than this, in millimetres, a loop or the tongue of a buckle reaches over.
const FAR: f64 = 100.0;
/// Where each of two goes all the way, they are twice as long together; a tongue beyond the buckle is no longer than this, in
/// millimetres.
const TONGUE: f64 = 100.0;

/// Straps that are caught on both sides no further than this above one another lie level, in millimetres.
const LEVEL: f64 = 30.0;

/// A strap that is caught by one end: how long it is from there to where it is closed, and where on the cloth it is caught.
struct Hung<'a> {
    long: f64,
    at: Vec<(FaceId, Point)>,
    /// The same on the papers.
    on_papers: Vec<OnPaper<'a>>,
}

/// A place on an edge of a paper, and of which copy and half.
struct OnPaper<'a> {
    drawn: &'a DrawnPiece,
    edge: DrawnEdgeId,
    half: (FaceId, bool),
    at: Point,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|surface| !surface.closures.is_empty()) else { return };
    for line in surface.closures.iter().filter(|line| line.time == 0) {
        let Some(ClosureKind::Fasteners(said)) = &garment.closure(line.closure).kind else { continue };
        if said.kind != Fastener::Tie && !said.are_pieces() {
            findings.extend(of_line(garment, size, surface, (line, said)));
        }
    }
}

fn of_line(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    (line, said): (&ClosureLine, &Fasteners),
) -> Option<Finding> {
    let closure = garment.closure(line.closure);
    let chains = [&closure.first, &closure.second];
    let [one, other] = [0, 1].map(|nth: usize| {
        let ([face], chain) = (line.faces.get(nth)?.as_slice(), chains.get(nth)?) else { return None };
        hung(garment, size, surface, *face, chain)
    });
    let (one, other) = (one?, other?);
    if let Some(found) = uneven(garment, size, line, [&one, &other]) {
        return Some(found);
    }
    let long = one.long + other.long;
    let way = OverCloth::new(garment, size, surface).between([one.at, other.at])?.length;
    let is_short = long < LEAST * way && way - long > FAR;
    if !is_short && (said.kind != Fastener::Buckle || long <= 2.0 * way + TONGUE) {
        return None;
    }
    let (unit, name) = (garment.unit, &closure.name);
    let mut pieces: Vec<String> = chains
        .iter()
        .filter_map(|chain| chain.edges.first())
        .map(|sewn| words::piece(garment, sewn.piece))
        .collect();
    pieces.dedup();
    let pieces = words::listed(&pieces);
    let (both, apart) = (amount(long, unit), amount(way, unit));
    let title = match is_short {
        true => format!(
            "the two sides of {name} are {both} long together, and what they are to close across is {apart} wide"
        ),
        false => format!(
            "the two sides of {name} are {both} long together, more than twice the {apart} that they close across"
        ),
    };
    let (entry, help) = match is_short {
        true => (
            &catalogue::CLOSURE_OUT_OF_REACH,
            format!(
                "make each at least {} longer, or catch them nearer to one another: straps that draw the cloth in still go over \
                 most of it",
                at_least((LEAST * way - long) / 2.0, unit)
            ),
        ),
        false => (
            &catalogue::STRAP_LONG,
            format!(
                "look at the length of {pieces} and at its unit: where each goes all the way, {} are enough for both",
                at_most(2.0 * way + TONGUE, unit)
            ),
        ),
    };
    let mistake = Diagnostic::new(entry, closure.first.span, Title::new(title).in_sizes())
        .label(format!("{} from where it is caught", amount(one.long, unit)));
    let mistake = match closure.first.span == closure.second.span {
        true => mistake,
        false => {
            mistake.also(closure.second.span, format!("{} from where it is caught", amount(other.long, unit)))
        }
    };
    let finding = Finding::new(size.id(), (long - way).abs(), mistake.help(help)).about(&**name);
    Some(finding.figure("together", both).figure("apart", apart))
}

/// Two that are caught on the left and the right of one piece, or of a pair, at unlike places.
fn uneven(garment: &Garment, size: &WorkedSize, line: &ClosureLine, both: [&Hung; 2]) -> Option<Finding> {
    let [one, other] = both;
    // Straps that hang in two edges, as those of a bag from its top to its bottom, or in one edge of one side, are meant so.
    let off = |own: &OnPaper| {
        let is_across = |there: &&OnPaper| {
            std::ptr::eq(own.drawn, there.drawn) && own.edge == there.edge && own.half != there.half
        };
        let across = other.on_papers.iter().filter(is_across);
        across.map(|there| own.at.distance(there.at)).min_by(f64::total_cmp)
    };
    let by = one.on_papers.iter().filter_map(off).min_by(f64::total_cmp).filter(|by| *by > LEVEL)?;
    let closure = garment.closure(line.closure);
    let far = amount(by, garment.unit);
    let title = format!(
        "the two sides of {} are caught {far} above one another: closed, they lie aslant",
        closure.name
    );
    let advice = Diagnostic::new(&catalogue::STRAP_SLANT, closure.first.span, Title::new(title).in_sizes())
        .label("this one")
        .also(closure.second.span, format!("{far} higher or lower"))
        .help("catch both at the same height, if they are not meant to lie aslant");
    Some(Finding::new(size.id(), by, advice).about(&*closure.name).figure("apart", far))
}

/// What is caught in a seam by one edge, and closed along another.
fn hung<'a>(
    garment: &Garment,
    size: &'a WorkedSize,
    surface: &Surface,
    face: FaceId,
    chain: &Chain,
) -> Option<Hung<'a>> {
    let part = surface.face(face).part;
    let (piece, drawn) =
        (size.sewn.part(part).part.piece, size.drawn.paper(size.sewn.part(part).part.paper)?);
    let caught = surface.stretches_of(face).find(|&own| is_caught(garment, surface, own, piece))?;
    let middle = |path: &crate::shape::path::Path| path.point_at_length(path.length() / 2.0);
    let is_named = |edge| chain.edges.iter().any(|sewn| garment.is_run_of(edge, sewn.edge));
    let edges = drawn.edges.iter().map(|edge| (edge.edge, &edge.path));
    let mut all = edges.chain(drawn.lines.iter().map(|line| (line.edge, &line.path)));
    let (_, closed) = all.find(|(edge, _)| is_named(*edge))?;
    let from = middle(&drawn.edge_at(surface.side_of(caught).edge)?.path);
    let join = surface.join(surface.stretch(caught).join?);
    let hosts = join.plies.iter().map(|ply| ply.stretch).filter(|&other| surface.face_of(other) != face);
    let on_papers: Vec<OnPaper> = hosts.filter_map(|host| place(size, surface, host)).collect();
    let on_face = |own: &OnPaper| {
        let (face, is_beyond) = own.half;
        Some((face, if is_beyond { beyond_fold(own.drawn, own.at)? } else { own.at }))
    };
    let at = on_papers.iter().filter_map(on_face).collect();
    Some(Hung { long: from.distance(middle(closed)), at, on_papers })
}

/// The middle of a stretch on its paper.
fn place<'a>(size: &'a WorkedSize, surface: &Surface, id: StretchId) -> Option<OnPaper<'a>> {
    let (own, side) = (surface.stretch(id), surface.side_of(id));
    let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper)?;
    let path = &drawn.edge_at(side.edge)?.path;
    let share = f64::midpoint(own.from, own.to) / side.length.max(f64::MIN_POSITIVE);
    let share = if side.mirrored { 1.0 - share } else { share };
    let at = path.point_at_length(share * path.length());
    Some(OnPaper { drawn, edge: side.edge, half: (surface.face_of(id), side.mirrored), at })
}
