//! What a line of a variation is to do with what another file declares.

use super::conflict::Deed;
use crate::report::catalogue::{self, Entry};
use std::fmt;

/// What a line is to do; written as a maker writes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Doing {
    Drop,
    Replace,
    Set,
    Change,
    AddTo,
}

impl Doing {
    /// What it is once it is done.
    pub(super) fn deed(self) -> Deed {
        match self {
            Doing::Drop => Deed::Drops,
            Doing::Replace | Doing::Set | Doing::Change | Doing::AddTo => Deed::Changes,
        }
    }

    /// Which mistake it is to do that to what is not there.
    pub(super) fn to_nothing(self) -> &'static Entry {
        match self {
            Doing::Drop => &catalogue::DROP_NOTHING,
            Doing::Replace | Doing::Set | Doing::Change | Doing::AddTo => &catalogue::REPLACE_NOTHING,
        }
    }
}

impl fmt::Display for Doing {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(match self {
            Doing::Drop => "drop",
            Doing::Replace => "replace",
            Doing::Set => "set",
            Doing::Change => "change",
            Doing::AddTo => "add to",
        })
    }
}
