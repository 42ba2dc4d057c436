//! Edges that a variation moved and left as long as they were: a hem that lies lower, a neckline that is deeper elsewhere.

use crate::compile::Compiled;
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Part};
use crate::shape::Vec2;
use crate::shape::path::Path;

/// What lies nearer to where it lay, or is nearer to as long as it was, is as it was, in millimetres: less than a pencil shows.
const NOTHING: f64 = 1.0;
/// At so many places of an edge it is looked where it lies.
const PLACES: u32 = 8;

/// An edge that lies elsewhere than on the base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moved {
    /// In which size.
    pub size: String,
    /// The name of its part.
    pub part: String,
    /// Its name.
    pub edge: String,
}

/// Every edge that is as long as on the base and lies elsewhere on its piece, size by size.
///
/// A piece that is drawn at another place as a whole has none: it is laid onto the base's where most of its outline agrees.
pub fn moved(base: &Compiled, own: &Compiled) -> Vec<Moved> {
    let name = |compiled: &Compiled, size: &WorkedSize| compiled.garment.size(size.id()).name.to_string();
    let mut all = Vec::new();
    for size in own.sizes.iter() {
        let called = name(own, size);
        let Some(before) = base.sizes.iter().find(|before| name(base, before) == called) else { continue };
        for part in own.garment.parts() {
            let part_name = own.garment.part_name(Some(part.layer), part.piece);
            let is_same = |other: &Part| base.garment.part_name(Some(other.layer), other.piece) == part_name;
            let Some(other) = base.garment.parts().into_iter().find(is_same) else { continue };
            let pairs = paired(&edges(&base.garment, before, other), &edges(&own.garment, size, part));
            let edges = elsewhere(&pairs).into_iter();
            all.extend(edges.map(|edge| Moved { size: called.clone(), part: part_name.clone(), edge }));
        }
    }
    all
}

/// The edges of a part by their names.
fn edges<'a>(garment: &'a Garment, size: &'a WorkedSize, part: Part) -> Vec<(&'a str, &'a Path)> {
    let drawn = size.drawn.paper(part.paper);
    let outline = drawn.map_or(&[][..], |drawn| drawn.outline());
    outline.iter().map(|edge| (&*garment.edge(edge.edge).name, &edge.path)).collect()
}

/// The edges of one name, as they were and as they are.
fn paired<'a>(
    before: &[(&'a str, &'a Path)],
    now: &[(&'a str, &'a Path)],
) -> Vec<(&'a str, &'a Path, &'a Path)> {
    let pair = |(name, path): &(&'a str, &'a Path)| {
        let (_, old) = before.iter().find(|(own, _)| own == name)?;
        Some((*name, *old, *path))
    };
    now.iter().filter_map(pair).collect()
}

/// Those of them that lie elsewhere, each as long as before.
fn elsewhere(pairs: &[(&str, &Path, &Path)]) -> Vec<String> {
    let lies = |(_, old, new): &(&str, &Path, &Path), by: Vec2| {
        (0..=PLACES).all(|at| {
            let share = f64::from(at) / f64::from(PLACES);
            let [one, other] = [old, new].map(|path| path.point_at_length(share * path.length()));
            (one + by).distance(other) < NOTHING
        })
    };
    let shifts = pairs.iter().map(|(_, old, new)| new.start() - old.start());
    let agreeing = |by: Vec2| -> f64 {
        pairs.iter().filter(|pair| lies(pair, by)).map(|(_, _, new)| new.length()).sum()
    };
    // Left where it is, unless more agrees elsewhere.
    let (mut by, mut most) = (Vec2::ZERO, agreeing(Vec2::ZERO));
    for shift in shifts {
        let agrees = agreeing(shift);
        if agrees > most + NOTHING {
            (by, most) = (shift, agrees);
        }
    }
    let is_moved =
        |pair: &&(&str, &Path, &Path)| (pair.1.length() - pair.2.length()).abs() < NOTHING && !lies(pair, by);
    pairs.iter().filter(is_moved).map(|(name, ..)| (*name).to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::elsewhere;
    use crate::shape::Point;
    use crate::shape::path::Path;

    fn line(from: (f64, f64), to: (f64, f64)) -> Path {
        Path::straight(Point::new(from.0, from.1), Point::new(to.0, to.1))
    }

    /// A rectangle of 200 by 300 mm: its lower edge 50 mm lower, its sides longer by that.
    #[test]
    fn a_lower_hem_is_moved_and_its_sides_are_not() {
        let [top, hem] = [300.0, 0.0].map(|y| line((0.0, y), (200.0, y)));
        let (side, longer) = (line((200.0, 300.0), (200.0, 0.0)), line((200.0, 300.0), (200.0, -50.0)));
        let low = line((0.0, -50.0), (200.0, -50.0));
        let pairs = [("top", &top, &top), ("side", &side, &longer), ("hem", &hem, &low)];
        assert_eq!(elsewhere(&pairs), ["hem"]);
    }

    /// The same rectangle, drawn at another place: nothing of it is moved.
    #[test]
    fn a_piece_that_is_drawn_elsewhere_is_as_it_was() {
        let outline = |x: f64| {
            [
                line((x, 0.0), (x, 300.0)),
                line((x, 300.0), (x + 200.0, 300.0)),
                line((x + 200.0, 300.0), (x, 0.0)),
            ]
        };
        let (before, now) = (outline(0.0), outline(70.0));
        let pairs: Vec<_> = before.iter().zip(&now).map(|(one, other)| ("edge", one, other)).collect();
        assert!(elsewhere(&pairs).is_empty());
    }
}
