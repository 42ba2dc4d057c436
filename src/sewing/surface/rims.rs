//! Rims: where sheets end.

use super::gluing::Gluing;
use super::model::{StretchId, Surface};

/// A rim of a sheet: stretches end to end, back to the first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rim {
    /// From its first stretch on.
    pub parts: Vec<RimPart>,
}

/// A stretch of a rim.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct RimPart {
    /// The stretch.
    pub stretch: StretchId,
    /// The rim goes along it against the ring of its face.
    pub against: bool,
}

impl Rim {
    /// Whether all of it is free: nothing is sewn to it.
    pub fn is_free(&self, surface: &Surface) -> bool {
        self.parts.iter().all(|part| surface.stretch(part.stretch).join.is_none())
    }

    /// Its length.
    pub fn length(&self, surface: &Surface) -> f64 {
        self.parts.iter().map(|part| surface.length(part.stretch)).sum()
    }
}

impl Gluing {
    /// The rims of all sheets, each from the stretch of it that is first in the surface's list.
    pub fn rims(&self, surface: &Surface) -> Vec<Rim> {
        let mut rims = Vec::new();
        self.each_rim(surface, |parts| rims.push(Rim { parts: parts.to_vec() }));
        rims
    }

    /// The same, each lent to whoever only looks at it.
    pub fn each_rim(&self, surface: &Surface, mut look: impl FnMut(&[RimPart])) {
        let mut seen = vec![false; surface.stretches.len()];
        let mut parts = Vec::new();
        for first in surface.stretch_ids() {
            if seen[first.index()] || self.partner(first).is_some() {
                continue;
            }
            parts.clear();
            let (mut at, mut against) = (first, false);
            while !seen[at.index()] {
                seen[at.index()] = true;
                parts.push(RimPart { stretch: at, against });
                // It is met at its end where the rim goes against it.
                (at, against) = self.turn(surface, at, !against);
            }
            look(&parts);
        }
    }
}
