//! What is said of alterations, amounts that are sought, and variations.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    ALTER_ONE_SIDE = mistake(
        "alter/one-side",
        "a piece was altered and what it is sewn to was not",
        "A side seam joins two edges that were drawn to the same length. Lengthening the front alone leaves \
         the back short by as much. The message points at the alteration, since that is what changed: name \
         the partner in the same line.",
    );
    ALTER_GONE = mistake(
        "alter/gone",
        "a piece that no longer exists once everything is altered",
        "Split in two or joined to another, a piece goes on under new names. What is said of the finished \
         garment must name those.",
    );
    ALTER_IN_LAYER = mistake(
        "alter/in-layer",
        "a piece that is made other pieces in one layer alone",
        "A split, a join and unpair make other pieces of a piece wherever it is cut. A lining whose back stays whole \
         under a back with a yoke has a piece of its own for it, with an outline of its own.",
    );
    ALTER_NOT_ALTERED = mistake(
        "alter/not-altered",
        "something is to be kept on a piece that is not altered",
        "keeping holds a mark where it is while the rest of its piece moves. This piece does not move in \
         this line.",
    );
    ALTER_TWICE = mistake(
        "alter/twice",
        "a piece altered together with the one that it is drawn from",
        "A back that is a copy of the front, and a facing that is a strip of it, are drawn from the front as it is \
         after all alterations. They follow whatever is done to it. Named in the same line, they would be \
         altered once with the front and once more by themselves, and not fit it any longer.",
    );
    ALTER_NO_LINE = mistake(
        "alter/no-line",
        "a piece without the line it is to be altered at",
        "A lengthen-or-shorten line is drawn where length can be added without spoiling the shape: between \
         underarm and waist, between elbow and wrist. Draw one on this piece with line … across at ….",
    );
    ALTER_MADE_UP = warning(
        "alter/made-up",
        "a value makes up for an alteration of one side",
        "A value that is found so that two edges match is found anew when one of them is lengthened, and the other piece \
         changes by as much in some other place: its armhole drops, its dart grows. Lengthen both, as one would on paper; \
         the value then stays as it was.",
    );
    ALTER_S_BEND = warning(
        "alter/s-bend",
        "an edge that swings to and fro where the piece was cut",
        "A piece is lengthened and shortened at a line where its sides run along the grain: what is beyond then \
         moves on in the same way. Where a curve slants, both its ends come to lie beside one another, and joining \
         them makes an S. On paper the side is drawn anew from above the cut to below it.",
    );
    ALTER_TOO_MUCH = mistake(
        "alter/too-much",
        "more is taken away than there is",
        "Shortening folds the paper away beyond the line, and trimming takes off what lies along an edge. \
         More than the piece has there cannot be taken in the sizes named; the message says how much \
         there is.",
    );
    ALTER_THROUGH_MARK = warning(
        "alter/through-mark",
        "a line runs through something that should stay in one piece",
        "Cut along this line, a pocket, a dart or a mark would be torn in two. Move the line above or \
         below it, or say keeping.",
    );
    ALTER_ADJUST_ALONE = advice(
        "alter/adjust-alone",
        "a line to lengthen or shorten at on one of two pieces that are sewn together",
        "Whoever is taller cuts the pattern at the double line and moves it apart. A front that is made longer so no longer \
         fits a back that has no such line: both have one, as high as the other's on the seam between them.",
    );
    ALTER_ALONG_GRAIN = mistake(
        "alter/along-grain",
        "a line that the piece cannot be lengthened at",
        "Lengthening moves the paper apart along the grain. A line that itself runs along the grain opens \
         no gap that way; use spread, which moves square to the line.",
    );
    ALTER_ADJUST_UNEVEN = advice(
        "alter/adjust-uneven",
        "lines to adjust at that meet a seam at different heights",
        "Whoever lengthens or shortens two pieces that are sewn together does so at the same height of both. Where the lines \
         for it lie apart on the seam, curves and notches between them no longer meet.",
    );
    ALTER_KEEPS_CORNER = mistake(
        "alter/keeps-corner",
        "a corner is to be kept where it is while its edge moves",
        "A mark may stay where the hands want it. A corner belongs to the outline and goes with its edges; \
         held back, it would tear them.",
    );
    ALTER_JOIN_APART = mistake(
        "alter/join-apart",
        "two pieces whose edges do not lie together",
        "Pieces are joined by laying edge to edge, so both edges must have the same length and the same \
         course. Both lengths are shown. A shaped seam cannot be taken out without a fold; straighten it \
         first, or redraw one of the two.",
    );
    ALTER_NOT_FOLD = mistake(
        "alter/not-fold",
        "an edge to be opened that is not a fold",
        "open makes an edge of a fold, so that the front has two halves. This piece is not cut on the fold \
         along that edge. close is the other way: it makes a fold of a straight edge of a mirrored pair.",
    );
    ALTER_NO_PAIR = mistake(
        "alter/no-pair",
        "an edge to be closed on a piece that is not a pair",
        "close lays the two halves of a mirrored pair together and makes a fold where they meet. Where \
         there is no pair there is no other half.",
    );
    ALTER_LOST = mistake(
        "alter/lost",
        "an alteration that breaks the outline",
        "Worked in the order written, this alteration leaves an outline that crosses itself or falls apart \
         in the sizes named. Look at the amount, and at what was done to the piece before.",
    );
    ALTER_NEIGHBOURS = mistake(
        "alter/neighbours",
        "an edge moved so far that its neighbours do not meet it",
        "When an edge moves out, its neighbours go on straight until they meet it. Here they run beside it \
         or away from it and never do. Move it less, or redraw the neighbours.",
    );
    ALTER_NEGATIVE = mistake(
        "alter/negative",
        "an alteration by a negative amount",
        "Lengthening by a negative amount is shortening. It may be a slip of the sign, so the opposite is \
         not done silently; write the other word. A size that needs neither has the amount 0.",
    );
    ALTER_JOIN_FOLD = mistake(
        "alter/join-fold",
        "a join that would lose a fold",
        "A piece on the fold has its other half on the far side of that fold. Laid against another piece, its \
         fold would end up inside the new outline. Open it first, so that it is cut in pairs, or name it first \
         in the join.",
    );
    ALTER_HINGE = mistake(
        "alter/hinge",
        "a slash line that cannot be opened",
        "A flare is cut along its line from the far end and hinged at the near one, so the line must run \
         from edge to edge of the piece. This one ends inside, or lies along the edge.",
    );
    SOLVE_NONE = mistake(
        "solve/none",
        "no amount makes it true",
        "Between the least and the most that were allowed, the two sides never come out equal; what is \
         missing at both ends is shown. Widen the range, or look at whether the value reaches the side \
         that should change at all.",
    );
    SOLVE_MANY = mistake(
        "solve/many",
        "more than one amount makes it true",
        "Two different amounts would both satisfy the condition, and they would make different garments. \
         Narrow the range so that only the one that is meant is left.",
    );
    REPLACE_NOTHING = mistake(
        "replace/nothing",
        "replacing what the base does not have",
        "A variation says what differs from its base. What it replaces must be there, or the change would \
         silently do nothing. The nearest names are offered; to add something new, leave the word replace \
         out.",
    );
    DROP_NOTHING = mistake(
        "drop/nothing",
        "dropping what the base does not have",
        "A drop that finds nothing is a sign that the base has changed, or that the name is different. The \
         nearest names are offered.",
    );
    DROP_DANGLING = mistake(
        "drop/dangling",
        "something dropped is still in use",
        "A piece was taken away, but seams, closures, placements or steps still name it. Drop those too, \
         or say drop … and all sewn to it, or name another piece in them.",
    );
    DROP_ALONG = advice(
        "drop/along",
        "what is dropped along with a piece",
        "A piece dropped with all that is sewn to it takes its seams, finishes and steps with it. They are \
         listed, because the edges on the other side of those seams stay and need something new.",
    );
    VARIATION_PLACE = mistake(
        "variation/place",
        "words that belong in a variation only",
        "replace, set, drop and add change a base. This file has none: say the fact itself where it \
         stands.",
    );
    VARIATION_BASE = mistake(
        "variation/base",
        "a variation of another garment among those that are combined",
        "Variations are combined over one base: each of them changes that base, or a variation of it. What varies \
         another garment names pieces and seams that are not there. What fits many garments is written as a \
         library, which is combined with any of them.",
    );
    VARIATION_CONFLICT = mistake(
        "variation/conflict",
        "two files that are combined and do not agree",
        "Each of the files was made for the base and knows nothing of the other. Where both change one fact, or one \
         takes away what the other changes, nobody but the maker knows what is meant. Say it in the file that \
         combines them, with set, replace or drop: what it says comes last, and decides.",
    );
    VARIATION_WHICH = mistake(
        "variation/which",
        "several things that read as the one that is to be changed",
        "An alteration is named by what is done, to what and at which line; a notch by its edge. Where several read \
         so, one of them has to be told from the others: an alteration by the file it stands in, a notch by its \
         place.",
    );
    ALTER_SWALLOWED = warning(
        "alter/swallowed",
        "a given amount that makes no difference",
        "The amount that is found along a line is what is still missing there until the zip fits. What another line \
         lengthens or shortens at the same place by a given amount is found that much less or more: the garment \
         comes out as it would without it, in every size. Take the given amount away, or give the zip more length.",
    );
    MEASURE_OUTRUN = warning(
        "measure/outrun",
        "a measure that an alteration has outrun",
        "A measure that is reckoned from the figures of the draft tells what the piece was, not what it is: after \
         the piece is lengthened, the list for the wearer still says the old length. A measure taken from the piece \
         itself is worked out after all alterations.",
    );
}
