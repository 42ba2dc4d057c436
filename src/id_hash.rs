//! Maps and sets of ids.
//!
//! Ids are small numbers that the compiler itself gives out, so that nobody can choose them to collide: one
//! multiplication spreads them, where the standard hash, made for keys that strangers choose, takes longer than
//! all else that is done with most maps. What has words in its key is hashed otherwise (`name_hash`).

use indexmap::{IndexMap, IndexSet};
use std::collections::{HashMap, HashSet};
use std::hash::{BuildHasherDefault, Hasher};

/// A map from ids; it may be asked, never walked.
pub(crate) type IdMap<K, V> = HashMap<K, V, BuildHasherDefault<IdHasher>>;
/// A set of ids; it may be asked, never walked.
pub(crate) type IdSet<K> = HashSet<K, BuildHasherDefault<IdHasher>>;
/// A map from ids in the order in which they came.
pub(crate) type IdIndexMap<K, V> = IndexMap<K, V, BuildHasherDefault<IdHasher>>;
/// A set of ids in the order in which they came.
pub(crate) type IdIndexSet<K> = IndexSet<K, BuildHasherDefault<IdHasher>>;

/// An odd number whose bits look random: 2⁶⁴ divided by π (on multiplicative hashing see Knuth, The Art of Computer
/// Programming, volume 3, section 6.4).
const SPREAD: u64 = 0x517c_c1b7_2722_0a95;
/// Multiplying moves what differs to the high bits, and maps look at the low ones first.
const TO_LOW: u32 = 26;
/// Of several numbers each is turned by so much before the next comes to it.
const TURN: u32 = 5;

/// Multiplicative hashing, number by number.
#[derive(Clone, Copy, Debug, Default)]
pub struct IdHasher(u64);

impl IdHasher {
    #[inline]
    fn add(&mut self, number: u64) {
        self.0 = (self.0.rotate_left(TURN) ^ number).wrapping_mul(SPREAD);
    }
}

impl Hasher for IdHasher {
    #[inline]
    fn finish(&self) -> u64 {
        self.0.rotate_left(TO_LOW)
    }

    fn write(&mut self, bytes: &[u8]) {
        for chunk in bytes.chunks(8) {
            let mut number = [0; 8];
            number.iter_mut().zip(chunk).for_each(|(to, from)| *to = *from);
            self.add(u64::from_le_bytes(number));
        }
    }

    #[inline]
    fn write_u8(&mut self, number: u8) {
        self.add(u64::from(number));
    }

    #[inline]
    fn write_u32(&mut self, number: u32) {
        self.add(u64::from(number));
    }

    #[inline]
    fn write_u64(&mut self, number: u64) {
        self.add(number);
    }

    #[inline]
    fn write_usize(&mut self, number: usize) {
        self.add(number as u64);
    }

    #[inline]
    fn write_isize(&mut self, number: isize) {
        self.add(number as u64);
    }
}

#[cfg(test)]
mod tests {
    use super::IdSet;
    use std::collections::HashSet;
    use std::hash::{BuildHasher, BuildHasherDefault};

    /// Of `count` keys thrown at random into as many places about 63 % of the places are met, 1 − 1/e (the
    /// birthday problem); rows of ids must not do clearly worse, nor in their high bits.
    #[test]
    fn rows_and_grids_of_ids_are_spread() {
        let hashing = BuildHasherDefault::<super::IdHasher>::default();
        let count: u64 = 1 << 12;
        let met = |hashes: Vec<u64>, shift: u32| {
            hashes.iter().map(|hash| (hash >> shift) % count).collect::<HashSet<u64>>().len() as f64
        };
        let single: Vec<u64> = (0..count as u32).map(|id| hashing.hash_one(id)).collect();
        let pairs: Vec<u64> =
            (0..count as u32).map(|at| hashing.hash_one((at / 64, (at % 64) as usize))).collect();
        for hashes in [single, pairs] {
            for shift in [0, 52] {
                assert!(met(hashes.clone(), shift) > 0.5 * count as f64);
            }
        }
        let all: IdSet<(u32, usize)> = (0..100).flat_map(|one| (0..100).map(move |two| (one, two))).collect();
        assert_eq!(all.len(), 10_000);
    }
}
