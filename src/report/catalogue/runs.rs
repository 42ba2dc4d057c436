//! What is said of runs of edges.

use super::{Entry, mistake, warning};

catalogue_entries! {
    RUN_TOO_LONG = mistake(
        "run/too-long",
        "a run that its edge has no room for",
        "A run of an edge is counted along it as it is sewn, with darts and folds taken out. In the sizes named \
         it begins or ends where there is no edge any more.",
    );
    RUN_NOTHING = mistake(
        "run/nothing",
        "a run without a length",
        "What is sewn, closed or finished by itself is a stretch of its edge: it begins and ends in two places.",
    );
    RUN_OVERLAP = mistake(
        "run/overlap",
        "two runs of one edge that lie over one another",
        "A run is taken out of its edge by what names it, and so can be taken once only. What takes the same \
         stretch, like a zip and the seam that encloses it, names it in the same words.",
    );
    RUN_UNEVEN = mistake(
        "run/uneven",
        "a seam whose sides are left in unlike pieces",
        "Who names an edge whole means what is left of it once its runs are taken out; each piece that is left is \
         sewn to the one across from it. So both sides of a seam must be left in equally many.",
    );
    RUN_NOTHING_LEFT = mistake(
        "run/nothing-left",
        "an edge of which runs leave nothing",
        "Who names an edge whole means what is left of it once its runs are taken out. Here they take all of it.",
    );
    RUN_FOLDED = mistake(
        "run/folded",
        "runs of folded edges that do not lie on one another",
        "Two edges of a piece that is folded go into one seam as two plies. Once it is folded each place of the one lies \
         on the place across from it: so runs of the two begin and end across from one another, or the piece \
         would be twisted.",
    );
    RUN_APART = warning(
        "run/apart",
        "runs of one edge in two layers, sewn to each other though they lie elsewhere on it",
        "A lining lies in its shell edge on edge, and what is sewn shut beside a slit holds it so. Where the slit of the one \
         begins 10 cm above that of the other, sewing both together draws the lower layer up, or the upper one down. A centimetre is \
         common, as ease of a lining.",
    );
    PLACKET_NARROW = warning(
        "placket/narrow",
        "the over part of a placket is narrower than the window that it is to cover",
        "The under part of a placket fills the window of its slit, and the over part lies on it, as wide or wider: a shirt's \
         has 2.5 cm over 1. A narrower one lets the seam of the under part be seen beside it.",
    );
    PLACKET_OVER = mistake(
        "placket/over",
        "a placket of which it is not told which side lies over",
        "Of a slit that is counted along its edge the far side lies over the near one. One in the middle of a piece that is \
         cut on the fold has a left and a right side that are alike, and either may lie over the other.",
    );
    SEAM_ACROSS = mistake(
        "seam/across",
        "an end that is not sewn across a fold",
        "Across the fold of its piece an end is sewn to itself: each half of it to the other, before the piece is turned. So \
         it must run from the one edge that is folded onto another to that other; there is no second side that \
         could be eased, matched or notched.",
    );
    RUN_SHOWING = mistake(
        "run/showing",
        "a zip that shows in a run of an edge",
        "A zip that shows takes half of what shows off both sides of its edge, all along. In a run of an edge that \
         would leave a step at the run's end.",
    );
}
