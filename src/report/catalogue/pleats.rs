//! What is said of pleats and tucks.

use super::{Entry, mistake, warning};

catalogue_entries! {
    SEAM_TUCKS = warning(
        "seam/tucks",
        "tucks that do not go on over the seam that they run up to",
        "Tucks that go across front and back run on over the side seam, as stripes and notches do. Counted from other ends, or \
         by another figure, those of the one side end beside those of the other, and everybody sees it; so does everybody \
         where those of the one side are laid up and those of the other down.",
    );
    PLEAT_NOTHING = mistake(
        "pleat/nothing",
        "a pleat without depth, or none at all",
        "A pleat folds cloth away: it is deeper than 0, there is one at least, and one lies beside the other.",
    );
    PLEAT_OFF_EDGE = mistake(
        "pleat/off-edge",
        "a pleat that its edge has no room for",
        "A pleat takes cloth that is drawn: a knife pleat twice its depth, a box or inverted one four times. \
         Something of the edge is left on both sides of it, except at the fold of a half.",
    );
    PLEAT_TOO_DEEP = mistake(
        "pleat/too-deep",
        "a box or inverted pleat whose cloth has no room under it",
        "Under each of its two folds lies as much cloth as it is deep. Less wide than both together it would lie \
         over itself underneath, and the same between one such pleat and the next.",
    );
    PLEAT_TOWARD = mistake(
        "pleat/toward",
        "a pleat of which it cannot be told which way it is laid",
        "Which way a fold is laid changes the cutting line over it, which is the edge folded out. A knife pleat \
         says it: toward a corner or an edge beside it. A box or inverted pleat is laid both ways.",
    );
    PLEAT_CORNER = mistake(
        "pleat/corner",
        "a pleat whose cloth reaches past the end of its edge",
        "The cloth under a fold lies behind the edge. Where the edge ends before it does, it would be cut off \
         there, and caught in the seam or seen beyond it.",
    );
    PLEAT_FOLD = mistake(
        "pleat/fold",
        "a pleat at the fold of a half of which it is not clear where it lies",
        "A half is cut on the fold, and what is taken from it is there on both sides. One pleat in the middle of \
         the whole is said to be at the fold: half of it is drawn. It is a box or an inverted pleat, since a knife \
         pleat is laid one way on one half and the other way on the other.",
    );
    PLEAT_ALONG = mistake(
        "pleat/along",
        "a pleat along a line that it cannot be folded along",
        "Folds are straight, and lead from the edge into the piece. By itself a pleat is folded square to its edge.",
    );
    PLEAT_STEP = mistake(
        "pleat/step",
        "an edge that does not run on where a pleat in it is folded",
        "Folded, the edge on one side of a pleat must meet that on the other. Where folds do not lie square to the \
         edge there is a step, and on a curve a corner, which the seam would show. Drawn with the pleat folded, the \
         edge is smooth: that is what truing is.",
    );
    PLEAT_SEWN = mistake(
        "pleat/sewn",
        "a pleat or tuck of which it is not clear how far it is sewn",
        "A pleat is held in the seam of its edge and opens below, or is stitched down so far. A tuck is sewn all \
         along, from one edge to another, and takes from both.",
    );
    PLEAT_OVERLAP = mistake(
        "pleat/overlap",
        "a pleat over another, or over a dart",
        "Each of them folds cloth away. Where two overlap on the edge, or lie over each other in the piece, the same \
         cloth would be folded twice.",
    );
}
