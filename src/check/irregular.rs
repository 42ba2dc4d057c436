//! `size/irregular`: a body measure, or an edge, that shrinks or jumps from one size to the next.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    AlterationId, ClosureId, Dimension, EdgeId, Expression, Garment, Node, PaperId, Value, ValueKind,
};
use crate::report::{Diagnostic, SizeTable, amount, catalogue};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SIZE_IRREGULAR], run: Run::OverSizes(run) };

/// A step that is so many times the middle one of the others is a jump …
const JUMP: f64 = 2.5;
/// … if it is also more than this, in millimetres: small steps are rounded by makers.
const LEAST_JUMP: f64 = 15.0;
/// Of two steps the one that is so many times the other is wrong; less, and either may be.
const CLEARLY: f64 = 8.0;
/// A row of so many sizes shows what steps it has.
const ENOUGH: usize = 4;
/// Steps of which the longest is no more than so many times the shortest are even.
const EVEN: f64 = 1.5;
/// So much of its first figure nothing grows by from each size to the next …
const STEEP: f64 = 0.5;
/// … if it is as much as this, in millimetres.
const LEAST_STEEP: f64 = 50.0;
/// So much of it no length of a grown-up's garment does …
const STEEP_FOR_GROWN_UPS: f64 = 0.2;
/// … if it is as much as this, in millimetres (trade tables grow by 4 to 10 cm round the body, and by 1 or 2 in length).
const LEAST_STEEP_FOR_GROWN_UPS: f64 = 120.0;
/// From this age on, in years.
const GROWN_UP: f64 = 14.0;
/// Steps that differ by less than this, in millimetres, are one step.
const SAME: f64 = 0.1;
/// A body measure may shrink by no more than this, in millimetres.
const BODY_SLACK: f64 = 0.1;
/// An edge may: it hangs on several measures. In millimetres.
const EDGE_SLACK: f64 = 3.0;

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let mut steps_reported: Vec<usize> = Vec::new();
    for (value, values) in body_rows(garment, sizes) {
        let named = &garment.values[value];
        if let Some(at) = spike(&values) {
            diagnostics.push(beside_the_row(garment, value, at, &values));
            steps_reported.extend([at - 1, at]);
            continue;
        }
        let Some(odd) = oddest(&values, BODY_SLACK, false) else {
            if let Some(at) = misplaced(&values) {
                diagnostics.push(beside_the_row(garment, value, at, &values));
                steps_reported.extend([at - 1, at]);
            }
            continue;
        };
        if let Some((one, other)) = either_odd(&values) {
            diagnostics.push(uneven(garment, value, [one, other], &values));
            steps_reported.extend([0, 1]);
            continue;
        }
        let place = place_of(garment, value, odd.at + 1).unwrap_or(named.span);
        let warning = worded(garment, &named.name, &odd, &values, place);
        let warning = if place == named.span { warning } else { warning.also(named.span, "in this row") };
        diagnostics
            .push(warning.help("look for a slip in the table; if it is meant so, nothing needs to change"));
        steps_reported.extend([odd.at.saturating_sub(1), odd.at, odd.at + 1]);
    }
    let steep_rows = body_rows(garment, sizes).chain(listed_rows(garment, sizes));
    let steep_rows: Vec<Diagnostic> =
        steep_rows.filter_map(|(value, values)| steep(garment, value, &values)).collect();
    // What is drawn to such a row goes the same way.
    if !steep_rows.is_empty() {
        return diagnostics.extend(steep_rows);
    }
    // Of a piece that could not be drawn in a size no edge shows what the figure of that size does.
    let is_undrawn = |paper: PaperId| {
        let drawn = sizes.iter().filter(|size| size.drawn.paper(paper).is_some()).count();
        drawn > 0 && drawn < sizes.len()
    };
    if (0..garment.papers.len()).map(PaperId::from_index).any(is_undrawn) {
        let beside = |(value, values): (usize, Vec<f64>)| {
            turns_back(&values).map(|at| beside_the_row(garment, value, at, &values))
        };
        diagnostics.extend(listed_rows(garment, sizes).filter_map(beside));
    }
    let mut edges_reported: Vec<(EdgeId, Vec<f64>)> = Vec::new();
    // Looked at only once an edge is odd: what a maker lists for each size may go as it likes.
    let mut listed: Option<Vec<(usize, Vec<f64>, Odd)>> = None;
    for (edge, lengths) in edges(garment, sizes) {
        let Some(odd) = oddest(&lengths, EDGE_SLACK, true) else { continue };
        // A slip in the table shows in every edge that hangs on it; once is enough.
        if steps_reported.contains(&odd.at) || garment.edge(edge).copied_from.is_some() {
            continue;
        }
        let listed = listed.get_or_insert_with(|| {
            let rows = listed_rows(garment, sizes);
            rows.filter_map(|(value, values)| {
                oddest(&values, EDGE_SLACK, true).map(|odd| (value, values, odd))
            })
            .collect()
        });
        if let Some((value, values, own)) = listed.iter().find(|(_, _, own)| own.at == odd.at) {
            let named = &garment.values[*value];
            let place = place_of(garment, *value, own.at + 1).unwrap_or(named.span);
            let warning = worded(garment, &named.name, own, values, place).also(named.span, "in this row");
            diagnostics.push(warning.help(
                "look for a slip in its figures: edges that are drawn to it go the same way; if it is meant so, nothing needs \
                 to change",
            ));
            steps_reported.extend([odd.at.saturating_sub(1), odd.at, odd.at + 1]);
            continue;
        }
        let piece = garment.edge(edge).piece;
        let same = |(other, others): &(EdgeId, Vec<f64>)| {
            *other == edge
                || garment.edge(*other).piece == piece
                    && others.iter().zip(&lengths).all(|(a, b)| (a - b).abs() < 0.01)
        };
        if edges_reported.iter().any(same) {
            continue;
        }
        let warning = worded(garment, &words::edge(garment, edge), &odd, &lengths, garment.edge(edge).span);
        diagnostics.push(match zip_step(garment, sizes, edge, &odd) {
            Some((closure, from, to)) => by_zip(garment, warning, closure, from, to),
            None => warning.help(
                "look at the figures that this edge depends on; if it is meant so, nothing needs to change",
            ),
        });
        edges_reported.push((edge, lengths));
    }
}

/// The zip for which the edge was lengthened or shortened, with its lengths in the two sizes, where the
/// odd step is the zip's: it goes the same way, by at least half as much.
fn zip_step(
    garment: &Garment,
    sizes: &[WorkedSize],
    edge: EdgeId,
    odd: &Odd,
) -> Option<(ClosureId, f64, f64)> {
    // Where the zip fits as it is, nothing is lengthened: either size may show it.
    let both = [sizes.get(odd.at)?, sizes.get(odd.at + 1)?];
    let drawn = both.into_iter().flat_map(|size| size.drawn.papers.iter().flatten());
    let touched: Vec<AlterationId> = drawn
        .flat_map(|drawn| &drawn.edges)
        .filter(|drawn| drawn.edge == edge)
        .flat_map(|drawn| drawn.touched.iter().copied())
        .collect();
    (0..garment.closures.len()).find_map(|at| {
        let zip = |size: usize| sizes.get(size)?.drawn.zips.get(at).copied().flatten();
        let (from, to) = (zip(odd.at)?, zip(odd.at + 1)?);
        let is_for_it = from.solved_by.or(to.solved_by).is_some_and(|by| touched.contains(&by));
        // In sizes whose zip is the same the edge is held back, and catches up at the zip's next step.
        let is_its_step = (to.zip - from.zip).abs() > EDGE_SLACK || zips_step(sizes, at);
        (is_for_it && is_its_step).then_some((from.closure, from.zip, to.zip))
    })
}

/// Whether a zip's length grows by other steps than even ones.
fn zips_step(sizes: &[WorkedSize], closure: usize) -> bool {
    let lengths = sizes.iter().filter_map(|sized| sized.drawn.zips.get(closure).copied().flatten());
    let lengths: Vec<f64> = lengths.map(|fit| fit.zip).collect();
    let steps: Vec<f64> = lengths.windows(2).map(|two| two[1] - two[0]).collect();
    steps.windows(2).any(|two| (two[1] - two[0]).abs() > EDGE_SLACK)
}

/// Reports that the zip makes the step.
fn by_zip(garment: &Garment, warning: Diagnostic, closure: ClosureId, from: f64, to: f64) -> Diagnostic {
    let closure = garment.closure(closure);
    let (before, after) = (amount(from, garment.unit), amount(to, garment.unit));
    let step = match (to - from).abs() > EDGE_SLACK {
        true => format!("its zip goes from {before} to {after} between them"),
        false => format!("its zip is {before} in both, and steps elsewhere"),
    };
    warning.also(closure.kind_span, step).help(format!(
        "the edge follows the zip of {}, whose lengths do not grow as the sizes do: stock lengths nearer to each \
         other, or give the zip a length for each size; if it is meant so, nothing needs to change",
        closure.name
    ))
}

/// A row that grows evenly by more than half of its first figure, or for grown-ups by a fifth: the step has its decimal point where it was not meant.
fn steep(garment: &Garment, value: usize, values: &[f64]) -> Option<Diagnostic> {
    let [first, second, .., last] = values else { return None };
    let step = second - first;
    let even = (last - first) / (values.len() - 1) as f64;
    let is_even =
        values.windows(2).all(|two| matches!(two, [one, other] if (other - one - even).abs() < SAME));
    // What is drawn to no body is a cloth or a bag, of any length.
    let is_worn = garment.values.iter().any(|value| matches!(value.kind, ValueKind::Body(_)));
    let is_grown_up = is_worn && garment.wearer.ages.is_none_or(|(from, _)| from >= GROWN_UP);
    let is_over = |share: f64, least: f64| step >= share * first && step >= least;
    let is_steep = is_over(STEEP, LEAST_STEEP);
    if !is_even
        || *first <= 0.0
        || !(is_steep || is_grown_up && is_over(STEEP_FOR_GROWN_UPS, LEAST_STEEP_FOR_GROWN_UPS))
    {
        return None;
    }
    let named = garment.values.get(value)?;
    let (from, by) = (amount(*first, garment.unit), amount(step, garment.unit));
    let title = format!("{} is {from} in the first size and grows by {by} to each next one", named.name);
    let mut warning = Diagnostic::new(&catalogue::SIZE_IRREGULAR, named.span, title)
        .label(match is_steep {
            true => "by more than half from size to size",
            false => "by more than a fifth from size to size",
        })
        .help("look for a slip in its step; if it is meant so, nothing needs to change");
    warning.sizes = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    warning.table = Some(table(garment, &named.name, values));
    Some(warning)
}

/// The step from size `at` to the next is odd.
struct Odd {
    at: usize,
    from: f64,
    to: f64,
}

fn body_rows<'a>(
    garment: &'a Garment,
    sizes: &'a [WorkedSize],
) -> impl Iterator<Item = (usize, Vec<f64>)> + 'a {
    let rows = garment.values.iter().enumerate();
    rows.filter(|(_, value)| matches!(value.kind, ValueKind::Body(_))).filter_map(move |(at, _)| {
        let values: Option<Vec<f64>> =
            sizes.iter().map(|size| size.drawn.values.get(at).copied().flatten()?.scalar()).collect();
        Some((at, values?))
    })
}

/// Every edge that all sizes have, with its lengths.
fn edges(garment: &Garment, sizes: &[WorkedSize]) -> Vec<(EdgeId, Vec<f64>)> {
    let mut all = Vec::new();
    for paper in (0..garment.papers.len()).map(PaperId::from_index) {
        let drawn: Option<Vec<_>> = sizes.iter().map(|size| size.drawn.paper(paper)).collect();
        let Some(drawn) = drawn else { continue };
        let Some(first) = drawn.first() else { continue };
        for edge in first.edges.iter().map(|edge| edge.edge) {
            let lengths: Option<Vec<f64>> =
                drawn.iter().map(|drawn| drawn.edge(edge).map(|edge| edge.path.length())).collect();
            all.extend(lengths.map(|lengths| (edge, lengths)));
        }
    }
    all
}

/// The oddest step, if one is: one that goes back, else one that jumps. Where `either_way`, an
/// edge that shrinks in most sizes is drafted so; only one that goes against the others is odd.
fn oddest(values: &[f64], slack: f64, either_way: bool) -> Option<Odd> {
    let steps: Vec<f64> = values.windows(2).map(|two| two[1] - two[0]).collect();
    let odd = |at: usize| Some(Odd { at, from: *values.get(at)?, to: *values.get(at + 1)? });
    let growing = steps.iter().filter(|step| **step > 0.0).count() * 2;
    let grows = !either_way || steps.len() > 1 && growing > steps.len();
    // As many steps up as down is neither: a size between two others stands out.
    let goes_both_ways = steps.iter().any(|step| *step > slack) && steps.iter().any(|step| *step < -slack);
    if !grows && growing == steps.len() && goes_both_ways {
        let largest = steps.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        return largest.and_then(|(at, _)| odd(at));
    }
    if grows {
        let back = steps.iter().enumerate().filter(|(_, step)| **step < -slack);
        if let Some((at, _)) = back.min_by(|a, b| a.1.total_cmp(b.1)) {
            return odd(at);
        }
    }
    let jumps = steps.iter().enumerate().filter_map(|(at, step)| {
        let mut others: Vec<f64> =
            steps.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, step)| step.abs()).collect();
        others.sort_by(f64::total_cmp);
        let middle = *others.get(others.len() / 2)?;
        (middle > 0.0 && *step > LEAST_JUMP && *step > JUMP * middle).then_some((at, step / middle))
    });
    jumps.max_by(|a, b| a.1.total_cmp(&b.1)).and_then(|(at, _)| odd(at))
}

/// A value between two others that makes one step short and the next long, where the middle of those two would make
/// all steps of the row alike: a figure mistyped by not so much that it stands out.
fn misplaced(values: &[f64]) -> Option<usize> {
    let inner = 1..values.len().checked_sub(1).filter(|_| values.len() >= ENOUGH)?;
    let is_even = |steps: &[f64], most: f64| {
        let least = steps.iter().copied().fold(f64::INFINITY, f64::min);
        least > 0.0 && steps.iter().copied().fold(0.0, f64::max) <= most * least
    };
    let steps = |values: &[f64]| values.windows(2).map(|two| two[1] - two[0]).collect::<Vec<f64>>();
    let off = |at: usize| {
        let (before, is, after) = (*values.get(at - 1)?, *values.get(at)?, *values.get(at + 1)?);
        let middle = (before + after) / 2.0;
        let mut mended = values.to_vec();
        *mended.get_mut(at)? = middle;
        let is_odd = !is_even(&[is - before, after - is], JUMP) && is > before && after > is;
        let off = (is - middle).abs();
        (is_odd && off > LEAST_JUMP && is_even(&steps(&mended), EVEN)).then_some((at, off))
    };
    inner.filter_map(off).max_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at)
}

/// A value that is more than both its neighbours, or less, where the middle of those would make all steps alike.
fn spike(values: &[f64]) -> Option<usize> {
    let inner = 1..values.len().checked_sub(1).filter(|_| values.len() >= ENOUGH)?;
    let stands_out = |at: usize| {
        let (before, is, after) = (*values.get(at - 1)?, *values.get(at)?, *values.get(at + 1)?);
        let mut mended = values.to_vec();
        *mended.get_mut(at)? = (before + after) / 2.0;
        let steps: Vec<f64> = mended.windows(2).map(|two| two[1] - two[0]).collect();
        let (least, most) = steps
            .iter()
            .fold((f64::INFINITY, 0.0_f64), |(least, most), step| (least.min(*step), most.max(*step)));
        let is_even = least > 0.0 && most <= EVEN * least;
        (is_even && is > after + LEAST_JUMP).then_some(at)
    };
    inner.filter_map(stands_out).next()
}

/// A value that is less than both its neighbours, or more.
fn turns_back(values: &[f64]) -> Option<usize> {
    let stands_out = |three: &[f64]| {
        let &[before, is, after] = three else { return false };
        let (low, high) = (before.min(after) - LEAST_JUMP, before.max(after) + LEAST_JUMP);
        is < low || is > high
    };
    values.windows(3).position(stands_out).map(|at| at + 1)
}

/// The rows that a `let` lists a figure a size for.
fn listed_rows<'a>(
    garment: &'a Garment,
    sizes: &'a [WorkedSize],
) -> impl Iterator<Item = (usize, Vec<f64>)> + 'a {
    let rows = garment.values.iter().enumerate();
    let is_listed = |value: &Value| {
        let is_list = |said: &Expression| matches!(said.node, Node::EachSize(_));
        value.dimension == Dimension::Length && matches!(&value.kind, ValueKind::Let(said) if is_list(said))
    };
    rows.filter(move |(_, value)| is_listed(value)).filter_map(move |(at, _)| {
        let values: Option<Vec<f64>> =
            sizes.iter().map(|size| size.drawn.values.get(at).copied().flatten()?.scalar()).collect();
        Some((at, values?))
    })
}

/// Of two steps of which one is longer than it should be beside the other nobody can tell which is wrong, unless the
/// one is so much longer that it is.
fn either_odd(values: &[f64]) -> Option<(f64, f64)> {
    let [first, second, third] = values else { return None };
    let (one, other) = (second - first, third - second);
    let (short, long) = (one.min(other), one.max(other));
    (short > 0.0 && long <= CLEARLY * short).then_some((one, other))
}

/// Reports a value that lies beside the row.
fn beside_the_row(garment: &Garment, value: usize, at: usize, values: &[f64]) -> Diagnostic {
    let named = &garment.values[value];
    let size = |at: usize| garment.sizes.get(at).map_or(String::new(), |size| size.name.to_string());
    let shown = |at: usize| values.get(at).map_or(String::new(), |mm| amount(*mm, garment.unit));
    let title = format!(
        "{} lies beside its row in size {}: {}, after {} and before {}",
        named.name,
        size(at),
        shown(at),
        shown(at - 1),
        shown(at + 1)
    );
    let middle = values.get(at - 1).zip(values.get(at + 1)).map_or(0.0, |(one, other)| (one + other) / 2.0);
    let place = place_of(garment, value, at).unwrap_or(named.span);
    let warning = Diagnostic::new(&catalogue::SIZE_IRREGULAR, place, title)
        .label(format!("{} would lie in the middle", amount(middle, garment.unit)));
    let mut warning = if place == named.span { warning } else { warning.also(named.span, "in this row") };
    warning.sizes = vec![size(at)];
    warning.table = Some(table(garment, &named.name, values));
    warning.help("look for a slip in the table; if it is meant so, nothing needs to change")
}

/// Reports two steps of which either may be wrong.
fn uneven(garment: &Garment, value: usize, steps: [f64; 2], values: &[f64]) -> Diagnostic {
    let named = &garment.values[value];
    let sizes: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let [one, other] = steps.map(|step| amount(step, garment.unit));
    let size = |at: usize| sizes.get(at).map_or("", String::as_str);
    let title = format!(
        "{} grows unevenly: by {one} from size {} to {}, and by {other} from {} to {}",
        named.name,
        size(0),
        size(1),
        size(1),
        size(2)
    );
    let mut warning = Diagnostic::new(&catalogue::SIZE_IRREGULAR, named.span, title)
        .label(format!("{one}, then {other}"))
        .help("look for a slip in its figures: any of the three may be wrong; if it is meant so, nothing needs to change");
    warning.table = Some(table(garment, &named.name, values));
    warning.sizes = sizes;
    warning
}

fn worded(garment: &Garment, name: &str, odd: &Odd, values: &[f64], place: Span) -> Diagnostic {
    let size = |at: usize| garment.sizes.get(at).map_or(String::new(), |size| size.name.to_string());
    let (from, to) = (amount(odd.from, garment.unit), amount(odd.to, garment.unit));
    let verb = if odd.to < odd.from { "shrinks" } else { "jumps" };
    let title =
        format!("{name} {verb} from size {} to {}: {from}, then {to}", size(odd.at), size(odd.at + 1));
    let mut warning = Diagnostic::new(&catalogue::SIZE_IRREGULAR, place, title);
    warning = warning.label(format!("{to} in {}", size(odd.at + 1)));
    warning.sizes = vec![size(odd.at), size(odd.at + 1)];
    warning.table = Some(table(garment, name, values));
    warning
}

/// The whole row, with its steps.
fn table(garment: &Garment, name: &str, values: &[f64]) -> SizeTable {
    let size = |at: usize| garment.sizes.get(at).map_or(String::new(), |size| size.name.to_string());
    let mut before: Option<f64> = None;
    let rows = values.iter().enumerate().map(|(at, &value)| {
        let step = before.map_or(String::new(), |before| amount(value - before, garment.unit));
        before = Some(value);
        (size(at), vec![amount(value, garment.unit), step])
    });
    SizeTable { columns: vec![name.to_owned(), "step".to_owned()], rows: rows.collect() }
}

/// Where the figure of one size stands in the table.
fn place_of(garment: &Garment, value: usize, size: usize) -> Option<Span> {
    match &garment.values.get(value)?.kind {
        ValueKind::Body(expression) | ValueKind::Let(expression) => match &expression.node {
            Node::EachSize(list) => list.get(size).map(|one| one.span),
            _ => None,
        },
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{either_odd, misplaced, oddest};

    fn at(values: &[f64], either_way: bool) -> Option<usize> {
        oddest(values, 1.0, either_way).map(|odd| odd.at)
    }

    #[test]
    fn even_and_widening_steps_are_regular() {
        assert_eq!(at(&[880.0, 960.0, 1040.0, 1140.0, 1260.0], false), None);
        // Chest girths of EN 13402-3 as the crew's table has them: the last step is the widest.
        assert_eq!(at(&[820.0, 900.0, 980.0, 1060.0, 1140.0, 1235.0], false), None);
    }

    #[test]
    fn swapped_digits_go_back_or_jump() {
        assert_eq!(at(&[880.0, 960.0, 140.0, 1140.0, 1260.0], false), Some(1));
        assert_eq!(at(&[800.0, 880.0, 960.0, 1460.0], false), Some(2));
    }

    #[test]
    fn a_figure_beside_an_even_row_is_found() {
        // 8, 8, 10 with 84 typed as 80: 8, 4, 14.
        assert_eq!(misplaced(&[680.0, 760.0, 800.0, 940.0]), Some(2));
        assert_eq!(misplaced(&[680.0, 760.0, 840.0, 940.0]), None);
        // Girths of EN 13402-3 change their step once, and lie beside no row.
        assert_eq!(misplaced(&[680.0, 720.0, 760.0, 800.0, 840.0, 880.0, 940.0, 1005.0]), None);
    }

    #[test]
    fn of_two_steps_either_may_be_wrong() {
        assert_eq!(either_odd(&[550.0, 570.0, 575.0]), Some((20.0, 5.0)));
        assert_eq!(either_odd(&[550.0, 570.0, 950.0]), None);
        assert_eq!(either_odd(&[550.0, 570.0, 560.0]), None);
    }

    #[test]
    fn an_edge_that_shrinks_in_every_size_is_drafted_so() {
        assert_eq!(at(&[300.0, 295.0, 290.0], true), None);
        assert_eq!(at(&[300.0, 310.0, 300.0, 320.0], true), Some(1));
        assert_eq!(at(&[230.0, 350.0, 270.0], true), Some(0));
        assert_eq!(at(&[350.0, 230.0, 270.0], true), Some(0));
        assert_eq!(at(&[300.0, 310.0, 309.5], true), None);
    }
}
