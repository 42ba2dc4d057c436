use crate::source::Span;

use super::{Garment, Size, SizeId, ValueId};
use std::sync::Arc;

/// One wearer, for whom the garment is made in place of its sizes.
#[derive(Clone, Debug)]
pub struct Fitting {
    /// Who.
    pub wearer: Arc<str>,
    /// The sizes of the garment, smallest first: what is given size by size has a value for each of them.
    pub sizes: Vec<Size>,
    /// Where the wearer lies among them.
    pub place: BetweenSizes,
    /// The body measure that decided it; none where there is one size.
    pub by: Option<ValueId>,
    /// Lists of what is bought by its length, of which the nearest size's value is taken.
    pub bought: Vec<Span>,
}

/// A place among the sizes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BetweenSizes {
    /// The size at or below it, counted from the smallest.
    pub below: usize,
    /// How much of the way to the next size, from 0 to less than 1.
    pub share: f64,
}

impl BetweenSizes {
    /// The nearest size; of two equally near the larger.
    pub fn nearest(self) -> usize {
        if self.share < 0.5 { self.below } else { self.below + 1 }
    }

    /// The size that follows, unless the place is a size's own.
    pub fn above(self) -> Option<usize> {
        (self.share > 0.0).then_some(self.below + 1)
    }

    /// That much of the way between the values of two sizes that follow one another.
    pub fn between(self, below: f64, above: f64) -> f64 {
        below + self.share * (above - below)
    }

    /// The first place at which a measure comes to `wanted`, linear from each size to the next; the nearest end
    /// where it lies beyond them. The measure falls nowhere.
    pub fn reaching(by_size: &[f64], wanted: f64) -> BetweenSizes {
        let last = by_size.len().saturating_sub(1);
        let Some(above) = by_size.iter().position(|&value| value >= wanted) else {
            return BetweenSizes { below: last, share: 0.0 };
        };
        match above.checked_sub(1).and_then(|below| Some((below, *by_size.get(below)?, *by_size.get(above)?)))
        {
            Some((below, low, high)) if high > wanted => {
                BetweenSizes { below, share: (wanted - low) / (high - low) }
            }
            _ => BetweenSizes { below: above, share: 0.0 },
        }
    }

    /// Whether it lies beyond another.
    pub fn is_beyond(self, other: BetweenSizes) -> bool {
        (self.below, self.share) > (other.below, other.share)
    }
}

impl Fitting {
    /// "Second mate, between M and L by chest"; "Second mate, as L by hip" of one who has a size's own.
    pub fn words(&self, garment: &Garment) -> String {
        let name = |at: usize| self.sizes.get(at).map_or("", |size| &*size.name);
        let Some(by) = self.by else { return self.wearer.to_string() };
        let place = match self.place.above() {
            Some(above) => format!("between {} and {}", name(self.place.below), name(above)),
            None => format!("as {}", name(self.place.below)),
        };
        format!("{}, {place} by {}", self.wearer, garment.value(by).name)
    }
}

impl Garment {
    /// What tells one size's papers from another's: "size M", "for Second mate"; nothing of a garment in one
    /// size.
    pub fn size_words(&self, size: SizeId) -> String {
        match (&self.fitting, self.sizes.len()) {
            (Some(fitting), _) => format!("for {}", fitting.wearer),
            (None, 0 | 1) => String::new(),
            (None, _) => format!("size {}", self.size(size).name),
        }
    }

    /// Whether it has to be said which size a thing is of.
    pub fn names_sizes(&self) -> bool {
        self.sizes.len() > 1 || self.fitting.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_place_that_reaches_a_measure() {
        let chest = [88.0, 96.0, 96.0, 104.0];
        let place = |wanted| BetweenSizes::reaching(&chest, wanted);
        assert_eq!(place(80.0), BetweenSizes { below: 0, share: 0.0 });
        assert_eq!(place(88.0), BetweenSizes { below: 0, share: 0.0 });
        assert_eq!(place(90.0), BetweenSizes { below: 0, share: 0.25 });
        assert_eq!(place(96.0), BetweenSizes { below: 1, share: 0.0 });
        assert_eq!(place(100.0), BetweenSizes { below: 2, share: 0.5 });
        assert_eq!(place(110.0), BetweenSizes { below: 3, share: 0.0 });
        assert_eq!(place(100.0).nearest(), 3);
        assert_eq!(place(90.0).nearest(), 0);
        assert_eq!((place(96.0).above(), place(90.0).above()), (None, Some(1)));
        assert!(place(90.0).is_beyond(place(89.0)) && !place(90.0).is_beyond(place(90.0)));
    }
}
