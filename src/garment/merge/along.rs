//! `drop cuff and all sewn to it`: what goes with a piece, or with a layer.

use super::drop::made_of;
use super::key::{Key, dotted, keys_of};
use super::seam_along::{has_gap, seam_fate};
use super::{Declaration, Deed, Dropped, Merging};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{
    Band, Chain, Dotted, Facing, Seam, Setting, Statement, StatementNode, Steps, StitchedRow, StrapItem,
    StrapItemNode, TargetForm, Verb,
};
use indexmap::IndexSet;
use std::sync::Arc;

/// What goes, for the message.
pub(super) struct Gone {
    /// What it is called; empty where that is said already.
    pub words: String,
    pub span: Span,
}

/// What becomes of one declaration.
pub(super) enum Fate {
    Stays,
    Goes,
    Loses(Box<StatementNode>),
}

impl Fate {
    pub(super) fn loses(rest: StatementNode) -> Fate {
        Fate::Loses(Box::new(rest))
    }
}

impl Merging {
    /// Takes away every seam, closure, opening and placement that names the piece or layer, and
    /// its edges out of finishes, cords, alterations and steps; lists them in one advice, with the seams that the
    /// same line makes and where that is, and the pieces that no other layer cuts. What
    /// the file at hand itself declares stays, and is reported as dangling if it names the piece.
    pub(super) fn drop_along(
        &mut self,
        whole: Span,
        target: Span,
        name: &Arc<str>,
        (own, declared): (Vec<Arc<str>>, Span),
    ) {
        let named = |seam: &Arc<str>| Gone { words: format!("the seam {seam}"), span: declared };
        let mut gone: Vec<Gone> = own.iter().map(named).collect();
        let alone = self.cut_there_alone(name);
        let mut names: Vec<Arc<str>> = vec![name.clone()];
        for (slot, piece) in alone {
            let key = Key::Piece(piece.clone());
            let Some(declared) = self.standing.get(slot).map(|one| one.statement.span) else { continue };
            gone.push(Gone { words: format!("the piece {piece}"), span: declared });
            self.note(&key, whole, Deed::DropsAlong, None);
            self.take_away(slot, &key);
            let name = piece.clone();
            self.merged.dropped.push(Dropped::new(name, "piece", declared, whole));
            names.push(piece);
        }
        self.with_straps(&mut names);
        let names = names.as_slice();
        let mut sewn: Vec<Arc<str>> = own;
        let (mut placed, mut gone_straps): (Vec<String>, Vec<Arc<str>>) = Default::default();
        let mut ungapped: Vec<Arc<str>> = Vec::new();
        let mut changes: Vec<(usize, Fate)> = Vec::new();
        for (slot, one) in self.standing.iter() {
            if self.in_this_file(one.statement.span) {
                continue;
            }
            let fate = self.fate(names, &one.statement, &mut gone);
            match (&fate, &one.statement.node) {
                (Fate::Stays, _) => continue,
                (Fate::Goes, StatementNode::Seam(seam)) => sewn.push(seam.name.text.clone()),
                (Fate::Loses(rest), StatementNode::Seam(seam)) => {
                    let is_shut = matches!(&**rest, StatementNode::Seam(rest) if !has_gap(rest));
                    ungapped.extend((has_gap(seam) && is_shut).then(|| seam.name.text.clone()));
                }
                (Fate::Goes, StatementNode::Closure(closure)) => sewn.push(closure.name.text.clone()),
                (Fate::Goes, StatementNode::Placket(placket)) => {
                    let name = &placket.name.text;
                    let parts = ["", "_under", "_over", "_end"].into_iter();
                    sewn.extend(parts.map(|part| Arc::from(format!("{name}{part}"))));
                }
                (Fate::Goes, node @ (StatementNode::Band(_) | StatementNode::Facing(_))) => {
                    let made = made_of(node);
                    sewn.extend(made.seams.into_iter().chain(made.rows));
                }
                (Fate::Goes, StatementNode::StitchedRow(row)) => sewn.push(row.name.text.clone()),
                (Fate::Goes, StatementNode::Tack(tack)) => sewn.push(tack.name.text.clone()),
                (Fate::Goes, StatementNode::Setting(setting)) => sewn.push(setting.name.text.clone()),
                (Fate::Goes, StatementNode::Cord(cord)) => sewn.push(cord.name.text.clone()),
                (Fate::Goes, StatementNode::Strap(strap)) => {
                    placed.push(strap.name.text.to_string());
                    gone_straps.push(strap.name.text.clone());
                }
                (Fate::Goes, StatementNode::Place(place)) => placed.push(dotted(&place.piece)),
                _ => {}
            }
            changes.push((slot, fate));
        }
        self.change(whole, changes);
        gone_straps.iter().for_each(|strap| self.unlist(strap));
        let still_placed: Vec<String> = self
            .standing
            .keys()
            .filter_map(|key| match key {
                Key::Place(piece, _) => Some(piece.clone()),
                _ => None,
            })
            .collect();
        placed.retain(|piece| !still_placed.contains(piece));
        let mut later: Vec<(usize, Fate)> = Vec::new();
        for (slot, one) in self.standing.iter() {
            match &one.statement.node {
                StatementNode::Steps(steps) => {
                    let (rest, lost) = self.steps_without(steps, names, (&sewn, &ungapped), &placed);
                    if lost {
                        later.push((slot, Fate::loses(StatementNode::Steps(rest))));
                    }
                }
                StatementNode::Seam(seam) if seam.enclosing.iter().any(|one| sewn.contains(&one.text)) => {
                    let enclosing =
                        seam.enclosing.iter().filter(|one| !sewn.contains(&one.text)).cloned().collect();
                    let rest = Seam { enclosing, ..seam.clone() };
                    later.push((slot, Fate::loses(StatementNode::Seam(rest))));
                }
                _ => {}
            }
        }
        let before = self.step_titles();
        self.change(whole, later);
        let after = self.step_titles();
        for title in before.into_iter().filter(|title| !after.contains(title)) {
            self.note(&Key::Step(title), whole, Deed::DropsAlong, None);
        }
        if gone.is_empty() {
            return;
        }
        let words: Vec<&str> =
            gone.iter().map(|one| one.words.as_str()).filter(|words| !words.is_empty()).collect();
        let title = format!("dropping {name} also drops what is sewn to it: {}", words.join(", "));
        let mut advice = Diagnostic::new(&catalogue::DROP_ALONG, target, title).label("dropped here");
        let places: IndexSet<Span> = gone.iter().map(|one| one.span).collect();
        for place in places.into_iter().take(12) {
            advice = advice.also(place, "dropped with it");
        }
        self.merged.mistakes.push(advice.help("edges that these were sewn to need a new seam or finish"));
    }

    /// Straps that go with what goes: what is sewn to them goes too.
    fn with_straps(&self, names: &mut Vec<Arc<str>>) {
        let straps = self.standing.iter().filter_map(|(_, one)| match &one.statement.node {
            StatementNode::Strap(strap) if !self.in_this_file(one.statement.span) => {
                Some((strap.name.text.clone(), &one.statement))
            }
            _ => None,
        });
        let straps: Vec<_> = straps.collect();
        loop {
            let before = names.len();
            for (name, statement) in &straps {
                let goes = matches!(self.fate(names, statement, &mut Vec::new()), Fate::Goes);
                if goes && !names.contains(name) {
                    names.push(name.clone());
                }
            }
            if names.len() == before {
                return;
            }
        }
    }

    fn change(&mut self, whole: Span, changes: Vec<(usize, Fate)>) {
        for (slot, fate) in changes {
            let Some(old) = self.standing.get(slot) else { continue };
            match fate {
                Fate::Stays => {}
                Fate::Loses(node) => {
                    let statement = Arc::new(Statement { span: old.statement.span, node: *node });
                    let declaration = Declaration { statement, ..old.clone() };
                    self.standing.put(slot, declaration);
                }
                Fate::Goes => {
                    let named: Option<(&'static str, Arc<str>)> = match &old.statement.node {
                        StatementNode::Seam(seam) => Some(("seam", seam.name.text.clone())),
                        StatementNode::Closure(closure) => Some(("closure", closure.name.text.clone())),
                        StatementNode::StitchedRow(row) => Some((row.kind.word(), row.name.text.clone())),
                        StatementNode::Tack(tack) => Some(("tack", tack.name.text.clone())),
                        StatementNode::Setting(setting) => Some(("set", setting.name.text.clone())),
                        StatementNode::Cord(cord) => Some(("cord", cord.name.text.clone())),
                        StatementNode::Placket(placket) => Some(("placket", placket.name.text.clone())),
                        StatementNode::Strap(strap) => Some(("strap", strap.name.text.clone())),
                        StatementNode::Band(band) => Some(("band", band.name.text.clone())),
                        StatementNode::Facing(facing) => Some(("facing", facing.name.text.clone())),
                        _ => None,
                    };
                    let declared = old.statement.span;
                    let made = made_of(&old.statement.node);
                    for (key, _) in keys_of(&old.statement.node, declared) {
                        self.note(&key, whole, Deed::DropsAlong, None);
                    }
                    if let Some((kind, name)) = named {
                        self.merged.dropped.push(Dropped::new(name, kind, declared, whole));
                    }
                    self.standing.take(slot);
                    made.pieces.iter().for_each(|piece| self.unlist(piece));
                    self.drop_made(whole, declared, made);
                }
            }
        }
    }

    fn step_titles(&self) -> Vec<Arc<str>> {
        match self.standing.find(&Key::Steps).map(|one| &one.statement.node) {
            Some(StatementNode::Steps(steps)) => {
                steps.groups.iter().map(|group| group.title.text.clone()).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Pieces of a layer that no other one cuts.
    fn cut_there_alone(&self, name: &Arc<str>) -> Vec<(usize, Arc<str>)> {
        let layer = |declaration: &Declaration| match &declaration.statement.node {
            StatementNode::Layer(layer) => Some(layer.clone()),
            _ => None,
        };
        let own = self.standing.find(&Key::Piece(name.clone())).and_then(layer);
        let pieces: Vec<Arc<str>> =
            own.into_iter().flat_map(|own| own.pieces).map(|piece| piece.text).collect();
        if pieces.is_empty() {
            return Vec::new();
        }
        let others = self.standing.iter().filter_map(|(_, one)| layer(one));
        let others = others.filter(|other| other.name.text != *name);
        let elsewhere: Vec<Arc<str>> =
            others.flat_map(|other| other.pieces).map(|piece| piece.text).collect();
        let alone = pieces.into_iter().filter(|piece| !elsewhere.contains(piece));
        let declared = alone.filter_map(|piece| {
            let slot = *self.standing.slots_of(&Key::Piece(piece.clone())).first()?;
            let one = self.standing.get(slot)?;
            let is_its_own = matches!(one.statement.node, StatementNode::Piece(_));
            (is_its_own && !self.in_this_file(one.statement.span)).then_some((slot, piece))
        });
        declared.collect()
    }

    /// Whether the words mean one of these pieces and layers, or something of it.
    fn means(&self, words: &Dotted, names: &[Arc<str>]) -> bool {
        let is_one = |at: usize| words.parts.get(at).is_some_and(|part| names.contains(&part.text));
        let is_in_layer = || words.parts.first().is_some_and(|layer| self.is_layer(&layer.text));
        is_one(0) || is_one(1) && is_in_layer()
    }

    fn is_layer(&self, name: &str) -> bool {
        let found = self.standing.find(&Key::Piece(name.into()));
        found.is_some_and(|one| matches!(one.statement.node, StatementNode::Layer(_)))
    }

    fn fate(&self, names: &[Arc<str>], statement: &Statement, gone: &mut Vec<Gone>) -> Fate {
        let means = |words: &Dotted| self.means(words, names);
        let in_chain = |chain: &Chain| {
            chain.edges.iter().any(|sewn| means(&sewn.edge) || sewn.over.iter().any(|over| means(&over.edge)))
        };
        if let StatementNode::Seam(seam) = &statement.node {
            let is_sewn_anew = self.sewn_here.contains(&seam.name.text);
            return seam_fate((seam, is_sewn_anew), names, &means, gone);
        }
        let mut goes = |words: String, span: Span| {
            gone.push(Gone { words, span });
            Fate::Goes
        };
        match &statement.node {
            StatementNode::Closure(closure) if in_chain(&closure.first) || in_chain(&closure.second) => {
                goes(format!("the closure {}", closure.name.text), closure.name.span)
            }
            StatementNode::Placket(placket) if means(&placket.slit) => {
                goes(format!("the placket {}", placket.name.text), placket.name.span)
            }
            StatementNode::Band(band) => {
                let in_inside = band.inside.as_ref().is_some_and(in_chain);
                let goes_along = in_chain(&band.edges) || in_inside || names.contains(&band.layer.text);
                match band.stiffened.as_ref().is_some_and(|layer| names.contains(&layer.text)) {
                    _ if goes_along => goes(format!("the band {}", band.name.text), band.name.span),
                    true => Fate::loses(StatementNode::Band(Box::new(Band {
                        stiffened: None,
                        ..Band::clone(band)
                    }))),
                    false => Fate::Stays,
                }
            }
            StatementNode::Facing(facing) => {
                let goes_along = in_chain(&facing.edges) || names.contains(&facing.layer.text);
                match facing.stiffened.as_ref().is_some_and(|layer| names.contains(&layer.text)) {
                    _ if goes_along => goes(format!("the facing {}", facing.name.text), facing.name.span),
                    true => Fate::loses(StatementNode::Facing(Box::new(Facing {
                        stiffened: None,
                        ..Facing::clone(facing)
                    }))),
                    false => Fate::Stays,
                }
            }
            StatementNode::Opening(opening) if in_chain(&opening.ring) => {
                goes(format!("the opening that passes {}", opening.passes.text), opening.ring.span)
            }
            StatementNode::Place(place) if means(&place.piece) || means(&place.on) => {
                let words = format!("the placing of {} on {}", dotted(&place.piece), dotted(&place.on));
                goes(words, place.piece.span.to(place.on.span))
            }
            StatementNode::Finish(finish) => {
                let (lost, edges): (Vec<_>, Vec<_>) =
                    finish.edges.iter().cloned().partition(|sewn| means(&sewn.edge));
                for edge in &lost {
                    gone.push(Gone {
                        words: format!("the finish of {}", dotted(&edge.edge)),
                        span: edge.span,
                    });
                }
                match (lost.is_empty(), edges.is_empty()) {
                    (true, _) => Fate::Stays,
                    (_, true) => Fate::Goes,
                    _ => {
                        let mut finish = finish.clone();
                        finish.edges = edges;
                        Fate::loses(StatementNode::Finish(finish))
                    }
                }
            }
            StatementNode::StitchedRow(row) if row.edges.iter().any(|sewn| means(&sewn.edge)) => {
                let edges: Vec<_> = row.edges.iter().filter(|sewn| !means(&sewn.edge)).cloned().collect();
                if edges.is_empty() {
                    return goes(format!("the {} {}", row.kind.gerund(), row.name.text), row.name.span);
                }
                Fate::loses(StatementNode::StitchedRow(StitchedRow { edges, ..row.clone() }))
            }
            StatementNode::Tack(tack)
                if [Some(&tack.from), tack.to.as_ref()].into_iter().flatten().any(|end| means(&end.at)) =>
            {
                goes(format!("the tack {}", tack.name.text), tack.name.span)
            }
            StatementNode::Setting(setting) if setting.places.iter().any(|place| means(&place.at)) => {
                let places: Vec<_> =
                    setting.places.iter().filter(|place| !means(&place.at)).cloned().collect();
                if places.is_empty() {
                    return goes(format!("the set {}", setting.name.text), setting.name.span);
                }
                Fate::loses(StatementNode::Setting(Box::new(Setting { places, ..(**setting).clone() })))
            }
            StatementNode::Cord(cord) => {
                let through: Vec<Dotted> = cord.through.iter().filter(|edge| !means(edge)).cloned().collect();
                if through.len() == cord.through.len() {
                    return Fate::Stays;
                }
                if through.is_empty() {
                    return goes(format!("the cord {}", cord.name.text), cord.name.span);
                }
                let mut cord = cord.clone();
                cord.through = through;
                Fate::loses(StatementNode::Cord(cord))
            }
            StatementNode::Strap(strap) => {
                let is_lost = |item: &StrapItem| match &item.node {
                    StrapItemNode::Run { from, to } => {
                        means(&from.at) || to.as_ref().is_some_and(|to| means(&to.at))
                    }
                    StrapItemNode::Sewn { .. } => false,
                };
                let is_run = |item: &StrapItem| matches!(item.node, StrapItemNode::Run { .. });
                let mut rest = strap.clone();
                rest.items.retain(|item| !is_lost(item));
                match (rest.items.len() == strap.items.len(), rest.items.iter().any(is_run)) {
                    (true, _) => Fate::Stays,
                    (_, false) => goes(format!("the strap {}", strap.name.text), strap.name.span),
                    _ => Fate::loses(StatementNode::Strap(rest)),
                }
            }
            StatementNode::Alteration(alteration) => {
                // What is done to each target by itself can do without one of them.
                let each_alone = match alteration.kind.form().targets {
                    TargetForm::Pieces(_)
                    | TargetForm::Wholes
                    | TargetForm::Edges
                    | TargetForm::Edge
                    | TargetForm::Dart => true,
                    TargetForm::Piece(_)
                    | TargetForm::Whole
                    | TargetForm::TwoPieces(_)
                    | TargetForm::Closure => false,
                };
                let mut rest = alteration.clone();
                rest.targets.retain(|target| !means(target));
                if !each_alone || rest.targets.len() == alteration.targets.len() {
                    return Fate::Stays;
                }
                if rest.targets.is_empty() {
                    return goes("an alteration of it".to_owned(), statement.span);
                }
                rest.keeping.retain(|kept| !means(kept));
                Fate::loses(StatementNode::Alteration(rest))
            }
            _ => Fate::Stays,
        }
    }

    /// The steps without what went, and whether anything did; actions and steps that are left
    /// with nothing to do go too.
    fn steps_without(
        &self,
        steps: &Steps,
        names: &[Arc<str>],
        (sewn, ungapped): (&[Arc<str>], &[Arc<str>]),
        placed: &[String],
    ) -> (Steps, bool) {
        let mut rest = steps.clone();
        let mut lost = false;
        for group in &mut rest.groups {
            group.actions.retain_mut(|action| {
                if self.in_this_file(action.span) {
                    return true;
                }
                if action.layer.as_ref().is_some_and(|layer| names.contains(&layer.text)) {
                    lost = true;
                    return false;
                }
                let before = action.targets.len();
                action.targets.retain(|target| {
                    let single = target.parts.len() == 1;
                    let words = dotted(target);
                    let was_sewn = single && sewn.iter().any(|one| **one == *words);
                    let goes = match action.verb {
                        Verb::TurnThroughGap | Verb::SlipstitchGap => {
                            was_sewn || ungapped.iter().any(|one| **one == *words)
                        }
                        Verb::Place => self.means(target, names) || placed.contains(&words),
                        Verb::Fuse => self.means(target, names),
                        Verb::Hem | Verb::Finish => !single && self.means(target, names),
                        Verb::Topstitch | Verb::Understitch | Verb::Tack | Verb::SetNotion => was_sewn,
                        Verb::Note => false,
                        // Darts, pleats and tucks of a piece go with it.
                        Verb::Sew | Verb::Baste | Verb::Press | Verb::Thread => {
                            was_sewn || !single && self.means(target, names)
                        }
                    };
                    !goes
                });
                lost |= action.targets.len() < before;
                !action.targets.is_empty() || before == 0
            });
        }
        if lost {
            rest.groups.retain(|group| !group.actions.is_empty());
        }
        (rest, lost)
    }
}
