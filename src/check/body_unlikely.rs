//! `body/unlikely`: figures of a body that no body has, which are slips of the unit or of the decimal point.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Garment, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BODY_UNLIKELY], run: Run::PerSize(run) };

/// Measures by name, and the least and the most that any body has of them, in millimetres: from less than a newborn
/// child's to more than size tables reach (common bounds, taken wide).
const BOUNDS: [(&[&str], f64, f64); 12] = [
    (&["chest", "bust", "underbust", "waist", "belly", "stomach"], 250.0, 2500.0),
    (&["hip", "hips", "seat"], 250.0, 2600.0),
    (&["neck"], 150.0, 800.0),
    (&["head"], 280.0, 750.0),
    (&["wrist", "ankle"], 70.0, 600.0),
    (&["hand", "palm"], 80.0, 400.0),
    (&["foot", "heel"], 80.0, 600.0),
    (&["thigh", "knee", "calf", "upper_arm", "elbow"], 90.0, 1400.0),
    (&["arm", "sleeve"], 120.0, 1100.0),
    (&["leg", "inside_leg", "inleg", "inseam", "outleg", "outside_leg"], 120.0, 1500.0),
    (&["height", "stature"], 400.0, 2600.0),
    (&["back_waist", "front_waist", "torso", "rise", "crotch"], 60.0, 1300.0),
];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, value) in ValueId::enumerate(&garment.values) {
        let is_length = value.dimension == Dimension::Length && matches!(value.kind, ValueKind::Body(_));
        let Some(&(_, least, most)) =
            BOUNDS.iter().find(|(names, ..)| is_length && names.contains(&&*value.name))
        else {
            continue;
        };
        // Less than nothing is reported as that.
        let is_odd = |is: &f64| *is >= 0.0 && !(least..=most).contains(is);
        let Some(is) = size.drawn.scalar(id).filter(is_odd) else { continue };
        let shown = |mm: f64| amount(mm, garment.unit);
        let name = words::listed(&[value.name.replace('_', " ")]);
        let title = Title::new(format!("the {name} is {}, as no body has it", shown(is))).in_sizes();
        let advice = Diagnostic::new(&catalogue::BODY_UNLIKELY, value.span, title)
            .label(format!("{} to {} is what bodies have, from child to grown-up", shown(least), shown(most)))
            .help(
                "look at its unit and its decimal point: a bare number takes the units that the file says; if it is \
                 made for something else than a person, nothing needs to change",
            );
        let off = if is < least { least - is } else { is - most };
        findings
            .push(Finding::new(size.id(), off, advice).about(&*value.name).figure(&value.name, shown(is)));
    }
}
