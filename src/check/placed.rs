//! `place/circle`: pieces placed on one another, so that none of them carries the others.

use super::{Check, Run, words};
use crate::garment::{Garment, Placement, PlacementId};
use crate::id_hash::IdMap;
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_CIRCLE], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let mut on: IdMap<_, Vec<PlacementId>> = IdMap::default();
    for (id, placement) in PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned) {
        on.entry(placement.piece).or_default().push(id);
    }
    let mut states: Vec<State> = vec![State::New; garment.placements.len()];
    for (start, _) in PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned) {
        let mut row: Vec<(PlacementId, usize)> = Vec::new();
        let mut next = Some(start);
        loop {
            match next.take() {
                Some(at) if states.get(at.index()) == Some(&State::New) => {
                    if let Some(state) = states.get_mut(at.index()) {
                        *state = State::Open;
                    }
                    row.push((at, 0));
                }
                Some(at) if states.get(at.index()) == Some(&State::Open) => {
                    let circle = row.iter().skip_while(|(one, _)| *one != at);
                    let circle: Vec<&Placement> = circle.map(|(at, _)| garment.placement(*at)).collect();
                    diagnostics.extend(circular(garment, &circle));
                }
                _ => {}
            }
            let Some((at, nth)) = row.last_mut() else { break };
            let placement = garment.placement(*at);
            let below = on.get(&placement.on).map_or(&[][..], Vec::as_slice);
            next = below.get(*nth).copied();
            let is_other_layer = next.is_some_and(|next| !carries(garment, next, placement));
            *nth += 1;
            if is_other_layer {
                next = None;
            } else if next.is_none() {
                if let Some(state) = states.get_mut(at.index()) {
                    *state = State::Done;
                }
                row.pop();
            }
        }
    }
}

/// Whether what a placement puts somewhere is what `above` lies on, in a layer that both may mean.
fn carries(garment: &Garment, below: PlacementId, above: &Placement) -> bool {
    let layers = |below: &Placement| (below.layer, above.on_layer.or(above.layer));
    let is_same = |below: &Placement| match layers(below) {
        (Some(one), Some(other)) => one == other,
        _ => true,
    };
    is_same(garment.placement(below))
}

/// How far a placement has been followed.
#[derive(Clone, Copy, PartialEq)]
enum State {
    New,
    Open,
    Done,
}

fn circular(garment: &Garment, circle: &[&Placement]) -> Option<Diagnostic> {
    let (first, others) = circle.split_first()?;
    let title = |placement: &Placement| words::piece(garment, placement.piece);
    if others.is_empty() {
        let title = format!("{} is placed on itself", title(first));
        let name = &garment.piece(first.piece).name;
        return Some(
            Diagnostic::new(&catalogue::PLACE_CIRCLE, first.span, title)
                .label("on itself")
                .help(format!("name the piece that carries it: place {name} on …")),
        );
    }
    let on = |placement: &Placement| format!("on {}", words::piece(garment, placement.on));
    let clauses: Vec<String> =
        others.iter().map(|placement| format!("{} {}", title(placement), on(placement))).collect();
    let title = format!("{} is placed {}, and {}", title(first), on(first), words::listed(&clauses));
    let mut diagnostic = Diagnostic::new(&catalogue::PLACE_CIRCLE, first.span, title).label(on(first));
    for placement in others {
        diagnostic = diagnostic.also(placement.span, on(placement));
    }
    Some(diagnostic.help("one piece carries the others: drop the placing of that one"))
}
