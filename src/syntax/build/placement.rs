use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{HostPlace, Place, PlaceItem, PlaceItemNode};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn place(&mut self, pair: Pair<Rule>) -> Option<Place> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let (piece, _, on) = (kids.next()?, kids.next()?, kids.next()?);
        let (piece, on) = (self.dotted(piece), self.use_of(on)?);
        let items = self.block(Context::Place, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            Some(PlaceItem { span, node: builder.place_item(item)? })
        });
        Some(Place { piece, on, items })
    }

    fn place_item(&mut self, pair: Pair<Rule>) -> Option<PlaceItemNode> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        kids.next();
        let first = kids.next()?;
        Some(match rule {
            Rule::corner_at => {
                let corner = self.name(first);
                let on_edge = kids.next()?.as_rule() == Rule::k_on;
                let at = kids.next()?;
                let at = match on_edge {
                    true => {
                        let place = kids.next()?;
                        HostPlace::Edge(self.name(at), self.edge_place(place)?)
                    }
                    false => HostPlace::Point(self.name(at)),
                };
                PlaceItemNode::Corner { corner, at }
            }
            Rule::topstitch if first.as_rule() == Rule::k_all => PlaceItemNode::TopstitchAllRound,
            Rule::topstitch => PlaceItemNode::Topstitch(self.names(first)),
            _ => {
                let seam = kids.nth(1)?;
                PlaceItemNode::Caught { edges: self.names(first), in_seam: self.name(seam) }
            }
        })
    }
}
