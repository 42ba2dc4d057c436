use super::{Alteration, Closure, EdgeName, Fabric, Garment, Layer, Paper, Piece, PointName, Seam, Value};

/// Declares an id: an index into one list of a [`Garment`], and the way to what it names.
macro_rules! id {
    ($(#[$doc:meta])* $id:ident, $one:ident: $thing:ty, $list:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $id(pub u32);

        impl $id {
            /// The id of the thing at that place of its list.
            pub fn from_index(index: usize) -> Self {
                $id(index as u32)
            }

            /// Its place in its list.
            pub fn index(self) -> usize {
                self.0 as usize
            }
        }

        impl Garment {
            /// What that id names.
            pub fn $one(&self, id: $id) -> &$thing {
                &self.$list[id.index()]
            }
        }
    };
}

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
