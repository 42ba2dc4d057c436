//! What lies on a piece beside its outline: fold, grain, notches, marks, and what is written on it.

use super::course::{Course, SAME};
use super::names::{answering, name_of, unlike};
use super::pattern::{Grain, Mark, Notch, Piece, Walk, nearest, of_size};
use super::runs::Form;
use super::traced::{TracedCut, TracedSize};
use crate::sewing::LEAST_APART;
use indexmap::IndexSet;
use kurbo::{ParamCurve, Point, Vec2};

/// How far an edge may lie off the line of the fold, in millimetres.
pub const ON_FOLD: f64 = 0.5;
/// How far from the outline a notch may be drawn, in millimetres: the widest usual allowance.
const BESIDE: f64 = 40.0;
/// A notch nearer to the end of its edge than this, in millimetres, is at it.
const AT_END: f64 = 0.5;
/// One between that and this is not told from it (common practice).
const BESIDE_END: f64 = 5.0;
/// How nearly upright a grain line is drawn that means upright, in radians (0.2°).
const UPRIGHT: f64 = 0.0035;
/// By how much the distance from sew line to cutting line may differ along it, in millimetres.
const EVEN: f64 = 0.3;

/// The edge that lies on the fold in every size.
pub fn fold_of(drawn: &[&TracedSize], shifts: &[Vec2], outline: &Walk) -> Option<usize> {
    (0..outline.edges.len()).find(|&edge| {
        let straight = outline.edges.get(edge).is_some_and(|one| one.stretch.form == Form::Straight);
        straight
            && drawn.iter().zip(shifts).enumerate().all(|(size, (drawn, shift))| {
                let Some((from, to)) = drawn.fold else { return false };
                let (from, to) = (from + *shift, to + *shift);
                let long = from.distance(to).max(SAME);
                let ends = [
                    of_size(outline.start(edge), size),
                    outline.edges.get(edge).and_then(|one| of_size(&one.stretch.ends, size)),
                ];
                ends.iter()
                    .all(|end| end.is_some_and(|end| (end - from).cross(to - from).abs() / long < ON_FOLD))
            })
    })
}

/// How the grain lies, if it was drawn.
pub fn grain_of(drawn: &[&TracedSize], shifts: &[Vec2]) -> Option<Grain> {
    let lines: Option<Vec<(Point, Point)>> = drawn
        .iter()
        .zip(shifts)
        .map(|(size, shift)| size.grain.map(|(from, to)| (from + *shift, to + *shift)))
        .collect();
    let lines = match lines {
        Some(lines) => lines,
        // One for all sizes is enough.
        None => {
            let (size, shift) = drawn.iter().zip(shifts).find(|(size, _)| size.grain.is_some())?;
            let (from, to) = size.grain?;
            vec![(from + *shift, to + *shift)]
        }
    };
    let lies = |along: Vec2| {
        lines.iter().all(|(from, to)| {
            let way = *to - *from;
            way.cross(along).abs() <= libm::sin(UPRIGHT) * way.hypot()
        })
    };
    if lies(Vec2::new(0.0, 1.0)) {
        return Some(Grain::Up);
    }
    if lies(Vec2::new(1.0, 0.0)) {
        return Some(Grain::Across);
    }
    let (from, to) = lines.into_iter().unzip();
    Some(Grain::Along(from, to))
}

/// How many are cut, as it is usually written on pieces: `cut 2 mirrored`, `cut 1 on the fold`, `cut 1 pair`.
pub fn cut_of(texts: &[String]) -> Option<TracedCut> {
    texts.iter().find_map(|text| {
        let text = text.to_lowercase();
        let after = &text[text.find("cut")? + "cut".len()..];
        let number: String =
            after.trim_start_matches([':', ' ']).chars().take_while(char::is_ascii_digit).collect();
        let count: u32 = number.parse().ok().filter(|count| (1..=100).contains(count))?;
        let pairs = after.contains("pair");
        let mirrored =
            pairs || ["mirror", "each hand", "left and right"].iter().any(|words| after.contains(words));
        let count = if pairs { count * 2 } else { count };
        Some(TracedCut { count, mirrored: mirrored && count % 2 == 0 })
    })
}

/// How far the cutting line lies outside the sew line, where that is everywhere and in every size the same.
pub fn allowance_of(sewn: &[Course], drawn: &[&TracedSize]) -> Option<f64> {
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for (course, size) in sewn.iter().zip(drawn) {
        let cutting = Course::of(&size.outline)?;
        let cutting: Vec<kurbo::PathSeg> = cutting.segments.iter().map(|one| one.course).collect();
        // Enough of them to see whether it is even; a traced line may have thousands of segments.
        let every = course.segments.len().div_ceil(40).max(1);
        for segment in course.segments.iter().step_by(every) {
            let (_, away) = nearest(&cutting, segment.course.eval(0.5))?;
            (least, most) = (least.min(away), most.max(away));
        }
    }
    // On the fold the two lines are one: only that much says nothing against it.
    (most - least < EVEN && most > 0.0).then(|| (f64::midpoint(least, most) * 10.0).round() / 10.0)
}

/// By edge how far outside its middle the cutting line lies, in the first size, to 0.1 mm.
pub fn allowances_of(outline: &Walk, drawn: &[&TracedSize], shifts: &[Vec2]) -> Vec<f64> {
    let cutting = drawn.first().and_then(|size| Course::of(&size.outline));
    let (Some(cutting), Some(shift)) = (cutting, shifts.first()) else { return Vec::new() };
    let cutting: Vec<kurbo::PathSeg> = cutting.segments.iter().map(|one| one.course).collect();
    let middles = (0..outline.edges.len()).map(|edge| {
        let path = crate::shape::path::Path::from_segments(outline.path(edge, 0)).ok()?;
        let (_, away) = nearest(&cutting, path.point_at_length(path.length() / 2.0) - *shift)?;
        Some((away * 10.0).round() / 10.0)
    });
    middles.collect::<Option<Vec<f64>>>().unwrap_or_default()
}

/// The points inside that answer to one another in all sizes.
pub fn marks(drawn: &[&TracedSize], shifts: &[Vec2], piece: &mut Piece, remarks: &mut Vec<String>) {
    let Some(first) = drawn.first().map(|size| &size.marks) else { return };
    // Corners are called p1, p2 … in the text, and handles after them.
    let corners = (0..piece.outline.edges.len()).map(|edge| piece.corner(edge));
    let mut taken: IndexSet<String> =
        corners.flat_map(|corner| [format!("{corner}_out"), format!("{corner}_in"), corner]).collect();
    for (number, mark) in first.iter().enumerate() {
        let own = unlike(&name_of(&mark.name, "mark"), &mut taken);
        let each: Option<Vec<Point>> = drawn
            .iter()
            .zip(shifts)
            .map(|(size, shift)| {
                let found = answering(first, &size.marks, number, |mark| &mark.name)?;
                // What is drawn once lies where the first size lies.
                let shift = if std::ptr::eq(found, mark) { shifts.first()? } else { shift };
                Some(found.at + *shift)
            })
            .collect();
        match each {
            Some(at) => piece.marks.push(Mark { name: own, at }),
            None => {
                remarks.push(format!("{}: {own} is not marked in every size, and is left out", piece.name))
            }
        }
    }
}

/// The notches that answer to one another in all sizes, on their edges.
pub fn notches(drawn: &[&TracedSize], shifts: &[Vec2], piece: &mut Piece, remarks: &mut Vec<String>) {
    let edges = piece.outline.edges.len();
    // By edge, by size, how far along.
    let mut found: Vec<Vec<Vec<f64>>> = vec![vec![Vec::new(); drawn.len()]; edges];
    let mut away = 0;
    for (size, (drawn, shift)) in drawn.iter().zip(shifts).enumerate() {
        for notch in &drawn.notches {
            let at = notch.at + *shift;
            let places = (0..edges).filter(|edge| Some(*edge) != piece.fold).filter_map(|edge| {
                nearest(&piece.outline.path(edge, size), at).map(|(along, off)| (edge, along, off))
            });
            let best = places.min_by(|one, other| one.2.total_cmp(&other.2));
            match best.filter(|(.., off)| *off < BESIDE) {
                Some((edge, along, _)) => {
                    if let Some(list) = found.get_mut(edge).and_then(|sizes| sizes.get_mut(size)) {
                        list.push(along);
                    }
                }
                None => away += 1,
            }
        }
    }
    if away > 0 {
        remarks.push(format!("{}: {away} notches lie at no edge, and are left out", piece.name));
    }
    for (edge, mut sizes) in found.into_iter().enumerate() {
        for list in &mut sizes {
            list.sort_by(f64::total_cmp);
        }
        let count = sizes.first().map_or(0, Vec::len);
        if sizes.iter().any(|list| list.len() != count) {
            let name = piece.outline.edges.get(edge).map_or("", |edge| &*edge.name);
            remarks.push(format!(
                "{}: {name} has not equally many notches in every size, and its notches are left out",
                piece.name
            ));
            continue;
        }
        let mut number = 0;
        while number < count {
            let place = |number: usize| -> Vec<f64> {
                sizes.iter().filter_map(|list| list.get(number).copied()).collect()
            };
            let (own, next) = (place(number), place(number + 1));
            let double =
                next.len() == own.len() && own.iter().zip(&next).all(|(own, next)| next - own < LEAST_APART);
            number += if double { 2 } else { 1 };
            let along: Vec<f64> = match double {
                true => own.iter().zip(&next).map(|(own, next)| f64::midpoint(*own, *next)).collect(),
                false => own,
            };
            let longs: Vec<f64> = (0..along.len()).map(|size| piece.outline.length(edge, size)).collect();
            let from_end = along.iter().sum::<f64>() * 2.0 > longs.iter().sum::<f64>();
            let along = match from_end {
                true => longs.iter().zip(&along).map(|(long, along)| long - along).collect(),
                false => along,
            };
            if along.iter().any(|along| (AT_END..BESIDE_END).contains(along)) {
                let name = piece.outline.edges.get(edge).map_or("", |edge| &*edge.name);
                let far = along.iter().copied().fold(f64::INFINITY, f64::min);
                remarks.push(format!(
                    "{}: a notch lies {far:.1} mm from an end of {name}, where no snip is told from it, and is left out",
                    piece.name
                ));
                continue;
            }
            piece.notches.push(Notch { edge, along, from_end, double });
        }
    }
}
