//! Letters of what is sewn, hemmed, laid on or closed: one a seam, in the order of work, the same wherever it is met again.

use super::rows::Row;
use crate::garment::{ActionTarget, ClosureKind, Garment, LayerId};
use crate::id_hash::IdMap;
use crate::sewing::order::{Job, Plan, PlannedAction, PlannedTarget};
use crate::syntax::tree::Verb;

/// Without I and O, which are read as 1 and 0.
const CAPITALS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// The letter of each thing that is done.
#[derive(Clone, Debug, Default)]
pub struct Letters {
    by_job: IdMap<Job, usize>,
    by_target: IdMap<(ActionTarget, Option<LayerId>), usize>,
}

impl Letters {
    /// Counted through the steps. What is fused, turned or only said has none; edges that a step finishes in one go have
    /// one together.
    pub fn of(garment: &Garment, plan: &Plan, rows: &[Row]) -> Self {
        let mut letters = Letters::default();
        let mut next = 0;
        for row in rows {
            let Some(action) = row.action(plan) else { continue };
            if matches!(action.verb, Verb::Fuse | Verb::TurnThroughGap | Verb::Note) {
                continue;
            }
            let together = matches!(action.verb, Verb::Hem | Verb::Finish);
            let before = next;
            for target in row.targets(plan) {
                // A zip that is basted and then sewn is one.
                for &job in &target.jobs {
                    if let Job::Closure(id) = job
                        && matches!(garment.closure(id).kind, Some(ClosureKind::Zipper { .. }))
                        && let Some(&own) = letters.by_job.get(&Job::PutIn(id))
                    {
                        letters.by_job.entry(job).or_insert(own);
                    }
                }
                if let Some(own) = letters.find(action, target) {
                    for &job in &target.jobs {
                        letters.by_job.entry(job).or_insert(own);
                    }
                    continue;
                }
                let own = if together { before } else { next };
                letters.by_target.insert((lettered(target.target), action.layer), own);
                for &job in &target.jobs {
                    letters.by_job.entry(job).or_insert(own);
                }
                next = own + 1;
            }
        }
        letters
    }

    /// The letter of what an action is done to.
    pub fn letter(&self, action: &PlannedAction, target: &PlannedTarget) -> Option<String> {
        self.find(action, target).map(|at| counted(at, CAPITALS))
    }

    /// The letter under which something is done.
    pub fn of_job(&self, job: Job) -> Option<String> {
        self.by_job.get(&job).map(|&at| counted(at, CAPITALS))
    }

    fn find(&self, action: &PlannedAction, target: &PlannedTarget) -> Option<usize> {
        let by_job = target.jobs.iter().find_map(|job| self.by_job.get(job));
        // What is pressed or basted is done for good elsewhere, or nowhere.
        let by_target = || self.by_target.get(&(lettered(target.target), action.layer));
        match target.jobs.is_empty() || matches!(target.target, ActionTarget::Joints(..)) {
            true => by_target().copied(),
            // Some of its joints may have their letter already.
            false if matches!(target.target, ActionTarget::Seam(_)) => by_job.or_else(by_target).copied(),
            false => by_job.copied(),
        }
    }
}

/// What has a letter: all joints of a ring have that of their seam.
fn lettered(target: ActionTarget) -> ActionTarget {
    match target {
        ActionTarget::Joints(id, ..) => ActionTarget::Seam(id),
        other => other,
    }
}

/// The `at`th of the words that these letters make, the short ones first.
pub(super) fn counted(at: usize, letters: &[u8]) -> String {
    let mut rest = at + 1;
    let mut word = Vec::new();
    while rest > 0 {
        rest -= 1;
        word.push(char::from(letters[rest % letters.len()]));
        rest /= letters.len();
    }
    word.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::{CAPITALS, counted};

    #[test]
    fn letters_run_through_without_those_that_read_as_figures() {
        let all: Vec<String> = (0..26).map(|at| counted(at, CAPITALS)).collect();
        assert_eq!(all.join(" "), "A B C D E F G H J K L M N P Q R S T U V W X Y Z AA AB");
    }
}
