//! A document taken apart into things with facts, each size by size, so that two can be compared.

use super::words::{is_length, key_words};
use crate::report::{DisplayUnit, amount};
use indexmap::IndexMap;
use serde_json::Value;

/// Something that a garment has: a piece, a line of the cut list, a closure …
#[derive(Clone, Debug, Default)]
pub(super) struct Thing {
    /// What people read, where it has a name of its own for that.
    pub label: Option<String>,
    /// By size, then by what is said.
    pub sizes: IndexMap<String, IndexMap<String, Fact>>,
}

/// One thing that is said of it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Fact {
    /// A length, in millimetres.
    Length(f64),
    /// The length of an edge of a piece.
    Edge(f64),
    /// A plain number, or an angle or area.
    Number(f64),
    /// Anything else.
    Words(String),
    /// How it is drawn; told only where no figure tells it.
    Drawing(String),
}

/// Things by section, then by name.
pub(super) type Facts = IndexMap<String, IndexMap<String, Thing>>;

/// Takes a document apart. Lists that this does not know are taken field by field, so that a new
/// one is compared from its first day.
pub(super) fn facts(document: &Value, unit: DisplayUnit) -> Facts {
    let mut facts = Facts::new();
    let sizes: Vec<String> = list(document, "sizes").map(|size| text(size, "size")).collect();
    for key in ["maker", "edition", "licence", "level"] {
        let Some(said) = document.get(key) else { continue };
        for size in &sizes {
            put(&mut facts, "pattern", key, None, size, [("said", plain(said))]);
        }
    }
    for size in list(document, "sizes") {
        let name = text(size, "size");
        let Some(fields) = size.as_object() else { continue };
        for (key, value) in fields {
            match (key.as_str(), value) {
                ("body", Value::Object(rows)) => {
                    for (row, value) in rows {
                        put(&mut facts, "body", row, None, &name, [("girth or length", length(value))]);
                    }
                }
                ("measures", Value::Object(rows)) => {
                    for (row, measure) in rows {
                        let label = measure.get("title").and_then(Value::as_str);
                        let is_length = measure.get("kind").and_then(Value::as_str) == Some("length");
                        let value = measure.get("value").unwrap_or(&Value::Null);
                        let fact = if is_length { length(value) } else { plain(value) };
                        put(&mut facts, "measures", row, label, &name, [("value", fact)]);
                    }
                }
                ("materials", Value::Object(_)) => materials(&mut facts, &name, value),
                // Rims follow from the pieces.
                ("lays" | "rims", _) => {}
                ("pieces", _) => list(size, key).for_each(|one| piece(&mut facts, &name, one)),
                (_, Value::Array(_)) => {
                    list(size, key).for_each(|one| other(&mut facts, (key, &name), one, unit))
                }
                _ => {}
            }
        }
    }
    facts
}

/// Cloth, thread and cost; notions are a list of their own.
fn materials(facts: &mut Facts, size: &str, needs: &Value) {
    for cloth in list(needs, "cloths") {
        let label = cloth.get("label").and_then(Value::as_str);
        let bought = cloth.get("buy").and_then(|buy| buy.get("to_buy"));
        let said = match bought {
            Some(bought) => ("to buy", length(bought)),
            None => ("too narrow", Fact::Words(text(cloth, "trouble"))),
        };
        put(facts, "cloth", &text(cloth, "fabric"), label, size, [said]);
    }
    for thread in list(needs, "thread") {
        let stitch = thread.get("stitch").map_or_else(String::new, Value::to_string);
        let said = thread.get("thread").or_else(|| thread.get("sewn")).unwrap_or(&Value::Null);
        put(facts, "thread", &format!("stitch {stitch}"), None, size, [("thread", length(said))]);
    }
    for cost in list(needs, "total") {
        let currency = text(cost, "currency");
        let name = if currency.is_empty() { "together" } else { &currency };
        put(facts, "cost", name, None, size, [("sum", plain(cost.get("amount").unwrap_or(&Value::Null)))]);
    }
}

fn piece(facts: &mut Facts, size: &str, piece: &Value) {
    let mut said: Vec<(String, Fact)> = Vec::new();
    for edge in list(piece, "edges") {
        let (name, of) = (text(edge, "name"), |key: &str| edge.get(key));
        let long = of("length").unwrap_or(&Value::Null);
        said.push((name.clone(), long.as_f64().map_or_else(|| drawing(long), Fact::Edge)));
        said.extend(of("allowance").map(|wide| (format!("{name} allowance"), length(wide))));
        said.extend(of("label").map(|label| (format!("{name} text"), plain(label))));
        said.extend(of("fates").map(|_| (format!("{name} becomes"), Fact::Words(fates(edge)))));
    }
    for dart in list(piece, "take_ups") {
        let of = |key: &str| dart.get(key).unwrap_or(&Value::Null);
        let [one, other] = [0, 1].map(|at| of("legs").get(at).cloned().unwrap_or(Value::Null));
        // A row of pleats has one name.
        let name = match of("fold").as_u64() {
            None => text(dart, "name"),
            Some(fold) => format!("{} fold {fold} on {}", text(dart, "name"), text(dart, "edge")),
        };
        if of("depth") != &Value::Null {
            said.push((format!("{name} depth"), length(of("depth"))));
        }
        said.push((format!("{name} width"), length(of("width"))));
        said.push((format!("{name} one leg"), length(&one)));
        said.push((format!("{name} the other leg"), length(&other)));
        let laid = match of("pressed_to").as_u64() {
            None => "cut open",
            Some(0) => "pressed toward its first side",
            Some(_) => "pressed toward its second side",
        };
        said.push((format!("{name} laid"), Fact::Words(laid.to_owned())));
        said.push((format!("{name} place"), drawing(of("sides"))));
    }
    for slit in list(piece, "slits") {
        let name = text(slit, "name");
        let of = |key: &str| slit.get(key).unwrap_or(&Value::Null);
        said.push((format!("{name} window"), length(of("window"))));
        said.push((format!("{name} place"), drawing(of("sides"))));
        said.push((format!("{name} end"), drawing(of("ends"))));
    }
    for (key, words) in [("width", "finished width"), ("height", "finished height")] {
        let extent = piece.get("finished").and_then(|finished| finished.get(key));
        said.push((words.to_owned(), length(extent.unwrap_or(&Value::Null))));
    }
    for (key, value) in piece.as_object().into_iter().flatten() {
        match (key.as_str(), value) {
            // How large it is cut is told of its line of the cut list.
            ("part" | "side" | "label" | "edges" | "finished" | "cut" | "take_ups" | "slits", _) => {}
            ("stitching_line" | "cutting_line", _) => said.push((key_words(key), drawing(value))),
            ("marks" | "lines" | "labels", Value::Object(all)) => {
                let kind = if key == "labels" { "text of" } else { key.trim_end_matches('s') };
                said.extend(all.iter().map(|(name, value)| (format!("{kind} {name}"), drawing(value))));
            }
            ("grain", _) => {
                said.push(("grain angle".to_owned(), plain(value.get("angle").unwrap_or(&Value::Null))));
            }
            (_, Value::Array(_) | Value::Object(_)) => said.push((key_words(key), drawing(value))),
            _ => said.push((key_words(key), plain(value))),
        }
    }
    let label = piece.get("label").and_then(Value::as_str);
    let side = piece.get("side").and_then(Value::as_str);
    let name = side.map_or_else(|| text(piece, "part"), |side| format!("{} {side}", text(piece, "part")));
    put(facts, "pieces", &name, label, size, said);
}

/// What becomes of an edge: "seam side", "finish, depth 3".
fn fates(edge: &Value) -> String {
    let words = |fate: &Value| match text(fate, "name") {
        name if name.is_empty() => text(fate, "by"),
        name => format!("{} {name}", text(fate, "by")),
    };
    list(edge, "fates").map(words).collect::<Vec<_>>().join(", ")
}

/// A thing of a list, by the fields that name it.
fn other(facts: &mut Facts, (section, size): (&str, &str), thing: &Value, unit: DisplayUnit) {
    let Some(fields) = thing.as_object() else { return };
    let naming: &[&str] = match section {
        "cut_list" => &["layer", "piece", "side"],
        "alterations" => &["what", "to", "at"],
        _ => &["name", "title", "side"],
    };
    let words = |value: &Value| match value {
        Value::String(text) => text.clone(),
        Value::Array(all) => {
            all.iter().map(|one| one.as_str().unwrap_or("").to_owned()).collect::<Vec<_>>().join(", ")
        }
        other => other.to_string(),
    };
    let mut named: Vec<String> = naming.iter().filter_map(|key| fields.get(*key)).map(words).collect();
    // A list that has no names is known by its first words.
    if named.is_empty() {
        named.extend(fields.values().find(|value| value.is_string()).map(words));
    }
    let mut name = named.join(if section == "cut_list" { "." } else { " " });
    // A seam is there once for all the layers that it is sewn in together.
    if let Some(layers) = fields.get("layers").filter(|_| section == "seams").map(words) {
        name = format!("{name} in {layers}");
    }
    let mut said: Vec<(String, Fact)> = Vec::new();
    let is_said = |key: &str| !naming.contains(&key) && key != "label" && key != "id";
    for (key, value) in fields.iter().filter(|(key, _)| is_said(key)) {
        match (key.as_str(), value) {
            ("ends", Value::Number(_)) => said.push(("hanging out at each end".to_owned(), length(value))),
            (_, Value::Number(_)) if is_length(&[key]) => said.push((key_words(key), length(value))),
            ("made", Value::Object(_)) => said.push((key_words(key), Fact::Words(made(value, unit)))),
            ("cut", Value::Object(extent)) => {
                said.extend(extent.iter().map(|(side, mm)| (format!("cut {side}"), length(mm))));
            }
            ("sides", Value::Array(sides)) if section == "seams" => {
                for (side, word) in sides.iter().zip(["first side", "second side"]) {
                    said.push((word.to_owned(), length(side.get("length").unwrap_or(&Value::Null))));
                }
                said.push((key_words(key), drawing(value)));
            }
            ("layers", _) if section == "seams" => {}
            ("to" | "through" | "holds" | "along" | "layers" | "topstitched", Value::Array(_)) => {
                said.push((key_words(key), Fact::Words(words(value))));
            }
            (_, Value::Array(_) | Value::Object(_)) => said.push((key_words(key), drawing(value))),
            _ => said.push((key_words(key), plain(value))),
        }
    }
    let label = thing.get("label").and_then(Value::as_str);
    put(facts, &section.replace('_', " "), &name, label, size, said);
}

/// How a seam is made: "felled, 7 mm wide, the second side over".
fn made(work: &Value, unit: DisplayUnit) -> String {
    let wide = work.get("width").and_then(Value::as_f64);
    let wide = wide.map_or_else(String::new, |width| format!(", {} wide", amount(width, unit)));
    let over = match text(work, "over") {
        side if side.is_empty() => side,
        side => format!(", the {side} side over"),
    };
    format!("{}{wide}{over}", text(work, "kind").replace('_', " "))
}

fn put(
    facts: &mut Facts,
    section: &str,
    name: &str,
    label: Option<&str>,
    size: &str,
    said: impl IntoIterator<Item = (impl Into<String>, Fact)>,
) {
    let thing = facts.entry(section.to_owned()).or_default().entry(name.to_owned()).or_default();
    thing.label = label.map(str::to_owned);
    let of_size = thing.sizes.entry(size.to_owned()).or_default();
    of_size.extend(said.into_iter().map(|(what, fact)| (what.into(), fact)));
}

fn list<'a>(value: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> {
    value.get(key).and_then(Value::as_array).into_iter().flatten()
}

fn text(value: &Value, key: &str) -> String {
    value.get(key).and_then(Value::as_str).unwrap_or("").to_owned()
}

fn length(value: &Value) -> Fact {
    value.as_f64().map_or_else(|| drawing(value), Fact::Length)
}

fn plain(value: &Value) -> Fact {
    match value {
        Value::Number(number) => Fact::Number(number.as_f64().unwrap_or(0.0)),
        Value::String(text) => Fact::Words(text.clone()),
        Value::Bool(true) => Fact::Words("yes".to_owned()),
        Value::Bool(false) => Fact::Words("no".to_owned()),
        other => drawing(other),
    }
}

fn drawing(value: &Value) -> Fact {
    Fact::Drawing(value.to_string())
}
