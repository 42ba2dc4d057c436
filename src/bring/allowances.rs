//! How far cutting lines lie outside of sew lines, edge by edge and size by size.

use super::course::Course;
use super::names::one_line;
use super::pattern::{Piece, Walk, away};
use super::traced::TracedSize;
use crate::report::listed;
use crate::shape::path::Path;
use indexmap::IndexMap;
use kurbo::{PathSeg, Vec2};

/// By how much allowances may differ from edge to edge and be one, in millimetres.
const EVEN: f64 = 0.3;
/// And from size to size: the corners of a cutting line are rounded as they are drawn.
const ALIKE: f64 = 0.6;
/// Of ways in which allowances differ from size to size no more are told of a piece.
const MOST_WAYS: usize = 3;

/// How wide the piece's allowances are, where they are not the same everywhere and in every size.
pub fn allowances(
    piece: &mut Piece,
    drawn: &[&TracedSize],
    shifts: &[Vec2],
    called: &[String],
    remarks: &mut Vec<String>,
) {
    if piece.sewn && piece.allowance.is_none() {
        let own = Allowances::of(&piece.outline, drawn, shifts);
        let unlike = own.unlike(piece, called);
        // Where it is even at the middles of edges, and no size is to blame, it is not so between them.
        piece.allowance = unlike.as_ref().and_then(|_| own.even());
        remarks.extend(unlike);
        if piece.allowance.is_none() {
            piece.allowances = own.usual();
            remarks.push(format!(
                "{}: its allowances differ from edge to edge; notes at its edges say how wide the drawing has them",
                piece.name
            ));
        }
    }
    if !piece.sewn && drawn.iter().any(|size| size.sew_line.is_some()) {
        let has_none = |size: &TracedSize| !size.sew_line.as_ref().is_some_and(|line| line.closed);
        let lacking = drawn.iter().zip(called).filter(|(size, _)| has_none(size));
        let lacking: Vec<String> =
            lacking.map(|(_, name)| one_line(name)).filter(|name| !name.is_empty()).collect();
        let which =
            if lacking.is_empty() { String::new() } else { format!(": it lacks in {}", listed(&lacking)) };
        remarks.push(format!(
            "{}: its sew line is not drawn closed in every size, and its outline is taken{which}",
            piece.name
        ));
    }
}

/// What is said of a sew line that is drawn with another allowance than the maker says.
pub fn held_otherwise(piece: &Piece, said: Option<f64>) -> Option<String> {
    let said = said.filter(|_| piece.sewn)?;
    let own = match piece.allowance {
        Some(own) if (own - said).abs() < EVEN => return None,
        Some(own) => format!("{own} mm"),
        None => "not the same everywhere".to_owned(),
    };
    Some(format!(
        "{}: its sew line is drawn, and the allowance from there to the line that is cut is {own}; `allowance` says {} mm, which \
         is for pieces that have no sew line, and not for this one",
        piece.name,
        (said * 10.0).round() / 10.0
    ))
}

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
                let middle = path.point_at_length(path.length() / 2.0) - *shift;
                Some((away(&cutting, middle)? * 10.0).round() / 10.0)
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

#[cfg(test)]
mod tests {
    use super::alike;

    #[test]
    fn what_most_sizes_have_comes_first() {
        assert_eq!(alike(&[10.0, 15.0, 15.5]), [(15.0, vec![1, 2]), (10.0, vec![0])]);
        assert_eq!(alike(&[10.0, 15.0]), [(10.0, vec![0]), (15.0, vec![1])]);
    }
}
