//! A list that mostly holds one thing.

use std::ops::{Deref, DerefMut};

/// For so many things there is room once there is more than one: as a growing list takes it.
const FIRST_ROOM: usize = 4;

/// A list that holds a single thing in itself and only more than one on the heap.
///
/// Most edges are one curve, most seams have one edge a side and most edges have one fate. Of a garment
/// of a thousand pieces each list on the heap is one more place that is not in the processor's cache.
#[derive(Clone)]
pub struct Few<T>(Held<T>);

#[derive(Clone)]
enum Held<T> {
    One([T; 1]),
    Many(Vec<T>),
}

impl<T> Few<T> {
    /// An empty list.
    #[inline]
    pub const fn new() -> Self {
        Few(Held::Many(Vec::new()))
    }

    /// A list of one thing.
    #[inline]
    pub const fn one(only: T) -> Self {
        Few(Held::One([only]))
    }

    /// All things, in their order.
    #[inline]
    pub fn as_slice(&self) -> &[T] {
        match &self.0 {
            Held::One(one) => one,
            Held::Many(many) => many,
        }
    }

    /// Puts one more at the end.
    pub fn push(&mut self, next: T) {
        match &mut self.0 {
            Held::Many(many) if many.is_empty() => self.0 = Held::One([next]),
            Held::Many(many) => many.push(next),
            Held::One(_) => {
                let mut many = Vec::with_capacity(FIRST_ROOM);
                many.extend(std::mem::take(self));
                many.push(next);
                self.0 = Held::Many(many);
            }
        }
    }

    /// The same things as a growing list.
    pub fn into_vec(self) -> Vec<T> {
        match self.0 {
            Held::One(one) => Vec::from(one),
            Held::Many(many) => many,
        }
    }
}

impl<T> Deref for Few<T> {
    type Target = [T];

    #[inline]
    fn deref(&self) -> &[T] {
        self.as_slice()
    }
}

impl<T> DerefMut for Few<T> {
    #[inline]
    fn deref_mut(&mut self) -> &mut [T] {
        match &mut self.0 {
            Held::One(one) => one,
            Held::Many(many) => many,
        }
    }
}

impl<T> Default for Few<T> {
    fn default() -> Self {
        Few::new()
    }
}

impl<T: std::fmt::Debug> std::fmt::Debug for Few<T> {
    fn fmt(&self, to: &mut std::fmt::Formatter) -> std::fmt::Result {
        self.as_slice().fmt(to)
    }
}

impl<T: PartialEq> PartialEq for Few<T> {
    fn eq(&self, other: &Self) -> bool {
        self.as_slice() == other.as_slice()
    }
}

impl<T: Eq> Eq for Few<T> {}

impl<T> From<Vec<T>> for Few<T> {
    fn from(many: Vec<T>) -> Self {
        match <[T; 1]>::try_from(many) {
            Ok(one) => Few(Held::One(one)),
            Err(many) => Few(Held::Many(many)),
        }
    }
}

impl<T> FromIterator<T> for Few<T> {
    fn from_iter<All: IntoIterator<Item = T>>(all: All) -> Self {
        let mut all = all.into_iter();
        let Some(first) = all.next() else { return Few::new() };
        let Some(second) = all.next() else { return Few::one(first) };
        let mut many = Vec::with_capacity(2 + all.size_hint().0);
        many.extend([first, second]);
        many.extend(all);
        Few(Held::Many(many))
    }
}

impl<T> Extend<T> for Few<T> {
    fn extend<All: IntoIterator<Item = T>>(&mut self, all: All) {
        all.into_iter().for_each(|next| self.push(next));
    }
}

/// The things of a list, one after the other.
pub struct IntoFew<T>(Left<T>);

enum Left<T> {
    One(std::array::IntoIter<T, 1>),
    Many(std::vec::IntoIter<T>),
}

impl<T> Iterator for IntoFew<T> {
    type Item = T;

    #[inline]
    fn next(&mut self) -> Option<T> {
        match &mut self.0 {
            Left::One(one) => one.next(),
            Left::Many(many) => many.next(),
        }
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        match &self.0 {
            Left::One(one) => one.size_hint(),
            Left::Many(many) => many.size_hint(),
        }
    }
}

impl<T> DoubleEndedIterator for IntoFew<T> {
    fn next_back(&mut self) -> Option<T> {
        match &mut self.0 {
            Left::One(one) => one.next_back(),
            Left::Many(many) => many.next_back(),
        }
    }
}

impl<T> ExactSizeIterator for IntoFew<T> {}

impl<T> IntoIterator for Few<T> {
    type Item = T;
    type IntoIter = IntoFew<T>;

    #[inline]
    fn into_iter(self) -> IntoFew<T> {
        IntoFew(match self.0 {
            Held::One(one) => Left::One(one.into_iter()),
            Held::Many(many) => Left::Many(many.into_iter()),
        })
    }
}

impl<'a, T> IntoIterator for &'a Few<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    #[inline]
    fn into_iter(self) -> Self::IntoIter {
        self.as_slice().iter()
    }
}

impl<'a, T> IntoIterator for &'a mut Few<T> {
    type Item = &'a mut T;
    type IntoIter = std::slice::IterMut<'a, T>;

    #[inline]
    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

#[cfg(test)]
mod tests {
    use super::Few;

    #[test]
    fn a_list_is_the_same_however_it_was_filled() {
        for count in 0..5 {
            let collected: Few<usize> = (0..count).collect();
            let mut pushed = Few::new();
            (0..count).for_each(|one| pushed.push(one));
            let wanted: Vec<usize> = (0..count).collect();
            assert_eq!(collected.as_slice(), wanted);
            assert_eq!(pushed, collected);
            assert_eq!(Few::from(wanted.clone()), collected);
            assert_eq!(pushed.clone().into_iter().collect::<Vec<_>>(), wanted);
            assert_eq!(pushed.into_vec(), wanted);
        }
    }

    #[test]
    fn one_thing_needs_no_room_of_its_own() {
        assert_eq!(size_of::<Few<kurbo::PathSeg>>(), size_of::<kurbo::PathSeg>());
    }
}
