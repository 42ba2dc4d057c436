//! What is said of drawing: outlines, lines, marks, sizes, and pieces placed on others.

use super::{Entry, mistake, warning};

catalogue_entries! {
    OUTLINE_CROSSES = mistake(
        "outline/crosses",
        "an outline that crosses itself",
        "Scissors cannot follow a line that crosses itself: a part of the piece would lie on both sides of \
         the cut. It often happens in the smallest or the largest size only, where one measure overtakes \
         another. The message says in which sizes and where.",
    );
    OUTLINE_COLLAPSES = mistake(
        "outline/collapses",
        "an outline that holds no cloth",
        "In this size the corners fall together or on one line, so nothing is left to cut. Look at the \
         measures that the corners are placed by: one of them is 0, or as large as the one it is \
         taken from.",
    );
    OUTLINE_OPEN = mistake(
        "outline/open",
        "an outline that does not come back to where it began",
        "A piece is cut round. The last edge of the walk must end at the corner where the first began.",
    );
    OUTLINE_MISSING = mistake(
        "outline/missing",
        "a piece without an outline",
        "A piece is its outline. Give it one: a walk from corner to corner, a rectangle, a strip or a copy \
         of another piece.",
    );
    PIECE_LIKE = mistake(
        "piece/like",
        "a piece that cannot be like another so",
        "A piece that is like another has all lines of that, but for what its own braces draw anew or leave out: \
         piece back \"Back\" like front { without pocket_corner; point neck_centre = (0, -2) }. Edges in outline { … } \
         stand in the place of those of the same names. The other piece must be drawn in braces itself, and the \
         outline must still go from corner to corner.",
    );
    CUT_MISSING = mistake(
        "cut/missing",
        "a piece that does not say how it is cut",
        "How many, and whether on the fold or mirrored, cannot be seen from the outline: half a front looks \
         the same on a fold as with a seam. Say cut 1 on fold centre, cut 2 mirrored or cut 1; or call it a \
         block piece if it is never cut.",
    );
    POINT_GONE = mistake(
        "point/gone",
        "a corner or mark that is no longer there",
        "An alteration before this line has taken the place away: the paper around it was cut off, or \
         became part of another piece. Name a place that is there now.",
    );
    LINE_MISSES = mistake(
        "line/misses",
        "a line that does not meet the piece",
        "A line across a piece runs until it meets the outline on both sides. This one lies beside the \
         piece in the sizes named, so there is nothing to cut or measure along it.",
    );
    LINE_CURVED = mistake(
        "line/curved",
        "a curve where paper is moved along a straight line",
        "Paper that is cut and moved apart, lapped or turned must be cut along a straight line: along a curve the two \
         sides would not lie side by side any more. Along a curve a piece can be split in two, or cut off.",
    );
    MARK_OUTSIDE = mistake(
        "mark/outside",
        "a mark that is not on the piece",
        "A mark is made on the cloth. Outside of the outline there is none, so it would be lost at the \
         cutting table.",
    );
    SIZE_IRREGULAR = warning(
        "size/irregular",
        "a measure that shrinks or jumps from one size to the next",
        "Measures grow from size to size by steps that change little. A step that goes back, or is several \
         times its neighbours, is most often a figure mistyped in the table. If it is meant, nothing needs \
         to be changed.",
    );
    SIZE_LINES_CROSS = warning(
        "size/lines-cross",
        "the same edge of two sizes crosses when the sizes are nested",
        "Laid over each other, the sizes of a piece should lie one within the next. Where their lines \
         cross, the larger size is the smaller one in some place, and whoever cuts along nested lines \
         takes the wrong one.",
    );
    NOTCH_OFF_EDGE = mistake(
        "notch/off-edge",
        "a notch beyond the end of its edge",
        "A notch is measured along its edge from a corner. In the sizes named the edge is shorter than \
         that, so there is no cloth to snip. Measure from the other end, or by a share of the edge.",
    );
    NOTCH_ODD = mistake(
        "notch/odd",
        "one notch meets two",
        "Notches that are to meet look alike, or it is not known whether they are meant to: two at one place say \
         back, one says front. Sewn by them, a sleeve would go in the wrong way round.",
    );
    NOTCH_CLOSE = mistake(
        "notch/close",
        "notches too close to be told apart",
        "Two snips 6 mm apart are one double notch, so single ones stand at least 1 cm apart (common practice). \
         Notches that divide a seam into more parts than that tell the sewer nothing. Take fewer.",
    );
    FOLD_BEYOND = mistake(
        "fold/beyond",
        "a half that goes on beyond the fold that it is cut on",
        "A piece on the fold is cut through two plies, and opened out. What its half has beyond the line of the fold would be \
         cut out of what its other half has there: half a brim or collar of more than a half turn cannot be cut so.",
    );
    NOTCH_UNMET = mistake(
        "notch/unmet",
        "a notch that has none to meet, so that others lie beside one another",
        "Where one side of a seam is eased in, what is too much is spread between the notches that meet. A notch on one \
         side only is such a place to the one piece and none to the other, and those that meet beyond it come to lie \
         some millimetres apart. Say its partner, or take it out.",
    );
    FOLD_INSIDE = mistake(
        "fold/inside",
        "something sewn to an edge that lies inside a piece folded in four",
        "Folded in four, a strap has both its long edges in its middle, with the outer halves shut over them: nothing \
         frays and nothing is seen, and no seam, binding or zip can be sewn along them. Sew its ends; or fold it \
         once, so that its edges lie open in a seam.",
    );
    FOLD_UNEQUAL = mistake(
        "fold/unequal",
        "edges that are folded onto each other differ in length",
        "A folded band or collar lies flat when its two long edges are alike, so that one covers the other. \
         Where they differ the layers twist, and one of them is left over at the ends. A shape that differs is \
         cut twice and sewn together.",
    );
    DIVIDE_OFF_EDGE = mistake(
        "divide/off-edge",
        "an edge divided beyond its end",
        "Dividing makes two edges of one, each with a length. In the sizes named the place of division is \
         at or past the end, and one of the two would have none.",
    );
    ARC_RADII = mistake(
        "arc/radii",
        "an arc whose two ends are not equally far from its centre",
        "Every point of a circle is as far from its centre as any other. The start and end of this arc are \
         not; both distances are shown. Move the centre or one of the corners: for a round skirt, waist \
         corners one radius from the centre, hem corners one radius plus the length.",
    );
    CURVE_NO_DIRECTION = mistake(
        "curve/no-direction",
        "words that do not give a curve a direction",
        "A curve may leave toward a point, along an edge or square to it. Toward the very point it starts \
         from, or along an edge without a length, is not a direction. Name a point further off, or give the \
         direction as an angle.",
    );
    CURVE_CUSP = mistake(
        "curve/cusp",
        "an edge that comes to a point between its corners and turns back",
        "The handles of this edge are so long that they run past each other, and between them the edge comes to a \
         stop and goes back. Neither scissors nor a seam can follow it, and its allowance would have no direction \
         there. Shorten the handles; where a point is meant, it is a corner and has a name.",
    );
    CUTTING_ALLOWANCE = mistake(
        "cutting/allowance",
        "a piece drawn as it is cut, whose allowance is not known or is not one",
        "An outline that is drawn with its allowances on is sewn as far inside as each edge's own allowance says: \
         its finish's, else its seam's, else the piece's or the garment's. Where nothing says it, or two say \
         different ones, nobody can tell where the stitching line lies.",
    );
    CUTTING_CORNER = mistake(
        "cutting/corner",
        "a corner of a cutting line that cannot be undone",
        "From a corner of the cutting line one goes back to that of the stitching line where both edges' lines, each \
         its allowance inside, meet. They do not where edges with different allowances go on in one another, and \
         a hem's end that is cut as its mirror image, or a corner cut off square or blunt, would not come out as it \
         is drawn. The message says which corner, and by how much.",
    );
    CUTTING_NARROW = mistake(
        "cutting/narrow",
        "a piece drawn as it is cut that is narrower than its allowances",
        "Inside the cutting line, by the allowance of each edge, lies what is sewn. Where a curve bends more tightly \
         than its allowance is wide, or a strip is narrower than the two at its sides, no stitching line is left.",
    );
    STRIP_BROKEN = mistake(
        "strip/broken",
        "a strip along edges that cannot be cut in one",
        "A facing follows edges that join end to end, and must be narrow enough to lie within the piece. \
         These edges are apart or on different sides of the body, or the strip is wider than the piece where they \
         turn. Name the edges in order, or make the strip narrower.",
    );
    EDGE_GONE = mistake(
        "edge/gone",
        "an edge that is no longer there",
        "An alteration before this line has taken the edge away: it was cut off, joined inside, or divided \
         into others. Name what is there now.",
    );
    PLACE_GONE = mistake(
        "place/gone",
        "a placed piece that has become others",
        "A piece that is split or joined lives on in what it becomes, and these have corners and edges of their own. \
         How each of them lies, and which of its edges are stitched down, must be said anew.",
    );
    PLACE_COUNT = mistake(
        "place/count",
        "more places than pieces, or fewer",
        "What is placed on a front is there on the left and on the right one, and beside the fold of a half it \
         is there on both sides when the half is opened out. As many must be cut as there are places. Across the \
         middle of a half it is there once.",
    );
    PLACE_SHUT = warning(
        "place/shut",
        "a piece sewn down all round",
        "A pocket keeps one edge open, hemmed, bound or folded, or nothing goes into it. A patch is sewn down all \
         round, and says so: topstitch all round.",
    );
    PLACE_OUTSIDE = mistake(
        "place/outside",
        "a piece placed past the edge of what it is placed on",
        "A pocket that reaches over an edge cannot be sewn on flat. Some makers mean to catch it in the \
         seam there: then say caught, and let the edge lie on it. Otherwise move its mark.",
    );
    PLACE_BELOW_HEM = mistake(
        "place/below-hem",
        "a piece placed below the hem",
        "The hem is turned up or taken into its band, and a pocket that hangs below it is sewn shut or \
         hangs in the air. It happens when a garment is shortened and the pocket keeps its place. Raise \
         the mark, or shorten the pocket.",
    );
    PLACE_OVER_LINE = mistake(
        "place/over-line",
        "a piece placed across a seam or an opened fold",
        "What lies across a fold that has been opened, or across a seam, would close it again. Move it to \
         one side, or cut it in two.",
    );
    PLACE_NOT_CAUGHT = mistake(
        "place/not-caught",
        "an edge that should be caught in a seam does not reach it",
        "The lower edge of a patch pocket may be held by the hem band's seam. Kept where the hands want it \
         while the garment is lengthened, it no longer reaches down to the seam and its edge hangs free. \
         Make the pocket longer by the same amount, or close its edge with topstitching.",
    );
    PLACE_CORNERS_APART = mistake(
        "place/corners-apart",
        "corners that lie further apart than they do on the placed piece",
        "A piece is laid down flat and is not stretched: two of its corners can be put on two marks only \
         if the marks are as far apart as the corners. Both distances are shown. Place one corner only, \
         or move a mark.",
    );
    PLACE_KEPT_NOTHING = mistake(
        "place/kept-nothing",
        "a mark is to be kept where it would not have moved",
        "keeping holds a mark where it is while the paper beyond the line moves. This mark is not beyond \
         the line, or not on a piece that is altered.",
    );
    PLACE_NOWHERE = mistake(
        "place/nowhere",
        "a placement that does not say where",
        "Which corner of the pocket goes to which mark decides where it lies. Say corner, with a corner of \
         the placed piece and a mark of the piece under it.",
    );
    FOLD_UNCUT = mistake(
        "fold/uncut",
        "a piece on the fold, placed across a fold that was opened",
        "A piece cut on the fold comes off the table whole. Where the piece under it has been opened into \
         two halves, the whole one would bridge the opening. Open it too, or move it to one half.",
    );
    FOLD_CURVED = mistake(
        "fold/curved",
        "a piece on the fold along an edge that is not straight",
        "Cloth folds along a straight line only. Straighten the edge, or cut the piece mirrored with a \
         seam there.",
    );
    PAIR_SAME = mistake(
        "pair/same",
        "a shaped piece cut twice the same way up",
        "Two sleeves cut alike are two left sleeves. A piece whose two sides differ is cut mirrored, once \
         with the pattern turned over.",
    );
    PAIR_COUNT = mistake(
        "pair/count",
        "a number of copies that cannot be cut",
        "Pieces are counted: once or more, in whole numbers. A sum that gives the count must come to one in \
         every size.",
    );
    PAIR_ODD = mistake(
        "pair/odd",
        "pairs of an odd number",
        "Mirrored copies come in twos: one of each hand. Three of them leave one without a partner.",
    );
}
