//! One cloth's parts, of one size or several, laid on it.

use super::phase::phases;
use super::shapes::{LayShape, Plies, shapes};
use crate::cutting::{Cloth, CutPart, Spread, WorkedSize};
use crate::garment::{FabricId, Garment, Part, SizeId};
use crate::lay::{Allowance, LayError, Plan, Progress, Request, placed_outline, search, search_either};
use crate::report::{DisplayUnit, Remedy, WayOut, amount};
use crate::resolve::is_symmetrical;
use crate::syntax::tree::Hand;
use kurbo::Point;
use thiserror::Error;

pub use crate::lay::Effort;

/// Where it is not said how the cloth lies, both ways are tried for this part of an allowance of time.
const BOTH_UNTIL: f64 = 0.25;

/// What is asked of a lay.
#[derive(Clone, Copy)]
pub struct LayOrder<'a> {
    /// How the cloth lies; where nothing is said, folded or open, whichever takes less cloth.
    pub spread: Option<Spread>,
    /// Another width than the fabric's own, in millimetres.
    pub width: Option<f64>,
    /// Least distance between pieces, in millimetres.
    pub space: f64,
    /// How much is searched.
    pub allowance: Allowance<'a>,
    /// The same seed gives the same lay.
    pub seed: u64,
    /// How many threads may be used; they change no lay that is bounded in work.
    pub threads: usize,
}

impl Default for LayOrder<'_> {
    fn default() -> Self {
        let allowance = Allowance::Work(Effort::Quick);
        LayOrder { spread: None, width: None, space: 0.0, allowance, seed: 1, threads: 1 }
    }
}

/// A lay of one cloth.
#[derive(Clone, Debug)]
pub struct GarmentLay {
    /// The cloth, as it is sold.
    pub cloth: Cloth,
    /// The sizes in it.
    pub sizes: Vec<SizeId>,
    /// How the cloth lies.
    pub spread: Spread,
    /// From side to side of what is laid: of one ply, washed, without selvages.
    pub width: f64,
    /// How long the lay is.
    pub length: f64,
    /// Area of all copies over the area of the cloth between its selvages.
    pub usage: f64,
    /// The longest piece, along the cloth.
    pub main_length: f64,
    /// Every place, from the beginning of the cloth on.
    pub parts: Vec<LaidPart>,
}

/// One place of a lay.
#[derive(Clone, Debug)]
pub struct LaidPart {
    /// The size.
    pub size: SizeId,
    /// The part.
    pub part: Part,
    /// The side of the body that it is cut for alone.
    pub hand: Option<Hand>,
    /// What is cut there.
    pub plies: Plies,
    /// The pattern lies face down.
    pub mirrored: bool,
    /// Turned anticlockwise from how it is drawn.
    pub degrees: f64,
    /// The cutting line on the cloth: x along it, y across it.
    pub outline: Vec<Point>,
}

impl LaidPart {
    /// The corners of its bounds: the least and the greatest x and y.
    pub fn bounds(&self) -> (Point, Point) {
        let far =
            (Point::new(f64::INFINITY, f64::INFINITY), Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY));
        self.outline.iter().fold(far, |(low, high), point| {
            (
                Point::new(low.x.min(point.x), low.y.min(point.y)),
                Point::new(high.x.max(point.x), high.y.max(point.y)),
            )
        })
    }
}

/// Why a cloth cannot be laid.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LayTrouble {
    /// Nothing is cut from it.
    #[error("nothing is cut from {fabric}")]
    Nothing {
        /// The fabric.
        fabric: String,
    },
    /// It has no width to lay on.
    #[error("{fabric} has no width to lay on: {} less its selvages", amount(*.width, *.unit))]
    NoWidth {
        /// The fabric.
        fabric: String,
        /// Its width.
        width: f64,
        /// The unit to tell it in.
        unit: DisplayUnit,
    },
    /// A piece is wider than the cloth.
    #[error(
        "{part} needs {} across and {fabric} has {} {how}: {} too little; {}",
        amount(*.needed, *.unit), amount(*.width, *.unit), amount(*.needed - *.width, *.unit), listed(ways)
    )]
    TooWide {
        /// The part and its size.
        part: String,
        /// The fabric.
        fabric: String,
        /// How it lies.
        how: &'static str,
        /// What the part needs.
        needed: f64,
        /// What there is.
        width: f64,
        /// The unit to tell it in.
        unit: DisplayUnit,
        /// What would help.
        ways: Vec<WayOut>,
    },
    /// The search cannot be done.
    #[error("{fabric} cannot be laid: {why}")]
    Other {
        /// The fabric.
        fabric: String,
        /// Why.
        why: String,
    },
}

impl LayTrouble {
    /// The same with a program's own words for remedies.
    pub fn worded(self, words: impl Fn(Remedy) -> String) -> Self {
        match self {
            LayTrouble::TooWide { part, fabric, how, needed, width, unit, ways } => {
                let ways = ways.into_iter().map(|way| way.worded(&words)).collect();
                LayTrouble::TooWide { part, fabric, how, needed, width, unit, ways }
            }
            other => other,
        }
    }
}

fn listed(ways: &[WayOut]) -> String {
    let words: Vec<String> = ways.iter().map(ToString::to_string).collect();
    words.join(", or ")
}

/// The fabrics that something is cut from in these sizes, in the order of the garment.
pub fn cloths_of(garment: &Garment, sizes: &[&WorkedSize]) -> Vec<FabricId> {
    let mut fabrics: Vec<FabricId> =
        sizes.iter().flat_map(|size| size.cut(garment).parts.iter().filter_map(|part| part.fabric)).collect();
    fabrics.sort_unstable();
    fabrics.dedup();
    fabrics.retain(|fabric| fabric.index() < garment.fabrics.len());
    fabrics
}

/// Lays everything that these sizes cut from a cloth.
///
/// `progress` hears of every shorter lay.
///
/// # Errors
/// When the cloth cannot hold the pieces, see [`LayTrouble`]. Where the spread is left open, only
/// when neither the folded nor the open cloth can.
pub fn lay_garment(
    garment: &Garment,
    sizes: &[&WorkedSize],
    fabric: FabricId,
    order: LayOrder,
    progress: &mut dyn FnMut(Progress),
) -> Result<GarmentLay, LayTrouble> {
    let name = || garment.fabric(fabric).name.to_string();
    let known = sizes.first().and_then(|size| Cloth::of(garment, &size.drawn, fabric));
    let Some(mut cloth) = known else {
        return Err(LayTrouble::NoWidth { fabric: name(), width: 0.0, unit: garment.unit });
    };
    cloth.width = order.width.unwrap_or(cloth.width);
    match order.spread {
        Some(spread) => laid(garment, sizes, &cloth, spread, order, progress),
        None => {
            // Both are tried, and the better one is searched on.
            let better = match order.allowance {
                Allowance::Work(_) => return either(garment, sizes, &cloth, order),
                Allowance::Until(spent) => {
                    let spent = || spent() / BOTH_UNTIL;
                    let short = LayOrder { allowance: Allowance::Until(&spent), threads: 1, ..order };
                    let (folded, open) = rayon::join(
                        || laid(garment, sizes, &cloth, cloth.folded(), short, &mut |_| {}),
                        || laid(garment, sizes, &cloth, Spread::Open, short, &mut |_| {}),
                    );
                    better_of(folded, open)?
                }
            };
            if matches!(order.allowance, Allowance::Until(spent) if spent() >= 1.0) {
                return Ok(better);
            }
            let longer = laid(garment, sizes, &cloth, better.spread, order, progress)?;
            Ok(if longer.length <= better.length { longer } else { better })
        }
    }
}

/// The shorter of two lays of a cloth, folded and open, if it can be laid so; folded where they are equally long. What is
/// too wide for the open cloth is reported of that.
fn better_of(
    folded: Result<GarmentLay, LayTrouble>,
    open: Result<GarmentLay, LayTrouble>,
) -> Result<GarmentLay, LayTrouble> {
    match (folded, open) {
        (Ok(folded), Ok(open)) if open.length < folded.length => Ok(open),
        (Ok(folded), _) => Ok(folded),
        (Err(_), other) => other,
    }
}

/// The cloth folded or open, whichever takes less of it.
fn either(
    garment: &Garment,
    sizes: &[&WorkedSize],
    cloth: &Cloth,
    order: LayOrder,
) -> Result<GarmentLay, LayTrouble> {
    let asked = |spread| Asked::of(garment, sizes, cloth, spread, order);
    let alone = |asked: Result<Asked, LayTrouble>| asked?.laid(garment, sizes, cloth, &mut |_| {});
    let (folded, open) = match (asked(cloth.folded()), asked(Spread::Open)) {
        (Ok(folded), Ok(open)) => (folded, open),
        (folded, open) => return better_of(alone(folded), alone(open)),
    };
    let join = |one: &mut (dyn FnMut() + Send), other: &mut (dyn FnMut() + Send)| {
        rayon::join(one, other);
    };
    let plans = search_either(&folded.request, &open.request, &join);
    let mut lays = [folded, open].into_iter().zip(plans).filter_map(|(asked, plan)| match plan {
        Ok(plan) => Some(Ok(asked.finding(cloth, sizes, &plan?))),
        Err(error) => Some(Err(trouble(garment, cloth, asked.spread, &asked.owned, &error))),
    });
    match (lays.next(), lays.next()) {
        (Some(folded), Some(open)) => better_of(folded, open),
        (Some(only), _) => only,
        // Of two that are searched at least one is not behind.
        (None, _) => Err(LayTrouble::Nothing { fabric: garment.fabric(cloth.fabric).name.to_string() }),
    }
}

fn laid(
    garment: &Garment,
    sizes: &[&WorkedSize],
    cloth: &Cloth,
    spread: Spread,
    order: LayOrder,
    progress: &mut dyn FnMut(Progress),
) -> Result<GarmentLay, LayTrouble> {
    Asked::of(garment, sizes, cloth, spread, order)?.laid(garment, sizes, cloth, progress)
}

/// What is asked of a search.
struct Asked<'a> {
    spread: Spread,
    owned: Vec<Owned<'a>>,
    request: Request<'a>,
}

impl<'a> Asked<'a> {
    fn of(
        garment: &Garment,
        sizes: &[&'a WorkedSize],
        cloth: &Cloth,
        spread: Spread,
        order: LayOrder<'a>,
    ) -> Result<Self, LayTrouble> {
        let fabric = || garment.fabric(cloth.fabric).name.to_string();
        let width = cloth.usable(spread);
        if width.is_nan() || width <= 0.0 {
            return Err(LayTrouble::NoWidth { fabric: fabric(), width: cloth.width, unit: garment.unit });
        }
        let owned = owned_shapes(garment, sizes, cloth, spread);
        if owned.is_empty() {
            return Err(LayTrouble::Nothing { fabric: fabric() });
        }
        let request = Request {
            items: owned.iter().map(|owned| owned.shape.item.clone()).collect(),
            width,
            minimum_space: order.space,
            allowance: order.allowance,
            seed: order.seed,
            threads: order.threads,
        };
        Ok(Asked { spread, owned, request })
    }

    fn laid(
        &self,
        garment: &Garment,
        sizes: &[&WorkedSize],
        cloth: &Cloth,
        progress: &mut dyn FnMut(Progress),
    ) -> Result<GarmentLay, LayTrouble> {
        let plan = search(&self.request, progress);
        let plan = plan.map_err(|error| trouble(garment, cloth, self.spread, &self.owned, &error))?;
        Ok(self.finding(cloth, sizes, &plan))
    }

    fn finding(&self, cloth: &Cloth, sizes: &[&WorkedSize], plan: &Plan) -> GarmentLay {
        let mut parts: Vec<LaidPart> = Vec::with_capacity(plan.placements.len());
        let mut area = 0.0;
        for placement in &plan.placements {
            let Some(Owned { shape, part }) = self.owned.get(placement.item) else { continue };
            let outline: Vec<Point> =
                placed_outline(&self.request, placement).into_iter().map(Point::from).collect();
            let copies = match shape.plies {
                Plies::Single | Plies::OneOfTwo => 1.0,
                Plies::Both | Plies::OnFold => 2.0,
            };
            area += area_of(&outline) * copies;
            parts.push(LaidPart {
                size: part.size,
                part: part.part,
                hand: part.hand,
                plies: shape.plies,
                mirrored: placement.turn.mirrored,
                degrees: placement.turn.degrees.rem_euclid(360.0),
                outline,
            });
        }
        let begin = |part: &LaidPart| part.bounds().0;
        parts.sort_by(|a, b| {
            let (a, b) = (begin(a), begin(b));
            a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
        });
        let main_length = parts.iter().map(|part| part.bounds().1.x - part.bounds().0.x).fold(0.0, f64::max);
        let plies = if self.spread == Spread::Open { 1.0 } else { 2.0 };
        GarmentLay {
            cloth: *cloth,
            sizes: sizes.iter().map(|size| size.id()).collect(),
            spread: self.spread,
            width: self.request.width,
            length: plan.length,
            usage: area / (plan.length * self.request.width * plies),
            main_length,
            parts,
        }
    }
}

/// A shape, and whose it is.
struct Owned<'a> {
    shape: LayShape,
    part: &'a CutPart,
}

fn owned_shapes<'a>(
    garment: &Garment,
    sizes: &[&'a WorkedSize],
    cloth: &Cloth,
    spread: Spread,
) -> Vec<Owned<'a>> {
    let designed = cloth.repeat.0.is_some() || cloth.repeat.1.is_some();
    let mut all = Vec::new();
    for size in sizes {
        let parts: Vec<&CutPart> =
            size.cut(garment).parts.iter().filter(|part| part.fabric == Some(cloth.fabric)).collect();
        let phases = match designed {
            true => phases(garment, &size.drawn, &size.sewn, &parts),
            false => Vec::new(),
        };
        for (at, part) in parts.into_iter().enumerate() {
            let drawn = size.drawn.paper(part.part.paper);
            let symmetrical = drawn.is_some_and(is_symmetrical) && part.middle.is_none();
            let made = shapes(garment, part, symmetrical, cloth, spread, phases.get(at).copied());
            all.extend(made.into_iter().map(|shape| Owned { shape, part }));
        }
    }
    all
}

/// The area of a closed outline (the shoelace formula).
fn area_of(outline: &[Point]) -> f64 {
    let next = outline.iter().cycle().skip(1);
    let twice: f64 = outline.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum();
    twice.abs() / 2.0
}

fn trouble(
    garment: &Garment,
    cloth: &Cloth,
    spread: Spread,
    owned: &[Owned],
    error: &LayError,
) -> LayTrouble {
    let fabric = garment.fabric(cloth.fabric).name.to_string();
    let (LayError::TooWide { item, needed, .. } | LayError::RepeatAcross { item, width: needed, .. }) = error
    else {
        return LayTrouble::Other { fabric, why: error.to_string() };
    };
    let Some(Owned { part, shape }) = owned.get(*item) else {
        return LayTrouble::Other { fabric, why: error.to_string() };
    };
    if matches!(error, LayError::RepeatAcross { .. }) {
        return LayTrouble::Other { fabric, why: error.to_string() };
    }
    let piece = garment.piece(part.part.piece);
    let size = match garment.names_sizes() {
        true => format!(", {}", garment.size(part.size).name),
        false => String::new(),
    };
    let opened = if shape.plies == Plies::OnFold { 2.0 * needed } else { *needed };
    let mut ways = Vec::new();
    if spread != Spread::Open && cloth.usable(Spread::Open) >= opened {
        ways.push(WayOut::Remedy(Remedy::OpenCloth));
    }
    let along = part_length(shape);
    if spread == Spread::Open && along <= cloth.usable(spread) {
        ways.push(WayOut::Words(format!("write grain across in {}, if the cloth may be turned", piece.name)));
    }
    if ways.is_empty() {
        ways.push(WayOut::Words(format!("give {} a seam", piece.name)));
    }
    // Of folded cloth twice as much, unless it may as well be laid open.
    let least = amount(cloth.width_for(opened), garment.unit);
    ways.push(WayOut::Words(match cloth.tubular {
        true => format!("take a tube that lies flat at least {least} wide"),
        false => format!("take a cloth at least {least} wide"),
    }));
    LayTrouble::TooWide {
        part: format!(
            "{} ({}{size})",
            piece.title,
            garment.part_name(Some(part.part.layer), part.part.piece)
        ),
        fabric,
        how: match spread {
            Spread::Open if cloth.tubular => "when it is slit open",
            Spread::Open => "between its selvages",
            Spread::Lengthwise => "when it is folded",
            Spread::Tube => "as a tube",
        },
        needed: *needed,
        width: cloth.usable(spread),
        unit: garment.unit,
        ways,
    }
}

/// How long the shape is along the cloth, lying its first way.
fn part_length(shape: &LayShape) -> f64 {
    let Some(turn) = shape.item.turns.first() else { return f64::INFINITY };
    let (sine, cosine) = libm::sincos(turn.degrees.to_radians());
    let flip = if turn.mirrored { -1.0 } else { 1.0 };
    let along = shape.item.outline.iter().map(|&(x, y)| flip * x * cosine - y * sine);
    along.clone().fold(f64::NEG_INFINITY, f64::max) - along.fold(f64::INFINITY, f64::min)
}
