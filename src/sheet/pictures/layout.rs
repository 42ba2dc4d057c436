//! Where the pieces of a seam lie: what is sewn already is one, the rest is glued to it edge to edge and moved away.

use super::canvas::Panel;
use super::clusters::{Cluster, FITS, Pair, between, clusters, groups, links, spread};
use super::fit::{apart, bounds, centroid, rigid};
use super::laid::{Laid, Shown};
use super::making::Making;
use super::patches::{Placed, beside, host_of};
use super::placing::side_by_side;
use super::plies::{Once, Ply};
use crate::sewing::surface::FaceId;
use crate::shape::{Affine, Point, Vec2};
use crate::syntax::tree::Hand;

/// The gap between pieces, as a share of how large the scene is.
const GAP: f64 = 0.09;

/// The pieces of a seam where they lie, right sides up.
pub struct Layout {
    /// The work first, then what is added.
    pub laid: Vec<Laid>,
    /// What is placed on those, which is drawn with them.
    pub also: Vec<Laid>,
    /// Everything that is added lies beside the edge that it is sewn to.
    pub fits: bool,
}

impl Layout {
    /// Of what is sewn together in one step, every time that it is. `is_apart`: with a gap between what is sewn now.
    pub fn of(making: &Making, all: &[Once], step: usize, is_apart: bool) -> Layout {
        let mut groups: Vec<Layout> =
            groups(all).iter().map(|group| Layout::of_group(making, group, step, is_apart)).collect();
        // As one sees it who looks at the wearer.
        groups.sort_by_key(|group| {
            let mut hands = group.laid.iter().filter_map(|laid| making.flat(laid.face)?.hand);
            hands.next() == Some(Hand::Left)
        });
        let rings: Vec<Vec<Point>> = groups
            .iter()
            .map(|group| group.laid.iter().flat_map(|laid| laid.ring(making)).collect())
            .collect();
        let largest = rings.iter().filter_map(|ring| bounds(ring)).map(|own| own.width().max(own.height()));
        let gap = GAP * largest.fold(20.0, f64::max);
        let moves = if groups.len() > 1 { beside(&rings, gap) } else { vec![Affine::IDENTITY] };
        let mut layout = Layout { laid: Vec::new(), also: Vec::new(), fits: true };
        for (group, by) in groups.into_iter().zip(moves) {
            layout.fits &= group.fits;
            layout.laid.extend(group.laid.into_iter().map(|laid| Laid { by: by * laid.by, ..laid }));
        }
        layout.with_placed(making, all)
    }

    /// The same, each piece by itself, as it is drawn.
    pub fn apart(making: &Making, all: &[Once]) -> Layout {
        let mut faces: Vec<FaceId> = Vec::new();
        for face in all.iter().flat_map(Once::faces) {
            if !faces.contains(&face) && making.flat(face).is_some() && host_of(making, face).is_none() {
                faces.push(face);
            }
        }
        let laid = side_by_side(making, &faces);
        Layout { laid, also: Vec::new(), fits: false }.with_placed(making, all)
    }

    /// Only these.
    pub fn only(laid: Vec<Laid>) -> Layout {
        Layout { laid, also: Vec::new(), fits: true }
    }

    /// With what lies on them and is sewn on with them.
    fn with_placed(mut self, making: &Making, all: &[Once]) -> Layout {
        for face in all.iter().flat_map(Once::faces) {
            let Some(at) = host_of(making, face).filter(|_| self.of_face(face).is_none()) else { continue };
            let host = making
                .surface
                .placings
                .get(at)
                .and_then(|placing| self.of_face(placing.host))
                .map(|laid| laid.by);
            let lies = host.zip(Placed::of(making, at).and_then(|placed| placed.by));
            self.also.extend(lies.map(|(host, by)| Laid { face, by: host * by }));
        }
        self
    }

    fn of_group(making: &Making, all: &[Once], step: usize, is_apart: bool) -> Layout {
        let clusters = clusters(making, all, step);
        let links: Vec<Pair> = all.iter().flat_map(|once| links(making, once)).collect();
        // What most is sewn to comes first, then what is sewn to something already, then what is large.
        let linked: Vec<usize> = clusters
            .iter()
            .map(|own| {
                clusters
                    .iter()
                    .filter(|other| !std::ptr::eq(own, *other) && !between(&links, own, other).is_empty())
                    .count()
            })
            .collect();
        let mut ranked: Vec<(usize, Cluster)> = linked.into_iter().zip(clusters).collect();
        ranked.sort_by(|(many, one), (few, other)| {
            few.cmp(many)
                .then((other.joined > 0).cmp(&(one.joined > 0)))
                .then(other.area.total_cmp(&one.area))
        });
        let clusters: Vec<Cluster> = ranked.into_iter().map(|(_, cluster)| cluster).collect();
        let mut fits = true;
        let mut open = clusters.into_iter();
        let mut placed: Vec<Cluster> = open.next().into_iter().collect();
        let mut open: Vec<Cluster> = open.collect();
        while !open.is_empty() {
            let next = open
                .iter()
                .position(|cluster| placed.iter().any(|to| !between(&links, cluster, to).is_empty()));
            let is_linked = next.is_some();
            let mut cluster = open.remove(next.unwrap_or(0));
            let pairs: Vec<(Point, Point)> =
                placed.iter().flat_map(|to| between(&links, &cluster, to)).collect();
            // A left and a right copy of one piece stay upright.
            let is_twin = placed.iter().any(|to| {
                to.piece(making).is_some()
                    && to.piece(making) == cluster.piece(making)
                    && !between(&links, &cluster, to).is_empty()
            });
            let glued = rigid(&pairs, false).filter(|(by, off)| {
                let [cosine, ..] = by.as_coeffs();
                *off <= FITS * spread(&pairs) + 5.0 && (!is_twin || cosine > 0.995)
            });
            let is_placed = glued.is_some_and(|(by, _)| {
                cluster.moved(by);
                !is_apart || move_away(making, &mut cluster, &placed, &pairs)
            });
            if !is_placed {
                fits &= !is_linked || is_twin;
                lay_beside(making, &mut cluster, &placed, &pairs, is_twin);
            }
            placed.push(cluster);
        }
        let laid = placed.into_iter().flat_map(|cluster| cluster.faces).collect();
        Layout { laid, also: Vec::new(), fits }
    }

    /// Where a face lies.
    pub fn of_face(&self, face: FaceId) -> Option<&Laid> {
        self.laid.iter().chain(&self.also).find(|laid| laid.face == face)
    }

    /// Whether some piece lies over another, by more than what curved edges do that are sewn together.
    pub fn overlaps(&self, making: &Making) -> bool {
        let rings: Vec<Vec<Point>> = self.laid.iter().map(|laid| laid.ring(making)).collect();
        let shrunk: Vec<Vec<Point>> = rings
            .iter()
            .map(|ring| {
                let middle = centroid(ring);
                ring.iter().map(|at| middle.lerp(*at, 0.86)).collect()
            })
            .collect();
        shrunk
            .iter()
            .enumerate()
            .any(|(nth, one)| shrunk.iter().skip(nth + 1).any(|other| !apart(one, other, 0.0)))
    }

    /// Draws all of it: what is sewn already in half tone, unless all of it is.
    pub fn draw(&self, making: &Making, panel: &mut Panel, step: usize) {
        let is_joined = |laid: &Laid| making.is_joined(laid.face, step);
        let all_joined = self.laid.iter().all(is_joined);
        for laid in &self.laid {
            let joined = is_joined(laid) && !all_joined;
            laid.draw(making, panel, Shown { step, joined, labelled: true });
        }
    }

    /// The place of a ply so far along, where it lies.
    pub fn point(&self, making: &Making, ply: &Ply, at: f64) -> Option<Point> {
        let (face, point) = ply.point(making, at)?;
        Some(self.of_face(face)?.by * point)
    }
}

/// Moves what is glued on away from what it is glued to, until it lies clear of everything.
fn move_away(making: &Making, cluster: &mut Cluster, placed: &[Cluster], pairs: &[(Point, Point)]) -> bool {
    let own = cluster.rings(making);
    let others: Vec<Vec<Point>> = placed.iter().flat_map(|cluster| cluster.rings(making)).collect();
    let all: Vec<Point> = own.iter().chain(&others).flatten().copied().collect();
    let Some(whole) = bounds(&all) else { return false };
    let gap = (GAP * whole.width().max(whole.height())).max(12.0);
    let middle = |points: &[Point]| {
        let count = points.len().max(1) as f64;
        (points.iter().fold(Vec2::ZERO, |all, at| all + at.to_vec2()) / count).to_point()
    };
    let there: Vec<Point> = pairs.iter().map(|pair| pair.1).collect();
    let seam = middle(&there);
    let toward = middle(&own.iter().flatten().copied().collect::<Vec<Point>>()) - seam;
    let from = middle(&others.iter().flatten().copied().collect::<Vec<Point>>()) - seam;
    // Square to the seam, on the side where it lies itself.
    let chord = there.iter().fold(Vec2::ZERO, |best, at| {
        let way = *at - *there.first().unwrap_or(at);
        if way.hypot() > best.hypot() { way } else { best }
    });
    let square = Vec2::new(-chord.y, chord.x);
    let side = square.dot(toward - from);
    let long = square.hypot();
    let way = if long > 1.0 && side.abs() > 0.1 * long * (toward - from).hypot() {
        square / long * side.signum()
    } else if (toward - from).hypot() > 1.0 {
        (toward - from) / (toward - from).hypot()
    } else {
        Vec2::new(0.0, 1.0)
    };
    let largest = whole.width().max(whole.height());
    for nth in 0..24 {
        let by = way * (gap + largest * f64::from(nth) / 16.0);
        let is_clear = own.iter().all(|ring| {
            let moved: Vec<Point> = ring.iter().map(|at| *at + by).collect();
            others.iter().all(|other| apart(&moved, other, 0.6 * gap))
        });
        if is_clear {
            cluster.moved(Affine::translate(by));
            return true;
        }
    }
    false
}

/// Lays something beside everything else, as it is drawn: on the side where the edge lies that it is sewn to.
fn lay_beside(
    making: &Making,
    cluster: &mut Cluster,
    placed: &[Cluster],
    pairs: &[(Point, Point)],
    is_twin: bool,
) {
    let points =
        |clusters: &[Vec<Vec<Point>>]| clusters.iter().flatten().flatten().copied().collect::<Vec<Point>>();
    let others = points(&placed.iter().map(|cluster| cluster.rings(making)).collect::<Vec<_>>());
    if let Some(first) = cluster.faces.first() {
        let back = first.by.inverse();
        if back.is_finite() {
            cluster.moved(back);
        }
    }
    let own = points(&[cluster.rings(making)]);
    let (Some(whole), Some(own)) = (bounds(&others), bounds(&own)) else { return };
    let gap = (GAP * whole.width().max(whole.height())).max(12.0);
    let count = pairs.len().max(1) as f64;
    let seam = pairs.iter().fold(Vec2::ZERO, |all, pair| all + pair.1.to_vec2()) / count;
    let off = if pairs.is_empty() { Vec2::new(1.0, 0.0) } else { seam - whole.center().to_vec2() };
    let (across, up) = (off.x / whole.width().max(1.0), off.y / whole.height().max(1.0));
    // What is wide lies above or below, unless the edge is clearly at a side.
    let is_wide = own.width() > 1.4 * own.height();
    let by = if is_twin || across.abs() > up.abs() * if is_wide { 1.8 } else { 0.8 } {
        let x = if across > 0.0 { whole.x1 + gap - own.x0 } else { whole.x0 - gap - own.x1 };
        Vec2::new(x, whole.center().y - own.center().y)
    } else {
        let y = if up >= 0.0 { whole.y1 + gap - own.y0 } else { whole.y0 - gap - own.y1 };
        Vec2::new(whole.center().x - own.center().x, y)
    };
    cluster.moved(Affine::translate(by));
}
