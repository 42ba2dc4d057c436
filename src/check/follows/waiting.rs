//! What waits until another mistake is mended, wherever that is: it may be gone then.

use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};

/// What tells that something is sewn as nobody means it, so that no order will do.
const AGAINST_ORDER: [&Entry; 15] = [
    &catalogue::EDGE_LOOSE,
    &catalogue::EDGE_TWICE,
    &catalogue::PAIR_SAME,
    &catalogue::PART_MISSING,
    &catalogue::PIECE_UNCUT,
    &catalogue::SEAM_CROSSED,
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_MATCHING,
    &catalogue::SEAM_PAIRING,
    &catalogue::SEAM_PLIES,
    &catalogue::SEAM_TWISTED,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::SEAM_WRONG_ENDS,
    &catalogue::CLOSURE_PAIRING,
];

/// Where one of the first is told, the others wait.
const WAITING: [(&[&Entry], &[&Entry]); 10] = [
    // What hangs by nothing of the garment is put on nowhere.
    (&[&catalogue::PIECE_APART], &[&catalogue::OPENING_UNSAID]),
    // Runs that are sewn to one another at different heights leave more of the lining above one of them.
    (&[&catalogue::RUN_APART], &[&catalogue::LINING_SAGS, &catalogue::LINING_SHORT]),
    // What is felled onto a seam is as long as that once both are right.
    (&[&catalogue::SEAM_UNEQUAL, &catalogue::OUTLINE_CROSSES], &[&catalogue::FINISH_ONTO]),
    // Without the fold that it is to be sewn across, a strip is no tube that is turned.
    (&[&catalogue::SEAM_ACROSS], &[&catalogue::SEAM_TWISTED, &catalogue::GAP_NEEDLESS]),
    // What is shut for good is not made in another order.
    (&[&catalogue::SEAM_SHUTS_RIM, &catalogue::SEAM_SHUTS_BODY], &[&catalogue::STEP_ZIP_LATE]),
    // Sides of a zip that are not as long as one another name the wrong edge, which runs on in nothing either.
    (&[&catalogue::ZIPPER_SIDES], &[&catalogue::CLOSURE_JUMPS]),
    // A layer that cannot be read may be the one that is cut from a cloth.
    (&[&catalogue::SYNTAX_EXPECTED], &[&catalogue::CLOTH_UNUSED, &catalogue::STRIP_BROKEN]),
    // A share that stands out of place would make a band shorter.
    (&[&catalogue::SYNTAX_TRAILING], &[&catalogue::CLOTH_NARROW]),
    // What is sewn to a ring that is none ends nowhere either.
    (&[&catalogue::SEAM_RING], &[&catalogue::OPENING_RING, &catalogue::OPENING_PASSES]),
    (&AGAINST_ORDER, &[&catalogue::STEP_CIRCLE]),
];

/// The kinds of messages that wait for one of those that were found.
pub(super) fn waiting(found: &[Diagnostic]) -> Vec<&'static Entry> {
    let is_told = |told: &&[&Entry]| found.iter().any(|one| one.is_any(told));
    let rules = WAITING.iter().filter(|(told, _)| is_told(told));
    rules.flat_map(|(_, waits)| waits.iter().copied()).collect()
}
