//! Hems, bindings, casings and what else becomes of an edge that is not sewn to another.

use super::goes::Goes;
use super::teller::{Named, Teller, once};
use super::{Step, StepText};
use crate::cutting::WorkedSize;
use crate::garment::{
    ActionTarget, Binding, Catcher, EdgeId, Finish, FinishId, FinishKind, Garment, Hem, HemEdge, LayerId,
    Part,
};
use crate::once_each::once_each;
use crate::sewing::order::{Job, PlannedTarget};
use crate::sewing::{Channel, NotionNeed, NotionSource, RunsThrough, amount_of};
use crate::sheet::{Figure, FigureKind, Run, Text};
use crate::syntax::tree::Verb;

impl<'a> Teller<'a> {
    /// Finishes edges: those of one finish together.
    pub(super) fn finish(&self, step: &Step, layer: Option<LayerId>, edge: EdgeId, text: &mut StepText) {
        let Some(work) = self.work() else { return };
        self.say_slits_first(step, text);
        let mut finishes: Vec<(FinishId, Vec<Named>)> = Vec::new();
        for job in step.all.iter().flat_map(|target| target.jobs.iter().copied()) {
            let Job::Finish(id, nth, layer) = job else { continue };
            let Some(sewn) = self.garment.finish(id).edges.get(nth) else { continue };
            let places = work.finder.in_layer(layer, sewn);
            let named = places.iter().filter_map(|place| {
                let named = self.named(work, place, sewn.on)?;
                Some(Named { edge: self.garment.whole_edge(named.edge), ..named })
            });
            let named: Vec<Named> = named.collect();
            match finishes.iter_mut().find(|(own, _)| *own == id) {
                Some((_, all)) => all.extend(named),
                None => finishes.push((id, named)),
            }
        }
        if finishes.is_empty() {
            // What is done again, or to an edge that is left raw.
            let named = self.edge_named(layer, edge);
            let is_meant =
                |finish: &&Finish| finish.edges.iter().any(|sewn| self.garment.is_run_of(sewn.edge, edge));
            if self
                .garment
                .finishes
                .iter()
                .find(is_meant)
                .is_some_and(|one| matches!(one.kind, FinishKind::Raw))
            {
                text.say_all(self.listed(&named, |edges| self.forms().leave_raw(edges, step.letter.clone())));
            }
        }
        for (id, named) in finishes {
            self.say_finish(step, id, &once(named), text);
        }
    }

    /// The edge that a step names.
    pub(super) fn edge_named(&self, layer: Option<LayerId>, edge: EdgeId) -> Vec<Named> {
        let part = self.part_of(layer, self.garment.edge(edge).piece);
        part.map(|part| Named { part, edge: self.garment.whole_edge(edge), hand: None }).into_iter().collect()
    }

    fn say_finish(&self, step: &Step, id: FinishId, named: &[Named], text: &mut StepText) {
        let forms = self.forms();
        let finish = self.garment.finish(id);
        let letter = || step.letter.clone();
        let length = |said| self.amount(FigureKind::Length, said);
        match &finish.kind {
            FinishKind::Hem(hem) => self.say_hem(step, hem, named, text),
            FinishKind::Bound(binding) => {
                let Some(width) = length(&binding.width) else { return };
                text.say_all(self.listed(named, |edges| forms.bind(edges, letter(), width.clone())));
                self.say_binding(binding, named, text);
                self.note_cut(step, id, named, text);
            }
            FinishKind::Casing(depth, elastic) => {
                let Some(depth) = length(depth) else { return };
                let under = self.turned_under(step, named);
                text.say_all(self.listed(named, |edges| match &under {
                    Some(under) => forms.casing(edges, letter(), under.clone(), depth.clone()),
                    None => forms.casing_once(edges, letter(), depth.clone()),
                }));
                if under.is_some() {
                    text.say(forms.casing_stitched());
                }
                let is_ring = elastic.is_some() && self.runs_round(id);
                if is_ring && self.is_last_of(step, id) {
                    text.say(forms.casing_left_open());
                }
                let is_due = !self.is_threaded(id) && self.is_last_of(step, id);
                if let Some((width, _)) = elastic.as_ref().filter(|_| is_due) {
                    let width = self.amount(FigureKind::Length, width);
                    if let Some((width, long)) = width.zip(self.needed(id, |need| need.length)) {
                        text.say(forms.elastic_through(width, long));
                        self.say_ends(id, text);
                        if is_ring {
                            text.say(forms.casing_closed());
                        }
                    }
                }
            }
            FinishKind::Elastic(width, _) => {
                let width = self.amount(FigureKind::Length, width);
                if let Some((width, long)) = width.zip(self.needed(id, |need| need.length)) {
                    text.say_all(
                        self.listed(named, |edges| forms.elastic_on(edges, letter(), width.clone())),
                    );
                    if self.is_last_of(step, id) {
                        text.say(forms.cut_of_it(long));
                        self.say_ends(id, text);
                    }
                }
            }
            FinishKind::Tape(width) => {
                let width = width.as_ref().and_then(|width| self.amount(FigureKind::Length, width));
                text.say_all(self.listed(named, |edges| match &width {
                    Some(width) => forms.tape_wide(edges, letter(), width.clone()),
                    None => forms.tape(edges, letter()),
                }));
                self.note_cut(step, id, named, text);
            }
            FinishKind::TurnedUnderOnto(Catcher::Closure(zip)) => {
                let (name, of_zip) = (self.zip_name(*zip), self.letter_of_closure(*zip));
                text.say_all(self.listed(named, |edges| {
                    forms.turn_under_onto_zip(edges, letter(), name.clone(), of_zip.clone())
                }));
                text.say(forms.clear_of_teeth());
            }
            FinishKind::TurnedUnderOnto(Catcher::Seam(seam)) => {
                let (name, of_seam) = self.seam_and_letter(*seam);
                text.say_all(self.listed(named, |edges| {
                    forms.turn_under_onto(edges, letter(), name.clone(), of_seam.clone())
                }));
            }
            FinishKind::Overlocked => {
                text.say_all(self.listed(named, |edges| forms.overlock(edges, letter())));
            }
            FinishKind::Raw => {
                text.say_all(self.listed(named, |edges| forms.leave_raw(edges, letter())));
            }
            FinishKind::Poison => {}
        }
        self.finish_facts(step, id, named, text);
    }

    /// How much of a binding or a tape is cut: for all its goes together, where it has several.
    fn note_cut(&self, step: &Step, id: FinishId, named: &[Named], text: &mut StepText) {
        let Some(long) = self.needed(id, |need| need.length).filter(|_| self.is_first_of(step, id)) else {
            return;
        };
        let goes =
            self.goes_of_finish(step, id, named).map_or_else(|| self.edges_in_all(named), |own| own.count);
        let is_all_here = self.targets_of(id).iter().all(|target| step.does(target));
        text.note(match goes > 1 || !is_all_here {
            true => self.forms().fact_cut_in_all(long),
            false => self.forms().fact_cut_length(long),
        });
    }

    /// On how many edges of all copies these are.
    fn edges_in_all(&self, named: &[Named]) -> u32 {
        let mut parts: Vec<_> = named.iter().map(|named| (named.part, named.edge)).collect();
        once_each(&mut parts);
        // What runs on across the fold of its piece is one edge.
        let once = |(part, edge): &(Part, EdgeId)| match self.runs_across(*part, *edge) {
            true => self.times(*part) / 2,
            false => self.times(*part),
        };
        parts.iter().map(once).sum()
    }

    fn say_hem(&self, step: &Step, hem: &Hem, named: &[Named], text: &mut StepText) {
        let forms = self.forms();
        let letter = || step.letter.clone();
        // What is turned up outside lies double below the hem: folded in with it first, it is turned up at the end.
        let turn_up = hem.turn_up.as_ref().and_then(|said| self.amount(FigureKind::Length, said));
        let depth = self.figure(FigureKind::Length, |_, size| {
            let of = |said| amount_of(self.garment, &size.drawn, said);
            let below = hem.turn_up.as_ref().map_or(Some(0.0), of);
            of(&hem.depth).zip(below).map(|(depth, below)| depth + below)
        });
        let Some(depth) = depth else { return };
        let under = match &hem.raw_edge {
            HemEdge::TurnedUnder(under) => self.amount(FigureKind::Length, under),
            // Above a turn-up the second fold takes that in too, and is deeper than the first.
            HemEdge::TurnedTwice if turn_up.is_some() => self.amount(FigureKind::Length, &hem.depth),
            HemEdge::TurnedOnce | HemEdge::TurnedTwice => None,
        };
        text.say_all(self.listed(named, |edges| match (&hem.raw_edge, &under) {
            (_, Some(under)) => forms.hem_under(edges, letter(), under.clone(), depth.clone()),
            (HemEdge::TurnedTwice, None) => forms.hem_twice(edges, letter(), depth.clone()),
            (HemEdge::TurnedOnce | HemEdge::TurnedUnder(_), None) => {
                forms.hem_once(edges, letter(), depth.clone())
            }
        }));
        if under.is_some() {
            text.say(forms.casing_stitched());
        }
        text.say_all(turn_up.map(|turn_up| forms.turn_up(turn_up)));
    }

    fn say_binding(&self, binding: &Binding, named: &[Named], text: &mut StepText) {
        let forms = self.forms();
        if let Some(fabric) = binding.cut_from {
            text.say(forms.binding_cut_from(self.name(&self.garment.fabric(fabric).title)));
        }
        for run in &binding.running_on {
            if let Some(length) = self.amount(FigureKind::Length, &run.length) {
                text.say(forms.binding_runs_on(length));
            }
        }
        for one in &binding.loops {
            let Some(length) = self.amount(FigureKind::Length, &one.length) else { continue };
            let Some(named) = named.first() else { continue };
            let place = self.point(one.at, named.part, None, self.way_of(&[]));
            text.say(forms.binding_loop(place, length));
        }
    }

    /// What a casing's raw edge is turned under by.
    fn turned_under(&self, step: &Step, named: &[Named]) -> Option<Figure> {
        let layer_and_edge = step.jobs().find_map(|job| match job {
            Job::Finish(id, nth, layer) => Some((layer, *self.garment.finish(id).edges.get(nth)?)),
            _ => None,
        });
        let (layer, sewn) = layer_and_edge.filter(|_| !named.is_empty())?;
        self.figure(FigureKind::Length, |at, size| {
            let place = *self.works.get(at)?.finder.in_layer(layer, &sewn).first()?;
            let fate = size.sewn.part(place.part).fate(place.edge)?;
            // What is turned under lies beyond the place where it is turned.
            Some(fate.allowance? - fate.turned_under?).filter(|under| *under > 0.0)
        })
    }

    /// The ends of elastic: of what goes round they are joined, of what ends in seams each is sewn down.
    fn say_ends(&self, id: FinishId, text: &mut StepText) {
        let channels = self.facts.sizes.first().and_then(|size| size.sewn.channels.as_ref());
        let own = channels.into_iter().flatten().filter(|channel| channel.of == RunsThrough::Elastic(id));
        let (rings, open): (Vec<&Channel>, Vec<&Channel>) = own.partition(|channel| channel.ring);
        if !open.is_empty()
            && let Some(held) = self.needed(id, |need| need.joining.map(|joining| joining / 2.0))
        {
            text.say(self.forms().elastic_held(held));
        }
        if (open.is_empty() || !rings.is_empty())
            && let Some(overlap) = self.needed(id, |need| need.joining)
        {
            text.say(self.forms().elastic_joined(overlap));
        }
    }

    /// Draws elastic through a casing that is finished.
    pub(super) fn thread_edge(&self, step: &Step, layer: Option<LayerId>, edge: EdgeId, text: &mut StepText) {
        let named = self.edge_named(layer, edge);
        for (id, finish) in FinishId::enumerate(&self.garment.finishes) {
            let Some((width, _)) = finish.kind.elastic() else { continue };
            if !finishes_edge(self.garment, finish, edge) {
                continue;
            }
            let width = self.amount(FigureKind::Length, width);
            let Some((width, long)) = width.zip(self.needed(id, |need| need.length)) else { continue };
            text.say_all(self.listed(&named, |edges| {
                self.forms().thread_elastic(edges, step.letter.clone(), width.clone(), long.clone())
            }));
            self.say_ends(id, text);
            if matches!(finish.kind, FinishKind::Casing(..)) && self.runs_round(id) {
                text.say(self.forms().casing_closed());
            }
        }
    }

    /// Whether the elastic of a finish comes back to where it began.
    fn runs_round(&self, id: FinishId) -> bool {
        let channels = self.facts.sizes.first().and_then(|size| size.sewn.channels.as_ref());
        let mut own = channels.into_iter().flatten().filter(|channel| channel.of == RunsThrough::Elastic(id));
        own.any(|channel| channel.ring)
    }

    /// Whether a step of its own draws the elastic of a finish through.
    fn is_threaded(&self, id: FinishId) -> bool {
        let finish = self.garment.finish(id);
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let threads = actions.filter(|action| action.verb == Verb::Thread);
        threads.flat_map(|action| &action.targets).any(|target| match target.target {
            ActionTarget::Edge(_, edge) => finishes_edge(self.garment, finish, edge),
            _ => false,
        })
    }

    /// The steps that do a finish, in the order of work: their targets.
    fn targets_of(&self, id: FinishId) -> Vec<&PlannedTarget> {
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let does = |target: &&PlannedTarget| {
            target.jobs.iter().any(|job| matches!(job, Job::Finish(own, ..) if *own == id))
        };
        actions.flat_map(|action| &action.targets).filter(does).collect()
    }

    /// Whether a finish is begun in that step.
    fn is_first_of(&self, step: &Step, id: FinishId) -> bool {
        self.targets_of(id).first().is_some_and(|first| step.does(first))
    }

    /// Whether a finish is ended in that step.
    fn is_last_of(&self, step: &Step, id: FinishId) -> bool {
        self.targets_of(id).last().is_some_and(|last| step.does(last))
    }

    /// What has to be cut for a finish, in every size.
    fn needed(&self, id: FinishId, value: impl Fn(&NotionNeed) -> Option<f64>) -> Option<Figure> {
        self.figure(FigureKind::Length, |_, size: &'a WorkedSize| {
            let own = size.sewn.notions.iter().find(|need| need.source == NotionSource::Finish(id));
            own.and_then(&value)
        })
    }

    fn finish_facts(&self, step: &Step, id: FinishId, named: &[Named], text: &mut StepText) {
        let forms = self.forms();
        if let Some(stitch) = &self.garment.finish(id).stitch {
            self.note_stitch(stitch.number, text);
        }
        let times = self.edges_in_all(named);
        match self.goes_of_finish(step, id, named) {
            Some(Goes { count: 1, rings: 1 }) => text.note(forms.fact_round()),
            Some(Goes { count, rings }) if count == rings => text.note(forms.fact_rounds(self.count(count))),
            Some(Goes { count: 1, .. }) if times > 1 => text.note(forms.fact_in_one_go(self.count(times))),
            Some(Goes { count, .. }) if times > count => {
                text.note(forms.fact_in_goes(self.count(times), self.count(count)));
            }
            _ if times > 1 => text.note(forms.fact_edges(self.count(times))),
            _ => {}
        }
        let mut layers: Vec<LayerId> = named.iter().map(|named| named.part.layer).collect();
        once_each(&mut layers);
        if self.garment.layers.len() > 1 && !layers.is_empty() {
            let names = self.words.list(layers.into_iter().map(|layer| self.layer(layer)));
            text.note(self.forms().fact_layer(names));
        }
    }

    /// The letter of a job.
    pub(super) fn letter_of(&self, job: Job) -> Text {
        let letter = self.facts.letters.of_job(job);
        letter.map_or_else(Text::default, |letter| Run::Letter(letter).into())
    }
}

fn finishes_edge(garment: &Garment, finish: &Finish, edge: EdgeId) -> bool {
    finish.edges.iter().any(|sewn| garment.is_run_of(sewn.edge, edge) || garment.is_run_of(edge, sewn.edge))
}
