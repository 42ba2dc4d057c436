//! What is said of what is placed on a piece, and of what lies there already.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    PLACE_THROUGH = warning(
        "place/through",
        "a piece that is stitched on after what it lies on is closed in",
        "A pocket is stitched to the outside alone. Once outside and lining are sewn together all round, nobody gets \
         between them: the stitching goes through both, shows inside, and holds the lining fast. What is placed is \
         placed before.",
    );
    PLACE_SMALL_MOUTH = advice(
        "place/small-mouth",
        "a pocket into which no finger goes, or that holds nothing",
        "What is stitched down on all sides but one is a pocket. A narrow one for a pen is 3 to 4 cm wide (common \
         practice); narrower than 2 cm it is rather a figure or a unit that was written wrongly, or a badge that \
         wants to be stitched on all round. What is less than 3 cm deep holds nothing.",
    );
    PLACE_OVER_DART = warning(
        "place/over-dart",
        "a piece stitched down across a dart",
        "A dart takes cloth out of the piece that it is sewn in, and the flat pocket over it is drawn without one: its \
         stitching is longer than what it lies on, by as much as the dart is wide there. Move the pocket clear of the \
         dart; or give it a dart of its own, sewn before it is placed.",
    );
    PLACE_IN_HEM = warning(
        "place/in-hem",
        "a piece stitched down where a hem comes to lie",
        "The hem is turned up behind the pocket: its depth lies there twice, and the row that holds it goes through the \
         pocket and shuts it. Place the pocket above the hem; or, where both are meant to be sewn through, turn the \
         hem first. What lies over a casing shuts the channel.",
    );
    PLACE_OVER_POCKET = mistake(
        "place/over-pocket",
        "two placed pieces one over the other",
        "The stitching of the one goes through the other and shuts it where a hand should go in. What belongs on a pocket \
         is placed on the pocket itself, before that is sewn on; else move one of the two.",
    );
    PLACE_MOUTH_DOWN = advice(
        "place/mouth-down",
        "a pocket that opens downward",
        "Of a patch pocket the edge that is left open is its upper one, or what is put into it falls out. Which edges are \
         stitched down is said by topstitch; the others stay open.",
    );
    DART_BLUNT = warning(
        "dart/blunt",
        "a dart that is sewn for less than it is wide",
        "A dart runs out to nothing over a length, so that the cloth lies smooth round its point: of a dart of 2 cm some \
         8 to 14 cm. Sewn for less than it is wide, or stopped more than half way before the place that it is directed \
         to, it ends in a bag of cloth. Let it stop nearer to its point, or make it narrower.",
    );
    NOTCH_FOLD = mistake(
        "notch/fold",
        "a notch that is snipped into a fold",
        "A notch is snipped from the cut edge inward. A fold has no cut edge: a snip there is a hole in the middle of the \
         piece. The middle is shown at the edges above and below, or by a mark.",
    );
    NOTCH_IN_DART = mistake(
        "notch/in-dart",
        "a notch in the mouth of a dart or pleat",
        "What lies between the legs of a dart is folded away when it is sewn, and a notch there meets nothing. Both legs \
         have snips of their own. Count the notch from one of them.",
    );
    ALLOWANCE_WIDE = warning(
        "allowance/wide",
        "a seam allowance wider than is let out",
        "Seams have 1 to 2.5 cm of allowance, side seams that are to be let out 5. Far more is most often a slip of the \
         unit or of the decimal point, and the cloth is bought and cut for it. What is turned up is said of its edge: \
         finish … hem.",
    );
    FOLD_NARROW = warning(
        "fold/narrow",
        "a band folded to less than can be turned",
        "A band that is folded along its middle is drawn twice as high as it is worn. One that is drawn with the height that it \
         is to have, or in another unit, is folded to a thread: less than 6 mm from the seam to the fold cannot be turned. \
         Piping, which lies between two other pieces, may be narrower.",
    );
    HEM_TINY = warning(
        "hem/tiny",
        "a hem, a casing, a french seam or a facing too narrow to be sewn",
        "A rolled hem has 2 mm, a casing for the narrowest elastic or cord 5. Facings are 4 to 7 cm wide; hardly wider than \
         the allowances behind them they turn to the outside again. A french seam is twice as wide as its cloth is thick. Less is most often a slip of the unit or of the \
         decimal point.",
    );
    LENGTH_OUT_OF_USE = warning(
        "length/out-of-use",
        "a stand, a band, a cord, a strap, elastic, an ease … larger than any that is sewn",
        "The stand of a double-breasted front is some 10 cm wide, makers turn through 13 to 25 cm, a tie goes twice round \
         and hangs down, and a tape lies on the allowances of its seam. Elastic is narrower than a sixth of what it goes \
         round, and the roomiest of smocks have some 50 cm more than the body. Far more is most often a slip of the unit or of \
         the decimal point, and is bought and cut.",
    );
    GAP_OUTSIDE = advice(
        "gap/outside",
        "a gap for turning in the outside of what is lined",
        "The gap is closed by hand, and that shows. Makers leave it in the lining, in a sleeve or a side seam, where \
         nobody sees it.",
    );
    PLACE_APART = warning(
        "place/apart",
        "placed pieces that are joined, and lie apart",
        "Two pieces that are stitched down beside one another and joined by a zip or a seam, as the lower and the upper part \
         of a pocket with a zip, meet along those edges where they are placed. Placed further apart than a zip is wide, \
         they cannot be stitched down flat: one of the marks is where it was not meant.",
    );
    PLACE_FLAP = warning(
        "place/flap",
        "a flap that does not cover the mouth of its pocket",
        "A flap is stitched down close above the mouth of its pocket, and hangs over all of it: makers cut it a few millimetres \
         wider than the mouth, so that nothing looks out beside it. One that is narrower, lies to one side or ends above the \
         mouth keeps no rain out. A tab that only holds the mouth shut is far narrower.",
    );
    PLACE_IN_TUBE = advice(
        "place/in-tube",
        "a patch stitched onto a sleeve or a leg that is closed already",
        "A patch on a knee or an elbow is stitched down while the leg or the sleeve lies flat. Once its seams are sewn it is a narrow \
         tube, in which the machine turns no corner, and the row catches the layer behind.",
    );
    STRAP_BEFORE_HEM = advice(
        "strap/before-hem",
        "a strap sewn on before the hem behind it is turned",
        "A hem is turned up behind the end of a strap that is sewn on within its depth. Sewn on first, the strap's end lies \
         across the fold of the hem, and the row that holds the hem goes through it. Turn the hem, then sew the strap on; \
         or let the seam or the hem's fold take its end in.",
    );
    STRAP_OFF_EDGE = mistake(
        "strap/off-edge",
        "a strap that lies along an edge, half of it beside the cloth",
        "A strap is sewn on with its mark in the middle of its width. One that goes straight from mark to mark along a \
         free edge needs half its width of cloth beside both marks; what hangs over the edge is held by nothing. Over \
         a seam it goes on on the other piece, as a belt loop on a side seam does.",
    );
    STRAP_OVER_CORNER = advice(
        "strap/over-corner",
        "a strap that lies over the end of the seam that catches it",
        "A strap is caught with its place in the middle of its width. Nearer to the end of the seam than half of that, a part of \
         it lies round the corner: no stitch holds it there, and it is in the way of the hem or the seam round the corner. Where \
         the seam goes on, round the corner or on the next piece, it is caught all along.",
    );
    STRAP_DRAWS_TOGETHER = advice(
        "strap/draws-together",
        "a strap that is far shorter than what lies between its ends",
        "A strap from the one side of an opening to the other, under a boot or over a bag, lies across it. One that is shorter \
         than the opening is wide between its ends draws the opening together. Two places on a round opening that lie so far \
         apart along it are at least 2/π of that apart straight across. Between two places anywhere a strap with less than a \
         third of the way over the cloth crumples all that lies between.",
    );
    STRAP_LONG = advice(
        "strap/long",
        "two straps far longer than what they are buckled across",
        "Two straps that are caught at their one ends, as at the sides of a back, meet between these. Where each goes all the way, \
         both together are twice as long, and a tongue goes on beyond the buckle. What is longer hangs down; most often it is a \
         slip of the unit.",
    );
    STRAP_SLANT = advice(
        "strap/slant",
        "two straps that are caught at unlike heights",
        "Straps that are buckled across a back are caught in both of its side seams at one height. Where the one is caught higher, \
         they pull the one side up and the other down; most often a figure was changed on one side alone.",
    );
    STRAP_LAYERS = warning(
        "strap/layers",
        "two straps that are buckled to one another and hang from two layers of one piece",
        "A cinch is sewn on with both halves outside, or with both inside. One half on the outside of a back and the other on its \
         lining have both layers between them, and meet nowhere.",
    );
    STRAP_ONE_SIDE = advice(
        "strap/one-side",
        "a strap for each shoulder that ends on the piece on which it begins",
        "Of what is worn round the trunk a strap on each side goes over the shoulder, from the front to the back. Both of its \
         ends on the front of one side make a loop that holds nothing up; most often the second end names the wrong piece.",
    );
    STRAP_OVERLAP = advice(
        "strap/overlap",
        "straps that lie over one another where they are sewn on",
        "Straps that hang side by side need as much room as they are wide. Of a pair on both sides of a fold each has half its \
         width between its mark and the fold. Where one lies partly over the other, the needle goes through both, and \
         neither lies flat.",
    );
    STRAP_SAME_PLACE = advice(
        "strap/same-place",
        "two straps that hang from one place",
        "Of a pair of ties the one hangs on the left and the other on the right, or each at its own mark. Two that hang free \
         from one and the same place are most often one place written twice.",
    );
    CLOSURE_TINY = warning(
        "closure/tiny",
        "fasteners smaller than any that are sold, ties too short to be tied",
        "Buttons, snaps and buckles are sold from some 5 mm on, toggles from 2 cm. A knot takes some 12 cm of each tie, a bow 20 \
         to 30. Less is most often a slip of the unit.",
    );
    STRAP_TIGHT_LOOP = advice(
        "strap/tight-loop",
        "a loop with no room in it",
        "A loop whose two ends are sewn on in one place hangs down by half of what is left between them. Where less is left \
         than it is wide it is a tab, and no hook goes through. Of its length the ends that no seam catches are sewn on.",
    );
    SLIT_FRONT = advice(
        "slit/front",
        "a sleeve's slit on the front of the arm",
        "The slit above a cuff lies at the back of the arm, in line with the little finger, where the elbow bends away from \
         it (common practice). On the front half it gapes at the inside of the wrist.",
    );
    ALTER_NOTHING = warning(
        "alter/nothing",
        "an alteration by nothing",
        "It is lengthened, extended or flared by 0 in every size, so that all stays as it was. Most often a number was left \
         to be filled in later.",
    );
    SIZE_ALIKE = warning(
        "size/alike",
        "sizes that cannot be told apart by what they are picked by",
        "Whoever looks for a size compares one measure of the body with the table. Where two sizes have the same there, \
         nobody knows which of them to take.",
    );
    SIZE_ORDER = warning(
        "size/order",
        "sizes that are called in another order than the body grows",
        "S is smaller than M, and 38 than 40: whoever sews a garment takes the size that is called as theirs. Where every row of \
         the body grows from one size to the next and the name goes down, names or figures stand in the wrong order.",
    );
    CLOTH_ODD = warning(
        "cloth/odd",
        "a figure that no cloth has",
        "Cloth for clothes is at most some millimetres thick and 3 m wide, and stretches to three times itself at the most; \
         it shrinks by a tenth, seldom by more. More is a slip of the unit, or a share without its per cent sign.",
    );
    GAP_NEEDLESS = warning(
        "gap/needless",
        "a gap for turning where nothing is closed",
        "A gap is left in what is sewn right sides together all round, so that it can be turned. Where no second layer and \
         no bag lie behind the seam, there is nothing to turn: the gap is sewn up again by hand for nothing.",
    );
    VALUE_NOTHING = mistake(
        "value/nothing",
        "something of no size",
        "A hem of 0 is no hem, and there is no binding, button or tie of no width or length. Often a number was left to be \
         filled in later, or a difference came out as nothing. What is not meant to be there is left out of the file.",
    );
    PIECE_TINY = mistake(
        "piece/tiny",
        "a piece too small to be cut",
        "It is drawn smaller than a stitch is long. Most often that is a slip of the unit: millimetres typed in a file of \
         metres, or the point of a decimal in the wrong place.",
    );
    PIECE_HUGE = warning(
        "piece/huge",
        "a piece longer than anybody is tall",
        "No piece of a garment is longer than some three metres, unless it is a narrow sash. Most often that is a slip of the \
         unit: millimetres typed in a file of centimetres.",
    );
    TOLERANCE_WIDE = warning(
        "tolerance/wide",
        "a tolerance that hides mistakes",
        "Edges that are sewn together may differ by the tolerance, and nobody is told. Up to 1 cm is eased in along a long \
         seam; beyond that two edges no longer match, and the garment hangs askew. 2 mm is usual. If a seam is to take up \
         more, say easing in that seam.",
    );
}
