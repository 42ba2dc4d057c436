//! Alterations, each in one line.

use super::expression::{Printer, dotted, dotteds};
use crate::syntax::tree::{Alteration, Amount};

impl Printer<'_> {
    pub(super) fn alteration(&self, alteration: &Alteration) -> String {
        match alteration {
            Alteration::Lengthen { shorten, pieces, at, amount, keeping } => {
                let verb = if *shorten { "shorten" } else { "lengthen" };
                let keeping = match keeping.is_empty() {
                    true => String::new(),
                    false => format!(" keeping {}", dotteds(keeping)),
                };
                format!("{verb} {} at {} {}{keeping}", dotteds(pieces), at.text, self.amount(amount))
            }
            Alteration::CutOff { pieces, at } => format!("cut off {} at {}", dotteds(pieces), at.text),
            Alteration::Extend { trim, edges, by } => {
                let verb = if *trim { "trim" } else { "extend" };
                format!("{verb} {} by {}", dotteds(edges), self.expr(by))
            }
            Alteration::Open { close, pieces, at } => {
                let verb = if *close { "close" } else { "open" };
                format!("{verb} {} at {}", dotteds(pieces), at.text)
            }
            Alteration::Split { piece, at, into } => {
                format!("split {} at {} into {}, {}", dotted(piece), at.text, into.0.text, into.1.text)
            }
            Alteration::Join { first, second, at, into } => {
                format!("join {} to {} at {} into {}", dotted(first), dotted(second), at.text, into.text)
            }
            Alteration::Redraw { edge, path } => format!("redraw {} {}", dotted(edge), self.path(path)),
            Alteration::Flare { pieces, along, by } => {
                format!("flare {} along {} by {}", dotteds(pieces), along.text, self.expr(by))
            }
            Alteration::Spread { pieces, along, by } => {
                format!("spread {} along {} by {}", dotteds(pieces), along.text, self.expr(by))
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
