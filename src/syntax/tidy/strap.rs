//! Straps in the canonical spelling.

use super::entry::Entry;
use super::expression::{Printer, dotted};
use crate::source::Span;
use crate::syntax::tree::{Hand, Strap, StrapEnd, StrapItem, StrapItemNode};

impl Printer<'_> {
    pub(super) fn strap(&self, span: Span, strap: &Strap) -> Entry {
        let title = strap.title.as_ref().map_or(String::new(), |title| format!(" {}", self.text(title)));
        let (length, width) = (self.expr(&strap.length), self.expr(&strap.width));
        let folded = if strap.in_four { " folded in four" } else { "" };
        let (name, layer) = (&strap.name.text, &strap.layer.text);
        Entry::line(span, format!("strap {name}{title} {length} by {width} in {layer}{folded}"))
            .block(strap.items.iter().map(|item| self.strap_item(item)).collect())
    }

    fn strap_item(&self, item: &StrapItem) -> Entry {
        let words = match &item.node {
            StrapItemNode::Run { from, to } => {
                let to = to.as_ref().map_or_else(|| "free".to_owned(), |to| self.strap_end(to));
                format!("from {} to {to}", self.strap_end(from))
            }
            StrapItemNode::Sewn { length, boxed } => {
                format!("sewn {}{}", self.expr(length), if *boxed { ", boxed" } else { "" })
            }
        };
        Entry::line(item.span, words)
    }

    fn strap_end(&self, end: &StrapEnd) -> String {
        let hand = match end.hand {
            None => "",
            Some(Hand::Left) => " on left",
            Some(Hand::Right) => " on right",
        };
        let place = end.place.as_ref().map_or(String::new(), |place| format!(" {}", self.edge_place(place)));
        let caught = end.caught.as_ref().map_or(String::new(), |seam| format!(" caught in {}", seam.text));
        format!("{}{hand}{place}{caught}", dotted(&end.at))
    }
}
