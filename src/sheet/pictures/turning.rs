//! Gaps: what is turned through them, and how they are closed by hand; seams that are pressed.

use super::canvas::{Mark, Panel};
use super::fit::contains;
use super::ink::Stroke;
use super::layout::Layout;
use super::making::Making;
use super::plies::Once;
use super::rolled;
use super::seam::{bars, edges, wants_rolling};
use crate::garment::SeamId;
use crate::sewing::order::Job;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

/// Every time that a seam is sewn that leaves a gap.
fn with_gap(making: &Making, id: SeamId) -> Vec<Once> {
    let own = making.size.sewn.seams.iter().enumerate().filter(|(_, sewn)| sewn.seam == id);
    let all = own.flat_map(|(at, _)| Once::all(making, at));
    all.filter(|once| once.plies.iter().flat_map(|ply| &ply.runs).any(|run| run.gap.is_some())).collect()
}

/// The gap of a seam: an arrow leads out of it where something is turned through it; slipstitches where it is closed.
pub fn gap(making: &Making, id: SeamId, letter: Option<&str>, step: usize) -> Option<Panel> {
    let all: Vec<Once> = with_gap(making, id).into_iter().take(1).collect();
    if all.is_empty() {
        return None;
    }
    let layout = Layout::of(making, &all, step, true);
    let mut panel = Panel::default();
    layout.draw(making, &mut panel, step);
    for run in
        all.iter().flat_map(|once| &once.plies).flat_map(|ply| &ply.runs).filter(|run| run.gap.is_some())
    {
        let (Some(laid), Some((_, Some(path)))) = (layout.of_face(run.face), run.parted(making)) else {
            continue;
        };
        let path = laid.path(&path);
        let middle = path.length() / 2.0;
        let (at, along) = (path.point_at_length(middle), path.tangent_at_length(middle).unwrap_or_default());
        if let Some(letter) = letter {
            panel.line(path.to_bez(), Stroke::Slipped);
            panel.tag(at, along, letter);
        }
        bars(&mut panel, &path);
    }
    if letter.is_none() {
        // Out of the first of its edges.
        let first = all
            .iter()
            .flat_map(|once| &once.plies)
            .flat_map(|ply| &ply.runs)
            .find(|run| run.gap.is_some())?;
        let laid = layout.of_face(first.face)?;
        let path: Path = laid.path(&first.parted(making)?.1?);
        let middle = path.length() / 2.0;
        let (at, along) = (path.point_at_length(middle), path.tangent_at_length(middle)?);
        let across = Vec2::new(-along.y, along.x);
        let ring = laid.ring(making);
        let out = if contains(&ring, at + across) { -across } else { across };
        let long = (path.length() * 0.6).clamp(40.0, 120.0);
        let from: Point = at - out * long * 0.6;
        panel.marks.push(Mark::Arrow(from, at + out * long * 0.5));
    }
    Some(panel)
}

/// A seam that is pressed: its pieces laid out flat, joined, with an iron on it.
pub fn pressed(making: &Making, seams: &[(usize, Option<String>)], step: usize) -> Option<Panel> {
    let all: Vec<Once> =
        seams.iter().flat_map(|(at, _)| Once::all(making, *at).into_iter().take(2)).collect();
    if all.is_empty() {
        return None;
    }
    // A tube, or a row of many pieces, cannot be laid out flat.
    if let [(_, letter)] = seams
        && let [once] = all.as_slice()
        && wants_rolling(making, once)
    {
        let letter = letter.as_deref().unwrap_or_default();
        let mut panel = rolled::panel(making, once, letter, step, Stroke::Before)?;
        let ply = once.side(false)?;
        let aside = Point::new(0.3 * ply.length, 0.0);
        panel.marks.push(Mark::Iron(aside));
        return Some(panel);
    }
    let layout = Layout::of(making, &all, step, false);
    let mut panel = Panel::default();
    layout.draw(making, &mut panel, step);
    for once in &all {
        let letter =
            seams.iter().find(|(at, _)| Some(*at) == once.sewn).and_then(|(_, letter)| letter.as_deref());
        edges(making, &layout, once, letter.unwrap_or_default(), Stroke::Before, &mut panel);
        let ply = once.side(false)?;
        // Away from its letter, which stands in the middle.
        let share = if ply.runs.len() > 1 { 0.08 } else { 0.15 };
        panel.marks.extend(layout.point(making, ply, ply.length * share).map(Mark::Iron));
    }
    panel.marks.retain(|mark| !matches!(mark, Mark::Tag { letter, .. } if letter.is_empty()));
    Some(panel)
}

/// The sewn seams of a job that is a seam, with their letter.
pub fn seams_of(making: &Making, job: Job) -> Vec<(usize, Option<String>)> {
    let Job::Seam(at) = job else { return Vec::new() };
    making.seams_of(at).map(|(sewn, _)| (sewn, making.letter(job))).collect()
}
