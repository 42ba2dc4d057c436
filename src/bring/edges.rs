//! What edges are called, as far as it can be known, and where they lie.

use super::names::{name_of, unlike};
use super::pattern::{Piece, Walk, of_size};
use super::runs::Form;
use indexmap::IndexSet;
use kurbo::Vec2;

/// Names the edges of a piece: with the names that the maker gives for its runs, in order; else `fold`, `longest` for
/// the one that is the longest straight one in every size, `curve` for the only curve, and `e1`, `e2` … by their number for the rest. A run that is
/// made of several stretches has a number behind its name.
///
/// # Errors
/// Where there are more names than runs, or one of them twice.
pub fn named(piece: &mut Piece, wanted: &[String]) -> Result<(), String> {
    let runs = piece.outline.runs();
    if wanted.len() > runs {
        return Err(format!("{} has {runs} edges, and {} names are given", piece.name, wanted.len()));
    }
    let given = || wanted.iter().filter(|name| !name.is_empty()).map(|name| name_of(name, "e"));
    if let Some((_, twice)) =
        given().enumerate().find(|(at, name)| given().take(*at).any(|other| other == *name))
    {
        return Err(format!(
            "the name {twice} is given to two edges of {}: two edges want two names",
            piece.name
        ));
    }
    let fold = piece.fold.and_then(|edge| piece.outline.edges.get(edge)).map(|edge| edge.run);
    let straight =
        |run: usize| piece.outline.of_run(run).all(|(_, edge)| edge.stretch.form == Form::Straight);
    let others = || (0..runs).filter(|run| Some(*run) != fold);
    let long = |run: usize, size: usize| -> f64 {
        piece.outline.of_run(run).map(|(at, _)| piece.outline.length(at, size)).sum()
    };
    let longest_in = |size: usize| {
        let mut longs: Vec<(usize, f64)> =
            others().filter(|run| straight(*run)).map(|run| (run, long(run, size))).collect();
        longs.sort_by(|one, other| other.1.total_cmp(&one.1));
        match longs.as_slice() {
            // Of two that are alike neither is known by it.
            [(run, long), (_, next), ..] if long - next > 1.0 => Some(*run),
            [(run, _)] => Some(*run),
            _ => None,
        }
    };
    // The same one in every size, or it is no name.
    let sizes = piece.outline.from.len().max(1);
    let longest = longest_in(0).filter(|run| (1..sizes).all(|size| longest_in(size) == Some(*run)));
    let curves: Vec<usize> = others().filter(|run| !straight(*run)).collect();
    let only_curve = match curves.as_slice() {
        [only] => Some(*only),
        _ => None,
    };
    let mut taken = IndexSet::new();
    let names: Vec<String> = (0..runs)
        .map(|run| {
            let name = match wanted.get(run).filter(|name| !name.is_empty()) {
                Some(name) => name_of(name, "e"),
                None if Some(run) == fold => "fold".to_owned(),
                None if Some(run) == longest => "longest".to_owned(),
                None if Some(run) == only_curve => "curve".to_owned(),
                None => format!("e{}", run + 1),
            };
            unlike(&name, &mut taken)
        })
        .collect();
    name_stretches(&mut piece.outline, &names, &mut taken);
    Ok(())
}

/// Names the stretches of a walk by the names of its runs.
pub fn name_stretches(walk: &mut Walk, names: &[String], taken: &mut IndexSet<String>) {
    let counts: Vec<usize> = (0..names.len()).map(|run| walk.of_run(run).count()).collect();
    let mut number = 0;
    let mut before = None;
    for edge in &mut walk.edges {
        number = if before == Some(edge.run) { number + 1 } else { 1 };
        before = Some(edge.run);
        let Some(name) = names.get(edge.run) else { continue };
        edge.name = match counts.get(edge.run) {
            Some(1) | None => name.clone(),
            Some(_) => unlike(&format!("{name}_{number}"), taken),
        };
    }
}

/// Where an edge lies on its piece, as one looks at it: `top right`.
pub fn side(outline: &Walk, edge: usize) -> &'static str {
    outward(outline, edge).map_or("", words)
}

/// The way out of a piece at an edge.
pub fn outward(outline: &Walk, edge: usize) -> Option<Vec2> {
    let from = of_size(outline.start(edge), 0)?;
    let to = of_size(&outline.edges.get(edge)?.stretch.ends, 0)?;
    // The outline goes anticlockwise: outward is to the right of the way.
    let way = (to - from).turn_90() * -1.0;
    (way.hypot() > 0.0).then(|| way.normalize())
}

fn words(way: Vec2) -> &'static str {
    const SIDES: [&str; 8] =
        ["right", "top right", "top", "top left", "left", "bottom left", "bottom", "bottom right"];
    let eighth = (libm::atan2(way.y, way.x) / std::f64::consts::FRAC_PI_4).round() as i64;
    SIDES.get(eighth.rem_euclid(8) as usize).copied().unwrap_or("right")
}
