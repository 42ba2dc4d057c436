//! How far cutting lines lie outside of sew lines, edge by edge and size by size.

use super::course::Course;
use super::names::one_line;
use super::pattern::{Piece, Walk, nearest};
use super::traced::TracedSize;
use crate::shape::path::Path;
use indexmap::IndexMap;
use kurbo::{PathSeg, Vec2};

/// By how much allowances may differ from edge to edge and be one, in millimetres.
const EVEN: f64 = 0.3;
/// And from size to size: the corners of a cutting line are rounded as they are drawn.
const ALIKE: f64 = 0.6;
/// Of ways in which allowances differ from size to size no more are told of a piece.
const MOST_WAYS: usize = 3;

/// By edge how far outside its middle the cutting line lies, by size.
pub struct Allowances(Vec<Vec<f64>>);

impl Allowances {
    /// Of the edges of a sew line.
    pub fn of(outline: &Walk, drawn: &[&TracedSize], shifts: &[Vec2]) -> Self {
        let of_size = |(size, (drawn, shift)): (usize, (&&TracedSize, &Vec2))| -> Option<Vec<f64>> {
            let cutting: Vec<PathSeg> =
                Course::of(&drawn.outline)?.segments.iter().map(|one| one.course).collect();
            let middles = (0..outline.edges.len()).map(|edge| {
                let path = Path::from_segments(outline.path(edge, size)).ok()?;
                let (_, away) = nearest(&cutting, path.point_at_length(path.length() / 2.0) - *shift)?;
                Some((away * 10.0).round() / 10.0)
            });
            middles.collect()
        };
        let by_size: Option<Vec<Vec<f64>>> = drawn.iter().zip(shifts).enumerate().map(of_size).collect();
        let by_size = by_size.unwrap_or_default();
        let edge = |at: usize| by_size.iter().filter_map(|own| own.get(at).copied()).collect();
        Allowances((0..outline.edges.len()).map(edge).filter(|all: &Vec<f64>| !all.is_empty()).collect())
    }

    /// By edge what most sizes have.
    pub fn usual(&self) -> Vec<f64> {
        let usual = |all: &Vec<f64>| Some(alike(all).first()?.0);
        self.0.iter().filter_map(usual).collect()
    }

    /// What most sizes have, where it is the same at every edge.
    pub fn even(&self) -> Option<f64> {
        let usual = self.usual();
        let (least, most) = usual
            .iter()
            .fold((f64::INFINITY, 0.0_f64), |(least, most), own| (least.min(*own), most.max(*own)));
        (most - least < EVEN && most > 0.0).then(|| (f64::midpoint(least, most) * 10.0).round() / 10.0)
    }

    /// What is said of allowances that are others in one size than in the next.
    pub fn unlike(&self, piece: &Piece, sizes: &[String]) -> Option<String> {
        let mut ways: IndexMap<String, Vec<&str>> = IndexMap::new();
        for (all, edge) in self.0.iter().zip(&piece.outline.edges) {
            let groups = alike(all);
            if groups.len() < 2 {
                continue;
            }
            let each = groups.iter().map(|(wide, own)| {
                let called: Vec<String> =
                    own.iter().filter_map(|size| sizes.get(*size)).map(|size| one_line(size)).collect();
                format!("{wide} mm wide in {}", listed(&called))
            });
            ways.entry(each.collect::<Vec<_>>().join(", and ")).or_default().push(&edge.name);
        }
        let each = ways.iter().take(MOST_WAYS).map(|(way, edges)| {
            let named: Vec<String> = edges.iter().map(|name| (*name).to_owned()).collect();
            let at = if edges.len() == self.0.len() {
                "all round".to_owned()
            } else {
                format!("at {}", listed(&named))
            };
            format!("{at} it is {way}")
        });
        let more = if ways.len() > MOST_WAYS { "; so it is at more edges" } else { "" };
        let told: Vec<String> = each.collect();
        (!told.is_empty()).then(|| {
            format!(
                "{} ({}): its allowance is not the same in every size: {}{more}: is a sew line or a cutting line drawn wrong? What most \
                 sizes have was taken",
                piece.name,
                piece.origin,
                told.join("; ")
            )
        })
    }
}

/// Widths that are alike, those of most sizes first: each with its sizes.
fn alike(all: &[f64]) -> Vec<(f64, Vec<usize>)> {
    let mut sorted: Vec<(usize, f64)> = all.iter().copied().enumerate().collect();
    sorted.sort_by(|one, other| one.1.total_cmp(&other.1));
    let mut groups: Vec<(f64, Vec<usize>)> = Vec::new();
    for (size, wide) in sorted {
        match groups.last_mut() {
            Some((first, own)) if wide - *first < ALIKE => own.push(size),
            _ => groups.push((wide, vec![size])),
        }
    }
    for (_, own) in &mut groups {
        own.sort_unstable();
    }
    groups.sort_by_key(|(_, own)| (std::cmp::Reverse(own.len()), own.first().copied()));
    groups
}

/// Words one after the other: `S, M and L`.
pub fn listed(words: &[String]) -> String {
    match words.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => words.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::{alike, listed};

    #[test]
    fn what_most_sizes_have_comes_first() {
        assert_eq!(alike(&[10.0, 15.0, 15.5]), [(15.0, vec![1, 2]), (10.0, vec![0])]);
        assert_eq!(alike(&[10.0, 15.0]), [(10.0, vec![0]), (15.0, vec![1])]);
        assert_eq!(listed(&["S".into(), "M".into(), "L".into()]), "S, M and L");
    }
}
