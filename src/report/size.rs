use crate::id::index_id;

index_id!(
    /// A size, by its place in the garment's list. It is declared here since every finding is about one.
    SizeId
);
