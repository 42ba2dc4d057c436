//! The steps that are worked out, put into the text of the garment's own file.
//!
//! What the maker wrote stays, word for word, with its notes; what is added stands between. Then the file is laid
//! out in the canonical way.

use super::steps::target_name;
use crate::cutting::WorkedSize;
use crate::garment::{Garment, StepGroup};
use crate::report::Diagnostic;
use crate::sewing::order::{PlannedAction, PlannedGroup, plan};
use crate::source::{FileId, SourceMap, Span};
use crate::syntax::tidy::tidy;
use std::fmt;

/// Why steps are not written into a file.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum NotWritten {
    /// Some of them find no place, which is told as a mistake.
    NoPlace,
    /// The file makes the garment for one wearer, and says nothing of how it is sewn.
    Fitting,
    /// The text cannot be read without mistakes.
    Unread(Vec<Diagnostic>),
}

impl fmt::Display for NotWritten {
    fn fmt(&self, to: &mut fmt::Formatter) -> fmt::Result {
        match self {
            NotWritten::NoPlace => write!(to, "some steps find no place"),
            NotWritten::Fitting => {
                write!(to, "a fitting is sewn as its garment is: write them into that file")
            }
            NotWritten::Unread(_) => write!(to, "it cannot be read without mistakes"),
        }
    }
}

/// The text of the garment's first file with all steps in it, laid out in the canonical way.
///
/// # Errors
/// Why they cannot be written there.
pub fn with_steps(map: &SourceMap, garment: &Garment, size: &WorkedSize) -> Result<String, NotWritten> {
    if garment.fitting.is_some() {
        return Err(NotWritten::Fitting);
    }
    let first = FileId(0);
    let file = map.file(first);
    let plan = plan(garment, &size.drawn, &size.sewn);
    if !plan.left.is_empty() {
        return Err(NotWritten::NoPlace);
    }
    let mut edits = Edits { text: &file.text, base: file.base, all: Vec::new() };
    let at_end = file.text.len();
    let is_here = |span: Span| map.file_of(span) == first;
    // Names that the steps have so far, of which each new group follows one.
    let own_block =
        garment.steps_span.filter(|&span| is_here(span) && garment.steps.iter().all(|one| is_here(one.span)));
    let mut whole = String::new();
    for (at, group) in plan.groups.iter().enumerate() {
        match group.said.and_then(|said| garment.steps.get(said)) {
            None if garment.steps_span.is_none() => {
                whole.push_str(&format!("  {}\n", group_text(garment, group)))
            }
            None if own_block.is_some() => {
                let text = group_text(garment, group);
                match neighbour(garment, &plan.groups, at) {
                    Some((span, true)) => edits.line_after(span, &text),
                    Some((span, false)) => edits.line_before(span, &text),
                    None => edits.inside(garment.steps_span, &text),
                }
            }
            None => {
                let text = group_text(garment, group);
                let before = at.checked_sub(1).and_then(|at| plan.groups.get(at));
                // What follows may not be written yet.
                let after = plan.groups.iter().skip(at).find(|group| group.said.is_some());
                let (word, name) = match (before, after) {
                    (Some(before), _) => ("after", &before.title),
                    (None, Some(after)) => ("before", &after.title),
                    (None, None) => ("after", &group.title),
                };
                whole.push_str(&format!("in steps {word} {} add {text}\n", quoted(name)));
            }
            Some(said) => {
                if group.actions.iter().all(|action| action.said.is_some()) {
                    continue;
                }
                if !is_here(said.span) {
                    // What a base says is said anew here, with what is worked out between.
                    whole.push_str(&format!("replace step {}\n", said_anew(map, garment, group, said)));
                    continue;
                }
                within(garment, group, said, &mut edits);
            }
        }
    }
    if !whole.is_empty() {
        let block = match garment.steps_span {
            None => format!("\nsteps {{\n{whole}}}\n"),
            Some(_) => format!("\n{whole}"),
        };
        let newline = if file.text.ends_with('\n') { "" } else { "\n" };
        edits.all.push((at_end, at_end, format!("{newline}{block}")));
    }
    let text = edits.done();
    let mut written = SourceMap::default();
    let id = written.add(file.name.clone(), text);
    tidy(&written, id).map_err(NotWritten::Unread)
}

/// The maker's group that a new one follows, else the one that it stands before.
fn neighbour(garment: &Garment, groups: &[PlannedGroup], at: usize) -> Option<(Span, bool)> {
    let said = |group: &PlannedGroup| Some(garment.steps.get(group.said?)?.span);
    let before = groups.iter().take(at).rev().find_map(said).map(|span| (span, true));
    before.or_else(|| groups.iter().skip(at).find_map(said).map(|span| (span, false)))
}

/// A group of another file in whole, with what is worked out between.
fn said_anew(map: &SourceMap, garment: &Garment, group: &PlannedGroup, said: &StepGroup) -> String {
    let action = |one: &PlannedAction| {
        let own = one.said.and_then(|at| said.actions.get(at));
        let text = own.filter(|own| own.targets.len() == one.targets.len()).map(|own| map.text(own.span));
        match text.filter(|text| !text.contains('\n')) {
            Some(text) => text.to_owned(),
            None => {
                let words = one.words.as_ref().map_or(String::new(), |words| format!(" {}", quoted(words)));
                action_text(garment, one) + &words
            }
        }
    };
    let actions: Vec<String> = group.actions.iter().map(action).collect();
    format!("{} {{ {} }}", quoted(&group.title), actions.join("; "))
}

/// Writes what is worked out into a group of the maker's.
fn within(garment: &Garment, group: &PlannedGroup, said: &StepGroup, edits: &mut Edits) {
    let mut at = 0;
    while let Some(first) = group.actions.get(at) {
        let is_added = |action: &&PlannedAction| action.said.is_none();
        let added: Vec<String> =
            group.actions.iter().skip(at).take_while(is_added).map(|one| action_text(garment, one)).collect();
        let before = at.checked_sub(1).and_then(|at| group.actions.get(at));
        let after = group.actions.get(at + added.len());
        at += added.len().max(1);
        let Some((before, before_said)) =
            before.filter(|_| first.said.is_none()).and_then(|one| Some((one, said.actions.get(one.said?)?)))
        else {
            continue;
        };
        let text = added.join("; ");
        // The maker's action goes on behind it: it is parted there.
        let parted = after.filter(|after| after.said == before.said).and_then(|_| before.targets.last());
        match parted {
            None => edits.after(before_said.span, &format!("; {text}")),
            Some(last) => {
                let Some(&(_, end)) = before_said.targets.get(last.nth) else { continue };
                let layer = before_said
                    .layer
                    .map_or(String::new(), |layer| format!("in {} ", garment.layer(layer).name));
                let again = format!("{layer}{}{}", before_said.verb.words(), before_said.verb.joint());
                let next = before_said.targets.get(last.nth + 1).map_or(end, |(_, span)| *span);
                edits.part(end, next, &format!("; {text}"), &again);
            }
        }
    }
}

fn group_text(garment: &Garment, group: &PlannedGroup) -> String {
    let actions: Vec<String> = group.actions.iter().map(|action| action_text(garment, action)).collect();
    format!("{} {{ {} }}", quoted(&group.title), actions.join("; "))
}

/// "in outer sew shoulder, side".
fn action_text(garment: &Garment, action: &PlannedAction) -> String {
    let layer = action.layer.map_or(String::new(), |layer| format!("in {} ", garment.layer(layer).name));
    let targets: Vec<String> =
        action.targets.iter().filter_map(|one| target_name(garment, one.target)).collect();
    format!("{layer}{}{}{}", action.verb.words(), action.verb.joint(), targets.join(", "))
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

/// Changes of one text: from where, to where, and what stands there then.
struct Edits<'t> {
    text: &'t str,
    base: u32,
    all: Vec<(usize, usize, String)>,
}

impl Edits<'_> {
    fn place(&self, at: u32) -> usize {
        at.saturating_sub(self.base) as usize
    }

    fn after(&mut self, span: Span, text: &str) {
        let at = self.place(span.hi);
        self.all.push((at, at, text.to_owned()));
    }

    /// A line of its own below the one on which something ends: a note behind it stays with it.
    fn line_after(&mut self, span: Span, text: &str) {
        let end = self.place(span.hi);
        let rest = self.text.get(end..).unwrap_or_default();
        let line = rest.find('\n').map_or(rest, |at| rest.get(..at).unwrap_or_default());
        let is_note = line.trim_start().is_empty() || line.trim_start().starts_with('#');
        let at = if is_note { end + line.len() } else { end };
        self.all.push((at, at, format!("\n  {text}")));
    }

    fn line_before(&mut self, span: Span, text: &str) {
        let at = self.place(span.lo);
        self.all.push((at, at, format!("{text}\n  ")));
    }

    /// Inside a block that has nothing in it.
    fn inside(&mut self, span: Option<Span>, text: &str) {
        let Some(span) = span else { return };
        let end = self.place(span.hi);
        let whole = self.text.get(self.place(span.lo)..end).unwrap_or_default();
        let at = whole.rfind('}').map_or(end, |at| self.place(span.lo) + at);
        self.all.push((at, at, format!("\n  {text}\n")));
    }

    /// Between two things with a comma between: the comma goes, and the verb is said again.
    fn part(&mut self, one: Span, next: Span, text: &str, again: &str) {
        let (from, to) = (self.place(one.hi), self.place(next.lo));
        let between = self.text.get(from..to).unwrap_or_default();
        let comma = between.find(',').map_or(from, |at| from + at);
        self.all.push((from, from, text.to_owned()));
        self.all.push((comma, comma + 1, ";".to_owned()));
        self.all.push((to, to, again.to_owned()));
    }

    /// The text with all changes; what is changed at one place stands in the order in which it came.
    fn done(mut self) -> String {
        self.all.sort_by_key(|(from, ..)| *from);
        let (mut text, mut at) = (String::with_capacity(self.text.len()), 0);
        for (from, to, new) in &self.all {
            text.push_str(self.text.get(at..*from).unwrap_or_default());
            text.push_str(new);
            at = (*to).max(at);
        }
        text.push_str(self.text.get(at..).unwrap_or_default());
        text
    }
}
