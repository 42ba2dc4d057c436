//! What is called otherwise now and is the same is compared under its new name.

use crate::garment::with_name;
use serde_json::Value;

/// What people wrote for people: no names stand in it.
const TEXTS: &[&str] = &["label", "title", "note", "notes", "about", "garment", "maker", "licence"];

/// Calls something by another name wherever it is named.
pub(super) fn call(value: &mut Value, old: &str, new: &str) {
    match value {
        Value::String(text) => *text = with_name(text, old, new),
        Value::Array(all) => all.iter_mut().for_each(|one| call(one, old, new)),
        Value::Object(fields) => {
            let named = std::mem::take(fields).into_iter().map(|(key, mut value)| {
                if !TEXTS.contains(&key.as_str()) {
                    call(&mut value, old, new);
                }
                (with_name(&key, old, new), value)
            });
            *fields = named.collect();
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}
