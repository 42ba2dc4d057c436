//! What is said of slits.

use super::{Entry, advice, mistake};

catalogue_entries! {
    SLIT_WELT_DOWN = advice(
        "slit/welt-down",
        "a welt that hangs from the upper side of its slit",
        "A welt stands up from the lower side of its slit and covers it: its fold is the mouth of the pocket. Sewn to the upper \
         side, with its ends sewn to those of the slit, it is open below, and what is put into the pocket falls out.",
    );
    SLIT_UNFINISHED = mistake(
        "slit/unfinished",
        "a slit whose sides are left as they are cut",
        "A slit is cut into the cloth, and its sides fray and tear on at its end. Bind them, face them, hem them into \
         the slit's window or sew a placket to them; a cloth that does not fray may be left raw, if that is said.",
    );
    SLIT_NARROW = mistake(
        "slit/narrow",
        "a slit whose window leaves no cloth to turn",
        "The cloth that is turned at the sides of a slit comes out of its window, half of it on each side: a slit \
         without one is a cut, with nothing to turn. Give it a window twice as wide as what is turned, or bind its \
         sides, which takes none.",
    );
    SLIT_NOTHING = mistake(
        "slit/nothing",
        "a slit without length, or a window without width",
        "A slit is cut into the cloth. With a length of 0 there is nothing to cut; a window of 0 is none, \
         and is left out.",
    );
    SLIT_OFF_EDGE = mistake(
        "slit/off-edge",
        "a slit that its edge has no room for",
        "A slit parts its edge in two, and something of the edge must be left on both sides of it. In the sizes \
         named it reaches an end of the edge or lies past it.",
    );
    SLIT_OUTSIDE = mistake(
        "slit/outside",
        "a slit that does not end in its piece",
        "A slit ends in the cloth. One that runs out of the piece would cut it in two: that is a split. One inside the \
         piece, from a point to a point, lies in the cloth with all of it; one that is to open an edge is cut from it.",
    );
    SLIT_FOLD = mistake(
        "slit/fold",
        "a slit over the fold of a piece",
        "A piece on the fold is cut as a half, and what is drawn on it lies on both sides of the body. A slit that \
         reaches the fold would cross its own mirror image.",
    );
    SLIT_OVERLAP = mistake(
        "slit/overlap",
        "a slit that crosses another slit or a dart",
        "A slit is cut where the cloth lies single. Through a dart it would cut the dart's stitching, and two slits that \
         cross cut a corner of cloth out of the piece.",
    );
}
