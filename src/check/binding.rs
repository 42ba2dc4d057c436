//! `bind/curve`: a binding wider than the curve is round.
//!
//! A binding lies on the cloth between its edge and the line that it is sewn along. Round an outside
//! curve of radius r that line has the radius r − w, and none is left where the binding's width w is
//! r. Round an inside curve the line has the radius r + w: at w = r the folded edge of the strip must
//! be half as long as the sewn one, and a bias strip whose yarns turn by 15° to either side gives no
//! more than cos 60° / cos 30° = 0.58 (geometry of a sheared grid).

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Binding, FinishKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{TakenBy, amount_of};
use crate::shape::offset::{OffsetError, parallel};
use crate::shape::outline::is_anticlockwise;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BIND_CURVE], run: Run::PerSize(run) };

/// A radius below this is a corner, in millimetres: there a binding is folded to a mitre.
const CORNER: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
            let finish = fate.takers.iter().find_map(|taker| match taker.what {
                TakenBy::Finish(id) => Some(garment.finish(id)),
                _ => None,
            });
            let Some((finish, FinishKind::Bound(Binding { width, .. }))) =
                finish.map(|finish| (finish, &finish.kind))
            else {
                continue;
            };
            let Some(width) = amount_of(garment, sized, width).filter(|width| *width > 0.0) else { continue };
            if edge.path.is_straight() {
                continue;
            }
            let is_left = is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path));
            let inward = if is_left { 1.0 } else { -1.0 };
            let tight = [(inward, "outside"), (-inward, "inside")].map(|(side, word)| {
                let radius = match parallel(&edge.path, side * width) {
                    Err(OffsetError::TooTight { radius, .. }) if radius >= CORNER => radius,
                    _ => return None,
                };
                Some((radius, word))
            });
            let tightest = tight.into_iter().flatten().min_by(|one, other| one.0.total_cmp(&other.0));
            let Some((radius, word)) = tightest else { continue };
            let unit = garment.unit;
            let name = words::edge(garment, edge.edge);
            let (wide, round) = (amount(width, unit), amount(radius, unit));
            let title = Title::new(format!("a binding {wide} wide does not lie flat round {name}"))
                .in_sizes()
                .then(format!(": its {word} curve has a radius of {round}"));
            let mistake = Diagnostic::new(&catalogue::BIND_CURVE, finish.kind_span, title)
                .label(format!("{wide} wide"))
                .also(garment.edge(edge.edge).span, format!("radius {round} where it is tightest"))
                .help(format!(
                    "take a binding narrower than {round}, draw the curve rounder, or face the edge"
                ));
            findings.push(
                Finding::new(sized.size, width - radius, mistake)
                    .about(garment.part_name(Some(part.part.layer), part.part.piece) + &name)
                    .figure("binding", wide)
                    .figure("radius", round),
            );
        }
    }
}
