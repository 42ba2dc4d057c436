//! Joints of pieces that are sewn in a ring, where a step names some of them.

use super::teller::{Teller, Way};
use super::{Step, StepText};
use crate::garment::{ActionTarget, SeamId};
use crate::sewing::order::Job;
use crate::sheet::Text;

impl Teller<'_> {
    /// "joint 1 of the panels seams"
    pub(super) fn joints(&self, id: SeamId, [first, last]: [u32; 2]) -> Text {
        let (forms, name) = (self.forms(), self.seam_name(id));
        match first == last {
            true => forms.joint(self.count(first), name),
            false => forms.joints(self.count(first), self.count(last), name),
        }
    }

    /// Each of these is sewn to the next.
    pub(super) fn sew_joints(&self, step: &Step, id: SeamId, joints: [u32; 2], text: &mut StepText) {
        let jobs = self.work().map(|work| work.seam_jobs(id, step.action.layer)).unwrap_or_default();
        let stitchings: Vec<usize> =
            jobs.iter().filter_map(|job| if let Job::Seam(at) = job { Some(*at) } else { None }).collect();
        for sides in self.sides(&stitchings) {
            let say = |way: Way| {
                let [first, second] = self.both_sides(id, &sides, way);
                let sewn = self.forms().sew_joint(self.joints(id, joints), step.letter.clone());
                vec![sewn, self.forms().joint_joins(first, second)]
            };
            text.say_all(self.short_if_long(&sides, say));
            self.say_making(step, id, &sides, text);
            self.say_meeting(id, &sides, text);
            self.say_fit(id, &sides, text);
        }
    }

    /// Whether an earlier step sews some joints of a seam that this one sews.
    pub(super) fn has_joints_before(&self, step: &Step, id: SeamId) -> bool {
        let (plan, Some(work)) = (&self.facts.plan, self.work()) else { return false };
        let rows = self.facts.rows.iter();
        let all = rows.flat_map(|row| row.targets(plan).iter().map(move |target| (row.action(plan), target)));
        let mut before = all.take_while(|(_, target)| !std::ptr::eq(*target, step.target));
        before.any(|(action, target)| {
            let sewn = || work.seam_jobs(id, action.and_then(|action| action.layer));
            matches!(target.target, ActionTarget::Joints(own, ..) if own == id)
                && sewn().iter().any(|job| step.target.jobs.contains(job))
        })
    }
}
