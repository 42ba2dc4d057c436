//! What of a cloth can be used: open, folded, as a tube, and washed.

use crate::garment::{Expression, FabricId, Garment, TwoWays};
use crate::limits;
use crate::resolve::SizedGarment;
use crate::sewing::amount_of;

/// How cloth lies on the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Spread {
    /// In a single ply, right side up; a tube is slit open.
    Open,
    /// Folded once along its length, right side in, the selvages on each other.
    Lengthwise,
    /// A tube as it is knitted: two plies, a fold at each side.
    Tube,
}

/// What is known of a fabric in one size, in millimetres and shares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloth {
    /// The fabric.
    pub fabric: FabricId,
    /// From selvage to selvage as it is sold; of a tube, as it lies flat.
    pub width: f64,
    /// Knitted round.
    pub tubular: bool,
    /// Not cut from, each side; a tube has none, slit open or not: it is knitted round, without edges
    /// (common practice).
    pub selvage: f64,
    /// How far it shrinks, as shares of its length and width before washing.
    pub shrink: (f64, f64),
    /// The repeat of its design as it is sold, along and across; none where there is none.
    pub repeat: (Option<f64>, Option<f64>),
    /// Pieces must lie one way.
    pub one_way: bool,
}

impl Cloth {
    /// The facts of a fabric; none where its width, selvage or shrinkage is unknown or less than
    /// nothing, which has been reported.
    pub fn of(garment: &Garment, sized: &SizedGarment, fabric: FabricId) -> Option<Cloth> {
        let said = garment.fabric(fabric);
        let value = |expression: &Expression| amount_of(garment, sized, expression);
        let not_less = |said: &Option<Expression>| match said {
            Some(said) => value(said).filter(|value| *value >= 0.0),
            None => Some(0.0),
        };
        // A cloth that shrinks to nothing has been reported; here it only must not divide by nothing.
        let shrinks = |way: &Option<Expression>| Some(not_less(way)?.min(limits::SHRINKS));
        let TwoWays { along, across } = &said.repeat;
        let repeats = |way: &Option<Expression>| way.as_ref().and_then(value).filter(|repeat| *repeat > 0.0);
        let selvage = not_less(&said.selvage)?;
        Some(Cloth {
            fabric,
            width: value(said.width.as_ref()?).filter(|width| *width >= 0.0)?,
            tubular: said.tubular,
            selvage: if said.tubular { 0.0 } else { selvage },
            shrink: (shrinks(&said.shrink.along)?, shrinks(&said.shrink.across)?),
            repeat: (repeats(along), repeats(across)),
            one_way: said.one_way,
        })
    }

    /// The width from side to side on which pieces can be laid, once the cloth is washed: of one
    /// ply, without its selvages. Not above 0 where nothing is left.
    pub fn usable(&self, spread: Spread) -> f64 {
        let washed = self.width * (1.0 - self.shrink.1);
        match (spread, self.tubular) {
            (Spread::Open, true) => 2.0 * washed,
            (Spread::Open, false) => washed - 2.0 * self.selvage,
            (Spread::Lengthwise | Spread::Tube, true) => washed,
            (Spread::Lengthwise | Spread::Tube, false) => washed / 2.0 - self.selvage,
        }
    }

    /// How wide a cloth like this one must be sold, of a tube how wide it lies flat, so that `across`
    /// can be cut from it laid open.
    pub fn width_for(&self, across: f64) -> f64 {
        let washed = if self.tubular { across / 2.0 } else { across + 2.0 * self.selvage };
        washed / (1.0 - self.shrink.1)
    }

    /// The repeat once the cloth is washed.
    pub fn washed_repeat(&self) -> (Option<f64>, Option<f64>) {
        let (along, across) = self.repeat;
        (
            along.map(|repeat| repeat * (1.0 - self.shrink.0)),
            across.map(|repeat| repeat * (1.0 - self.shrink.1)),
        )
    }

    /// The folded spread of this cloth.
    pub fn folded(&self) -> Spread {
        if self.tubular { Spread::Tube } else { Spread::Lengthwise }
    }
}
