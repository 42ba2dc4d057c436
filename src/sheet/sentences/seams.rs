//! Seams: what is sewn to what, and what is left open in it.

use super::sides::{Sides, is_alike_but_for_layers, one_layer};
use super::straps::is_same_place;
use super::teller::{Named, Teller, Way, fit, once};
use super::{Step, StepText};
use crate::garment::{Catcher, EdgeId, LayerId, Part, PlacementId, SeamId, SewnPoint, SewnSpot};
use crate::sewing::order::{BY_HAND, Job};
use crate::sewing::{SewnPly, SewnRun, SewnSeam, Stitching};
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::{Hand, SeamKind, Verb};
use indexmap::IndexSet;

/// An allowance, and the edges that have it.
type Allowed = (Figure, Vec<(Part, EdgeId)>);

impl<'a> Teller<'a> {
    pub(super) fn sew(&self, step: &Step, id: SeamId, text: &mut StepText) {
        let seam = self.garment.seam(id);
        self.say_slits_first(step, text);
        let stitchings = self.stitchings(step, id);
        if seam.across_fold {
            self.sew_across_fold(step, id, &stitchings, text);
            self.seam_facts(step, id, &[], &stitchings, text);
            return;
        }
        if stitchings.is_empty() {
            text.say(self.forms().joined_away(self.seam_name(id)));
            return;
        }
        if let Some((code, layer)) = self.sewn_before(step, id, &stitchings) {
            text.say(self.forms().as_step(code, self.layer(layer)));
        }
        if self.has_joints_before(step, id) {
            text.say(self.forms().rest_of_joints());
        }
        let groups = self.sides(&stitchings);
        self.say_drawn_through(&groups, text);
        self.say_inward_corners(step, &groups, text);
        self.say_met_corners(&groups, text);
        // The same in several layers is told once.
        let mut told: Vec<(&Sides, Vec<LayerId>)> = Vec::new();
        for sides in &groups {
            let is_same =
                |own: &Sides| is_alike_but_for_layers(own, sides) && self.numbers(own) == self.numbers(sides);
            match told.iter_mut().find(|(own, _)| is_same(own)) {
                Some((_, layers)) => layers.extend(one_layer(sides)),
                None => told.push((sides, one_layer(sides).into_iter().collect())),
            }
        }
        for (nth, (sides, layers)) in told.iter().enumerate() {
            // What differs by its pieces' numbers alone is not told anew.
            let is_like = told.first().is_some_and(|(first, _)| is_alike_but_for_layers(first, sides));
            if nth > 0 && is_like && layers.len() == 1 && self.say_likewise(id, sides, text) {
                continue;
            }
            self.fold_first(sides, text);
            let several = layers.len() > 1 || self.goes_of_seam(step, sides) > 1;
            self.say_seam(step, id, sides, several, text);
            self.say_copies(sides, text);
            self.say_lying(sides, text);
            self.say_faces(step, sides, text);
            if layers.len() > 1 {
                let layers = self.words.list(layers.iter().map(|&layer| self.layer(layer)));
                text.say(self.forms().each_layer(layers));
            }
            let left =
                sides.sewn.iter().filter_map(|&nth| self.sewn(nth)?.left).map(|(_, count)| count).max();
            if let Some(count) = left.filter(|count| *count > 1) {
                text.say(self.forms().in_stretches(self.count(count)));
            }
            let hand = match sides.hands.as_slice() {
                [first, others @ ..] if others.iter().all(|own| own == first) => Some(*first),
                _ => None,
            };
            self.say_stretches(&sides.runs, (&sides.sewn, hand), text);
            self.say_making(step, id, sides, text);
            self.say_ring(step, sides, text);
            self.say_meeting(id, sides, text);
            self.say_fit(id, sides, text);
        }
        self.say_caught(id, &stitchings, text);
        self.say_slits(step, &stitchings, text);
        self.say_gaps(id, step.action.layer, text);
        if !groups.iter().any(|sides| self.is_closed_by_hand(id, sides)) {
            self.say_turned(step, id, &groups, text);
        }
        self.seam_facts(step, id, &groups, &stitchings, text);
    }

    pub(super) fn baste_seam(&self, step: &Step, id: SeamId, text: &mut StepText) {
        let stitchings = self.stitchings(step, id);
        for sides in self.sides(&stitchings) {
            let name = self.seam_name(id);
            let letter = step.letter.clone();
            let say = |way: Way| {
                let [first, second] = self.both_sides(id, &sides, way);
                vec![self.forms().baste_seam(name.clone(), letter.clone(), first, second)]
            };
            text.say_all(self.short_if_long(&sides, say));
        }
    }

    /// Both sides in words. Where seam and edges have one name it is said once.
    pub(super) fn both_sides(&self, id: SeamId, sides: &Sides, way: Way) -> [Text; 2] {
        let seam = self.garment.seam(id);
        let own = self.label_or(seam.label.as_deref(), &seam.name);
        let own = super::teller::without_last(&own, self.words.seam);
        let all = || sides.sides.iter().flatten();
        let is_said = all().all(|named| self.edge_words(named.edge) == own && !self.is_run(named.edge));
        let [first, second] = [0, 1].map(|at| {
            let edges = &sides.sides[at];
            let words = if is_said { self.pieces(edges, way) } else { self.edges(edges, way) };
            self.words.list(words)
        });
        // What lies on one piece names it once.
        let mut pieces = all().map(|named| named.part);
        let one = pieces.next();
        if one.is_none() || pieces.any(|part| Some(part) != one) {
            return [first, second];
        }
        let plain = |edges: &[Named]| -> Vec<_> { edges.iter().map(|named| named.edge).collect() };
        let hands = |edges: &[Named]| -> Vec<_> { edges.iter().map(|named| named.hand).collect() };
        let [one, other] = &sides.sides;
        // Of a half that is opened out both edges are there once, and are sewn to one another.
        if let ([own], [its]) = (one.as_slice(), other.as_slice())
            && (own.part, own.edge) == (its.part, its.edge)
            && own.hand != its.hand
            && self.is_there_twice(own.part, own.edge)
        {
            let edges = Named { hand: None, ..*own };
            return [self.words.list(self.edges(&[edges], way)), self.forms().each_other()];
        }
        let all_are = |edges: &[Named], hand| hands(edges).iter().all(|own| *own == Some(hand));
        let names = one.iter().map(|named| self.edge_words(named.edge));
        let several = names.collect::<IndexSet<String>>().len() > 1;
        let second = match plain(one) == plain(other) {
            true if all_are(other, Hand::Right) && is_said => self.forms().the_right_piece(),
            true if all_are(other, Hand::Left) && is_said => self.forms().the_left_piece(),
            true if all_are(other, Hand::Right) && several => self.forms().the_right_ones(),
            true if all_are(other, Hand::Right) => self.forms().the_right_one(),
            true if all_are(other, Hand::Left) && several => self.forms().the_left_ones(),
            true if all_are(other, Hand::Left) => self.forms().the_left_one(),
            true => second,
            false => self.bare_edges(other),
        };
        [first, second]
    }

    pub(super) fn way_of_sides(&self, sides: &Sides) -> Way {
        let all: Vec<Named> = sides.sides.iter().flatten().copied().collect();
        self.way_of(&all)
    }

    /// With the pieces' titles, else with their numbers alone.
    pub(super) fn short_if_long(&self, sides: &Sides, say: impl Fn(Way) -> Vec<Text>) -> Vec<Text> {
        let way = self.way_of_sides(sides);
        let full = say(way);
        if fit(&full) { full } else { say(Way { short: true, ..way }) }
    }

    fn say_seam(&self, step: &Step, id: SeamId, sides: &Sides, several: bool, text: &mut StepText) {
        let forms = self.forms();
        let name = match sides.hands.as_slice() {
            [Hand::Left] => forms.left_name(self.seam_name(id)),
            [Hand::Right] => forms.right_name(self.seam_name(id)),
            _ => self.seam_name(id),
        };
        let letter = || step.letter.clone();
        let seam = self.garment.seam(id);
        let each_to_next =
            sides.sewn.iter().filter_map(|&nth| self.sewn(nth)).any(|sewn| sewn.each_to_the_next);
        let kind = seam.work.as_ref().map(|work| work.kind);
        let by_hand = kind.is_none() && self.is_closed_by_hand(id, sides);
        if by_hand {
            text.say(forms.turn_both_in());
        }
        let say = |way: Way| {
            let [first, second] = self.both_sides(id, sides, way);
            let name = name.clone();
            vec![match (kind, several) {
                _ if by_hand => forms.sew_by_hand(name, letter(), first, second),
                _ if each_to_next => forms.sew_each_to_next(name, letter(), first, second),
                (Some(SeamKind::French), false) => forms.sew_french(name, letter(), first, second),
                (Some(SeamKind::French), true) => forms.sew_french_several(name, letter(), first, second),
                (Some(SeamKind::Lapped), _) => self.lap(id, [first, second], several, name, letter()),
                (_, false) => forms.sew(name, letter(), first, second),
                (_, true) => forms.sew_several(name, letter(), first, second),
            }]
        };
        let told = say(self.way_of_sides(sides));
        if fit(&told) || kind == Some(SeamKind::Lapped) {
            text.say_all(told);
            return;
        }
        text.say(match (kind, several) {
            _ if by_hand => forms.sew_by_hand_long(name.clone(), letter()),
            (Some(SeamKind::French), false) => forms.sew_french_long(name.clone(), letter()),
            (Some(SeamKind::French), true) => forms.sew_french_long_several(name.clone(), letter()),
            (_, false) => forms.sew_long(name.clone(), letter()),
            (_, true) => forms.sew_long_several(name.clone(), letter()),
        });
        for (edges, is_first) in sides.sides.iter().zip([true, false]) {
            let told = |way: Way| -> Vec<Text> {
                // The longest beginning decides how much a sentence bears.
                let lists = self.lists(&self.edges(edges, way), |edges| forms.further(edges));
                let begun = lists.into_iter().enumerate().map(|(at, edges)| match (at, is_first) {
                    (0, true) => forms.one_side(edges),
                    (0, false) => forms.other_side(edges),
                    _ => forms.further(edges),
                });
                begun.collect()
            };
            let way = self.way_of_sides(sides);
            let full = told(way);
            text.say_all(if fit(&full) { full } else { told(Way { short: true, ..way }) });
        }
    }

    /// Whether a seam between layers is sewn by hand: what is right sides together could not be turned any more.
    pub(super) fn is_closed_by_hand(&self, id: SeamId, sides: &Sides) -> bool {
        let stitch = self.garment.seam(id).stitch.as_ref();
        let layer = |at: usize| sides.sides[at].first().map(|named| named.part.layer);
        stitch.is_some_and(|stitch| BY_HAND.contains(&stitch.number)) && layer(0) != layer(1)
    }

    /// The same seam of other pieces; whether one sentence says it.
    fn say_likewise(&self, id: SeamId, sides: &Sides, text: &mut StepText) -> bool {
        let say = |way: Way| {
            let [first, second] = self.both_sides(id, sides, way);
            vec![self.forms().likewise(first, second)]
        };
        let said = self.short_if_long(sides, say);
        let is_one = fit(&said);
        if is_one {
            text.say_all(said);
        }
        is_one
    }

    /// A folded piece that goes into a seam with both edges that its fold brings together.
    fn fold_first(&self, sides: &Sides, text: &mut StepText) {
        for side in &sides.sides {
            let mut done = Vec::new();
            for named in side {
                let piece = named.part.piece;
                if done.contains(&piece) {
                    continue;
                }
                let is_here = |edge| {
                    side.iter().any(|own| own.part == named.part && self.garment.is_run_of(own.edge, edge))
                };
                let folds = self.garment.piece(piece).folds.iter();
                for over in folds.filter(|over| is_here(over.edge) && is_here(over.onto)) {
                    done.push(piece);
                    let way = Way { layered: false, short: false };
                    let edge = |edge| self.name(&self.edge_words(edge));
                    let piece = self.piece(named.part, None, way);
                    text.say(self.forms().fold_first(piece, edge(over.edge), edge(over.onto)));
                }
            }
        }
    }

    fn sew_across_fold(&self, step: &Step, id: SeamId, stitchings: &[usize], text: &mut StepText) {
        let Some(work) = self.work() else { return };
        let all = stitchings.iter().filter_map(|&at| work.stitchings.get(at));
        let places = all.flat_map(Stitching::places);
        let named = once(places.filter_map(|place| self.named(work, place, None)).collect());
        let name = self.seam_name(id);
        let letter = &step.letter;
        text.say_all(
            self.listed(&named, |edges| self.forms().sew_across_fold(name.clone(), letter.clone(), edges)),
        );
        let parts: Vec<Part> = named.iter().map(|named| named.part).collect();
        if !self.is_turned_through_gap(step, &parts) {
            text.say(self.forms().turn_after());
        }
    }

    /// The earlier step that sews the same seam in another layer, and the one layer that it is sewn in now.
    fn sewn_before(&self, step: &Step, id: SeamId, stitchings: &[usize]) -> Option<(String, LayerId)> {
        let work = self.work()?;
        let layer_of = |at: &usize| work.stitchings.get(*at).and_then(|one| one.layer);
        let layer = stitchings.first().and_then(layer_of)?;
        if stitchings.iter().any(|at| layer_of(at) != Some(layer)) {
            return None;
        }
        // What is sewn without the opening that it had there is not sewn as there.
        let open = |at: usize| {
            let all = self.sides(&[at]);
            let sewn = all.iter().flat_map(|sides| &sides.sewn).filter_map(|&nth| self.sewn(nth));
            sewn.filter_map(|sewn| sewn.left).map(|(_, count)| count).max()
        };
        let left = stitchings.first().and_then(|at| open(*at));
        let plan = &self.facts.plan;
        for row in &self.facts.rows {
            let action = row.action(plan)?;
            for target in row.targets(plan) {
                if std::ptr::eq(target, step.target) {
                    return None;
                }
                let is_same = action.verb == Verb::Sew
                    && target
                        .jobs
                        .iter()
                        .any(|job| matches!(job, Job::Seam(at) if work.of_seam(id).contains(at) && open(*at) == left));
                if is_same {
                    return Some((row.code.clone(), layer));
                }
            }
        }
        None
    }

    /// Notches and corners that meet.
    pub(super) fn say_meeting(&self, id: SeamId, sides: &Sides, text: &mut StepText) {
        let forms = self.forms();
        let notches =
            sides.sewn.iter().filter_map(|&nth| self.sewn(nth)).map(|sewn| sewn.notches.len()).max();
        match notches {
            None | Some(0) => {}
            Some(1) => text.say(forms.match_notch()),
            Some(count) => text.say(forms.match_notches(self.count(count as u32))),
        }
        self.say_signs(sides, text);
        let way = self.way_of_sides(sides);
        for (one, other) in &self.garment.seam(id).matching {
            let say = |way: Way| {
                let place = |point: &SewnPoint| self.spot(point, sides, way);
                Some(forms.let_meet(place(one)?, place(other)?))
            };
            let full = say(way).filter(|full| fit(std::slice::from_ref(full)));
            text.say_all(full.or_else(|| say(Way { short: true, ..way })));
        }
    }

    /// A place that a seam names, on the part that it is on there.
    pub(super) fn spot(&self, point: &SewnPoint, sides: &Sides, way: Way) -> Option<Text> {
        let piece = match point.point {
            SewnSpot::Point(id) => self.garment.point(id).piece,
            SewnSpot::RunEnd { run, .. } => self.garment.edge(run).piece,
        };
        let all = sides.sides.iter().flatten().map(|named| named.part);
        let is_meant =
            |part: &Part| part.piece == piece && point.layer.is_none_or(|layer| layer == part.layer);
        let part = all.into_iter().find(is_meant).or_else(|| self.part_of(point.layer, piece))?;
        Some(match point.point {
            SewnSpot::Point(id) => self.point(id, part, None, way),
            SewnSpot::RunEnd { run, far } => self.run_end(run, far, part, way).unwrap_or_else(|| {
                let name = self.edge_name(&self.edge_words(run));
                self.forms().end_of(self.forms().edge(name, self.piece(part, None, way)))
            }),
        })
    }

    /// What was laid on before and is caught now.
    fn say_caught(&self, id: SeamId, stitchings: &[usize], text: &mut StepText) {
        let forms = self.forms();
        let is_sewn_in = |layer: LayerId| {
            let sewn = stitchings.iter().filter_map(|&at| self.work()?.stitchings.get(at));
            sewn.into_iter().any(|own| own.layer.is_none_or(|own| own == layer))
        };
        for (_, placement) in
            PlacementId::enumerate(&self.garment.placements).filter(|(_, one)| !one.poisoned)
        {
            let caught = placement.caught.iter().filter(|caught| caught.by == Catcher::Seam(id));
            let named = caught.filter_map(|caught| {
                let part = self.part_of(placement.layer, placement.piece)?;
                Some(Named { part, edge: caught.edge, hand: None })
            });
            let named: Vec<Named> = named.collect();
            text.say_all(self.listed(&named, |edge| forms.catch_edge(edge)));
        }
        for strap in self.garment.straps.iter().filter(|strap| !strap.poisoned) {
            let ends = strap.runs.iter().flat_map(|run| run.ends());
            let mut said = Vec::new();
            for end in ends.filter(|end| end.caught == Some(Catcher::Seam(id))) {
                if said.contains(&end.point) {
                    continue;
                }
                said.push(end.point);
                let own = self.part_of(strap.layer, strap.piece);
                let host = self.part_of(end.layer, self.garment.point(end.point).piece);
                let Some((own, host)) = own.zip(host) else { continue };
                // Of a seam that is sewn in each layer it is taken in by one.
                if !is_sewn_in(host.layer) {
                    continue;
                }
                let way = Way::default();
                let place = self.point(end.point, host, None, self.way_of_end(end, way));
                let is_loop = strap.runs.iter().any(|run| {
                    run.from.point == end.point
                        && run.to.as_ref().is_some_and(|to| is_same_place(&run.from, to))
                });
                let piece = self.piece(own, None, way);
                text.say(match is_loop {
                    true => forms.catch_loop(piece, place),
                    false => forms.catch_strap(piece, place),
                });
            }
        }
    }

    fn seam_facts(
        &self,
        step: &Step,
        id: SeamId,
        groups: &[Sides],
        stitchings: &[usize],
        text: &mut StepText,
    ) {
        let forms = self.forms();
        let (allowances, is_own) = self.allowances(stitchings);
        if is_own && let [(one, _)] = allowances.as_slice() {
            text.say(forms.own_allowance(one.clone()));
        }
        let several = allowances.len() > 1;
        for (amount, parts) in allowances {
            let named: Vec<Named> =
                parts.into_iter().map(|(part, edge)| Named { part, edge, hand: None }).collect();
            let pieces = self.pieces(&named, self.way_of(&named));
            // Nothing beyond the stitches, where the other side has cloth: a bare figure would be read as a slip.
            if several && amount.values.iter().flatten().all(|value| value.abs() < 0.05) {
                text.say(forms.no_allowance(self.words.list(pieces)));
                continue;
            }
            text.note(match several {
                true => forms.fact_allowance_of(amount, self.words.list(pieces)),
                false => forms.fact_allowance(amount),
            });
        }
        let goes: Vec<u32> = groups.iter().map(|sides| self.goes_of_seam(step, sides)).collect();
        match goes.iter().sum() {
            0 => {}
            1 => text.note(forms.fact_seam()),
            times => text.note(forms.fact_seams(self.count(times))),
        }
        let length_of = |nth: usize| {
            // What is fitted comes to the length of what it is fitted to.
            self.over_sizes(nth, stitchings, |sewn| sewn.second.plies.first().map(|ply| self.as_it_lies(ply)))
        };
        // In two layers, each by itself.
        let is_again = |length: &Figure| {
            let all = groups
                .iter()
                .filter(|sides| sides.sewn.iter().any(|&nth| length_of(nth).as_ref() == Some(length)));
            all.count() > 1
        };
        for (sides, goes) in groups.iter().zip(goes) {
            // Of a left and a right one that differ it is said which is so long.
            let hand = match sides.hands.as_slice() {
                [hand] if groups.len() > 1 && sides.sewn.len() == 1 => Some(*hand),
                _ => None,
            };
            for &nth in &sides.sewn {
                if let Some(length) = length_of(nth) {
                    text.note(match goes {
                        _ if hand == Some(Hand::Left) => forms.fact_length_left(length),
                        _ if hand == Some(Hand::Right) => forms.fact_length_right(length),
                        1 if self.sewings(sides) > 1 => forms.fact_length_on_each_side(length),
                        1 if !is_again(&length) => forms.fact_length(length),
                        _ => forms.fact_length_each(length),
                    });
                }
                if self.sewn(nth).is_some_and(|sewn| sewn.ring) || self.goes_round(step, sides) {
                    text.note(forms.fact_round());
                }
            }
        }
        if let Some(stitch) = &self.garment.seam(id).stitch {
            self.note_stitch(stitch.number, text);
        }
        let layer = step.action.layer.or_else(|| self.one_of_layers(groups));
        if let Some(layer) = layer.filter(|_| self.garment.layers.len() > 1) {
            text.note(forms.fact_layer(self.layer(layer)));
        }
    }

    /// How long a ply is while it is sewn: the end of what is folded later is sewn as it is cut.
    fn as_it_lies(&self, ply: &SewnPly) -> f64 {
        let Some(work) = self.work() else { return ply.length };
        let flat = |run: &SewnRun| Some(work.finder.drawn(run.part)?.edge_at(run.edge)?.path.length());
        let is_folded = |run: &SewnRun, flat: f64| {
            let is_of_fold = !self.garment.piece(work.finder.part(run.part).piece).folds.is_empty();
            is_of_fold && (flat - 2.0 * run.length).abs() < 0.01
        };
        let lengths: Option<Vec<f64>> =
            ply.runs.iter().map(|run| flat(run).filter(|&flat| is_folded(run, flat))).collect();
        lengths.filter(|all| !all.is_empty()).map_or(ply.length, |all| all.iter().sum())
    }

    /// The one layer that all of these lie in, where another has one of their pieces too.
    fn one_of_layers(&self, groups: &[Sides]) -> Option<LayerId> {
        let work = self.work()?;
        let all = || groups.iter().flat_map(|sides| sides.sides.iter().flatten());
        let layer = all().next()?.part.layer;
        let is_elsewhere = |named: &Named| {
            let mut parts = work.finder.parts.iter();
            parts.any(|part| {
                let is_sewn = !self.garment.layer(part.layer).fused;
                part.piece == named.part.piece && part.layer != layer && is_sewn
            })
        };
        (all().all(|named| named.part.layer == layer) && all().any(is_elsewhere)).then_some(layer)
    }

    pub(super) fn note_stitch(&self, number: u16, text: &mut StepText) {
        let forms = self.forms();
        let shown = number.to_string();
        text.note(match self.words.stitch(number) {
            Some(word) => forms.fact_stitch(word, shown),
            None => forms.fact_stitch_number(shown),
        });
    }

    /// A figure of the seam that stands at `nth` place in the first size, over all sizes.
    pub(super) fn over_sizes(
        &self,
        nth: usize,
        stitchings: &[usize],
        value: impl Fn(&SewnSeam) -> Option<f64>,
    ) -> Option<Figure> {
        let own = self.sewn_in(0, stitchings).iter().position(|&other| other == nth)?;
        self.figure(FigureKind::Length, |at, size| {
            let nth = *self.sewn_in(at, stitchings).get(own)?;
            let sewn = size.sewn.seams.get(nth)?;
            value(sewn).filter(|value| value.is_finite() && *value > 0.0)
        })
    }

    /// The allowances of what is sewn, the least first, each with what has it; and whether they are others than the
    /// garment's.
    fn allowances(&self, stitchings: &[usize]) -> (Vec<Allowed>, bool) {
        let usual = self.garment.allowance.as_ref().and_then(|said| self.amount(FigureKind::Length, said));
        let mut found: Vec<Allowed> = Vec::new();
        let Some(work) = self.work() else { return (Vec::new(), false) };
        for &at in stitchings {
            let places = work.stitchings.get(at).into_iter().flat_map(Stitching::places);
            for (nth, place) in places.enumerate() {
                let own = self.figure(FigureKind::Length, |size, worked| {
                    let place = self.works.get(size)?.stitchings.get(at)?.places().nth(nth)?;
                    worked.sewn.part(place.part).fate(place.edge)?.allowance
                });
                let Some((own, named)) = own.zip(self.named(work, place, None)) else { continue };
                match found.iter_mut().find(|(other, _)| *other == own) {
                    Some((_, parts)) => parts.push((named.part, named.edge)),
                    None => found.push((own, vec![(named.part, named.edge)])),
                }
            }
        }
        let least = |(own, _): &Allowed| own.values.iter().flatten().copied().fold(f64::INFINITY, f64::min);
        found.sort_by(|one, other| least(one).total_cmp(&least(other)));
        let differ = |(own, _): &Allowed, usual: &Figure| {
            let both = own.values.iter().zip(&usual.values);
            both.filter_map(|(own, usual)| own.zip(*usual)).any(|(own, usual)| (own - usual).abs() > 0.05)
        };
        let is_own = usual.is_some_and(|usual| found.iter().all(|own| differ(own, &usual)));
        (found, is_own)
    }
}
