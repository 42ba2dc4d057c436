//! `measure/outrun`: a measure that is reckoned from what the pieces were drafted by, where an
//! alteration has changed the pieces since.
//!
//! Such a measure names no piece, only values that a piece is drawn by. It is outrun where it is as long
//! as an edge, or as high as a piece, was in every size before it was altered, and that is longer or
//! shorter now.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Alteration, AlterationId, Change, Expression, Garment, Need, PaperId, Used, ValueId, ValueKind,
};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, amount, catalogue};
use crate::resolve::{DrawnPiece, SizedGarment, extents};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::MEASURE_OUTRUN], run: Run::OverSizes(run) };

/// How far a measure may be from what it is taken for, in millimetres.
const SAME: f64 = 0.1;

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let sizes: Vec<&SizedGarment> = sizes.iter().map(|size| &size.drawn).collect();
    let sizes = sizes.as_slice();
    for (at, value) in garment.values.iter().enumerate() {
        let ValueKind::Measure { value: measured, .. } = &value.kind else { continue };
        let Some(of_measure) = values_of(garment, [measured]) else { continue };
        let known: Option<Vec<f64>> =
            sizes.iter().map(|sized| sized.scalar(ValueId::from_index(at))).collect();
        let Some(known) = known.filter(|_| !of_measure.is_empty()) else { continue };
        let papers = (0..garment.papers.len()).map(PaperId::from_index);
        let altered = papers.filter(|&paper| !garment.paper(paper).alterations.is_empty());
        let found = altered.filter(|&paper| is_drawn_by(garment, paper, &of_measure)).find_map(|paper| {
            let drawn: Option<Vec<&DrawnPiece>> =
                sizes.iter().map(|sized| sized.papers.get(paper.index())?.as_deref()).collect();
            outrun(garment, sizes, paper, &drawn?, &known)
        });
        let found = found.or_else(|| girth(garment, sizes, &of_measure, &known));
        if let Some(found) = found {
            diagnostics.push(worded(garment, sizes, at, &known, &found));
        }
    }
}

/// The named values that expressions hang on, also through others; none where a piece is measured:
/// that is the piece as it is in the end.
fn values_of<'e>(
    garment: &'e Garment,
    expressions: impl IntoIterator<Item = &'e Expression>,
) -> Option<IdSet<ValueId>> {
    let mut found: IdSet<ValueId> = IdSet::default();
    let mut open: Vec<&Expression> = expressions.into_iter().collect();
    while let Some(expression) = open.pop() {
        for used in expression.uses() {
            let Used::Value(id) = used else { return None };
            if found.insert(id)
                && let Some(value) = garment.values.get(id.index())
                && let ValueKind::Let(own) = &value.kind
            {
                open.push(own);
            }
        }
    }
    Some(found)
}

/// Whether the piece of a paper is drawn by one of these values.
fn is_drawn_by(garment: &Garment, paper: PaperId, values: &IdSet<ValueId>) -> bool {
    let drawing = &garment.piece(garment.paper(paper).piece).drawing;
    drawing.expressions().flat_map(Expression::uses).any(|used| match used {
        Used::Value(id) => {
            let through = garment.values.get(id.index()).map(|value| &value.kind);
            values.contains(&id)
                || matches!(through, Some(ValueKind::Let(own))
                    if values_of(garment, [own]).is_some_and(|own| !own.is_disjoint(values)))
        }
        _ => false,
    })
}

/// What a measure was, and is no longer.
struct Outrun {
    /// "the side of Front is", "Front is … high": before and after the figure.
    subject: String,
    now: Vec<f64>,
    by: AlterationId,
}

fn outrun(
    garment: &Garment,
    sizes: &[&SizedGarment],
    paper: PaperId,
    drawn: &[&DrawnPiece],
    known: &[f64],
) -> Option<Outrun> {
    let first = drawn.first()?;
    for edge in &first.edges {
        let lengths: Option<Vec<f64>> =
            drawn.iter().map(|drawn| Some(drawn.edge(edge.edge)?.path.length())).collect();
        let Some(now) = lengths else { continue };
        let grown = grown(garment, sizes, &edge.touched, |alteration| {
            matches!(alteration.form()?.change, Change::Grow | Change::Shrink).then_some(())
        });
        if let Some(by) = is_outrun(garment, known, &now, &grown) {
            return Some(Outrun { subject: words::edge(garment, edge.edge), now, by });
        }
    }
    let heights: Option<Vec<f64>> = drawn.iter().map(|drawn| Some(extents(drawn)?.height())).collect();
    let now = heights?;
    let grown = grown(garment, sizes, &garment.paper(paper).alterations, |alteration| {
        let form = alteration.form()?;
        (form.needs == Need::LineAcross && matches!(form.change, Change::Grow | Change::Shrink)).then_some(())
    });
    let by = is_outrun(garment, known, &now, &grown)?;
    Some(Outrun { subject: format!("the height of {}", words::piece(garment, first.piece)), now, by })
}

/// The width of a paper opened out, over all its copies, in each size.
struct Girth {
    paper: PaperId,
    /// As it was drafted.
    before: Vec<f64>,
    now: Vec<f64>,
    /// What changed it last.
    by: Option<AlterationId>,
}

/// A girth: the width of a piece opened out, over all its copies, or of two pieces together.
fn girth(
    garment: &Garment,
    sizes: &[&SizedGarment],
    of_measure: &IdSet<ValueId>,
    known: &[f64],
) -> Option<Outrun> {
    let papers = || (0..garment.papers.len()).map(PaperId::from_index);
    let widths = |paper: PaperId, drafted: bool| -> Option<Vec<f64>> {
        let width = |sized: &&SizedGarment| {
            let first = sized.drafted.get(paper.index())?.as_deref().filter(|_| drafted);
            let drawn = first.or(sized.paper(paper))?;
            Some(extents(drawn)?.width() * f64::from(drawn.count))
        };
        sizes.iter().map(width).collect()
    };
    // Of each paper its girth as it was drafted and as it is now, and what changed it last.
    let mut all: Vec<Girth> = Vec::new();
    for paper in papers().filter(|&paper| is_drawn_by(garment, paper, of_measure)) {
        let (Some(before), Some(now)) = (widths(paper, true), widths(paper, false)) else { continue };
        let has_changed =
            before.iter().zip(&now).any(|(before, now)| (before - now).abs() > garment.tolerance);
        let by = garment.paper(paper).alterations.last().copied().filter(|_| has_changed);
        all.push(Girth { paper, before, now, by });
    }
    let is_known =
        |before: &[f64]| before.iter().zip(known).all(|(before, known)| (before - known).abs() <= SAME);
    let piece = |paper: PaperId| words::piece(garment, garment.paper(paper).piece);
    for (at, Girth { paper, before, now, by }) in all.iter().enumerate() {
        if let Some(by) = by.filter(|_| is_known(before)) {
            let subject = format!("the width of {}", piece(*paper));
            return Some(Outrun { subject, now: now.clone(), by });
        }
        for Girth { paper: other, before: other_before, now: other_now, by: other_by } in
            all.iter().skip(at + 1)
        {
            if garment.paper(*paper).layer != garment.paper(*other).layer {
                continue;
            }
            let sum = |one: &[f64], other: &[f64]| -> Vec<f64> {
                one.iter().zip(other).map(|(one, other)| one + other).collect()
            };
            if let Some(by) = other_by.or(*by).filter(|_| is_known(&sum(before, other_before))) {
                let subject = format!("the width of {} and {} together", piece(*paper), piece(*other));
                return Some(Outrun { subject, now: sum(now, other_now), by });
            }
        }
    }
    None
}

/// By how much alterations have made something longer in each size, and the last of them that did.
struct Grown {
    by: Vec<f64>,
    last: Option<AlterationId>,
}

fn grown(
    garment: &Garment,
    sizes: &[&SizedGarment],
    alterations: &[AlterationId],
    counts: impl Fn(&Alteration) -> Option<()>,
) -> Grown {
    let mut grown = Grown { by: vec![0.0; sizes.len()], last: None };
    for &id in alterations {
        let alteration = garment.alteration(id);
        let Some(kind) = alteration.kind.filter(|_| counts(alteration).is_some()) else { continue };
        for (sized, sum) in sizes.iter().zip(&mut grown.by) {
            let amount = sized.amounts.get(id.index()).copied().flatten();
            *sum += kind.way() * amount.unwrap_or(f64::NAN);
        }
        grown.last = Some(id);
    }
    grown
}

fn is_outrun(garment: &Garment, known: &[f64], now: &[f64], grown: &Grown) -> Option<AlterationId> {
    let before = now.iter().zip(&grown.by).map(|(now, by)| now - by);
    let was_it = before.zip(known).all(|(before, known)| (before - known).abs() <= SAME);
    let has_grown = grown.by.iter().any(|by| by.abs() > garment.tolerance);
    grown.last.filter(|_| was_it && has_grown)
}

fn worded(
    garment: &Garment,
    sizes: &[&SizedGarment],
    at: usize,
    known: &[f64],
    found: &Outrun,
) -> Diagnostic {
    let value = &garment.values[at];
    let shown = |mm: f64| amount(mm, garment.unit);
    let apart = |size: &usize| match (known.get(*size), found.now.get(*size)) {
        (Some(known), Some(now)) => (known - now).abs(),
        _ => 0.0,
    };
    let worst = (0..known.len()).max_by(|a, b| apart(a).total_cmp(&apart(b))).unwrap_or(0);
    let figure = |all: &[f64]| all.get(worst).map_or(String::new(), |mm| shown(*mm));
    let size = match garment.sizes.get(worst) {
        Some(size) if sizes.len() > 1 => format!(" in {}", size.name),
        _ => String::new(),
    };
    let label = value.label.as_deref().unwrap_or(&value.name);
    let title = format!(
        "{label} still says what was drafted, {}{size}, but {} is {} now",
        figure(known),
        found.subject,
        figure(&found.now)
    );
    let alteration = garment.alteration(found.by);
    let done = alteration.form().map_or("altered", |form| form.participle);
    Diagnostic::new(&catalogue::MEASURE_OUTRUN, alteration.span, title)
        .label(format!("{done} here"))
        .also(value.span, "reckoned from what the piece was drafted by")
        .help(format!(
            "let {} measure the piece itself, by length(…), total(…) or height(…): then it follows every alteration",
            value.name
        ))
}
