//! `closure/out-of-reach`: a row of snaps or buttons inside two pieces, beside neither of which anything opens; a
//! flap too short for where it is to be closed.

use super::sewn_shut::between_layers;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureId, ClosureKind, Fasteners, Garment, PieceId};
use crate::id_hash::{IdIndexSet, IdSet};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::PartId;
use crate::sewing::surface::{ClosureLine, FaceId, SideId, StretchId, Surface};
use crate::shape::Point;
use crate::shape::outline::signed_area;
use crate::syntax::tree::Fastener;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::CLOSURE_OUT_OF_REACH, &catalogue::CLOSURE_SEWN_SHUT],
    run: Run::PerSize(run),
};

/// What laps over something laps by less than this, in millimetres: the flap of a bag, the front of a coat that
/// wraps (common practice).
const REACH: f64 = 150.0;
/// The ends of a facing, where another facing goes on, are no more than this share of the way round it.
const ENDS: f64 = 0.2;
/// What is in a bag lets its flap hang lower or higher by so much, in millimetres.
const EASE: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut known: IdSet<ClosureId> = IdSet::default();
    for line in surface.closures.iter().filter(|line| !line.takes_edges) {
        if known.contains(&line.closure) {
            continue;
        }
        if let Some(found) = (Looking { garment, size, surface, line }).shut() {
            known.insert(line.closure);
            findings.push(found);
        }
    }
    for line in surface.closures.iter().filter(|line| line.sides.iter().all(Vec::is_empty)) {
        let closure = garment.closure(line.closure);
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        // Between two layers nothing is to open, which is reported itself.
        let is_between_layers = between_layers(garment, size, surface, line).is_some();
        if !laps(said) || is_between_layers || known.contains(&line.closure) {
            continue;
        }
        let looking = Looking { garment, size, surface, line };
        let chains = [&closure.first, &closure.second];
        let away = [0, 1].map(|side| looking.away(chains[side], &line.faces[side], &line.faces[1 - side]));
        if let [Some(one), Some(other)] = away
            && one.min(other) > REACH
        {
            known.insert(line.closure);
            findings.push(reported(garment, size, closure, [one, other]));
            continue;
        }
        let laps = |flap: usize| {
            looking.flap([chains[flap], chains[1 - flap]], [&line.faces[flap], &line.faces[1 - flap]])
        };
        if let Some(found) = laps(0).or_else(|| laps(1)) {
            known.insert(line.closure);
            findings.push(found);
        }
    }
}

/// Whether one side lies on the other when it is closed; what is tied or strapped reaches further.
pub(in crate::check) fn laps(said: &Fasteners) -> bool {
    !said.are_pieces() && matches!(said.kind, Fastener::Button | Fastener::Snap | Fastener::Hook)
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    line: &'a ClosureLine,
}

impl Looking<'_> {
    /// How far from anything open the fasteners of a row lie at most; none where that is not known.
    fn away(&self, chain: &Chain, faces: &[FaceId], others: &[FaceId]) -> Option<f64> {
        let parts: IdIndexSet<PartId> = faces.iter().map(|&face| self.surface.face(face).part).collect();
        let mut farthest: Option<f64> = None;
        for part in parts {
            let sewn = self.size.sewn.part(part);
            let drawn = self.size.drawn.paper(sewn.part.paper)?;
            let is_named = |edge| chain.edges.iter().any(|sewn| self.garment.is_run_of(edge, sewn.edge));
            let lines = || drawn.lines.iter().filter(|line| is_named(line.edge));
            let is_on_it = |at: Point| lines().any(|line| line.path.nearest(at).distance < 1.0);
            let own = sewn.fasteners.iter().filter(|place| place.closure == self.line.closure);
            let places: Vec<Point> = own.map(|place| place.at).filter(|at| is_on_it(*at)).collect();
            let open: Vec<DrawnEdgeId> = DrawnEdgeId::enumerate(&drawn.edges)
                .map(|(at, _)| at)
                .filter(|&edge| self.is_open(drawn, part, edge, faces, others))
                .collect();
            for at in places {
                let away = open.iter().filter_map(|&edge| drawn.edge_at(edge));
                let away = away.map(|edge| edge.path.nearest(at).distance).fold(f64::INFINITY, f64::min);
                farthest = Some(farthest.map_or(away, |known| known.max(away)));
            }
        }
        farthest
    }

    /// How far the fasteners of a row lie from an edge of their piece: the least and the most.
    fn away_from(&self, chain: &Chain, part: PartId, edge: DrawnEdgeId) -> Option<(f64, f64)> {
        let drawn = self.size.drawn.paper(self.size.sewn.part(part).part.paper)?;
        let path = &drawn.edge_at(edge)?.path;
        let is_named = |edge| chain.edges.iter().any(|sewn| self.garment.is_run_of(edge, sewn.edge));
        let lines = || drawn.lines.iter().filter(|line| is_named(line.edge));
        let is_on_it = |at: Point| lines().any(|line| line.path.nearest(at).distance < 1.0);
        let own =
            self.size.sewn.part(part).fasteners.iter().filter(|place| place.closure == self.line.closure);
        let away = own.map(|place| place.at).filter(|at| is_on_it(*at)).map(|at| path.nearest(at).distance);
        away.fold(None, |known: Option<(f64, f64)>, away| {
            let (least, most) = known.unwrap_or((away, away));
            Some((least.min(away), most.max(away)))
        })
    }

    /// A flap that hangs by one edge, over a mouth of what it closes on between the same two corners, reaches no
    /// further down than it is long.
    fn flap(&self, chains: [&Chain; 2], faces: [&[FaceId]; 2]) -> Option<Finding> {
        let surface = self.surface;
        let ([flap], [body]) = (faces[0], faces[1]) else { return None };
        let corners = |side: SideId| -> Option<[u32; 2]> {
            let first = surface.stretches_on(side).next()?;
            let last = surface.stretches_on(side).last()?;
            let mut both = [surface.stretch(first).start, surface.stretch(last).end];
            both.sort_unstable();
            Some(both)
        };
        // What faces or lines an edge leaves it open.
        let is_free = |side: SideId| {
            let layer = surface.face(surface.side(side).face).layer;
            surface.stretches_on(side).all(|stretch| {
                let join = surface.stretch(stretch).join.map(|join| surface.join(join));
                let mut others = join.into_iter().flat_map(|join| &join.plies).map(|ply| ply.stretch);
                others.all(|other| other == stretch || surface.face(surface.face_of(other)).layer != layer)
            })
        };
        let mut hung = surface.sides_of(*flap).filter(|&side| !is_free(side));
        let (hinge, None) = (hung.next()?, hung.next()) else { return None };
        let ends = corners(hinge)?;
        let mouth = surface.sides_of(*body).find(|&side| is_free(side) && corners(side) == Some(ends))?;
        let [hinge, mouth] = [hinge, mouth].map(|side| surface.side(side));
        let (_, reaches) = self.away_from(chains[0], hinge.part, hinge.edge)?;
        let (lies, _) = self.away_from(chains[1], mouth.part, mouth.edge)?;
        let wanting = lies - reaches;
        if flap == body || wanting <= EASE {
            return None;
        }
        let (garment, unit) = (self.garment, self.garment.unit);
        let closure = garment.closure(self.line.closure);
        let piece = |part: PartId| words::piece(garment, self.size.sewn.part(part).part.piece);
        let title = Title::new(format!(
            "{} is {} too short for {} to close it on {}",
            piece(hinge.part),
            amount(wanting, unit),
            closure.name,
            piece(mouth.part)
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::CLOSURE_OUT_OF_REACH, chains[0].span, title)
            .label(format!("{} below the edge that it hangs by", amount(reaches, unit)))
            .also(chains[1].span, format!("{} below the mouth that it closes", amount(lies, unit)))
            .help(format!(
                "move the row of {} {} up, or make {} longer by as much",
                piece(mouth.part),
                at_least(wanting, unit),
                piece(hinge.part)
            ));
        Some(Finding::new(self.size.id(), wanting, mistake).about(&*closure.name))
    }

    /// Whether the cloth ends at an edge, or soon behind it: what is faced or banded there ends with its facing
    /// or band. What is sewn on there and goes on is the garment itself.
    fn is_open(
        &self,
        drawn: &DrawnPiece,
        part: PartId,
        edge: DrawnEdgeId,
        faces: &[FaceId],
        others: &[FaceId],
    ) -> bool {
        let surface = self.surface;
        let of_part = faces.iter().filter(|&&face| surface.face(face).part == part);
        let sides = of_part.flat_map(|&face| surface.sides_of(face));
        let sides = sides.filter(|&side| surface.side(side).edge == edge);
        let mut stretches = sides.flat_map(|side| surface.stretches_on(side));
        stretches.any(|stretch| self.is_open_at(drawn, part, stretch, [faces, others]))
    }

    /// The same of a stretch of an edge.
    fn is_open_at(
        &self,
        drawn: &DrawnPiece,
        part: PartId,
        stretch: StretchId,
        [faces, others]: [&[FaceId]; 2],
    ) -> bool {
        let surface = self.surface;
        let layer = self.size.sewn.part(part).part.layer;
        let Some(join) = surface.stretch(stretch).join.map(|join| surface.join(join)) else {
            return true;
        };
        let beyond = join.plies.iter().map(|ply| ply.stretch).filter(|other| *other != stretch);
        let mut beyond = beyond.filter(|&other| {
            let face = surface.face_of(other);
            !others.contains(&face) && !faces.contains(&face)
        });
        beyond.any(|other| {
            let face = surface.face(surface.face_of(other));
            face.layer != layer || face.flap || self.is_narrow(other, drawn.piece)
        })
    }

    /// Hooks, toggles or ties along an edge that a seam sews to what goes on there: nothing opens.
    fn shut(&self) -> Option<Finding> {
        let (garment, surface) = (self.garment, self.surface);
        let closure = garment.closure(self.line.closure);
        let chains = [&closure.first, &closure.second];
        let mut sides = self.line.sides.iter().zip(chains).enumerate();
        let (at, chain) = sides.find_map(|(nth, (side, chain))| {
            let (faces, others) = (&self.line.faces[nth], &self.line.faces[1 - nth]);
            let is_shut = |&(at, _): &(StretchId, bool)| {
                let part = surface.side_of(at).part;
                let drawn = self.size.drawn.paper(self.size.sewn.part(part).part.paper);
                // What is sewn to the other side of the closure is told as that.
                let beyond = surface.stretch(at).join.map(|join| &surface.join(join).plies);
                let mut beyond = beyond.into_iter().flatten().map(|ply| ply.stretch);
                let other_side = &self.line.sides[1 - nth];
                let is_to_itself = beyond.any(|stretch| other_side.iter().any(|own| own.0 == stretch));
                !is_to_itself && drawn.is_some_and(|drawn| !self.is_open_at(drawn, part, at, [faces, others]))
            };
            let first = side.first().map(|&(at, _)| at);
            first.filter(|_| side.iter().all(is_shut)).map(|at| (at, chain))
        })?;
        let join = surface.join(surface.stretch(at).join?);
        let crate::sewing::surface::JoinedBy::Seam { seam, .. } = join.by else { return None };
        let own = surface.face_of(at);
        let beside = join.plies.iter().map(|ply| surface.face_of(ply.stretch)).find(|face| *face != own)?;
        // What lies on it is no neighbour.
        let piece = |face: FaceId| self.size.sewn.part(surface.face(face).part).part.piece;
        let origins = garment.origins(piece(own));
        if garment.origins(piece(beside)).iter().any(|origin| origins.contains(origin)) {
            return None;
        }
        let (seam, edge) = (garment.seam(seam), chain.edges.first()?);
        let title = format!(
            "{} is to close {}, which {} sews to {}: nothing opens there",
            closure.name,
            words::edge(garment, edge.edge),
            seam.words(),
            words::piece(garment, piece(beside))
        );
        let mistake = Diagnostic::new(&catalogue::CLOSURE_SEWN_SHUT, edge.span, title)
            .label("sewn shut")
            .also(seam.name_span, "this seam")
            .help("name the two edges that are open; or take the edge out of the seam");
        Some(Finding::new(self.size.id(), 0.0, mistake).about(&*closure.name))
    }

    /// Whether what is sewn on ends within reach, as a band or a facing does: its other edges are free, or sewn to what
    /// it faces and to another layer. A side panel goes on in what is sewn to its other side.
    fn is_narrow(&self, stretch: StretchId, piece: PieceId) -> bool {
        let surface = self.surface;
        let face = surface.face_of(stretch);
        let part = self.size.sewn.part(surface.face(face).part).part;
        let Some(drawn) = self.size.drawn.paper(part.paper).filter(|drawn| drawn.piece != piece) else {
            return false;
        };
        let ring: Vec<_> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
        let long = surface.side_of(stretch).length.max(1.0);
        let is_free = |own: StretchId| surface.stretch(own).join.is_none();
        let layer = surface.face(face).layer;
        let goes_on = |own: StretchId| {
            let beside = self
                .size
                .sewn
                .gluing
                .partner(own)
                .map(|beside| surface.face(surface.face_of(beside.stretch)));
            beside.is_some_and(|beside| {
                beside.layer == layer && self.size.sewn.part(beside.part).part.piece != piece
            })
        };
        let sum = |is_meant: &dyn Fn(StretchId) -> bool| -> f64 {
            surface.stretches_of(face).filter(|&own| is_meant(own)).map(|own| surface.length(own)).sum()
        };
        let ends = surface.stretches_of(face).any(is_free) || sum(&goes_on) <= ENDS * sum(&|_| true);
        ends && signed_area(&ring).abs() / long <= REACH
    }
}

fn reported(garment: &Garment, size: &WorkedSize, closure: &Closure, away: [f64; 2]) -> Finding {
    let chains = [&closure.first, &closure.second];
    let named = |chain: &Chain| {
        let mut edges: Vec<String> = chain.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
        once_each(&mut edges);
        words::listed(&edges)
    };
    let [one, other] = chains.map(named);
    let both = if one == other { one.clone() } else { format!("{one} and {other}") };
    let beside = if one == other { format!("{one} does not lie") } else { format!("neither of {both} lies") };
    let title = Title::new(format!(
        "{} cannot bring its two sides together: {beside} beside an open edge",
        closure.name
    ))
    .in_sizes();
    let far = |away: f64| match away.is_finite() {
        true => format!("the nearest open edge is {} away", amount(away, garment.unit)),
        false => "nothing of the piece is open".to_owned(),
    };
    let mut mistake =
        Diagnostic::new(&catalogue::CLOSURE_OUT_OF_REACH, closure.first.span, title).label(far(away[0]));
    if one != other {
        mistake = mistake.also(closure.second.span, far(away[1]));
    }
    let mistake = mistake.help(
        "one side of a closure laps over the other: put the row beside an edge that opens there, leave a seam open \
         for it, or take the closure out",
    );
    let farthest = away.into_iter().filter(|away| away.is_finite()).fold(0.0, f64::max);
    Finding::new(size.id(), farthest, mistake).about(&*closure.name)
}
