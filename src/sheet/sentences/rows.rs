//! Rows of stitching beside seams and edges, and tacks.

use super::teller::{Named, Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::{ActionTarget, EdgeId, Part, RowId, SetNotion, Tack, TackEnd, TackId, TackSpot};
use crate::sewing::{SewnSeam, SewnSide, amount_of, set_count};
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::{RowKind, Verb};

/// When what is topstitched has been turned.
enum Turned {
    /// Its seam's step says so.
    Before,
    /// Only now: that piece.
    Now(Text),
}

/// What is no farther from an edge lies on it, in millimetres.
const AT_EDGE: f64 = 1.0;

impl Teller<'_> {
    pub(super) fn stitched_row(&self, step: &Step, id: RowId, text: &mut StepText) {
        let forms = self.forms();
        let row = self.garment.row(id);
        let mut named: Vec<Named> = Vec::new();
        for edge in &row.edges {
            named.extend(self.sewn_edges(&[edge.sewn], None));
        }
        let named = super::teller::once(named);
        let letter = || step.letter.clone();
        let Some(distance) = &row.distance else {
            text.say_all(self.listed(&named, |lines| forms.topstitch_along(letter(), lines)));
            if let Some(stitch) = &row.stitch {
                self.note_stitch(stitch.number, text);
            }
            return;
        };
        let Some(distance) = self.amount(FigureKind::Length, distance) else { return };
        let rows = row.rows.as_ref().and_then(|(count, _)| {
            let first = self.facts.sizes.first()?;
            amount_of(self.garment, &first.drawn, count).filter(|count| *count > 1.5)
        });
        let turned = match row.kind {
            RowKind::Topstitch => self.turned_before(step, &named),
            RowKind::Understitch => None,
        };
        if let Some(Turned::Now(piece)) = &turned {
            text.say(forms.turned_first(piece.clone()));
        }
        text.say_all(self.listed(&named, |edges| match (row.kind, rows) {
            (RowKind::Understitch, _) => forms.understitch(letter(), edges, distance.clone()),
            (RowKind::Topstitch, Some(count)) => {
                forms.topstitch_rows(letter(), edges, self.count(count.round() as u32), distance.clone())
            }
            (RowKind::Topstitch, None) => forms.topstitch(letter(), edges, distance.clone()),
        }));
        if matches!(turned, Some(Turned::Before)) {
            text.say(forms.through_both());
        }
        let apart = row.rows.as_ref().filter(|_| rows.is_some());
        if let Some(apart) = apart.and_then(|(_, apart)| self.amount(FigureKind::Length, apart)) {
            text.say(forms.rows_apart(apart));
        }
        if let Some(stitch) = &row.stitch {
            self.note_stitch(stitch.number, text);
        }
    }

    /// What has to be turned before these edges are topstitched: a piece that is sewn to its own twin in another layer along
    /// one of them, and that no step has turned through a gap meanwhile.
    fn turned_before(&self, step: &Step, named: &[Named]) -> Option<Turned> {
        let size = self.facts.sizes.first()?;
        let is_twin = |one: &Named, sewn: &SewnSeam| {
            let edges = |side: &SewnSide| -> Vec<(Part, EdgeId)> {
                let runs = side.plies.iter().flat_map(|ply| &ply.runs);
                let found = runs.filter_map(|run| {
                    let part = size.sewn.part(run.part).part;
                    Some((part, size.drawn.paper(part.paper)?.edge_at(run.edge)?.edge))
                });
                found.collect()
            };
            let (first, second) = (edges(&sewn.first), edges(&sewn.second));
            let is_own =
                |(part, edge): &(Part, EdgeId)| *part == one.part && self.garment.is_run_of(*edge, one.edge);
            let is_its_twin = |(part, edge): &(Part, EdgeId)| {
                part.piece == one.part.piece
                    && part.layer != one.part.layer
                    && self.garment.is_run_of(*edge, one.edge)
            };
            [(&first, &second), (&second, &first)]
                .into_iter()
                .any(|(own, its)| own.iter().any(is_own) && its.iter().any(is_its_twin))
        };
        let found = named.iter().find_map(|one| {
            let sewn = size.sewn.seams.iter().find(|sewn| is_twin(one, sewn))?;
            Some((one, sewn))
        });
        let (one, sewn) = found?;
        // Between its seam and this step nothing is turned, unless the seam's own step says so.
        let (mut is_sewn, mut is_told) = (false, false);
        for group in &self.facts.plan.groups {
            for (action, target) in
                group.actions.iter().flat_map(|one| one.targets.iter().map(move |target| (one, target)))
            {
                if step.does(target) && action == step.action {
                    return is_sewn.then(|| match is_told {
                        true => Turned::Before,
                        false => Turned::Now(self.piece(one.part, None, Way::default())),
                    });
                }
                if target.target == ActionTarget::Seam(sewn.seam) && action.verb == Verb::Sew {
                    let all = std::slice::from_ref(target);
                    is_told |=
                        self.is_turned_after(&Step { action, target, all, letter: Text::default() }, sewn);
                    is_sewn = true;
                }
                if is_sewn && action.verb == Verb::TurnThroughGap {
                    return None;
                }
            }
        }
        None
    }

    pub(super) fn tack(&self, step: &Step, id: TackId, text: &mut StepText) {
        let forms = self.forms();
        let tack = self.garment.tack(id);
        if let Some(set) = &tack.sets {
            return self.set_notion(step, tack, set, text);
        }
        let bar = tack.bar.as_ref().and_then(|bar| self.amount(FigureKind::Length, bar));
        let letter = || step.letter.clone();
        let say = |way: Way| {
            let place = |end: &TackEnd| self.tack_end(end, way);
            match (tack.ends.as_slice(), bar.clone()) {
                ([one], None) => Some(forms.tack(letter(), place(one))),
                ([one], Some(bar)) => Some(forms.bar_tack(letter(), place(one), bar)),
                ([one, other, ..], None) => Some(forms.tack_to(letter(), place(one), place(other))),
                ([one, other, ..], Some(bar)) => {
                    Some(forms.bar_tack_to(letter(), place(one), place(other), bar))
                }
                ([], _) => None,
            }
        };
        let full = say(Way::default()).filter(|full| fit(std::slice::from_ref(full)));
        text.say_all(full.or_else(|| say(Way { short: true, layered: false })));
        if tack.ends.iter().any(|end| self.is_on_both_sides(end)) {
            text.say(forms.each_side());
        }
    }

    /// Whether a mark inside a piece is there on the left and on the right. On an edge both may meet, as at the end of a fly.
    fn is_on_both_sides(&self, end: &TackEnd) -> bool {
        let TackSpot::Point(point) = end.spot else { return false };
        let Some(host) = self.part_of(end.layer, end.piece).filter(|_| end.hand.is_none()) else {
            return false;
        };
        let drawn = self.facts.sizes.first().and_then(|size| size.drawn.paper(host.paper));
        let is_inside = drawn.is_some_and(|drawn| {
            let spot = drawn.spots.iter().find(|spot| self.garment.is_point_of(spot.point, point));
            spot.is_some_and(|spot| {
                drawn.outline().iter().all(|edge| edge.path.nearest(spot.at).distance > AT_EDGE)
            })
        });
        is_inside && self.times(host) == 2
    }

    /// What is set, where, and how many of it.
    fn set_notion(&self, step: &Step, tack: &Tack, set: &SetNotion, text: &mut StepText) {
        let forms = self.forms();
        let title = set.notion.map_or_else(Text::default, |id| self.name(&self.garment.notion(id).title));
        let say = |way: Way| {
            let places: Vec<Text> = tack.ends.iter().map(|end| self.tack_end(end, way)).collect();
            self.packed(&places, |places| forms.set_notion(title.clone(), step.letter.clone(), places))
        };
        let full = say(Way::default());
        text.say_all(if fit(&full) { full } else { say(Way { short: true, layered: false }) });
        let count = self.figure(FigureKind::Count, |_, size| {
            let finder = size.sewn.finder(self.garment, &size.drawn);
            set_count(self.garment, &size.drawn, &finder, size.sewn.surface.as_ref(), tack).map(f64::from)
        });
        let is_more = |count: &Figure| count.values.iter().flatten().any(|value| *value > 1.0);
        text.say_all(count.filter(is_more).map(|count| forms.set_count(count)));
    }

    pub(super) fn tack_end(&self, end: &TackEnd, way: Way) -> Text {
        let Some(part) = self.part_of(end.layer, end.piece) else {
            return self.name(&match &end.spot {
                TackSpot::Point(point) => self.garment.point_words(*point),
                TackSpot::Edge(edge, _) => self.edge_words(*edge),
            });
        };
        match &end.spot {
            TackSpot::Point(point) => self.point(*point, part, end.hand, way),
            TackSpot::Edge(edge, place) => {
                let hand = end.hand.filter(|_| !end.at_fold);
                let edge = self.garment.whole_edge(*edge);
                let named = self.words.list(self.edges(&[Named { part, edge, hand }], way));
                match end.at_fold {
                    true => self.forms().middle_of_edge(named),
                    false => self.place_on(named.clone(), place).unwrap_or(named),
                }
            }
        }
    }
}
