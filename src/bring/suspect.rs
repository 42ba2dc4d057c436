//! What looks as if a drawing came in at another scale than it was made for, or as if one of its sizes was drawn wrong.

use super::pattern::{Pattern, Piece};
use super::traced::TracedUnit;
use kurbo::Shape;

/// No piece of a garment that a person wears is longer, in millimetres.
const TOO_LONG: f64 = 2_500.0;
/// If no piece is longer than this, in millimetres, it is no garment.
const TOO_SHORT: f64 = 60.0;

/// Of a garment some piece is narrower than this, in millimetres: cloth is hardly wider than two of these.
const TOO_WIDE: f64 = 900.0;

/// Letters are on no pattern so high, in millimetres …
const TOO_HIGH: f64 = 40.0;
/// … and nobody reads them so low.
const TOO_LOW: f64 = 0.5;

/// A sentence on the scale, where it is suspected.
pub fn scale(pattern: &Pattern, units: &[TracedUnit]) -> Option<String> {
    let largest = pattern.sizes.len().max(1) - 1;
    let bounds = |piece: &Piece| piece.outline.whole(largest).bounding_box();
    let long = |piece: &Piece| bounds(piece).width().max(bounds(piece).height());
    let narrow = |piece: &Piece| bounds(piece).width().min(bounds(piece).height());
    let most = pattern.pieces.iter().max_by(|one, other| long(one).total_cmp(&long(other)))?;
    let (length, narrowest) = (long(most), pattern.pieces.iter().map(narrow).fold(f64::INFINITY, f64::min));
    let what = match () {
        () if length > TOO_LONG => format!("{} is {:.2} m long", most.name, length / 1000.0),
        () if length < TOO_SHORT || is_small(pattern, length) => {
            format!("no piece is longer than {length:.1} mm")
        }
        () if narrowest > TOO_WIDE => {
            format!(
                "no piece is narrower than {:.0} cm, and {} is {:.0} cm long",
                narrowest / 10.0,
                most.name,
                length / 10.0
            )
        }
        () => match units
            .iter()
            .find_map(|unit| unit.letters.filter(|high| !(TOO_LOW..TOO_HIGH).contains(high)))
        {
            Some(high) => format!("its smallest letters are {high:.1} mm high"),
            None => return None,
        },
    };
    // Of several drawings nobody knows which it is.
    let unit = match units {
        [only] => format!(": {}", only.words()),
        _ => String::new(),
    };
    let other = match units {
        [only] => only.otherwise(length, |long| (100.0..TOO_LONG).contains(&long)),
        _ => None,
    };
    let way = other.unwrap_or_else(|| "`scale` says how long 10 cm are in it".to_owned());
    Some(format!("{what}: if that is not so, the drawing is measured otherwise{unit}; {way}"))
}

/// Whether a pattern whose pieces are small is one of centimetres said to be millimetres: of several pieces, that hardly grow from
/// size to size, or have allowances that nobody sews.
fn is_small(pattern: &Pattern, length: f64) -> bool {
    let sizes = pattern.sizes.len();
    let high = |piece: &Piece, size: usize| {
        let bounds = piece.outline.whole(size).bounding_box();
        bounds.width() + bounds.height()
    };
    let step = |piece: &Piece| (high(piece, sizes - 1) - high(piece, 0)).abs() / (sizes - 1) as f64;
    let most = if sizes > 1 { pattern.pieces.iter().map(step).fold(0.0, f64::max) } else { 0.0 };
    let hardly_grows = most > 0.05 && most < LEAST_STEP;
    let is_tight =
        pattern.pieces.iter().any(|piece| piece.allowance.is_some_and(|own| own < LEAST_ALLOWANCE));
    length < SMALL && (pattern.pieces.len() >= SEVERAL || hardly_grows || is_tight)
}

/// Pieces are small if none is longer than this, in millimetres: legs of trousers in centimetres are.
const SMALL: f64 = 120.0;
/// So many small pieces are no bag for coins.
const SEVERAL: usize = 3;
/// No size is less wider and higher than the one before, in millimetres.
const LEAST_STEP: f64 = 2.0;
/// No allowance is narrower, in millimetres.
const LEAST_ALLOWANCE: f64 = 2.5;

/// An edge so many times as long as in the size beside is hardly graded so: a size is a tenth larger at most.
const JUMP: f64 = 1.5;
/// And by so much longer, in millimetres: short edges may come and go.
const LEAST_JUMP: f64 = 30.0;

/// A sentence on the edge that jumps most from one size to the next, where one does.
pub fn sizes(piece: &Piece, sizes: &[String]) -> Option<String> {
    let mut worst: Option<(f64, usize, usize)> = None;
    for run in 0..piece.outline.runs() {
        let long =
            |size| piece.outline.of_run(run).map(|(edge, _)| piece.outline.length(edge, size)).sum::<f64>();
        let lengths: Vec<f64> = (0..sizes.len()).map(long).collect();
        for (at, pair) in lengths.windows(2).enumerate() {
            let &[one, other] = pair else { continue };
            let times = (one / other).max(other / one);
            let is_jump = times > JUMP && (one - other).abs() > LEAST_JUMP;
            if is_jump && worst.is_none_or(|(most, ..)| times > most) {
                worst = Some((times, run, at));
            }
        }
    }
    let (_, run, at) = worst?;
    let long =
        |size| piece.outline.of_run(run).map(|(edge, _)| piece.outline.length(edge, size)).sum::<f64>();
    let name = piece.outline.of_run(run).next().map_or("", |(_, edge)| &*edge.name);
    let (one, other) = (sizes.get(at)?, sizes.get(at + 1)?);
    Some(format!(
        "{}: {name} is {:.0} mm long in {one} and {:.0} mm in {other}: is one of them drawn wrong? `look` draws what was \
         understood",
        piece.name,
        long(at),
        long(at + 1)
    ))
}
