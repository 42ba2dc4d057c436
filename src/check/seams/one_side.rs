//! Whether a seam's difference comes from an alteration that touched one side only.

use crate::check::words;
use crate::garment::{
    Alteration, AlterationId, AlterationKind, Amount, Change, EdgeId, Expression, Garment, LayerId, LineRun,
    Need, Node, PieceId, Target,
};
use crate::once_each::once_each;
use crate::report::amount;
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::sewing::{PartId, Sewing, SewnPart, SewnSeam, SewnSide};
use crate::source::Span;
use crate::syntax::tree::{Hand, TargetForm};

/// An alteration of one side, and what is to be said of it.
pub(super) struct Altered {
    pub(super) span: Span,
    pub(super) label: String,
    pub(super) help: String,
    /// The way out as an edit, where it is a sure one.
    pub(super) fix: Option<(String, Span, String)>,
}

/// How far the difference may be from the alteration's amount, as a share of it: an edge that runs
/// aslant to the grain grows by less than the paper does, or by more.
const ASLANT: f64 = 0.25;

/// What one alteration did to one side.
#[derive(Clone, Copy)]
struct Touch {
    alteration: AlterationId,
    edges: u32,
}

/// The alteration that made the first side longer by `by`, in millimetres, than the second.
pub(super) fn altered(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &SewnSeam,
    by: f64,
) -> Option<Altered> {
    let (first, second) = (touches(sized, sewing, &sewn.first), touches(sized, sewing, &sewn.second));
    let only = |these: &[Touch], those: &[Touch], on_first: bool| -> Vec<(Touch, bool)> {
        let alone = |touch: &&Touch| those.iter().all(|other| other.alteration != touch.alteration);
        these.iter().filter(alone).map(|touch| (*touch, on_first)).collect()
    };
    let mut found: Vec<(Touch, bool)> = only(&first, &second, true);
    found.extend(only(&second, &first, false));
    found.sort_by_key(|(touch, _)| touch.alteration);
    let alone = match found.as_slice() {
        [(touch, on_first)] => {
            Some((*touch, *on_first)).filter(|_| since_drafted(garment, sized, sewing, sewn, by))
        }
        _ => None,
    };
    let by_amount = found.into_iter().rev().find(|&(touch, on_first)| {
        let alteration = garment.alteration(touch.alteration);
        let amount = sized.amounts.get(touch.alteration.index()).copied().flatten();
        alteration.kind.is_some_and(|kind| {
            explains(kind, amount, touch.edges, if on_first { by } else { -by }, garment.tolerance)
        })
    });
    let (touch, on_first) = by_amount.or(alone)?;
    let alteration = garment.alteration(touch.alteration);
    let done = alteration.form().map_or("altered", |form| form.participle);
    let (own, partner) = match on_first {
        true => (&sewn.first, &sewn.second),
        false => (&sewn.second, &sewn.first),
    };
    let own: Vec<PieceId> = touched_pieces(sized, sewing, own, touch.alteration);
    let partner_edges = named_alike(garment, sewing, partner, alteration);
    let beside = other_layer(sewing, partner, alteration);
    let partner = pieces(sewing, partner);
    let titles: Vec<String> = own.iter().map(|&piece| words::piece(garment, piece)).collect();
    let layer = alteration.targets.iter().find_map(|target| target.layer);
    let place = layer.map_or(String::new(), |layer| format!(" in {}", garment.layer(layer).name));
    let was = if titles.len() > 1 { "were" } else { "was" };
    Some(Altered {
        span: alteration.span,
        label: format!("only {}{place} {was} {}", words::listed(&titles), done),
        help: match beside {
            Some(beside) => help_in(garment, sized, touch.alteration, beside),
            None => help(garment, sized, touch.alteration, &partner, &partner_edges, layer.is_some()),
        },
        fix: if beside.is_some() { None } else { fix(garment, touch.alteration, &partner) },
    })
}

/// The other layer that a seam joins an altered piece to itself in, where the alteration names one layer alone.
fn other_layer(sewing: &Sewing, partner: &SewnSide, alteration: &Alteration) -> Option<LayerId> {
    let runs = || partner.plies.first().into_iter().flat_map(|ply| &ply.runs);
    let is_same = |target: &Target| {
        let layer = target.layer?;
        let mut others = runs().map(|run| sewing.part(run.part).part);
        others.find(|part| part.piece == target.piece && part.layer != layer).map(|part| part.layer)
    };
    alteration.targets.iter().find_map(is_same)
}

/// "lengthen lining.front, lining.back at waist by 4cm too".
fn help_in(garment: &Garment, sized: &SizedGarment, id: AlterationId, layer: LayerId) -> String {
    let alteration = garment.alteration(id);
    let by = sized.amounts.get(id.index()).copied().flatten();
    let by =
        by.map_or(String::new(), |by| format!(" by {}", words::written(&amount(by.abs(), garment.unit))));
    // What a zip takes off an edge of its own is trimmed off one in another layer by hand.
    if matches!(alteration.kind, Some(AlterationKind::ShowZip | AlterationKind::KeepBack)) {
        let has = |target: &&Target| garment.layer(layer).pieces.contains(&target.piece);
        let edge = |target: &Target| {
            format!("{}.{}", garment.part_name(Some(layer), target.piece), garment.edge(target.edge).name)
        };
        let mut edges: Vec<String> = alteration.targets.iter().filter(has).map(edge).collect();
        once_each(&mut edges);
        return format!("trim {}{by} too", edges.join(", "));
    }
    let across = alteration.form().is_some_and(|form| form.needs == Need::LineAcross);
    let line = alteration.targets.first().map(|target| &garment.edge(target.edge).name);
    let named = alteration.targets.iter().map(|target| {
        let own = garment.part_name(Some(layer), target.piece);
        if across { own } else { format!("{own}.{}", garment.edge(target.edge).name) }
    });
    let named = named.collect::<Vec<String>>().join(", ");
    let at = line.filter(|_| across).map_or(String::new(), |line| format!(" at {line}"));
    format!("{} {named}{at}{by} too; or name no layer, and all are meant", alteration.verb())
}

/// Whether an alteration explains that its side is longer by so much (shorter if less than nothing).
fn explains(kind: AlterationKind, amount: Option<f64>, edges: u32, longer: f64, tolerance: f64) -> bool {
    match kind.form().change {
        Change::Grow | Change::Shrink => amount.is_some_and(|amount| {
            let whole = amount * f64::from(edges.max(1));
            let way = kind.way();
            let near =
                |wanted: f64| (longer - way * wanted).abs() <= (ASLANT * wanted.abs()).max(2.0 * tolerance);
            near(amount) || near(whole)
        }),
        Change::Any => true,
        Change::None => false,
    }
}

/// Whether the sides differ by what alterations made of their edges, as an edge that is moved out grows or shrinks by
/// less than that: as they were drafted they met.
fn since_drafted(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, sewn: &SewnSeam, by: f64) -> bool {
    let [first, second] = [&sewn.first, &sewn.second].map(|side| gained(garment, sized, sewing, side));
    first.zip(second).is_some_and(|(first, second)| (first - second - by).abs() <= garment.tolerance)
}

/// How much longer the edges of a side are than they were drafted, each once for each of its copies there.
fn gained(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, side: &SewnSide) -> Option<f64> {
    let mut counted: Vec<(PartId, EdgeId, Option<Hand>)> = Vec::new();
    let mut gained = 0.0;
    for run in side.plies.first().into_iter().flat_map(|ply| &ply.runs) {
        let paper = sewing.part(run.part).part.paper;
        let drawn = sized.paper(paper)?;
        // A paper that is not altered is as it was drafted.
        let Some(drafted) = sized.drafted.get(paper.index())?.as_deref() else { continue };
        let whole = garment.whole_edge(drawn.edge_at(run.edge)?.edge);
        if counted.contains(&(run.part, whole, run.hand)) {
            continue;
        }
        counted.push((run.part, whole, run.hand));
        let length = |piece: &DrawnPiece| -> Option<f64> {
            let of_it = piece.edges.iter().filter(|edge| garment.whole_edge(edge.edge) == whole);
            of_it.map(|edge| edge.path.length()).reduce(|one, other| one + other)
        };
        gained += length(drawn)? - length(drafted)?;
    }
    Some(gained)
}

fn touches(sized: &SizedGarment, sewing: &Sewing, side: &SewnSide) -> Vec<Touch> {
    let mut found: Vec<Touch> = Vec::new();
    for run in side.plies.first().into_iter().flat_map(|ply| &ply.runs) {
        let Some(drawn) = sized.paper(sewing.part(run.part).part.paper) else { continue };
        for &alteration in drawn.edge_at(run.edge).map_or(&[][..], |edge| &edge.touched) {
            match found.iter_mut().find(|touch| touch.alteration == alteration) {
                Some(touch) => touch.edges += 1,
                None => found.push(Touch { alteration, edges: 1 }),
            }
        }
    }
    found
}

fn pieces(sewing: &Sewing, side: &SewnSide) -> Vec<PieceId> {
    let mut found: Vec<PieceId> = Vec::new();
    for run in side.plies.first().into_iter().flat_map(|ply| &ply.runs) {
        let piece = sewing.part(run.part).part.piece;
        if !found.contains(&piece) {
            found.push(piece);
        }
    }
    found
}

/// The partner's own edges or lines of the names that the alteration is about, as it would name them:
/// "back.hem", "lining.back.hem" where several sewn layers have the piece, "back along slash"; the part
/// alone where it has none of that name.
fn named_alike(garment: &Garment, sewing: &Sewing, side: &SewnSide, alteration: &Alteration) -> Vec<String> {
    let target = alteration.targets.first().map(|target| garment.edge(target.edge));
    let mut found: Vec<String> = Vec::new();
    for run in side.plies.first().into_iter().flat_map(|ply| &ply.runs) {
        let part = sewing.part(run.part);
        let piece = part.part.piece;
        let is_same = |other: &&SewnPart| !other.fused && other.part.piece == piece;
        // An alteration that names no layer means all of them.
        let is_of_one = alteration.targets.iter().any(|target| target.layer.is_some());
        let is_several = sewing.parts.iter().filter(is_same).count() > 1;
        let layer = (is_of_one && is_several).then_some(part.part.layer);
        let own = garment.part_name(layer, piece);
        let has = target.filter(|target| {
            let mut edges = garment.piece(piece).edges.iter().map(|&edge| garment.edge(edge));
            edges.any(|edge| edge.line == target.line && edge.name == target.name)
        });
        let name = match (has, alteration.form().map(|form| form.targets)) {
            (Some(target), Some(TargetForm::Pieces(word) | TargetForm::Piece(word))) => {
                format!("{own} {word} {}", target.name)
            }
            (Some(target), _) => format!("{own}.{}", target.name),
            (None, _) => own,
        };
        if !found.contains(&name) {
            found.push(name);
        }
    }
    found
}

fn touched_pieces(
    sized: &SizedGarment,
    sewing: &Sewing,
    side: &SewnSide,
    alteration: AlterationId,
) -> Vec<PieceId> {
    let is_touched = |piece: &PieceId| {
        let drawn = sized.papers.iter().flatten().filter(|drawn| drawn.piece == *piece);
        drawn.flat_map(|drawn| &drawn.edges).any(|edge| edge.touched.contains(&alteration))
    };
    pieces(sewing, side).into_iter().filter(is_touched).collect()
}

/// Names the partner beside the pieces that are lengthened, where it has a line of the same name.
fn fix(garment: &Garment, id: AlterationId, partner: &[PieceId]) -> Option<(String, Span, String)> {
    let alteration = garment.alteration(id);
    let form = alteration.form().filter(|form| form.needs == Need::LineAcross)?;
    let targets = &alteration.targets;
    let last = targets.iter().max_by_key(|target| target.span)?;
    let line = &garment.edge(last.edge).name;
    let has = |piece: PieceId| {
        let edges = &garment.piece(piece).edges;
        edges.iter().any(|&edge| garment.edge(edge).line && garment.edge(edge).name == *line)
    };
    let is_named = |piece: PieceId| targets.iter().any(|target| target.piece == piece);
    let missing: Vec<PieceId> = partner.iter().copied().filter(|&piece| !is_named(piece)).collect();
    if missing.is_empty() || !missing.iter().all(|&piece| has(piece)) {
        return None;
    }
    let names: Vec<String> = missing.iter().map(|&piece| garment.part_name(last.layer, piece)).collect();
    let title = format!("{} {} too", form.verb, words::listed(&names));
    Some((title, Span::new(last.span.hi, last.span.hi), format!(", {}", names.join(", "))))
}

/// The partner named in the alteration itself, which is right in every size, as no one amount is.
fn named_beside(garment: &Garment, id: AlterationId, partner: &[PieceId]) -> Option<String> {
    let (_, _, missing) = fix(garment, id, partner)?;
    let alteration = garment.alteration(id);
    let line = &garment.edge(alteration.targets.last()?.edge).name;
    let named: Vec<String> =
        alteration.targets.iter().map(|target| garment.part_name(target.layer, target.piece)).collect();
    Some(format!(
        "it is another amount in each size: name both in one line, {} {}{missing} at {line} …",
        alteration.verb(),
        named.join(", ")
    ))
}

/// "lengthen back at waist by 16cm too".
fn help(
    garment: &Garment,
    sized: &SizedGarment,
    id: AlterationId,
    partner: &[PieceId],
    partner_edges: &[String],
    in_one_layer: bool,
) -> String {
    let alteration = garment.alteration(id);
    let word = alteration.verb();
    let across = alteration.form().is_some_and(|form| form.needs == Need::LineAcross);
    let by = sized.amounts.get(id.index()).copied().flatten();
    let differs = !matches!(&alteration.amount, Some(Amount::By(Expression { node: Node::Constant(_), .. })));
    if let Some(words) = named_beside(garment, id, partner).filter(|_| by.is_some() && differs) {
        return words;
    }
    // What is right in this size is not in the others.
    let by = by.map(|by| match differs {
        true => "as much".to_owned(),
        false => words::written(&amount(by.abs(), garment.unit)),
    });
    let line = alteration.targets.first().map(|target| garment.edge(target.edge).name.clone());
    let layer = match in_one_layer {
        true => alteration.targets.iter().find_map(|target| target.layer),
        false => None,
    };
    let named: Vec<String> = partner.iter().map(|&piece| garment.part_name(layer, piece)).collect();
    if let (Some(AlterationKind::ShowZip), Some(by)) = (alteration.kind, &by) {
        let own: Vec<String> = alteration
            .targets
            .first()
            .map(|target| garment.part_name(target.layer, target.piece))
            .into_iter()
            .collect();
        return format!(
            "half of what shows of the zip is taken off {0}: draw {0} wider there by {by}, or what it is sewn to, {1}, shorter by as much; or leave showing out",
            words::listed(&own),
            words::listed(&named)
        );
    }
    match (across, by, line) {
        (true, Some(by), Some(line)) => {
            let has = |piece: &PieceId| {
                let edges = &garment.piece(*piece).edges;
                edges.iter().any(|&edge| garment.edge(edge).line && garment.edge(edge).name == line)
            };
            let own_line = |piece: &PieceId| {
                let lines = &garment.piece(*piece).drawing.lines;
                let own = lines.iter().rfind(|line| matches!(line.run, LineRun::Across(_)))?;
                Some(garment.edge(own.edge).name.clone())
            };
            let line = match partner.iter().all(has) {
                true => Some(line),
                false => partner.first().and_then(own_line).filter(|_| partner.len() == 1),
            };
            match line {
                Some(line) => format!("{word} {} at {line} by {by} too", words::listed(&named)),
                None => format!(
                    "{word} {} by {by} too, at a line of its own: line {} across at a point of it",
                    words::listed(&named),
                    alteration.targets.first().map_or("", |target| &garment.edge(target.edge).name)
                ),
            }
        }
        (_, Some(by), _) => format!("{word} {} by {by} too, or take it back", words::listed(partner_edges)),
        // A dart changes the length of an edge by what it takes or leaves there.
        (_, None, _) if alteration.dart.is_some() => format!(
            "make {} as long, ease the longer side, or move the dart where it changes neither edge",
            words::listed(&named)
        ),
        (_, None, _) => format!("do the same to {}, or take it back", words::listed(partner_edges)),
    }
}
