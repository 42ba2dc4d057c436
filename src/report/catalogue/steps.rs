//! What is said of turning, and of the order of work.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    TURN_CLOSED = mistake(
        "turn/closed",
        "no way to turn the garment right side out",
        "Sewn right sides together all round, a bag can only be turned through an opening. Leave a gap in \
         a seam that leads into the closed space and close it by hand afterwards; or sew the seam that closes \
         it by hand. What is turned first and then caught in a further seam, as a cuff is, needs neither.",
    );
    TURN_STRAP = warning(
        "turn/strap",
        "a strap that is sewn when the way round it is closed already",
        "Shell and lining, sewn together along a neck and along an armhole, are a tube over the shoulder, and it is turned by \
         drawing all that hangs at one of its ends through it. Where shoulders and sides are closed by then in shell and lining, \
         nothing hangs at one end alone: the tube stays inside out, whatever gap is left. So either the shoulders or the sides are \
         sewn after the neck and the armholes.",
    );
    GAP_NOTHING = mistake(
        "gap/nothing",
        "a turning gap of no length",
        "What is sewn right sides together is turned through the gap, and the gap is closed by hand. A gap of \
         nothing is a seam that is sewn shut all round: often a number was left to be filled in later.",
    );
    GAP_SMALL = advice(
        "gap/small",
        "a turning gap too small for what goes through it",
        "All of the garment is drawn through the gap. Thick cloth through a short gap tears its ends open; \
         a longer one costs a little handwork. A third of how wide the largest piece behind it lies is enough for a mitten or a pouch, \
         5 cm at least; for a coat 13 cm.",
    );
    PIECE_NONE = advice(
        "piece/none",
        "nothing is drawn yet",
        "A garment is cut from its pieces. One that has none yet is only begun: whatever is said of it besides, there is \
         nothing that could be cut, sewn or checked.",
    );
    STEPS_NONE = advice(
        "steps/none",
        "the order of work is not said",
        "A garment can be cut and sewn without it: an order is worked out in which nothing is forgotten, nothing \
         sewn before what it crosses, and nothing shut in that is needed later. Where it is said, it is held \
         against the same rules, and what it leaves out is worked out.",
    );
    STEP_NOTHING = mistake(
        "step/nothing",
        "a step in which there is nothing to do",
        "It names a seam in a layer where it is not sewn, an edge that has no finish, a piece that is placed \
         nowhere, or a gap that no seam leaves. Either the step or the thing it is about was forgotten.",
    );
    STEP_GONE = advice(
        "step/gone",
        "a step that goes with what it sews",
        "A dart that is moved into another, shut, cut through or left unsewn is no more, and a step that sews it has \
         nothing to sew: it goes too. So does what a step of the base does to a seam, finish, closure or cord that a \
         variation drops. The steps of the base stay as they are for the base.",
    );
    STEP_FORGOTTEN = advice(
        "step/forgotten",
        "something that no step sews",
        "Steps are given, but this seam, finish, closure or placement is in none of them. It is worked out where it \
         belongs, and the steps stay as they are said; but if it was forgotten, the place may be another one.",
    );
    STEP_UNFUSED = advice(
        "step/unfused",
        "something that no step fuses on",
        "Steps are given, and none of them fuses this layer on. It is worked out to come before all else; but \
         the garment can be sewn without it, so that it is easily forgotten until it can no longer be reached.",
    );
    STEP_UNPLACED = mistake(
        "step/unplaced",
        "something that finds no place among the steps",
        "No step says when it is done, and it cannot be worked out: one of the steps has to wait for it, and it \
         waits for a step that comes later.",
    );
    STEP_TWICE = mistake(
        "step/twice",
        "something that is sewn twice",
        "Each seam is sewn for good once in each layer. Basting may come before it; a second sewing is a \
         slip in the list.",
    );
    GAP_LONG = mistake(
        "gap/long",
        "a gap is longer than the seam that it is left in",
        "A gap for turning is a stretch of seam that is closed by hand afterwards, with the seam sewn on both \
         sides of it. This one is longer than the whole seam.",
    );
    GAP_PLACE = mistake(
        "gap/place",
        "a gap does not lie where its place says",
        "A gap's place is counted along its seam, as a run is: `leaving gap 14 from hem_side` are the first 14, \
         `leaving gap 3..17 from hem_side` begin 3 from there, `in the middle` half way. From an end it can go one way only; \
         from a corner in the middle of the seam the edge tells which. Its ends lie in the seam, and between them nothing is caught.",
    );
    GAP_END = advice(
        "gap/end",
        "a gap that runs out to the end of its seam",
        "What is turned through a gap pulls at both its ends: a few centimetres of seam hold each of them. Where another seam is \
         sewn across the end of one that is open there, its two edges shift under the needle, and the gap tears on into \
         that seam.",
    );
    PLACE_CIRCLE = mistake(
        "place/circle",
        "pieces are placed on one another",
        "A pocket is sewn onto a front, or a flap onto the pocket. One piece carries the others and is \
         placed on nothing itself; here each of them is placed on another.",
    );
    STEP_EARLY = mistake(
        "step/early",
        "something is done before what has to come first",
        "Where two seams cross, the one that ends in the other is sewn first: the other way round its end \
         cannot be reached. For the same reason a slit is finished before its cuff shuts its ends in, a sleeve \
         closed before a folded cuff goes round it, and what a seam covers fused before it. A ring is sewn round a \
         ring: a sleeve goes into the armhole while both lie flat, or once both are closed.",
    );
    STEP_ZIP_LATE = advice(
        "step/zip-late",
        "a concealed zip that is set in after the seam beyond its end",
        "The teeth of a concealed zip are rolled back and stitched close to, on edges that lie flat and open; the seam beyond is \
         closed then, from where its stitching ends. Once that seam is sewn, the end of the zip is hard to reach, and a small \
         hole or a fold is left where they meet.",
    );
    STEP_FUSE_LATE = advice(
        "step/fuse-late",
        "a piece that is fused only after it is sewn",
        "Interfacing is pressed on while the piece lies flat and alone, before anything is sewn to it: the iron reaches all of \
         it, the stitches go through it, and the piece is sewn in the size that fusing leaves it. Later the allowances lie in \
         the way and show through.",
    );
    STEP_CIRCLE = mistake(
        "step/circle",
        "seams wait for one another, so that no order is possible",
        "A seam that runs over two pieces is sewn after the seam between them, and what encloses a zip after \
         the zip is in its place. Here each waits for the next, and the last for the first. One of them \
         has to be sewn in two goes, or to end sooner.",
    );
    STEP_SHUT = mistake(
        "step/shut",
        "something is sewn where the hand can no longer reach",
        "After the garment is closed here, this place is inside. Sew it before.",
    );
}
