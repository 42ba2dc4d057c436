//! `closure/out-of-reach`, `strap/slant`, `strap/layers` and `strap/off-edge` of two straps that are sewn on at marks, and buckled to one another.

use crate::check::over_cloth::{OverCloth, beyond_fold};
use crate::check::strap_room::whole;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Chain, Closure, ClosureKind, CutHow, EdgeId, Garment, LayerId, PieceId, StrapEnd, StrapId,
};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, sewn_layer};
use crate::sewing::patches::Patch;
use crate::sewing::surface::{FaceId, SideId, Surface};
use crate::sewing::{SewnStrap, strap_place, straps};
use crate::shape::outline::{Region, is_on};
use crate::shape::{Affine, Point, Vec2};
use crate::syntax::tree::{Fastener, Hand};

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[
        &catalogue::CLOSURE_OUT_OF_REACH,
        &catalogue::STRAP_SLANT,
        &catalogue::STRAP_LAYERS,
        &catalogue::STRAP_OFF_EDGE,
    ],
    run: Run::PerSize(run),
};

/// Straps that draw cloth in are no shorter together than this share of the way between their places.
const LEAST: f64 = 0.5;
/// Closer together than this, in millimetres, cloth is drawn in by a hand.
const FAR: f64 = 50.0;
/// Straps that are sewn on no further than this above one another lie level, in millimetres.
const LEVEL: f64 = 30.0;
/// So much of a strap's edge may lie beyond the piece, in millimetres: a fold is no sharper.
const BESIDE: f64 = 1.0;

/// A strap that hangs from one place, and whose free end is buckled.
struct Hung<'a> {
    strap: StrapId,
    end: &'a StrapEnd,
    free: f64,
    drawn: &'a DrawnPiece,
    at: Point,
    layer: Option<LayerId>,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let is_buckle = |closure: &&Closure| matches!(&closure.kind, Some(ClosureKind::Fasteners(row)) if row.kind == Fastener::Buckle);
    if garment.straps.is_empty() || !garment.closures.iter().any(|closure| is_buckle(&closure)) {
        return;
    }
    let all = straps(garment, &size.drawn);
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    for closure in garment.closures.iter().filter(is_buckle) {
        let of = |chain| hung(garment, size, &all, chain);
        let Some((one, other)) = of(&closure.first).zip(of(&closure.second)) else { continue };
        if one.strap == other.strap {
            continue;
        }
        let both = [&one, &other];
        findings.extend(
            in_two_layers(garment, size, closure, both)
                .or_else(|| aslant(garment, size, closure, both))
                .or_else(|| off_edge(garment, size, surface?, &all, both))
                .or_else(|| too_short(garment, size, surface?, closure, both)),
        );
    }
}

/// The strap that a side of a closure names, where it hangs from one place alone.
fn hung<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    all: &[SewnStrap],
    chain: &Chain,
) -> Option<Hung<'a>> {
    let [named] = chain.edges.as_slice() else { return None };
    let sewn = all.iter().find(|sewn| garment.strap(sewn.strap).piece == named.piece)?;
    let ([run], [own]) = (garment.strap(sewn.strap).runs.as_slice(), sewn.runs.as_slice()) else {
        return None;
    };
    // Of one that is less long than what is sewn on of it that is told.
    if run.to.is_some() || own.free <= 0.0 {
        return None;
    }
    let end = &run.from;
    let (drawn, at) = strap_place(garment, &size.drawn, end.point)?;
    let layer = end.layer.or_else(|| sewn_layer(garment, drawn.piece));
    Some(Hung { strap: sewn.strap, end, free: own.free, drawn, at, layer })
}

/// One half sewn to a piece, and the other to the same piece in another layer.
fn in_two_layers(
    garment: &Garment,
    size: &WorkedSize,
    closure: &Closure,
    [one, other]: [&Hung; 2],
) -> Option<Finding> {
    let (layer, other_layer) = (one.layer?, other.layer?);
    let is_same = |piece: PieceId, there: PieceId| {
        let others = garment.origins(there);
        piece == there || garment.origins(piece).iter().any(|origin| others.contains(origin))
    };
    if layer == other_layer || !is_same(one.drawn.piece, other.drawn.piece) {
        return None;
    }
    let [first, second] = [one, other].map(|own| &garment.strap(own.strap).name);
    let [layer, other_layer] = [layer, other_layer].map(|layer| &garment.layer(layer).name);
    let piece = words::piece(garment, other.drawn.piece);
    let title = format!(
        "{first} hangs from {} in {layer}, and {second}, to which it is buckled, from {piece} in {other_layer}",
        words::piece(garment, one.drawn.piece)
    );
    let name = &garment.piece(other.drawn.piece).name;
    let warning = Diagnostic::new(&catalogue::STRAP_LAYERS, other.end.span, title)
        .label(format!("in {other_layer}"))
        .also(one.end.span, format!("in {layer}"))
        .help(format!(
            "{piece} lies between them: sew both to one layer, {layer}.{name} or {other_layer}.{name}"
        ));
    Some(Finding::new(size.id(), 0.0, warning).about(&*closure.name))
}

/// One on the left of a piece and one on the right, at unlike heights.
fn aslant(
    garment: &Garment,
    size: &WorkedSize,
    closure: &Closure,
    [one, other]: [&Hung; 2],
) -> Option<Finding> {
    let hands = one.end.hand.zip(other.end.hand)?;
    let is_caught = one.end.caught.is_some() || other.end.caught.is_some();
    if hands.0 == hands.1 || !std::ptr::eq(one.drawn, other.drawn) || is_caught {
        return None;
    }
    let up = one.drawn.grain.normalize();
    let between: Vec2 = other.at - one.at;
    let by = between.dot(up).abs();
    if by <= LEVEL {
        return None;
    }
    let far = amount(by, garment.unit);
    let title = format!(
        "the two sides of {} are sewn on {far} above one another: closed, they lie aslant",
        closure.name
    );
    let advice = Diagnostic::new(&catalogue::STRAP_SLANT, one.end.span, Title::new(title).in_sizes())
        .label("this one")
        .also(other.end.span, format!("{far} higher or lower"))
        .help("sew both on at the same height, if they are not meant to lie aslant");
    Some(Finding::new(size.id(), by, advice).about(&*closure.name).figure("apart", far))
}

/// One that goes along a free edge to the other, with a part of its width beside the cloth.
fn off_edge(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    all: &[SewnStrap],
    both: [&Hung; 2],
) -> Option<Finding> {
    let places = both.map(|own| beneath(garment, size, own));
    let apart = over_one_piece(&places)?;
    // Far longer than they are apart they hang in a bow.
    if apart <= 0.0 || both[0].free + both[1].free > 2.0 * apart {
        return None;
    }
    let [one, other] = &places;
    let is_across = one.hand.zip(other.hand).is_some_and(|(one, other)| one != other);
    let there = if is_across { beyond_fold(other.host, other.at)? } else { other.at };
    let outline = whole(one.host)?;
    let along = (there - one.at).normalize();
    let wide = all.iter().find(|sewn| sewn.strap == both[0].strap)?.width;
    let side = |sign: f64| {
        let aside = Vec2::new(-along.y, along.x) * (sign * 0.5 * wide);
        let off = |share: f64| {
            let at = one.at + along * (share * apart) + aside;
            let is_off = !Region::of(&outline).contains(at) && !is_on(&outline, at, BESIDE);
            is_off.then(|| nearest_free(size, surface, one, at)).flatten()
        };
        // As far as the middle: beyond it the other one lies.
        let all: Option<Vec<(EdgeId, f64)>> = [0.0, 0.25, 0.5].into_iter().map(off).collect();
        all?.into_iter().min_by(|one, other| one.1.total_cmp(&other.1))
    };
    let (edge, off) = [1.0, -1.0].into_iter().find_map(side)?;
    let (strap, unit) = (garment.strap(both[0].strap), garment.unit);
    let (edge, far) = (words::edge(garment, edge), amount(off, unit));
    let title = Title::new(format!("{} lies {far} beside the cloth, along {edge}", strap.name));
    let mistake = Diagnostic::new(&catalogue::STRAP_OFF_EDGE, both[0].end.span, title.in_sizes())
        .label("straight from here to the other one")
        .also(strap.width.span, format!("{} wide, its mark in the middle", amount(wide, unit)))
        .help(format!("move both marks at least {} further in", at_least(off, unit)));
    Some(Finding::new(size.id(), off, mistake).about(&*strap.name).figure("beside", far))
}

/// The edge of a piece that is nearest to a place beside it, and how far that is; none where another piece of its layer is sewn on.
fn nearest_free(size: &WorkedSize, surface: &Surface, place: &Beneath, at: Point) -> Option<(EdgeId, f64)> {
    let edges = DrawnEdgeId::enumerate(&place.host.edges);
    let fold = match place.host.cut {
        CutHow::OnFold(fold) => Some(fold),
        CutHow::Alike | CutHow::Mirrored => None,
    };
    let off = edges
        .filter(|(_, edge)| Some(edge.edge) != fold)
        .map(|(id, edge)| (id, edge.edge, edge.path.nearest(at).distance));
    let (edge, name, off) = off.min_by(|one, other| one.2.total_cmp(&other.2))?;
    let goes_on = surface.face_ids().any(|face| {
        let paper = size.drawn.paper(size.sewn.part(surface.face(face).part).part.paper);
        let layer = surface.face(face).layer;
        let own = surface.stretches_of(face).filter(|&stretch| surface.side_of(stretch).edge == edge);
        let mut plies = own
            .filter_map(|stretch| surface.stretch(stretch).join)
            .flat_map(|join| surface.join(join).plies.iter().map(|ply| surface.face_of(ply.stretch)));
        paper.is_some_and(|paper| std::ptr::eq(paper, place.host))
            && place.layer.is_none_or(|own| own == layer)
            && plies.any(|other| other != face && surface.face(other).layer == layer)
    });
    (!goes_on).then_some((name, off))
}

/// Two that are too short to meet over the cloth between their places.
fn too_short(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    closure: &Closure,
    [one, other]: [&Hung; 2],
) -> Option<Finding> {
    // Those that one seam catches may meet where it is bent round, as the ends of a rolled mouth are.
    if one.end.caught.is_some() && one.end.caught == other.end.caught {
        return None;
    }
    let over = OverCloth::new(garment, size, surface);
    let places = [one, other].map(|own| beneath(garment, size, own));
    let way = over.between(on_copies(&over, &places)?)?;
    let straight = over_one_piece(&places).unwrap_or(f64::INFINITY);
    let long = one.free + other.free;
    let apart = way.length.min(straight);
    let is_flat = way.is_flat || straight <= way.length;
    if !is_flat || long >= LEAST * apart || apart - long <= FAR {
        return None;
    }
    // Over a rim that is near to both, an opening that they hold together, they meet as well.
    let from_rim = |sides: &[SideId], ends: &[(FaceId, Point)]| {
        let all = ends.iter().flat_map(|(face, at)| {
            let own = sides.iter().filter(|&&side| surface.side(side).face == *face);
            own.map(|&side| over.away_from(side, *at))
        });
        all.fold(f64::INFINITY, f64::min)
    };
    let rims = size.sewn.gluing.rims(surface);
    let mut over_rims = rims.iter().map(|rim| {
        let sides: Vec<_> = rim.parts.iter().map(|part| surface.stretch(part.stretch).side).collect();
        from_rim(&sides, &way.ends[0]) + from_rim(&sides, &way.ends[1])
    });
    if over_rims.any(|over| over <= long + garment.tolerance) {
        return None;
    }
    let unit = garment.unit;
    let (both, shown) = (amount(long, unit), amount(apart, unit));
    let title = Title::new(format!(
        "the two sides of {} are {both} long together without what is sewn on of them, and their places are {shown} apart",
        closure.name
    ));
    let [first, second] = [one, other].map(|own| garment.strap(own.strap));
    let help = format!(
        "make both together at least {} longer, or sew them on nearer to one another: straps that draw the cloth in still go over \
         most of it",
        at_least(LEAST * apart - long, unit)
    );
    let mistake = Diagnostic::new(&catalogue::CLOSURE_OUT_OF_REACH, second.length.span, title.in_sizes())
        .label(format!("{} from where it is sewn on", amount(other.free, unit)))
        .also(first.length.span, format!("{} from where it is sewn on", amount(one.free, unit)))
        .help(help);
    let finding = Finding::new(size.id(), apart - long, mistake).about(&*closure.name);
    Some(finding.figure("together", both).figure("apart", shown))
}

/// Where a strap is sewn on.
struct Beneath<'a> {
    host: &'a DrawnPiece,
    at: Point,
    layer: Option<LayerId>,
    hand: Option<Hand>,
}

/// Both places on the copies on which they may lie; of the left and the right half of one piece each on its own.
fn on_copies(over: &OverCloth, [one, other]: &[Beneath; 2]) -> Option<[Vec<(FaceId, Point)>; 2]> {
    let of = |place: &Beneath| over.on_copies(place.host, place.at, (place.hand, place.layer));
    let (mut ends, mut other_ends) = (of(one), of(other));
    let is_of_halves = std::ptr::eq(one.host, other.host) && matches!(one.host.cut, CutHow::OnFold(_));
    if let (true, Some((hand, other_hand))) = (is_of_halves, one.hand.zip(other.hand)) {
        let there = if hand == other_hand { other.at } else { beyond_fold(other.host, other.at)? };
        ends.retain(|(_, at)| *at == one.at);
        other_ends.retain(|(_, at)| *at == there);
    }
    Some([ends, other_ends])
}

/// How far two places of one copy of a piece are apart, straight.
fn over_one_piece([one, other]: &[Beneath; 2]) -> Option<f64> {
    if !std::ptr::eq(one.host, other.host) {
        return None;
    }
    let is_across = one.hand.zip(other.hand).is_some_and(|(one, other)| one != other);
    let there = if is_across { beyond_fold(other.host, other.at)? } else { other.at };
    Some(one.at.distance(there))
}

/// Where a strap is sewn on: of one on a patch, the place under it.
fn beneath<'a>(garment: &'a Garment, size: &'a WorkedSize, own: &Hung<'a>) -> Beneath<'a> {
    let flat = Beneath { host: own.drawn, at: own.at, layer: own.end.layer, hand: own.end.hand };
    if !garment.placements.iter().any(|placement| placement.piece == own.drawn.piece) {
        return flat;
    }
    let patches = Patch::all(garment, &size.drawn);
    let mut under = patches.iter().filter(|patch| std::ptr::eq(patch.own, own.drawn));
    let Some(patch) = under.next().filter(|_| under.next().is_none()) else { return flat };
    let (layer, hand) = (patch.placement.on_layer, patch.placement.hand);
    laid(patch, own.at).map_or(flat, |at| Beneath { host: patch.host, at, layer, hand })
}

/// Where a place of what is placed comes to lie on what it is placed on: it is moved, turned or turned over.
fn laid(patch: &Patch, at: Point) -> Option<Point> {
    let edge = patch.own.edges.first()?;
    let there = &patch.placed.edges.iter().find(|(name, _)| *name == edge.edge)?.1;
    let (from, to) = (edge.path.end() - edge.path.start(), there.end() - there.start());
    let turned = Affine::translate(there.start().to_vec2())
        * Affine::rotate(to.atan2())
        * if is_turned_over(patch) { Affine::FLIP_Y } else { Affine::IDENTITY }
        * Affine::rotate(-from.atan2())
        * Affine::translate(-edge.path.start().to_vec2());
    Some(turned * at)
}

/// Whether the outline goes round the other way where it is placed.
fn is_turned_over(patch: &Patch) -> bool {
    let area = |corners: &[Point]| -> f64 {
        let next = corners.iter().cycle().skip(1);
        corners.iter().zip(next).map(|(one, other)| one.to_vec2().cross(other.to_vec2())).sum()
    };
    let own: Vec<Point> = patch.own.edges.iter().map(|edge| edge.path.start()).collect();
    let there: Vec<Point> = patch.placed.edges.iter().map(|(_, path)| path.start()).collect();
    area(&own) * area(&there) < 0.0
}
