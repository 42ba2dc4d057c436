//! Which pieces lie near a place: for each side of their bounds the pieces are kept as sets of bits
//! by where it lies, so that four sets in common answer for all pieces at once.

/// Into so many stretches each axis is divided.
const CELLS: usize = 64;
const BITS: usize = u64::BITS as usize;

/// Least x, greatest x, least y, greatest y.
pub type Bounds = [f32; 4];

/// The bounds of all pieces.
pub struct Near {
    bounds: Vec<Bounds>,
    /// Words in a set of pieces.
    words: usize,
    /// Stretches in a millimetre, along and across.
    scale: [f32; 2],
    /// For each side and each stretch, the pieces whose least x (or y) lies in it or before, and those whose greatest x (or
    /// y) lies in it or behind.
    sets: [Vec<u64>; 4],
}

impl Near {
    /// So many pieces, all nowhere yet.
    pub fn new(count: usize) -> Self {
        let words = count.div_ceil(BITS);
        Near {
            bounds: vec![[f32::MAX, f32::MIN, f32::MAX, f32::MIN]; count],
            words,
            scale: [0.0; 2],
            sets: std::array::from_fn(|_| vec![0; CELLS * words]),
        }
    }

    /// Forgets where all pieces lie; they are about to lie on cloth of such a length and width.
    pub fn clear(&mut self, length: f32, width: f32) {
        self.scale = [length, width].map(|size| CELLS as f32 / size.max(1.0));
        for set in &mut self.sets {
            set.fill(0);
        }
    }

    /// The stretch in which a side lies; what lies off the cloth counts to the first or the last.
    fn cell(&self, side: usize, at: f32) -> usize {
        ((at * self.scale[side / 2]) as usize).min(CELLS - 1)
    }

    fn change(&mut self, piece: usize, present: bool) {
        let (word, bit) = (piece / BITS, 1u64 << (piece % BITS));
        for side in 0..4 {
            let cell = self.cell(side, self.bounds[piece][side]);
            let cells = if side % 2 == 0 { cell..CELLS } else { 0..cell + 1 };
            for cell in cells {
                let set = &mut self.sets[side][cell * self.words + word];
                *set = if present { *set | bit } else { *set & !bit };
            }
        }
    }

    /// A piece lies elsewhere.
    pub fn put(&mut self, piece: usize, bounds: Bounds) {
        self.change(piece, false);
        self.bounds[piece] = bounds;
        self.change(piece, true);
    }

    /// The other pieces whose bounds meet such bounds, in their order.
    pub fn meet(&self, piece: usize, [low_x, high_x, low_y, high_y]: Bounds, out: &mut Vec<u32>) {
        out.clear();
        let set = |side: usize, at: f32| {
            let from = self.cell(side, at) * self.words;
            &self.sets[side][from..from + self.words]
        };
        let along = set(0, high_x).iter().zip(set(1, low_x));
        let across = set(2, high_y).iter().zip(set(3, low_y));
        for (index, ((a, b), (c, d))) in along.zip(across).enumerate() {
            let mut mask = a & b & c & d;
            while mask != 0 {
                let other = index * BITS + mask.trailing_zeros() as usize;
                mask &= mask - 1;
                let bounds = &self.bounds[other];
                let meets = (bounds[0] < high_x)
                    & (bounds[1] > low_x)
                    & (bounds[2] < high_y)
                    & (bounds[3] > low_y)
                    & (other != piece);
                if meets {
                    out.push(other as u32);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::random::Random;

    /// The same pieces are found as by asking each of them, also off the cloth.
    #[test]
    fn the_sets_tell_what_asking_every_piece_does() {
        let mut random = Random::new(7, 0);
        let mut anywhere = || {
            let (x, y) = (random.between(-50.0, 1100.0), random.between(-50.0, 550.0));
            [x, x + random.between(1.0, 300.0), y, y + random.between(1.0, 300.0)]
        };
        let mut near = Near::new(150);
        near.clear(1000.0, 500.0);
        let mut all = vec![[0.0f32; 4]; 150];
        let mut found = Vec::new();
        for step in 0..2000 {
            let (piece, bounds) = (step % 150, anywhere());
            near.put(piece, bounds);
            all[piece] = bounds;
            if step < 150 {
                continue;
            }
            let asked = anywhere();
            near.meet(piece, asked, &mut found);
            let meets =
                |b: &[f32; 4]| b[0] < asked[1] && b[1] > asked[0] && b[2] < asked[3] && b[3] > asked[2];
            let expected: Vec<u32> =
                (0..150u32).filter(|&k| k as usize != piece && meets(&all[k as usize])).collect();
            assert_eq!(found, expected);
        }
    }
}
