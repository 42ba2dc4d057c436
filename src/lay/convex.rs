//! A simple polygon as convex parts.
//!
//! Ears are cut (Meisters 1975), then triangles are joined over their longest shared diagonals
//! while the result stays convex (Hertel and Mehlhorn 1983). Last, each part takes in neighbouring
//! triangles again as long as it stays convex, so that parts may overlap: a wider part tells better
//! how far another shape has to move to be clear of it.

use super::outline::turn_of;
use super::request::Point;

/// The convex parts, each counterclockwise. Where the outline defeats the cutting of ears, its
/// convex hull, which covers it, stands for it.
pub fn convex_parts(outline: &[Point]) -> Vec<Vec<Point>> {
    let Some(triangles) = ears(outline) else {
        return vec![hull(outline)];
    };
    let triangles: Vec<Vec<usize>> = triangles.iter().map(|t| t.to_vec()).collect();
    let mut parts = triangles.clone();
    join_longest_first(outline, &mut parts);
    for part in &mut parts {
        while let Some(wider) = triangles.iter().find_map(|triangle| joined(outline, part, triangle)) {
            *part = wider;
        }
    }
    drop_covered(&mut parts);
    parts.iter().map(|part| part.iter().map(|&i| outline[i]).collect()).collect()
}

/// Cuts ears until one triangle is left. `None` where no ear can be found.
fn ears(outline: &[Point]) -> Option<Vec<[usize; 3]>> {
    let mut left: Vec<usize> = (0..outline.len()).collect();
    let mut triangles = Vec::with_capacity(outline.len().saturating_sub(2));
    while left.len() > 3 {
        let count = left.len();
        let mut best: Option<(f64, usize)> = None;
        for i in 0..count {
            let (ia, ib, ic) = (left[(i + count - 1) % count], left[i], left[(i + 1) % count]);
            let (a, b, c) = (outline[ia], outline[ib], outline[ic]);
            if turn_of(a, b, c) <= 0.0 {
                continue;
            }
            let blocked = left.iter().any(|&k| {
                k != ia && k != ib && k != ic && {
                    let p = outline[k];
                    turn_of(a, b, p) >= 0.0 && turn_of(b, c, p) >= 0.0 && turn_of(c, a, p) >= 0.0
                }
            });
            // The ear with the shortest cut first: it leaves the fewest slivers.
            let cut = libm::hypot(a.0 - c.0, a.1 - c.1);
            if !blocked && best.is_none_or(|(shortest, _)| cut < shortest) {
                best = Some((cut, i));
            }
        }
        let (_, i) = best?;
        triangles.push([left[(i + count - 1) % count], left[i], left[(i + 1) % count]]);
        left.remove(i);
    }
    if let [a, b, c] = left[..] {
        triangles.push([a, b, c]);
    }
    Some(triangles)
}

/// Joins parts over the longest diagonal that leaves a convex part, until none is left.
fn join_longest_first(outline: &[Point], parts: &mut Vec<Vec<usize>>) {
    loop {
        let mut best: Option<(f64, usize, usize, Vec<usize>)> = None;
        for first in 0..parts.len() {
            for second in first + 1..parts.len() {
                if let Some(whole) = joined(outline, &parts[first], &parts[second]) {
                    let length = shared_length(outline, &parts[first], &parts[second]);
                    if best.as_ref().is_none_or(|(longest, ..)| length > *longest) {
                        best = Some((length, first, second, whole));
                    }
                }
            }
        }
        let Some((_, first, second, whole)) = best else { return };
        parts[first] = whole;
        parts.swap_remove(second);
    }
}

/// The edge of `first` that `second` runs the other way, as an index into each.
fn shared_edge(first: &[usize], second: &[usize]) -> Option<(usize, usize)> {
    (0..first.len()).find_map(|i| {
        let (from, to) = (first[i], first[(i + 1) % first.len()]);
        let j = (0..second.len()).find(|&j| second[j] == to && second[(j + 1) % second.len()] == from)?;
        Some((i, j))
    })
}

fn shared_length(outline: &[Point], first: &[usize], second: &[usize]) -> f64 {
    shared_edge(first, second).map_or(0.0, |(i, _)| {
        let (a, b) = (outline[first[i]], outline[first[(i + 1) % first.len()]]);
        libm::hypot(a.0 - b.0, a.1 - b.1)
    })
}

/// Two parts over their shared edge as one, where that is convex.
fn joined(outline: &[Point], first: &[usize], second: &[usize]) -> Option<Vec<usize>> {
    let (i, j) = shared_edge(first, second)?;
    let mut whole = Vec::with_capacity(first.len() + second.len() - 2);
    whole.extend((1..=first.len()).map(|k| first[(i + k) % first.len()]));
    whole.extend((2..second.len()).map(|k| second[(j + k) % second.len()]));
    let count = whole.len();
    let at = |k: usize| outline[whole[k % count]];
    (0..count).all(|k| turn_of(at(k), at(k + 1), at(k + 2)) >= -1e-9).then_some(whole)
}

/// Drops each part all of whose corners are corners of another part.
fn drop_covered(parts: &mut Vec<Vec<usize>>) {
    let mut i = 0;
    while i < parts.len() {
        let covered =
            (0..parts.len()).any(|j| j != i && parts[i].iter().all(|corner| parts[j].contains(corner)));
        if covered {
            parts.remove(i);
        } else {
            i += 1;
        }
    }
}

/// Convex hull, counterclockwise (Andrew 1979).
pub fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && turn_of(a, b, p) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut sorted.iter().copied());
    let upper = half(&mut sorted.iter().rev().copied());
    lower.extend(upper);
    lower
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::area;

    /// An L of 4 by 4 with a corner of 2 by 2 taken away covers 12, and two rectangles cover it.
    #[test]
    fn an_l_is_covered_by_two_rectangles() {
        let outline = [(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)];
        let parts = convex_parts(&outline);
        assert_eq!(parts.len(), 2);
        assert!(parts.iter().map(|part| area(part)).sum::<f64>() >= 12.0 - 1e-9);
    }

    #[test]
    fn a_convex_outline_is_one_part() {
        let outline = [(0.0, 0.0), (3.0, -1.0), (5.0, 2.0), (3.0, 4.0), (0.0, 3.0)];
        assert_eq!(convex_parts(&outline).len(), 1);
    }
}
