//! What is written on a piece.

use super::allowed::Allowed;
use super::model::Label;
use crate::garment::{CutHow, EdgeId, Garment, PieceId, PointId, SizeId, Strap, StrapRun};
use crate::report::{DisplayUnit, amount};
use crate::resolve::{CutRow, DrawnEdgeId, DrawnPiece};

pub(super) fn label(
    garment: &Garment,
    size: SizeId,
    row: &CutRow,
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    fused: bool,
) -> Label {
    let layer = garment.layer(row.part.layer);
    let cloth = match row.fabric {
        Some(fabric) => format!("{}: {}", layer.name, garment.fabric(fabric).title),
        None => layer.name.to_string(),
    };
    let size = match garment.names_sizes() {
        true => garment.size(size).name.to_string(),
        false => String::new(),
    };
    Label {
        garment: garment.title.to_string(),
        piece: match row.hand {
            Some(hand) => format!("{}, {}", title(garment, row.part.piece), hand.word()),
            None => title(garment, row.part.piece),
        },
        cloth,
        size,
        cut: instruction(garment, row, fused),
        allowance: allowance(garment, drawn, allowed),
        long_edge: long_edge(garment, drawn),
    }
}

/// What a piece is called; one that has only a name, as of a split, by that in words: "Front middle".
fn title(garment: &Garment, piece: PieceId) -> String {
    let piece = garment.piece(piece);
    if *piece.title != *piece.name {
        return piece.title.to_string();
    }
    let mut letters = piece.name.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).map(|letter| if letter == '_' { ' ' } else { letter }).collect()
}

/// What is written at a mark; at a place on an edge where a strap is sewn on, what the strap is called.
pub(super) fn mark_words(garment: &Garment, mark: PointId) -> String {
    let is_there = |strap: &&Strap| strap.runs.iter().flat_map(StrapRun::ends).any(|end| end.point == mark);
    let strap = garment.straps.iter().filter(|_| garment.is_placed_point(mark)).find(is_there);
    strap.map_or_else(|| garment.point_words(mark), |strap| title(garment, strap.piece))
}

/// How many are cut and how.
fn instruction(garment: &Garment, row: &CutRow, fused: bool) -> String {
    let copies = row.copies;
    let mut words = match row.how {
        _ if row.whole => format!("cut {copies}"),
        CutHow::OnFold(_) => format!("cut {copies} on the fold"),
        CutHow::Mirrored if copies == 2 => "cut 2, one of each hand".to_owned(),
        CutHow::Mirrored => format!("cut {copies}, half of them of each hand"),
        CutHow::Alike if copies == 1 => "cut 1".to_owned(),
        CutHow::Alike => format!("cut {copies} alike"),
    };
    match row.hand {
        Some(hand) => words.push_str(&format!(", worn {}", hand.word())),
        None if row.whole => words.push_str(", whole"),
        None => {}
    }
    if row.flipped {
        words.push_str(", turned over");
    }
    if fused {
        let layer = garment.layer(row.part.layer);
        words.push_str(", fuse on");
        if let Some(onto) = layer.onto {
            words.push_str(&format!(" {}", garment.layer(onto).name));
        }
        if let Some(share) = layer.share {
            words.push_str(&format!(" {} of {}", share.fused, share.of));
        }
    }
    words
}

/// What cloth the cutting line has beyond the stitching line: most of it first, then each edge that has more or less.
fn allowance(garment: &Garment, drawn: &DrawnPiece, allowed: &[Allowed]) -> String {
    // By width: how much of the outline has it, and the names of those edges.
    let mut widths: Vec<(f64, f64, Vec<EdgeId>)> = Vec::new();
    for (edge, allowed) in drawn.edges.iter().zip(allowed).filter(|(_, allowed)| !allowed.fold) {
        let name = edge.edge;
        let known = widths.iter_mut().find(|(width, ..)| (*width - allowed.width).abs() < SAME_WIDTH);
        match known {
            Some((_, length, names)) => {
                *length += edge.path.length();
                if !names.contains(&name) {
                    names.push(name);
                }
            }
            None => widths.push((allowed.width, edge.path.length(), vec![name])),
        }
    }
    let most = widths.iter().map(|(_, length, _)| *length).fold(0.0, f64::max);
    let Some(usual) = widths.iter().position(|(_, length, _)| *length >= most) else { return String::new() };
    let (usual, ..) = widths.remove(usual);
    let says = |width: f64| if width < SAME_WIDTH { "none".to_owned() } else { to_half(width, garment.unit) };
    if usual < SAME_WIDTH && widths.is_empty() {
        return "no allowance".to_owned();
    }
    let mut words = format!("{} allowance included", says(usual).replace("none", "no"));
    for (width, _, names) in widths {
        words.push_str(&format!("; {} {}", named(garment, &names), says(width)));
    }
    words
}

/// An allowance, half a millimetre too: half of a window of 15 mm is 7.5 mm, which is not to be cut as 7 or as 8.
fn to_half(width: f64, unit: DisplayUnit) -> String {
    let halves = (width * 2.0).round();
    match unit {
        DisplayUnit::Millimetre | DisplayUnit::Centimetre
            if halves.rem_euclid(2.0) == 1.0 && (width * 2.0 - halves).abs() < 2.0 * SAME_WIDTH =>
        {
            format!("{:.1} mm", halves / 2.0)
        }
        _ => amount(width, unit),
    }
}

/// What people call an edge.
fn called(garment: &Garment, edge: EdgeId) -> String {
    garment.edge_label(edge).map_or_else(|| garment.edge(edge).name.replace('_', " "), str::to_owned)
}

/// What people call edges; the sides of a slit by the slit: "both sides of wrist slit".
fn named(garment: &Garment, edges: &[EdgeId]) -> String {
    let mut words: Vec<String> = Vec::with_capacity(edges.len());
    for &edge in edges {
        let own = match garment.edge(edge).side_of {
            None => called(garment, edge),
            Some(slit) => {
                let sides = edges.iter().filter(|other| garment.edge(**other).side_of == Some(slit));
                let sides: Vec<&str> = sides.filter_map(|&side| side_word(garment, side)).collect();
                let slit = called(garment, slit);
                match (sides.contains(&NEAR) && sides.contains(&FAR), side_word(garment, edge)) {
                    (true, _) if sides.len() == 2 => format!("both sides of {slit}"),
                    (true, _) => format!("round {slit}"),
                    (false, Some(side @ (NEAR | FAR))) => format!("{side} side of {slit}"),
                    (false, Some(end)) => format!("{end} of {slit}"),
                    (false, None) => slit,
                }
            }
        };
        if !words.contains(&own) {
            words.push(own);
        }
    }
    words.join(", ")
}

/// Which side of its slit an edge is.
fn side_word(garment: &Garment, side: EdgeId) -> Option<&str> {
    garment.edge(side).name.rsplit('.').next()
}

/// The sides of a slit, as they are named after it.
const NEAR: &str = "near";
const FAR: &str = "far";

/// The longest edge that is not on the fold, as it comes out when the piece is folded as it is
/// worn; of a half the whole of it.
fn long_edge(garment: &Garment, drawn: &DrawnPiece) -> String {
    let on_fold = |edge: EdgeId| match drawn.cut {
        CutHow::OnFold(fold) => garment.is_run_of(edge, fold),
        CutHow::Alike | CutHow::Mirrored => false,
    };
    // Runs of one edge are one edge.
    let mut edges: Vec<(EdgeId, f64, bool)> = Vec::new();
    let count = drawn.outline().len();
    for (at, edge) in drawn.outline().iter().enumerate().filter(|(_, edge)| !on_fold(edge.edge)) {
        let out: f64 = drawn
            .take_ups_on(DrawnEdgeId::from_index(at))
            .iter()
            .map(|(_, mouth)| mouth.to - mouth.from)
            .sum();
        let half = finished(garment, drawn.piece, edge.edge, edge.path.length() - out);
        // What ends at the fold goes on beyond it: the whole of it is reported.
        let beside = [at + count - 1, at + 1].map(|next| drawn.edges.get(next % count.max(1)));
        let goes_on = beside.into_iter().flatten().any(|next| on_fold(next.edge));
        let whole = garment.whole_edge(edge.edge);
        match edges.iter_mut().find(|(own, ..)| *own == whole) {
            Some(own) => *own = (whole, own.1 + half, own.2 || goes_on),
            None => edges.push((whole, half, goes_on)),
        }
    }
    let mut longest: Option<(f64, EdgeId)> = None;
    for (edge, half, goes_on) in edges {
        let length = if goes_on { 2.0 * half } else { half };
        // Edges alike in length to less than is shown: the first, in every size.
        if longest.is_none_or(|(most, _)| length > most + 0.5) {
            longest = Some((length, edge));
        }
    }
    longest.map_or_else(String::new, |(length, edge)| {
        format!("{} {} finished", named(garment, &[edge]), amount(length, garment.unit))
    })
}

/// Edges between two that are brought together count half.
fn finished(garment: &Garment, piece: PieceId, edge: EdgeId, length: f64) -> f64 {
    let folds = &garment.piece(piece).folds;
    let between = |fold: &&crate::garment::FoldOver| {
        !garment.is_run_of(edge, fold.edge) && !garment.is_run_of(edge, fold.onto)
    };
    folds.iter().filter(between).fold(length, |length, fold| length * fold.share_left())
}

/// Widths nearer to each other than this are one, in millimetres: less than is written.
const SAME_WIDTH: f64 = 0.05;
