//! What has to be bought beside cloth.

use super::amounts::amount_of;
use super::channels::{Channel, RunsThrough};
use super::model::{FastenerRow, NotionNeed, NotionSource, SewnSeam, SewnSide};
use super::seam_kinds::seam_making;
use super::set_count::set_count;
use super::stitching::{Finder, Place};
use super::straps::{is_on_fold, strap_place};
use super::surface::Surface;
use crate::garment::{
    Binding, ClosureId, ClosureKind, CordId, CutHow, Dimension, Finish, FinishId, FinishKind, Garment,
    NotionId, NotionKind, NotionName, Seam, SeamId,
};
use crate::resolve::{SizedGarment, finished};
use crate::source::Span;
use crate::syntax::tree::{Fastener, SeamKind};

/// What elastic is bought longer than it is worn, in millimetres: its ends overlap by so much where
/// they are joined, or are sewn in (common practice: 2 cm).
pub const ELASTIC_JOINING: f64 = 20.0;

/// What is counted on the sewn surface; none where that is not known, which has been reported.
#[derive(Clone, Copy)]
pub(super) struct Counted<'a> {
    /// How many there are of each closure.
    pub(super) closures: Option<&'a [u32]>,
    /// The channels of elastic and cords.
    pub(super) channels: Option<&'a [Channel]>,
    /// The surface itself.
    pub(super) surface: Option<&'a Surface>,
}

impl Counted<'_> {
    fn of_closure(&self, id: ClosureId) -> Option<u32> {
        self.closures.and_then(|closures| closures.get(id.index())).copied()
    }

    /// How many channels there are for it.
    fn of_channel(&self, of: RunsThrough) -> Option<u32> {
        Some(self.channels?.iter().filter(|channel| channel.of == of).count() as u32)
    }
}

/// Zips, buttons and the like, elastic, binding, cords, and what the maker lists; in that order. Each is counted
/// for all copies of what it is sewn to.
pub(super) fn notions(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    fasteners: &[FastenerRow],
    seams: &[SewnSeam],
    counted: Counted,
) -> Vec<NotionNeed> {
    let mut needs = Vec::new();
    for (id, (closure, fit)) in ClosureId::enumerate(garment.closures.iter().zip(&sized.zips)) {
        if let (Some(fit), Some(ClosureKind::Zipper { kind, .. })) = (fit, &closure.kind) {
            let source = NotionSource::Closure(id);
            let mut zip = need(NotionKind::Zip(Some(*kind)), Some(fit.zip), source, closure.kind_span);
            zip.count = counted.of_closure(id);
            zip.length = Some(fit.zip);
            needs.push(zip);
        }
    }
    for row in fasteners {
        let (span, source) = (garment.closure(row.closure).kind_span, NotionSource::Closure(row.closure));
        let is_tie = row.kind == Fastener::Tie;
        let mut one = need(NotionKind::Fastener(row.kind), row.size.filter(|_| !is_tie), source, span);
        // A tie ties to another.
        let each = if is_tie { 2 } else { 1 };
        one.count = counted.of_closure(row.closure).map(|rows| rows.saturating_mul(row.count * each));
        one.length = row.size.filter(|_| is_tie);
        needs.push(one);
    }
    for (id, finish) in FinishId::enumerate(&garment.finishes) {
        needs.extend(of_finish(garment, sized, finder, counted, id, finish));
    }
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        needs.extend(of_seam(garment, sized, seams, id, seam));
        needs.extend(taped(garment, sized, seams, id, seam));
    }
    for (id, cord) in CordId::enumerate(&garment.cords) {
        if let Some(long) = amount_of(garment, sized, &cord.length) {
            let mut need = need(NotionKind::Cord(Some(id)), None, NotionSource::Cord(id), cord.span);
            need.count = counted.of_channel(RunsThrough::Cord(id));
            need.length = Some(long);
            needs.push(need);
        }
    }
    for (id, notion) in NotionId::enumerate(&garment.notions) {
        let Some(said) = &notion.amount else {
            needs.extend(set_somewhere(garment, sized, finder, counted, id));
            continue;
        };
        let Some(value) = amount_of(garment, sized, said) else { continue };
        let is_length = said.dimension == Dimension::Length;
        let is_count = !is_length && value >= 0.0 && value <= f64::from(u32::MAX);
        needs.push(NotionNeed {
            name: notion.name.clone(),
            source: NotionSource::Listed(id),
            count: is_count.then_some(value.ceil() as u32),
            length: is_length.then_some(value),
            joining: None,
            stretch: None,
            cut_from: None,
            span: notion.span,
        });
    }
    needs
}

/// What is listed without a number, as many as are set; none where none is, or where that is not known.
fn set_somewhere(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    counted: Counted,
    id: NotionId,
) -> Option<NotionNeed> {
    let counts = garment.sets_of(id).map(|tack| set_count(garment, sized, finder, counted.surface, tack));
    let count = counts.reduce(|one, other| Some(one?.saturating_add(other?)))??;
    let notion = garment.notion(id);
    let mut need = need(NotionKind::Other(notion.title.clone()), None, NotionSource::Listed(id), notion.span);
    (need.name, need.count) = (notion.name.clone(), Some(count));
    Some(need)
}

fn of_finish(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    counted: Counted,
    id: FinishId,
    finish: &Finish,
) -> Option<NotionNeed> {
    let source = NotionSource::Finish(id);
    match &finish.kind {
        FinishKind::Casing(_, Some((width, long))) | FinishKind::Elastic(width, long) => {
            let (width, long) = (amount_of(garment, sized, width)?, amount_of(garment, sized, long)?);
            let mut elastic = need(NotionKind::Elastic, Some(width), source, finish.kind_span);
            elastic.count = counted.of_channel(RunsThrough::Elastic(id));
            elastic.length = Some(long + ELASTIC_JOINING);
            elastic.joining = Some(ELASTIC_JOINING);
            Some(elastic)
        }
        FinishKind::Bound(binding) => {
            let width = amount_of(garment, sized, &binding.width)?;
            let long = bound_length(garment, finder, finish)? + beyond(garment, sized, counted, id, binding)?;
            let fabric = binding.cut_from;
            let mut binding = need(NotionKind::Binding, Some(width), source, finish.kind_span);
            (binding.length, binding.cut_from) = (Some(long), fabric);
            let stretch = finish.binding_stretch.as_ref();
            binding.stretch = stretch.and_then(|share| amount_of(garment, sized, share));
            Some(binding)
        }
        FinishKind::Tape(said) => {
            let width = match said {
                Some(said) => Some(amount_of(garment, sized, said)?),
                None => None,
            };
            let mut tape = need(NotionKind::Tape, width, source, finish.kind_span);
            tape.length = Some(bound_length(garment, finder, finish)?);
            Some(tape)
        }
        _ => None,
    }
}

/// What of a binding lies beyond its edges: what runs on at the ends of each of its rows, and its loops on every
/// copy; none where that is not known.
fn beyond(
    garment: &Garment,
    sized: &SizedGarment,
    counted: Counted,
    id: FinishId,
    binding: &Binding,
) -> Option<f64> {
    let mut sum = 0.0;
    if !binding.running_on.is_empty() {
        let channels = counted.channels?.iter();
        let own = channels.filter(|channel| channel.of == RunsThrough::Binding(id) && !channel.ring);
        let rows = own.count() as f64;
        for end in &binding.running_on {
            sum += rows * amount_of(garment, sized, &end.length)?;
        }
    }
    for one in &binding.loops {
        let (drawn, at) = strap_place(garment, sized, one.at)?;
        let times = match drawn.cut {
            CutHow::OnFold(_) if !is_on_fold(drawn, at) => 2 * drawn.count,
            _ => drawn.count,
        };
        sum += f64::from(times) * amount_of(garment, sized, &one.length)?;
    }
    Some(sum)
}

/// The binding of a seam's edges: each side's allowances are bound as one.
fn of_seam(
    garment: &Garment,
    sized: &SizedGarment,
    seams: &[SewnSeam],
    id: SeamId,
    seam: &Seam,
) -> Option<NotionNeed> {
    let making = seam_making(garment, sized, seam).filter(|making| making.kind == SeamKind::EdgesBound)?;
    let side = |side: &SewnSide| side.plies.iter().map(|ply| ply.length).fold(0.0, f64::max);
    let sewn = seams.iter().filter(|sewn| sewn.seam == id && sewn.known && sewn.unpaired.is_none());
    let long = sewn.map(|sewn| (side(&sewn.first) + side(&sewn.second)) * f64::from(sewn.sewings));
    let long = long.reduce(|sum, more| sum + more)?;
    let span = seam.work.as_ref().map_or(seam.span, |work| work.span);
    let mut binding = need(NotionKind::Binding, Some(making.width), NotionSource::Seam(id), span);
    binding.length = Some(long);
    Some(binding)
}

/// The tape that is sewn into a seam, as long as its second side: what is eased, gathered or stretched on is brought to
/// that.
fn taped(
    garment: &Garment,
    sized: &SizedGarment,
    seams: &[SewnSeam],
    id: SeamId,
    seam: &Seam,
) -> Option<NotionNeed> {
    let said = seam.tape.as_ref()?;
    let width = match &said.width {
        Some(width) => Some(amount_of(garment, sized, width)?),
        None => None,
    };
    let side = |side: &SewnSide| side.plies.iter().map(|ply| ply.length).fold(0.0, f64::max);
    let sewn = seams.iter().filter(|sewn| sewn.seam == id && sewn.known && sewn.unpaired.is_none());
    let long = sewn.map(|sewn| side(&sewn.second) * f64::from(sewn.sewings));
    let mut tape = need(NotionKind::Tape, width, NotionSource::Seam(id), said.span);
    tape.length = Some(long.reduce(|sum, more| sum + more)?);
    Some(tape)
}

fn need(kind: NotionKind, measure: Option<f64>, source: NotionSource, span: Span) -> NotionNeed {
    let name = NotionName { kind, measure };
    NotionNeed { name, source, count: None, length: None, joining: None, stretch: None, cut_from: None, span }
}

/// The finished length of all that is bound, over all copies in all its layers.
fn bound_length(garment: &Garment, finder: &Finder, finish: &Finish) -> Option<f64> {
    let places: Vec<Place> = finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn)).collect();
    let mut sum = None;
    for place in places {
        let drawn = finder.drawn(place.part)?;
        let times = f64::from(finder.times(place.part));
        sum = Some(sum.unwrap_or(0.0) + finished(garment, drawn, place.edge)? * times);
    }
    sum
}
