//! What is said of elastic and cords, and of the channels that they run through.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    CASING_NARROW = mistake(
        "casing/narrow",
        "elastic is wider than the casing that it runs through",
        "A casing is as deep inside as is given, from the turned edge to the row of stitches. Elastic that is \
         wider folds over in it or cannot be pulled through at all.",
    );
    CASING_TIGHT = advice(
        "casing/tight",
        "a casing hardly deeper than its elastic is wide",
        "Elastic is drawn through its casing and moves in it as it is worn. Without a little room, usually \
         3 mm or 1/8 in, it turns over or cannot be drawn through.",
    );
    CASING_WIDE = advice(
        "casing/wide",
        "a casing far deeper than its elastic is wide",
        "Elastic runs straight only in a channel hardly wider than itself. In one of several times its width it wanders and \
         turns over. A frill above it is a finish of its own, or a row stitched beside the casing.",
    );
    CASING_EMPTY = advice(
        "casing/empty",
        "a casing that nothing runs through",
        "A casing is deeper than a hem needs to be, because elastic or a cord is to run in it. Where neither is \
         said, it is not bought, and nothing draws the edge in.",
    );
    ELASTIC_LONG = mistake(
        "elastic/long",
        "elastic is longer than the casing that it runs through",
        "Elastic draws its casing in, so it is shorter than the casing lies spread out. Longer elastic lies \
         in waves inside it and holds nothing. Its length is as worn; 2 cm to join its ends, or to sew them down, are added.",
    );
    ELASTIC_LOOSE = warning(
        "elastic/loose",
        "elastic is longer than the body where it is worn",
        "Elastic holds by being stretched. Longer than the body measure that it is worked out from, it slides \
         off, or needs something else that holds it up.",
    );
    ELASTIC_SLACK = advice(
        "elastic/slack",
        "elastic that is hardly shorter than the body where it sits",
        "Elastic holds by being stretched: it is cut a tenth to a twentieth shorter than the body where it is worn \
         (common practice). Measured from the hip and sewn in at the waist, or as long as the waist itself, it lies loose \
         and holds nothing up. Where it sits is told by the name of its edge, else by what it is worked out from.",
    );
    ELASTIC_SHORT = warning(
        "elastic/short",
        "elastic gathers its casing to less than a quarter",
        "Casings are commonly gathered to between two thirds and a third of their cloth. Drawn in further, the \
         folds find no room, and the elastic is stretched all the time. Take longer elastic or less cloth.",
    );
    ELASTIC_TIGHT = advice(
        "elastic/tight",
        "elastic far shorter than the body where it sits",
        "Elastic is cut a tenth to a twentieth shorter than the body where it is worn; with less than seven tenths of it, it \
         cuts in (common practice). It may have been worked out from another measure: from the thigh, for a waist.",
    );
    CORD_SHORT = mistake(
        "cord/short",
        "a cord is shorter than what it runs through",
        "When the cloth is spread out, the ends of a cord that is too short slip into the channel and cannot \
         be got hold of. It is as long as its channel and what hangs out at both ends.",
    );
    CORD_ENDS = mistake(
        "cord/ends",
        "the free ends of a cord are longer than all of it",
        "What hangs out at each end is part of the cord. Twice that is more than its length here, so one of the \
         two figures is a slip.",
    );
    CORD_CHANNEL = mistake(
        "cord/channel",
        "a cord through an edge that is not a channel",
        "A cord runs in cloth that is turned over it and stitched down: a casing, a hem, a folded band. A raw \
         or overlocked edge, a fold in the middle of a piece or the edge of a closure hold none.",
    );
    CORD_SEAM = warning(
        "cord/seam",
        "a cord through a plain seam",
        "The allowances of a plain seam are open to one side. A cord runs there only when they are stitched \
         down as a channel; more often another edge was meant.",
    );
    CORD_SHUT = warning(
        "cord/shut",
        "a cord in a channel with no way out",
        "A channel that is closed all round has no end at which a cord comes in. Its ends come out through eyelets, \
         through buttonholes or a slit, or where a seam is left open, at a placket or at the end of the casing. They \
         are made before the channel is closed.",
    );
}
