//! Darts, pleats and tucks.

use super::teller::{Teller, Way};
use super::{Step, StepText};
use crate::garment::{
    ActionTarget, EdgeId, LayerId, Part, PleatKind, PleatPlace, PressedTo, TakeUp, TakeUpForm,
};
use crate::resolve::DrawnTakeUp;
use crate::sewing::order::Job;
use crate::shape::Point;
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::Verb;

impl<'a> Teller<'a> {
    pub(super) fn take_up(&self, step: &Step, layer: Option<LayerId>, name: EdgeId, text: &mut StepText) {
        let jobs = step.jobs().filter_map(|job| match job {
            Job::TakeUp(layer, name) => Some((layer, name)),
            _ => None,
        });
        let mut all: Vec<(LayerId, EdgeId)> = jobs.collect();
        if all.is_empty() {
            let meant = self.work().map(|work| work.take_up_jobs(name, layer)).unwrap_or_default();
            all.extend(meant.into_iter().filter_map(|job| match job {
                Job::TakeUp(layer, name) => Some((layer, name)),
                _ => None,
            }));
        }
        for (layer, name) in all {
            let Some(part) = self.part(layer, self.garment.edge(name).piece) else { continue };
            self.say_take_up(step, part, name, text);
        }
    }

    fn say_take_up(&self, step: &Step, part: Part, name: EdgeId, text: &mut StepText) {
        let forms = self.forms();
        let Some(declared) = self.garment.take_up(name) else { return };
        let folds = self.drawn(0, part, name);
        let Some(first) = folds.first() else { return };
        let piece = self.piece(part, None, Way::default());
        let called = super::teller::without_last(&self.edge_words_of(name), self.words.take_up);
        let is_word = self.words.take_up.iter().any(|one| one.eq_ignore_ascii_case(&called));
        let called = if is_word { Text::default() } else { self.name(&called) };
        let letter = step.letter.clone();
        // A tuck is there on both edges that it takes from.
        let on_piece = folds
            .iter()
            .filter(|one| one.pleat.is_none_or(|pleat| pleat.tuck != Some(crate::resolve::TuckEnd::Second)));
        let on_piece = on_piece.count() as u32;
        // A tuck to the fold goes on over the other half.
        let is_across = match &declared.form {
            TakeUpForm::Pleat(pleat) => pleat.to.is_some_and(|to| self.is_fold(part, to)),
            TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => false,
        };
        // In the middle of what is cut on the fold each half has one of its folds.
        let is_in_middle = matches!(&declared.form,
            TakeUpForm::Pleat(pleat) if matches!(pleat.place, PleatPlace::Fold));
        let halved = is_across || is_in_middle;
        let times = if halved { self.times(part) / 2 } else { self.times(part) };
        let on_piece = if is_in_middle { 2 * on_piece } else { on_piece };
        let is_pair = matches!(&declared.form,
            TakeUpForm::Pleat(pleat) if !matches!(pleat.kind, PleatKind::Knife));
        let several = on_piece * times > if is_pair { 2 } else { 1 };
        match &declared.form {
            TakeUpForm::Dart(_) => {
                let (one, many): (Form, Form) = match first.upper {
                    Some(_) => (
                        |forms, a, b, c| forms.dart_inside(a, b, c),
                        |forms, a, b, c| forms.darts_inside(a, b, c),
                    ),
                    None => (|forms, a, b, c| forms.dart(a, b, c), |forms, a, b, c| forms.darts(a, b, c)),
                };
                text.say(if several { many } else { one }(forms, called, letter, piece));
            }
            TakeUpForm::Pleat(pleat) if pleat.to.is_some() => text.say(match several {
                true => forms.tucks(called, letter, piece),
                false => forms.tuck(called, letter, piece),
            }),
            TakeUpForm::Pleat(_) => {
                let sewn = self.figure(FigureKind::Length, |at, _| {
                    let sewn = self.drawn(at, part, name).first()?.pleat?.sewn;
                    Some(sewn).filter(|sewn| *sewn > 0.0)
                });
                text.say(match (sewn, several) {
                    (Some(sewn), false) => forms.pleat_sewn(called, letter, piece, sewn),
                    (Some(sewn), true) => forms.pleats_sewn(called, letter, piece, sewn),
                    (None, false) => forms.pleat_basted(called, letter, piece),
                    (None, true) => forms.pleats_basted(called, letter, piece),
                });
            }
            TakeUpForm::Slit(_) => {}
        }
        if let TakeUpForm::Pleat(pleat) = &declared.form
            && pleat.to.is_none()
        {
            match &pleat.kind {
                PleatKind::Knife => {}
                PleatKind::Box(_) => text.say(forms.folds_apart()),
                PleatKind::Inverted(None) => text.say(forms.folds_meet()),
                PleatKind::Inverted(Some(_)) => text.say(forms.folds_toward()),
            }
        }
        let is_fold = matches!(declared.form, TakeUpForm::Pleat(_));
        let toward = self.pressed_toward(declared).filter(|_| is_fold || !self.is_pressed_later(name));
        if let Some(toward) = toward {
            text.say(match &declared.form {
                TakeUpForm::Pleat(_) => forms.lay_toward(toward),
                TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => forms.press_it(toward),
            });
        }
        self.take_up_facts(part, name, on_piece, times, text);
    }

    fn take_up_facts(&self, part: Part, name: EdgeId, on_piece: u32, times: u32, text: &mut StepText) {
        let forms = self.forms();
        if times > 1 {
            text.note(forms.fact_times(self.count(times)));
        }
        if on_piece > 1 {
            text.note(forms.fact_folds(self.count(on_piece)));
            let row = self.garment.take_up(name).and_then(|declared| match &declared.form {
                TakeUpForm::Pleat(pleat) => pleat.row.as_ref(),
                TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => None,
            });
            if let Some(apart) = row.and_then(|(_, apart)| self.amount(FigureKind::Length, apart)) {
                text.note(forms.fact_folds_apart(apart));
            }
        }
        let of = |value: &dyn Fn(&DrawnTakeUp) -> Option<f64>| -> Option<Figure> {
            self.figure(FigureKind::Length, |at, _| {
                self.drawn(at, part, name).first().and_then(|one| value(one))
            })
        };
        if let Some(depth) = of(&|one| one.pleat.map(|_| one.depth())) {
            text.note(forms.fact_depth(depth));
            return;
        }
        if let Some(width) = of(&|one| one.mouth.map(|_| one.wedge.sides[0].distance(one.wedge.sides[1]))) {
            text.note(forms.fact_width(width));
        }
        // Of one inside its piece the sides are where it is widest, and it is as long as from end to end.
        let inside = |value: fn(&DrawnTakeUp, Point) -> f64| {
            of(&move |one| one.upper.filter(|_| one.mouth.is_none()).map(|upper| value(one, upper)))
        };
        if let Some(widest) = inside(|one, _| one.wedge.sides[0].distance(one.wedge.sides[1])) {
            text.note(forms.fact_widest(widest));
        }
        if let Some(length) = inside(|one, upper| upper.distance(one.wedge.point)) {
            text.note(forms.fact_legs(length));
        }
        // A dart is as long as its longer leg.
        if let Some(legs) = of(&|one| one.mouth.map(|_| one.leg_lengths().into_iter().fold(0.0, f64::max))) {
            text.note(forms.fact_legs(legs));
        }
    }

    /// Presses a take-up that is sewn.
    pub(super) fn press_take_up(&self, layer: Option<LayerId>, name: EdgeId, text: &mut StepText) {
        let jobs = self.work().map(|work| work.take_up_jobs(name, layer)).unwrap_or_default();
        let letter = jobs.iter().map(|job| self.letter_of(*job)).find(|letter| !letter.is_empty());
        // What was moved to another edge is called as where it is sewn.
        let sewn = jobs.iter().find_map(|job| if let Job::TakeUp(_, run) = job { Some(*run) } else { None });
        let name = sewn.unwrap_or(name);
        let Some(part) = self.part_of(layer, self.garment.edge(name).piece) else { return };
        let called = self.name(&self.edge_words_of(name));
        let (piece, letter) = (self.piece(part, None, Way::default()), letter.unwrap_or_default());
        let toward = self.garment.take_up(name).and_then(|declared| self.pressed_toward(declared));
        let forms = self.forms();
        let several = self.times(part) * self.drawn(0, part, name).len() as u32 > 1;
        text.say(match (toward, several) {
            (Some(toward), false) => forms.press_take_up_toward(called, letter, piece, toward),
            (Some(toward), true) => forms.press_take_ups_toward(called, letter, piece, toward),
            (None, false) => forms.press_take_up(called, letter, piece),
            (None, true) => forms.press_take_ups(called, letter, piece),
        });
    }

    /// Whether a step of its own presses a take-up.
    fn is_pressed_later(&self, name: EdgeId) -> bool {
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let pressed = actions.filter(|action| action.verb == Verb::Press).flat_map(|action| &action.targets);
        pressed.into_iter().any(|target| match target.target {
            ActionTarget::TakeUp(_, own) => self.garment.is_run_of(name, own),
            _ => false,
        })
    }

    fn pressed_toward(&self, declared: &TakeUp) -> Option<Text> {
        let forms = self.forms();
        Some(match declared.pressed()?.to {
            PressedTo::Edge(edge) => match self.is_outline(edge) {
                true => forms.toward_edge(self.edge_name(&self.edge_words(edge))),
                false => forms.toward(self.name(&self.edge_words_of(edge))),
            },
            PressedTo::Point(point) => forms.toward(self.name(&self.garment.point_words(point))),
            PressedTo::Up(true) => forms.upward(),
            PressedTo::Up(false) => forms.downward(),
            PressedTo::Right(true) => forms.to_the_right(),
            PressedTo::Right(false) => forms.to_the_left(),
        })
    }

    /// What people read of an edge, a line or a take-up, all of it.
    pub(super) fn edge_words_of(&self, edge: EdgeId) -> String {
        let whole = self.garment.whole_edge(edge);
        self.label_or(self.garment.edge_label(whole), &self.garment.edge(whole).name)
    }

    /// The folds of a take-up on one part, in one size.
    fn drawn(&self, size: usize, part: Part, name: EdgeId) -> Vec<&'a DrawnTakeUp> {
        let paper = self.facts.sizes.get(size).and_then(|size| size.drawn.paper(part.paper));
        paper.into_iter().flat_map(|drawn| &drawn.take_ups).filter(|one| one.name == name).collect()
    }

    /// How many copies there are of a part; each half on the fold is one.
    pub(super) fn times(&self, part: Part) -> u32 {
        let Some(work) = self.work() else { return 0 };
        let own = crate::sewing::PartId::enumerate(work.finder.parts).filter(|(_, own)| **own == part);
        own.map(|(id, _)| work.finder.times(id)).sum()
    }
}

type Form = fn(&'static crate::sheet::words::SentenceForms, Text, Text, Text) -> Text;
