//! How what is no single figure differs: a drawing, a place, a list.

use super::differs::Differs;
use super::number::Figure;
use serde_json::Value;

/// Lengths and places that differ by less have not changed, mm.
const NOTHING_MM: f64 = 0.05;

/// What of it differs, each with the words for it that follow `what`; nothing where only rounding does.
pub(super) fn differing(what: &str, old: &str, new: &str) -> Vec<(String, Differs)> {
    let read = |text: &str| serde_json::from_str::<Value>(text).unwrap_or(Value::Null);
    let mut found = Vec::new();
    look(what, &read(old), &read(new), &mut found);
    found
}

fn look(what: &str, old: &Value, new: &Value, found: &mut Vec<(String, Differs)>) {
    if old == new {
        return;
    }
    match (old, new) {
        (Value::Object(before), Value::Object(after)) => {
            let keys = before.keys().chain(after.keys().filter(|key| !before.contains_key(*key)));
            // What a length is made of says no more than that.
            let is_told = before.get("length") != after.get("length");
            let keys = keys.filter(|key| !(is_told && before.get(*key).is_some_and(Value::is_array)));
            for key in keys {
                let of = |one: &serde_json::Map<String, Value>| one.get(key).cloned().unwrap_or(Value::Null);
                look(&format!("{what} {}", key.replace('_', " ")), &of(before), &of(after), found);
            }
        }
        (Value::Array(before), Value::Array(after)) if is_place(before) && is_place(after) => {
            let apart = before.iter().zip(after).map(|(a, b)| number(a) - number(b));
            if apart.fold(0.0, f64::hypot) >= NOTHING_MM {
                found.push((what.to_owned(), said(old, new)));
            }
        }
        (Value::Array(before), Value::Array(after)) if before.len() == after.len() => {
            for (at, (old, new)) in before.iter().zip(after).enumerate() {
                let words = match before.len() {
                    1 => what.to_owned(),
                    _ => format!("{what} {}", at + 1),
                };
                look(&words, old, new, found);
            }
        }
        (Value::Array(before), Value::Array(after)) => {
            let count = |many: usize| Some(many.to_string());
            found.push((
                what.to_owned(),
                Differs::Words { old: count(before.len()), new: count(after.len()) },
            ));
        }
        (Value::Number(before), Value::Number(after)) => {
            let (old, new) = (before.as_f64().unwrap_or(0.0), after.as_f64().unwrap_or(0.0));
            match is_length(what) {
                true if (old - new).abs() < NOTHING_MM => {}
                true => found.push((what.to_owned(), Differs::Length { old: Figure(old), new: Figure(new) })),
                false => {
                    let words = |one: f64| Some(Figure(one).to_string());
                    found.push((what.to_owned(), Differs::Words { old: words(old), new: words(new) }));
                }
            }
        }
        (Value::String(before), Value::String(after))
            if before.starts_with('M') && after.starts_with('M') =>
        {
            let (before, after) = (places(before), places(after));
            let moved = (before.len() == after.len()).then(|| {
                before.iter().zip(&after).map(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1)).fold(0.0, f64::max)
            });
            if moved.is_none_or(|moved| moved >= NOTHING_MM) {
                found.push((what.to_owned(), Differs::Redrawn { redrawn: true, moved: moved.map(Figure) }));
            }
        }
        _ => found.push((what.to_owned(), said(old, new))),
    }
}

fn said(old: &Value, new: &Value) -> Differs {
    Differs::Words { old: words(old), new: words(new) }
}

fn words(value: &Value) -> Option<String> {
    match value {
        Value::Null => None,
        Value::Bool(true) => Some("yes".to_owned()),
        Value::Bool(false) => Some("no".to_owned()),
        Value::String(text) if text.starts_with('M') => Some("a line".to_owned()),
        Value::String(text) => Some(text.clone()),
        Value::Number(one) => Some(Figure(one.as_f64().unwrap_or(0.0)).to_string()),
        Value::Array(all) if is_place(all) => {
            let figures: Vec<String> = all.iter().map(|one| Figure(number(one)).to_string()).collect();
            Some(format!("({}) mm", figures.join(", ")))
        }
        Value::Array(all) => Some(all.len().to_string()),
        Value::Object(fields) => {
            let named = ["name", "edge", "kind"].into_iter().find_map(|key| fields.get(key)?.as_str());
            Some(named.unwrap_or("there").to_owned())
        }
    }
}

fn is_place(all: &[Value]) -> bool {
    all.len() == 2 && all.iter().all(Value::is_number)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(0.0)
}

/// Whether the last word tells that a figure is a length.
fn is_length(what: &str) -> bool {
    let last = what.rsplit(' ').next().unwrap_or_default();
    matches!(
        last,
        "width" | "height" | "length" | "stretched" | "opens" | "needs" | "allowance" | "depth" | "x" | "y"
    )
}

/// The nodes and handles of a drawn line, in millimetres.
fn places(path: &str) -> Vec<(f64, f64)> {
    let figures: Vec<f64> = path
        .split(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | '-' | '+')))
        .filter_map(|word| word.parse().ok())
        .collect();
    let pairs = figures.chunks_exact(2);
    pairs.map(|pair| (pair.first().copied().unwrap_or(0.0), pair.last().copied().unwrap_or(0.0))).collect()
}
