//! `button/spacing`, of a row that stands round a ring: where its end meets its beginning the gap is another one.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, ClosureId, ClosureKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::taken;
use crate::sewing::surface::{Rim, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BUTTON_SPACING], run: Run::PerSize(run) };

/// Gaps that differ by less than this, in millimetres, look alike.
const ALIKE: f64 = 5.0;
/// How near a fastener lies to the edge that it stands on, in millimetres.
const ON_EDGE: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let rows = || {
        ClosureId::enumerate(&garment.closures).filter_map(|(id, closure)| match &closure.kind {
            Some(ClosureKind::Fasteners(said)) if said.between.is_some() => Some((id, closure, said)),
            _ => None,
        })
    };
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    if rows().next().is_none() {
        return;
    }
    let rims = size.sewn.gluing.rims(surface);
    for (id, closure, said) in rows() {
        let Some(row) = size.sewn.fasteners.iter().find(|row| row.closure == id) else { continue };
        let Some(spacing) = row.spacing else { continue };
        let chains = [&closure.first, &closure.second];
        let looked = chains.into_iter().flat_map(|chain| rims.iter().map(move |rim| (chain, rim)));
        let found = looked.filter_map(|(chain, rim)| {
            let places = places(garment, size, surface, (id, chain), rim)?;
            let gaps = gaps(&places, rim.length(surface));
            let others: Vec<f64> = gaps.into_iter().filter(|gap| (gap - spacing).abs() > ALIKE).collect();
            let worst = others
                .iter()
                .copied()
                .max_by(|one, other| (one - spacing).abs().total_cmp(&(other - spacing).abs()))?;
            Some((worst, others.len(), places.len(), rim.length(surface), chain))
        });
        let Some((worst, times, many, round, chain)) =
            found.max_by(|one, other| (one.0 - spacing).abs().total_cmp(&(other.0 - spacing).abs()))
        else {
            continue;
        };
        let shown = |mm: f64| amount(mm, garment.unit);
        let (name, what) = (&closure.name, said.kind.many());
        let place = if times == 1 { "in one place".to_owned() } else { format!("in {times} places") };
        let title = Title::new(format!(
            "the {what} of {name} stand round a ring {} apart, and {place} {}",
            shown(spacing),
            shown(worst)
        ))
        .in_sizes();
        let even = round / many as f64;
        let edge = chain.edges.first().map_or_else(String::new, |sewn| words::edge(garment, sewn.edge));
        let at = said.between.as_ref().map_or(closure.kind_span, |(from, to)| from.span.to(to.span));
        let advice = Diagnostic::new(&catalogue::BUTTON_SPACING, at, title)
            .label(format!("{} from the last to the first", shown(worst)))
            .also(chain.span, format!("{edge} goes round, {} in all", shown(round))).help(format!(
            "{many} all round stand {} apart: begin and end {} from where the ring is closed; a gap that is meant needs \
             no change",
            shown(even),
            shown(even / 2.0)
        ));
        let finding = Finding::new(size.id(), (worst - spacing).abs(), advice).about(&**name);
        findings.push(finding.figure("apart", shown(spacing)).figure("gap", shown(worst)));
    }
}

/// Where the fasteners stand along a rim, from its first stretch on; none where other edges than the closure's lie on it.
fn places(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    (closure, chain): (ClosureId, &Chain),
    rim: &Rim,
) -> Option<Vec<f64>> {
    let mut places: Vec<f64> = Vec::new();
    let mut before = 0.0;
    for part in &rim.parts {
        let (stretch, side) = (surface.stretch(part.stretch), surface.side_of(part.stretch));
        let sewn = size.sewn.part(side.part);
        let drawn = size.drawn.paper(sewn.part.paper)?;
        let edge = drawn.edge_at(side.edge).filter(|_| !side.fold)?;
        let is_named = chain.edges.iter().any(|named| {
            garment.is_run_of(edge.edge, named.edge)
                && named.layer.is_none_or(|layer| layer == sewn.part.layer)
        });
        if !is_named {
            return None;
        }
        let map = taken(garment, drawn, side.edge)?;
        for place in sewn.fasteners.iter().filter(|place| place.closure == closure) {
            let near = edge.path.nearest(place.at);
            if near.distance > ON_EDGE {
                continue;
            }
            let along = map.as_sewn(near.at);
            let along = if side.mirrored { side.length - along } else { along };
            if along < stretch.from || along > stretch.to {
                continue;
            }
            places.push(before + if part.against { stretch.to - along } else { along - stretch.from });
        }
        before += surface.length(part.stretch);
    }
    places.sort_by(f64::total_cmp);
    // One on the joint of two stretches is there once.
    places.dedup_by(|one, other| (*one - *other).abs() < ON_EDGE);
    Some(places).filter(|places| places.len() > 1)
}

/// From each place to the next, and from the last on to the first.
fn gaps(places: &[f64], round: f64) -> Vec<f64> {
    let next = places.iter().skip(1).copied().chain(places.first().map(|first| first + round));
    places.iter().zip(next).map(|(one, next)| next - one).collect()
}
