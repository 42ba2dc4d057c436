//! `bag/twisted`: the two halves of a bag that hangs in a slit, sewn to one another so that one end of its mouth meets the
//! other; `bag/deep`: a bag that hangs out below what it is sewn to.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, StretchId, Surface};
use crate::shape::Point;
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::BAG_TWISTED, &catalogue::BAG_DEEP], run: Run::PerSize(run) };

/// A grain that leads up by more than this is up and down, as its sine: then down is known.
const UPRIGHT: f64 = 0.9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let looking = Looking { garment, size, surface };
    let mut told: Vec<[PieceId; 2]> = Vec::new();
    for face in surface.face_ids() {
        let halves = looking.halves(face);
        for (at, one) in halves.iter().enumerate() {
            for other in halves.iter().skip(at + 1).filter(|other| other.hole == one.hole) {
                let pieces = [one.face, other.face].map(|face| looking.piece(face));
                if one.face == other.face || told.contains(&pieces) {
                    continue;
                }
                let finding = looking.twisted(one, other).or_else(|| looking.deep(face, [one, other]));
                if let Some(finding) = finding {
                    told.push(pieces);
                    findings.push(finding);
                }
            }
        }
    }
}

/// What hangs in a slit by a run of its edges.
struct Half {
    face: FaceId,
    /// Which slit of its host.
    hole: u16,
    /// That run, in the order of its ring.
    mouth: Vec<StretchId>,
    /// Where on its host that begins and ends.
    ends: [Point; 2],
    sewn: usize,
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl<'a> Looking<'a> {
    fn piece(&self, face: FaceId) -> PieceId {
        self.size.sewn.part(self.surface.face(face).part).part.piece
    }

    fn drawn(&self, face: FaceId) -> Option<&'a DrawnPiece> {
        self.size.drawn.paper(self.size.sewn.part(self.surface.face(face).part).part.paper)
    }

    /// Where a stretch begins or ends, along its ring.
    fn place(&self, stretch: StretchId, at_end: bool) -> Option<Point> {
        let share = f64::from(u8::from(at_end));
        self.surface.on_paper(&self.size.drawn, &self.size.sewn.parts, stretch, share)
    }

    /// All that is sewn to the slits inside a piece, folded welts left out.
    fn halves(&self, host: FaceId) -> Vec<Half> {
        let surface = self.surface;
        let mut found: Vec<Half> = Vec::new();
        for at_slit in surface.stretches_of(host).filter(|&at| surface.side_of(at).hole > 0) {
            let Some(join) = surface.stretch(at_slit).join.map(|join| surface.join(join)) else { continue };
            let JoinedBy::Seam { sewn, .. } = join.by else { continue };
            let hole = surface.side_of(at_slit).hole;
            for ply in &join.plies {
                let face = surface.face_of(ply.stretch);
                let is_known =
                    |half: &Half| half.face == face && half.hole == hole && half.mouth.contains(&ply.stretch);
                if face != host && !surface.face(face).flap && !found.iter().any(is_known) {
                    found.extend(self.half(host, (face, hole, sewn), ply.stretch));
                }
            }
        }
        found
    }

    /// The run of a face round one of its stretches that is sewn to that slit.
    fn half(
        &self,
        host: FaceId,
        (face, hole, sewn): (FaceId, u16, usize),
        within: StretchId,
    ) -> Option<Half> {
        let surface = self.surface;
        let at_slit = |at: StretchId| {
            let join = surface.join(surface.stretch(at).join?);
            let own = join.plies.iter().find(|ply| ply.stretch == at)?;
            let mut others = join.plies.iter().filter(|ply| surface.face_of(ply.stretch) == host);
            let on = others.find(|ply| surface.side_of(ply.stretch).hole == hole)?;
            Some((on.stretch, own.against != on.against))
        };
        let most = surface.stretches_of(face).count();
        let mut first = within;
        for _ in 0..most {
            let before = surface.before(first);
            if before == within || at_slit(before).is_none() {
                break;
            }
            first = before;
        }
        let mut mouth = vec![first];
        while mouth.len() < most {
            let next = surface.next(*mouth.last()?);
            if next == first || at_slit(next).is_none() {
                break;
            }
            mouth.push(next);
        }
        let on_host = |at: StretchId, at_end: bool| {
            let (on, against) = at_slit(at)?;
            self.place(on, at_end != against)
        };
        let ends = [on_host(first, false)?, on_host(*mouth.last()?, true)?];
        Some(Half { face, hole, mouth, ends, sewn })
    }

    /// The first joins of two faces with one another on the way from each end of a mouth, round the one of them.
    fn met_from(&self, half: &Half, other: FaceId) -> [Option<JoinId>; 2] {
        let surface = self.surface;
        let most = surface.stretches_of(half.face).count();
        let met = |at: StretchId| {
            let id = surface.stretch(at).join?;
            let is_with = |face: FaceId| face == other;
            let mut plies = surface.join(id).plies.iter().map(|ply| surface.face_of(ply.stretch));
            (surface.join(id).plies.len() == 2 && plies.any(is_with)).then_some(id)
        };
        let walk = |start: Option<StretchId>, step: &dyn Fn(StretchId) -> StretchId| {
            let mut at = step(start?);
            for _ in 0..most {
                if half.mouth.contains(&at) {
                    return None;
                }
                if let Some(join) = met(at) {
                    return Some(join);
                }
                at = step(at);
            }
            None
        };
        [
            walk(half.mouth.first().copied(), &|at| surface.before(at)),
            walk(half.mouth.last().copied(), &|at| surface.next(at)),
        ]
    }

    /// Of two that hang on the two sides of a slit: what leads down from one end of the one leads up to the other end of the
    /// other.
    fn twisted(&self, one: &Half, other: &Half) -> Option<Finding> {
        let [Some(from_start), Some(from_end)] = self.met_from(one, other.face) else { return None };
        let [Some(start), Some(end)] = self.met_from(other, one.face) else { return None };
        if from_start == from_end || start == end {
            return None;
        }
        let is_first = one.ends[0].distance(other.ends[0]) < one.ends[0].distance(other.ends[1]);
        // By the ends of the slit: which join each leads to.
        let [start, end] = if is_first { [start, end] } else { [end, start] };
        if (from_start, from_end) != (end, start) {
            return None;
        }
        let garment = self.garment;
        let [own, beside] = [one.face, other.face].map(|face| words::piece(garment, self.piece(face)));
        let seam = |sewn: usize| self.size.sewn.seams.get(sewn).map(|sewn| garment.seam(sewn.seam));
        let (mouth, first) = (seam(other.sewn)?, seam(one.sewn)?);
        let joined = match self.surface.join(from_start).by {
            JoinedBy::Seam { sewn, .. } => seam(sewn)?,
            JoinedBy::Placing(_) => return None,
        };
        let span = |spans: &[Span]| spans.first().copied();
        let matched: Vec<Span> = mouth.matching.iter().map(|(one, other)| one.span.to(other.span)).collect();
        let title =
            format!("{own} and {beside} are twisted: one end of the mouth leads to the other end of it");
        let mistake = Diagnostic::new(
            &catalogue::BAG_TWISTED,
            span(&matched).unwrap_or(mouth.name_span),
            title,
        )
        .label(format!("{beside} hangs here"))
        .also(first.name_span, format!("and {own} here"))
        .also(joined.name_span, "joins them")
        .help(format!(
            "turn one of them end for end: match its other corner with that end of the slit, in {} or {}",
            first.name, mouth.name
        ));
        Some(Finding::new(self.size.id(), 0.0, mistake).about(&*mouth.name))
    }

    /// A bag of two halves that hangs straight down from a slit, farther than its host goes.
    fn deep(&self, host: FaceId, halves: [&Half; 2]) -> Option<Finding> {
        let [one, other] = halves;
        let on = self.drawn(host)?;
        let is_bag = self.met_from(one, other.face).iter().any(Option::is_some);
        if !is_bag || on.grain.y.abs() < UPRIGHT || halves.iter().any(|half| self.is_held(host, half)) {
            return None;
        }
        let lowest = places(on).map(|at| at.y).fold(f64::INFINITY, f64::min);
        let below = |half: &Half| {
            let own = [(half.mouth.first(), false), (half.mouth.last(), true)];
            let [Some(start), Some(end)] = own.map(|(at, at_end)| self.place(*at?, at_end)) else {
                return None;
            };
            let along = (end - start).normalize();
            let deep = places(self.drawn(half.face)?).map(|at| (at - start).cross(along).abs());
            Some(deep.fold(0.0, f64::max) - (half.ends[0].y.min(half.ends[1].y) - lowest))
        };
        let by = [below(one)?, below(other)?];
        let (deepest, by) = if by[1] > by[0] { (other, by[1]) } else { (one, by[0]) };
        let seam = self.garment.seam(self.size.sewn.seams.get(deepest.sewn)?.seam);
        let pieces = [self.piece(deepest.face), self.piece(host)];
        reported(self.garment, self.size, pieces, by, seam.name_span)
    }

    /// Whether it is sewn to its host elsewhere too, in a side seam or a hem.
    fn is_held(&self, host: FaceId, half: &Half) -> bool {
        let surface = self.surface;
        surface.stretches_of(half.face).any(|at| {
            let join = surface.stretch(at).join.map(|join| surface.join(join));
            let mut plies = join.into_iter().flat_map(|join| &join.plies);
            !half.mouth.contains(&at) && plies.any(|ply| surface.face_of(ply.stretch) == host)
        })
    }
}

/// Places along the outline of a piece, close to one another.
fn places(drawn: &DrawnPiece) -> impl Iterator<Item = Point> {
    /// So many of each edge.
    const OF_EACH: usize = 24;
    drawn.edges.iter().flat_map(|edge| {
        let long = edge.path.length();
        (0..OF_EACH).map(move |at| edge.path.point_at_length(long * at as f64 / OF_EACH as f64))
    })
}

/// A bag that hangs so far out below what it is sewn to.
pub(super) fn reported(
    garment: &Garment,
    size: &WorkedSize,
    [bag, host]: [PieceId; 2],
    by: f64,
    span: Span,
) -> Option<Finding> {
    if by <= garment.tolerance {
        return None;
    }
    let [own, on] = [bag, host].map(|piece| words::piece(garment, piece));
    let far = amount(by, garment.unit);
    let title = Title::new(format!("{own} hangs {far} below the lowest edge of {on}")).in_sizes();
    let warning = Diagnostic::new(&catalogue::BAG_DEEP, span, title)
        .label("hangs from here")
        .also(garment.piece(bag).span, "so deep is it drawn")
        .help(format!("make it {far} less deep, or more; or put its mouth higher"));
    Some(Finding::new(size.id(), by, warning).about(own).figure("below", far))
}
