//! What hangs together in a scene: faces that are sewn already are laid edge to edge.

use super::fit::rigid;
use super::laid::Laid;
use super::making::Making;
use super::patches::host_of;
use super::plies::{Once, PlyRun};
use crate::garment::PieceId;
use crate::sewing::surface::{FaceId, JoinId, JoinedPly, PlyAt, StretchId};
use crate::shape::{Affine, Point, Vec2};

/// Points of two faces that belong together: of the one, of the other, each on its flat copy.
pub type Pair = (FaceId, Point, FaceId, Point);

/// How far glued points may lie off one another, as a share of how far they are spread, for the pieces to be shown edge to
/// edge.
pub const FITS: f64 = 0.34;
/// What hangs at a piece is no larger than this, as a share of it.
const SMALL: f64 = 0.3;

/// Faces that hang together already.
pub struct Cluster {
    /// Where each lies.
    pub faces: Vec<Laid>,
    /// How many of them are sewn to something already.
    pub joined: usize,
    /// How large they are together, in square millimetres.
    pub area: f64,
}

impl Cluster {
    /// Where a face of it lies.
    pub fn of_face(&self, face: FaceId) -> Option<Affine> {
        self.faces.iter().find(|laid| laid.face == face).map(|laid| laid.by)
    }

    /// The outlines of its faces, where they lie.
    pub fn rings(&self, making: &Making) -> Vec<Vec<Point>> {
        self.faces.iter().map(|laid| laid.ring(making)).collect()
    }

    /// Moves all of it.
    pub fn moved(&mut self, by: Affine) {
        self.faces.iter_mut().for_each(|laid| laid.by = by * laid.by);
    }

    /// The only face of it, and its piece.
    pub fn piece(&self, making: &Making) -> Option<PieceId> {
        let [only] = self.faces.as_slice() else { return None };
        making.flat(only.face).map(|flat| flat.drawn.piece)
    }
}

/// The pairs between two clusters, where the second lies.
pub fn between(links: &[Pair], cluster: &Cluster, to: &Cluster) -> Vec<(Point, Point)> {
    let pair = |one: FaceId, at: Point, other: FaceId, there: Point| {
        Some((cluster.of_face(one)? * at, to.of_face(other)? * there))
    };
    let each = links.iter().filter_map(|&(one, at, other, there)| {
        pair(one, at, other, there).or_else(|| pair(other, there, one, at))
    });
    each.collect()
}

/// How far points are spread about their middle.
pub fn spread(pairs: &[(Point, Point)]) -> f64 {
    let count = pairs.len().max(1) as f64;
    let middle = pairs.iter().fold(Vec2::ZERO, |all, pair| all + pair.1.to_vec2()) / count;
    let sum: f64 = pairs.iter().map(|pair| (pair.1.to_vec2() - middle).hypot2()).sum();
    libm::sqrt(sum / count)
}

/// Places of both sides of a seam that come on one another: ends and middles of its stretches.
pub fn links(making: &Making, once: &Once) -> Vec<Pair> {
    let mut pairs = Vec::new();
    let (Some(first), Some(second)) = (once.side(false), once.side(true)) else { return pairs };
    for one in &first.runs {
        for other in second.runs.iter().filter(|other| other.cell == one.cell) {
            pairs.extend(pairs_of(making, one, other));
        }
    }
    pairs
}

fn pairs_of(making: &Making, one: &PlyRun, other: &PlyRun) -> Vec<Pair> {
    let (Some(own), Some(its)) = (one.path(making), other.path(making)) else { return Vec::new() };
    let at = |share: f64| {
        let (at, there) =
            (own.point_at_length(share * own.length()), its.point_at_length(share * its.length()));
        (one.face, at, other.face, there)
    };
    [0.0, 0.25, 0.5, 0.75, 1.0].map(at).to_vec()
}

/// What is sewn once and again with other copies of other pieces, each by itself.
pub fn groups(all: &[Once]) -> Vec<Vec<Once>> {
    let mut groups: Vec<(Vec<FaceId>, Vec<Once>)> = Vec::new();
    for once in all {
        let mut faces = once.faces();
        let mut own = vec![once.clone()];
        let (met, apart): (Vec<_>, Vec<_>) =
            groups.into_iter().partition(|(known, _)| known.iter().any(|face| faces.contains(face)));
        groups = apart;
        for (known, mut before) in met {
            faces.extend(known);
            before.append(&mut own);
            own = before;
        }
        groups.push((faces, own));
    }
    groups.into_iter().map(|(_, own)| own).collect()
}

/// What hangs together: the faces of each side where a seam that is sewn before joins one to the next.
pub fn clusters(making: &Making, all: &[Once], step: usize) -> Vec<Cluster> {
    let mut faces: Vec<FaceId> = Vec::new();
    let mut glue: Vec<(JoinId, Vec<Pair>)> = Vec::new();
    for once in all {
        for face in once.faces() {
            if !faces.contains(&face) && host_of(making, face).is_none() {
                faces.push(face);
            }
        }
        for pair in once.plies.iter().flat_map(|ply| ply.runs.windows(2)) {
            let [before, after] = pair else { continue };
            if before.face != after.face {
                glue.extend(glued(making, before, after, step));
            }
        }
    }
    let area = |face: FaceId| making.flat(face).map_or(0.0, |flat| flat.area());
    let mut open: Vec<FaceId> = faces.into_iter().filter(|face| making.flat(*face).is_some()).collect();
    // Of faces as large as each other the first comes first.
    open.sort_by(|one, other| area(*other).total_cmp(&area(*one)));
    let mut clusters = Vec::new();
    while !open.is_empty() {
        let first = open.remove(0);
        let mut cluster = Cluster {
            faces: vec![Laid { face: first, by: Affine::IDENTITY }],
            joined: usize::from(making.is_joined(first, step)),
            area: area(first),
        };
        while let Some((at, by)) =
            open.iter().enumerate().find_map(|(at, face)| Some((at, fit_to(&glue, &cluster, *face)?)))
        {
            let face = open.remove(at);
            cluster.joined += usize::from(making.is_joined(face, step));
            cluster.area += area(face);
            cluster.faces.push(Laid { face, by });
        }
        clusters.push(cluster);
    }
    clusters
}

/// Where a face lies that is sewn to a cluster: by all seams that join them, or by one of them, where what is a tube by now
/// cannot lie flat.
fn fit_to(glue: &[(JoinId, Vec<Pair>)], cluster: &Cluster, face: FaceId) -> Option<Affine> {
    let pair = |&(one, here, other, there): &Pair| match (one == face, other == face) {
        (true, false) => Some((here, cluster.of_face(other)? * there)),
        (false, true) => Some((there, cluster.of_face(one)? * here)),
        _ => None,
    };
    let each: Vec<Vec<(Point, Point)>> = glue
        .iter()
        .map(|(_, pairs)| pairs.iter().filter_map(pair).collect::<Vec<_>>())
        .filter(|pairs| !pairs.is_empty())
        .collect();
    let all: Vec<(Point, Point)> = each.iter().flatten().copied().collect();
    let (by, off) = rigid(&all, false)?;
    if off <= FITS * spread(&all) {
        return Some(by);
    }
    rigid(each.first()?, false).map(|(by, _)| by)
}

/// Where two faces that follow one another in a ply are sewn together already, at the corner that they share.
fn glued(making: &Making, before: &PlyRun, after: &PlyRun, step: usize) -> Option<(JoinId, Vec<Pair>)> {
    let surface = making.surface;
    let one = if before.against { surface.before(before.stretch) } else { surface.next(before.stretch) };
    let other = if after.against { surface.next(after.stretch) } else { surface.before(after.stretch) };
    let join = surface.stretch(one).join.filter(|join| surface.stretch(other).join == Some(*join))?;
    if making.joined_at(join) >= step {
        return None;
    }
    let plies = &surface.join(join).plies;
    let run = |stretch| Some(run_of(making, plies.iter().find(|ply| ply.stretch == stretch)?));
    Some((join, pairs_of(making, &run(one)?, &run(other)?)))
}

fn run_of(making: &Making, ply: &JoinedPly) -> PlyRun {
    let (stretch, against) = (ply.stretch, ply.against);
    PlyRun { stretch, face: making.surface.face_of(stretch), against, cell: 0, from: 0.0, to: 1.0, gap: None }
}

/// What is sewn by then to the very edges that these seams sew, beside them, and is much smaller than its piece: pocket bags in a
/// side seam, say.
pub fn hanging(making: &Making, laid: &Laid, seams: &[&Once], step: usize) -> Vec<Laid> {
    let surface = making.surface;
    // An edge of which a part is sewn to something else is drawn as several.
    let edge = |stretch: StretchId| {
        let side = surface.side_of(stretch);
        let drawn = making.flat(surface.face_of(stretch)).and_then(|flat| flat.drawn.edge_at(side.edge));
        (drawn.map(|edge| making.garment.whole_edge(edge.edge)), side.mirrored)
    };
    let runs = seams.iter().flat_map(|once| &once.plies).flat_map(|ply| &ply.runs);
    let edges: Vec<_> = runs.filter(|run| run.face == laid.face).map(|run| edge(run.stretch)).collect();
    let area = |face: FaceId| making.flat(face).map_or(0.0, |flat| flat.area());
    let mut found: Vec<Laid> = Vec::new();
    for stretch in surface.stretches_of(laid.face).filter(|stretch| edges.contains(&edge(*stretch))) {
        let Some(join) = surface.stretch(stretch).join.filter(|join| making.joined_at(*join) < step) else {
            continue;
        };
        let plies = &surface.join(join).plies;
        let Some(own) = plies.iter().find(|ply| ply.stretch == stretch) else { continue };
        let is_second = |ply: &JoinedPly| matches!(ply.at, PlyAt::Second(_));
        let others = plies.iter().filter(|ply| ply.at != PlyAt::Caught && is_second(ply) != is_second(own));
        for other in others {
            let face = surface.face_of(other.stretch);
            let is_new = face != laid.face && !found.iter().any(|own| own.face == face);
            if !is_new || area(face) > SMALL * area(laid.face) {
                continue;
            }
            let pairs = pairs_of(making, &run_of(making, other), &run_of(making, own));
            let pairs: Vec<(Point, Point)> = pairs.into_iter().map(|(_, at, _, there)| (at, there)).collect();
            let glued = rigid(&pairs, false).filter(|(_, off)| *off <= FITS * spread(&pairs));
            found.extend(glued.map(|(by, _)| Laid { face, by: laid.by * by }));
        }
    }
    found
}

/// Whether a movement leaves what is upright about upright.
pub fn rigid_upright(by: Affine) -> bool {
    let [cosine, ..] = by.as_coeffs();
    cosine > 0.8
}
