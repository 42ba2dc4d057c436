use super::{Entry, advice, mistake, warning};

/// What is said of alterations, amounts that are sought, and variations.
pub(super) const ENTRIES: &[Entry] = &[
    mistake(
        "alter/one-side",
        "a piece was altered and what it is sewn to was not",
        "A side seam joins two edges that were drawn to the same length. Lengthening the front alone leaves \
         the back short by as much. The message points at the alteration, since that is what changed: name \
         the partner in the same line.",
    ),
    mistake(
        "alter/no-line",
        "a piece without the line it is to be altered at",
        "A lengthen-or-shorten line is drawn where length can be added without spoiling the shape: between \
         underarm and waist, between elbow and wrist. Draw one on this piece with line … across at ….",
    ),
    mistake(
        "alter/too-much",
        "more is taken away than there is",
        "Shortening folds the paper away beyond the line, and trimming takes off what lies along an edge. \
         More than the piece has there cannot be taken in the sizes named; the message tells how much \
         there is.",
    ),
    warning(
        "alter/through-mark",
        "a line runs through something that should stay in one piece",
        "Cut along this line, a pocket, a dart or a mark would be torn in two. Move the line above or \
         below it, or say keeping.",
    ),
    mistake(
        "alter/along-grain",
        "a line that the piece cannot be lengthened at",
        "Lengthening moves the paper apart along the grain. A line that itself runs along the grain opens \
         no gap that way; use spread, which moves square to the line.",
    ),
    mistake(
        "alter/keeps-corner",
        "a corner is to be kept where it is while its edge moves",
        "A mark may stay where the hands want it. A corner belongs to the outline and goes with its edges; \
         held back, it would tear them.",
    ),
    mistake(
        "alter/join-apart",
        "two pieces whose edges do not lie together",
        "Pieces are joined by laying edge to edge, so both edges must have the same length and the same \
         course. Both lengths are shown. A shaped seam cannot be taken out without a fold; straighten it \
         first, or redraw one of the two.",
    ),
    mistake(
        "alter/not-fold",
        "an edge to be opened that is no fold",
        "open makes an edge of a fold, so that the front has two halves. This piece is not cut on the fold \
         along that edge. close is the other way: it makes a fold of a straight edge of a mirrored pair.",
    ),
    mistake(
        "alter/lost",
        "an alteration that breaks the outline",
        "Worked in the order written, this alteration leaves an outline that crosses itself or falls apart \
         in the sizes named. Look at the amount, and at what was done to the piece before.",
    ),
    mistake(
        "alter/neighbours",
        "an edge moved so far that its neighbours do not meet it",
        "When an edge moves out, its neighbours go on straight until they meet it. Here they run beside it \
         or away from it and never do. Move it less, or redraw the neighbours.",
    ),
    mistake(
        "alter/hinge",
        "a slash line that cannot be opened",
        "A flare is cut along its line from the far end and hinged at the near one, so the line must run \
         from edge to edge of the piece. This one ends inside, or lies along the edge.",
    ),
    mistake(
        "solve/none",
        "no amount makes it so",
        "Between the least and the most that were allowed, the two sides never come out equal; what is \
         missing at both ends is shown. Widen the range, or look at whether the value reaches the side \
         that should change at all.",
    ),
    mistake(
        "solve/many",
        "more than one amount makes it so",
        "Two different amounts would both satisfy the condition, and they would make different garments. \
         Narrow the range so that only the one that is meant is left.",
    ),
    mistake(
        "solve/tangled",
        "two unknowns that hang on each other",
        "One unknown can be found by trying. Two that change each other have many answers together. Give \
         one of them a measure, or let one closure's length decide.",
    ),
    mistake(
        "replace/nothing",
        "replacing what the base does not have",
        "A variation says what differs from its base. What it replaces must be there, or the change would \
         silently do nothing. The nearest names are offered; to add something new, leave the word replace \
         out.",
    ),
    mistake(
        "drop/nothing",
        "dropping what the base does not have",
        "A drop that finds nothing is a sign that the base has changed, or that the name is another. The \
         nearest names are offered.",
    ),
    mistake(
        "drop/dangling",
        "something dropped is still in use",
        "A piece was taken away, but seams, closures, placements or steps still name it. Drop those too, \
         or say drop … and all sewn to it, or name another piece in them.",
    ),
    advice(
        "drop/along",
        "what goes with a dropped piece",
        "A piece dropped with all that is sewn to it takes its seams, finishes and steps along. They are \
         listed, because the edges on the other side of those seams stay and need something new.",
    ),
    mistake(
        "variation/place",
        "words that belong in a variation only",
        "replace, set, drop and add change a base. This file has none: say the fact itself where it \
         stands.",
    ),
    mistake(
        "alter/gone",
        "a piece that is no more, or not there yet",
        "Alterations happen in the order written, as on paper. After a split or join the old piece \
         is no longer on the table, and before it the new ones are not there yet. Name the pieces \
         that lie there at that line.",
    ),
    mistake(
        "alter/not-altered",
        "something kept on a piece that is not altered",
        "Keeping holds a mark in its place while the paper round it moves. Where the paper does not \
         move there is nothing to hold, so the line probably names the wrong piece.",
    ),
    mistake(
        "alter/join-fold",
        "pieces that cannot be joined because one lies on the fold",
        "A half on the fold has its other half on the far side of the fold. Joining another piece \
         there would need two of it. Open the fold first, or join at another edge.",
    ),
    mistake(
        "alter/negative",
        "an alteration by less than nothing",
        "Lengthening by less than nothing is shortening, and extending is trimming. Say which of \
         the two is meant, so that a reader of the file sees it too.",
    ),
    mistake(
        "alter/no-fold",
        "opening an edge that is no fold",
        "Only a fold can be opened, and only an edge of a piece cut in pairs can be closed into \
         one. Look at how the piece is cut.",
    ),
    mistake(
        "alter/no-pair",
        "closing an edge of a piece that is not a pair",
        "Closing lays the two copies of a mirrored pair against each other and makes them one piece \
         on the fold. A piece that is not cut in mirrored pairs has no second copy to lay there.",
    ),
];
