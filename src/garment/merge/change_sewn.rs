//! `in band collar opening at front_zip` and `in seam sleeve add { … }`: some of what the base says of it is said otherwise,
//! and the rest stands. It takes the place of the whole, as `replace` does.

use super::Merging;
use super::doing::Doing;
use super::key::{Key, kind_word};
use super::place::article;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{
    Band, BandChange, Name, PieceChange, SeamChange, SeamItem, Statement, StatementNode,
};

impl Merging {
    /// Changes each of the bands that are named.
    pub(super) fn change_bands(&mut self, whole: Span, change: &BandChange) {
        for name in &change.names {
            let key = Key::Piece(name.text.clone());
            let Some(node) = self.sewn_to_change(&key, name, "band") else { continue };
            let StatementNode::Band(old) = &node else {
                self.report_other(name, &node, "band");
                continue;
            };
            let new = StatementNode::Band(Box::new(changed(old, name, change)));
            self.replace(whole, &Statement { span: whole, node: new });
        }
    }

    /// Changes what a seam's braces say.
    pub(super) fn change_seam(&mut self, whole: Span, change: &SeamChange) {
        let name = &change.name;
        let Some(mut node) = self.sewn_to_change(&Key::Sewn(name.text.clone()), name, "seam") else { return };
        let of = match &mut node {
            StatementNode::Seam(seam) => Some((&mut seam.name, &mut seam.items)),
            StatementNode::Band(band) => Some((&mut band.name, &mut band.items)),
            StatementNode::Facing(facing) => Some((&mut facing.name, &mut facing.items)),
            _ => None,
        };
        // Of a band only the seam that bears its name is said by it.
        let Some((own, items)) = of.filter(|(own, _)| own.text == name.text) else {
            return self.report_other(name, &node, "seam");
        };
        own.span = name.span;
        put(items, &change.items, change.how);
        self.replace(whole, &Statement { span: whole, node });
    }

    /// What stands under that name; that there is nothing is reported.
    fn sewn_to_change(&mut self, key: &Key, name: &Name, kind: &str) -> Option<StatementNode> {
        // Another file may have dropped it: whether it stands again is settled as of what is replaced.
        let gone = || self.gone.get(key).map(|(_, declaration)| declaration).filter(|_| self.combined.any);
        match self.standing.find(key).or_else(gone) {
            Some(known) => Some(known.statement.node.clone()),
            None => {
                self.nothing(key, name.span, &format!("{kind} {}", name.text), Doing::Change);
                None
            }
        }
    }

    fn report_other(&mut self, name: &Name, node: &StatementNode, kind: &str) {
        let is = article(kind_word(node));
        let title = match kind_word(node) {
            word if word == kind || word == "band" || word == "placket" => {
                format!("{} is made by {is}, which says nothing of it", name.text)
            }
            _ => format!("{} is {is}, and not {}", name.text, article(kind)),
        };
        let help = format!("name {}, or replace the whole", article(kind));
        let mistake = Diagnostic::new(&catalogue::REPLACE_NOTHING, name.span, title);
        self.merged.mistakes.push(mistake.label(format!("no {kind}")).help(help));
    }
}

/// The band with what is said anew. Where its ends lie anew, it goes round no more, or does again.
fn changed(old: &Band, name: &Name, change: &BandChange) -> Band {
    let mut band = Band { name: name.clone(), ..old.clone() };
    if let Some(depth) = &change.depth {
        band.depth = depth.clone();
    }
    if let Some((round, edges)) = &change.edges {
        (band.round, band.edges) = (*round, edges.clone());
    }
    if let Some(opening) = &change.opening {
        (band.opening, band.joined, band.round) = (Some(opening.clone()), None, false);
    }
    if let Some(joined) = &change.joined {
        (band.joined, band.opening, band.underlap, band.round) = (Some(joined.clone()), None, None, true);
    }
    band.inside = change.inside.clone().or(band.inside);
    band.share = change.share.clone().or(band.share);
    band.underlap = change.underlap.clone().or(band.underlap);
    band.stiffened = change.stiffened.clone().or(band.stiffened);
    put(&mut band.items, &change.items, PieceChange::Replaces);
    band
}

/// More of what a seam's braces say; what replaces stands for all of its kind.
fn put(items: &mut Vec<SeamItem>, new: &[SeamItem], how: PieceChange) {
    if how == PieceChange::Replaces {
        let kind = |item: &SeamItem| std::mem::discriminant(&item.node);
        items.retain(|old| !new.iter().any(|item| kind(item) == kind(old)));
    }
    items.extend(new.iter().cloned());
}
