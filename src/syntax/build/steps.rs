use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Action, Joints, StepGroup, StepTarget, Steps, Verb};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn steps(&mut self, pair: Pair<Rule>) -> Steps {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        Steps { groups: self.block(Context::Steps, &mut kids, from, Context::File, Self::step_group) }
    }

    /// `"Pockets" { … }`
    pub(super) fn step_group(&mut self, pair: Pair<Rule>) -> Option<StepGroup> {
        let from = pair.as_span().start();
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let title = kids.next()?;
        let title = self.text(title);
        let actions = self.block(Context::Group, &mut kids, from, Context::Steps, Self::action);
        Some(StepGroup { span, title, actions })
    }

    /// `panels 1..3`
    fn step_target(&mut self, pair: Pair<Rule>) -> Option<StepTarget> {
        let mut kids = Kids::of(pair);
        let name = kids.next()?;
        let name = self.dotted(name);
        let joints = kids.only(Rule::joints).and_then(|pair| {
            let span = self.span(&pair);
            let said = Kids::of(pair).filter(|kid| kid.as_rule() == Rule::joint);
            let numbers: Vec<u32> = said.filter_map(|kid| kid.as_str().parse().ok()).collect();
            let &first = numbers.first()?;
            Some(Joints { first, last: numbers.get(1).copied().unwrap_or(first), span })
        });
        Some(StepTarget { name, joints })
    }

    fn action(&mut self, pair: Pair<Rule>) -> Option<Action> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let layer = match kids.has(Rule::k_in) {
            true => kids.next().map(|name| self.name(name)),
            false => None,
        };
        let word = kids.next()?;
        let verb_span = self.span(&word);
        let verb = match word.as_rule() {
            Rule::k_sew => Verb::Sew,
            Rule::k_baste => Verb::Baste,
            Rule::k_hem => Verb::Hem,
            Rule::k_finish => Verb::Finish,
            Rule::k_place => Verb::Place,
            Rule::k_fuse => Verb::Fuse,
            Rule::k_press => Verb::Press,
            Rule::k_turn => Verb::TurnThroughGap,
            Rule::k_topstitch => Verb::Topstitch,
            Rule::k_understitch => Verb::Understitch,
            Rule::k_tack => Verb::Tack,
            Rule::k_set => Verb::SetNotion,
            Rule::k_slipstitch => Verb::SlipstitchGap,
            Rule::k_note => Verb::Note,
            _ => Verb::Thread,
        };
        let (mut targets, mut words) = (Vec::new(), None);
        for kid in kids {
            match kid.as_rule() {
                Rule::qlist => targets = self.dotteds(kid).into_iter().map(StepTarget::from).collect(),
                Rule::step_targets => {
                    let own = Kids::of(kid).filter(|kid| kid.as_rule() == Rule::step_target);
                    targets = own.filter_map(|own| self.step_target(own)).collect();
                }
                Rule::text => words = Some(self.text(kid)),
                _ => {}
            }
        }
        Some(Action { span, layer, verb, verb_span, targets, words })
    }
}
