//! `row/room`, `row/no-seam`, `row/misses`, `row/outside`, `row/place` and `tack/apart`: rows of stitching and tacks that cannot be
//! sewn where they are said.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    CutHow, Garment, Outline, PieceId, RowId, SeamId, StitchedEdge, StitchedRow, Tack, TackId, TackSpot,
};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, PartRow, PlaceLost, SewnPly, TakenBy, amount_of, beside, tacked};
use crate::shape::beside::row_beside;
use crate::shape::outline::signed_area;
use crate::shape::path::Path;
use crate::source::Span;
use crate::syntax::tree::RowKind;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::ROW_ROOM,
        &catalogue::ROW_NO_SEAM,
        &catalogue::ROW_MISSES,
        &catalogue::ROW_OUTSIDE,
        &catalogue::ROW_PLACE,
        &catalogue::TACK_APART,
    ],
    run: Run::PerSize(run),
};

/// What faces a piece has so many times less cloth than it: a lining has as much.
const FACED: f64 = 2.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.rows.is_empty() && garment.tacks.is_empty() {
        return;
    }
    for (id, row) in RowId::enumerate(&garment.rows) {
        lost_runs(garment, size, id, row, findings);
        counted(garment, size, row, findings);
        room(garment, size, id, row, findings);
        if row.kind == RowKind::Understitch {
            understitched(garment, size, id, row, findings);
        }
    }
    for (id, tack) in TackId::enumerate(&garment.tacks) {
        lost_places(garment, size, tack, findings);
        if tack.sets.is_none() {
            apart(garment, size, id, tack, findings);
        }
    }
}

/// A row on each part, once for each edge.
fn rows_of(size: &WorkedSize, id: RowId) -> impl Iterator<Item = (PartId, &PartRow)> {
    let parts = PartId::enumerate(&size.sewn.parts);
    let rows = parts.flat_map(|(part, sewn)| sewn.rows.iter().map(move |row| (part, row)));
    rows.filter(move |(_, row)| row.row == id)
}

fn lost_runs(
    garment: &Garment,
    size: &WorkedSize,
    id: RowId,
    row: &StitchedRow,
    findings: &mut Vec<Finding>,
) {
    let finder = size.sewn.finder(garment, &size.drawn);
    for (at, edge) in row.edges.iter().enumerate() {
        let is_same = |other: &&StitchedEdge| {
            let (one, other) = (&edge.sewn, &other.sewn);
            one.edge == other.edge
                && one.layer.zip(other.layer).is_none_or(|(one, other)| one == other)
                && one.on.zip(other.on).is_none_or(|(one, other)| one == other)
        };
        let before = row.edges.iter().take(at).filter(|_| edge.run.is_none()).find(is_same);
        if let Some(before) = before.filter(|before| before.run.is_none()) {
            let title =
                format!("{} is named twice beside {}", words::edge(garment, edge.sewn.edge), row.name);
            let mistake =
                Diagnostic::new(&catalogue::ROW_PLACE, edge.sewn.span, Title::new(title).in_sizes())
                    .label("again here")
                    .also(before.sewn.span, "first here")
                    .help("name it once; of more rows write how many: rows 2 apart 0.5");
            findings.push(Finding::new(size.id(), 1.0, mistake).about(&*row.name));
        }
        let all = beside(garment, &size.drawn, &finder, (id, row), edge);
        if let Some(lost) = all.into_iter().find_map(|(_, found)| found.err()) {
            let edge_words = words::edge(garment, edge.sewn.edge);
            findings.extend(lost_place(garment, size, lost, &edge_words, edge.sewn.span, &row.name));
        }
    }
}

fn lost_places(garment: &Garment, size: &WorkedSize, tack: &Tack, findings: &mut Vec<Finding>) {
    let finder = size.sewn.finder(garment, &size.drawn);
    for end in &tack.ends {
        let lost = tacked(garment, &size.drawn, &finder, end).into_iter().find_map(|(_, found)| found.err());
        let crate::garment::TackSpot::Edge(edge, _) = end.spot else { continue };
        if let Some(lost) = lost {
            let edge = words::edge(garment, edge);
            findings.extend(lost_place(garment, size, lost, &edge, end.span, &tack.name));
        }
    }
}

fn lost_place(
    garment: &Garment,
    size: &WorkedSize,
    lost: PlaceLost,
    edge: &str,
    span: Span,
    name: &str,
) -> Option<Finding> {
    let (title, help, weight) = match lost {
        PlaceLost::Unknown => return None,
        PlaceLost::NotThere => (
            Title::new(format!("what {name} is counted from does not lie at {edge}")),
            "count from one of its corners, a mark on it or an edge beside it; or write in the middle"
                .to_owned(),
            1.0,
        ),
        PlaceLost::EitherWay | PlaceLost::BothEnds => (
            Title::new(format!("{name} may be counted either way along {edge}")),
            "count from one of its corners".to_owned(),
            1.0,
        ),
        PlaceLost::FromWhichEnd => (
            Title::new(format!("it is not said from which end of {edge} {name} is counted")),
            "say it: at 30% from one of its corners; 50% is the middle".to_owned(),
            1.0,
        ),
        PlaceLost::Nothing => (
            Title::new(format!("the run of {edge} that {name} lies beside has no length")),
            "say from where to where: 3..9 from a corner".to_owned(),
            1.0,
        ),
        PlaceLost::Beyond(by) => (
            Title::new(format!("{name} goes {} beyond {edge}", amount(by, garment.unit))),
            "count less far, or from its other end".to_owned(),
            by,
        ),
    };
    let mistake = Diagnostic::new(&catalogue::ROW_PLACE, span, title.in_sizes()).label("where?").help(help);
    Some(Finding::new(size.id(), weight, mistake).about(name))
}

/// There is a whole number of rows, and each lies beside the one before.
fn counted(garment: &Garment, size: &WorkedSize, row: &StitchedRow, findings: &mut Vec<Finding>) {
    let Some((count, apart)) = &row.rows else { return };
    let of = |said| amount_of(garment, &size.drawn, said);
    let (Some(many), Some(far)) = (of(count), of(apart)) else { return };
    // Less than nothing is told of any amount.
    let (title, span) = match () {
        () if (0.0..1.0).contains(&many) || many.fract() != 0.0 => {
            (format!("{} has {many} rows", row.name), count.span)
        }
        () if far == 0.0 && many > 1.0 => {
            (format!("the rows of {} lie on one another", row.name), apart.span)
        }
        () => return,
    };
    let mistake = Diagnostic::new(&catalogue::ROW_ROOM, span, Title::new(title).in_sizes()).help(
        "write a whole number of rows, and how far they are apart: rows 2 apart 0.5; of one row nothing",
    );
    findings.push(Finding::new(size.id(), 1.0, mistake).about(&*row.name));
}

/// Every row must lie on the cloth.
fn room(garment: &Garment, size: &WorkedSize, id: RowId, row: &StitchedRow, findings: &mut Vec<Finding>) {
    let Some(distance) = row.distance.as_ref().map(|said| said.span) else { return };
    let mut seen: IdSet<(PartId, DrawnEdgeId)> = IdSet::default();
    for (part, own) in rows_of(size, id) {
        let Some(drawn) = size.drawn.paper(size.sewn.part(part).part.paper) else { continue };
        let own_ring = drawn.ring_of(own.edge);
        let at = own.edge.index() - own_ring.start;
        let ring = drawn.edges.get(own_ring).unwrap_or_default();
        let ring: Vec<Path> = ring.iter().map(|edge| edge.path.clone()).collect();
        let is_on = own.distance > 0.0 && row_beside(&ring, at, own.distance).is_some();
        if is_on || !seen.insert((part, own.edge)) {
            continue;
        }
        let edge = drawn.edge_at(own.edge).map_or(String::new(), |edge| words::edge(garment, edge.edge));
        let far = amount(own.distance, garment.unit);
        let title = match own.distance > 0.0 {
            true => Title::new(format!("{far} inside {edge} there is no room for {}", row.name)),
            false => Title::new(format!("{} would not lie on the cloth inside {edge}", row.name)),
        };
        let mistake = Diagnostic::new(&catalogue::ROW_ROOM, distance, title.in_sizes())
            .label(format!("{far} from it"))
            .also(own.span, "beside this")
            .help("say less, but more than 0; rows lie each further in than the one before");
        findings.push(Finding::new(size.id(), own.distance.abs(), mistake).about(&*row.name));
        return;
    }
}

/// A facing is understitched to the allowances of a seam, which lie under it.
fn understitched(
    garment: &Garment,
    size: &WorkedSize,
    id: RowId,
    row: &StitchedRow,
    findings: &mut Vec<Finding>,
) {
    let Some(distance) = row.distance.as_ref().map(|said| said.span) else { return };
    for (part, own) in rows_of(size, id) {
        let Some(fate) = size.sewn.part(part).fate(own.edge) else { continue };
        let seam = fate.takers.iter().find_map(|taker| match taker.what {
            TakenBy::Seam(seam, _) => Some(seam),
            _ => None,
        });
        let drawn = size.drawn.paper(size.sewn.part(part).part.paper);
        let edge = drawn.and_then(|drawn| drawn.edge_at(own.edge));
        let edge = edge.map_or(String::new(), |edge| words::edge(garment, edge.edge));
        let Some(seam) = seam else {
            if garment.incomplete.sewing {
                continue;
            }
            let title = Title::new(format!("{edge} is in no seam that it could be understitched to"));
            let mistake = Diagnostic::new(&catalogue::ROW_NO_SEAM, own.span, title.in_sizes())
                .label("no seam")
                .also(row.name_span, "understitched")
                .help("name the edge of the facing that is sewn; or topstitch it");
            findings.push(Finding::new(size.id(), 1.0, mistake).about(&*row.name));
            return;
        };
        if let Some(facing) = faced_by(garment, size, part, own.edge, seam) {
            let own_name = words::piece(garment, size.sewn.part(part).part.piece);
            let facing_name = words::piece(garment, facing);
            let title = Title::new(format!("{} is understitched on {own_name}, the outside", row.name));
            let warning = Diagnostic::new(&catalogue::ROW_OUTSIDE, own.span, title)
                .label("would show")
                .also(garment.seam(seam).name_span, format!("{facing_name} faces it in this seam"))
                .help(format!(
                    "name the edge of {facing_name} instead, so that it rolls to the inside; or topstitch, if the row \
                     is to show"
                ));
            findings.push(Finding::new(size.id(), 0.0, warning).about(&*row.name));
            return;
        }
        let Some(allowance) = fate.allowance.filter(|allowance| own.distance >= *allowance) else { continue };
        let (far, wide) = (amount(own.distance, garment.unit), amount(allowance, garment.unit));
        let title = Title::new(format!(
            "{} lies {far} from {}, and its allowance is only {wide} wide",
            row.name,
            garment.seam(seam).words()
        ));
        let mistake = Diagnostic::new(&catalogue::ROW_MISSES, distance, title.in_sizes())
            .label("beside the allowance")
            .also(fate.allowance_span.unwrap_or(own.span), format!("{wide} wide"))
            .help("sew it close to the seam: 2 or 3 mm from it");
        findings.push(Finding::new(size.id(), own.distance - allowance, mistake).about(&*row.name));
        return;
    }
}

/// The piece that faces an edge of another one in a seam: a strip of it, one that has far less cloth, or the same in a layer that is
/// named after its own, as a lining is.
fn faced_by(
    garment: &Garment,
    size: &WorkedSize,
    part: PartId,
    edge: DrawnEdgeId,
    seam: SeamId,
) -> Option<PieceId> {
    let own = size.sewn.part(part).part;
    let cloth = |part: PartId| -> Option<f64> {
        let drawn = size.drawn.paper(size.sewn.part(part).part.paper)?;
        let halves = if matches!(drawn.cut, CutHow::OnFold(_)) { 2.0 } else { 1.0 };
        Some(signed_area(drawn.edges.iter().map(|edge| &edge.path)).abs() * halves)
    };
    for sewn in size.sewn.seams.iter().filter(|sewn| sewn.seam == seam) {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        let has = |ply: &SewnPly| ply.runs.iter().any(|run| run.part == part && run.edge == edge);
        let others = match (has(first), has(second)) {
            (true, false) => second,
            (false, true) => first,
            _ => continue,
        };
        let faces = |other: PartId| {
            let there = size.sewn.part(other).part;
            let piece = there.piece;
            let origins = garment.origins(own.piece);
            let is_strip = matches!(garment.piece(piece).drawing.outline, Outline::Strip { .. })
                && garment.origins(piece).iter().any(|of| origins.contains(of));
            let is_small = cloth(part).zip(cloth(other)).is_some_and(|(own, other)| other * FACED < own);
            // Layers are named from the outside inwards.
            let is_lining = there.layer > own.layer && garment.layer(own.layer).pieces.contains(&piece);
            is_lining || piece != own.piece && (is_strip || is_small)
        };
        if others.runs.iter().all(|run| faces(run.part)) {
            return others.runs.first().map(|run| size.sewn.part(run.part).part.piece);
        }
    }
    None
}

/// Both places of a tack are of one garment, whose pieces hang together without it.
fn apart(garment: &Garment, size: &WorkedSize, id: TackId, tack: &Tack, findings: &mut Vec<Finding>) {
    let (Some(surface), [from, to]) = (&size.sewn.surface, tack.ends.as_slice()) else { return };
    if let (TackSpot::Point(one), TackSpot::Point(other)) = (&from.spot, &to.spot)
        && (one, from.layer, from.hand) == (other, to.layer, to.hand)
    {
        let title = format!("{} holds a place to itself", tack.name);
        let mistake = Diagnostic::new(&catalogue::ROW_PLACE, to.span, Title::new(title).in_sizes())
            .label("the same place")
            .also(from.span, "from here")
            .help("name the place that it is held to; or, of a place that is only held fast, leave to out");
        findings.push(Finding::new(size.id(), 1.0, mistake).about(&*tack.name));
        return;
    }
    let faces = |piece| {
        let parts = PartId::enumerate(&size.sewn.parts)
            .filter(move |(_, part)| part.part.piece == piece && part.tacks.iter().any(|own| own.tack == id));
        let parts: Vec<PartId> = parts.map(|(part, _)| part).collect();
        parts
    };
    let (one, other) = (faces(from.piece), faces(to.piece));
    if one.is_empty() || other.is_empty() {
        return;
    }
    let has = |component: &[crate::sewing::surface::FaceId], parts: &[PartId]| {
        component.iter().any(|&face| parts.contains(&surface.face(face).part))
    };
    if surface.components().iter().any(|component| has(component, &one) && has(component, &other)) {
        return;
    }
    let title = Title::new(format!(
        "{} holds {} to {}, which nothing sews together",
        tack.name,
        words::piece(garment, from.piece),
        words::piece(garment, to.piece)
    ));
    let mistake = Diagnostic::new(&catalogue::TACK_APART, from.span, title.in_sizes())
        .label("from here")
        .also(to.span, "to here")
        .help("a tack only holds in its place what a seam carries: sew both together, or tack it to what it is sewn to");
    findings.push(Finding::new(size.id(), 1.0, mistake).about(&*tack.name));
}
