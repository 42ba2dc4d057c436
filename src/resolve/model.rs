//! A garment in one size.

use crate::garment::{
    AlterationId, ClosureId, CutHow, EdgeId, FabricId, Garment, LayerId, Made, PaperId, Part, PieceId,
    PlacementId, PointId, SewnEdge, SizeId, ValueId,
};
use crate::id::index_id;
use crate::report::Finding;
use crate::shape::line::StraightLine;
use crate::shape::path::Path;
use crate::shape::pleat::Pleat;
use crate::shape::shut::Shut;
use crate::shape::tolerance::ON_OUTLINE;
use crate::shape::wedge::Wedge;
use crate::source::Span;
use crate::syntax::tree::Hand;
use kurbo::{Affine, Point, Vec2};
use smallvec::SmallVec;
use std::cell::LazyCell;
use std::ops::Range;
use std::sync::Arc;

index_id!(
    /// An edge of a drawn piece, by its place in [`DrawnPiece::edges`].
    DrawnEdgeId
);

/// A garment worked out in one size. `None` anywhere is what could not be worked out and has
/// been reported where it went wrong; whoever needs it is silent.
#[derive(Clone, Debug)]
pub struct SizedGarment {
    /// The size.
    pub size: SizeId,
    /// By [`ValueId`].
    pub values: Vec<Option<Quantity>>,
    /// The last version of each paper, by [`PaperId`]; none also for papers that were split or
    /// joined into others.
    pub papers: Vec<Option<Arc<DrawnPiece>>>,
    /// The papers that are altered, as they were drafted, by [`PaperId`]; none for all others.
    pub drafted: Vec<Option<Arc<DrawnPiece>>>,
    /// What each alteration came to, by [`AlterationId`]: the length it lengthens, extends, opens
    /// by, and so on; none for those that have no amount.
    pub amounts: Vec<Option<f64>>,
    /// How each zip fits, by [`ClosureId`]; none for buttons.
    pub zips: Vec<Option<ZipFit>>,
    /// Where each placement lies, by its place in the garment's list.
    pub placed: Vec<Option<PlacedPiece>>,
    /// What is cut, layer by layer; parts whose paper could not be drawn are left out.
    pub cut_list: Vec<CutRow>,
    /// Every value, version of a paper and sought amount that could not be worked out: each was
    /// reported, or needs another of them.
    pub missing: Vec<Made>,
}

/// All sizes, and what was found on the way.
#[derive(Clone, Debug, Default)]
pub struct Resolved {
    /// In the garment's order.
    pub sizes: Vec<SizedGarment>,
    /// In the order of the sizes, and in each as it was worked out.
    pub findings: Vec<Finding>,
}

/// One line of the cut list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutRow {
    /// What is cut.
    pub part: Part,
    /// From what; none where the layer's fabric is unknown.
    pub fabric: Option<FabricId>,
    /// How many, as said (`cut 1 on fold` is 1, `cut 2 mirrored` is 2).
    pub copies: u32,
    /// How they lie.
    pub how: CutHow,
    /// Turned over: the piece is not symmetrical, not cut in pairs, and this is its second layer.
    pub flipped: bool,
    /// The copies of that side of the body alone, where left and right are cut differently.
    pub hand: Option<Hand>,
    /// Drawn as a half on the fold, and cut as its whole from cloth that is not folded.
    pub whole: bool,
}

/// A value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A number, millimetres, square millimetres or radians.
    Scalar(f64),
    /// A place or a way, in millimetres.
    Point(Point),
}

impl Quantity {
    /// The number; none of a point.
    pub fn scalar(self) -> Option<f64> {
        match self {
            Quantity::Scalar(value) => Some(value),
            Quantity::Point(_) => None,
        }
    }
}

/// A paper pattern at one version, drawn.
#[derive(Clone, Debug)]
pub struct DrawnPiece {
    /// The piece.
    pub piece: PieceId,
    /// Edges end to end, each starting where the one before ends; counter-clockwise or clockwise
    /// as the maker walked. Of a finished paper with slits inside, their sides after the outline, each a ring of
    /// its own that goes the other way round ([`DrawnPiece::ring_of`]).
    pub edges: Vec<DrawnEdge>,
    /// Lines inside.
    pub lines: Vec<DrawnLine>,
    /// Corners, other points and marks.
    pub spots: Vec<DrawnSpot>,
    /// Notches that the piece declares.
    pub notches: Vec<DrawnNotch>,
    /// Darts and other take-ups, in the order declared.
    pub take_ups: Vec<DrawnTakeUp>,
    /// Slits that are not cut yet, in the order declared; none of a finished paper, on which they are edges.
    pub slits: Vec<DrawnSlit>,
    /// Of a finished paper with slits: what it was before they were cut.
    pub opened: Option<Arc<Opened>>,
    /// How its copies lie; `open` and `close` change it.
    pub cut: CutHow,
    /// A half on the fold that is cut as its whole.
    pub unfolded: bool,
    /// How many are cut, as said (a fold or a pair counted as said: `cut 1 on fold` is 1).
    pub count: u32,
    /// The grain's direction, a unit vector.
    pub grain: Vec2,
    /// Names that it had and has no longer, or that could not be drawn.
    pub missing: Missing,
    /// The runs taken by themselves that are counted against the way of their edge.
    pub counted_back: Vec<EdgeId>,
    /// Edges that lost some of their length as what lies behind a zip was kept back: it is eased where they are sewn.
    pub kept_back: Vec<KeptBack>,
    /// Of an outline that was drawn with its allowances on, edge by edge, how it was drawn. It holds for
    /// edges that still go as [`DrawnCut::stitching`] does.
    pub cutting: Vec<DrawnCut>,
}

/// An edge that lost some of its length, which is eased where it is sewn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptBack {
    /// The edge.
    pub edge: EdgeId,
    /// What kept it back.
    pub by: AlterationId,
    /// How much it lost, in millimetres.
    pub lost: f64,
    /// What it counts as sewn for each millimetre that it has.
    pub share: f64,
}

/// An edge that was drawn as it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCut {
    /// The stitching line that was found inside.
    pub stitching: Path,
    /// The way that was drawn.
    pub cut: Path,
    /// How far apart they are, in millimetres.
    pub width: f64,
}

/// Names that a drawn piece has not, and why.
#[derive(Clone, Debug, Default)]
pub struct Missing {
    /// Edges and lines.
    pub edges: Vec<(EdgeId, Why)>,
    /// Corners, points and marks.
    pub points: Vec<(PointId, Why)>,
}

/// Why a name is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It could not be drawn, and that was reported: say nothing more of it.
    Reported,
    /// An alteration took it away.
    By(AlterationId),
}

/// An edge.
#[derive(Clone, Debug)]
pub struct DrawnEdge {
    /// Its name. After a `cut off` or `split` the new edge has the line's id, or the one the
    /// split made for it.
    pub edge: EdgeId,
    /// The way it goes.
    pub path: Path,
    /// The corner it starts at. The edge before ends at the same one.
    pub corner: CornerName,
    /// The alterations that changed it, in order.
    pub touched: Vec<AlterationId>,
}

/// What a corner is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CornerName {
    /// A point of the piece.
    Named(PointId),
    /// Where two edges meet that no point names: `side/hem`.
    Between(EdgeId, EdgeId),
}

/// A line inside a piece, where it lies on the piece.
#[derive(Clone, Debug)]
pub struct DrawnLine {
    /// Its name.
    pub edge: EdgeId,
    /// From end to end.
    pub path: Path,
}

/// A place on a piece.
#[derive(Clone, Copy, Debug)]
pub struct DrawnSpot {
    /// Its name.
    pub point: PointId,
    /// Where it is.
    pub at: Point,
}

/// A notch.
#[derive(Clone, Copy, Debug)]
pub struct DrawnNotch {
    /// The edge.
    pub edge: EdgeId,
    /// Where it stands on the edge, from its start.
    pub along: f64,
    /// Where it is.
    pub at: Point,
    /// Two cuts side by side.
    pub double: bool,
    /// Which of the notches in the piece's drawing it is; past their end for one that came with a
    /// copy, a split or a join.
    pub declared: usize,
}

/// A take-up where it lies on a drawn piece. The outline runs straight across it.
#[derive(Clone, Copy, Debug)]
pub struct DrawnTakeUp {
    /// Its name on this piece.
    pub name: EdgeId,
    /// Its name where it is declared: another one's of a copy, or of what was split or joined.
    pub declared: EdgeId,
    /// The stretch of an edge that it takes; none of one inside the piece.
    pub mouth: Option<Mouth>,
    /// Its cloth. Of one inside the piece the sides are where it is widest, and the point is its
    /// lower end.
    pub wedge: Wedge,
    /// The upper end of one inside the piece.
    pub upper: Option<Point>,
    /// The place that it is directed to; it is sewn to its point, which may lie before that.
    pub apex: Point,
    /// The side, 0 or 1, that its cloth is pressed towards; none: cut open.
    pub pressed: Option<usize>,
    /// The side, 0 or 1, that is nearer to where its place is counted from.
    pub near: usize,
    /// How far before the place that it is directed to it is sewn to, in millimetres.
    pub stopping: f64,
    /// Its edge is drawn anew with it shut.
    pub trued: bool,
    /// Where it is said: its declaration, or the alteration that moved it.
    pub said: Span,
    /// How far its edge moved there when it was trued, in millimetres; none where it was not.
    pub moved: Option<f64>,
    /// Of one fold of a pleat or tuck, how it lies; none of a dart. Its wedge's sides are where its lines meet
    /// the edge; it is pressed towards the line that its fold is laid on.
    pub pleat: Option<DrawnPleat>,
}

/// One fold of a pleat or tuck. A tuck is taken from two edges: it is there once for each of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawnPleat {
    /// The way that its lines go from the edge into the cloth, a unit vector.
    pub into: Vec2,
    /// How far from the edge its lines are sewn on one another, in millimetres; 0 where they are not.
    pub sewn: f64,
    /// Where each of its lines ends: where it is sewn to, of a tuck on the other edge.
    pub ends: [Point; 2],
    /// Which fold of its row it is, in the order in which they are laid out.
    pub nth: usize,
    /// Of a tuck, which end it is.
    pub tuck: Option<TuckEnd>,
}

/// An end of a tuck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TuckEnd {
    /// On the edge that it is placed on.
    First,
    /// On the edge that it goes to.
    Second,
}

/// A slit where it lies on a drawn piece, before it is cut. The outline runs straight across it.
#[derive(Clone, Copy, Debug)]
pub struct DrawnSlit {
    /// Its name on this piece.
    pub name: EdgeId,
    /// Where it is said.
    pub said: Span,
    /// The stretch of the edge that is lost: its window, or nothing. None of one inside the piece.
    pub mouth: Option<Mouth>,
    /// Where its sides leave the edge, in the order of the edge; of one inside the piece where they begin, the
    /// one first that an outline would go in along: in one place without a window.
    pub sides: [Point; 2],
    /// Where they end inside: in one place without a window.
    pub ends: [Point; 2],
    /// The way that the edge runs there, and from the first side to the second.
    pub along: Vec2,
    /// The side, 0 or 1, that is nearer to where its place is counted from; of one inside the piece the left one.
    pub near: usize,
}

impl DrawnSlit {
    /// Its corners, round.
    pub fn corners(&self) -> [Point; 4] {
        [self.sides[0], self.ends[0], self.ends[1], self.sides[1]]
    }

    /// The same with its sides in the order that the outline goes: of one inside a piece whose outline may go the
    /// other way than it was drawn. `anticlockwise` tells which way it goes.
    pub fn ordered(self, anticlockwise: bool) -> DrawnSlit {
        let (start, end) = self.middle();
        if self.mouth.is_none() && ((end - start).cross(self.along) < 0.0) != anticlockwise {
            self.turned()
        } else {
            self
        }
    }

    /// How wide a strip is lost, in millimetres.
    pub fn window(&self) -> f64 {
        self.ends[0].distance(self.ends[1])
    }

    /// The corners that lie in the cloth: its end, and where one inside the piece begins.
    pub fn held(&self) -> Vec<Point> {
        if self.mouth.is_none() { self.corners().to_vec() } else { self.ends.to_vec() }
    }

    /// The line that is cut, in the middle: from the edge to its end.
    pub fn middle(&self) -> (Point, Point) {
        (self.sides[0].midpoint(self.sides[1]), self.ends[0].midpoint(self.ends[1]))
    }

    /// The same with everything moved so.
    pub fn moved(&self, by: impl Fn(Point) -> Point) -> DrawnSlit {
        let along = by(self.sides[0] + self.along) - by(self.sides[0]);
        DrawnSlit { sides: self.sides.map(&by), ends: self.ends.map(&by), along, ..*self }
    }

    /// The same on an edge that runs the other way.
    pub fn turned(&self) -> DrawnSlit {
        let turned = |[one, other]: [Point; 2]| [other, one];
        let (sides, ends) = (turned(self.sides), turned(self.ends));
        // Of one inside the piece that is the way from side to side, which is turned with them.
        DrawnSlit { sides, ends, along: -self.along, near: 1 - self.near, ..*self }
    }
}

/// A piece before its slits were cut.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The piece, its outline straight across its slits.
    pub whole: Arc<DrawnPiece>,
    /// By the edges of the piece that is cut: the edge of the whole that each is a run of; none of the
    /// sides of slits.
    pub run_of: Vec<Option<DrawnEdgeId>>,
    /// Where the edges of each slit inside the piece begin: rings of their own, after the outline.
    pub holes: Vec<usize>,
}

/// The corners of what a take-up takes: four at most.
pub type Corners = SmallVec<[Point; 4]>;

/// The lines along which a take-up is sewn: four at most.
pub type Legs = SmallVec<[(Point, Point); 4]>;

/// The stretch of an edge that a take-up takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mouth {
    /// The edge.
    pub edge: EdgeId,
    /// From so far along the edge, in millimetres from its start, as drawn …
    pub from: f64,
    /// … to there.
    pub to: f64,
}

impl DrawnTakeUp {
    /// What it is called: dart, pleat, tuck.
    pub fn word(&self) -> &'static str {
        match self.pleat {
            None => "dart",
            Some(DrawnPleat { tuck: None, .. }) => "pleat",
            Some(_) => "tuck",
        }
    }

    /// The corners of the cloth that is sewn away, round; of a pleat that is not sewn down its two sides alone.
    pub fn corners(&self) -> Corners {
        let [first, point, second] = self.wedge.corners();
        match self.pleat {
            Some(DrawnPleat { sewn, ends: [one, other], .. }) if sewn > 0.0 => {
                Corners::from([first, one, other, second])
            }
            Some(_) => Corners::from_slice(&[first, second]),
            None => {
                let mut corners = Corners::from_slice(&[first, point, second]);
                corners.extend(self.upper);
                corners
            }
        }
    }

    /// Whether it lies just where another does.
    pub(crate) fn lies_as(&self, other: &DrawnTakeUp) -> bool {
        self.name == other.name
            && self.mouth == other.mouth
            && self.wedge == other.wedge
            && self.upper == other.upper
            && self.apex == other.apex
            && self.pressed == other.pressed
            && self.pleat == other.pleat
    }

    /// The lines along which it is sewn: each from a side to an end. Those of a tuck belong to its first end.
    pub fn legs(&self) -> Legs {
        match self.pleat {
            Some(DrawnPleat { tuck: Some(TuckEnd::Second), .. }) => Legs::new(),
            Some(DrawnPleat { sewn, ends, .. }) if sewn > 0.0 => {
                self.wedge.sides.into_iter().zip(ends).collect()
            }
            Some(_) => Legs::new(),
            None => {
                let [one, other] = self.wedge.sides;
                let mut legs = Legs::from_slice(&[(one, self.wedge.point), (other, self.wedge.point)]);
                if let Some(upper) = self.upper {
                    legs.extend([(one, upper), (other, upper)]);
                }
                legs
            }
        }
    }

    /// How long its two sewn lines are, to its point.
    pub fn leg_lengths(&self) -> [f64; 2] {
        match self.pleat {
            None => self.wedge.legs(),
            Some(DrawnPleat { sewn, .. }) if sewn <= 0.0 => [0.0, 0.0],
            Some(DrawnPleat { ends: [one, other], .. }) => {
                [self.wedge.sides[0].distance(one), self.wedge.sides[1].distance(other)]
            }
        }
    }

    /// The place in the cloth from which a side's line leads to the edge.
    pub fn line_from(&self, side: usize) -> Point {
        match self.pleat {
            None => self.wedge.point,
            Some(pleat) => {
                if side == 0 {
                    pleat.ends[0]
                } else {
                    pleat.ends[1]
                }
            }
        }
    }

    /// How it closes.
    pub fn shut(&self) -> Shut {
        match self.pleat {
            None => Shut::Wedge(self.wedge),
            Some(pleat) => Shut::Pleat(Pleat { sides: self.wedge.sides, into: pleat.into }),
        }
    }

    /// How much cloth lies under it, once: of a pleat its depth, of a dart half its mouth.
    pub fn depth(&self) -> f64 {
        match self.shut() {
            Shut::Wedge(wedge) => wedge.sides[0].distance(wedge.sides[1]) / 2.0,
            Shut::Pleat(pleat) => pleat.taken().hypot() / 2.0,
        }
    }

    /// The line that it is folded along: of a dart from its mouth, or its upper end, to its point; of a pleat the
    /// line that comes to lie on the other.
    pub fn fold(&self) -> Option<(Point, Point)> {
        if let Some(pleat) = self.pleat {
            let [one, other] = self.wedge.sides;
            let fold = if self.pressed == Some(0) { (other, pleat.ends[1]) } else { (one, pleat.ends[0]) };
            return (pleat.tuck != Some(TuckEnd::Second)).then_some(fold);
        }
        let from = match self.upper {
            Some(upper) => upper,
            None => {
                let [one, other] = self.wedge.sides;
                let line = StraightLine::at(self.wedge.point, self.wedge.fold()?)?;
                // Where it meets the straight line between the sides.
                let (a, b) = (line.side(one), line.side(other));
                one.lerp(other, if a == b { 0.5 } else { a / (a - b) })
            }
        };
        Some((from, self.wedge.point))
    }

    /// Of a pleat, the line that its fold is laid on.
    pub fn placement(&self) -> Option<(Point, Point)> {
        let pleat = self.pleat.filter(|pleat| pleat.tuck != Some(TuckEnd::Second))?;
        let [one, other] = self.wedge.sides;
        Some(if self.pressed == Some(0) { (one, pleat.ends[0]) } else { (other, pleat.ends[1]) })
    }

    /// The same with everything moved so.
    pub fn transformed(&self, by: Affine) -> DrawnTakeUp {
        let wedge = Wedge { sides: self.wedge.sides.map(|side| by * side), point: by * self.wedge.point };
        let pleat = self.pleat.map(|pleat| DrawnPleat {
            into: by * (Point::ZERO + pleat.into) - by * Point::ZERO,
            ends: pleat.ends.map(|end| by * end),
            ..pleat
        });
        DrawnTakeUp { wedge, upper: self.upper.map(|upper| by * upper), apex: by * self.apex, pleat, ..*self }
    }

    /// The same with its sides the other way round: on an edge that runs the other way.
    pub fn turned(&self) -> DrawnTakeUp {
        let swapped = |[one, other]: [Point; 2]| [other, one];
        let wedge = Wedge { sides: swapped(self.wedge.sides), point: self.wedge.point };
        let pleat = self.pleat.map(|pleat| DrawnPleat { ends: swapped(pleat.ends), ..pleat });
        DrawnTakeUp { wedge, pressed: self.pressed.map(|side| 1 - side), near: 1 - self.near, pleat, ..*self }
    }
}

/// How a zip fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZipFit {
    /// The closure.
    pub closure: ClosureId,
    /// The finished length of each side.
    pub sides: [f64; 2],
    /// The zip that was chosen: the one length, or of those in stock the nearest.
    pub zip: f64,
    /// The alteration whose amount was found for it.
    pub solved_by: Option<AlterationId>,
}

/// A piece where it lies on another.
#[derive(Clone, Debug)]
pub struct PlacedPiece {
    /// The paper it lies on.
    pub on: PaperId,
    /// The placed piece's edges, on the other's paper.
    pub edges: Vec<(EdgeId, Path)>,
}

impl DrawnPiece {
    /// The edge of that name, if there is just one run of it.
    pub fn edge(&self, edge: EdgeId) -> Option<&DrawnEdge> {
        self.edges.iter().find(|drawn| drawn.edge == edge)
    }

    /// An edge by its place; none of a paper that has fewer.
    pub fn edge_at(&self, edge: DrawnEdgeId) -> Option<&DrawnEdge> {
        self.edges.get(edge.index())
    }

    /// The edge that starts where this one ends.
    pub fn after(&self, edge: DrawnEdgeId) -> DrawnEdgeId {
        let ring = self.ring_of(edge);
        let next = edge.index() + 1;
        DrawnEdgeId::from_index(if next < ring.end { next } else { ring.start })
    }

    /// The edge that ends where this one starts.
    pub fn before(&self, edge: DrawnEdgeId) -> DrawnEdgeId {
        let ring = self.ring_of(edge);
        DrawnEdgeId::from_index(if edge.index() > ring.start { edge.index() } else { ring.end.max(1) } - 1)
    }

    /// The edges of the ring that an edge lies in: those of the outline, or of a slit inside the piece.
    pub fn ring_of(&self, edge: DrawnEdgeId) -> Range<usize> {
        let holes = self.holes();
        let nth = holes.partition_point(|first| *first <= edge.index());
        let start = nth.checked_sub(1).and_then(|own| holes.get(own)).copied().unwrap_or(0);
        start..holes.get(nth).copied().unwrap_or(self.edges.len())
    }

    /// Where the edges of each slit inside the piece begin, behind those of the outline.
    pub fn holes(&self) -> &[usize] {
        self.opened.as_ref().map_or(&[], |opened| &opened.holes)
    }

    /// The edges of the outline: all but the sides of slits inside the piece.
    pub fn outline(&self) -> &[DrawnEdge] {
        let end = self.holes().first().copied().unwrap_or(self.edges.len());
        self.edges.get(..end).unwrap_or(&self.edges)
    }

    /// The corners, each by the edge that starts there, at which a run of an edge taken by itself is nearer to
    /// what it is counted from, or farther.
    pub fn portion_ends<'a>(
        &'a self,
        garment: &'a Garment,
        portion: EdgeId,
        far: bool,
    ) -> impl Iterator<Item = DrawnEdgeId> + 'a {
        let runs = DrawnEdgeId::enumerate(&self.edges);
        runs.filter(move |(_, edge)| garment.is_run_of(edge.edge, portion)).map(move |(id, edge)| {
            match self.counted_back.contains(&edge.edge) == far {
                true => id,
                false => self.after(id),
            }
        })
    }

    /// How its edges were drawn as they are cut, if they were and nothing has changed them since.
    pub fn drawn_cut(&self) -> Option<&[DrawnCut]> {
        let same = self.cutting.len() == self.edges.len()
            && self.edges.iter().zip(&self.cutting).all(|(edge, cut)| edge.path == cut.stitching);
        (same && !self.edges.is_empty()).then_some(&self.cutting)
    }

    /// The take-ups whose cloth is taken from an edge, in the order in which they lie along it.
    pub fn take_ups_on(&self, edge: DrawnEdgeId) -> Vec<(&DrawnTakeUp, Mouth)> {
        let Some(drawn) = self.edge_at(edge).filter(|_| !self.take_ups.is_empty()) else { return Vec::new() };
        self.taken_from(drawn)
    }

    /// The same of an edge itself.
    pub(crate) fn taken_from(&self, drawn: &DrawnEdge) -> Vec<(&DrawnTakeUp, Mouth)> {
        if self.take_ups.is_empty() {
            return Vec::new();
        }
        let own = self.take_ups.iter().filter_map(|take_up| Some((take_up, take_up.mouth?)));
        let several = LazyCell::new(|| self.has_several_runs(drawn.edge));
        let mut own: Vec<_> = own
            .filter(|(take_up, mouth)| {
                let at = || drawn.path.point_at_length(mouth.from);
                mouth.edge == drawn.edge && (!*several || at().distance(take_up.wedge.sides[0]) <= ON_OUTLINE)
            })
            .collect();
        own.sort_by(|(_, a), (_, b)| a.from.total_cmp(&b.from));
        own
    }

    /// The slits that are cut from an edge, in the order in which they lie along it.
    pub(crate) fn slits_on(&self, drawn: &DrawnEdge) -> Vec<(&DrawnSlit, Mouth)> {
        if self.slits.is_empty() {
            return Vec::new();
        }
        let several = LazyCell::new(|| self.has_several_runs(drawn.edge));
        let on = self.slits.iter().filter_map(|slit| Some((slit, slit.mouth?)));
        let mut own: Vec<(&DrawnSlit, Mouth)> = on
            .filter(|(slit, mouth)| {
                let at = || drawn.path.point_at_length(mouth.from);
                mouth.edge == drawn.edge && (!*several || at().distance(slit.sides[0]) <= ON_OUTLINE)
            })
            .collect();
        own.sort_by(|(_, a), (_, b)| a.from.total_cmp(&b.from));
        own
    }

    /// The piece before its slits were cut; itself if it has none.
    pub fn uncut(&self) -> &DrawnPiece {
        self.opened.as_ref().map_or(self, |opened| &opened.whole)
    }

    /// What an edge counts as sewn for each millimetre that it has: more than 1 where a little is eased, because it was
    /// kept back from a zip's teeth.
    pub fn share_eased(&self, garment: &Garment, edge: EdgeId) -> f64 {
        let kept = self.kept_back.iter().find(|kept| garment.is_run_of(edge, kept.edge));
        kept.map_or(1.0, |kept| kept.share)
    }

    /// Whether several of its edges have that name: only then it matters on which of them something lies.
    fn has_several_runs(&self, edge: EdgeId) -> bool {
        self.edges.iter().filter(|own| own.edge == edge).nth(1).is_some()
    }

    /// Where that point is.
    pub fn spot(&self, point: PointId) -> Option<Point> {
        self.spots.iter().find(|spot| spot.point == point).map(|spot| spot.at)
    }
}

/// A run of edge that a name means once everything is split and joined: on which paper it lies
/// and which of its edges it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// The paper.
    pub paper: PaperId,
    /// The edge.
    pub edge: DrawnEdgeId,
}

impl SizedGarment {
    /// The runs that an edge of a piece, or of one layer's part, means in the finished garment,
    /// in the order in which they lie along the piece. Empty where it is gone or unknown.
    pub fn runs(&self, garment: &Garment, layer: Option<LayerId>, edge: EdgeId) -> Vec<Run> {
        let mut runs = Vec::new();
        self.each_run(garment, layer, edge, &mut |run| runs.push(run));
        runs
    }

    /// The same, one after the other.
    pub(crate) fn each_run(
        &self,
        garment: &Garment,
        layer: Option<LayerId>,
        edge: EdgeId,
        take: &mut dyn FnMut(Run),
    ) {
        let Some(paper) = garment.paper_of(layer, garment.edge(edge).piece) else { return };
        let mut open = Vec::new();
        let mut next = Some(paper);
        while let Some(paper) = next {
            if let Some(drawn) = self.paper(paper) {
                for (at, drawn) in DrawnEdgeId::enumerate(&drawn.edges) {
                    if garment.is_run_of(drawn.edge, edge) {
                        take(Run { paper, edge: at });
                    }
                }
            } else {
                let becomes = garment.paper(paper).becomes.iter().rev();
                open.extend(becomes.filter_map(|&next| garment.paper_of(layer, garment.paper(next).piece)));
            }
            next = open.pop();
        }
    }

    /// The same for the words of a seam, finish or closure.
    pub fn runs_of(&self, garment: &Garment, sewn: &SewnEdge) -> Vec<Run> {
        self.runs(garment, sewn.layer, sewn.edge)
    }

    /// The last version of a paper; none where it could not be drawn, was split or was joined.
    pub fn paper(&self, paper: PaperId) -> Option<&DrawnPiece> {
        self.papers.get(paper.index()).and_then(Option::as_deref)
    }

    /// Whether nothing can be known of a piece: neither it nor any piece that it was made into could be
    /// drawn, which has been reported.
    pub fn is_undrawn(&self, garment: &Garment, piece: PieceId) -> bool {
        garment.piece(piece).papers.iter().all(|&paper| self.is_undrawn_paper(garment, paper))
    }

    /// The same of one of its papers.
    pub fn is_undrawn_paper(&self, garment: &Garment, paper: PaperId) -> bool {
        let mut open: Vec<PaperId> = vec![paper];
        while let Some(at) = open.pop() {
            let becomes = &garment.paper(at).becomes;
            if becomes.is_empty() && self.paper(at).is_some() {
                return false;
            }
            open.extend(becomes);
        }
        true
    }

    /// Whether some of what a piece was made into could not be drawn, which has been reported: what is
    /// known of it is not all.
    pub fn is_partly_undrawn(&self, garment: &Garment, piece: PieceId) -> bool {
        let mut open: Vec<PaperId> = garment.piece(piece).papers.clone();
        while let Some(paper) = open.pop() {
            let becomes = &garment.paper(paper).becomes;
            if becomes.is_empty() && self.paper(paper).is_none() {
                return true;
            }
            open.extend(becomes);
        }
        false
    }

    /// The alteration that took an edge, a line or a take-up away from all papers of its piece.
    pub fn edge_taken_by(&self, garment: &Garment, edge: EdgeId) -> Option<AlterationId> {
        if self.is_partly_undrawn(garment, garment.edge(edge).piece) {
            return None;
        }
        let papers = || self.last_papers(garment, garment.edge(edge).piece);
        let has = |drawn: &DrawnPiece| {
            let lines = drawn.lines.iter().map(|line| line.edge);
            let mut own = drawn.edges.iter().map(|edge| edge.edge).chain(lines);
            own.any(|own| garment.is_run_of(own, edge))
        };
        if papers().any(has) {
            return None;
        }
        let mut missing = papers().flat_map(|drawn| &drawn.missing.edges);
        missing.find_map(|&(gone, why)| match why {
            Why::By(by) if garment.is_run_of(gone, edge) => Some(by),
            _ => None,
        })
    }

    /// The alteration that took a point or mark away.
    pub fn point_taken_by(&self, garment: &Garment, point: PointId) -> Option<AlterationId> {
        let mut missing =
            self.last_papers(garment, garment.point(point).piece).flat_map(|drawn| &drawn.missing.points);
        missing.find_map(|&(gone, why)| match why {
            Why::By(by) if garment.is_point_of(gone, point) => Some(by),
            _ => None,
        })
    }

    /// The last papers of a piece, or of those that it became.
    fn last_papers(&self, garment: &Garment, piece: PieceId) -> impl Iterator<Item = &DrawnPiece> {
        let mut open: Vec<PaperId> = garment.piece(piece).papers.iter().rev().copied().collect();
        let mut last = Vec::new();
        while let Some(paper) = open.pop() {
            last.extend(self.paper(paper));
            open.extend(garment.paper(paper).becomes.iter().rev());
        }
        last.into_iter()
    }

    /// Where a placement lies.
    pub fn placed(&self, placement: PlacementId) -> Option<&PlacedPiece> {
        self.placed.get(placement.index()).and_then(Option::as_ref)
    }

    /// A value's number.
    pub fn scalar(&self, value: ValueId) -> Option<f64> {
        self.values.get(value.index()).copied().flatten().and_then(Quantity::scalar)
    }
}
