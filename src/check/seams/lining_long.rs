//! `lining/long` and `lining/level`: a lining that hangs out below the outer, or ends where that ends, held at its upper
//! edge and hemmed by itself.

use super::lining::{caught, sewn_parts};
use super::on_edge::OnEdge;
use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment, LayerId, PointId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, finished};
use crate::sewing::{EdgeFate, PartId, Sewing, SewnPart, TakenBy, Taker};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_LONG, &catalogue::LINING_LEVEL], run: Run::PerSize(run) };

/// A lining is hemmed some 2 cm shorter than what it lines (common practice); by less than this, in millimetres, and it
/// shows as soon as it drops in wear.
const SHORTER: f64 = 5.0;
/// What hangs down by less than this, in millimetres, does not drop.
const DROPS: f64 = 200.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.layers.iter().filter(|layer| !layer.fused).count() < 2 {
        return;
    }
    let mut partners: Option<IdMap<SeamId, IdSet<PartId>>> = None;
    let mut joined: Option<Vec<IdSet<LayerId>>> = None;
    // What was passed already, by where its edges lie: the outer layers are listed before what lines them.
    let mut outers: IdMap<(PointId, PointId), Vec<Edge>> = IdMap::default();
    // A lining that is sewn to the outer down to the hem somewhere, as at a front edge, ends level with it.
    let (mut level, mut anchored): (Vec<(LayerId, Finding)>, IdSet<LayerId>) = (Vec::new(), IdSet::default());
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(lining) = size.drawn.paper(part.part.paper) else { continue };
        let lie = || {
            DrawnEdgeId::enumerate(&lining.edges).filter_map(|(edge, _)| {
                Some(Edge { part, drawn: lining, edge, on: OnEdge::of(garment, lining, edge)? })
            })
        };
        let mut beside: Vec<Vec<[Edge; 2]>> = Vec::new();
        for own in lie() {
            let others = outers.get(&own.on.whole()).into_iter().flatten();
            for outer in others.filter(|outer| outer.part.part.layer != part.part.layer) {
                if !own.on.lies_on(&outer.on) || !outer.on.lies_on(&own.on) {
                    continue;
                }
                let is_of = |pairs: &&mut Vec<[Edge; 2]>| {
                    pairs.first().is_some_and(|[first, _]| std::ptr::eq(first.part, outer.part))
                };
                match beside.iter_mut().find(is_of) {
                    Some(edges) => edges.push([*outer, own]),
                    None => beside.push(vec![[*outer, own]]),
                }
            }
        }
        for edges in beside {
            let partners = partners.get_or_insert_with(|| sewn_parts(&size.sewn));
            let Some(&[Edge { part: outer, drawn: shell, .. }, _]) = edges.first() else { continue };
            let joined = joined.get_or_insert_with(|| joined_layers(&size.sewn));
            let of = |layer: LayerId| joined.iter().position(|layers| layers.contains(&layer));
            let are_joined = of(outer.part.layer).is_some_and(|it| of(part.part.layer) == Some(it));
            let pair = Pair { garment, size, partners, are_joined, outer, shell, part, lining, edges };
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
        for own in lie() {
            outers.entry(own.on.whole()).or_default().push(own);
        }
    }
    let level = level.into_iter().filter(|(layer, _)| !anchored.contains(layer)).map(|(_, found)| found);
    findings.extend(level.reduce(|one, other| if other.weight > one.weight { other } else { one }));
}

/// The layers that hang together, by whatever seams.
fn joined_layers(sewing: &Sewing) -> Vec<IdSet<LayerId>> {
    let mut joined: Vec<IdSet<LayerId>> = Vec::new();
    for seam in &sewing.seams {
        let runs = seam.first.plies.iter().chain(&seam.second.plies).flat_map(|ply| &ply.runs);
        let mut one: IdSet<LayerId> = runs.map(|run| sewing.part(run.part).part.layer).collect();
        let (of_it, others): (Vec<_>, Vec<_>) =
            std::mem::take(&mut joined).into_iter().partition(|layers| !layers.is_disjoint(&one));
        one.extend(of_it.into_iter().flatten());
        joined = others;
        joined.push(one);
    }
    joined
}

/// An edge of a part, and where it lies on what it was first drawn as.
#[derive(Clone, Copy)]
struct Edge<'a> {
    part: &'a SewnPart,
    drawn: &'a DrawnPiece,
    edge: DrawnEdgeId,
    on: OnEdge,
}

impl Edge<'_> {
    /// The edges before and after it.
    fn beside(&self) -> [DrawnEdgeId; 2] {
        [self.drawn.before(self.edge), self.drawn.after(self.edge)]
    }
}

/// One alteration of several pieces is told once, of the one that it makes longest.
pub(super) fn told_once(findings: &mut Vec<Finding>, found: Finding) {
    let same = findings.iter().position(|told| told.diagnostic.span() == found.diagnostic.span());
    match same.and_then(|at| findings.get_mut(at)) {
        Some(told) if told.weight < found.weight => *told = found,
        Some(_) => {}
        None => findings.push(found),
    }
}

/// A piece in the outer, and in what lines it.
struct Pair<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    partners: &'a IdMap<SeamId, IdSet<PartId>>,
    outer: &'a SewnPart,
    shell: &'a DrawnPiece,
    part: &'a SewnPart,
    lining: &'a DrawnPiece,
    /// Whether a seam somewhere joins both layers.
    are_joined: bool,
    /// The edges of the outer, and those of the lining that lie behind them.
    edges: Vec<[Edge<'a>; 2]>,
}

impl Pair<'_> {
    fn is_held(&self, one: DrawnEdgeId, other: DrawnEdgeId) -> bool {
        held(self.garment, self.size, self.partners, [(self.outer, one), (self.part, other)])
    }

    /// Whether both are finished there, each by itself.
    fn is_hem(&self, one: DrawnEdgeId, other: DrawnEdgeId) -> bool {
        let is_free = |fate: Option<&EdgeFate>| {
            fate.is_some_and(|fate| {
                !fate.takers.is_empty()
                    && fate.takers.iter().all(|taker| match taker.what {
                        TakenBy::Finish(id) => {
                            !matches!(self.garment.finish(id).kind, FinishKind::TurnedUnderOnto(_))
                        }
                        _ => false,
                    })
            })
        };
        is_free(self.outer.fate(one)) && is_free(self.part.fate(other))
    }

    /// Whether seams take both there, so that both hang from something.
    fn is_sewn(&self, one: DrawnEdgeId, other: DrawnEdgeId) -> bool {
        let is_taken = |fate: Option<&EdgeFate>| {
            fate.is_some_and(|fate| {
                !fate.takers.is_empty()
                    && fate.takers.iter().all(|taker| matches!(taker.what, TakenBy::Seam(..)))
            })
        };
        is_taken(self.outer.fate(one)) && is_taken(self.part.fate(other))
    }

    /// The edges that go down to a hem: both edges of it, those of the hem, those at the other end, and how far the whole goes on
    /// there.
    fn down_to_hems(&self) -> impl Iterator<Item = Down<'_>> {
        self.edges.iter().flat_map(move |&[outer, lining]| {
            let mut ends = [
                [0, 1].map(|end| (outer.beside()[end], outer.on.away()[end])),
                [0, 1].map(|end| (lining.beside()[end], lining.on.away()[end])),
            ];
            if outer.on.is_against(&lining.on) {
                ends[1].reverse();
            }
            let [[outer_first, outer_last], [first, last]] = ends;
            let both =
                [[(outer_first, first), (outer_last, last)], [(outer_last, last), (outer_first, first)]];
            both.into_iter().filter_map(move |[(one, other), (above, own_above)]| {
                let whole = |of: &Edge, at: DrawnEdgeId| {
                    of.drawn.edge_at(at).map(|edge| self.garment.whole_edge(edge.edge))
                };
                // A slit in the edge itself is no hem below it.
                let goes_on = whole(&lining, other.0) == whole(&lining, lining.edge)
                    || whole(&outer, one.0) == whole(&outer, outer.edge);
                (!goes_on && self.is_hem(one.0, other.0)).then_some(Down {
                    outer,
                    lining,
                    hems: [one.0, other.0],
                    above: [above, own_above],
                })
            })
        })
    }

    /// Whether an edge of it is sewn to the outer all along, down to a hem.
    fn is_anchored(&self) -> bool {
        self.down_to_hems().any(|down| {
            let is_seam = |taker: &&Taker| matches!(taker.what, TakenBy::Seam(..));
            let fate = self.part.fate(down.lining.edge);
            fate.is_some_and(|fate| fate.takers.iter().filter(is_seam).count() == 1)
                && self.is_held(down.outer.edge, down.lining.edge)
        })
    }
}

/// An edge of the outer and one of the lining that go down to a hem of each.
struct Down<'a> {
    outer: Edge<'a>,
    lining: Edge<'a>,
    hems: [DrawnEdgeId; 2],
    /// The edges at the upper end, and how far the whole edge goes on there.
    above: [(DrawnEdgeId, f64); 2],
}

/// Whether two edges are held together: in one seam across the layers, or each in one with the same third part.
pub(super) fn held(
    garment: &Garment,
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
    fates.is_some_and(|(one, other)| caught(garment, partners, one, other)) || is_in_one()
}

fn long(garment: &Garment, pair: &Pair) -> Option<Finding> {
    let Pair { size, outer, shell, part, lining, .. } = *pair;
    let unit = garment.unit;
    let mut worst: Option<(f64, f64, DrawnEdgeId, [DrawnEdgeId; 2])> = None;
    for down in pair.down_to_hems() {
        let [(above, outer_on), (own_above, own_on)] = down.above;
        let further = match pair.is_held(above, own_above) {
            true => [0.0; 2],
            // Where both layers are sewn to each other somewhere above, what is sewn into each hangs as far down as it is long.
            false if pair.are_joined && pair.is_sewn(above, own_above) => [outer_on, own_on],
            false => continue,
        };
        let lengths =
            finished(garment, shell, down.outer.edge).zip(finished(garment, lining, down.lining.edge));
        let Some((outside, inside)) = lengths.map(|(one, other)| (one + further[0], other + further[1]))
        else {
            continue;
        };
        if inside - outside > -SHORTER && worst.is_none_or(|(a, b, ..)| inside - outside > b - a) {
            worst = Some((outside, inside, down.lining.edge, down.hems));
        }
    }
    let (outside, inside, at, [outer_hem, hem]) = worst?;
    let edge = lining.edge_at(at)?;
    let layer = |part: &SewnPart| garment.layer(part.part.layer).name.clone();
    let (of_lining, of_shell) = (layer(part), layer(outer));
    if inside - outside <= garment.tolerance {
        let hemmed = |taker: &Taker| match taker.what {
            TakenBy::Finish(id) => {
                matches!(garment.finish(id).kind, FinishKind::Hem(_) | FinishKind::Bound(_))
            }
            _ => false,
        };
        let name = &garment.edge(lining.edge_at(hem)?.edge).name;
        // Where one line hems both, they are meant to end together.
        let by_one = outer.fate(outer_hem).is_some_and(|own| {
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
        "{} in {of_lining} hangs {by} out below {} in {of_shell} at the {}",
        words::piece(garment, part.part.piece),
        in_the_outer(garment, outer, part),
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

/// What lies in front of a part of the lining.
fn in_the_outer(garment: &Garment, outer: &SewnPart, part: &SewnPart) -> String {
    match outer.part.piece == part.part.piece {
        true => "that".into(),
        false => words::piece(garment, outer.part.piece),
    }
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
            "{piece} in {} ends only {} above {} in {} at the {hem}",
            of_lining.name,
            amount(less, garment.unit),
            in_the_outer(garment, outer, part),
            of_shell.name
        ),
        _ if outer.part.piece != part.part.piece => format!(
            "{piece} in {} is as long as {} in {} down to the {hem}",
            of_lining.name,
            words::piece(garment, outer.part.piece),
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
