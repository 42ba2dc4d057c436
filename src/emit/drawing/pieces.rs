//! Which parts are one piece of paper: the same part in every size, and parts of several layers that are cut alike.

use super::look::Look;
use crate::cutting::{CutNotch, CutPart, Cutting, MarkedPlace};
use crate::garment::{Garment, LayerId, Part};
use crate::sewing::FastenerPlace;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;
use kurbo::{PathEl, Point};
use std::borrow::Cow;

/// A piece of paper, in every size that is drawn.
#[derive(Clone, Debug)]
pub struct Group<'a> {
    /// One a size, smallest first. What several layers cut by it is put together in one.
    pub members: Vec<Cow<'a, CutPart>>,
    /// The parts that are cut by it, the first one's first.
    pub parts: Vec<Part>,
    /// Which of how many it is, counted from 1; none where they are not counted.
    pub number: Option<(usize, usize)>,
}

/// The parts of several sizes, part by part, in the order of the first size that has them.
pub fn group(cuts: &[Cutting]) -> Vec<Group<'_>> {
    let mut groups: indexmap::IndexMap<_, Vec<Cow<CutPart>>> = indexmap::IndexMap::new();
    for part in cuts.iter().flat_map(|cut| &cut.parts) {
        groups.entry((part.part, part.hand)).or_default().push(Cow::Borrowed(part));
    }
    groups
        .into_iter()
        .map(|((part, _), members)| Group { members, parts: vec![part], number: None })
        .collect()
}

/// The pieces of paper that `look` shows. Counted are all that there are, so that a piece bears one number
/// whatever is shown beside it.
pub fn pieces<'a>(garment: &Garment, cuts: &'a [Cutting], look: &Look) -> Vec<Group<'a>> {
    let mut pieces: Vec<Group> = Vec::new();
    // What several layers cut alike is one piece of paper and has one number, drawn layer by layer too.
    let mut papers: Vec<(usize, Group)> = Vec::new();
    for mut next in group(cuts) {
        let known = papers.iter().position(|(_, paper)| cut_alike(paper, &next));
        let at = known.unwrap_or(papers.len());
        match known.and_then(|known| papers.get(known)).and_then(|&(first, _)| pieces.get_mut(first)) {
            Some(piece) if !look.every_part => put_together(garment, piece, next),
            _ => {
                next.number = Some((at + 1, 0));
                if known.is_none() {
                    papers.push((pieces.len(), next.clone()));
                }
                pieces.push(next);
            }
        }
    }
    let all = papers.len();
    for (_, count) in pieces.iter_mut().filter_map(|piece| piece.number.as_mut()) {
        *count = all;
    }
    pieces.retain(|piece| piece.parts.iter().any(|part| look.shows(*part)));
    pieces
}

/// Whether what is cut by one can be cut by the other, in every size: along the same lines, with the same fold, grain
/// and snips, and sewn along the same ones. What is marked inside may differ.
fn cut_alike(one: &Group, other: &Group) -> bool {
    one.members.len() == other.members.len()
        && one.members.iter().zip(&other.members).all(|(one, other)| {
            one.size == other.size
                && one.hand == other.hand
                && one.part.piece == other.part.piece
                && one.fold.is_some() == other.fold.is_some()
                && one.middle.is_some() == other.middle.is_some()
                && one.mirrored == other.mirrored
                && one.flipped == other.flipped
                && one.grain.cross(other.grain).abs() < 1e-9
                && same(one, other)
                && same_snips(one, other)
                && one.take_ups == other.take_ups
                && one.slits == other.slits
        })
}

fn same_snips(one: &CutPart, other: &CutPart) -> bool {
    let all = |part: &CutPart| -> Vec<(Option<Hand>, Point)> {
        let of = |notch: &CutNotch| -> Vec<(Option<Hand>, Point)> {
            notch.snips.iter().flat_map(|&(from, to)| [(notch.hand, from), (notch.hand, to)]).collect()
        };
        part.notches.iter().flat_map(of).collect()
    };
    let (own, its) = (all(one), all(other));
    let is_there = |(hand, at): &(Option<Hand>, Point)| {
        its.iter().any(|(other_hand, other)| hand == other_hand && at.distance(*other) < NEAR)
    };
    own.len() == its.len() && own.iter().all(is_there)
}

/// Two sizes of a part, or two parts, are cut and sewn alike, to what a drawing shows.
pub(super) fn same(one: &CutPart, other: &CutPart) -> bool {
    let rings = [(&one.stitching, &other.stitching), (&one.cutting_ring(), &other.cutting_ring())];
    rings.into_iter().all(|(one, other)| {
        one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same_path(one, other))
    })
}

fn same_path(one: &Path, other: &Path) -> bool {
    let (own, its) = (one.to_bez(), other.to_bez());
    own.elements().len() == its.elements().len()
        && own.elements().iter().zip(its.elements()).all(|(one, other)| near(one, other))
}

fn near(one: &PathEl, other: &PathEl) -> bool {
    let close = |a: &Point, b: &Point| a.distance(*b) < NEAR;
    match (one, other) {
        (PathEl::MoveTo(a), PathEl::MoveTo(b)) | (PathEl::LineTo(a), PathEl::LineTo(b)) => close(a, b),
        (PathEl::CurveTo(a, b, c), PathEl::CurveTo(d, e, f)) => close(a, d) && close(b, e) && close(c, f),
        _ => false,
    }
}

/// Adds parts of another layer to a piece. What only one of the layers has inside bears the layer's name.
fn put_together<'a>(garment: &Garment, piece: &mut Group<'a>, next: Group<'a>) {
    for (own, its) in piece.members.iter_mut().zip(next.members) {
        let before: Vec<LayerId> = piece.parts.iter().map(|part| part.layer).collect();
        unite(garment, own.to_mut(), &its, &before);
    }
    piece.parts.extend(next.parts);
}

fn unite(garment: &Garment, own: &mut CutPart, its: &CutPart, before: &[LayerId]) {
    let theirs = garment.layer(its.part.layer).name.to_string();
    let ours: Vec<&str> = before.iter().map(|&layer| &*garment.layer(layer).name).collect();
    let ours = ours.join(", ");
    own.marks = both(&own.marks, &its.marks, same_mark, |mark, is_own| MarkedPlace {
        name: of_layer(&mark.name, if is_own { &ours } else { &theirs }),
        ..mark.clone()
    });
    own.lines = both(
        &own.lines,
        &its.lines,
        |one, other| one.edge == other.edge && same_path(&one.path, &other.path),
        |line, is_own| crate::cutting::InnerLine {
            name: of_layer(&line.name, if is_own { &ours } else { &theirs }),
            ..line.clone()
        },
    );
    own.guides = both(
        &own.guides,
        &its.guides,
        |one, other| one.kind == other.kind && same_path(&one.path, &other.path),
        |guide, is_own| crate::cutting::Guide {
            name: of_layer(&guide.name, if is_own { &ours } else { &theirs }),
            ..guide.clone()
        },
    );
    own.fasteners = both(&own.fasteners, &its.fasteners, same_fastener, |fastener, _| *fastener);
    own.rows = both(&own.rows, &its.rows, same_path, |row, _| row.clone());
    let label = &mut own.label;
    if before.len() == 1 {
        label.cloth = cloth_and_cut(&label.cloth, &label.cut);
        label.cut = String::new();
    }
    label.cloth = format!("{}\n{}", label.cloth, cloth_and_cut(&its.label.cloth, &its.label.cut));
}

fn cloth_and_cut(cloth: &str, cut: &str) -> String {
    if cut.is_empty() { cloth.to_owned() } else { format!("{cloth}: {cut}") }
}

/// What both have, and then what only one of them has, each told apart by `alone`, which hears whether it is the
/// first one's. What was told apart before keeps its name.
fn both<T: Clone>(
    own: &[T],
    its: &[T],
    same: impl Fn(&T, &T) -> bool,
    alone: impl Fn(&T, bool) -> T,
) -> Vec<T> {
    let has = |all: &[T], one: &T| all.iter().any(|other| same(one, other));
    let mut united: Vec<T> =
        own.iter().map(|one| if has(its, one) { one.clone() } else { alone(one, true) }).collect();
    united.extend(its.iter().filter(|one| !has(own, one)).map(|one| alone(one, false)));
    united
}

fn same_mark(one: &MarkedPlace, other: &MarkedPlace) -> bool {
    one.at.distance(other.at) < NEAR && one.hand == other.hand
}

fn same_fastener(one: &FastenerPlace, other: &FastenerPlace) -> bool {
    one.kind == other.kind && one.at.distance(other.at) < NEAR
}

fn of_layer(name: &str, layer: &str) -> String {
    if name.ends_with(')') { name.to_owned() } else { format!("{name} ({layer})") }
}

/// Points nearer to each other than this are one on a drawing, in millimetres.
const NEAR: f64 = 0.01;
