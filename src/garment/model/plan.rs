use super::{AlterationId, PaperId, ValueId};

/// In which order a size is worked out; the same for all sizes.
///
/// Whoever needs what is left out of it finds it unknown, and is silent.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// One after the other.
    pub steps: Vec<PlanStep>,
    /// What stands in a circle that nothing opens, or is sought and hangs on what could not be made
    /// sense of: reported, and not worked out.
    pub left_out: Vec<Made>,
}

/// One thing that is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Made {
    /// A value.
    Value(ValueId),
    /// A paper after so many of its alterations. Of a paper that a split or join ends, the last
    /// version is that split or join.
    Version(PaperId, usize),
    /// The amount of an alteration that is sought.
    Amount(AlterationId),
}

/// One step of the plan.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanStep {
    /// Work out a value (not a solved one).
    Value(ValueId),
    /// Draw a paper: version 0. Of one layer's paper that is a copy of its piece's version 0;
    /// split and joined papers have no such step: the alteration makes their version 0.
    Draw(PaperId),
    /// Make the next version of one paper by one alteration. A split gives version 0 of the two
    /// papers that it becomes. A join is made once, at the step of its first piece's own paper: it
    /// gives version 0 of all papers of the joined piece.
    Alter(AlterationId, PaperId),
    /// Find one unknown so that its condition holds, by trying it.
    Solve(Solve),
}

/// One unknown and what hangs on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Solve {
    /// What is sought.
    pub unknown: Unknown,
    /// What depends on the unknown and the condition on: done anew for every try, and once more
    /// for the answer. What does not depend on the unknown comes before.
    pub steps: Vec<PlanStep>,
}

/// What is sought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unknown {
    /// `let x between … so that …`
    Value(ValueId),
    /// The amount of `lengthen … until … fits`.
    Amount(AlterationId),
}
