//! `lining/long` and `lining/level`: a lining that hangs out below the outer, or ends where that ends, held at its upper
//! edge and hemmed by itself.

use super::lining::{caught, sewn_parts};
use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment, LayerId, PieceId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, finished};
use crate::sewing::{EdgeFate, PartId, SewnPart, TakenBy, Taker};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_LONG, &catalogue::LINING_LEVEL], run: Run::PerSize(run) };

/// A lining is hemmed some 2 cm shorter than what it lines (common practice); by less than this, in millimetres, and it
/// shows as soon as it drops in wear.
const SHORTER: f64 = 5.0;
/// What hangs down by less than this, in millimetres, does not drop.
const DROPS: f64 = 200.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut of_piece: IdMap<PieceId, &SewnPart> = IdMap::default();
    let mut partners: Option<IdMap<SeamId, IdSet<PartId>>> = None;
    // A lining that is sewn to the outer down to the hem somewhere, as at a front edge, ends level with it.
    let (mut level, mut anchored): (Vec<(LayerId, Finding)>, IdSet<LayerId>) = (Vec::new(), IdSet::default());
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(&outer) = of_piece.get(&part.part.piece) else {
            of_piece.insert(part.part.piece, part);
            continue;
        };
        if outer.part.layer == part.part.layer {
            continue;
        }
        let partners = partners.get_or_insert_with(|| sewn_parts(&size.sewn));
        let drawn = |part: &SewnPart| size.drawn.paper(part.part.paper);
        if let (Some(shell), Some(lining)) = (drawn(outer), drawn(part)) {
            let pair = Pair { size, partners, outer, shell, part, lining };
            if pair.is_anchored() {
                anchored.insert(part.part.layer);
            }
            match long(garment, &pair) {
                Some(found) if std::ptr::eq(found.diagnostic.kind, &catalogue::LINING_LEVEL) => {
                    level.push((part.part.layer, found));
                }
                Some(found) => told_once(findings, found),
                None => {}
            }
        }
    }
    let level = level.into_iter().filter(|(layer, _)| !anchored.contains(layer)).map(|(_, found)| found);
    findings.extend(level.reduce(|one, other| if other.weight > one.weight { other } else { one }));
}

/// One alteration of several pieces is told once, of the one that it makes longest.
fn told_once(findings: &mut Vec<Finding>, found: Finding) {
    let same = findings.iter().position(|told| told.diagnostic.span() == found.diagnostic.span());
    match same.and_then(|at| findings.get_mut(at)) {
        Some(told) if told.weight < found.weight => *told = found,
        Some(_) => {}
        None => findings.push(found),
    }
}

/// A piece in the outer, and in what lines it.
struct Pair<'a> {
    size: &'a WorkedSize,
    partners: &'a IdMap<SeamId, IdSet<PartId>>,
    outer: &'a SewnPart,
    shell: &'a DrawnPiece,
    part: &'a SewnPart,
    lining: &'a DrawnPiece,
}

impl Pair<'_> {
    /// An edge of the lining, and the same of the outer.
    fn edges(&self) -> impl Iterator<Item = (DrawnEdgeId, DrawnEdgeId)> {
        DrawnEdgeId::enumerate(&self.lining.edges).filter_map(|(at, edge)| {
            let mut shell = DrawnEdgeId::enumerate(&self.shell.edges);
            Some((shell.find(|(_, other)| other.edge == edge.edge)?.0, at))
        })
    }

    fn is_held(&self, one: DrawnEdgeId, other: DrawnEdgeId) -> bool {
        held(self.size, self.partners, [(self.outer, one), (self.part, other)])
    }

    /// Whether both are finished there, each by itself.
    fn is_hem(&self, one: DrawnEdgeId, other: DrawnEdgeId) -> bool {
        let named = |drawn: &DrawnPiece, at| drawn.edge_at(at).map(|edge| edge.edge);
        let is_free = |fate: Option<&EdgeFate>| {
            fate.is_some_and(|fate| {
                !fate.takers.is_empty()
                    && fate.takers.iter().all(|taker| matches!(taker.what, TakenBy::Finish(_)))
            })
        };
        named(self.shell, one) == named(self.lining, other)
            && is_free(self.outer.fate(one))
            && is_free(self.part.fate(other))
    }

    /// Whether an edge of it is sewn to the outer all along, down to a hem.
    fn is_anchored(&self) -> bool {
        self.edges().any(|(same, at)| {
            let beside = [
                (self.shell.before(same), self.lining.before(at)),
                (self.shell.after(same), self.lining.after(at)),
            ];
            let is_seam = |taker: &&Taker| matches!(taker.what, TakenBy::Seam(..));
            let is_all_along = |part: &SewnPart, edge: DrawnEdgeId| {
                part.fate(edge).is_some_and(|fate| fate.takers.iter().filter(is_seam).count() == 1)
            };
            beside.iter().any(|&(one, other)| self.is_hem(one, other))
                && is_all_along(self.part, at)
                && self.is_held(same, at)
        })
    }
}

/// Whether two edges are held together: in one seam across the layers, or each in one with the same third part.
fn held(
    size: &WorkedSize,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    [one, other]: [(&SewnPart, DrawnEdgeId); 2],
) -> bool {
    let fates = one.0.fate(one.1).zip(other.0.fate(other.1));
    let is_in_one = || {
        size.sewn.seams.iter().any(|sewn| {
            let runs = || {
                let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
                plies.flat_map(|ply| &ply.runs)
            };
            let has = |(part, edge): (&SewnPart, DrawnEdgeId)| {
                runs().any(|run| run.edge == edge && std::ptr::eq(size.sewn.part(run.part), part))
            };
            has(one) && has(other)
        })
    };
    fates.is_some_and(|(one, other)| caught(partners, one, other)) || is_in_one()
}

fn long(garment: &Garment, pair: &Pair) -> Option<Finding> {
    let Pair { size, outer, shell, part, lining, .. } = *pair;
    let unit = garment.unit;
    let mut worst: Option<(f64, f64, DrawnEdgeId, DrawnEdgeId)> = None;
    for (same, at) in pair.edges() {
        let ends = [[shell.before(same), shell.after(same)], [lining.before(at), lining.after(at)]];
        let [[before, after], [lining_before, lining_after]] = ends;
        let hem = if pair.is_hem(before, lining_before) && pair.is_held(after, lining_after) {
            lining_before
        } else if pair.is_hem(after, lining_after) && pair.is_held(before, lining_before) {
            lining_after
        } else {
            continue;
        };
        let lengths = finished(garment, shell, same).zip(finished(garment, lining, at));
        let Some((outside, inside)) = lengths else { continue };
        if inside - outside > -SHORTER && worst.is_none_or(|(a, b, ..)| inside - outside > b - a) {
            worst = Some((outside, inside, at, hem));
        }
    }
    let (outside, inside, at, hem) = worst?;
    let edge = lining.edge_at(at)?;
    let layer = |part: &SewnPart| garment.layer(part.part.layer).name.clone();
    let (of_lining, of_shell) = (layer(part), layer(outer));
    if inside - outside <= garment.tolerance {
        let hemmed = |taker: &Taker| match taker.what {
            TakenBy::Finish(id) => matches!(garment.finish(id).kind, FinishKind::Hem(_)),
            _ => false,
        };
        let name = &garment.edge(lining.edge_at(hem)?.edge).name;
        let of_outer = DrawnEdgeId::enumerate(&shell.edges)
            .find(|(_, own)| Some(own.edge) == lining.edge_at(hem).map(|hem| hem.edge));
        // Where one line hems both, they are meant to end together.
        let by_one = of_outer.and_then(|(own, _)| outer.fate(own)).is_some_and(|own| {
            let finish = |fate: &EdgeFate| fate.takers.iter().map(|taker| taker.what).collect::<Vec<_>>();
            part.fate(hem).is_some_and(|its| finish(its) == finish(own))
        });
        // What is a hand long does not drop, and what is no hem is caught in something else.
        if by_one || outside < DROPS || !part.fate(hem)?.takers.iter().all(hemmed) {
            return None;
        }
        return Some(level(garment, size, (outer, part), name, (outside, inside)));
    }
    let by = amount(inside - outside, unit);
    let title = Title::new(format!(
        "{} in {of_lining} hangs {by} out below that in {of_shell} at the {}",
        words::piece(garment, part.part.piece),
        garment.edge(lining.edge_at(hem)?.edge).name
    ))
    .in_sizes();
    let in_size = in_size(garment, &size.drawn);
    let place = edge.touched.last().map_or(garment.edge(edge.edge).span, |&id| garment.alteration(id).span);
    let warning = Diagnostic::new(&catalogue::LINING_LONG, place, title)
        .label(format!("{of_lining}: {}{in_size}", amount(inside, unit)))
        .also(garment.layer(outer.part.layer).span, format!("{of_shell}: {}{in_size}", amount(outside, unit)))
        .help(format!("shorten it by {by} and a little more; or, if it is to show, nothing needs to change"));
    let finding = Finding::new(size.id(), inside - outside, warning)
        .about(format!("{} {of_lining}", garment.piece(part.part.piece).name))
        .figure(&of_shell, amount(outside, unit))
        .figure(&of_lining, amount(inside, unit));
    Some(finding)
}

/// That a lining ends where the outer ends.
fn level(
    garment: &Garment,
    size: &WorkedSize,
    (outer, part): (&SewnPart, &SewnPart),
    hem: &str,
    (outside, inside): (f64, f64),
) -> Finding {
    let (of_lining, of_shell) = (garment.layer(part.part.layer), garment.layer(outer.part.layer));
    let piece = words::piece(garment, part.part.piece);
    let title = Title::new(match outside - inside {
        less if less > garment.tolerance => format!(
            "{piece} in {} ends only {} above that in {} at the {hem}",
            of_lining.name,
            amount(less, garment.unit),
            of_shell.name
        ),
        _ => format!("{piece} in {} is as long as in {} down to the {hem}", of_lining.name, of_shell.name),
    })
    .in_sizes();
    let advice = Diagnostic::new(&catalogue::LINING_LEVEL, of_lining.span, title)
        .label("hangs free beside it")
        .also(of_shell.span, "the outer")
        .help(format!(
            "shorten {}.{} by 2 cm, so that it does not show as it drops; or sew its hem to that of the outer with ease; \
             if it is to show, nothing needs to change",
            of_lining.name,
            garment.piece(part.part.piece).name
        ));
    Finding::new(size.id(), SHORTER + inside - outside, advice).about(format!(
        "{} {}",
        garment.piece(part.part.piece).name,
        of_lining.name
    ))
}
