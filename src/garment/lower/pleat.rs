//! Pleats and tucks: where and how their cloth is folded.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{EdgeId, PieceId, Pleat, PleatKind, PleatPlace, Pressed};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, Expr, Name};

impl Lowering<'_> {
    /// A pleat or tuck; none where a name in it is not known, or its words do not go together, which was reported.
    pub(super) fn pleat(
        &self,
        piece: PieceId,
        name: &Name,
        pleat: &tree::Pleat,
        span: Span,
        when: When,
    ) -> Option<Pleat> {
        let length = |expr: &Expr| self.lower(expr, when, Some(piece), Wanted::Length);
        let edge = self.find_edge(piece, &pleat.edge);
        let place = match &pleat.place {
            tree::PleatPlace::Fold => Some(PleatPlace::Fold),
            tree::PleatPlace::On(place) => self.edge_place(piece, place, when).map(PleatPlace::On),
        };
        let depth = length(&pleat.depth);
        let kind = match &pleat.kind {
            tree::PleatKind::Knife => PleatKind::Knife,
            tree::PleatKind::Box(wide) => PleatKind::Box(wide.as_ref().map(length)),
            tree::PleatKind::Inverted(wide) => PleatKind::Inverted(wide.as_ref().map(length)),
        };
        let count = |expr: &Expr| self.lower(expr, when, Some(piece), Wanted::Number);
        let row = pleat.row.as_ref().map(|(number, apart)| (count(number), length(apart)));
        let stitched = pleat.stitched.as_ref().map(length);
        let toward = match &pleat.toward {
            None => None,
            Some(name) => Some(Pressed { to: self.pressed_toward(piece, name)?, span: name.span }),
        };
        let to = self.may_be_named(piece, pleat.to.as_ref())?;
        let along = self.may_be_named(piece, pleat.along.as_ref())?;
        let along = along.zip(pleat.along.as_ref()).map(|(edge, name)| (edge, name.span));
        let sound = self.goes_together(name, pleat, span);
        let (edge, place) = edge.zip(place).filter(|_| sound)?;
        let trued = pleat.trued;
        Some(Pleat { edge, place, depth, kind, row, toward, to, stitched, along, trued })
    }

    /// An edge or line that may be named; none where it is, and is not known.
    fn may_be_named(&self, piece: PieceId, name: Option<&Name>) -> Option<Option<EdgeId>> {
        match name {
            None => Some(None),
            Some(name) => self.find_edge(piece, name).map(Some),
        }
    }

    /// Whether the words of a pleat go together; reported if not.
    fn goes_together(&self, name: &Name, pleat: &tree::Pleat, span: Span) -> bool {
        // What is missing may stand in what could not be read.
        if self.is_cut_short(span) {
            return true;
        }
        let own = &name.text;
        let word = if pleat.tuck { "tuck" } else { "pleat" };
        let kind = match pleat.kind {
            tree::PleatKind::Knife => None,
            tree::PleatKind::Box(_) => Some("box"),
            tree::PleatKind::Inverted(_) => Some("inverted"),
        };
        let told = |kind: &'static Entry, span: Span, title: String, help: String| {
            self.report(Diagnostic::new(kind, span, title).help(help));
            false
        };
        match (kind, &pleat.toward) {
            (None, None) => {
                let title = format!("nothing says which way {own} is laid");
                let help = format!(
                    "say where its fold leads: toward a corner or an edge beside it; or lay it both ways: a box or an \
                     inverted {word}"
                );
                return told(&catalogue::PLEAT_TOWARD, span, title, help);
            }
            (Some(kind), Some(toward)) => {
                let title = format!("{own} is {kind}: it is laid both ways");
                let help = format!(
                    "leave `toward {}` out; or leave out `{kind}` for a {word} that is laid one way",
                    toward.text
                );
                return told(&catalogue::PLEAT_TOWARD, toward.span, title, help);
            }
            _ => {}
        }
        if kind.is_none() && matches!(pleat.place, tree::PleatPlace::Fold) {
            let title = format!("{own} is laid one way, and on a fold its other half is laid the other way");
            let help = "write box or inverted: half of it lies on each side of the fold".to_owned();
            return told(&catalogue::PLEAT_FOLD, span, title, help);
        }
        let at = |expr: &Option<Expr>| expr.as_ref().map_or(span, |expr| expr.span);
        match (pleat.tuck, &pleat.to, &pleat.stitched) {
            (true, None, _) => told(
                &catalogue::PLEAT_SEWN,
                span,
                format!("nothing says how far {own} goes"),
                "a tuck is sewn from one edge to another: say to which, `to hem`; what opens below its stitching is a \
                 pleat: `pleat … stitched down 12`"
                    .to_owned(),
            ),
            (true, Some(_), stitched @ Some(_)) => told(
                &catalogue::PLEAT_SEWN,
                at(stitched),
                format!("{own} is a tuck, which is sewn all along"),
                "leave `stitched down` out; or make it a pleat, which opens below its stitching: leave `to` out".to_owned(),
            ),
            (false, Some(to), _) => told(
                &catalogue::PLEAT_SEWN,
                to.span,
                format!("{own} is a pleat, which is not sewn as far as another edge"),
                format!(
                    "write tuck if it is sewn from {} to {}; or `stitched down`, and how far",
                    pleat.edge.text, to.text
                ),
            ),
            _ => true,
        }
    }
}
