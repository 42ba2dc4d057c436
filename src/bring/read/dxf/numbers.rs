//! Drawings whose layers have the numbers of ASTM D6673, where one stands on another layer by a slip.

use super::item::{Item, SIGN, What};
use super::outlines::{self, extent};
use super::roles::{Role, by_number};
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::shown;
use crate::bring::traced::TracedPath;
use indexmap::IndexSet;
use kurbo::{ParamCurve, PathSeg};

/// Puts the outline of a block, whose layers are numbered and which has none on the layer of outlines, on that layer; what is said
/// of it. `are_numbered`: other blocks have theirs there.
pub(super) fn mended(items: &mut [Item], are_numbered: bool, whose: &str, file: &str) -> Option<String> {
    if outlines::is_numbered(items) || !(are_numbered || is_numbered_else(items)) {
        return None;
    }
    let closed = items.iter().enumerate().filter_map(|(at, item)| match &item.what {
        What::Path(path) if path.closed => Some((at, Inside::of(path))),
        _ => None,
    });
    let largest = closed.max_by(|(_, one), (_, other)| one.area().total_cmp(&other.area()));
    let (at, _) = largest.filter(|(_, inside)| inside.size() >= SIGN)?;
    let item = items.get_mut(at)?;
    let layer = std::mem::replace(&mut item.layer, "1".into());
    Some(format!(
        "{whose} of {file} has no closed line on layer 1, where outlines stand; the largest, on layer {} (line {}), is taken for its \
         outline: put it on layer 1",
        shown(&layer),
        item.line
    ))
}

/// Whether layers have numbers with a meaning here, though no outline stands on its own.
fn is_numbered_else(items: &[Item]) -> bool {
    let roles = items.iter().map(|item| (&*item.layer, by_number(&item.layer)));
    let known: IndexSet<&str> = roles
        .filter(|(_, role)| !matches!(role, Role::Unknown | Role::Boundary))
        .map(|(layer, _)| layer)
        .collect();
    known.len() > 1
}

/// Takes out upright rectangles outside of all blocks, where pieces stand in blocks; what is said of them.
pub(super) fn without_frames(loose: &mut Vec<Item>, file: &str) -> Vec<String> {
    let mut told = Vec::new();
    loose.retain(|item| {
        let What::Path(path) = &item.what else { return true };
        let inside = Inside::of(path);
        let is_frame = path.closed && is_upright(path) && inside.size() >= SIGN;
        if is_frame {
            told.push(format!(
                "a rectangle on layer {} (line {} of {file}), {}, stands outside of every block, and the pieces stand in blocks: it is \
                 taken for a frame or a box of the sheet, and left out",
                shown(&item.layer),
                item.line,
                extent(inside.bounds())
            ));
        }
        !is_frame
    });
    told
}

/// Whether a path is an upright rectangle.
fn is_upright(path: &TracedPath) -> bool {
    path.segments.len() == 4
        && path.segments.iter().all(|one| match one.course {
            PathSeg::Line(line) => {
                let way = line.end() - line.start();
                way.x.abs().min(way.y.abs()) < 1e-3 * way.hypot()
            }
            _ => false,
        })
}

/// What is said of the lines of one piece whose layer is in doubt: more grain lines than one, grain on the layer of lines
/// inside.
#[derive(Debug, Default)]
pub(super) struct Lines {
    grain: Vec<TracedPath>,
    within: Vec<TracedPath>,
}

impl Lines {
    /// Looks at one.
    pub fn see(&mut self, role: Role, what: &What) {
        let What::Path(path) = what else { return };
        let list = match role {
            Role::Grain => &mut self.grain,
            Role::Internal => &mut self.within,
            _ => return,
        };
        list.push(path.clone());
    }

    /// What is in doubt, the end of a sentence behind the piece's name.
    pub fn doubts(&self, outline: &Inside) -> Vec<String> {
        let mut told = Vec::new();
        let straight = |path: &TracedPath| match path.segments.as_slice() {
            [only] => match only.course {
                PathSeg::Line(line) if !path.closed => Some(line),
                _ => None,
            },
            _ => None,
        };
        let is_free = |path: &TracedPath| {
            let Some(line) = straight(path) else { return false };
            let way = line.p1 - line.p0;
            let is_upright = way.x.abs().min(way.y.abs()) < 0.01 * way.hypot();
            let ends = [line.p0, line.p1];
            is_upright
                && way.hypot() > LONG
                && ends.iter().all(|at| outline.holds(*at) && outline.nearest(*at).0 > FREE)
        };
        let free: Vec<&TracedPath> = self.within.iter().filter(|path| is_free(path)).collect();
        let touches = |path: &TracedPath| match straight(path) {
            Some(line) => [line.p0, line.p1].iter().all(|at| outline.nearest(*at).0 < TOUCHES),
            None => true,
        };
        if !self.grain.is_empty() && self.grain.iter().all(touches) && free.len() == 1 {
            told.push(
                "what stands on layer 7, where the grain line stands, goes from edge to edge or bends, and on layer 8 a straight line \
                 stands free as a grain line does: are layers 7 and 8 exchanged?"
                    .to_owned(),
            );
        } else if self.grain.is_empty() && free.len() == 1 && self.within.len() == 1 {
            told.push(NO_GRAIN.to_owned());
        }
        let ways: Vec<kurbo::Vec2> =
            self.grain.iter().filter_map(straight).map(|line| line.p1 - line.p0).collect();
        let turned = |way: &kurbo::Vec2| {
            ways.first().is_some_and(|first| first.cross(*way).abs() > 0.05 * first.hypot() * way.hypot())
        };
        if ways.iter().skip(1).any(turned) {
            told.push("more than one line is on layer 7, at an angle to one another: the longest is taken for the grain".to_owned());
        }
        told
    }
}

/// What is said of a piece without a grain line that may have one on another layer.
pub(super) const NO_GRAIN: &str = "no line is on layer 7, where the grain line stands, and one on layer 8 lies as a grain line does: is \
                                   it one? Without one the grain goes up the paper";

/// No grain line is shorter, in millimetres.
const LONG: f64 = 30.0;
/// So far from the outline a line stands free, in millimetres …
const FREE: f64 = 5.0;
/// … and so near it touches.
const TOUCHES: f64 = 1.0;
