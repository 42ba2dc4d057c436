//! A rule of the order of work: what has to be done before what.

use super::doing::Doing;
use super::jobs::Job;
use super::meeting::Meeting;
use super::why::Why;
use crate::garment::SeamId;

/// Something waits for something else.
#[derive(Clone, Debug)]
pub struct Rule {
    /// What waits.
    pub waits: Doing,
    /// What for.
    pub needs: Needs,
    /// It waits only where one of these has met by then.
    pub given: Vec<Meeting>,
    /// Why.
    pub why: Why,
    /// Of several rules of one such number one is told.
    pub one_of: Option<usize>,
    /// It is read off the sewn surface, and not told where another rule says the same.
    pub by_surface: bool,
}

/// What something waits for.
#[derive(Clone, Debug)]
pub enum Needs {
    /// That this is done.
    Done(Doing),
    /// That one of these seams is sewn.
    OneOf(Vec<usize>),
    /// That two corners are brought together by seams.
    Met(Meeting),
    /// That what is turned through a seam's gap hangs on what it will lie on.
    LaidOn(SeamId),
}

impl Rule {
    /// A plain one.
    pub(super) fn new(waits: Doing, needs: Needs, why: Why) -> Rule {
        Rule { waits, needs, given: Vec::new(), why, one_of: None, by_surface: false }
    }

    /// One job waits for another.
    pub(super) fn jobs(waits: Job, needs: Job, why: Why) -> Rule {
        Rule::new(Doing::Job(waits), Needs::Done(Doing::Job(needs)), why)
    }
}
