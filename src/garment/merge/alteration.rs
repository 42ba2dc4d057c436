//! `drop lengthen front, back at waist` and `replace lengthen front, back at waist by 8`: what a base, or a file
//! that is combined with it, does to the paper.

use super::doing::Doing;
use super::key::{Key, dotted};
use super::{Declaration, Deed, Dropped, Merging, Settled};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tidy::altered_words;
use crate::syntax::tree::{
    Alteration, Altered, DartChange, DropAlteration, Statement, StatementNode, TargetForm, Text,
};
use std::collections::BTreeSet;
use std::sync::Arc;

/// An alteration that is named, or a part of what it is done to.
struct Found {
    slot: usize,
    /// It is done to more than what is named.
    is_part: bool,
    span: Span,
}

impl Merging {
    /// Takes an alteration back, or what is named out of it.
    pub(super) fn drop_alteration(&mut self, whole: Span, drop: &DropAlteration) {
        let words = altered_words(&drop.altered);
        let key = Key::Altered(words.clone(), drop.of.as_ref().map(|of| of.text.clone()));
        if self.is_done_already(&key, drop.altered.span, &words, Deed::Drops, None) {
            return;
        }
        let Some(found) = self.altered(&drop.altered, drop.of.as_ref(), Doing::Drop) else { return };
        self.note(&key, drop.altered.span, Deed::Drops, None);
        for one in found {
            if one.is_part {
                let leaving: BTreeSet<String> = drop.altered.targets.iter().map(dotted).collect();
                self.standing.edit(one.slot, |node| {
                    if let StatementNode::Alteration(alteration) = node {
                        alteration.targets.retain(|target| !leaving.contains(&dotted(target)));
                        let left: BTreeSet<&str> = alteration.targets.iter().map(piece_of).collect();
                        alteration.keeping.retain(|kept| left.contains(piece_of(kept)));
                    }
                });
                continue;
            }
            let node = self.standing.get(one.slot).map(|one| &one.statement.node);
            let (made, let_in): (Vec<Arc<str>>, _) = match node {
                Some(StatementNode::Alteration(alteration)) => {
                    (alteration.into.iter().map(|name| name.text.clone()).collect(), let_in(alteration))
                }
                _ => (Vec::new(), None),
            };
            for name in made {
                let (declared, dropped) = (one.span, whole);
                self.merged.dropped.push(Dropped::new(name, "piece", declared, dropped));
            }
            self.standing.take(one.slot);
            if let Some((piece, name, kind)) = let_in {
                self.take_up_goes((&format!("{piece}.{name}"), &name), drop.altered.span);
                self.merged.dropped.push(Dropped::new(name, kind, one.span, whole));
            }
        }
    }

    /// Does something else in the place of an alteration that is done to the same, at the same line.
    pub(super) fn replace_alteration(&mut self, whole: Span, new: &Statement, of: Option<&Text>) {
        let StatementNode::Alteration(alteration) = &new.node else { return };
        let altered = Altered::of(alteration, new.span);
        let words = altered_words(&altered);
        let key = Key::Altered(words.clone(), of.map(|of| of.text.clone()));
        if self.is_done_already(&key, new.span, &words, Deed::Changes, Some(&new.node)) {
            return;
        }
        let Some(found) = self.altered(&altered, of, Doing::Replace) else { return };
        let [one] = found.as_slice() else {
            return self.report_several(&altered, Doing::Replace, &found);
        };
        if one.is_part {
            let mistake = Diagnostic::new(
                &catalogue::REPLACE_NOTHING,
                altered.span,
                format!("`{words}` is a part of what is done there"),
            )
            .label("replaced here")
            .also(one.span, "done to more here")
            .help("name all that it is done to; or drop this part of it and do the other after it");
            return self.merged.mistakes.push(mistake);
        }
        self.note(&key, altered.span, Deed::Changes, Some(&new.node));
        let declaration = Declaration {
            statement: Arc::new(Statement { span: whole, node: new.node.clone() }),
            replaced: Some(one.span),
            from_library: false,
            set_over: None,
        };
        let slot = one.slot;
        self.standing.put(slot, declaration);
    }

    fn is_done_already(
        &mut self,
        key: &Key,
        span: Span,
        words: &str,
        deed: Deed,
        said: Option<&StatementNode>,
    ) -> bool {
        if let Some(&first) = self.touched.get(key) {
            self.said_twice(&format!("`{words}`"), span, first);
            return true;
        }
        self.touched.insert(key.clone(), span);
        self.settle(key, span, &format!("alteration `{words}`"), deed, said) == Settled::Left
    }

    /// The alterations that are named so; reported where there is none, or where they stand in several files.
    fn altered(&mut self, altered: &Altered, of: Option<&Text>, doing: Doing) -> Option<Vec<Found>> {
        let mut found: Vec<Found> = Vec::new();
        let mut near: Vec<(String, Span)> = Vec::new();
        for (slot, one) in self.standing.iter() {
            let StatementNode::Alteration(alteration) = &one.statement.node else { continue };
            if alteration.kind != altered.kind || self.in_this_file(one.statement.span) {
                continue;
            }
            let span = one.statement.span;
            match named_by(altered, alteration) {
                Some(is_part) if of.is_none_or(|of| self.stands_in(span, of)) => {
                    found.push(Found { slot, is_part, span });
                }
                _ => near.push((altered_words(&Altered::of(alteration, span)), span)),
            }
        }
        if found.iter().any(|one| !one.is_part) {
            found.retain(|one| !one.is_part);
        }
        let first = found.first().and_then(|one| self.combined.file_of(one.span));
        if found.is_empty() {
            self.report_no_alteration(altered, of, doing, &near);
            return None;
        }
        if found.iter().any(|one| self.combined.file_of(one.span) != first) {
            self.report_several(altered, doing, &found);
            return None;
        }
        Some(found)
    }

    /// Whether a span stands in the file that is called so.
    fn stands_in(&self, span: Span, of: &Text) -> bool {
        let wanted = of.text.trim_start_matches("./").trim_start_matches("../");
        let name = self.combined.file_of(span).map(|file| self.combined.file(file));
        name.is_some_and(|name| name == wanted || name.ends_with(&format!("/{wanted}")))
    }

    fn report_several(&mut self, altered: &Altered, doing: Doing, found: &[Found]) {
        let words = altered_words(altered);
        let title = format!("`{words}` stands {} times: it is not clear which to {doing}", found.len());
        let mut mistake =
            Diagnostic::new(&catalogue::VARIATION_WHICH, altered.span, title).label("which of them?");
        for one in found.iter().take(6) {
            mistake = mistake.also(one.span, "this one?");
        }
        let files: Vec<&str> = found
            .iter()
            .filter_map(|one| self.combined.file_of(one.span))
            .map(|file| self.combined.file(file))
            .collect();
        let several = files.iter().collect::<BTreeSet<_>>().len() > 1;
        let help = match (several, files.first()) {
            (true, Some(first)) => format!("say whose: of \"{first}\" at the end of the line"),
            _ => "drop them, and alter anew".to_owned(),
        };
        self.merged.mistakes.push(mistake.help(help));
    }

    fn report_no_alteration(
        &mut self,
        altered: &Altered,
        of: Option<&Text>,
        doing: Doing,
        near: &[(String, Span)],
    ) {
        if self.damaged {
            return;
        }
        let kind = self.kind_of_nothing(doing);
        let words = altered_words(altered);
        let whose = match of {
            Some(of) => format!("\"{}\" has no alteration `{words}`", of.text),
            None => format!("the base has no alteration `{words}`"),
        };
        let mut mistake = Diagnostic::new(kind, altered.span, whose).label(format!("nothing to {doing}"));
        for (_, span) in near.iter().take(4) {
            mistake = mistake.also(*span, "this it has");
        }
        let help = match near {
            [] if !self.has_base => {
                "only a variation changes what another file does: variation \"…\" of \"….fus\"".to_owned()
            }
            [] if doing == Doing::Drop => "remove this line".to_owned(),
            [] => "to do it, write the line without replace".to_owned(),
            [(one, _), ..] => format!("name what is done and where as it stands there: {doing} {one}"),
        };
        self.merged.mistakes.push(mistake.help(help));
    }
}

/// Whether an alteration is named so, and if it is, whether only a part of what it is done to.
fn named_by(altered: &Altered, alteration: &Alteration) -> Option<bool> {
    let own = Altered::of(alteration, altered.span);
    let text = |name: &Option<crate::syntax::tree::Name>| name.as_ref().map(|name| name.text.clone());
    if (text(&own.at), text(&own.to)) != (text(&altered.at), text(&altered.to)) {
        return None;
    }
    let in_order = matches!(own.kind.form().targets, TargetForm::TwoPieces(_));
    let words = |altered: &Altered| -> Vec<String> { altered.targets.iter().map(dotted).collect() };
    let (own_words, wanted) = (words(&own), words(altered));
    if in_order {
        return (own_words == wanted).then_some(false);
    }
    let (own_words, wanted): (BTreeSet<_>, BTreeSet<_>) =
        (own_words.into_iter().collect(), wanted.into_iter().collect());
    let divisible =
        matches!(own.kind.form().targets, TargetForm::Pieces(_) | TargetForm::Wholes | TargetForm::Edges);
    match wanted.is_subset(&own_words) {
        true if wanted.len() == own_words.len() => Some(false),
        true if divisible => Some(true),
        _ => None,
    }
}

/// The dart or pleat that an alteration lets in: its piece, its name and what it is.
fn let_in(alteration: &Alteration) -> Option<(Arc<str>, Arc<str>, &'static str)> {
    let (name, kind) = match &alteration.dart {
        Some(DartChange::Let(dart)) => (dart.name.text.clone(), "dart"),
        Some(DartChange::LetPleat(pleat)) => (pleat.name.text.clone(), "pleat"),
        _ => return None,
    };
    match alteration.targets.first()?.parts.as_slice() {
        [.., piece, _] => Some((piece.text.clone(), name, kind)),
        _ => None,
    }
}

/// The piece that is meant by `front`, `front.mark`.
fn piece_of(words: &crate::syntax::tree::Dotted) -> &str {
    words.parts.first().map_or("", |part| &part.text)
}
