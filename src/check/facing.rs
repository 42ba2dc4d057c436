//! `button/facing`: a facing that does not reach behind the buttons along its edge; `button/facing-short`: one
//! that ends within buttonholes if they lie across, and buttons and snaps behind which nothing lies.

use super::button_off_cloth::outside;
use super::fasteners::BESIDE;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, ClosureKind, FinishKind, Garment, Hem, Outline, Part, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::sewing::hanging::second_hangs;
use crate::sewing::{PartId, SewnPart, TakenBy, amount_of, lay_fasteners};
use crate::shape::Point;
use crate::shape::outline::Region;
use crate::shape::path::Path;
use crate::source::Span;
use crate::syntax::tree::{ClothKind, Fastener};
use std::collections::BTreeSet;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::BUTTON_FACING, &catalogue::BUTTON_FACING_SHORT], run: Run::PerSize(run) };

/// A row of buttons along an edge lies no further from it than this, in millimetres: further in it belongs to no
/// edge.
const STAND: f64 = 40.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let finder = size.finder(garment);
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let Ok(laid) = lay_fasteners(garment, &size.drawn, &finder, id) else { continue };
        let Some(row) = &laid.row else { continue };
        let Some(size_of_one) = row.size.filter(|_| row.kind.is_lapped()) else { continue };
        let needed = size_of_one / 2.0 + BESIDE;
        // A buttonhole that lies across begins 3 mm beyond the middle towards the edge (common practice), and
        // the facing goes on beyond its other end by as much.
        let across = row.buttonhole.map_or(needed, |long| long.max(needed));
        // By facing the button that its inner edge comes nearest to, or that lies beyond it.
        let mut worst: Option<(f64, f64, Facing)> = None;
        for &(part, at) in &laid.places {
            let part = size.sewn.part(part).part;
            // What lies outside its piece is told as that.
            let host = size.drawn.paper(part.paper).filter(|host| outside(host, at).is_none());
            let Some(host) = host else { continue };
            for facing in facings(garment, size, part, host, at) {
                let reaches = facing.reaches(at);
                let wide = facing.from_edge + if reaches < needed - 0.01 { needed } else { across };
                if reaches < across - 0.01 && worst.as_ref().is_none_or(|(least, ..)| reaches < *least) {
                    worst = Some((reaches, wide, facing));
                }
            }
        }
        if worst.is_none() && matches!(row.kind, Fastener::Button | Fastener::Snap) {
            findings.extend(one_layer(garment, size, &laid.places, (id, row.kind, needed)));
        }
        let Some((reaches, wide, facing)) = worst else { continue };
        let (shown, many) = (|mm: f64| amount(mm, garment.unit), said.kind.many());
        let name = words::piece(garment, facing.drawn.piece);
        if reaches >= needed - 0.01 {
            let title = format!(
                "{name} reaches {} behind the {many} of {}: not behind all of a buttonhole that lies across",
                shown(reaches),
                closure.name
            );
            let advice =
                Diagnostic::new(&catalogue::BUTTON_FACING_SHORT, facing.said, Title::new(title).in_sizes())
                    .label(format!("{} from edge to {many}", shown(facing.from_edge)))
                    .also(closure.kind_span, format!("a buttonhole is {} long", shown(across)))
                    .help(format!(
                        "make it {} wide or more; only buttonholes that lie along the edge need less",
                        at_least(wide, garment.unit)
                    ));
            let found = Finding::new(size.drawn.size, across - reaches, advice);
            findings.push(found.about(format!("{} {name}", closure.name)).figure("behind", shown(reaches)));
            continue;
        }
        let title = match reaches > 0.0 {
            true => format!("{name} reaches only {} behind the {many} of {}", shown(reaches), closure.name),
            false => format!("{name} does not reach behind the {many} of {}", closure.name),
        };
        let mistake = Diagnostic::new(&catalogue::BUTTON_FACING, facing.said, Title::new(title).in_sizes())
            .label(format!("{} from edge to {many}", shown(facing.from_edge)))
            .also(closure.kind_span, format!("each needs {} beside its middle", shown(needed)))
            .help(format!("make it {} wide or more", at_least(wide, garment.unit)));
        let found = Finding::new(size.drawn.size, needed - reaches, mistake);
        findings
            .push(found.about(format!("{} {name}", closure.name)).figure("behind", shown(reaches.max(0.0))));
    }
}

/// A row of buttons or snaps along an edge behind which nothing lies that faces or stiffens it: its hem ends before them, or it
/// has none.
fn one_layer(
    garment: &Garment,
    size: &WorkedSize,
    places: &[(PartId, Point)],
    (closure, kind, needed): (ClosureId, Fastener, f64),
) -> Option<Finding> {
    let mut worst: Option<(f64, f64, Behind, Span)> = None;
    let parts: BTreeSet<PartId> = places.iter().map(|(part, _)| *part).collect();
    // Buttonholes are worked in what hangs over, and not in the pocket below it.
    let under = second_hangs(garment, &size.drawn, closure).map(|is_second| {
        let own = garment.closure(closure);
        if is_second { &own.first } else { &own.second }
    });
    let is_under =
        |piece: PieceId| under.is_some_and(|side| side.edges.iter().any(|sewn| sewn.piece == piece));
    for id in parts {
        let sewn = size.sewn.part(id);
        if kind == Fastener::Button && is_under(sewn.part.piece) {
            continue;
        }
        let host = size.drawn.paper(sewn.part.paper)?;
        let is_fused = |other: &SewnPart| {
            let onto = garment.is_fused_onto(other.part.layer, sewn.part.layer);
            other.fused && onto && other.part.piece == sewn.part.piece
        };
        if size.sewn.parts.iter().any(is_fused) {
            return None;
        }
        // The edge that the whole row lies along.
        let away = |edge: &DrawnEdge| {
            let own = places.iter().filter(|(part, _)| *part == id);
            own.map(|(_, at)| edge.path.nearest(*at).distance).fold(0.0, f64::max)
        };
        let edges = host.edges.iter().zip(&sewn.edges);
        let (nearest, fate) = edges.min_by(|(one, _), (other, _)| away(one).total_cmp(&away(other)))?;
        let finish = fate.takers.iter().find_map(|taker| match taker.what {
            TakenBy::Finish(id) => Some((id, taker.span)),
            _ => None,
        });
        let Some((finish, span)) = finish.filter(|_| away(nearest) <= STAND) else { continue };
        let is_single = !is_lined(garment, size, sewn) && !is_stout(garment, sewn);
        let behind = match &garment.finish(finish).kind {
            // A buttonhole is cut into whatever cloth it is worked in.
            FinishKind::Hem(Hem { depth, .. }) if is_single || kind == Fastener::Button => {
                Behind::Hem(amount_of(garment, &size.drawn, depth)?)
            }
            FinishKind::Bound(_) | FinishKind::Overlocked | FinishKind::Raw if is_single => Behind::Nothing,
            _ => continue,
        };
        let reaches = if let Behind::Hem(depth) = behind { depth } else { 0.0 };
        let short = away(nearest) + needed - reaches;
        if short > garment.tolerance && worst.is_none_or(|(known, ..)| short > known) {
            worst = Some((short, away(nearest), behind, span));
        }
    }
    let (short, away, behind, span) = worst?;
    let (closure, unit) = (garment.closure(closure), garment.unit);
    let many = kind.many();
    let title = match behind {
        Behind::Hem(_) => format!(
            "the hem beside the {many} of {} ends {} before they do: {}",
            closure.name,
            amount(short, unit),
            match kind {
                Fastener::Button => "the buttonholes are worked in one layer",
                _ => "they hold on one layer",
            }
        ),
        Behind::Nothing => {
            format!("nothing lies behind the {many} of {}: they hold on one layer", closure.name)
        }
    };
    let help = match behind {
        Behind::Hem(_) => {
            format!(
                "make the hem {} deep or more, so that it lies behind them;",
                at_least(away + needed, unit)
            )
        }
        Behind::Nothing => {
            format!(
                "give the edge a hem of {} or more, or a facing, that lies behind them;",
                at_least(away + needed, unit)
            )
        }
    };
    let advice = Diagnostic::new(&catalogue::BUTTON_FACING_SHORT, span, Title::new(title).in_sizes())
        .label(format!("the {many} lie {} from this edge", amount(away, unit)))
        .also(closure.kind_span, format!("each needs {} beside its middle", amount(needed, unit)))
        .help(format!("{help} or fuse what they go through"));
    Some(Finding::new(size.id(), short, advice).about(&*closure.name))
}

/// What lies behind the cloth along an edge.
#[derive(Clone, Copy)]
enum Behind {
    /// A hem so deep.
    Hem(f64),
    /// Nothing.
    Nothing,
}

/// Whether a piece is cut in another layer of cloth as well, or something lies on it that is stitched down.
fn is_lined(garment: &Garment, size: &WorkedSize, sewn: &SewnPart) -> bool {
    let origins = garment.origins(sewn.part.piece);
    let is_behind = |other: &SewnPart| {
        let own = garment.origins(other.part.piece);
        other.part.layer != sewn.part.layer && own.iter().any(|origin| origins.contains(origin))
    };
    size.sewn.parts.iter().any(is_behind)
        || garment.placements.iter().any(|placement| origins.contains(&placement.on))
}

/// Whether its cloth holds a fastener by itself.
fn is_stout(garment: &Garment, sewn: &SewnPart) -> bool {
    let fabric = garment.layer(sewn.part.layer).fabric.map(|id| garment.fabric(id));
    // Canvas and oilcloth hold by themselves, poplin and jersey do not (common practice).
    fabric.is_none_or(|fabric| !matches!(fabric.kind, Some(ClothKind::WovenSupple | ClothKind::Knit)))
}

/// A strip of a piece along the edge that a button is nearest to.
struct Facing<'a> {
    drawn: &'a DrawnPiece,
    inner: &'a Path,
    said: Span,
    /// How far the button lies from the edge.
    from_edge: f64,
}

impl Facing<'_> {
    /// How far it goes on beyond a button; less than nothing where it ends before.
    fn reaches(&self, at: Point) -> f64 {
        let ring: Vec<Path> = self.drawn.edges.iter().map(|edge| edge.path.clone()).collect();
        let away = self.inner.nearest(at).distance;
        if Region::of(&ring).contains(at) { away } else { -away }
    }
}

fn facings<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    host: Part,
    drawn: &'a DrawnPiece,
    at: Point,
) -> Vec<Facing<'a>> {
    let away = |edge: &crate::resolve::DrawnEdge| edge.path.nearest(at).distance;
    let nearest = drawn.edges.iter().min_by(|one, other| away(one).total_cmp(&away(other)));
    let Some(nearest) = nearest else { return Vec::new() };
    // A facing of the same cloth is often cut in the same layer.
    let behind = |part: &Part| part.piece != host.piece && !garment.layer(part.layer).fused;
    let parts = size.sewn.parts.iter().map(|part| part.part).filter(behind);
    parts
        .filter_map(|part| {
            let Outline::Strip { of, along, inner, span, .. } = &garment.piece(part.piece).drawing.outline
            else {
                return None;
            };
            let is_of = garment.paper(of.paper).piece == host.piece;
            let is_along = along.iter().any(|&along| garment.is_run_of(nearest.edge, along));
            let strip = size.drawn.paper(part.paper).filter(|_| is_of && is_along)?;
            let inner = &strip.edges.iter().find(|edge| garment.is_run_of(edge.edge, *inner))?.path;
            Some(Facing { drawn: strip, inner, said: *span, from_edge: away(nearest) })
        })
        .collect()
}
