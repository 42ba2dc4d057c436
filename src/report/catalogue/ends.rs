//! What is said of ends: which way round edges are sewn, and where zips begin and end.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    SEAM_END_FOR_END = mistake(
        "seam/end-for-end",
        "an edge is sewn end for end to its own twin in another layer, or to its neighbour",
        "A lining lies in the shell as it is drawn: the upper end of an edge on the upper end of the same edge. \
         Sewn end for end the lining hangs upside down or back to front. Only a piece that is its own mirror \
         image comes out the same, because its left and right copies then change places; not where another seam sews both \
         layers corner on corner, as it does those of a flap. Two panels side by side \
         likewise meet corner by corner, as the corners are called.",
    );
    SEAM_BACK_TO_FRONT = warning(
        "seam/back-to-front",
        "a sleeve, a hood, a collar or a band seems to be set in back to front or upside down",
        "A sleeve's crown lies at the shoulder, and its ends meet under the arm. One that differs in front and \
         back fits its armhole one way round, front on front; the other way round the left sleeve is on the right. \
         Which ends meet is said by matching. A sleeve that is the same on both sides of its middle may go either \
         way round. A hood, a collar or a band opens where the garment opens; on a neck that is closed all round it opens in front, \
         where the neck is deeper.",
    );
    SEAM_UPSIDE_DOWN = warning(
        "seam/upside-down",
        "a corner is matched with another one than its namesake",
        "Where both pieces of a seam have a corner of one name, each at an end of the seam, these two are meant \
         to meet. Matched with the other end the one piece lies upside down beside the other: its waist is at the \
         other's hem. Gores that are laid so on purpose bear names for where they come to lie.",
    );
    SEAM_PINCHED = mistake(
        "seam/pinched",
        "a piece closed round by itself is taken in a row with others",
        "Along a row of edges each ends where the next begins. A panel whose own two sides are sewn together is a \
         cone: both ends of its lower edge are one place, and what is sewn along the row would be drawn together \
         there. Sew each panel to the next.",
    );
    SEAM_DRAWN_TOGETHER = mistake(
        "seam/drawn-together",
        "a piece laid in a seam end for end, so that one corner of it is sewn to two places",
        "What lies on a part of a seam, as a pocket bag does in a waist, and is sewn to the same piece by another edge too \
         has its corner in one place. Laid in the seam end for end, that corner would be sewn to two places of the piece \
         under it, which are drawn together by that.",
    );
    CLOSURE_ONE_SIDE = advice(
        "closure/one-side",
        "edges that are closed on one side of the body and hang open on the other",
        "A zip in the left side seam has a seam across from it on the right. Where both sides are open and only one of them is \
         laced, tied or buttoned, the other hangs open: most often a word is left over from a closure on one side.",
    );
    CLOSURE_OWN_EDGE = warning(
        "closure/own-edge",
        "what is fastened on the cloth that it hangs from, or on itself",
        "A flap that is sewn to the one edge of a mouth goes over to the other and is fastened there, so that it shuts the \
         mouth. Fastened on the piece that it is sewn to, it is only folded back, and the mouth stays open. Of a piece that is \
         cut on the fold, left and right are one cloth: where nothing opens between them, snaps to the left and to the right \
         of the fold only bunch it up. What is to open is cut apart there.",
    );
    BAG_OPEN = mistake(
        "bag/open",
        "the two halves of a pocket bag are not sewn to each other",
        "Each half of a pocket bag is sewn to its own side of the mouth, and then the two are sewn to each other all round. \
         Finished by themselves, they hang side by side, and what is put in between them falls out.",
    );
    BAG_UP = warning(
        "bag/up",
        "a pocket bag that goes up from its mouth",
        "A pocket bag hangs down from its mouth, folded in on the piece that it is sewn to, and what is put into it lies below. \
         Matched upside down it goes up, out of the waist, and its lower end is drawn for nothing. So it is laid on that piece, \
         mouth on mouth, and looked at where it lies.",
    );
    BAG_TWISTED = mistake(
        "bag/twisted",
        "the two halves of a pocket bag are sewn to each other with a twist",
        "Both halves of a pocket bag hang at one slit, and their sides lead down from its two ends. Where the side of the \
         one that leads down from the left end is sewn to the side of the other that leads down from the right end, the bag is \
         turned over in itself, and nothing can be put into it. Often one of them is matched with the wrong end of the slit.",
    );
    BAG_DEEP = warning(
        "bag/deep",
        "a pocket bag that hangs out below",
        "A pocket bag hangs straight down from its mouth, inside. Is it deeper than the piece that it is sewn to goes, it looks out \
         below the hem, or bunches up above the hem of a lining.",
    );
    CLOSURE_SEWN_SHUT = mistake(
        "closure/sewn-shut",
        "a closure joins edges that a seam sews together",
        "A zip or a row of buttons closes an opening: it goes from its one edge to its other. Edges that a seam \
         sews to each other are no opening. Of a lined bag each side of the zip is caught between shell and lining, \
         but it closes the shell on the shell. And a facing that goes on across the end of an opening, cut on the fold behind \
         a front that is open, holds it shut there.",
    );
    SEAM_TWO_TUBES = mistake(
        "seam/two-tubes",
        "two pieces are each closed on themselves, and joined only in places",
        "Front and back go round the body together: the side of the one is sewn to the side of the other, on the left \
         and on the right. An edge that is sewn to itself joins left and right of one piece, which makes a tube of it \
         alone. Two tubes beside one another take no body; two above one another are sewn together all round.",
    );
    SEAM_ROUND_PART = warning(
        "seam/round-part",
        "a closed ring sewn to a part of an edge that runs on",
        "A band whose ends are joined goes round a ring. Sewn to a row that is none, it draws both ends of the row \
         together, and what lies between them becomes a hole. Down a slit or a keyhole that is meant; where the edge \
         runs straight on in another, that was forgotten, or the band is to stay open.",
    );
    CLOSURE_OUT_OF_REACH = mistake(
        "closure/out-of-reach",
        "a row of buttons or snaps that cannot be brought together",
        "To close, one side is laid on the other: a flap, a tab, the front that wraps. So one of the two rows at least \
         lies beside an edge that is open there. Rows in the middle of two pieces that are sewn together round the \
         body never meet while a body is in it.",
    );
    SEAM_LEFT_TO_RIGHT = mistake(
        "seam/left-to-right",
        "the left one of a pair is sewn to the right one, though each goes round by itself",
        "An edge that is sewn to itself joins the left copy to the right one, as in a centre back. A cuff goes \
         round one wrist: its own two ends meet. Name both ends, as in cuff.left to cuff.right.",
    );
    CLOSURE_LEFT_TO_RIGHT = mistake(
        "closure/left-to-right",
        "a closure shuts the left one of a pair on the right one, though each goes round by itself",
        "An edge or a line that closes on itself shuts the left copy on the right one, as the two fronts of a jacket. \
         A cuff goes round one wrist: its one end is buttoned on its other end. Name both, as in cuff.button_line to \
         cuff.hole_line.",
    );
    SEAM_FOLD_END = mistake(
        "seam/fold-end",
        "the fold of one piece is sewn to the free end of another",
        "What is cut on the fold lies across the middle of the garment, with its fold in the middle. Two such \
         pieces that are sewn together meet fold on fold; else the free end of the one would lie on both sides of \
         the other's fold. So does what is caught on a run of another's edge, unless left and right of that are sewn \
         together where the fold lies.",
    );
    SEAM_JUMPS = mistake(
        "seam/jumps",
        "a seam goes on from one edge to another that does not begin there",
        "Edges that a seam takes end to end run on in one another over the seam between their pieces. Where that \
         seam brings another corner to the end of the first edge, the second lies elsewhere: the pieces are sewn \
         together upside down, or another edge is meant.",
    );
    CLOSURE_JUMPS = mistake(
        "closure/jumps",
        "a closure goes on from one edge or line to another that does not begin there",
        "A zip is sewn along edges that run on in one another: down the end of a waistband and on down the side \
         below it. Where the seam between them brings the other piece to that end, the zip would have to leap. Buttons on \
         lines inside pieces lie in one row likewise: each line begins where the one before it ends, at the seam between \
         their pieces, to within 1 cm.",
    );
    CLOSURE_RIM = mistake(
        "closure/rim",
        "it is not to be told along which edges a closure goes from end to end",
        "From end to end a closure runs on along what is sewn on above and below: over the seam at the end of its \
         edge to the edge of the collar or the band that begins there, and that nothing else takes. What is sewn on \
         may end there with either of two ends, and the seam must say which; and beside a line, or in a piece that \
         was split or joined, there is no edge to go on along.",
    );
    SEAM_ORDER = warning(
        "seam/order",
        "along a seam two marks change places from one size to another",
        "Joints, notches and caught edges are what a sewer goes by along a seam. Where one comes before the other \
         in small sizes and after it in large ones, the pieces do not meet in the same way in all of them: one \
         of the two is graded by mistake, or drawn from the wrong end.",
    );
    CLOSURE_PAIRING = mistake(
        "closure/pairing",
        "the two sides of a closure are not there equally often",
        "A closure has two sides, as often as there is one: a left and a right front, or two pieces of which as \
         many are cut of the one as of the other. What is left over closes on nothing.",
    );
    ZIPPER_SEWN_IN = mistake(
        "zipper/sewn-in",
        "a separating zip whose end is sewn in",
        "A separating zip comes apart at its lower end, so both sides end at a free edge there. Where a seam joins \
         them below it, it cannot be parted: take a closed zip, or end the seam at another place.",
    );
    ZIPPER_OPEN_ENDS = mistake(
        "zipper/open-ends",
        "a closed zip in edges that are open at both ends",
        "A closed zip, and a concealed one, stays together at its lower end, so a seam joins its two sides there. \
         Along edges that are free at both ends, as down the front of a jacket, it can never be opened all the \
         way: take a separating zip, or sew the edges together beyond one of its ends.",
    );
    SEAM_SHUTS_BODY = mistake(
        "seam/shuts-body",
        "a seam that shuts the way into a garment",
        "What is worn round the body is stepped into or pulled over the head. Front and back are sewn to each other at \
         sides and shoulders; sewn together along waist or hem as well, and no other opening is as wide, they are a bag \
         that nobody gets into. Those edges are finished, or a band is sewn to them.",
    );
    SEAM_SHUTS_RIM = warning(
        "seam/shuts-rim",
        "a seam that shuts an opening all round",
        "Neck, armholes, cuffs and legs stay open until a sleeve, a collar or a band is sewn to them. A seam from front to \
         back along the whole of one, between two other seams of front and back, shuts it like the end of a pillow. \
         The foot of a sleeping suit is shut so on purpose.",
    );
    OPENING_BEHIND = warning(
        "opening/behind",
        "an opening of the shell behind which a seam shuts the lining",
        "An arm slit goes through all layers: what goes in at it is to come out on the other side. Where the shell is slit and its \
         lining is sewn through behind it, the arm ends in between. Sew the lining's run to the shell's, or finish it by itself.",
    );
    WAIST_LOOSE = advice(
        "waist/loose",
        "a waist as wide as what goes through it, and nothing that draws it in",
        "What is called waist, and lets the hip pass without a closure, is wider than the waist. Elastic, a cord, a closure or braces \
         hold it up; without them it slides down over the hip again.",
    );
    OPENING_NARROW = advice(
        "opening/narrow",
        "a cuff that no hand goes through, an armhole that no arm does, or a leg that no foot does",
        "A hand goes through a cuff with its thumb laid in, some 20 cm and more, and a foot through a leg with its heel, \
         some 30 cm and more; an arm has three tenths of the chest (common practice). What is narrower needs \
         a slit, a closure, or cloth that stretches. Where the body's measures hold hand, foot or heel, these are compared.",
    );
}
