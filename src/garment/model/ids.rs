use super::{
    Alteration, Closure, Cord, EdgeName, Fabric, Finish, Garment, Layer, Notion, Opening, Paper, Piece,
    Placement, PointName, Portion, PortionOver, Seam, Size, StitchedRow, Strap, Tack, Value,
};
use crate::id::index_id;
pub use crate::report::SizeId;

/// Declares an id of one list of a [`Garment`], and the way to what it names.
macro_rules! id {
    ($(#[$doc:meta])* $id:ident, $one:ident: $thing:ty, $list:ident) => {
        index_id!($(#[$doc])* $id);
        named_by!($id, $one: $thing, $list);
    };
}

/// The way from an id to what it names.
macro_rules! named_by {
    ($id:ident, $one:ident: $thing:ty, $list:ident) => {
        impl Garment {
            /// What that id names.
            pub fn $one(&self, id: $id) -> &$thing {
                &self.$list[id.index()]
            }
        }
    };
}

named_by!(SizeId, size: Size, sizes);
id!(
    /// A body measure, a let or a measure.
    ValueId, value: Value, values);
id!(
    /// A fabric.
    FabricId, fabric: Fabric, fabrics);
id!(
    /// A layer.
    LayerId, layer: Layer, layers);
id!(
    /// A piece.
    PieceId, piece: Piece, pieces);
id!(
    /// An edge or a line of one piece.
    EdgeId, edge: EdgeName, edges);
id!(
    /// A run of an edge that something takes by itself.
    PortionId, portion: Portion, portions);
id!(
    /// What runs that lie over one another share.
    PortionOverId, portion_over: PortionOver, portions_over);
id!(
    /// A corner, another point or a mark of one piece.
    PointId, point: PointName, points);
id!(
    /// A paper pattern.
    PaperId, paper: Paper, papers);
id!(
    /// An alteration.
    AlterationId, alteration: Alteration, alterations);
id!(
    /// A seam.
    SeamId, seam: Seam, seams);
id!(
    /// A closure.
    ClosureId, closure: Closure, closures);
id!(
    /// A finish.
    FinishId, finish: Finish, finishes);
id!(
    /// A placement.
    PlacementId, placement: Placement, placements);
id!(
    /// An opening.
    OpeningId, opening: Opening, openings);
id!(
    /// A cord.
    CordId, cord: Cord, cords);
id!(
    /// A strap.
    StrapId, strap: Strap, straps);
id!(
    /// A row of topstitching or understitching.
    RowId, row: StitchedRow, rows);
id!(
    /// A tack.
    TackId, tack: Tack, tacks);
id!(
    /// Something that the maker lists or prices.
    NotionId, notion: Notion, notions);
