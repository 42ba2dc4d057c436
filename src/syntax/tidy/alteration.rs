//! Alterations, each in one line.

use super::expression::{Printer, dotted, dotteds, names};
use crate::syntax::tree::{
    Alteration, AlterationKind, Altered, Amount, DartChange, DartGoal, DartLet, DartMove, Dotted, Name,
    TargetForm,
};

/// An alteration as it is named: `lengthen front, back at waist`
pub fn altered(altered: &Altered) -> String {
    let Altered { kind, targets, at, to, .. } = altered;
    let form = kind.form();
    let (between_two, place) = between_and_place(form.targets);
    let mut words = vec![form.verb.to_owned()];
    if let (AlterationKind::LetDart | AlterationKind::LetPleat, Some(dart)) = (kind, at) {
        return format!("{} {} into {}", form.verb, dart.text, dotteds(targets));
    }
    words.push(match between_two {
        true => targets.iter().map(dotted).collect::<Vec<_>>().join(" to "),
        false => dotteds(targets),
    });
    match (at, to) {
        (Some(from), Some(to)) => words.push(format!("from {} to {}", from.text, to.text)),
        (Some(at), None) => words.push(format!("{place} {}", at.text)),
        (None, _) => {}
    }
    words.join(" ")
}

/// Whether "to" stands between what is named, and the word before the line or edge.
fn between_and_place(targets: TargetForm) -> (bool, &'static str) {
    match targets {
        TargetForm::Pieces(place) | TargetForm::Piece(place) => (false, place),
        TargetForm::TwoPieces(place) => (true, place),
        TargetForm::Edges
        | TargetForm::Edge
        | TargetForm::Wholes
        | TargetForm::Whole
        | TargetForm::Dart
        | TargetForm::Closure => (false, ""),
    }
}

impl Printer<'_> {
    pub(super) fn alteration(&self, alteration: &Alteration) -> String {
        let Alteration { kind, targets, at, path, amount, keeping, into, dart, tapered, stepped } =
            alteration;
        let form = kind.form();
        if let Some(change) = dart {
            return self.dart_change(form.verb, targets, into, change);
        }
        let (between_two, place) = between_and_place(form.targets);
        let mut words = vec![form.verb.to_owned()];
        words.push(match between_two {
            true => targets.iter().map(dotted).collect::<Vec<_>>().join(" to "),
            false => dotteds(targets),
        });
        words.extend(at.as_ref().map(|at| format!("{place} {}", at.text)));
        words.extend(path.as_ref().map(|path| self.path(path)));
        words.extend(amount.as_ref().map(|amount| self.amount(amount)));
        words.extend(tapered.as_deref().map(|ends| {
            let ends = ends.iter().map(|(by, at)| format!("{} at {}", self.expr(by), at.text));
            format!("by {}", ends.collect::<Vec<_>>().join(", "))
        }));
        words.extend(stepped.then(|| "stepped".to_owned()));
        if !keeping.is_empty() {
            words.push(format!("keeping {}", dotteds(keeping)));
        }
        if !into.is_empty() {
            words.push(format!("into {}", names(into)));
        }
        words.join(" ")
    }

    /// `move 40% of dart front.side_dart to armhole at 50% …`
    fn dart_change(&self, verb: &str, targets: &[Dotted], into: &[Name], change: &DartChange) -> String {
        let dart = dotteds(targets);
        match change {
            DartChange::Close => format!("{verb} {dart}"),
            DartChange::Split(split) => {
                let through: Vec<String> = split.through.iter().map(|point| self.expr(point)).collect();
                let through = if through.is_empty() {
                    String::new()
                } else {
                    format!(" through {}", through.join(", "))
                };
                let rounded =
                    split.rounded.as_ref().map_or(String::new(), |by| format!(" rounded {}", self.expr(by)));
                let (from, to, named) = (&split.from.text, &split.to.text, &split.named.text);
                format!("{verb} {dart} from {from}{through} to {to} into {} as {named}{rounded}", names(into))
            }
            DartChange::Leave(left) => format!("{verb} {dart} as {}", left.word()),
            DartChange::Let(change) => {
                let DartLet { name, place, angle, to, turning, ends, ways } = &**change;
                let ends = ends.as_ref().map_or(String::new(), |ends| format!(" {}", self.edge_place(ends)));
                let (place, angle, to) = (self.edge_place(place), self.expr(angle), self.expr(to));
                let (name, turning, ways) = (&name.text, &turning.text, self.dart_ways(ways));
                format!(
                    "{verb} {name} into {dart} {place} angle {angle} to {to} turning to {turning}{ends} {ways}"
                )
            }
            DartChange::LetPleat(change) => {
                let ways = self.pleat_ways(&change.pleat, change.nothing.as_ref());
                format!("{verb} {} into {dart} {ways}", change.name.text)
            }
            DartChange::Move(change) => {
                let DartMove { share, goal, named, stopping, laid, trued } = &**change;
                let share = share.as_ref().map_or(String::new(), |share| format!("{} of ", self.expr(share)));
                let goal = match goal {
                    DartGoal::Edge { edge, place } => format!("to {} {}", edge.text, self.edge_place(place)),
                    DartGoal::Dart(into) => format!("into {}", dotted(into)),
                };
                let mut words = vec![format!("move {share}dart {dart} {goal}")];
                words.extend(named.as_ref().map(|named| format!("as {}", named.text)));
                words.extend(stopping.as_ref().map(|by| format!("stopping {} short", self.expr(by))));
                words.extend(laid.as_ref().map(super::take_up::laid));
                words.extend(trued.then(|| "trued".to_owned()));
                words.join(" ")
            }
        }
    }

    fn amount(&self, amount: &Amount) -> String {
        match amount {
            Amount::By(by) => format!("by {}", self.expr(by)),
            Amount::Until { about, closure, .. } => {
                let about =
                    about.as_ref().map_or(String::new(), |about| format!("by about {} ", self.expr(about)));
                format!("{about}until {} fits", closure.text)
            }
        }
    }
}
