//! `drop …`

use super::doing::Doing;
use super::key::{Key, dotted, finish_dropped, kind_word};
use super::place::article;
use super::{Declaration, Deed, Dropped, DroppedSewing, Merging, Settled};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{Chain, Drop, DropKind, NameOrText, StatementNode};
use std::sync::Arc;

impl Merging {
    /// Takes away what the base declares.
    pub(super) fn drop(&mut self, whole: Span, drop: &Drop) {
        let (words, span) = match &drop.target {
            NameOrText::Name(name) => (dotted(name), name.span),
            NameOrText::Text(text) => (text.text.to_string(), text.span),
        };
        let name: Arc<str> = words.as_str().into();
        let (key, kind) = match drop.kind {
            DropKind::Piece => (Key::Piece(name), "piece"),
            DropKind::Strap => (Key::Piece(name), "strap"),
            DropKind::Band => (Key::Piece(name), "band"),
            DropKind::Facing => (Key::Piece(name), "facing"),
            DropKind::Layer => (Key::Piece(name), "layer"),
            DropKind::Seam => (Key::Sewn(name), "seam"),
            DropKind::Closure => (Key::Sewn(name), "closure"),
            DropKind::Fabric => (Key::Fabric(name), "fabric"),
            DropKind::Let => (Key::Value(name), "let"),
            DropKind::Measure => (Key::Value(name), "measure"),
            DropKind::Topstitch => (Key::Stitched(name), "topstitch"),
            DropKind::Understitch => (Key::Stitched(name), "understitch"),
            DropKind::Tack => (Key::Stitched(name), "tack"),
            DropKind::SetNotion => (Key::Stitched(name), "set"),
            DropKind::Cord => (Key::Cord(name), "cord"),
            DropKind::Placket => (Key::Piece(name), "placket"),
            DropKind::Require => (Key::Require(name), "require"),
            DropKind::Notion => (Key::Notion(name), "notion"),
            DropKind::Opening => (Key::Opening(words.clone()), "opening"),
            DropKind::Steps => (Key::Steps, "steps"),
            DropKind::BodyRow => return self.drop_row(whole, &words, span),
            DropKind::Pick => (Key::Pick, "pick size"),
            DropKind::Allowance => (Key::Allowance, "allowance"),
            DropKind::Tolerance => (Key::Tolerance, "tolerance"),
            DropKind::Stitch => (Key::Stitch, "stitch"),
            DropKind::Wearer => (Key::Wearer, "wearer"),
            DropKind::About => (Key::About, "about"),
            DropKind::Credit(kind) => (Key::Credit(kind), kind.word()),
            DropKind::Finish => {
                let finish = finish_dropped(drop).unwrap_or(words);
                return self.drop_finish(whole, &finish, span);
            }
            DropKind::Step => return self.drop_step(whole, &words, span),
            DropKind::Dart => return self.drop_dart(whole, &drop.target, span, "dart"),
            DropKind::Pleat => return self.drop_dart(whole, &drop.target, span, "pleat"),
            DropKind::Tuck => return self.drop_dart(whole, &drop.target, span, "tuck"),
            DropKind::Place => {
                (Key::Place(words.clone(), drop.on.as_ref().map(dotted).unwrap_or_default()), "place")
            }
        };
        let what = match (drop.kind, &drop.on) {
            (DropKind::Place, Some(on)) => format!("place {words} on {}", dotted(on)),
            (DropKind::Require | DropKind::Notion, _) => format!("{kind} \"{words}\""),
            (DropKind::Opening, _) => format!("opening that begins with {words}"),
            (
                DropKind::Steps
                | DropKind::Pick
                | DropKind::Allowance
                | DropKind::Tolerance
                | DropKind::Stitch
                | DropKind::Wearer
                | DropKind::About
                | DropKind::Credit(_),
                _,
            ) => kind.to_owned(),
            _ => format!("{kind} {words}"),
        };
        if let Some(&changed) = self.touched.get(&key) {
            let mistake =
                Diagnostic::new(&catalogue::DROP_DANGLING, span, format!("{what} is changed and dropped"))
                    .label("dropped here")
                    .also(changed, "changed here")
                    .help("remove one of the two lines");
            self.merged.mistakes.push(mistake);
            return;
        }
        let slot = match self.goes_along(drop, &key) {
            Some(slot) => {
                self.touched.insert(key.clone(), span);
                self.note(&key, span, Deed::DropsAlong, None);
                Some(slot)
            }
            None => self.slot_to_change(&key, span, &what, Doing::Drop, None),
        };
        let Some(slot) = slot else { return };
        let Some(old) = self.standing.get(slot) else { return };
        let old_kind = kind_word(&old.statement.node);
        let stands_for_piece = matches!(old_kind, "strap" | "band" | "facing");
        // A layer's pieces may be sewn in another one: it goes by its name alone only with all that is sewn to it.
        let is_layer = old_kind == "layer" && drop.and_all_sewn;
        let by_name = drop.kind == DropKind::Piece && (stands_for_piece || is_layer);
        if old_kind != kind && !by_name {
            let (is, help) = match old_kind {
                "alteration" => {
                    ("made by an alteration".to_owned(), "drop the piece that it is made of".to_owned())
                }
                "body measure" => ("a body measure".to_owned(), format!("write drop body {words}")),
                _ => (article(old_kind), format!("write drop {old_kind} {words}")),
            };
            let mistake = Diagnostic::new(
                &catalogue::DROP_NOTHING,
                span,
                format!("{words} is {is}, not {}", article(kind)),
            )
            .label(format!("no {kind} of this name"))
            .also(old.statement.span, is)
            .help(help);
            self.merged.mistakes.push(mistake);
            return;
        }
        let declared = old.statement.span;
        let edges = edges_of(&old.statement.node);
        let made = made_of(&old.statement.node);
        let has_more = !matches!(drop.kind, DropKind::Seam | DropKind::Closure);
        if drop.and_all_sewn && has_more {
            // What one line makes goes first, and is told with all that is sewn to it.
            let pieces =
                if made.pieces.is_empty() { vec![Arc::from(words.as_str())] } else { made.pieces.clone() };
            let mut sewn: Vec<Arc<str>> = made.seams.iter().chain(&made.rows).cloned().collect();
            for piece in pieces {
                self.drop_along(whole, span, &piece, (std::mem::take(&mut sewn), declared));
            }
        }
        made.pieces.iter().for_each(|piece| self.unlist(piece));
        if matches!(drop.kind, DropKind::Piece | DropKind::Strap) {
            self.unlist(&words);
        }
        self.take_away(slot, &key);
        if !edges.is_empty() {
            self.merged.dropped_sewing.push(DroppedSewing { what, dropped: whole, edges });
        }
        self.drop_made(whole, declared, made);
        let kind = if by_name { old_kind } else { kind };
        let takes_along = matches!(kind, "piece" | "layer" | "strap" | "band" | "facing");
        self.merged.dropped.push(Dropped {
            name: words.into(),
            kind,
            declared,
            dropped: whole,
            may_take_along: takes_along && !drop.and_all_sewn,
        });
    }

    /// Takes a declaration away; its place is kept for whoever declares it again.
    pub(super) fn take_away(&mut self, slot: usize, key: &Key) {
        if let Some(gone) = self.standing.take(slot) {
            self.gone.insert(key.clone(), (slot, gone));
        }
    }

    /// Where a band or a facing stands that goes with all that is sewn to it, whatever another file makes of it.
    fn goes_along(&self, drop: &Drop, key: &Key) -> Option<usize> {
        let slot = self.standing.slots_of(key).first().copied().filter(|_| drop.and_all_sewn)?;
        let node = &self.standing.get(slot)?.statement.node;
        matches!(node, StatementNode::Band(_) | StatementNode::Facing(_)).then_some(slot)
    }

    /// What a statement in one line stands for goes with it, and leaves the steps.
    pub(super) fn drop_made(&mut self, dropped: Span, declared: Span, made: Made) {
        let Made { pieces, seams, rows } = made;
        let kinds = [("piece", pieces), ("seam", seams), ("understitch", rows)];
        for (kind, names) in kinds {
            let gone = names.into_iter().map(|name| Dropped::new(name, kind, declared, dropped));
            self.merged.dropped.extend(gone);
        }
    }

    /// `drop body wrist`
    fn drop_row(&mut self, whole: Span, name: &str, span: Span) {
        let key = Key::Value(name.into());
        let what = format!("body measure {name}");
        let Some(slot) = self.slot_to_change(&key, span, &what, Doing::Drop, None) else { return };
        let Some(StatementNode::Body(body)) = self.standing.get(slot).map(|one| &one.statement.node) else {
            let Some(old) = self.standing.get(slot) else { return };
            let is = kind_word(&old.statement.node);
            let title = format!("{name} is {}, not a body measure", article(is));
            let mistake = Diagnostic::new(&catalogue::DROP_NOTHING, span, title)
                .label("no body measure of this name")
                .also(old.statement.span, article(is))
                .help(format!("write drop {is} {name}"));
            return self.merged.mistakes.push(mistake);
        };
        let declared = body.rows.iter().find(|row| *row.name.text == *name).map(|row| row.span);
        if body.rows.len() > 1 {
            self.standing.edit(slot, |node| {
                if let StatementNode::Body(body) = node {
                    body.rows.retain(|row| *row.name.text != *name);
                }
            });
            self.standing.forget(&key, slot);
        } else {
            self.standing.take(slot);
        }
        let declared = declared.unwrap_or(span);
        self.merged.dropped.push(Dropped::new(name, "let", declared, whole));
    }

    /// `drop step "Pockets"`
    fn drop_step(&mut self, whole: Span, title: &str, span: Span) {
        let key = Key::Step(title.into());
        if self.settle(&key, span, &format!("step \"{title}\""), Deed::Drops, None) == Settled::Left {
            return;
        }
        let Some(slot) = self.slot_of_steps(title, span, Doing::Drop) else { return };
        self.note(&key, span, Deed::Drops, None);
        let mut declared = Span::default();
        self.standing.edit(slot, |node| {
            let StatementNode::Steps(steps) = node else { return };
            steps.groups.retain(|group| {
                let goes = *group.title.text == *title;
                if goes {
                    declared = group.title.span;
                }
                !goes
            });
        });
        self.merged.dropped.push(Dropped::new(title, "step", declared, whole));
    }

    /// The steps, if they hold a step of that title; otherwise that is reported.
    pub(super) fn slot_of_steps(&mut self, title: &str, span: Span, doing: Doing) -> Option<usize> {
        let kind = doing.to_nothing();
        let Some(slot) = self.standing.slots_of(&Key::Steps).first().copied() else {
            self.nothing(&Key::Steps, span, &format!("step \"{title}\""), doing);
            return None;
        };
        let StatementNode::Steps(steps) = &self.standing.get(slot)?.statement.node else { return None };
        if steps.groups.iter().any(|group| *group.title.text == *title) {
            return Some(slot);
        }
        if !self.damaged {
            let titles: Vec<&str> = steps.groups.iter().map(|group| &*group.title.text).collect();
            let mut mistake = Diagnostic::new(kind, span, format!("there is no step \"{title}\" to {doing}"))
                .label("no step of this title");
            let gone = |gone: &&Dropped| gone.kind == "step" && *gone.name == *title;
            if let Some(gone) = self.merged.dropped.iter().rev().find(gone) {
                mistake = mistake
                    .also(gone.declared, "it stood here")
                    .also(gone.dropped, "and was taken away here");
            }
            self.merged.mistakes.push(match nearest(title, titles.iter().copied()) {
                Some(near) => mistake.did_you_mean(span, &format!("\"{near}\"")),
                None => mistake.help(format!("the steps are \"{}\"", titles.join("\", \""))),
            });
        }
        None
    }

    /// Takes a piece out of the layers of the base that cut it.
    pub(super) fn unlist(&mut self, piece: &str) {
        let here = self.here;
        let in_this_file = |span: Span| here.lo <= span.lo && span.hi <= here.hi;
        let cutting: Vec<usize> = self
            .standing
            .iter()
            .filter(|(_, one)| match &one.statement.node {
                StatementNode::Layer(layer) => layer.pieces.iter().any(|name| *name.text == *piece),
                _ => false,
            })
            .map(|(slot, _)| slot)
            .collect();
        for slot in cutting {
            let mut emptied = None;
            self.standing.edit(slot, |node| {
                if let StatementNode::Layer(layer) = node {
                    layer.pieces.retain(|name| *name.text != *piece || in_this_file(name.span));
                    emptied = layer.pieces.is_empty().then(|| layer.name.text.clone());
                }
            });
            self.emptied.extend(emptied);
        }
    }

    /// A layer all of whose pieces were dropped is none any more, and its cloth lies on the shelf.
    pub(super) fn without_emptied_layers(declarations: &mut Vec<Declaration>, emptied: &[Arc<str>]) {
        let mut shelved: Vec<Arc<str>> = Vec::new();
        declarations.retain(|one| match &one.statement.node {
            StatementNode::Layer(layer) if layer.pieces.is_empty() && emptied.contains(&layer.name.text) => {
                shelved.push(layer.fabric.text.clone());
                false
            }
            _ => true,
        });
        for one in declarations {
            one.from_library |= matches!(&one.statement.node, StatementNode::Fabric(fabric) if shelved.contains(&fabric.name.text));
        }
    }
}

/// The names of what a band or a facing stands for.
#[derive(Default)]
pub(super) struct Made {
    pub pieces: Vec<Arc<str>>,
    pub seams: Vec<Arc<str>>,
    pub rows: Vec<Arc<str>>,
}

/// The edges that a seam or a closure takes, each with its piece.
fn edges_of(node: &StatementNode) -> Vec<(Arc<str>, Arc<str>)> {
    let chains: Vec<&Chain> = match node {
        StatementNode::Seam(seam) => seam.first.plies.iter().chain(&seam.second.plies).collect(),
        StatementNode::Closure(closure) => vec![&closure.first, &closure.second],
        _ => Vec::new(),
    };
    let sewn = chains
        .into_iter()
        .flat_map(|chain| &chain.edges)
        .flat_map(|sewn| std::iter::once(sewn).chain(&sewn.over));
    let named = sewn.filter_map(|sewn| match sewn.edge.parts.as_slice() {
        [.., piece, edge] => Some((piece.text.clone(), edge.text.clone())),
        _ => None,
    });
    named.collect()
}

/// Of a band or a facing; nothing of anything else.
pub(super) fn made_of(node: &StatementNode) -> Made {
    match node {
        StatementNode::Band(band) => {
            Made { pieces: vec![band.name.text.clone()], seams: band.seams(), rows: Vec::new() }
        }
        StatementNode::Facing(facing) => Made {
            pieces: facing.strips(),
            seams: vec![facing.name.text.clone()],
            rows: facing.row().into_iter().collect(),
        },
        _ => Made::default(),
    }
}
