//! What each step says: sentences worked out from facts, in the language of a table of words, and short facts beside them.
//!
//! A sentence is told of what is done ([`crate::sewing::order::Job`]) and of how the garment hangs together, never of what
//! things are called; names of edges and pieces stand in it as their maker says them.

mod closures;
mod copies;
mod corners;
mod edge_runs;
mod edges;
mod fasteners;
mod finishes;
mod fit;
mod gaps;
mod goes;
mod joints;
mod making;
mod openings;
mod placing;
mod rows;
mod run_ends;
mod seams;
mod sides;
mod signs;
mod straps;
mod stretches;
mod take_ups;
mod teller;
mod threads;
mod turning;

pub use teller::{MOST_WORDS, words_in};

use super::words::Words;
use super::{Facts, Language, Row, Run, Text};
use crate::garment::{ActionTarget, LayerId, SeamId};
use crate::sewing::order::{Job, PlannedAction, PlannedTarget};
use crate::syntax::tree::Verb;
use teller::Teller;

/// What is told of one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StepText {
    /// Sentences, in the order in which they are read. None of words alone.
    pub sentences: Vec<Text>,
    /// Short facts: allowance, how many, how long.
    pub facts: Vec<Text>,
    /// What its maker says of it, word for word.
    pub words: Option<String>,
}

impl StepText {
    /// Says a sentence, unless it is said already: what is sewn alike in several places is told once.
    fn say(&mut self, sentence: Text) {
        let sentence = begun(sentence);
        if !self.sentences.contains(&sentence) {
            self.sentences.push(sentence);
        }
    }

    fn say_all(&mut self, sentences: impl IntoIterator<Item = Text>) {
        sentences.into_iter().for_each(|sentence| self.say(sentence));
    }

    /// Says a fact, unless it is said already.
    fn note(&mut self, fact: Text) {
        if !self.facts.contains(&fact) {
            self.facts.push(fact);
        }
    }
}

/// What each step says, in the order of [`Facts::rows`].
pub fn step_texts(facts: &Facts, language: Language) -> Vec<StepText> {
    let teller = Teller::new(facts, Words::of(language));
    facts.rows.iter().map(|row| teller.row(row)).collect()
}

/// One target of one action, as it is told.
#[derive(Clone, Debug)]
struct Step<'p> {
    action: &'p PlannedAction,
    target: &'p PlannedTarget,
    /// All targets of its row: what is finished in one go is told together.
    all: &'p [PlannedTarget],
    /// The letter of what is done; nothing where it has none.
    letter: Text,
}

impl Step<'_> {
    fn jobs(&self) -> impl Iterator<Item = Job> {
        self.target.jobs.iter().copied()
    }

    /// Whether it does what a target of the plan does.
    fn does(&self, target: &PlannedTarget) -> bool {
        self.all.iter().any(|own| own == target)
    }
}

impl Teller<'_> {
    fn row(&self, row: &Row) -> StepText {
        let mut text = StepText::default();
        let plan = &self.facts.plan;
        let Some(action) = row.action(plan) else { return text };
        let targets = row.targets(plan);
        if action.verb == Verb::Fuse {
            self.fuse(targets, &mut text);
        } else {
            let together = matches!(action.verb, Verb::Hem | Verb::Finish);
            // Edges that are finished in one go are told by the first of them.
            for target in targets.iter().take(if together { 1 } else { targets.len() }) {
                let letter = self.facts.letters.letter(action, target);
                let letter = letter.map_or_else(Text::default, |letter| Run::Letter(letter).into());
                let all = if together { targets } else { std::slice::from_ref(target) };
                self.step(&Step { action, target, all, letter }, &mut text);
            }
        }
        // What is said of several things stands by the first of them.
        if row.targets.start == 0 {
            text.words = action.words.as_ref().map(ToString::to_string);
        }
        text
    }

    fn step(&self, step: &Step, text: &mut StepText) {
        match (step.action.verb, step.target.target) {
            (Verb::Press, target) => self.press(step, target, text),
            (Verb::Baste, ActionTarget::Seam(id)) => self.baste_seam(step, id, text),
            (Verb::Sew, ActionTarget::Seam(id)) => self.sew(step, id, text),
            (_, ActionTarget::TakeUp(layer, name)) => {
                self.take_up(step, layer.or(step.action.layer), name, text);
            }
            (verb, ActionTarget::Closure(id)) => self.closure(step, id, verb == Verb::Baste, text),
            (Verb::Thread, ActionTarget::Edge(layer, edge)) => {
                self.thread_edge(step, layer.or(step.action.layer), edge, text);
            }
            (_, ActionTarget::Edge(layer, edge)) => {
                self.finish(step, layer.or(step.action.layer), edge, text);
            }
            (_, ActionTarget::Piece(..)) => self.place(step, text),
            (_, ActionTarget::Cord(id)) => self.cord(step, id, text),
            (_, ActionTarget::Row(id)) => self.stitched_row(step, id, text),
            (_, ActionTarget::Tack(id)) => self.tack(step, id, text),
            (Verb::TurnThroughGap, ActionTarget::Seam(id)) => {
                let layer = self.garment.seam(id).gaps.first().and_then(|gap| gap.layer);
                text.say(self.forms().turn_through(self.seam_name(id), self.letter_of_seam(id, layer)));
            }
            (Verb::SlipstitchGap, ActionTarget::Seam(id)) => self.close_gap(id, text),
            (Verb::SlipstitchGap, _) => {
                let gaps = step.jobs().filter_map(|job| match job {
                    Job::Gap(id) => Some(id),
                    _ => None,
                });
                gaps.for_each(|id| self.close_gap(id, text));
            }
            (Verb::Sew, ActionTarget::Joints(id, first, last)) => {
                self.sew_joints(step, id, [first, last], text)
            }
            (_, ActionTarget::Joints(id, first, last)) => {
                text.say(self.forms().baste(self.joints(id, [first, last]), step.letter.clone()));
            }
            (_, ActionTarget::AnyGap) => text.say(self.forms().turn()),
            (_, ActionTarget::Seam(id)) => self.sew(step, id, text),
        }
    }

    /// What a seam is called, and the letter under which it is sewn.
    fn seam_and_letter(&self, id: SeamId) -> (Text, Text) {
        (self.seam_name(id), self.letter_of_seam(id, None))
    }

    /// The letter under which a seam is sewn; in that layer, if one is named.
    fn letter_of_seam(&self, id: SeamId, layer: Option<LayerId>) -> Text {
        let jobs = self.work().map(|work| work.seam_jobs(id, layer)).unwrap_or_default();
        let letter = jobs.into_iter().find_map(|job| self.facts.letters.of_job(job));
        letter.map_or_else(Text::default, |letter| Run::Letter(letter).into())
    }

    /// What a seam is called, without saying that it is one.
    fn seam_name(&self, id: SeamId) -> Text {
        let seam = self.garment.seam(id);
        let words = self.label_or(seam.label.as_deref(), &seam.name);
        self.name(&teller::without_last(&words, self.words.seam))
    }

    fn press(&self, step: &Step, target: ActionTarget, text: &mut StepText) {
        let forms = self.forms();
        match target {
            ActionTarget::Seam(id) => {
                let letter = self.letter_of_seam(id, step.action.layer);
                let stitchings: Vec<usize> = self.work().map_or(Vec::new(), |work| {
                    let jobs = work.seam_jobs(id, step.action.layer).into_iter();
                    jobs.filter_map(|job| if let Job::Seam(at) = job { Some(at) } else { None }).collect()
                });
                // After this step as many are sewn as when each was.
                let goes = self.sides(&stitchings).iter().map(|sides| self.goes_of_seam(step, sides)).sum();
                let name = self.seam_name(id);
                text.say(match goes {
                    0 | 1u32 => forms.press_seam(name, letter),
                    _ => forms.press_seams(name, letter),
                });
            }
            ActionTarget::Joints(id, first, last) => {
                text.say(forms.press(self.joints(id, [first, last]), step.letter.clone()));
            }
            ActionTarget::TakeUp(layer, name) => {
                self.press_take_up(layer.or(step.action.layer), name, text);
            }
            ActionTarget::Edge(layer, edge) => {
                let named = self.edge_named(layer.or(step.action.layer), edge);
                text.say_all(self.listed(&named, |edges| forms.press(edges, step.letter.clone())));
            }
            ActionTarget::Piece(layer, piece) => {
                if let Some(part) = self.part_of(layer.or(step.action.layer), piece) {
                    let piece = self.piece(part, None, teller::Way::default());
                    text.say(forms.press(piece, step.letter.clone()));
                }
            }
            ActionTarget::Closure(id) => {
                let name = self.name(&self.garment.closure(id).name);
                text.say(forms.press(name, step.letter.clone()));
            }
            ActionTarget::Row(id) => {
                text.say(forms.press(self.name(&self.garment.row(id).name), step.letter.clone()));
            }
            ActionTarget::Cord(_) | ActionTarget::Tack(_) | ActionTarget::AnyGap => {}
        }
    }

    fn fuse(&self, targets: &[PlannedTarget], text: &mut StepText) {
        // By the cloth, the pieces that it is fused to.
        let mut cloths: Vec<(LayerId, Vec<Text>)> = Vec::new();
        for job in targets.iter().flat_map(|target| &target.jobs) {
            let Job::Fuse(layer, piece) = *job else { continue };
            // What is fused has a number of its own; it is the cloth's piece that it is fused to.
            let onto = self.garment.layer(layer).onto;
            let Some(part) = self.part_of(onto, piece) else { continue };
            // One of several layers that have the piece is named.
            let way = teller::Way { layered: onto.is_some(), short: false };
            let piece = self.piece(part, None, way);
            match cloths.iter_mut().find(|(own, _)| *own == layer) {
                Some((_, pieces)) => pieces.push(piece),
                None => cloths.push((layer, vec![piece])),
            }
        }
        for (layer, pieces) in cloths {
            let fabric = self.garment.layer(layer).fabric.map(|id| &self.garment.fabric(id).title);
            let cloth = fabric.map_or_else(|| self.layer(layer), |title| self.name(title));
            let share = self.garment.layer(layer).share;
            text.say_all(self.packed(&pieces, |pieces| match share {
                Some(share) => {
                    let [fused, of] = [share.fused, share.of].map(|many| self.count(many));
                    self.forms().fuse_some(cloth.clone(), fused, of, pieces)
                }
                None => self.forms().fuse(cloth.clone(), pieces),
            }));
        }
    }
}

/// A sentence begins with a capital.
fn begun(mut sentence: Text) -> Text {
    if let Some(Run::Words(words) | Run::Term(_, words)) = sentence.0.first_mut() {
        let mut letters = words.chars();
        if let Some(first) = letters.next().filter(|first| first.is_lowercase()) {
            *words = first.to_uppercase().chain(letters).collect();
        }
    }
    sentence
}
