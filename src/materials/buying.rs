//! From the length of a lay to what is asked for in the shop.

use crate::cutting::Cloth;
use crate::report::{DisplayUnit, INCH};

/// Less than this over a step, in millimetres, and the step is still enough: rounding, not cloth.
const ROUNDING: f64 = 0.05;

/// What is bought of a cloth, in millimetres. Each is what came before and something more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buying {
    /// As laid, of washed cloth.
    pub laid: f64,
    /// With a repeat of the design for each main length, so that the first piece can begin at the
    /// right place of it.
    pub with_repeats: f64,
    /// Before washing: `length / (1 − shrink)`. Shrinkage is reported as a share of the length
    /// before washing (ISO 5077).
    pub unwashed: f64,
    /// Rounded up as cloth is sold.
    pub to_buy: f64,
}

/// How cloth is sold, in millimetres: by 10 cm, or by ⅛ yd (common practice).
pub fn buying_step(unit: DisplayUnit) -> f64 {
    match unit {
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => 100.0,
        DisplayUnit::Inch => 36.0 * INCH / 8.0,
    }
}

/// What is bought for a lay of that length. `main_length` is the longest piece along the cloth:
/// it tells how many main lengths the lay is, each of which asks for a repeat.
pub fn buying(cloth: &Cloth, laid: f64, main_length: f64, unit: DisplayUnit) -> Buying {
    let repeats = match cloth.washed_repeat().0 {
        Some(repeat) if main_length > 0.0 => repeat * (laid / main_length).floor().max(1.0),
        _ => 0.0,
    };
    let with_repeats = laid + repeats;
    let unwashed = with_repeats / (1.0 - cloth.shrink.0);
    let step = buying_step(unit);
    let to_buy = ((unwashed - ROUNDING) / step).ceil().max(1.0) * step;
    Buying { laid, with_repeats, unwashed, to_buy }
}
