//! Joints of pieces that are sewn in a ring, where steps name them one by one. They are no jobs of their own: the last of
//! them does the seam, and what the seam waits for comes before the first.

use super::doing::Doing;
use super::jobs::{Job, Jobs, Work};
use super::schedule::{Act, Schedule, Slip, When};
use crate::garment::{Action, SeamId};
use crate::syntax::tree::Verb;

impl Schedule {
    /// Some joints of a seam in a ring are sewn, pressed or basted. With the last of them the seam is sewn.
    pub(super) fn sew_joints(
        &mut self,
        work: &Work,
        action: &Action,
        (id, first, last): (SeamId, u32, u32),
        place: (usize, usize, usize),
        when: When,
    ) -> (Act, Option<Slip>) {
        let (mut act, mut slip) = (Act::new(place, Jobs::new()), None);
        let seams = work.seam_jobs(id, action.layer);
        if seams.is_empty() && !work.garment.seam(id).poisoned {
            slip = Some(Slip::Nothing);
        }
        for &job in &seams {
            let Job::Seam(at) = job else { continue };
            let many = work.joints_of(at);
            if last > many {
                slip = (many > 0).then_some(Slip::NoJoint(many));
                continue;
            }
            let whole = self.when(job);
            match action.verb {
                Verb::Sew => {
                    let sewn = self.joints.entry(at).or_insert_with(|| vec![whole; many as usize]);
                    for number in first..=last {
                        let Some(own) = sewn.get_mut(number as usize - 1) else { continue };
                        match own {
                            Some(before) => slip = slip.or(Some(Slip::JointAgain(number, *before))),
                            None => *own = Some(when),
                        }
                    }
                    match sewn.iter().all(Option::is_some) {
                        true if whole.is_none() => {
                            self.done.insert(job, when);
                            act.jobs.push(job);
                        }
                        true => {}
                        false => {
                            act.before.push(job);
                            act.begins.push(job);
                        }
                    }
                }
                Verb::Press if (first..=last).any(|number| self.joint(at, number).is_none()) => {
                    act.after.push(job);
                }
                Verb::Press => {}
                _ => act.before.push(job),
            }
        }
        (act, slip)
    }

    /// When a joint of a ring is sewn: by itself, or with its seam.
    pub fn joint(&self, stitching: usize, number: u32) -> Option<When> {
        let own = self.joints.get(&stitching).and_then(|all| *all.get(number.checked_sub(1)? as usize)?);
        own.or_else(|| self.when(Job::Seam(stitching)))
    }

    /// The joints of a ring that no step sews, where steps sew others by themselves.
    pub fn open_joints(&self, stitching: usize) -> Vec<u32> {
        let all = self.joints.get(&stitching).into_iter().flatten().zip(1..);
        all.filter(|(when, _)| when.is_none()).map(|(_, number)| number).collect()
    }

    /// When what waits is begun: a seam in a ring with the first of its joints.
    pub fn begun(&self, work: &Work, doing: Doing) -> Option<When> {
        let whole = self.at(work, doing);
        let first = |at: usize| self.joints.get(&at).and_then(|all| all.iter().flatten().min().copied());
        let first = match doing {
            Doing::Job(Job::Seam(at)) => first(at),
            Doing::Begun(id) => work.of_seam(id).iter().filter_map(|&at| first(at)).min(),
            _ => None,
        };
        first.into_iter().chain(whole).min()
    }
}
