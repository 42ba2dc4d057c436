//! `seam/unequal`, `alter/one-side` and `seam/plies`: sides and plies that must be equal.

use super::brackets;
use super::copies::{TooFew, TooSeldom, too_few};
use super::one_side;
use super::placket;
use super::sides::{Sides, each, in_size, length, ply_span};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, CutHow, EdgeId, Garment, PieceId, Seam};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::{Sewing, SewnPly, SewnRun, SewnSeam};

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::SEAM_UNEQUAL, &catalogue::ALTER_ONE_SIDE, &catalogue::SEAM_PLIES],
    run: Run::PerSize(run),
};

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut seldom = None;
    for (seam, sewn) in each(garment, sewing) {
        let by = length(&sewn.first) - length(&sewn.second);
        let is_off = sewn.fit.is_none() && by.abs() > garment.tolerance
            || sewn.first.plies.len().max(sewn.second.plies.len()) > 1;
        // One count that is wrong is told once, at the first of the seams that it spoils.
        if is_off && seldom.get_or_insert_with(|| TooSeldom::new(garment, sized, sewing)).explains(sewn) {
            continue;
        }
        let uneven = plies(garment, size, seam, sewn);
        let is_even = uneven.is_none();
        findings.extend(uneven);
        if sewn.fit.is_none() && is_even && by.abs() > garment.tolerance {
            let unfilled = placket::unfilled(garment, sized, seam, sewn);
            findings.push(unfilled.unwrap_or_else(|| unequal(garment, sized, sewing, seam, sewn)));
        }
    }
}

/// The figures of a seam, side by side.
pub(super) fn figures(garment: &Garment, finding: Finding, sides: &Sides, sewn: &SewnSeam) -> Finding {
    let unit = garment.unit;
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    finding
        .figure(&sides.first, amount(first, unit))
        .figure(&sides.second, amount(second, unit))
        .figure("difference", amount(first - second, unit))
}

fn unequal(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    sewn: &SewnSeam,
) -> Finding {
    let unit = garment.unit;
    let sides = Sides::of(garment, seam);
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    let by = first - second;
    let seldom = too_few(garment, sized, sewing, sewn);
    let mut difference = sides.longer(by > 0.0, &amount(by.abs(), unit));
    if let Some(seldom) = seldom.as_ref().filter(|_| !seam.by_split) {
        difference.push_str(&format!(", which is {}", seldom.is));
    }
    let piece = sewn.left.map_or_else(String::new, |(which, many)| {
        format!(" in piece {which} of the {many} that are left of it")
    });
    let title = Title::new(format!("{} does not match{piece}", seam.words()))
        .in_any_size()
        .then(format!(": {difference}"));
    let size = in_size(garment, sized);
    let (one, other) = (format!("{}{size}", amount(first, unit)), format!("{}{size}", amount(second, unit)));
    let (first_span, second_span) = (ply_span(seam, false, 0), ply_span(seam, true, 0));
    let altered = one_side::altered(garment, sized, sewing, sewn, by);
    // What one alteration did to a seam is told once of all layers, and of what is left of it only where no layer has all.
    let (about, weight) = match (&altered, sewn.left) {
        (Some(_), None) => (seam.name.to_string(), by.abs()),
        (Some(_), Some(_)) => (seam.name.to_string(), by.abs() - garment.tolerance),
        (None, _) => (subject(garment, seam, sewn), by.abs()),
    };
    let diagnostic = match altered {
        Some(altered) => {
            let diagnostic = Diagnostic::new(&catalogue::ALTER_ONE_SIDE, altered.span, title)
                .label(altered.label)
                .also(first_span, one)
                .also(second_span, other)
                .help(altered.help);
            match altered.fix {
                Some((title, at, words)) => diagnostic.fix(title, vec![(at, words)]),
                None => diagnostic,
            }
        }
        None => {
            let mut plain = Diagnostic::new(&catalogue::SEAM_UNEQUAL, first_span, title).label(one);
            if seam.by_split {
                plain = plain.help("the two pieces of a split meet along the line: alter both or neither");
            } else {
                let otherwise = way_out(&sides, by, &amount(by.abs(), unit));
                let otherwise = match in_a_row(garment, sized, sewing, sewn) {
                    Some(copies) => format!("{copies}; or {otherwise}"),
                    None => otherwise,
                };
                plain = plain.also(second_span, other);
                plain = match too_many(garment, sized, sewing, sewn).filter(|_| seldom.is_none()) {
                    Some((piece, count)) => {
                        let own = garment.piece(piece);
                        let all = if count == 2 { "both".to_owned() } else { format!("all {count}") };
                        plain.also(own.cut.span, format!("{count} cut")).help(format!(
                            "{all} of {} are sewn there end to end: write cut 1; or {otherwise}",
                            own.name
                        ))
                    }
                    None => or_more_of_it(plain, seldom, otherwise),
                };
            }
            plain
        }
    };
    figures(garment, Finding::new(sized.size, weight, diagnostic).about(about), &sides, sewn)
}

/// The piece of which a side takes all copies end to end, where one of them alone would fit; and how many are cut.
fn too_many(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &SewnSeam,
) -> Option<(PieceId, usize)> {
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    let (longer, long, short) =
        if first > second { (&sewn.first, first, second) } else { (&sewn.second, second, first) };
    let [ply] = longer.plies.as_slice() else { return None };
    let part = sewing.part(ply.runs.first()?.part).part;
    let drawn = sized.paper(part.paper)?;
    let count = drawn.count as usize;
    let is_own = ply.runs.iter().all(|run| sewing.part(run.part).part.piece == part.piece);
    let edges: IdSet<DrawnEdgeId> = ply.runs.iter().map(|run| run.edge).collect();
    let is_all = ply.runs.len() == count * edges.len() && !matches!(drawn.cut, CutHow::OnFold(_));
    let fits = (long - short * count as f64).abs() <= garment.tolerance;
    (count > 1 && is_own && is_all && fits && sewn.sewings == 1 && edges.len() > 1)
        .then_some((part.piece, count))
}

/// With the way out, or a better one first: that a piece is cut too seldom.
pub(super) fn or_more_of_it(
    diagnostic: Diagnostic,
    too_few: Option<TooFew>,
    otherwise: String,
) -> Diagnostic {
    match too_few {
        Some(TooFew { help, cut, .. }) => {
            diagnostic.also(cut.span, cut.text).help(format!("{help}; or {otherwise}"))
        }
        None => diagnostic.help(otherwise),
    }
}

/// One message a seam, or one for each layer that it differs in.
pub(super) fn subject(garment: &Garment, seam: &Seam, sewn: &SewnSeam) -> String {
    let layers: Vec<&str> = sewn.layers.iter().map(|&layer| &*garment.layer(layer).name).collect();
    let piece = sewn.left.map_or_else(String::new, |(which, _)| format!(" {which}"));
    format!("{} {}{piece}", seam.name, layers.join(" "))
}

/// What to write, where a side that takes all copies of a piece end to end would fit if they lay on one another: the
/// upper and the under one of two collars.
fn in_a_row(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, sewn: &SewnSeam) -> Option<String> {
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    let (longer, shorter) = if first > second { (&sewn.first, second) } else { (&sewn.second, first) };
    let [ply] = longer.plies.as_slice() else { return None };
    let run = ply.runs.first()?;
    let part = sewing.part(run.part).part;
    let drawn = sized.paper(part.paper)?;
    let of_drawing = |run: &SewnRun| (sewing.left_of(run.part), run.edge);
    let is_own = ply.runs.iter().all(|own| of_drawing(own) == of_drawing(run));
    // All in a row, or each by itself on as much of the other side.
    let (copies, on) = match ply.runs.len() {
        1 => (drawn.count as usize, shorter * f64::from(sewn.sewings)),
        many => (many, shorter),
    };
    let fits = (run.length - on).abs() <= garment.tolerance;
    let can_lie = match drawn.cut {
        CutHow::Alike => true,
        // A left and a right one, unless something sews them to one another.
        CutHow::Mirrored => copies == 2 && is_sewn_to_itself(garment, part.piece),
        CutHow::OnFold(_) => false,
    };
    if copies < 2 || drawn.count as usize != copies || !can_lie || !is_own || !fits {
        return None;
    }
    let piece = garment.piece(part.piece);
    let edge = drawn.edge_at(run.edge)?.edge;
    let named = format!("{}.{}", piece.name, garment.edge(garment.whole_edge(edge)).name);
    let all = if copies == 2 { "both".to_owned() } else { format!("all {copies}") };
    Some(format!(
        "if {all} of {} lie on one another there, name one for each ply: {}",
        piece.name,
        vec![named; copies].join(" and ")
    ))
}

/// Whether a seam names an edge of the piece on both sides.
fn is_sewn_to_itself(garment: &Garment, piece: PieceId) -> bool {
    let edges = |chains: &[Chain]| -> Vec<EdgeId> {
        let own = chains.iter().flat_map(|chain| &chain.edges).filter(|sewn| sewn.piece == piece);
        own.map(|sewn| sewn.edge).collect()
    };
    garment.seams.iter().any(|seam| {
        let second = edges(&seam.second);
        edges(&seam.first).iter().any(|edge| second.contains(edge))
    })
}

fn way_out(sides: &Sides, by: f64, amount: &str) -> String {
    let (longer, shorter) = match by > 0.0 {
        true => (&sides.first, &sides.second),
        false => (&sides.second, &sides.first),
    };
    let plain = format!("make {shorter} longer or {longer} shorter by {amount}");
    match by > 0.0 {
        true => format!("{plain}; or, if the rest is meant to be eased in, say easing and how much"),
        false => {
            format!("{plain}; or, if the rest is meant to be eased in, name {longer} first and say easing")
        }
    }
}

/// Plies of one side lie on one another, so they are equal before they meet the other side.
fn plies(garment: &Garment, worked: &WorkedSize, seam: &Seam, sewn: &SewnSeam) -> Option<Finding> {
    let (sized, unit) = (&worked.drawn, garment.unit);
    for (is_second, side) in [(false, &sewn.first), (true, &sewn.second)] {
        let Some(first) = side.plies.first() else { continue };
        let away = |ply: &crate::sewing::SewnPly| (ply.length - first.length).abs();
        let others = side.plies.iter().enumerate().skip(1);
        let worst = others.max_by(|a, b| away(a.1).total_cmp(&away(b.1)));
        let Some((at, ply)) = worst.filter(|(_, ply)| away(ply) > garment.tolerance) else { continue };
        // Edges of one piece that are folded onto each other are reported as that.
        if is_folded(garment, seam, is_second, at) {
            continue;
        }
        let size = in_size(garment, sized);
        let by = amount(away(ply), unit);
        // Of a ply that lies on a part of another one that part is compared.
        let rest: f64 = ply.runs.iter().filter(|run| run.elsewhere).map(|run| run.length).sum();
        let [own, under] = [ply, first].map(|ply| amount(ply.length - rest, unit));
        let copies = caught_copies(garment, seam, (is_second, at), ply);
        let title = Title::new(format!("plies on one side of {} differ by {by}", seam.words())).in_sizes();
        let mistake = Diagnostic::new(&catalogue::SEAM_PLIES, ply_span(seam, is_second, at), title)
            .label(format!("{own}{size}"))
            .also(ply_span(seam, is_second, 0), format!("{under}{size}"))
            .help(match brackets::written(garment, worked, seam, is_second, side) {
                _ if let Some(help) = copies => help,
                Some(said) => format!(
                    "plies that lie on one another in a part of the seam stand in brackets: {said}; or lengthen the \
                     shorter"
                ),
                None => "plies that are sewn as one must be equal: lengthen the shorter, or sew them in two seams"
                    .to_owned(),
            });
        let finding = Finding::new(sized.size, away(ply), mistake)
            .about(subject(garment, seam, sewn))
            .figure("one ply", under)
            .figure("the other", own);
        return Some(finding);
    }
    None
}

/// What to do where a seam catches all copies of a piece end to end in the place of one.
fn caught_copies(
    garment: &Garment,
    seam: &Seam,
    (is_second, at): (bool, usize),
    ply: &SewnPly,
) -> Option<String> {
    let plies = if is_second { &seam.second } else { &seam.first };
    let chain = plies.get(at).filter(|chain| chain.over.is_some())?;
    let [caught] = chain.edges.as_slice() else { return None };
    let copies = ply.runs.iter().filter(|run| !run.elsewhere).count();
    let layer = caught.layer.map_or_else(String::new, |layer| format!("{}.", garment.layer(layer).name));
    let edge = format!("{layer}{}.{}", garment.piece(caught.piece).name, garment.edge(caught.edge).name);
    (copies > 1).then(|| {
        format!(
            "{copies} copies of {} are cut and lie there end to end: say caught {edge} once more, for a place of its own or, \
             where they lie on one another, in the same words; or cut 1",
            garment.piece(caught.piece).name
        )
    })
}

/// Whether a ply and the first one on its side are edges that their piece is folded by.
fn is_folded(garment: &Garment, seam: &Seam, is_second: bool, at: usize) -> bool {
    let plies = if is_second { &seam.second } else { &seam.first };
    let (Some([one]), Some([other])) =
        (plies.first().map(|ply| ply.edges.as_slice()), plies.get(at).map(|ply| ply.edges.as_slice()))
    else {
        return false;
    };
    let pair = (one.edge, other.edge);
    let folds = &garment.piece(one.piece).folds;
    folds.iter().any(|fold| pair == (fold.edge, fold.onto) || pair == (fold.onto, fold.edge))
}
