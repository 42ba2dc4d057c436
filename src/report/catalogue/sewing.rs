//! What is said of seams, edges, layers and openings.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    SEAM_RING = mistake(
        "seam/ring",
        "pieces that are said to make a ring, and make none",
        "The panels of a cap or a skirt are cut alike and sewn each to the next, the last to the first; then their lower \
         edges are one round edge. For that there are several of them, all the same way up, and a seam joins the \
         one side of each to the other side of the next.",
    );
    SEAM_ENDS = mistake(
        "seam/ends",
        "it is not clear which ends of the seam meet",
        "Two edges can be sewn together either way round. The ends are known when their points have the \
         same name, or when another seam has already joined them. Here neither is the case; say matching, with \
         one end of each side.",
    );
    SEAM_MATCHING = mistake(
        "seam/matching",
        "matching names corners that do not meet in the seam",
        "Matching says which end of one side meets which end of the other, so it names a corner of each, \
         where an edge of the seam ends. Left and right of one edge meet corner by corner of themselves; \
         sewn end for end the cloth would be twisted. A band that goes all round ends where the garment opens. An end \
         of one side meets no corner inside the other, and what is caught on a run of an edge has its ends at those of the \
         run.",
    );
    SEAM_WRONG_ENDS = mistake(
        "seam/wrong-ends",
        "the ends of a seam are matched the wrong way round",
        "Other seams run over this one, from the one piece to the other. Where they do so, the corners of both pieces \
         meet that this seam brings together at its end. Matched the other way round, it brings other corners together, \
         and each of those seams would jump there. The slip is in the one place where the ends are matched.",
    );
    SEAM_TWISTED = mistake(
        "seam/twisted",
        "a seam twists the cloth",
        "Cloth is sewn right sides together, so each end of an edge has just one end of the other that it can \
         meet. What other seams have joined settles which. A seam sewn end for end, a piece wrong side out, or \
         two copies of one hand where a left and a right one are wanted make a band with a half turn in it, which \
         no sewer can lay flat. Match the other end, or name the edge that is meant.",
    );
    SEAM_CROSSED = mistake(
        "seam/crossed",
        "a seam takes a piece of another layer that is not its twin",
        "A lining lies in the shell piece by piece: front on front, back on back. A seam that joins the front of \
         the one to the back of the other, though each layer has both, turns the lining round in the garment.",
    );
    SEAM_PAIRING = mistake(
        "seam/pairing",
        "the sides of the seam cannot be paired",
        "Left is sewn to left and right to right. Four cuffs to two sleeves, or one collar to two backs, \
         leave something over or something missing. Look at how many of each piece are cut.",
    );
    SEAM_UNEQUAL = mistake(
        "seam/unequal",
        "two edges that are sewn together differ in length",
        "Sewn edge to edge, the longer side ends in a pucker or is cut off, and the garment hangs askew. \
         Both lengths are shown for each size. If the difference is meant to be worked in, say easing or \
         gathering; if an alteration made it, alter the partner as well.",
    );
    SEAM_SEGMENT = mistake(
        "seam/segment",
        "the seam matches as a whole but not between two notches",
        "Notches hold both sides together as they are sewn. When the whole lengths agree but a stretch \
         between two notches does not, the sewer must either ignore a notch or ease one stretch and \
         stretch the next. Move a notch, or the corner that made it.",
    );
    SEAM_PLIES = mistake(
        "seam/plies",
        "plies on one side of a seam differ in length",
        "Plies that lie on one side are sewn as one. Before they can be fitted to the other side they must \
         be equal to each other.",
    );
    SEAM_EASE = mistake(
        "seam/ease",
        "the ease of a seam is outside of what was allowed",
        "The maker said how much longer the first side may be. In the sizes named it is more, or less. A \
         sleeve cap with too much ease puckers, with too little it pulls.",
    );
    SEAM_CAP_EASE = advice(
        "seam/cap-ease",
        "more ease over a sleeve cap than its cloth takes",
        "The ease is within what was allowed, but more than this kind of cloth is usually shrunk or \
         worked in over a sleeve cap: 1½ in of a supple cloth, 1 in of knits, firm wovens and leather \
         (Virginia Cooperative Extension, publication 346-122). More of it puckers. Lower the cap a little.",
    );
    SEAM_GATHER = mistake(
        "seam/gather",
        "the fullness of a seam is outside of what was allowed",
        "The maker said how many times as long the gathered side may be. Too little looks like a mistake \
         in sewing, too much does not go under the foot.",
    );
    SEAM_STRETCH = mistake(
        "seam/stretch",
        "a seam asks for more stretch than the cloth has",
        "An edge sewn on at 65 % of the other's length must stretch by 54 % to lie there (1 / 0.65 - 1). \
         If the cloth gives less, the band cannot be sewn on without tearing or gathering the other side. \
         Take a longer band, or a cloth with more stretch that way.",
    );
    SEAM_HELD = mistake(
        "seam/held",
        "a ply that does not stretch holds one that must",
        "Sewn in one with a stretching band, an unstretching ply sets the length for both: the band cannot \
         open. Let the seam take only the plies that stretch, or make the held one as long as the other \
         side.",
    );
    SEAM_ALLOWANCE = mistake(
        "seam/allowance",
        "the plies of a seam do not have the same allowance",
        "Raw edges are laid together and sewn at one distance from them. If the allowances differ, the \
         stitching lines do not meet and both pieces come out in the wrong size. An allowance too narrow \
         for the stitch frays out of the seam.",
    );
    SEAM_WIDTH = mistake(
        "seam/width",
        "a seam wider than its allowance is enough for",
        "A french or a felled seam takes twice its width of allowance, since the raw edges are shut in by a \
         fold; a row of topstitching needs 3 mm beyond it to hold the allowance down, and so does the under side \
         of a lapped seam; a bound edge lies on an allowance as wide as the binding (common practice). Nothing is \
         cut wider than was said: give the seam the allowance that it takes, or make it narrower.",
    );
    SEAM_OVER = mistake(
        "seam/over",
        "it is not clear which side of the seam lies over",
        "Of a felled, a lapped and a topstitched seam one side lies over the other: it has the fold, or the row \
         of stitching that is seen. It is named by a piece of the seam, by an edge where both sides are of one \
         piece, and by left or right where an edge is sewn to itself.",
    );
    PIECE_APART = warning(
        "piece/apart",
        "pieces that nothing joins to the rest",
        "A garment hangs together by its seams, by what is stitched on, and by its closures. What none of them \
         reaches comes away in the hand: sleeves whose caps are finished and sewn to nothing, a pocket that is \
         hemmed all round. Sew it on; or say of what comes off on purpose that it does: cut 1 loose.",
    );
    PIECE_LOOSE = advice(
        "piece/loose",
        "a piece that says it is joined to nothing, and is joined",
        "What comes off on purpose, a belt, a hood, is cut loose, so that nobody asks where it is sewn on. If it is \
         sewn on after all, the word says what is not so.",
    );
    FINISH_RUNS_ON = warning(
        "finish/runs-on",
        "an edge is finished one way on this side of a seam and another on that",
        "A hem or a binding goes round in one, over the seams that cross it. Where its depth or its kind changes \
         at a seam, the one must end where the other begins, in a step or a lump. Give both edges one finish.",
    );
    SEAM_KINK = warning(
        "seam/kink",
        "the edge turns where two sewn pieces meet",
        "Sewn together at the shoulder, the two halves of the neckline make one line. Where they meet at \
         an angle there is a peak or a dip that is seen in wear. Let both edges arrive square to the seam.",
    );
    HEM_KINK = warning(
        "hem/kink",
        "the hem turns where two pieces meet at a seam",
        "A hem runs on over the side seam. Where the pieces meet at an angle, it hangs in a point or a \
         notch. Let the hem arrive square to the seam.",
    );
    ALLOWANCE_UNKNOWN = mistake(
        "allowance/unknown",
        "an edge without an allowance",
        "Outlines are stitching lines; the cloth is cut outside of them. The edge's finish says how far, \
         or else its seam, its piece, or the line near the top of the file. Where none of them does, the \
         piece cannot be cut.",
    );
    CUTTING_TOO_WIDE = mistake(
        "cutting/too-wide",
        "an allowance for which there is no room",
        "The cutting line runs beside the stitching line, as far away as the allowance is wide. Where an \
         edge curves inward more tightly than that, or two edges face each other across a narrow gap, the \
         line would run through itself and nothing could be cut along it. What fits is shown: sew that \
         edge with less, bind it, or draw it rounder.",
    );
    HEM_SHORT = advice(
        "hem/short",
        "a hem that will not lie flat when turned",
        "The allowance is turned up against the piece, so its ends must mirror the side edges, and on a \
         curve it must be narrow or eased in. Otherwise the raw edge is shorter or longer than the place \
         it is sewn to.",
    );
    PIPING_STRAIGHT = advice(
        "piping/straight",
        "piping cut with the grain that is sewn round a curve",
        "Piping and other narrow folded strips of woven cloth are cut on the bias where they go round a curve: cut with the grain \
         they pucker or stand off. Along straight edges they may be cut either way.",
    );
    ZIPPER_SHOWS = advice(
        "zipper/shows",
        "a concealed zip of which something is to show",
        "A concealed zip lies behind the closed seam, and nothing of it is seen: its edges meet, and no width is drawn for it. What is \
         to show takes a zip of another kind.",
    );
    EDGE_LOOSE = mistake(
        "edge/loose",
        "an edge that is neither sewn nor finished",
        "Every edge of a sewn piece is sewn to something, finished, folded or placed. One that is not \
         mentioned will fray, or shows that a seam was forgotten. If it is meant to stay as cut, say \
         finish … raw.",
    );
    EDGE_UNJOINED = advice(
        "edge/unjoined",
        "two edges that are overlocked beside one another and joined nowhere",
        "A finish takes up an edge as a seam does, so that a forgotten seam is not told of an edge that was \
         overlocked. Here another layer has the seam, or the two edges meet at both of their ends and leave a hole \
         between them. Sew them together; what is meant to stay open may stay.",
    );
    EDGE_TWICE = mistake(
        "edge/twice",
        "an edge that is used twice",
        "An edge goes into one seam or gets one finish. Both places are shown; drop one, or divide the \
         edge so that each gets its own run of it.",
    );
    PART_MISSING = mistake(
        "part/missing",
        "a layer without a piece that its seams need",
        "The seam is to be sewn in this layer, but one of its pieces is not cut from it. Add the piece to \
         the layer, or name the layer that the seam belongs to.",
    );
    PART_FLIP = mistake(
        "part/flip",
        "a piece that must not be turned over, and is for its second layer",
        "Lining and outer lie right sides together, so a piece whose two sides differ is cut from the \
         pattern turned over, or it fits the wrong way round. The cut list says so. This piece must \
         never be turned: leave it out of the layer, or draw one of its own for it.",
    );
    FUSED_COPIES = mistake(
        "fused/copies",
        "a number of fused copies that the piece has not",
        "Of copies that are cut alike some may be fused, one of two collars say. So many must be cut as are spoken of, and \
         some of them stay as they are. The copies of a pair are a left and a right one, and unlike: of pairs whole \
         pairs are fused.",
    );
    FUSED_ALONE = warning(
        "fused/alone",
        "interfacing with nothing to be fused on",
        "A fused layer stiffens cloth that is cut by the same piece, or by one that it is copied from. A piece that is \
         in a fused layer alone has no cloth to go on: it was left out of a layer, or is another piece's name.",
    );
    PIECE_UNCUT = mistake(
        "piece/uncut",
        "a piece that no layer cuts",
        "The piece is drawn but cut from nothing. Name it in a layer, or call it a block piece if it is \
         only there for others to be made from.",
    );
    PIECE_UNSEWN = mistake(
        "piece/unsewn",
        "a piece that is sewn to nothing",
        "It is cut and then left on the table. A seam or a placement was forgotten.",
    );
    LINING_SHORT = mistake(
        "lining/short",
        "a lining shorter than the outer along an edge they are sewn on",
        "A lining that is too short pulls the outer up, and the hem rolls to the inside. It is as long as \
         the outer along shared seams, often with a little to spare.",
    );
    LINING_SAGS = advice(
        "lining/sags",
        "a lining far longer than the outer between two places where both are held",
        "Held at both ends, a lining that is longer lies in folds: a centimetre and a twentieth of the length are ease, or the fold \
         above a hem (common practice). More was most often altered in one layer alone.",
    );
    LINING_LONG = warning(
        "lining/long",
        "a lining that hangs out below the outer",
        "Held at the waist and hemmed by itself, a lining ends some 2 cm above the hem of the outer, so that it is never seen. One \
         that was lengthened, or not shortened with the outer, shows below it.",
    );
    LINING_LEVEL = advice(
        "lining/level",
        "a lining that hangs free and is as long as the outer",
        "Held above and hemmed by itself, a lining is cut some 2 cm shorter than what it lines (common practice): level with \
         it, it shows below the hem as soon as it drops in wear. One that is sewn to the hem of the outer has a little \
         more length instead, as ease.",
    );
    FACING_OPEN = warning(
        "facing/open",
        "the ends of a facing lie raw beside one another",
        "The pieces of a facing are joined where those that they face are: at the shoulder, under the arm. Ends that are \
         neither joined nor finished fray, and come out of the armhole as it is worn.",
    );
    OPENING_PASSES = mistake(
        "opening/passes",
        "an opening that will not go over the body",
        "A closed neck must pass the head, a waist the hips, a cuff the hand. Measured at full stretch, \
         this ring is smaller than what must go through; the message says by how much. Widen it, give it \
         a closure, or take a cloth that stretches more.",
    );
    OPENING_RING = mistake(
        "opening/ring",
        "an opening whose edges do not go all round",
        "What goes over the body is a ring: each edge runs on into the next over the seam between them, and \
         the last into the first; only closures may interrupt it. Where one ends and nothing follows, an edge \
         was left out, or pieces are sewn together the wrong way round, and how far the opening opens cannot \
         be told.",
    );
    OPENING_MIXED = mistake(
        "opening/mixed",
        "an opening along edges and lines",
        "What goes over the body is a ring: of edges, where the pieces end there, or of lines that run on in one \
         another from seam to seam inside the pieces, as at the waist of a dress. From an edge to a line it does not \
         run on.",
    );
    OPENING_UNSAID = advice(
        "opening/unsaid",
        "a garment without a closure of which no opening is spoken of",
        "It has no closure, so that the body goes in through one of its rims, and another part of it out \
         through the next. Which must pass where is not said, and so it is not checked: a neck that no head \
         goes through is found when it is sewn. Say it of the rim that matters.",
    );
    OPENING_NO_WAY = warning(
        "opening/no-way",
        "a garment for the trunk that the trunk does not go through",
        "What is worn round the trunk is wide somewhere: at its hem, at its waist. Here pieces are drawn to a girth of \
         the trunk, and yet all openings are those of a neck, of arms or of legs. A hem was sewn shut, or pieces were \
         closed on themselves. What is stepped into by its neck has two more openings, for the legs. So a hood that is sewn \
         shut all round leaves nothing for the face. Or what it opens by is too short: with its zip open a waist passes the \
         hips.",
    );
    STRAP_SHORT = mistake(
        "strap/short",
        "a strap that does not reach",
        "Of its length the ends are sewn on, and only the rest goes from the one to the other. A loop or a handle \
         that is shorter than what lies between its ends pulls the cloth together.",
    );
    STRAP_WIDE = mistake(
        "strap/wide",
        "a strap for which its piece has no room",
        "So much of an end as is sewn on lies on the piece, as wide as the strap is. Where its edges would hang over the \
         edge of the piece, whichever way it goes, it is not held there: most often its width is a slip of the unit or \
         of the decimal point.",
    );
    SEAM_CORNER_SHUT = warning(
        "seam/corner-shut",
        "the end of a tube or a leg sewn shut, left to right",
        "A left and a right piece are sewn to each other along the middle of the body. What lies round the corner \
         from there goes round a leg, or is the hem, the waist or the neck that something goes through: sewn left to \
         right too it makes a skirt of trousers, or shuts what the body goes through. What is meant to be a bag, as a \
         hood, is sewn in one seam.",
    );
    STRAP_PLACE = mistake(
        "strap/place",
        "a strap of which it is not known where it is sewn on",
        "Each end is sewn on at a mark, on every copy of the piece that has it, or on the one side that is said; or \
         it is caught in a seam, at a corner or mark on an edge of that seam. There is one strap for each, so both \
         ends must be there equally often.",
    );
    SEAM_MUCH_EASED = warning(
        "seam/much-eased",
        "more eased in than a seam takes",
        "Ease is worked into a seam without a fold to be seen: a tenth of its length in supple wool, less in firm cloth. Far \
         more lies in gathers, which is said with gathering. A range that allows far more hides every slip in the pieces; most \
         often it is a slip of the unit.",
    );
    SEAM_ENCLOSES = mistake(
        "seam/encloses",
        "a seam that encloses a closure it does not touch",
        "What a seam encloses lies between its two sides, so at least one edge of the closure must be an \
         edge of the seam. Here none is: the zip would be sewn in nowhere.",
    );
    OPENING_TWICE = mistake(
        "opening/twice",
        "an opening that is declared twice",
        "The same edges must let the same part of the body through, and that is declared already. One of the two \
         was left over, or was meant for other edges.",
    );
    SEAM_RANGE = mistake(
        "seam/range",
        "a fit that says more than it can mean",
        "`easing 0.5..2.5` is read from the least to the most that the seam may take. Written the other way \
         round, one of the two figures is likely a slip, and it is not clear which. Ease is never below 0, \
         gathers never less than once as long, and what is stretched never longer than what it meets: \
         a range that reaches further would let any slip pass.",
    );
    SEAM_AT_SHOULDER = advice(
        "seam/at-shoulder",
        "a sleeve whose own seam comes to the top of the armhole",
        "A sleeve of one piece is closed by a seam that lies under the arm, and goes on in the side seam. Turned half round in \
         its hole that seam lies on the shoulder, and the cap, drawn for the top of the arm, under it.",
    );
    NECK_RISES = warning(
        "neck/rises",
        "a neckline that rises from the shoulder to the middle",
        "A neckline hangs between its shoulders: in front its middle lies some 6 to 9 cm below the neck end of the shoulder, \
         behind 1 to 3, and a boat neck goes straight across. One that rises to the middle stands up against the throat; most \
         often the sign of its height is lost. What stands up on purpose rises at the shoulder as well.",
    );
    HOOD_SMALL = advice(
        "hood/small",
        "a hood that is smaller than the head it is drawn to",
        "From chin to crown a head measures two fifths of the girth round it, from the forehead to the back of it a third. A \
         hood that is drawn to the girth of the head and is smaller than that itself was drawn with a slip.",
    );
}
