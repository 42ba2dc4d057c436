//! What is said of darts and other take-ups.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    EDGE_PLACE = mistake(
        "edge/place",
        "a place on an edge that cannot be told",
        "A place on an edge is so far from a corner, a mark on the edge, a neighbouring edge or a side of \
         another dart; or a point of the edge; or its middle. From anything else there is no way to measure it, \
         and from a mark between the ends there are two.",
    );
    DART_CORNER = mistake(
        "dart/corner",
        "a dart in a corner of the outline",
        "A dart in a walk lies between two runs of one edge: once it is sewn shut, the edge runs on over it. \
         Name the edge again behind the dart.",
    );
    DART_OFF_EDGE = mistake(
        "dart/off-edge",
        "a dart that its edge has no room for",
        "A dart takes a stretch of its edge, and something of the edge must be left on both sides of it, to be \
         sewn together over it. In the sizes named it reaches an end of the edge or goes past it.",
    );
    DART_NOTHING = mistake(
        "dart/nothing",
        "a dart without width or length",
        "A dart is a fold of cloth, sewn from its mouth towards its point. With a width of 0, or stopping short \
         by all of its length, there is nothing to sew.",
    );
    DART_OUTSIDE = mistake(
        "dart/outside",
        "a dart that does not end in its piece",
        "A dart tapers to nothing inside the piece, so that its fullness is let out there. One that leaves the \
         piece on its way takes cloth that is not there.",
    );
    DART_FOLD = mistake(
        "dart/fold",
        "a dart over the fold of a piece",
        "A piece on the fold is cut as a half, and what is drawn on it lies on both sides of the body. A dart \
         that reaches the fold would lie over its own mirror image. Take a dart in the middle as a seam there.",
    );
    DART_OVERLAP = mistake(
        "dart/overlap",
        "darts that take the same cloth",
        "Every dart folds cloth away. Where two overlap on the edge, or lie over each other inside the piece, \
         the same cloth would be folded twice.",
    );
    DART_PRESSED = mistake(
        "dart/pressed",
        "a dart of which it cannot be told which way it is pressed",
        "The cap of a dart is cut so that its raw edge lies along the edge once it is folded and pressed: so \
         which way it is pressed must be known. Both of its sides lie alike towards what is named.",
    );
    DART_KINK = mistake(
        "dart/kink",
        "an edge that turns a corner where its dart is shut",
        "A dart taken from a straight edge turns the edge, once it is shut, by as much as the dart is wide in \
         angle: 14.25° for one 3 wide and 12 long. The seam there would have a dent or a point. Drawn with the \
         dart folded shut, the edge is smooth when it is sewn: that is what truing is.",
    );
    DART_LEGS = mistake(
        "dart/legs",
        "a dart whose two legs are not equally long",
        "The legs of a dart are sewn together from its mouth to its point. If one is longer, the edge has a step \
         where they meet, or the longer leg is eased onto the shorter. A slanting dart in a straight edge always \
         has unequal legs: truing makes them equal.",
    );
    DART_SHARE = mistake(
        "dart/share",
        "a share of a dart that cannot be moved",
        "Of a dart a share of its angle can be moved: more than nothing and not more than all of it. What goes to \
         an edge of its own is a dart of its own there, with a name; what goes into another dart has that one's.",
    );
    DART_APART = mistake(
        "dart/apart",
        "darts that cannot become one",
        "Two darts become one only about one point: what is shut in the one opens in the other by turning the \
         paper between them about it. Both must belong to one piece and be directed to the same place.",
    );
    DART_REACH = mistake(
        "dart/reach",
        "a dart that cannot be opened there",
        "A dart is moved by cutting the paper from its new place straight to the point that it is directed to, \
         shutting the old mouth, and letting the new one open. The cut must lie inside the piece, begin between \
         two corners, and end inside, where the paper turns.",
    );
    DART_TURNING = mistake(
        "dart/turning",
        "paper that cannot turn so far for a dart",
        "A dart is let in by cutting the paper to the place that the dart is directed to, and turning it about that \
         place. Where the turning ends the paper laps over itself by the same angle: the lap must lie between two \
         corners of one edge, clear of other darts, and its two sides must be equally long, or the edge has a step.",
    );
    PLEAT_LET_IN = mistake(
        "pleat/let-in",
        "a pleat that cannot be let in",
        "A pleat is let in by cutting the paper along its folds, from its edge right across the piece, and moving it \
         apart; or by turning it open about the place where it ends in nothing. The cut must lie inside the piece, \
         begin between two corners, and come to the edge that is named.",
    );
    DART_CLOSE = mistake(
        "dart/close",
        "a dart shut in the middle of its piece",
        "Folded shut, a dart makes the cloth stand up at its point: a cone does not lie flat. Only when its point \
         lies on the outline, because the piece was split there, the paper lies flat with the dart shut.",
    );
    DART_GONE = mistake(
        "dart/gone",
        "a dart that the piece has no more",
        "Moved into another, shut, left unsewn, or cut away with its part of the piece, a dart is no more. What \
         comes after it must name the darts that are there then.",
    );
    DART_UNEASED = mistake(
        "dart/uneased",
        "a dart left as ease that nothing eases",
        "Left unsewn, a dart's width is cloth that its edge has too much. Eased, it is shrunk into the seam; gathered, \
         it is drawn up in it: the seam must say so, or the other side would be as long, and nothing be taken in.",
    );
    DART_NARROW = mistake(
        "dart/narrow",
        "a dart that is too narrow to be cut open",
        "A dart that is cut open keeps an allowance along each leg. Where both together are wider than the dart, \
         there is nothing between them to cut: press it to one side instead.",
    );
    DART_TINY = warning(
        "dart/tiny",
        "a dart or a pleat that takes in less than a stitch is long",
        "A dart is sewn from its legs to its point, and a pleat is folded. What takes in less than a stitch is long, \
         2.5 mm at 10 stitches an inch (common practice), can be neither: it is eased, or the figure or its unit was \
         written wrongly. A tuck may be as small.",
    );
    DART_STRIP = mistake(
        "dart/strip",
        "a strip taken over a dart",
        "A facing lies behind the piece once its darts are sewn. A strip is taken with the darts and pleats of its own \
         edges shut; one that comes in from another edge, or lies inside the piece, cannot be shut in it. Make the strip \
         narrower, or draw the facing by itself.",
    );
    DART_POINTS = advice(
        "dart/points",
        "points of darts that lie close together",
        "Two darts that end nearer to each other than 1 cm make a bubble or a dent between their points \
         (trade habit). Let one of them stop shorter.",
    );
    DART_FAR = advice(
        "dart/far",
        "a dart many times as long as it is wide",
        "Darts from an edge are 8 to 18 cm long, those from the side to the bust some 25 cm, a tailor's front dart up to 38; a long one takes in much \
         (trade habit). A thin dart of half the length of the piece is most often directed to the wrong point.",
    );
    EDGE_WRONG_WAY = advice(
        "edge/wrong-way",
        "a rise that stands out, or a cap that goes in",
        "The rise of trousers is hollow, so that it lies round the body; the cap of a sleeve stands out above the line between its \
         ends. Drawn the other way they are still as long, and are sewn, but no body fits into them. They are known by rise \
         and crotch in their names, and by cap on a sleeve.",
    );
    DART_BUST = advice(
        "dart/bust",
        "a dart that goes up past the point of the bust, or a point of the bust at the waist",
        "Darts from the waist end some 2 cm below the point of the bust, and that lies a hand above the waist, some 16 cm on a \
         grown-up (common practice). A dart that goes on past it lies across what is round; a point at the waist was given a \
         wrong height. The point is known by its name: bust_point or apex.",
    );
    DART_BUTTONS = mistake(
        "dart/buttons",
        "a dart in an edge that is buttoned",
        "Buttons are spaced along the edge as it is drawn. A dart in it would be sewn between two of them, and \
         they would no longer meet their buttonholes.",
    );
    ALTER_THROUGH_DART = mistake(
        "alter/through-dart",
        "an alteration through a dart",
        "Cut through a dart, its legs would no longer meet when it is folded. Lengthen, cut or split the piece \
         above or below it.",
    );
    DART_TO_POINT = advice(
        "dart/to-point",
        "a dart sewn to the very point of the bust",
        "Over the bust the body is round, and a dart that ends there in a point stands off as a tip. It is directed to the point \
         of the bust, and sewn to 2 to 2.5 cm before it; to none where it goes on into a seam.",
    );
}
