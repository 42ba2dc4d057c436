//! `neck/rises`: a neckline that is drawn upwards, whose middle lies higher than where it meets the shoulder.

use super::necklines::{NeckEnds, Necklines};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{CornerName, DrawnEdge, DrawnEdgeId, DrawnPiece};
use crate::sewing::PartId;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NECK_RISES], run: Run::PerSize(run) };

/// By how much the middle of a neckline may rise above its ends, in millimetres: boat necks go straight across and hollow a
/// little under the weight of the cloth, and what stands up rises at the shoulder as well (common practice).
const RISES: f64 = 15.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let looking = Necklines { garment, size, surface };
    for (part, sewn) in PartId::enumerate(&size.sewn.parts).filter(|(_, part)| !part.fused) {
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        // Of what lies across the cloth or on the bias the paper does not tell which way is up.
        if drawn.grain.y.abs() < drawn.grain.x.abs() * 2.0 {
            continue;
        }
        let rises = |(edge, own): (DrawnEdgeId, &DrawnEdge)| {
            // Asked first: most edges do not rise by so much at all.
            let rise = (own.path.start().y - own.path.end().y).abs();
            if rise <= RISES {
                return None;
            }
            let ends = looking.ends(part, drawn, edge)?;
            let rises = ends.middle.y - ends.shoulder.y;
            (rises > RISES).then(|| reported(garment, size, drawn, edge, &ends))
        };
        findings.extend(DrawnEdgeId::enumerate(&drawn.edges).find_map(rises));
    }
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    drawn: &DrawnPiece,
    neck: DrawnEdgeId,
    ends: &NeckEnds,
) -> Finding {
    let rises = ends.middle.y - ends.shoulder.y;
    let edge = drawn.edge_at(neck).map(|drawn| drawn.edge);
    let by = amount(rises, garment.unit);
    let name = edge.map_or(String::new(), |edge| words::edge(garment, edge));
    let title = Title::new(format!("the middle of {name} lies {by} above the shoulder")).in_sizes();
    let corner = drawn.edge_at(ends.at_middle).map(|drawn| drawn.corner);
    let own = edge.map_or(garment.heading, |edge| garment.edge(edge).span);
    let warning = match corner {
        Some(CornerName::Named(point)) => {
            Diagnostic::new(&catalogue::NECK_RISES, garment.point(point).span, title)
                .label(format!("{by} higher than where the neckline meets the shoulder"))
                .also(own, "rises to the middle")
        }
        _ => Diagnostic::new(&catalogue::NECK_RISES, own, title).label("rises to the middle"),
    };
    let warning = warning.help(
        "look at the sign of its height: a front neck lies some 6 to 9 cm below the neck end of the shoulder in the middle, \
         a back neck 1 to 3",
    );
    Finding::new(size.id(), rises, warning).about(name).figure("above", by)
}
