//! `wearer/child-size`: a garment for grown-ups in the measures of a child, for which no caution is then given.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Garment, ValueId, ValueKind};
use crate::report::{Diagnostic, amount, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::WEARER_CHILD_SIZE], run: Run::OverSizes(run) };

/// Measures by name, and less than what any size for grown-ups has of them, in millimetres: a child of seven has as
/// much (common size tables: stature 122 cm, chest 62 cm, hip 67 cm).
const CHILDS: [(&[&str], f64); 3] =
    [(&["height", "stature"], 1225.0), (&["chest", "bust"], 625.0), (&["hip", "hips", "seat"], 675.0)];

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    if garment.wearer.ages.is_some() {
        return;
    }
    let is_said = garment.wearer.span != garment.heading && !garment.wearer.span.is_empty();
    for (id, value) in ValueId::enumerate(&garment.values) {
        let is_length = value.dimension == Dimension::Length && matches!(value.kind, ValueKind::Body(_));
        let named = CHILDS.iter().find(|(names, _)| is_length && names.contains(&&*value.name));
        let Some(&(names, most)) = named else { continue };
        // Where nothing is said of who wears it, girths may be those of a doll or of a bottle.
        if !is_said && !names.contains(&"stature") {
            continue;
        }
        let all: Option<Vec<f64>> = sizes.iter().map(|size| size.drawn.scalar(id)).collect();
        let Some(largest) = all.and_then(|all| all.into_iter().max_by(f64::total_cmp)) else { continue };
        // What no body has at all is told as that.
        if largest >= most || largest < most / 3.0 {
            continue;
        }
        let name = words::listed(&[value.name.replace('_', " ")]);
        let is = amount(largest, garment.unit);
        let (place, title) = match is_said {
            true => {
                (garment.wearer.span, format!("it is said to be for grown-ups, and its {name} is a child's"))
            }
            false => (value.span, format!("its {name} is a child's, and nothing says that a child wears it")),
        };
        let warning = Diagnostic::new(&catalogue::WEARER_CHILD_SIZE, place, title);
        let warning = match is_said {
            true => warning.label("for grown-ups").also(value.span, format!("{is} at the most")),
            false => warning.label(format!("{is} at the most")),
        };
        diagnostics.push(warning.help(
            "say how old they are: wearer child from 2 to 7 years; what is hazardous to children is told only then; \
             if it is made for something else than a person, nothing needs to change",
        ));
        return;
    }
}
