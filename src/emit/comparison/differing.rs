//! How what is no single figure differs: a drawing, a place, a list.

use super::NOTHING_MM;
use super::differs::Differs;
use super::words::{is_length, key_words, several};
use crate::emit::number::Figure;
use crate::report::{DisplayUnit, amount};
use serde_json::Value;

/// What of it differs, each with the words for it that follow `what`; nothing where only rounding does.
pub(super) fn differing(what: &str, old: &str, new: &str, unit: DisplayUnit) -> Vec<(String, Differs)> {
    let read = |text: &str| serde_json::from_str::<Value>(text).unwrap_or(Value::Null);
    let mut look = Look { unit, keys: vec![what.to_owned()], found: Vec::new() };
    look.at(what, &read(old), &read(new));
    look.found
}

struct Look {
    unit: DisplayUnit,
    /// The keys that lead to what is looked at.
    keys: Vec<String>,
    found: Vec<(String, Differs)>,
}

impl Look {
    fn at(&mut self, what: &str, old: &Value, new: &Value) {
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
                    let of =
                        |one: &serde_json::Map<String, Value>| one.get(key).cloned().unwrap_or(Value::Null);
                    self.keys.push(key.clone());
                    self.at(format!("{what} {}", key_words(key)).trim_end(), &of(before), &of(after));
                    self.keys.pop();
                }
            }
            (Value::Array(before), Value::Array(after)) if is_place(before) && is_place(after) => {
                let apart = before.iter().zip(after).map(|(a, b)| number(a) - number(b));
                if apart.fold(0.0, f64::hypot) >= NOTHING_MM {
                    let differs = self.said(old, new);
                    self.found.push((what.to_owned(), differs));
                }
            }
            (Value::Array(before), Value::Array(after)) if before.len() == after.len() => {
                for (at, (old, new)) in before.iter().zip(after).enumerate() {
                    let words = match before.len() {
                        1 => what.to_owned(),
                        _ => format!("{what} {}", at + 1),
                    };
                    self.at(&words, old, new);
                }
            }
            (Value::Array(before), Value::Array(after)) => {
                if let (Some(old), Some(new)) = (in_words(before), in_words(after)) {
                    let differs = Differs::Words { old: Some(old), new: Some(new) };
                    return self.found.push((what.to_owned(), differs));
                }
                let count = |many: usize| Some(many.to_string());
                let differs = Differs::Words { old: count(before.len()), new: count(after.len()) };
                // The words end with the one of which there are more or fewer.
                let last = self.keys.last().map(|key| key_words(key)).unwrap_or_default();
                let place = what.strip_suffix(last.as_str()).unwrap_or_default().trim_end();
                self.found
                    .push((format!("{place} how many {}", several(&last)).trim_start().to_owned(), differs));
            }
            (Value::Number(before), Value::Number(after)) => {
                let (old, new) = (before.as_f64().unwrap_or(0.0), after.as_f64().unwrap_or(0.0));
                match self.is_length() {
                    true if (old - new).abs() < NOTHING_MM => {}
                    true => {
                        let differs = Differs::Length { old: Some(Figure(old)), new: Some(Figure(new)) };
                        self.found.push((what.to_owned(), differs));
                    }
                    false => {
                        let words = |one: f64| Some(Figure(one).to_string());
                        self.found
                            .push((what.to_owned(), Differs::Words { old: words(old), new: words(new) }));
                    }
                }
            }
            (Value::String(before), Value::String(after)) if is_path(before) && is_path(after) => {
                let (before, after) = (places(before), places(after));
                let moved = (before.len() == after.len()).then(|| {
                    before.iter().zip(&after).map(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1)).fold(0.0, f64::max)
                });
                if moved.is_none_or(|moved| moved >= NOTHING_MM) {
                    let differs = Differs::Redrawn { redrawn: true, moved: moved.map(Figure) };
                    self.found.push((what.to_owned(), differs));
                }
            }
            _ => {
                let differs = self.said(old, new);
                self.found.push((what.to_owned(), differs));
            }
        }
    }

    fn is_length(&self) -> bool {
        is_length(&self.keys.iter().map(String::as_str).collect::<Vec<_>>())
    }

    fn said(&self, old: &Value, new: &Value) -> Differs {
        Differs::Words { old: self.words(old), new: self.words(new) }
    }

    fn words(&self, value: &Value) -> Option<String> {
        match value {
            Value::Null => None,
            Value::Bool(true) => Some("yes".to_owned()),
            Value::Bool(false) => Some("no".to_owned()),
            Value::String(text) if is_path(text) => Some("a line".to_owned()),
            Value::String(text) => Some(text.clone()),
            Value::Number(one) => {
                let one = one.as_f64().unwrap_or(0.0);
                Some(if self.is_length() { amount(one, self.unit) } else { Figure(one).to_string() })
            }
            Value::Array(all) if is_place(all) => {
                let figures: Vec<String> = all.iter().map(|one| amount(number(one), self.unit)).collect();
                Some(format!("({})", figures.join(", ")))
            }
            Value::Array(all) => Some(all.len().to_string()),
            Value::Object(fields) => {
                let named = ["name", "edge", "kind"].into_iter().find_map(|key| fields.get(key)?.as_str());
                Some(named.unwrap_or("there").to_owned())
            }
        }
    }
}

/// Whether it is the way of a line.
fn is_path(text: &str) -> bool {
    text.strip_prefix('M')
        .is_some_and(|rest| rest.starts_with(|sign: char| sign.is_ascii_digit() || "-.".contains(sign)))
}

/// A list of words, as words.
fn in_words(all: &[Value]) -> Option<String> {
    let words: Option<Vec<&str>> = all.iter().map(Value::as_str).collect();
    words
        .filter(|words| !words.is_empty() && !words.iter().any(|one| is_path(one)))
        .map(|words| words.join(", "))
}

fn is_place(all: &[Value]) -> bool {
    all.len() == 2 && all.iter().all(Value::is_number)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(0.0)
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
