//! The steps of a sheet: which of what is done share a picture and a sentence.

use crate::garment::FinishId;
use crate::sewing::order::{Job, Plan, PlannedAction, PlannedTarget};
use crate::syntax::tree::Verb;
use std::ops::Range;

/// A step: one picture, one tick box, one sentence or two.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The group, by its place in the plan.
    pub group: usize,
    /// The action, by its place in the group.
    pub action: usize,
    /// Those of the action's targets that this step does; empty of words alone.
    pub targets: Range<usize>,
    /// What it is called: "2b"; "3" of a group's only step.
    pub code: String,
}

impl Row {
    /// What is done.
    pub fn action<'p>(&self, plan: &'p Plan) -> Option<&'p PlannedAction> {
        plan.groups.get(self.group)?.actions.get(self.action)
    }

    /// What it is done to.
    pub fn targets<'p>(&self, plan: &'p Plan) -> &'p [PlannedTarget] {
        self.action(plan).and_then(|action| action.targets.get(self.targets.clone())).unwrap_or_default()
    }
}

/// Every target is a step of its own, but those that are pressed or fused in one go, and edges that have one finish.
pub(super) fn rows(plan: &Plan) -> Vec<Row> {
    let mut rows = Vec::new();
    for (at, group) in plan.groups.iter().enumerate() {
        let mut own: Vec<(usize, Range<usize>)> = Vec::new();
        for (nth, action) in group.actions.iter().enumerate() {
            let count = action.targets.len();
            if count < 2 || matches!(action.verb, Verb::Press | Verb::Fuse) {
                own.push((nth, 0..count));
            } else {
                let mut at = 0;
                for alike in action.targets.chunk_by(is_one_finish) {
                    own.push((nth, at..at + alike.len()));
                    at += alike.len();
                }
            }
        }
        let is_only = own.len() == 1;
        rows.extend(own.into_iter().enumerate().map(|(place, (action, targets))| {
            let code = if is_only { format!("{}", at + 1) } else { format!("{}{}", at + 1, small(place)) };
            Row { group: at, action, targets, code }
        }));
    }
    rows
}

/// Whether both are edges of one finish, as of a hem that goes all round.
fn is_one_finish(one: &PlannedTarget, other: &PlannedTarget) -> bool {
    let finishes = |target: &PlannedTarget| -> Option<Vec<FinishId>> {
        let id = |job: &Job| match job {
            Job::Finish(id, ..) => Some(*id),
            _ => None,
        };
        let mut all: Vec<FinishId> = target.jobs.iter().map(id).collect::<Option<_>>()?;
        all.dedup();
        Some(all)
    };
    finishes(one).is_some_and(|all| all.len() == 1 && finishes(other) == Some(all))
}

/// a, b … z, aa, ab …
fn small(place: usize) -> String {
    super::letters::counted(place, b"abcdefghijklmnopqrstuvwxyz")
}

#[cfg(test)]
mod tests {
    use super::small;

    #[test]
    fn steps_of_a_group_are_counted_in_letters() {
        assert_eq!([0, 1, 25, 26, 27, 702].map(small), ["a", "b", "z", "aa", "ab", "aaa"]);
    }
}
