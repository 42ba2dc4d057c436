//! What an order of work is, once it is worked out.

use super::jobs::Job;
use super::phase::Phase;
use super::titles::GroupTitle;
use crate::garment::{ActionTarget, LayerId};
use crate::syntax::tree::Verb;
use std::sync::Arc;

/// The order of work, all of it.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// In the order of work.
    pub groups: Vec<PlannedGroup>,
    /// What finds no place in any order, or not among the steps that the maker says.
    pub left: Vec<Job>,
    /// Something is worked out.
    pub worked_out: bool,
}

/// A group of steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedGroup {
    /// What people read.
    pub title: String,
    /// The maker's own, by its place among the garment's; none of one that is worked out.
    pub said: Option<usize>,
    /// In the order of work.
    pub actions: Vec<PlannedAction>,
    /// Of what is worked out, the part of the work that it is.
    pub phase: Option<Phase>,
    /// What it is called in any language; none of what is called by what its maker says, as a group and a band is.
    pub called: Option<GroupTitle>,
}

/// One action.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedAction {
    /// Only in this layer.
    pub layer: Option<LayerId>,
    /// What is done.
    pub verb: Verb,
    /// What it is done to.
    pub targets: Vec<PlannedTarget>,
    /// What else the maker says of it.
    pub words: Option<Arc<str>>,
    /// The maker's own, by its place in its group; none of one that is worked out.
    pub said: Option<usize>,
}

/// What an action is done to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedTarget {
    /// What.
    pub target: ActionTarget,
    /// Where the maker's own stands in its action.
    pub nth: usize,
    /// What is done by it for good.
    pub jobs: Vec<Job>,
    /// Why it is done here; none of what the maker says.
    pub reason: Option<String>,
}
