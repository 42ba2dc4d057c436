//! Maps from names.
//!
//! Makers choose names, so that they are hashed with a seed that differs from run to run, as the standard hash does; this
//! one takes a fraction of its time for words as short as names are. What is looked up does not hang on the seed: the maps
//! keep the order in which names came.

use indexmap::IndexMap;

/// A map from names in the order in which they came.
pub(crate) type NameMap<K, V> = IndexMap<K, V, foldhash::fast::RandomState>;
