//! A piece that is cut on the fold in one garment and not in the other: a half is compared with a half, and a whole
//! with a whole.

use serde_json::Value;

/// Makes both documents say the same of such pieces: of two halves each half's size, of a half and a whole the whole
/// length of the edges that run on across the fold.
pub(super) fn made_comparable(old: &mut Value, new: &mut Value) {
    let Some(sizes) = old.get_mut("sizes").and_then(Value::as_array_mut) else { return };
    for size in sizes {
        let name = size.get("size").cloned();
        let others = new.get_mut("sizes").and_then(Value::as_array_mut).into_iter().flatten();
        let Some(other) = others.into_iter().find(|other| other.get("size") == name.as_ref()) else {
            continue;
        };
        one_way(size, other);
        one_way(other, size);
    }
}

/// What is on the fold in `folded` and not in `other`.
fn one_way(folded: &mut Value, other: &Value) {
    let part_of = |piece: &Value| piece.get("part").cloned();
    let mut halved: Vec<(Value, bool)> = Vec::new();
    let Some(pieces) = folded.get_mut("pieces").and_then(Value::as_array_mut) else { return };
    for piece in pieces {
        let Some(fold) = piece.get("fold").and_then(Value::as_str).map(str::to_owned) else { continue };
        let Some(part) = part_of(piece) else { continue };
        let Some(same) = list(other, "pieces").find(|one| one.get("part") == Some(&part)) else { continue };
        if same.get("fold").is_some() {
            continue;
        }
        let is_half = list(same, "edges").any(|edge| edge.get("name").and_then(Value::as_str) == Some(&fold));
        match (is_half, across(piece, &fold)) {
            (true, Some(is_width)) => {
                halve(piece.get_mut("finished"), is_width);
                halve(piece.get_mut("cut"), is_width);
                halved.push((part, is_width));
            }
            (true, None) => {}
            (false, _) => whole_edges(piece),
        }
    }
    let Some(cut_list) = folded.get_mut("cut_list").and_then(Value::as_array_mut) else { return };
    for line in cut_list {
        let of = |key: &str| line.get(key).and_then(Value::as_str).unwrap_or_default();
        let part = Value::String(format!("{}.{}", of("layer"), of("piece")));
        if let Some((_, is_width)) = halved.iter().find(|(halved, _)| *halved == part) {
            halve(line.get_mut("cut"), *is_width);
        }
    }
}

fn halve(extent: Option<&mut Value>, is_width: bool) {
    let Some(side) = extent.and_then(|extent| extent.get_mut(if is_width { "width" } else { "height" }))
    else {
        return;
    };
    if let Some(mm) = side.as_f64() {
        *side = Value::from(mm / 2.0);
    }
}

fn whole_edges(piece: &mut Value) {
    for edge in piece.get_mut("edges").and_then(Value::as_array_mut).into_iter().flatten() {
        let whole = edge.get("on_garment").cloned();
        if let (Some(whole), Some(length)) = (whole, edge.get_mut("length")) {
            *length = whole;
        }
    }
}

/// Whether the piece is mirrored to the side, so that its width is that of two halves; none where the fold is slanted.
fn across(piece: &Value, fold: &str) -> Option<bool> {
    let edge = list(piece, "edges").find(|edge| edge.get("name").and_then(Value::as_str) == Some(fold))?;
    let figures: Vec<f64> = edge
        .get("path")?
        .as_str()?
        .split(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | '-' | '+')))
        .filter_map(|word| word.parse().ok())
        .collect();
    let [x, y, .., last_x, last_y] = figures.as_slice() else { return None };
    let (aside, up) = ((last_x - x).abs(), (last_y - y).abs());
    match (aside < 0.01, up < 0.01) {
        (true, false) => Some(true),
        (false, true) => Some(false),
        _ => None,
    }
}

fn list<'a>(value: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> {
    value.get(key).and_then(Value::as_array).into_iter().flatten()
}
