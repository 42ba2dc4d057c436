//! What alterations do to darts.

use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use super::{Lowering, NamedPiece};
use crate::garment::{
    AlterationId, DartChange, DartGoal, DartLet, DartMove, DartSplit, Dimension, EdgeId, Laying, PieceId,
    Pleat, PleatLet, Symbol, TakeUp, TakeUpForm, Target,
};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{self, DartLaid, Dotted, Name};
use std::sync::Arc;

impl Lowering<'_> {
    /// The dart that an alteration names; reported if there is none.
    pub(super) fn dart_target(&self, dotted: &Dotted, id: AlterationId) -> Option<Target> {
        let (part, edge) = self.dart_named(dotted)?;
        self.is_there(part, dotted.span, id)?;
        Some(Target { layer: part.layer, piece: part.piece, edge, span: dotted.span })
    }

    fn dart_named(&self, dotted: &Dotted) -> Option<(NamedPiece, EdgeId)> {
        let (part, last) = self.split_off(dotted, "a dart")?;
        Some((part, self.dart_of(part.piece, last)?))
    }

    /// The piece's dart of that name.
    fn dart_of(&self, piece: PieceId, last: &Name) -> Option<EdgeId> {
        match self.edge_named(piece, &last.text) {
            Some(edge) if self.garment.edge(edge).take_up && self.take_up_word(edge) == "dart" => {
                self.used(Symbol::Edge(edge), last.span);
                Some(edge)
            }
            Some(edge) => {
                let kind = match (self.garment.edge(edge).take_up, self.garment.edge(edge).line) {
                    (true, _) => format!("a {}", self.take_up_word(edge)),
                    (false, true) => "a line".to_owned(),
                    (false, false) => "an edge".to_owned(),
                };
                let title = format!("{} is {kind}, where a dart is needed", last.text);
                let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, last.span, title).label("no dart");
                let darts = self.darts_named(piece);
                let help = match darts.is_empty() {
                    true => format!("{} has no darts", self.garment.piece(piece).title),
                    false => format!("darts of this piece: {}", darts.join(", ")),
                };
                self.report(mistake.also(self.garment.edge(edge).span, "declared here").help(help));
                None
            }
            None => {
                let among = self.darts_named(piece);
                self.unknown(Sought::TakeUpOf(piece), &last.text, last.span, &among);
                None
            }
        }
    }

    fn darts_named(&self, piece: PieceId) -> Vec<Arc<str>> {
        let known = self.piece_edges.get(piece.index()).into_iter().flatten();
        let is_dart = |edge: EdgeId| self.garment.edge(edge).take_up && self.take_up_word(edge) == "dart";
        self.offered(known.filter(|&(_, &edge)| is_dart(edge)).map(|(name, _)| name))
    }

    /// What is done to the dart that an alteration names; none where a name in it is not known, which was
    /// reported.
    pub(super) fn lower_dart_change(
        &self,
        change: &tree::DartChange,
        target: &Target,
        id: AlterationId,
    ) -> Option<DartChange> {
        let change = match change {
            tree::DartChange::Move(change) => change,
            tree::DartChange::Leave(left) => return Some(DartChange::Leave(*left)),
            tree::DartChange::Close => return Some(DartChange::Close),
            tree::DartChange::Let(change) => return self.lower_dart_let(change, target, id),
            tree::DartChange::LetPleat(change) => return self.lower_pleat_let(change, target, id),
            tree::DartChange::Split(split) => return self.lower_dart_split(split, target, id),
        };
        let (when, piece) = (When::Altering(id), target.piece);
        let goal = match &change.goal {
            tree::DartGoal::Edge { edge, place } => {
                let (edge, place) = (self.find_edge(piece, edge), self.edge_place(piece, place, when));
                edge.zip(place).map(|(edge, place)| DartGoal::Edge(edge, place))
            }
            tree::DartGoal::Dart(into) => self.dart_moved_into(into, target),
        };
        let share = change.share.as_ref().map(|share| self.lower(share, when, Some(piece), Wanted::Any));
        if let Some(share) =
            share.as_ref().filter(|share| share.dimension != Dimension::Number && !share.is_poison())
        {
            let title = "a share of a dart is a number: 40% of it";
            let help = "say what part of its angle is moved, for example move 40% of dart …";
            self.report(
                Diagnostic::new(&catalogue::DART_SHARE, share.span, title).label("no share").help(help),
            );
            return None;
        }
        let stopping = change.stopping.as_ref().map(|by| self.lower(by, when, Some(piece), Wanted::Length));
        let laid = match &change.laid {
            None => Some(None),
            Some(DartLaid::CutOpen) => Some(Some(Laying::CutOpen)),
            Some(laid) => self.pressed(piece, laid).map(|pressed| pressed.map(Laying::Pressed)),
        };
        let named = match (&change.named, &change.goal) {
            (Some(name), tree::DartGoal::Dart(_)) => {
                let title = "a dart that is moved into another has that one's name";
                self.report(
                    Diagnostic::new(&catalogue::DART_SHARE, name.span, title)
                        .label("no name of its own")
                        .help("leave `as …` out"),
                );
                return None;
            }
            // A name that was taken is reported where it is declared.
            (Some(name), _) => Some(Some(self.own_take_up(piece, name)?)),
            (None, _) => Some(None),
        };
        if let (Some(share), Some(None), tree::DartGoal::Edge { .. }) = (&change.share, &named, &change.goal)
        {
            let dart = &self.garment.edge(target.edge).name;
            let title = format!("a part of {dart} is moved to an edge of its own, and has no name there");
            self.report(
                Diagnostic::new(&catalogue::DART_SHARE, share.span, title)
                    .label("the rest keeps the name")
                    .help("name the new dart: … as armhole_dart"),
            );
            return None;
        }
        let (goal, laid, named) = (goal?, laid?, named?);
        let trued = change.trued;
        Some(DartChange::Move(Box::new(DartMove { share, goal, named, stopping, laid, trued })))
    }

    fn lower_dart_let(
        &self,
        change: &tree::DartLet,
        target: &Target,
        id: AlterationId,
    ) -> Option<DartChange> {
        let (when, piece) = (When::Altering(id), target.piece);
        let place = self.edge_place(piece, &change.place, when);
        let angle = self.lower(&change.angle, when, Some(piece), Wanted::Angle);
        let to = self.lower(&change.to, when, Some(piece), Wanted::Point);
        let turning = self.find_edge(piece, &change.turning);
        let ends = match &change.ends {
            Some(ends) => self.edge_place(piece, ends, when).map(Some),
            None => Some(None),
        };
        let ways = &change.ways;
        let stopping = ways.stopping.as_ref().map(|by| self.lower(by, when, Some(piece), Wanted::Length));
        let laid = self.pressed(piece, &ways.laid);
        // A name that was taken is reported where it is declared.
        let name = self.own_take_up(piece, &change.name);
        let (place, turning, ends, laid, name) = (place?, turning?, ends?, laid?, name?);
        let laid = Some(laid.map_or(Laying::CutOpen, Laying::Pressed));
        let goal = DartGoal::Edge(target.edge, place);
        let opens = DartMove { share: None, goal, named: None, stopping, laid, trued: ways.trued };
        let turning = (turning, change.turning.span);
        Some(DartChange::Let(Box::new(DartLet { name, angle, to, turning, ends, opens })))
    }

    fn lower_pleat_let(
        &self,
        change: &tree::PleatLet,
        target: &Target,
        id: AlterationId,
    ) -> Option<DartChange> {
        let (when, piece) = (When::Altering(id), target.piece);
        let span = self.garment.alteration(id).span;
        let pleat = self.pleat(piece, &change.name, &change.pleat, span, when);
        let nothing = match &change.nothing {
            Some(edge) => self.find_edge(piece, edge).map(|found| Some((found, edge.span))),
            None => Some(None),
        };
        // A name that was taken is reported where it is declared.
        let name = self.own_take_up(piece, &change.name);
        let (pleat, nothing, name) = (pleat?, nothing?, name?);
        let pleat = Pleat { edge: target.edge, ..pleat };
        let take_up = TakeUp { name, span, form: TakeUpForm::Pleat(Box::new(pleat)) };
        Some(DartChange::LetPleat(Box::new(PleatLet { take_up, nothing })))
    }

    /// The piece that is split and the dart that the split begins at.
    pub(super) fn split_target(
        &self,
        piece: &Dotted,
        split: &tree::DartSplit,
        id: AlterationId,
    ) -> Option<Target> {
        let part = self.find_part(piece)?;
        self.is_there(part, piece.span, id)?;
        let edge = self.dart_of(part.piece, &split.from)?;
        Some(Target { layer: part.layer, piece: part.piece, edge, span: piece.span })
    }

    fn lower_dart_split(
        &self,
        split: &tree::DartSplit,
        target: &Target,
        id: AlterationId,
    ) -> Option<DartChange> {
        let (when, piece) = (When::Altering(id), target.piece);
        let to = self.dart_of(piece, &split.to)?;
        if to == target.edge {
            let title = format!("the split begins and ends at {}", split.to.text);
            self.report(
                Diagnostic::new(&catalogue::DART_APART, split.to.span, title)
                    .also(split.from.span, "from here")
                    .help("let it end at another dart; at one dart alone, split along a line"),
            );
            return None;
        }
        let through = split.through.iter().map(|point| self.lower(point, when, Some(piece), Wanted::Point));
        let through = through.collect();
        let rounded = split.rounded.as_ref().map(|by| self.lower(by, when, Some(piece), Wanted::Length));
        Some(DartChange::Split(Box::new(DartSplit { to: (to, split.to.span), through, rounded })))
    }

    /// `front.waist_dart`, or `waist_dart` alone: another dart of the same piece.
    fn dart_moved_into(&self, into: &Dotted, target: &Target) -> Option<DartGoal> {
        let own = self.garment.piece(target.piece);
        let edge = match into.parts.as_slice() {
            [alone] => self.dart_of(target.piece, alone)?,
            _ => {
                let (part, edge) = self.dart_named(into)?;
                if part.piece != target.piece {
                    let other = self.garment.piece(part.piece).title.clone();
                    let dart = self.garment.edge(target.edge).name.clone();
                    let title = format!("{dart} is a dart of {}, and this one of {other}", own.title);
                    self.report(
                        Diagnostic::new(&catalogue::DART_APART, into.span, title)
                            .also(target.span, "moved from here")
                            .help("a dart is moved within its own piece"),
                    );
                    return None;
                }
                edge
            }
        };
        if edge == target.edge {
            let name = &self.garment.edge(edge).name;
            let title = format!("{name} is to be moved into itself");
            self.report(
                Diagnostic::new(&catalogue::DART_APART, into.span, title)
                    .help("name another dart, or leave this line out"),
            );
            return None;
        }
        Some(DartGoal::Dart(edge, into.span))
    }
}
