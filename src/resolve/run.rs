//! The plan, step by step.

use super::work::Work;
use super::{alterations, draw};
use crate::garment::{PlanStep, ValueId, ValueKind};

impl Work<'_> {
    /// Does one step of the plan.
    pub(super) fn step(&mut self, step: &PlanStep) {
        let before = self.begin();
        match step {
            PlanStep::Value(id) => self.work_value_out(*id),
            PlanStep::Draw(paper) => {
                let drawn = draw::draw(self, *paper);
                self.set_version(*paper, 0, drawn);
            }
            PlanStep::Alter(alteration, paper) => alterations::alter(self, *alteration, *paper),
            PlanStep::Solve(solve) => self.solve(solve),
        }
        // What is only tried is done once more for the answer.
        if !self.is_muted() {
            self.account(step, &before);
        }
    }

    fn work_value_out(&mut self, id: ValueId) {
        let Some(value) = self.garment.values.get(id.index()) else { return };
        let expression = match &value.kind {
            ValueKind::Body(expression) | ValueKind::Let(expression) => expression,
            ValueKind::Measure { value, .. } => value,
            ValueKind::Solved { .. } => return,
        };
        let found = self.quantity(expression, None);
        if let Some(place) = self.values.get_mut(id.index()) {
            *place = found;
        }
    }
}
