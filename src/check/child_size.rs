//! `wearer/child-size`: a garment for grown-ups in the measures of a child, for which no caution is then given.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, Garment, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, amount, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::WEARER_CHILD_SIZE], run: Run::OverSizes(run) };

/// Measures by name, and less than what any size for grown-ups has of them, in millimetres: a child of seven has as
/// much (common size tables: stature 122 cm, chest 62 cm, hip 67 cm).
const CHILDS: [(&[&str], f64); 3] =
    [(&["height", "stature"], 1225.0), (&["chest", "bust"], 625.0), (&["hip", "hips", "seat"], 675.0)];

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    if let Some(ages) = garment.wearer.ages {
        diagnostics.extend(of_another_age(garment, sizes, ages));
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

/// What children measure at an age.
struct Growing {
    /// What it is called.
    names: &'static [&'static str],
    /// At an age in years, in millimetres (common size tables: one size every 6 cm of height).
    at: &'static [(f64, f64)],
    /// So much more or less than most some have, in millimetres.
    more: f64,
    /// How that is said.
    words: [&'static str; 2],
}

const GROWING: [Growing; 2] = [
    Growing {
        names: &["height", "stature"],
        at: &[
            (0.0, 500.0),
            (0.5, 680.0),
            (1.0, 770.0),
            (2.0, 890.0),
            (4.0, 1030.0),
            (6.0, 1160.0),
            (9.0, 1340.0),
            (12.0, 1510.0),
            (OLDEST, 1680.0),
        ],
        more: 170.0,
        words: ["tall", "small"],
    },
    Growing {
        names: &["chest", "bust", "hip", "hips", "seat"],
        at: &[
            (0.0, 380.0),
            (1.0, 480.0),
            (2.0, 520.0),
            (4.0, 560.0),
            (6.0, 610.0),
            (9.0, 690.0),
            (12.0, 790.0),
            (OLDEST, 900.0),
        ],
        more: 250.0,
        words: ["stout", "slight"],
    },
];
/// From this age on, in years, people are of all sizes.
const OLDEST: f64 = 15.0;

impl Growing {
    fn at(&self, age: f64) -> f64 {
        let between = self.at.windows(2).find_map(|pair| match pair {
            &[(from, low), (to, high)] if age <= to => {
                Some(low + (high - low) * ((age - from) / (to - from)).clamp(0.0, 1.0))
            }
            _ => None,
        });
        between.or(self.at.last().map(|(_, most)| *most)).unwrap_or(0.0)
    }
}

/// Sizes of children of quite another age than is said: months written for years.
fn of_another_age(garment: &Garment, sizes: &[WorkedSize], (from, to): (f64, f64)) -> Option<Diagnostic> {
    GROWING.iter().find_map(|growing| {
        let is_it = |value: &Value| {
            value.dimension == Dimension::Length
                && matches!(value.kind, ValueKind::Body(_))
                && growing.names.contains(&&*value.name)
        };
        let (id, value) = ValueId::enumerate(&garment.values).find(|(_, value)| is_it(value))?;
        let all: Option<Vec<f64>> = sizes.iter().map(|size| size.drawn.scalar(id)).collect();
        let all = all?;
        let least = all.iter().copied().fold(f64::INFINITY, f64::min);
        let most = all.iter().copied().fold(0.0, f64::max);
        let (which, is, how) = if least > growing.at(to) + growing.more && to <= OLDEST {
            ("smallest", least, growing.words[0])
        } else if most < growing.at(from) - growing.more && most > 0.0 {
            ("largest", most, growing.words[1])
        } else {
            return None;
        };
        let shown = amount(is, garment.unit);
        let title =
            format!("the {which} size is for a {} of {shown}: no child of that age is so {how}", value.name);
        let warning = Diagnostic::new(&catalogue::WEARER_CHILD_SIZE, garment.wearer.span, title);
        Some(warning.label("how old they are").also(value.span, shown).help(
            "look at the ages, which may be months or years, and at the figures: what is hazardous to children, and what is told \
             of it, goes by their age",
        ))
    })
}
