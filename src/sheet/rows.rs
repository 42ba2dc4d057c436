//! The steps of a sheet: which of what is done share a picture and a sentence.

use crate::sewing::order::{Plan, PlannedAction, PlannedTarget};
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

/// Every target is a step of its own, but those that are pressed or fused in one go.
pub(super) fn rows(plan: &Plan) -> Vec<Row> {
    let mut rows = Vec::new();
    for (at, group) in plan.groups.iter().enumerate() {
        let mut own: Vec<(usize, Range<usize>)> = Vec::new();
        for (nth, action) in group.actions.iter().enumerate() {
            let count = action.targets.len();
            if count < 2 || matches!(action.verb, Verb::Press | Verb::Fuse) {
                own.push((nth, 0..count));
            } else {
                own.extend((0..count).map(|target| (nth, target..target + 1)));
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
