//! A test square: by the rule by which vector drawings have one, asked of what is drawn outside blocks and of each block.

use super::item::{Item, What};
use super::place::Placed;
use super::roles::{Role, by_number, by_word};
use super::units::Taken;
use crate::bring::BringError;
use crate::bring::read::inside::Inside;
use crate::bring::read::said::{Key, keyed};
use crate::bring::read::svg::elements::{self, Elements};
use crate::bring::read::svg::scale;
use crate::bring::traced::TracedPath;
use indexmap::IndexSet;
use kurbo::Affine;
use std::collections::HashSet;

/// An inch, in millimetres, and how exactly a square must say it for the drawing to be one in inches.
const INCH: (f64, f64) = (25.4, 0.05);

/// What was said of test squares.
#[derive(Debug, Default)]
pub(super) struct Squares {
    /// What came of them.
    pub remarks: Vec<String>,
    /// What makes nothing of the drawing certain.
    pub wrong: Vec<BringError>,
    /// Whether one says the scale, whatever the drawing says of itself.
    pub is_said: bool,
}

/// Takes test squares out of what is drawn and, if `may_scale`, brings it to the scale that the first one says.
pub(super) fn by_square(placed: &mut Placed, taken: &mut Taken, file: &str, may_scale: bool) -> Squares {
    let mut squares = Squares::default();
    let before = taken.taken.clone();
    let loose = std::iter::once((None, &mut placed.loose));
    let blocks = placed.groups.iter_mut().map(|group| (group.block.as_deref(), &mut group.items));
    for (block, items) in loose.chain(blocks) {
        if !may_have_one(block, items) {
            continue;
        }
        let mut drawing = drawing(block, items);
        drawing.measured = taken.is_said;
        drawing.unit = Some(before.clone());
        let asked: Vec<usize> = drawing.items.iter().flat_map(|item| item.groups.iter().copied()).collect();
        scale::by_square(&mut drawing, file, may_scale && !squares.is_said);
        squares.remarks.append(&mut drawing.remarks);
        squares.wrong.append(&mut drawing.wrong);
        if drawing.items.len() == asked.len() {
            continue;
        }
        take_out(items, &asked, &drawing);
        if let Some(unit) = drawing.unit.filter(|unit| unit.why != before.why) {
            taken.taken = unit;
            squares.is_said = true;
        }
    }
    let by = taken.taken.size / before.size;
    if squares.is_said {
        taken.in_inches |= (taken.taken.size - INCH.0).abs() < INCH.1;
    }
    if by != 1.0 {
        let all = placed.groups.iter_mut().flat_map(|group| &mut group.items).chain(&mut placed.loose);
        all.for_each(|item| larger(&mut item.what, by));
    }
    squares
}

/// Whether anything here says a length and no more.
fn may_have_one(block: Option<&str>, items: &[Item]) -> bool {
    let says = |item: &Item| match &item.what {
        What::Words(_, _, words) => scale::says_a_length(said(words)),
        What::Path(path) => path.closed && scale::says_a_length(&item.layer),
        What::Point(_) => false,
    };
    block.is_some_and(scale::says_a_length) || items.iter().any(says)
}

/// What words say of a piece's name, or as they stand there.
fn said(words: &str) -> &str {
    keyed(words).filter(|(key, _)| *key == Key::PieceName).map_or(words, |(_, name)| name)
}

/// What is closed here and what is written, as a vector drawing has it; each shape's only group is its place among the items.
fn drawing(block: Option<&str>, items: &[Item]) -> Elements {
    let role = |layer: &str| match by_number(layer) {
        Role::Unknown => by_word(layer),
        numbered => numbered,
    };
    let closed: Vec<(usize, &Item, &TracedPath)> = items
        .iter()
        .enumerate()
        .filter_map(|(at, item)| match &item.what {
            What::Path(path) if path.closed => Some((at, item, path)),
            _ => None,
        })
        .filter(|(_, item, _)| matches!(role(&item.layer), Role::Unknown | Role::Boundary | Role::Internal))
        .collect();
    let name = block.map(|block| {
        let names = items.iter().filter_map(|item| match &item.what {
            What::Words(_, _, words) => keyed(words),
            _ => None,
        });
        let mut names = names.filter(|(key, _)| *key == Key::PieceName).map(|(_, name)| name);
        names.next().unwrap_or(block).to_owned()
    });
    // A block's name is that of its outline, the largest line in it.
    let largest = closed.iter().max_by(|(_, _, one), (_, _, other)| area(one).total_cmp(&area(other)));
    let outline = largest.filter(|_| name.is_some()).map(|(at, ..)| *at);
    let shapes = closed.iter().map(|(at, item, path)| elements::Item {
        paths: vec![(*path).clone()],
        name: match outline == Some(*at) {
            true => name.clone(),
            false => scale::says_a_length(&item.layer).then(|| item.layer.to_string()),
        },
        groups: vec![*at],
        arrow: false,
        circle: false,
        paint: Default::default(),
        class_size: None,
        line: item.line,
    });
    let words = items.iter().filter_map(|item| match &item.what {
        What::Words(at, _, text) if keyed(text).is_none_or(|(key, _)| key != Key::PieceName) => {
            Some(elements::Words { text: text.clone(), at: *at, groups: Vec::new(), colour: None })
        }
        _ => None,
    });
    Elements { items: shapes.collect(), words: words.collect(), ..Elements::default() }
}

fn area(path: &TracedPath) -> f64 {
    Inside::of(path).area()
}

/// Takes the squares out that are no longer in the drawing, and the words in them.
fn take_out(items: &mut Vec<Item>, asked: &[usize], drawing: &Elements) {
    let left: HashSet<usize> = drawing.items.iter().flat_map(|item| item.groups.iter().copied()).collect();
    let gone: IndexSet<usize> = asked.iter().copied().filter(|at| !left.contains(at)).collect();
    let squares: Vec<Inside> = gone
        .iter()
        .filter_map(|at| match &items.get(*at)?.what {
            What::Path(path) => Some(Inside::of(path)),
            _ => None,
        })
        .collect();
    let mut at = 0;
    items.retain(|item| {
        at += 1;
        match &item.what {
            What::Words(place, ..) => !squares.iter().any(|square| square.holds(*place)),
            _ => !gone.contains(&(at - 1)),
        }
    });
}

fn larger(what: &mut What, by: f64) {
    match what {
        What::Path(path) => {
            for segment in &mut path.segments {
                segment.course = Affine::scale(by) * segment.course;
                if let Some(arc) = &mut segment.arc {
                    arc.centre = (arc.centre.to_vec2() * by).to_point();
                }
            }
        }
        What::Point(at) => *at = (at.to_vec2() * by).to_point(),
        // Letters are as high as the drawing says, in its own units.
        What::Words(at, ..) => *at = (at.to_vec2() * by).to_point(),
    }
}
