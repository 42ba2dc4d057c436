//! Alterations, each in one line.

use super::expression::{Printer, dotted, dotteds, names};
use crate::syntax::tree::{Alteration, Amount, TargetForm};

impl Printer<'_> {
    pub(super) fn alteration(&self, alteration: &Alteration) -> String {
        let Alteration { kind, targets, at, path, amount, keeping, into } = alteration;
        let form = kind.form();
        let (between_two, place) = match form.targets {
            TargetForm::Pieces(place) | TargetForm::Piece(place) => (false, place),
            TargetForm::TwoPieces(place) => (true, place),
            TargetForm::Edges | TargetForm::Edge | TargetForm::Closure => (false, ""),
        };
        let mut words = vec![form.verb.to_owned()];
        words.push(match between_two {
            true => targets.iter().map(dotted).collect::<Vec<_>>().join(" to "),
            false => dotteds(targets),
        });
        words.extend(at.as_ref().map(|at| format!("{place} {}", at.text)));
        words.extend(path.as_ref().map(|path| self.path(path)));
        words.extend(amount.as_ref().map(|amount| self.amount(amount)));
        if !keeping.is_empty() {
            words.push(format!("keeping {}", dotteds(keeping)));
        }
        if !into.is_empty() {
            words.push(format!("into {}", names(into)));
        }
        words.join(" ")
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
