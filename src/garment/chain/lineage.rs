//! In which order the files of a chain are merged: the base, what is combined with it, and then the file
//! that combines them; each file once.

use super::heading::{fitting_of, variation_of};
use super::{FileKind, Link, LinkWord, Loading};
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tree::{NamedFile, Text};
use indexmap::{IndexMap, IndexSet};

/// The files that a variation's heading names, as far as they could be had.
#[derive(Clone, Debug, Default)]
pub(super) struct Named {
    base: Option<(FileId, Span)>,
    with: Vec<(FileId, Span)>,
    without: Vec<(FileId, Span)>,
}

impl Named {
    /// Whatever it is made of, in the order in which that is merged.
    pub(super) fn links(&self) -> impl Iterator<Item = (FileId, Link)> + '_ {
        let base = self.base.iter().map(|&(id, span)| (id, Link { span, by: LinkWord::Of }));
        base.chain(self.with.iter().map(|&(id, span)| (id, Link { span, by: LinkWord::With })))
    }
}

/// What is found on the way through the files.
#[derive(Default)]
struct Found {
    /// In the order of merging.
    order: IndexSet<FileId>,
    /// From the first file to the one at hand.
    way: Vec<FileId>,
    /// Taken back.
    out: IndexSet<FileId>,
}

impl Loading<'_> {
    /// Loads every variation that the first file leads to, each once, a base before what is combined with it.
    pub(super) fn variations(&mut self, first: FileId) {
        let mut waiting = vec![first];
        while let Some(at) = waiting.pop() {
            if self.named.contains_key(&at) {
                continue;
            }
            let named = self.files_named_by(at);
            waiting.extend(named.without.iter().rev().map(|&(id, _)| id));
            let links: Vec<FileId> = named.links().map(|(id, _)| id).collect();
            waiting.extend(links.into_iter().rev());
            self.named.insert(at, named);
        }
    }

    fn files_named_by(&mut self, at: FileId) -> Named {
        let mut named = Named::default();
        let Some(file) = self.chain.files.get(&at) else { return named };
        let key = file.key.clone();
        if file.kind == Some(FileKind::Fitting) {
            let Some(of) = fitting_of(&file.tree).map(|fitting| fitting.base.clone()) else { return named };
            let base = self.file_for(&key, &of, "garment");
            let base = base.filter(|&base| self.may_be_base(base, &of.path, "fitted here"));
            named.base = base.map(|base| (base, of.path.span));
            return named;
        }
        let Some(variation) =
            variation_of(&file.tree).filter(|_| file.kind == Some(FileKind::Variation)).cloned()
        else {
            return named;
        };
        let Some(base) = self.file_for(&key, &variation.base, "base") else { return named };
        if !self.may_be_base(base, &variation.base.path, "varied here") {
            return named;
        }
        named.base = Some((base, variation.base.path.span));
        for one in &variation.with {
            if let Some(id) = self.file_for(&key, one, "file")
                && self.may_be_combined(id, base, &named.with, one)
            {
                named.with.push((id, one.path.span));
            }
        }
        for path in &variation.without {
            let one = NamedFile { path: path.clone(), pin: None };
            if let Some(id) = self.file_for(&key, &one, "file") {
                named.without.push((id, path.span));
            }
        }
        named
    }

    fn file_for(&mut self, key: &str, one: &NamedFile, what: &str) -> Option<FileId> {
        let found = self.named(key, one, what);
        self.chain.incomplete |= found.is_none();
        found
    }

    fn kind(&self, id: FileId) -> Option<FileKind> {
        self.chain.files.get(&id).and_then(|file| file.kind)
    }

    /// Whether that file can be varied or fitted; otherwise that is reported.
    fn may_be_base(&mut self, base: FileId, path: &Text, label: &str) -> bool {
        let (why, help) = match self.kind(base) {
            Some(kind @ FileKind::Library) => (
                format!("is {}, and a library cannot be a base", kind.words()),
                "name a garment or a variation after of; take a library in with use \"…\"".to_owned(),
            ),
            Some(kind @ FileKind::Fitting) => {
                let of = self.chain.files.get(&base).and_then(|file| fitting_of(&file.tree));
                let of = of.map_or("….fus", |fitting| &*fitting.base.path.text);
                (
                    format!(
                        "is {}, and one wearer's garment is neither varied nor fitted again",
                        kind.words()
                    ),
                    format!("name the garment that it fits, if that is in this folder: of \"{of}\""),
                )
            }
            _ => return true,
        };
        let is = self.kind(base).map_or("", FileKind::words);
        let mistake = Diagnostic::new(&catalogue::FILE_KIND, path.span, format!("\"{}\" {why}", path.text))
            .label(label)
            .also(self.heading_of(base), is)
            .help(help);
        self.chain.mistakes.push(mistake);
        self.chain.incomplete = true;
        false
    }

    /// Whether that file can be combined with the base, after those; otherwise that is reported.
    fn may_be_combined(
        &mut self,
        id: FileId,
        base: FileId,
        before: &[(FileId, Span)],
        one: &NamedFile,
    ) -> bool {
        let path = &one.path;
        let twice = before.iter().find(|&&(earlier, _)| earlier == id);
        if let Some(&(_, first)) = twice {
            let title = format!("\"{}\" is combined twice", path.text);
            let mistake = Diagnostic::new(&catalogue::FILE_TWICE, path.span, title)
                .label("here again")
                .also(first, "first here")
                .help("remove one of the two: what a file says is said once");
            self.chain.mistakes.push(mistake);
            return false;
        }
        if id == base {
            let title = format!("\"{}\" is the base, and is combined with itself", path.text);
            let mistake = Diagnostic::new(&catalogue::FILE_TWICE, path.span, title)
                .label("the base again")
                .help("remove it here: all that the base says stands anyway");
            self.chain.mistakes.push(mistake);
            return false;
        }
        match self.kind(id) {
            Some(FileKind::Variation | FileKind::Library) => true,
            Some(kind @ (FileKind::Garment | FileKind::Fitting)) => {
                let title = format!(
                    "\"{}\" is {}, and only variations and libraries are combined",
                    path.text,
                    kind.words()
                );
                let mistake = Diagnostic::new(&catalogue::FILE_KIND, path.span, title)
                    .label("combined here")
                    .also(self.heading_of(id), kind.words())
                    .help("make that file a variation of this one's base, or what both need a library");
                self.chain.mistakes.push(mistake);
                self.chain.incomplete = true;
                false
            }
            None => {
                self.chain.incomplete = true;
                false
            }
        }
    }

    /// Puts the files in the order in which they are merged.
    pub(super) fn order(&mut self, first: FileId) {
        self.unrelated();
        let reach = self.reach();
        self.there_already(&reach);
        self.taken_back_for_nothing(&reach);
        let out = self.taken_back(first, &reach);
        for named in self.named.values() {
            for (id, span) in named.without.iter().filter(|(id, _)| out.contains(id)) {
                self.chain.taken_back.entry(*id).or_insert(*span);
            }
        }
        let mut found = Found { out, ..Found::default() };
        self.visit(first, &mut found);
        self.chain.lineage = found.order.into_iter().rev().collect();
    }

    /// What is combined but varies another garment: reported, and not combined.
    fn unrelated(&mut self) {
        for at in self.named.keys().copied().collect::<Vec<_>>() {
            let Some(named) = self.named.get(&at).cloned() else { continue };
            let Some((base, base_span)) = named.base else { continue };
            let Some(own) = self.root(base) else { continue };
            for &(id, span) in &named.with {
                let Some(other) = self.root(id).filter(|&other| other != own) else { continue };
                if self.kind(id) == Some(FileKind::Library) {
                    continue;
                }
                let name = |id: FileId| self.map.file(id).name.to_string();
                let title =
                    format!("{} is a variation of {}, and not of {}", name(id), name(other), name(own));
                let mistake = Diagnostic::new(&catalogue::VARIATION_BASE, span, title)
                    .label("combined here")
                    .also(base_span, format!("with what is made of {}", name(own)))
                    .also(self.heading_of(id), "varies another garment")
                    .help(format!(
                        "combine variations of {} alone; what fits any garment is a library",
                        name(own)
                    ));
                self.chain.mistakes.push(mistake);
                self.chain.incomplete = true;
                if let Some(named) = self.named.get_mut(&at) {
                    named.with.retain(|&(one, _)| one != id);
                }
            }
        }
    }

    /// The garment that a file varies in the end; none where the way there is broken or round.
    fn root(&self, id: FileId) -> Option<FileId> {
        let mut at = id;
        for _ in 0..=limits::FILES {
            match self.named.get(&at).and_then(|named| named.base) {
                Some((base, _)) => at = base,
                None => return (self.kind(at) != Some(FileKind::Variation)).then_some(at),
            }
        }
        None
    }

    /// Of each file all that it leads to, whatever is taken back.
    fn reach(&self) -> IndexMap<FileId, IndexSet<FileId>> {
        let reached = |from: FileId| {
            let mut reached: IndexSet<FileId> = IndexSet::new();
            let mut waiting = vec![from];
            while let Some(at) = waiting.pop() {
                let links = self.named.get(&at).into_iter().flat_map(Named::links);
                waiting.extend(links.map(|(id, _)| id).filter(|&id| reached.insert(id)));
            }
            reached
        };
        self.named.keys().map(|&id| (id, reached(id))).collect()
    }

    /// What is combined though the base brings it along, or though the same heading takes it back.
    fn there_already(&mut self, reach: &IndexMap<FileId, IndexSet<FileId>>) {
        for at in self.named.keys().copied().collect::<Vec<_>>() {
            let Some(named) = self.named.get(&at).cloned() else { continue };
            let Some((base, base_span)) = named.base else { continue };
            let Some(brought) = reach.get(&base) else { continue };
            let takes_back = |id: FileId, by: FileId| {
                self.named.get(&by).is_some_and(|named| named.without.iter().any(|&(one, _)| one == id))
            };
            for &(id, span) in &named.with {
                let name = self.map.file(id).name.clone();
                let back = named.without.iter().find(|&&(one, _)| one == id);
                let mistake = if let Some(&(_, back)) = back {
                    let title = format!("{name} is combined and taken back in one heading");
                    Diagnostic::new(&catalogue::FILE_TWICE, back, title)
                        .label("taken back here")
                        .also(span, "combined here")
                        .help("remove one of the two")
                } else if brought.contains(&id)
                    && !brought.iter().chain([&base]).any(|&by| takes_back(id, by))
                {
                    let title = format!("{} combines {name} already", self.map.file(base).name);
                    Diagnostic::new(&catalogue::FILE_TWICE, span, title)
                        .label("combined again")
                        .also(base_span, "brings it along")
                        .help("remove it here: all that the base says stands anyway")
                } else {
                    continue;
                };
                self.chain.mistakes.push(mistake);
            }
        }
    }

    /// `without` a file that is not there to be taken back.
    fn taken_back_for_nothing(&mut self, reach: &IndexMap<FileId, IndexSet<FileId>>) {
        for at in self.named.keys().copied().collect::<Vec<_>>() {
            for (id, span) in self.named.get(&at).map(|named| named.without.clone()).unwrap_or_default() {
                let there = reach.get(&at).is_some_and(|reached| reached.contains(&id));
                let name = self.map.file(id).name.clone();
                let mistake = match (there, self.kind(id)) {
                    (true, Some(FileKind::Garment)) => {
                        let title = format!("{name} is the garment itself, and cannot be left out");
                        Diagnostic::new(&catalogue::DROP_NOTHING, span, title)
                            .label("varied in the end")
                            .help("name a file that was combined with it")
                    }
                    (true, _) => continue,
                    (false, _) => {
                        let title = format!("{name} is not combined here, so there is nothing to take back");
                        let known = reach.get(&at).into_iter().flatten();
                        let known = known.filter(|&&one| self.kind(one) != Some(FileKind::Garment));
                        let names: Vec<String> =
                            known.map(|&one| self.map.file(one).name.to_string()).collect();
                        let help = match names.is_empty() {
                            true => "this file combines nothing: remove the word".to_owned(),
                            false => format!("what can be taken back: {}", names.join(", ")),
                        };
                        Diagnostic::new(&catalogue::DROP_NOTHING, span, title)
                            .label("not among its files")
                            .help(help)
                    }
                };
                self.chain.mistakes.push(mistake);
                if let Some(named) = self.named.get_mut(&at) {
                    named.without.retain(|&(one, _)| one != id);
                }
            }
        }
    }

    /// What is taken back: by a file that is not taken back itself, unless a file that is made of that one
    /// combines it again.
    fn taken_back(&self, first: FileId, reach: &IndexMap<FileId, IndexSet<FileId>>) -> IndexSet<FileId> {
        let mut out: IndexSet<FileId> = IndexSet::new();
        if self.named.values().all(|named| named.without.is_empty()) {
            return out;
        }
        // Two files may each take the other back: then it ends all the same.
        for _ in 0..=limits::FILES {
            let there = self.still_there(first, &out);
            let mut now: IndexSet<FileId> = IndexSet::new();
            for &by in &there {
                for &(id, _) in self.named.get(&by).map_or(&[][..], |named| named.without.as_slice()) {
                    let again = there.iter().any(|&over| {
                        reach.get(&over).is_some_and(|reached| reached.contains(&by))
                            && self.named.get(&over).is_some_and(|named| named.combines(id))
                    });
                    if !again {
                        now.insert(id);
                    }
                }
            }
            if now == out {
                break;
            }
            out = now;
        }
        out
    }

    /// The files that are left when some are taken back.
    fn still_there(&self, first: FileId, out: &IndexSet<FileId>) -> IndexSet<FileId> {
        let mut there = IndexSet::from([first]);
        let mut waiting = vec![first];
        while let Some(at) = waiting.pop() {
            let Some(named) = self.named.get(&at) else { continue };
            for (id, link) in named.links() {
                let next = match out.contains(&id) {
                    false => Some(id),
                    true if link.by == LinkWord::Of => self.under(id, out).map(|(id, _)| id),
                    true => None,
                };
                waiting.extend(next.filter(|&next| there.insert(next)));
            }
        }
        there
    }

    /// What stands under a base that is taken back.
    fn under(&self, base: FileId, out: &IndexSet<FileId>) -> Option<(FileId, Span)> {
        let mut at = base;
        for _ in 0..=limits::FILES {
            let (under, span) = self.named.get(&at)?.base?;
            if !out.contains(&under) {
                return Some((under, span));
            }
            at = under;
        }
        None
    }

    fn visit(&mut self, at: FileId, found: &mut Found) {
        if found.order.contains(&at) {
            return;
        }
        let named = self.named.get(&at).cloned().unwrap_or_default();
        if let Some((base, _)) = named.base {
            self.chain.units_from.insert(at, base);
        }
        found.way.push(at);
        let mut known: IndexSet<FileId> = IndexSet::new();
        for (id, mut link) in named.links() {
            let mut to = id;
            if found.out.contains(&id) {
                match self.under(id, &found.out).filter(|_| link.by == LinkWord::Of) {
                    Some((under, span)) => (to, link.span) = (under, span),
                    None => continue,
                }
            }
            if found.way.contains(&to) {
                self.circle(&found.way, to, link);
                self.chain.incomplete = true;
                continue;
            }
            self.chain.links.entry(to).or_insert(link);
            if let (Some((base, _)), Some(FileKind::Library)) = (named.base, self.kind(to)) {
                self.chain.units_from.entry(to).or_insert(base);
            }
            self.visit(to, found);
            known.extend(self.chain.known.get(&to).into_iter().flatten());
            known.insert(to);
        }
        found.way.pop();
        found.order.insert(at);
        self.chain.known.insert(at, known);
    }
}

impl Named {
    /// Whether the heading itself names that file after `with`.
    fn combines(&self, id: FileId) -> bool {
        self.with.iter().any(|&(one, _)| one == id)
    }
}
