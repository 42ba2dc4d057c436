//! Ids: each names one thing of one list, so that a part is never taken for an edge.

/// Declares an id: a place in one list, from 0, that is told apart from the places in all others.
macro_rules! index_id {
    ($(#[$doc:meta])* $id:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $id(u32);

        impl $id {
            /// The id of the first thing of its list.
            pub const FIRST: Self = $id(0);

            /// The id of the thing at that place of its list.
            #[inline]
            pub fn from_index(index: usize) -> Self {
                $id(index as u32)
            }

            /// Its place in its list.
            #[inline]
            pub fn index(self) -> usize {
                self.0 as usize
            }

            /// Everything in its list, each with its id.
            pub fn enumerate<List: IntoIterator>(
                list: List,
            ) -> impl Iterator<Item = ($id, List::Item)> {
                list.into_iter().enumerate().map(|(at, one)| ($id::from_index(at), one))
            }
        }
    };
}

pub(crate) use index_id;
