//! The text of a pattern: a garment in the language, laid out in its canonical way.

use super::edges::side;
use super::figures::TextUnit;
use super::names::{name_of, one_line, unlike};
use super::partners::partners;
use super::pattern::{Grain, Pattern, Piece, of_size};
use super::runs::{Form, Stretch};
use crate::shape::tolerance::RADII_DIFFER;
use crate::source::SourceMap;
use crate::syntax::tidy::{quoted, tidy};
use indexmap::{IndexMap, IndexSet};
use kurbo::Point;
use std::fmt::Write;

/// A centre has so many more decimals, so that both ends of its arc are equally far from it.
const FINER: usize = 2;

/// The garment's text.
pub fn text(pattern: &Pattern) -> String {
    let mut out = String::new();
    heading(pattern, &mut out);
    for piece in &pattern.pieces {
        self::piece(pattern, piece, &mut out);
    }
    seams(pattern, &mut out);
    let mut map = SourceMap::default();
    let file = map.add("brought in", out.as_str());
    tidy(&map, file).unwrap_or(out)
}

/// A line of text; writing to a String cannot fail.
macro_rules! line {
    ($out:expr, $($words:tt)*) => {{
        let _ = writeln!($out, $($words)*);
    }};
}

fn heading(pattern: &Pattern, out: &mut String) {
    let unit = pattern.unit;
    line!(out, "# Brought in as a draft: its pieces are drawn, and nothing is sewn yet.");
    let sewn = pattern.pieces.iter().filter(|piece| piece.sewn).count();
    if sewn > 0 {
        let which = if sewn == pattern.pieces.len() { "The outlines" } else { "Outlines with a line inside" };
        line!(out, "# {which} are the drawing's sew lines.");
    }
    if sewn < pattern.pieces.len() {
        let which = if sewn == 0 { "The outlines" } else { "All others" };
        match pattern.holds {
            Some(held) => {
                line!(out, "# {which} are cutting lines, which hold an allowance of {}.", unit.length(held))
            }
            None => line!(out, "# {which} are taken to be stitching lines, without allowance."),
        }
    }
    if let Some(dated) = &pattern.dated {
        line!(out, "# The drawing is of {dated}.");
    }
    line!(out, "garment {}", quoted(&one_line(&pattern.title)));
    line!(out, "units {}", unit.word());
    let usual = match unit {
        TextUnit::Centimetres => "1".to_owned(),
        TextUnit::Inches => "3/8".to_owned(),
    };
    line!(out, "allowance {}", pattern.holds.map_or(usual, |held| unit.length(held)));
    if !pattern.sizes.is_empty() {
        line!(
            out,
            "sizes {}",
            pattern.sizes.iter().map(|name| size_name(name)).collect::<Vec<_>>().join(", ")
        );
    }
    line!(out, "");
    let mut fabrics: IndexMap<String, Vec<&str>> = IndexMap::new();
    for piece in &pattern.pieces {
        fabrics.entry(piece.material.clone().unwrap_or_default()).or_default().push(&piece.name);
    }
    let mut taken: IndexSet<String> = pattern.pieces.iter().map(|piece| piece.name.clone()).collect();
    let mut cloths = IndexSet::new();
    let width = match unit {
        TextUnit::Centimetres => 150,
        TextUnit::Inches => 60,
    };
    let mut layers = String::new();
    for (material, pieces) in &fabrics {
        let name = unlike(&name_of(material, "cloth"), &mut cloths);
        let title = if material.is_empty() { "cloth" } else { material };
        line!(out, "fabric {name} {} {{ width {width} }}  # how wide, no drawing says", quoted(title));
        let layer = unlike(if material.is_empty() { "main" } else { &name }, &mut taken);
        line!(layers, "layer {layer} in {name} {{ {} }}", pieces.join(", "));
    }
    out.push_str(&layers);
}

fn piece(pattern: &Pattern, piece: &Piece, out: &mut String) {
    let unit = pattern.unit;
    let rough = match piece.error {
        error if error > 0.0 => format!("; curves within {error:.2} mm of the points"),
        _ => String::new(),
    };
    line!(out, "\n# {}{rough}", piece.origin);
    line!(out, "piece {} {} {{", piece.name, quoted(&piece.title));
    let fold = piece.fold.and_then(|edge| piece.outline.edges.get(edge));
    let said = piece.cut;
    let (count, mirrored) = said.map_or((1, false), |cut| (cut.count, cut.mirrored));
    let count = match piece.counts.is_empty() {
        true => count.to_string(),
        false => {
            format!("each {}", piece.counts.iter().map(u32::to_string).collect::<Vec<_>>().join(", "))
        }
    };
    let note = if said.is_none() { "  # how many, the drawing does not say" } else { "" };
    match (fold, mirrored) {
        (Some(fold), _) => line!(out, "cut {count} on fold {}{note}", fold.name),
        (None, true) => line!(out, "cut {count} mirrored{note}"),
        (None, false) => line!(out, "cut {count}{note}"),
    }
    points(unit, piece, out);
    let from_a_cutting = if pattern.holds.is_some() && !piece.sewn { " cutting" } else { "" };
    line!(out, "outline from {}{from_a_cutting} {{", piece.corner(0));
    for (at, edge) in piece.outline.edges.iter().enumerate() {
        let (from, to) = (piece.corner(at), piece.corner(at + 1));
        let form = match handles(unit, &edge.stretch) {
            Some(_) => format!("handles {from}_out, {to}_in"),
            None => form(unit, piece.outline.start(at), &edge.stretch),
        };
        line!(out, "{} to {to} {form}  # {}", edge.name, place(pattern, piece, at));
    }
    line!(out, "}}");
    if let Some(allowance) = piece.allowance {
        line!(out, "allowance {}", unit.length(allowance));
    }
    for walk in &piece.lines {
        for (at, edge) in walk.edges.iter().enumerate() {
            let (from, to) = (unit.points(walk.start(at), 0), unit.points(&edge.stretch.ends, 0));
            line!(
                out,
                "line {} from {from} to {to} {}",
                edge.name,
                form(unit, walk.start(at), &edge.stretch)
            );
        }
    }
    for mark in &piece.marks {
        line!(out, "mark {} = {}", mark.name, unit.points(&mark.at, 0));
    }
    for notch in &piece.notches {
        let Some(edge) = piece.outline.edges.get(notch.edge) else { continue };
        let corner = piece.corner(notch.edge + usize::from(notch.from_end));
        let double = if notch.double { " double" } else { "" };
        line!(out, "notch {} {} from {corner}{double}", edge.name, unit.lengths(&notch.along));
    }
    match &piece.grain {
        None => {}
        Some(Grain::Up) => line!(out, "grain up"),
        Some(Grain::Across) => line!(out, "grain across"),
        Some(Grain::Along(from, to)) => {
            line!(out, "line grain_line from {} to {}", unit.points(from, 0), unit.points(to, 0));
            line!(out, "grain along grain_line");
        }
    }
    line!(out, "}}");
}

/// The corners, named by their number, and the handles that differ from size to size.
fn points(unit: TextUnit, piece: &Piece, out: &mut String) {
    for (at, edge) in piece.outline.edges.iter().enumerate() {
        let (from, to) = (piece.corner(at), piece.corner(at + 1));
        line!(out, "point {from} = {}", unit.points(piece.outline.start(at), 0));
        if let Some((first, second)) = handles(unit, &edge.stretch) {
            line!(out, "point {from}_out = {first}");
            line!(out, "point {to}_in = {second}");
        }
    }
}

/// The handles of a curve, where they are too long to stand in its line.
fn handles(unit: TextUnit, stretch: &Stretch) -> Option<(String, String)> {
    let Form::Handles { first, second } = &stretch.form else { return None };
    let (first, second) = (unit.points(first, 0), unit.points(second, 0));
    (first.contains("grade")
        || first.starts_with("each")
        || second.contains("grade")
        || second.starts_with("each"))
    .then_some((first, second))
}

/// How an edge goes, behind the corner that it goes to.
fn form(unit: TextUnit, from: &[Point], stretch: &Stretch) -> String {
    match &stretch.form {
        Form::Straight => String::new(),
        Form::Handles { first, second } => {
            format!("handles {}, {}", unit.point_expression(first, 0), unit.point_expression(second, 0))
        }
        Form::Arc { centres, clockwise } => {
            let sizes = centres.len();
            let written = (0..sizes).filter_map(|size| {
                let ends = [of_size(from, size)?, of_size(&stretch.ends, size)?];
                Some(centre(unit, of_size(centres, size)?, ends))
            });
            let (centres, finer): (Vec<Point>, Vec<usize>) = written.unzip();
            let finer = finer.into_iter().max().unwrap_or(0);
            let way = if *clockwise { "clockwise" } else { "anticlockwise" };
            format!("arc about {} {way}", unit.point_expression(&centres, finer))
        }
    }
}

/// The centre as it is written: rounded, if the rounded ends are then equally far from it; else with more decimals,
/// moved onto the line of all points that are.
fn centre(unit: TextUnit, centre: Point, ends: [Point; 2]) -> (Point, usize) {
    let [from, to] = ends.map(|end| unit.rounded_point(end));
    let plain = unit.rounded_point(centre);
    if (plain.distance(from) - plain.distance(to)).abs() < RADII_DIFFER * 0.5 {
        return (plain, 0);
    }
    let (chord, middle) = (to - from, from.midpoint(to));
    let off = (centre - middle).dot(chord) / chord.hypot2().max(f64::MIN_POSITIVE);
    (centre - chord * off, FINER)
}

/// From the least to the most of lengths, or the one that all of them are.
fn from_to(pattern: &Pattern, lengths: impl Iterator<Item = f64>) -> String {
    let (least, most) = lengths
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), one| (least.min(one), most.max(one)));
    let [least, most] = [least, most].map(|long| pattern.unit.about(long));
    if least == most { least } else { format!("{least} to {most}") }
}

/// Where an edge lies and how long it is, in words.
fn place(pattern: &Pattern, piece: &Piece, edge: usize) -> String {
    let form = match piece.outline.edges.get(edge).map(|one| &one.stretch.form) {
        Some(Form::Straight) | None => "straight",
        Some(Form::Arc { .. }) => "an arc",
        Some(Form::Handles { .. }) => "a curve",
    };
    let sizes = pattern.sizes.len().max(1);
    let lengths = from_to(pattern, (0..sizes).map(|size| piece.outline.length(edge, size)));
    let cut = match piece.allowances.get(edge) {
        Some(away) if *away > 0.0 => format!(", cut {} outside", pattern.unit.about(*away)),
        _ => String::new(),
    };
    let hem = piece.hem_lines.iter().find(|line| line.edge == edge).map_or_else(String::new, |line| {
        let deep = from_to(pattern, [line.depth.0, line.depth.1].into_iter());
        format!(", a line {deep} inside all along it: a hem's fold?")
    });
    format!("{}, {form}, {lengths}{cut}{hem}", side(&piece.outline, edge))
}

/// Seams that may be, as notes.
fn seams(pattern: &Pattern, out: &mut String) {
    let found = partners(pattern);
    if found.is_empty() {
        return;
    }
    line!(
        out,
        "\n# Edges that are equally long in every size. Of those that are sewn to each other, take the first # away."
    );
    let mut taken = IndexSet::new();
    for pair in found {
        let last = |name: &str| name.rsplit('.').next().unwrap_or("seam").to_owned();
        let (one, other) = (last(&pair.one), last(&pair.other));
        let name = if one == other { one } else { format!("{}_{}", flat(&pair.one), flat(&pair.other)) };
        let name = unlike(&name, &mut taken);
        let lengths = from_to(pattern, pair.lengths.iter().copied());
        line!(out, "# seam {name}  {} to {}  # {lengths}", pair.one, pair.other);
    }
}

fn flat(name: &str) -> String {
    name_of(name.split(" + ").next().unwrap_or(name), "seam")
}

/// A size's name, in quotes where it has to be.
fn size_name(name: &str) -> String {
    let plain =
        !name.is_empty() && name.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '_');
    if plain { name.to_owned() } else { quoted(name) }
}
