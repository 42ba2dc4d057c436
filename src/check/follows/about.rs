//! Which seams and closures a message is about.

use crate::garment::{ActionTarget, ClosureId, Garment, SeamId, SewnEdge};
use crate::report::Diagnostic;
use crate::source::Span;

/// What joins edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum About {
    /// A seam.
    Seam(SeamId),
    /// A closure.
    Closure(ClosureId),
}

pub(super) struct Looking<'a> {
    pub(super) garment: &'a Garment,
}

impl<'a> Looking<'a> {
    /// The seams and closures in whose words a message has a place, or in steps that sew them.
    pub(super) fn about(&self, one: &Diagnostic) -> Vec<About> {
        let is_in = |of: Span| one.places().any(|place| of.lo <= place.lo && place.hi <= of.hi);
        let mut found: Vec<About> = self.all().filter(|&about| is_in(self.span(about))).collect();
        let actions = self.garment.steps.iter().flat_map(|step| &step.actions);
        for &(target, span) in actions.flat_map(|action| &action.targets) {
            let about = match target {
                ActionTarget::Seam(id) => About::Seam(id),
                ActionTarget::Closure(id) => About::Closure(id),
                _ => continue,
            };
            if !found.contains(&about) && one.places().any(|place| place == span) {
                found.push(about);
            }
        }
        found
    }

    /// All seams and closures.
    pub(super) fn all(&self) -> impl Iterator<Item = About> + use<'a> {
        let seams = SeamId::enumerate(&self.garment.seams).map(|(id, _)| About::Seam(id));
        seams.chain(ClosureId::enumerate(&self.garment.closures).map(|(id, _)| About::Closure(id)))
    }

    /// Every edge that it names.
    pub(super) fn edges(&self, about: About) -> impl Iterator<Item = &'a SewnEdge> + use<'a> {
        let garment = self.garment;
        let (sides, closed) = match about {
            About::Seam(id) => (Some([&garment.seam(id).first, &garment.seam(id).second]), None),
            About::Closure(id) => (None, Some([&garment.closure(id).first, &garment.closure(id).second])),
        };
        let sewn = sides.into_iter().flatten().flatten().flat_map(|chain| &chain.edges);
        sewn.chain(closed.into_iter().flatten().flat_map(|chain| &chain.edges))
    }

    fn span(&self, about: About) -> Span {
        match about {
            About::Seam(id) => self.garment.seam(id).span,
            About::Closure(id) => self.garment.closure(id).span,
        }
    }
}
