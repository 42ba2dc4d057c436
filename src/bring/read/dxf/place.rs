//! Blocks put down where the drawing puts them: groups of things in millimetres, y up.

use super::chain;
use super::courses;
use super::entity::{Entity, Insert, Shape};
use super::file::{Block, File};
use super::item::{Item, SIGN, What};
use super::nothing::{self, Nothing};
use super::outlines::holds_outline;
use crate::bring::BringError;
use crate::bring::at_most::at_most;
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::shown;
use crate::bring::read::said::{Key, keyed};
use crate::limits;
use indexmap::{IndexMap, IndexSet};
use kurbo::{Affine, Vec2};
use std::sync::Arc;

/// What is drawn together.
#[derive(Debug)]
pub(super) struct Group {
    /// The block's name; none for what is drawn outside blocks.
    pub block: Option<String>,
    /// What it is made of.
    pub items: Vec<Item>,
    /// How many times it is put down as it is drawn, and how many times turned over.
    pub times: (u32, u32),
}

/// What a drawing puts down.
#[derive(Debug, Default)]
pub(super) struct Placed {
    /// Blocks that hold an outline, each once.
    pub groups: Vec<Group>,
    /// What is drawn outside blocks, or in blocks that are only signs.
    pub loose: Vec<Item>,
    /// What was left out or is in doubt.
    pub remarks: Vec<String>,
    /// The same of what explains more than itself.
    pub causes: Vec<String>,
    /// What stands there and draws nothing.
    pub nothing: Vec<Nothing>,
}

/// Puts everything down.
///
/// # Errors
/// Blocks that put down themselves, or more than limits allow.
pub(super) fn placed(file: &File, name: &str, scale: f64) -> Result<Placed, BringError> {
    let mut placing = Placing {
        file,
        name,
        steps: 0,
        segments: 0,
        chain: Vec::new(),
        known: IndexMap::new(),
        frames: Vec::new(),
        missing: IndexSet::new(),
        used: IndexSet::new(),
        nothing: IndexMap::new(),
        out: Placed::default(),
    };
    placing.outermost(&file.entities, Affine::scale(scale), "0", &[])?;
    let is_drawn = |item: &Item| matches!(item.what, What::Path(_));
    let is_library = placing.out.groups.is_empty()
        && placing.nothing.is_empty()
        && !placing.out.loose.iter().any(is_drawn);
    placing.not_put_down(scale, is_library)?;
    placing.remark();
    placing.out.nothing = placing.nothing.into_values().collect();
    Ok(placing.out)
}

/// The name and the size that are written with a block: where they differ it is another piece.
type Called = [Option<String>; 2];

/// What of words is a name or a size.
fn called(words: &[Item]) -> Called {
    [Key::PieceName, Key::Size].map(|wanted| {
        words.iter().find_map(|item| match &item.what {
            What::Words(_, _, text) => {
                keyed(text).filter(|(key, _)| *key == wanted).map(|(_, own)| own.to_lowercase())
            }
            _ => None,
        })
    })
}

/// Where a group was put down.
struct Frame {
    place: Affine,
    /// What is written with it.
    known: IndexSet<String>,
}

impl Frame {
    /// How what is drawn is moved to lie as in the block.
    fn back(&self) -> Vec2 {
        -self.place.translation()
    }

    /// Words that stand with the same block put down at a place, and were not known, where they stand in the group.
    fn new_words(&mut self, words: &[Item], place: Affine) -> Vec<Item> {
        let there = Affine::translate(self.back()) * self.place * place.inverse();
        let each = words.iter().filter_map(|item| match &item.what {
            What::Words(at, height, text) if self.known.insert(text.clone()) => {
                Some(Item { what: What::Words(there * *at, *height, text.clone()), ..item.clone() })
            }
            _ => None,
        });
        each.collect()
    }
}

struct Placing<'a> {
    file: &'a File,
    name: &'a str,
    /// Things put down so far.
    steps: usize,
    segments: usize,
    /// The blocks that are being put down, each in the one before.
    chain: Vec<&'a str>,
    /// The groups by their blocks, and by what is written with these.
    known: IndexMap<&'a str, IndexMap<Called, usize>>,
    /// Of each group where it was put down first.
    frames: Vec<Frame>,
    /// Blocks that are put down and are not there.
    missing: IndexSet<&'a str>,
    /// Blocks that are put down.
    used: IndexSet<&'a str>,
    /// What draws nothing, by its line: a block that is put down twice holds it once.
    nothing: IndexMap<usize, Nothing>,
    out: Placed,
}

impl<'a> Placing<'a> {
    /// The drawing itself, or a block that only puts down others; what is written with it is handed to each of these.
    fn outermost(
        &mut self,
        entities: &'a [Entity],
        place: Affine,
        layer: &str,
        written: &[Item],
    ) -> Result<(), BringError> {
        for entity in entities {
            match &entity.shape {
                Shape::Insert(insert) => self.insert((entity, insert), place, layer, written)?,
                _ => {
                    let mut items = Vec::new();
                    self.entity(entity, place, layer, &mut items)?;
                    self.out.loose.append(&mut items);
                }
            }
        }
        Ok(())
    }

    /// A block that the drawing puts down, and what is written with it: both that with what puts it down, and its own.
    fn insert(
        &mut self,
        (entity, insert): (&'a Entity, &'a Insert),
        outer: Affine,
        layer: &str,
        written: &[Item],
    ) -> Result<(), BringError> {
        self.count(entity.line, 0)?;
        let layer = own_layer(entity, layer);
        let mut words = written.to_vec();
        words.extend(self.written(entity, insert, outer, &layer)?);
        let Some(block) = self.found(entity, insert)? else {
            self.out.loose.append(&mut words);
            return Ok(());
        };
        // A group of blocks, and no piece of its own.
        let is_path = |one: &Entity| !matches!(one.shape, Shape::Insert(_) | Shape::Words { .. });
        let puts_down = block.entities.iter().filter(|one| matches!(one.shape, Shape::Insert(_))).count();
        let only_puts_down = puts_down > 0 && !block.entities.iter().any(is_path);
        // What is written with one block in another belongs to that one.
        let (handed, mut kept) =
            if only_puts_down && puts_down > 1 { (vec![], words) } else { (words, vec![]) };
        let first = self.out.groups.len();
        let mut is_sign = false;
        for row in 0..insert.rows.0 {
            for column in 0..insert.columns.0 {
                // Each is asked what is written with it.
                self.steps = self.steps.saturating_add(handed.len());
                self.count(entity.line, 0)?;
                let place = outer * put(entity, insert, block, (column, row));
                if only_puts_down {
                    self.chain.push(&block.name);
                    self.outermost(&block.entities, place, &layer, &handed)?;
                    self.chain.pop();
                } else {
                    is_sign |= !self.block(block, place, &layer, &handed)?;
                }
            }
        }
        if is_sign {
            kept.extend(handed);
        }
        self.hand_out(kept, first);
        Ok(())
    }

    /// What is written with a block, where it stands in the drawing.
    fn written(
        &mut self,
        entity: &Entity,
        insert: &Insert,
        outer: Affine,
        layer: &Arc<str>,
    ) -> Result<Vec<Item>, BringError> {
        let behind = if entity.is_from_behind { Affine::FLIP_X } else { Affine::IDENTITY };
        let each = insert.words.iter().map(|(at, words)| {
            self.count(entity.line, 0)?;
            let what = What::Words(outer * behind * *at, 0.0, words.clone());
            Ok(Item { layer: layer.clone(), colour: entity.colour, line: entity.line, what })
        });
        each.collect()
    }

    /// Words that belong to one of several blocks: to that in whose outline they stand, else to none.
    fn hand_out(&mut self, words: Vec<Item>, first: usize) {
        let count = self.out.groups.len();
        let is_asked = words.len() <= MOST_HANDED && !words.is_empty();
        let outlines: Vec<(usize, Inside)> = (first..count)
            .filter(|_| is_asked)
            .filter_map(|at| Some((at, self.out.groups.get(at)?)))
            .flat_map(|(at, group)| {
                let closed = group.items.iter().filter_map(|item| match &item.what {
                    What::Path(path) if path.closed => Some(Inside::of(path)),
                    _ => None,
                });
                closed.filter(|inside| inside.size() >= SIGN).map(move |inside| (at, inside))
            })
            .collect();
        for mut word in words {
            let own = outlines.iter().find_map(|(at, inside)| {
                let what = word.what.moved(self.frames.get(*at)?.back());
                let holds = matches!(&what, What::Words(place, ..) if inside.holds(*place));
                holds.then_some((*at, what))
            });
            match own.and_then(|(at, what)| Some((self.out.groups.get_mut(at)?, what))) {
                Some((group, what)) => {
                    word.what = what;
                    group.items.push(word);
                }
                None => self.out.loose.push(word),
            }
        }
    }

    /// A block as a piece of its own; as loose things where it holds no outline, and then false.
    fn block(
        &mut self,
        block: &'a Block,
        place: Affine,
        layer: &str,
        written: &[Item],
    ) -> Result<bool, BringError> {
        let [a, b, c, d, ..] = place.as_coeffs();
        let times = if a * d - b * c < 0.0 { (0, 1) } else { (1, 0) };
        let called = called(written);
        let known = self.known.entry(&block.name).or_default();
        let at = known.get(&called).or_else(|| known.values().next().filter(|_| called == Called::default()));
        // The first time nothing was written with it.
        let at = at.copied().or_else(|| known.shift_remove(&Called::default()));
        if let Some(at) = at
            && let (Some(group), Some(frame)) = (self.out.groups.get_mut(at), self.frames.get_mut(at))
        {
            known.entry(called).or_insert(at);
            group.times = (group.times.0 + times.0, group.times.1 + times.1);
            group.items.extend(frame.new_words(written, place));
            return Ok(true);
        }
        let mut items = Vec::new();
        self.inside(block, place, layer, &mut items)?;
        let mut items = chain::joined(items);
        if !holds_outline(&items) {
            self.out.loose.append(&mut items);
            return Ok(false);
        }
        // Where on the sheet it was put says nothing of the piece; sizes share the block's own coordinates.
        let mut frame = Frame { place, known: IndexSet::new() };
        items.iter_mut().for_each(|item| item.what = item.what.moved(frame.back()));
        items.extend(frame.new_words(written, place));
        self.known.entry(&block.name).or_default().insert(called, self.out.groups.len());
        self.frames.push(frame);
        self.out.groups.push(Group { block: Some(block.name.clone()), items, times });
        Ok(true)
    }

    /// All that a block holds, blocks in it too.
    fn inside(
        &mut self,
        block: &'a Block,
        place: Affine,
        layer: &str,
        items: &mut Vec<Item>,
    ) -> Result<(), BringError> {
        self.chain.push(&block.name);
        for entity in &block.entities {
            self.entity(entity, place, layer, items)?;
        }
        self.chain.pop();
        Ok(())
    }

    fn entity(
        &mut self,
        entity: &'a Entity,
        place: Affine,
        layer: &str,
        items: &mut Vec<Item>,
    ) -> Result<(), BringError> {
        self.count(entity.line, 0)?;
        let layer = own_layer(entity, layer);
        let flipped = if entity.is_from_behind { place * Affine::FLIP_X } else { place };
        let mut push = |what: What| {
            items.push(Item { layer: layer.clone(), colour: entity.colour, line: entity.line, what });
        };
        match &entity.shape {
            Shape::Insert(insert) => {
                items.extend(self.written(entity, insert, place, &layer)?);
                let Some(block) = self.found(entity, insert)? else { return Ok(()) };
                for row in 0..insert.rows.0 {
                    for column in 0..insert.columns.0 {
                        self.count(entity.line, 0)?;
                        let place = place * put(entity, insert, block, (column, row));
                        self.inside(block, place, &layer, items)?;
                    }
                }
            }
            Shape::Point(at) => push(What::Point(flipped * *at)),
            Shape::Words { at, height, lines } => {
                for line in lines.iter().filter(|line| !line.is_empty()) {
                    self.count(entity.line, 0)?;
                    push(What::Words(flipped * *at, *height, line.clone()));
                }
            }
            Shape::Line(..) | Shape::Polyline { .. } | Shape::Arc { .. } | Shape::Spline(_) => {
                let Some(path) = courses::path(&entity.shape, flipped) else {
                    self.nothing.extend(nothing::drawn(entity).map(|own| (entity.line, own)));
                    return Ok(());
                };
                self.count(entity.line, path.segments.len())?;
                let far = path.segments.iter().any(|segment| {
                    let end = kurbo::ParamCurve::end(&segment.course);
                    !(end.x.abs() < FAR && end.y.abs() < FAR)
                });
                if far {
                    let why = "a point lies more than 100 km from the drawing's origin: a coordinate or a scale is wrong";
                    return Err(BringError::new(self.name, why).at_line(entity.line));
                }
                push(What::Path(path));
            }
        }
        Ok(())
    }

    /// The block that is put down; none where it is not there or another file stands for it.
    fn found(&mut self, entity: &Entity, insert: &'a Insert) -> Result<Option<&'a Block>, BringError> {
        let at = |why: String| Err(BringError::new(self.name, why).at_line(entity.line));
        let Some(block) = self.file.blocks.get(&insert.block.to_uppercase()) else {
            self.missing.insert(&insert.block);
            return Ok(None);
        };
        self.used.insert(&block.name);
        if block.is_elsewhere {
            return Ok(None);
        }
        if let Some(own) = nothing::put_down(entity, insert) {
            self.nothing.insert(entity.line, own);
            return Ok(None);
        }
        if self.chain.contains(&&*block.name) {
            return at(format!("the block “{}” puts down itself", shown(&block.name)));
        }
        if self.chain.len() >= limits::DRAWING_DEPTH {
            return at(format!("blocks stand more than {} deep in one another", limits::DRAWING_DEPTH));
        }
        Ok(Some(block))
    }

    /// Blocks with an outline that are put down nowhere: those of a library are taken as they are drawn, and what others draw is not
    /// seen in the drawing either.
    fn not_put_down(&mut self, scale: f64, is_library: bool) -> Result<(), BringError> {
        let file = self.file;
        let unused = file.blocks.values().filter(|block| !block.name.starts_with('*') && !block.is_elsewhere);
        let unused: Vec<&'a Block> = unused.filter(|block| !self.used.contains(&*block.name)).collect();
        let mut named = Vec::new();
        for block in unused {
            let before = self.out.groups.len();
            match is_library {
                true => {
                    self.block(block, Affine::scale(scale), "0", &[])?;
                }
                false => {
                    let mut items = Vec::new();
                    self.inside(block, Affine::scale(scale), "0", &mut items)?;
                    if holds_outline(&chain::joined(items)) {
                        named.push(format!("“{}”", shown(&block.name)));
                    }
                }
            }
            if self.out.groups.len() > before {
                named.push(format!("“{}”", shown(&block.name)));
            }
        }
        let count = named.len();
        if count == 0
            || (is_library && !self.file.entities.iter().any(|one| !matches!(one.shape, Shape::Insert(_))))
        {
            return Ok(());
        }
        let more = if count > MOST_NAMED { " …" } else { "" };
        named.truncate(MOST_NAMED);
        let (blocks, are) = if count == 1 { ("block", "is") } else { ("blocks", "are") };
        let named = format!("{}{more}", named.join(", "));
        self.out.causes.push(match is_library {
            true => format!(
                "The drawing puts down no block; its {count} {blocks} with an outline, {named}, {are} taken as drawn there."
            ),
            false => format!(
                "The {blocks} {named} {are} in the file, with an outline, and the drawing puts {} down nowhere: left out; is an INSERT \
                 lost?",
                if count == 1 { "it" } else { "them" }
            ),
        });
        Ok(())
    }

    fn count(&mut self, line: usize, segments: usize) -> Result<(), BringError> {
        self.steps += 1;
        self.segments += segments;
        if self.steps > limits::DRAWING_POINTS || self.segments > limits::DRAWING_POINTS {
            let why = format!(
                "all in all it draws more than {} points; take out what is no pattern, or bring the pieces one by one",
                limits::DRAWING_POINTS
            );
            return Err(BringError::new(self.name, why).at_line(line));
        }
        Ok(())
    }

    /// What is said of blocks that are not there or stand in another file.
    fn remark(&mut self) {
        let missing = self
            .missing
            .iter()
            .map(|name| format!("There is no block “{}”, which the drawing puts down.", shown(name)));
        let more = |more| format!("{more} more blocks are put down, and are not there.");
        self.out.remarks.extend(at_most(missing, more));
        let elsewhere = self.file.blocks.values().filter(|block| block.is_elsewhere).map(|block| {
            let name = shown(&block.name);
            format!("The block “{name}” is another file, which is never opened: bring that file too.")
        });
        self.out.remarks.extend(at_most(elsewhere, |more| {
            format!("{more} more blocks are other files, which are never opened.")
        }));
    }
}

/// Of more words that are written with a block of several others it is not asked to which of these they belong.
const MOST_HANDED: usize = 100;
/// Of blocks that are put down nowhere no more are named.
const MOST_NAMED: usize = 5;

/// Farther from the origin than this, mm, a coordinate is taken to be a mistake: beyond it figures lose what the eye
/// of a needle is wide.
const FAR: f64 = 1e8;

/// A name of layer 0 in a block is that of the layer the block is put down on.
fn own_layer(entity: &Entity, layer: &str) -> Arc<str> {
    if &*entity.layer == "0" { Arc::from(layer) } else { entity.layer.clone() }
}

/// How a block is put down: its base point to the place said, larger, turned, over from behind.
fn put(entity: &Entity, insert: &Insert, block: &Block, (column, row): (u32, u32)) -> Affine {
    let behind = if entity.is_from_behind { Affine::FLIP_X } else { Affine::IDENTITY };
    let step = Vec2::new(f64::from(column) * insert.columns.1, f64::from(row) * insert.rows.1);
    behind
        * Affine::translate(insert.at.to_vec2())
        * Affine::rotate(insert.turn)
        * Affine::translate(step)
        * Affine::scale_non_uniform(insert.scale.0, insert.scale.1)
        * Affine::translate(-block.base.to_vec2())
}
