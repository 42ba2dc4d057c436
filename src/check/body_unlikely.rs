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
    (&["head"], 280.0, 680.0),
    (&["wrist", "ankle"], 70.0, 600.0),
    (&["hand", "palm"], 80.0, 400.0),
    (&["foot", "heel"], 80.0, 600.0),
    (&["thigh", "knee", "calf", "upper_arm", "elbow"], 90.0, 1400.0),
    (&["arm", "sleeve"], 120.0, 1100.0),
    (&["leg", "inside_leg", "inleg", "inseam", "outleg", "outside_leg"], 120.0, 1500.0),
    (&["height", "stature"], 400.0, 2600.0),
    (&["back_waist", "front_waist", "torso", "rise", "crotch"], 60.0, 1300.0),
];

/// Two girths by name, and the least and the most that the first is of the second on any body, as shares (common proportions, taken
/// wide: of a figure whose digits are exchanged the share is far off).
const SHARES: [(&[&str], &[&str], f64, f64); 4] = [
    (&["waist"], &["chest", "bust"], 0.5, 1.7),
    (&["hip", "hips", "seat"], &["chest", "bust"], 0.55, 1.8),
    (&["hip", "hips", "seat"], &["waist"], 0.77, 2.1),
    (&["neck"], &["chest", "bust"], 0.25, 0.65),
];

/// A child has hardly a waist: until this age, in years, it is no less of the chest than this share (common size tables: 0.95 at
/// four, 0.85 at eleven).
const CHILD: (f64, f64) = (11.0, 0.65);

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    findings.extend(SHARES.iter().filter_map(|share| beside_another(garment, size, share)).take(1));
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

/// A girth that does not go with another one.
fn beside_another(
    garment: &Garment,
    size: &WorkedSize,
    &(names, others, least, most): &(&[&str], &[&str], f64, f64),
) -> Option<Finding> {
    let girth = |wanted: &[&str]| {
        let mut all = ValueId::enumerate(&garment.values);
        let (id, value) = all.find(|(_, value)| {
            let is_length = value.dimension == Dimension::Length && matches!(value.kind, ValueKind::Body(_));
            is_length && wanted.contains(&&*value.name)
        })?;
        let is = size.drawn.scalar(id)?;
        // What no body has at all is told as that.
        let (_, low, high) = BOUNDS.iter().find(|(names, ..)| names.contains(&&*value.name))?;
        (*low..=*high).contains(&is).then_some((value, is))
    };
    let ((one, is), (other, beside)) = (girth(names)?, girth(others)?);
    let share = is / beside;
    let is_child = garment.wearer.ages.is_some_and(|(_, oldest)| oldest <= CHILD.0);
    let least = if is_child && names.contains(&"waist") { least.max(CHILD.1) } else { least };
    if (least..=most).contains(&share) {
        return None;
    }
    let [shown, against] = [is, beside].map(|mm| amount(mm, garment.unit));
    let title = Title::new(format!(
        "the {} is {shown} where the {} is {against}, as no {} has both",
        one.name,
        other.name,
        if is_child { "child" } else { "body" }
    ));
    let advice = Diagnostic::new(&catalogue::BODY_UNLIKELY, one.span, title.in_sizes())
        .label(shown.clone())
        .also(other.span, against)
        .help("look at the figures of both rows: digits may be exchanged; if it is made for something else than a person, nothing needs to change");
    Some(Finding::new(size.id(), (share - 1.0).abs(), advice).about(&*one.name).figure(&one.name, shown))
}
