//! What is said of hems, bindings and casings: how much room they need, and how they fold.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    HEM_UNDER = mistake(
        "hem/under",
        "more is turned under than the hem is deep",
        "The raw edge is folded in between hem and cloth, so it must be narrower than the hem: what is more \
         comes out again at the fold. The two amounts are easily said the wrong way round; the first is how \
         deep the finished hem is.",
    );
    HEM_TURN_UP = warning(
        "hem/turn-up",
        "a turn-up that is not deeper than its hem",
        "A turn-up is folded up on the outside over the row that sews its hem. Where the hem is deeper, that row \
         shows above the turn-up. Of a turn-up that is 0 deep nothing is folded up at all.",
    );
    HEM_DEEP = mistake(
        "hem/deep",
        "a finish deeper than the piece",
        "What is turned over lies on the piece, and a binding lies on it as wide as it is. Deeper than the piece \
         it comes out at the other side, or is caught in the seam there. Turn less, or face the edge.",
    );
    HEM_HALF = warning(
        "hem/half",
        "a hem deeper than half of the piece",
        "Hems are turned up by 1 to 5 cm. One that covers more than half of its piece makes all of it of two plies, and \
         its row lies nearer to the other edge than to its own: most often the figure or its unit is a slip. A \
         pocket or a band that is to be of two plies is drawn twice as deep, and folded.",
    );
    HEM_CROSSES = mistake(
        "hem/crosses",
        "two finishes lie over one another",
        "From two edges that face each other a hem, a casing or a binding is turned onto the same cloth. Where \
         they are deeper together than the cloth between the edges, one is sewn through the other: a casing is \
         sewn shut, a hem becomes four layers thick.",
    );
    HEM_CORNER = warning(
        "hem/corner",
        "the end of a hem sticks out when it is turned",
        "The allowance is turned onto the piece, so its ends are cut as the mirror image of the sides, once for \
         each fold. Cut otherwise, the corner shows beside the edge, or is caught in its seam.",
    );
    BIND_CURVE = mistake(
        "bind/curve",
        "a binding wider than its curve is round",
        "A binding is a strip that is bent round the edge. Round an outside curve its inner side is sewn along \
         a smaller circle, of which nothing is left when the binding is as wide as the curve's radius; round an \
         inside curve its folded side must shrink, and even a strip on the bias gives less than half. Take a \
         narrower one, or face the edge. Sharp corners are mitred and are not meant here.",
    );
    BIND_RUNS_ON = mistake(
        "bind/runs-on",
        "a binding that runs on where it cannot",
        "Beyond the end of its edges a binding goes on by itself, as a tie; at a corner it makes a loop before it \
         goes on along the next edge. Round a ring it has no end, and a loop is made only where an edge that is bound \
         ends.",
    );
    FINISH_ONTO = mistake(
        "finish/onto",
        "an edge that is felled onto a seam of another length",
        "The inner edge of a band, a collar or a lining is turned under and sewn down by hand onto the stitching of a \
         seam, along all of it. Longer than the seam it is puckered; shorter it does not reach.",
    );
    ALLOWANCE_NONE = mistake(
        "allowance/none",
        "a seam without an allowance",
        "Stitches need cloth on both sides of them. On the very edge they pull out of it, a woven cloth frays from \
         under them at once, and nothing can be pressed open or let out. Edges are bound or left raw without an \
         allowance, but they are not sewn together there, unless by hand or with a stitch for edges that touch.",
    );
    ALLOWANCE_SCANT = warning(
        "allowance/scant",
        "a seam nearer to the edge of the cloth than 3 mm",
        "Cloth frays, and a seam that lies two or three threads from the edge comes out in wear or under the first \
         pull. 3 mm are the least that is left even where an allowance is trimmed and turned, or overlocked (common \
         practice). Often a unit was meant otherwise: a bare number is in the garment's own.",
    );
    BUTTON_FACING = mistake(
        "button/facing",
        "a facing that does not reach behind the buttons",
        "Buttonholes are worked through front and facing, and buttons are sewn on through both. A facing that \
         ends before them leaves its raw or seamed edge in the middle of the buttonholes. It reaches a good way \
         beyond the row, common practice is twice the stand and more.",
    );
    BUTTON_FACING_SHORT = advice(
        "button/facing-short",
        "a facing that ends behind the buttonholes",
        "A buttonhole that lies across begins 3 mm, or 1/8 in, from the button's middle towards the edge, and goes on \
         into the garment by the rest of its length (common practice). The facing goes on beyond its end. Along a \
         band, where buttonholes lie up and down, half a button and a little more is enough.",
    );
    PLACE_OVER_BUTTONS = advice(
        "place/over-buttons",
        "what is placed covers the buttons",
        "A pocket over a row of buttons or buttonholes is sewn through by them, and its stitches lie under the other \
         front. A band, tab or flap that is buttoned itself lies there by design: its own line is named in the \
         closure.",
    );
    FOLD_SLANT = warning(
        "fold/slant",
        "a piece cut on a fold that is not straight to the grain",
        "Cloth is folded along its grain, across it, or on the bias. On a fold in between the two halves hang to \
         opposite sides, and whatever crosses the fold square to the grain makes a point or a dip in the middle.",
    );
}
