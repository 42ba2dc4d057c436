//! A small random source of our own, so that a seed gives the same plan on every platform and
//! with every version of every library.

/// xorshift64* (Vigna, "An experimental exploration of Marsaglia's xorshift generators,
/// scrambled", 2016), seeded through splitmix64.
#[derive(Clone, Debug)]
pub struct Random {
    state: u64,
}

impl Random {
    /// A source for a seed and a stream: two streams of one seed differ.
    pub fn new(seed: u64, stream: u64) -> Self {
        let mut z =
            seed.wrapping_add(0x9E37_79B9_7F4A_7C15).wrapping_add(stream.wrapping_mul(0xD1B5_4A32_D192_ED03));
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        Random { state: (z ^ (z >> 31)) | 1 }
    }

    fn next(&mut self) -> u64 {
        self.state ^= self.state >> 12;
        self.state ^= self.state << 25;
        self.state ^= self.state >> 27;
        self.state.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    /// From 0 up to but not including 1.
    pub fn unit(&mut self) -> f32 {
        (self.next() >> 40) as f32 * (1.0 / 16_777_216.0)
    }

    /// Between two bounds; the lower one where they are the same.
    pub fn between(&mut self, low: f32, high: f32) -> f32 {
        low + (high - low) * self.unit()
    }

    /// A whole number below `count` (0 where `count` is 0).
    pub fn below(&mut self, count: usize) -> usize {
        ((u128::from(self.next()) * count as u128) >> 64) as usize
    }

    /// About normal, mean 0, standard deviation 1: the sum of four uniform numbers, scaled.
    pub fn bell(&mut self) -> f32 {
        (self.unit() + self.unit() + self.unit() + self.unit() - 2.0) * 1.732
    }

    /// Puts a list into random order (Fisher and Yates).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }
}
