//! `alter/nothing`, `size/alike` and `cloth/odd`: figures that are no slip of the language, and that nobody means.
//!
//! An alteration by nothing in every size; sizes that are picked by a measure in which they do not differ; cloth as
//! thick as a mattress, or that stretches to many times itself.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{AlterationId, Amount, Expression, Garment};
use crate::limits;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, percent};
use crate::sewing::amount_of;
use crate::syntax::tree::ClothKind;

pub(super) static OVER_SIZES: Check =
    Check { kinds: &[&catalogue::ALTER_NOTHING, &catalogue::SIZE_ALIKE], run: Run::OverSizes(over_sizes) };
pub(super) static CLOTH: Check = Check { kinds: &[&catalogue::CLOTH_ODD], run: Run::PerSize(cloth) };

/// Less than this, in millimetres, is nothing.
const NOTHING: f64 = 0.1;
/// No cloth for clothes is thicker, in millimetres: a boiled wool has 5, a pile 15.
const THICK: f64 = 20.0;
/// No cloth is wider, in millimetres: sheeting has 3.2 m.
const WIDE: f64 = 6000.0;
/// None stretches by more than this share of itself: the best of swimwear by 2.
const STRETCHES: f64 = 2.5;

/// No woven cloth does by more than this.
const WOVEN_STRETCHES: f64 = 0.5;

/// None shrinks by more than this share of itself, and can still be cut to a size: crêpe and loose wool come to a tenth or
/// a little more (common practice); cloth that is fulled is fulled before it is cut.
const SHRINKS: f64 = 0.15;

fn over_sizes(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    for (id, alteration) in AlterationId::enumerate(&garment.alterations) {
        let is_said = matches!(alteration.amount, Some(Amount::By(_))) && alteration.tapered.is_none();
        let by = |size: &WorkedSize| size.drawn.amounts.get(id.index()).copied().flatten();
        let is_nothing = sizes.iter().all(|size| by(size).is_some_and(|by| by.abs() < NOTHING));
        if !is_said || !is_nothing || sizes.is_empty() {
            continue;
        }
        let form = alteration.form().map_or("altered", |form| form.participle);
        let title = format!("this is {form} by nothing");
        diagnostics.push(
            Diagnostic::new(&catalogue::ALTER_NOTHING, alteration.span, title)
                .label("changes nothing")
                .help("write how much it is, or take the line out"),
        );
    }
    let names = words::size_names(garment);
    for (at, two) in sizes.windows(2).enumerate() {
        let [one, other] = two else { continue };
        let known =
            garment.pick.iter().map(|&value| Some((one.drawn.scalar(value)?, other.drawn.scalar(value)?)));
        let Some(known) = known.collect::<Option<Vec<(f64, f64)>>>() else { return };
        if known.is_empty() || known.iter().any(|(one, other)| (one - other).abs() >= NOTHING) {
            continue;
        }
        let (Some(first), Some(second), Some(&value)) =
            (names.get(at), names.get(at + 1), garment.pick.first())
        else {
            continue;
        };
        let row = garment.value(value);
        let measures: Vec<String> =
            garment.pick.iter().map(|&value| garment.value(value).name.replace('_', " ")).collect();
        let title = format!(
            "sizes {first} and {second} have the same {}, and are picked by it",
            words::listed(&measures)
        );
        diagnostics.push(
            Diagnostic::new(&catalogue::SIZE_ALIKE, row.span, title)
                .label(format!("the same in {first} and {second}"))
                .help(
                    "look for a slip in its row; or pick the size by a measure that differs: pick size by …",
                ),
        );
        return;
    }
}

fn leaves_some(garment: &Garment, size: &WorkedSize, said: &Expression) -> bool {
    amount_of(garment, &size.drawn, said).is_some_and(|shrinks| shrinks <= limits::SHRINKS)
}

fn cloth(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let unit = garment.unit;
    for fabric in &garment.fabrics {
        let mut look = |said: Option<&Expression>, most: f64, what: &dyn Fn(f64) -> String| {
            let Some(said) = said else { return };
            let Some(is) = amount_of(garment, &size.drawn, said).filter(|is| *is > most) else { return };
            let title = Title::new(format!("{} is said to {}", fabric.name, what(is))).in_sizes();
            let warning = Diagnostic::new(&catalogue::CLOTH_ODD, said.span, title)
                .label("no cloth does")
                .help("look at its figure and its unit: mm of thickness, a share with its sign of stretch and shrinkage");
            findings.push(Finding::new(size.id(), is, warning).about(&*fabric.name));
        };
        look(fabric.thickness.as_ref(), THICK, &|is| format!("be {} thick", amount(is, unit)));
        look(fabric.width.as_ref(), WIDE, &|is| format!("be {} wide", amount(is, unit)));
        for (way, said) in [("across", &fabric.stretch.across), ("along", &fabric.stretch.along)] {
            look(said.as_ref(), STRETCHES, &|is| format!("stretch by {} {way}", percent(is)));
        }
        // Wovens with elastane stretch by a fifth to two fifths (common practice).
        if matches!(fabric.kind, Some(ClothKind::WovenFirm | ClothKind::WovenSupple)) {
            for (way, said) in [("across", &fabric.stretch.across), ("along", &fabric.stretch.along)] {
                look(said.as_ref(), WOVEN_STRETCHES, &|is| {
                    format!("be woven and stretch by {} {way}", percent(is))
                });
            }
        }
        for (way, said) in [("across", &fabric.shrink.across), ("along", &fabric.shrink.along)] {
            // What leaves nothing of it is a mistake, and told as that.
            look(said.as_ref().filter(|said| leaves_some(garment, size, said)), SHRINKS, &|is| {
                format!("shrink by {} {way}", percent(is))
            });
        }
    }
}
