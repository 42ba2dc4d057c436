//! In which order the sizes of a pattern come, and which of its pieces go against it.
//!
//! Names that are known to follow one another say it best. Else most pieces do: of two sizes that one is the smaller which
//! is so in more of them; and where they say nothing it is the order of the drawing. One piece that is drawn wrong then never
//! puts the sizes of all others in another order.

use super::course::Course;
use super::error::BringError;
use super::names::one_line;
use super::traced::{Traced, TracedPiece};
use crate::limits::{DRAWING_PIECES, SIZES};
use crate::size_letters::place_of;
use indexmap::{IndexMap, IndexSet};

/// By so much, as a share, outlines of two sizes must differ to say which is the larger.
const UNLIKE: f64 = 0.001;

/// What is said of more pieces, or more sizes of all of them together, than a garment has.
pub fn too_many(traced: &Traced) -> Option<String> {
    if traced.pieces.len() > DRAWING_PIECES {
        return Some(too_many_pieces(traced.pieces.len()));
    }
    let names = traced.pieces.iter().flat_map(|piece| piece.sizes.keys());
    let all: IndexSet<&String> = names.filter(|name| !name.is_empty()).collect();
    if all.len() <= SIZES {
        return None;
    }
    let most = traced.pieces.iter().map(|piece| piece.sizes.len()).max().unwrap_or(0);
    let each = match most < all.len() {
        true => format!(", no piece more than {most} of them: are they one garment's?"),
        false => String::new(),
    };
    Some(format!("it holds {} sizes; a garment has at most {SIZES}{each}", all.len()))
}

/// What is said of so many pieces.
pub fn too_many_pieces(count: usize) -> String {
    format!("it holds {count} pieces; {DRAWING_PIECES} come in at once")
}

/// Whether pieces in several sizes share one at least: those that share none are of two patterns.
///
/// # Errors
/// Where they do not.
pub fn of_one_range(traced: &Traced) -> Result<(), BringError> {
    let mut graded = traced.pieces.iter().filter(|piece| piece.sizes.len() > 1);
    let Some(first) = graded.next() else { return Ok(()) };
    let Some(other) = graded.find(|piece| !piece.sizes.keys().any(|size| first.sizes.contains_key(size)))
    else {
        return Ok(());
    };
    let called = |piece: &TracedPiece| piece.sizes.keys().map(String::as_str).collect::<Vec<_>>().join(", ");
    let why = format!(
        "it is drawn in {}, and {} in {}: they have no size in common, and are not of one garment",
        called(other),
        one_line(&first.name),
        called(first)
    );
    Err(BringError::new(&one_line(&other.origin), why))
}

/// A piece, and how much each of its sizes covers, in square millimetres.
type Covered<'a> = (&'a TracedPiece, IndexMap<&'a str, f64>);

/// The sizes of all pieces, the smallest first as far as it is known, and by piece a sentence on it if it goes against that.
pub fn sizes_of(traced: &Traced) -> (Vec<String>, Vec<Option<String>>) {
    let drawn: IndexSet<&str> = traced
        .pieces
        .iter()
        .flat_map(|piece| piece.sizes.keys().map(String::as_str))
        .filter(|name| !name.is_empty())
        .collect();
    let pieces: Vec<Covered> = traced.pieces.iter().map(covered).collect();
    let mut order: Vec<&str> = drawn.into_iter().collect();
    match ranks(&order) {
        Some(ranks) => {
            let mut ranked: Vec<(f64, &str)> = ranks.into_iter().zip(order).collect();
            ranked.sort_by(|one, other| one.0.total_cmp(&other.0));
            order = ranked.into_iter().map(|(_, name)| name).collect();
        }
        None => {
            let columns: Vec<Vec<Option<f64>>> = order
                .iter()
                .map(|size| pieces.iter().map(|(_, areas)| areas.get(size).copied()).collect())
                .collect();
            let larger_than =
                |own: &[Option<f64>]| columns.iter().filter(|other| votes(other, own) > 0).count();
            let mut placed: Vec<(usize, &str)> =
                order.iter().zip(&columns).map(|(name, own)| (larger_than(own), *name)).collect();
            placed.sort_by_key(|(place, _)| *place);
            order = placed.into_iter().map(|(_, name)| name).collect();
        }
    }
    let against = pieces.iter().map(|piece| against(piece, &order)).collect();
    (order.into_iter().map(str::to_owned).collect(), against)
}

fn covered(piece: &TracedPiece) -> Covered<'_> {
    let each = piece.sizes.iter().filter(|(name, _)| !name.is_empty());
    let areas = each.filter_map(|(name, size)| Some((&**name, Course::of(&size.outline)?.area().abs())));
    (piece, areas.collect())
}

/// How many more pieces are smaller in the one size than in the other; each size is how much every piece covers in it.
fn votes(one: &[Option<f64>], other: &[Option<f64>]) -> i64 {
    let each = one.iter().zip(other).filter_map(|(one, other)| one.zip(*other));
    each.map(|(one, other)| i64::from(is_smaller(one, other)) - i64::from(is_smaller(other, one))).sum()
}

fn is_smaller(one: f64, other: f64) -> bool {
    one < other * (1.0 - UNLIKE)
}

/// What is said of a piece that is larger in a smaller size: of those that follow one another the pair that is most so.
fn against((piece, areas): &Covered, order: &[&str]) -> Option<String> {
    let own: Vec<(&str, f64)> =
        order.iter().filter_map(|name| areas.get(name).map(|area| (*name, *area))).collect();
    let falls = own.windows(2).filter_map(|pair| match pair {
        &[one, other] if is_smaller(other.1, one.1) => Some((one, other)),
        _ => None,
    });
    let share = |((_, one), (_, other)): &((&str, f64), (&str, f64))| other / one;
    let (smaller, larger) = falls.min_by(|one, other| share(one).total_cmp(&share(other)))?;
    let percent = (1.0 - larger.1 / smaller.1) * 100.0;
    let less = if percent < 1.0 { format!("{percent:.1}") } else { format!("{percent:.0}") };
    Some(format!(
        "{} ({}): the outline of size {} is {less} % smaller than that of size {}: are sizes mixed up, or is one drawn at \
         another scale?",
        one_line(&piece.name),
        one_line(&piece.origin),
        one_line(larger.0),
        one_line(smaller.0),
    ))
}

/// Where sizes stand among those that are called alike, if all are: by numbers, or by the usual letters.
fn ranks(names: &[&str]) -> Option<Vec<f64>> {
    let by_number = |name: &&str| name.parse::<f64>().ok().filter(|number| number.is_finite());
    let by_letters = |name: &&str| place_of(name).map(f64::from);
    let all = |rank: &dyn Fn(&&str) -> Option<f64>| names.iter().map(rank).collect::<Option<Vec<f64>>>();
    all(&by_number).or_else(|| all(&by_letters))
}

#[cfg(test)]
mod tests {
    use super::ranks;

    #[test]
    fn names_that_are_known_follow_one_another() {
        assert_eq!(ranks(&["40", "38"]), Some(vec![40.0, 38.0]));
        assert!(ranks(&["M", "s"]).is_some_and(|ranks| ranks[0] > ranks[1]));
        assert_eq!(ranks(&["38", "M"]), None);
        assert_eq!(ranks(&["deckhand", "bosun"]), None);
    }
}
