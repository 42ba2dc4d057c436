//! What is said of one side of the body alone.

use super::{Entry, mistake};

catalogue_entries! {
    SIDE_DRAWN = mistake(
        "side/drawn",
        "left and right differ, and it is not said which of them is drawn",
        "A pair is drawn once, and so is a half on the fold: the other copy is its mirror image. Where left and \
         right differ it matters which of them is drawn. A piece is drawn right side up: of a front that is drawn \
         to the right of its centre the drawn copy is worn on the left, of a back that is drawn so on the right.",
    );
    SIDE_NONE = mistake(
        "side/none",
        "one side of the body is named of a piece that is on neither",
        "Left and right are the wearer's. There is a left and a right one of what is cut in pairs, and a left and \
         a right half of what is cut on the fold. What is cut alike, or once without a fold, has neither.",
    );
    SIDE_NOTHING = mistake(
        "side/nothing",
        "a seam, closure or finish of which nothing is left",
        "What is said of one side of the body takes that side's edge; what is said of both takes the sides that \
         are left. Where both sides are taken by others, nothing is left for it to do.",
    );
    SIDE_TURNED = mistake(
        "side/turned",
        "two pieces are drawn for sides of the body that do not meet as they are sewn",
        "A piece is drawn right side up, and its drawn copy is worn on the side that it says. Pieces that are sewn \
         to each other lie right side out beside each other: that settles of two that are drawn whether their \
         drawn copies are worn on one side or on different ones.",
    );
}
