//! What is said of cloth, and of safety.

use super::{Entry, advice, caution, mistake, warning};

catalogue_entries! {
    CLOTH_UNKNOWN = mistake(
        "cloth/unknown",
        "a layer cut from a fabric that is not declared",
        "Without the fabric's width and nature nothing can be laid out on it. Declare it with fabric, or \
         use the library that holds it.",
    );
    CLOTH_UNUSED = warning(
        "cloth/unused",
        "a fabric that nothing is cut from",
        "It is declared but no layer takes it. It may be left over from an earlier state, or a layer was \
         forgotten. A library's fabrics may stay unused.",
    );
    CLOTH_SHRINKS = mistake(
        "cloth/shrinks",
        "a cloth that shrinks to almost nothing",
        "Cloth is washed before it is cut, and more of it is bought by as much as it shrinks. No cloth \
         shrinks by nine tenths or more; a share was written without its per cent sign.",
    );
    CLOTH_WIDTH = mistake(
        "cloth/width",
        "a fabric without a width",
        "How much must be bought, and whether a piece fits at all, depends on the width from selvage to \
         selvage. Write it as the shop gives it.",
    );
    NOTION_TWICE = mistake(
        "notion/twice",
        "something to buy that is listed twice",
        "The same notion is listed in two places, so it would be bought twice. If more are needed, say \
         how many in one place.",
    );
    NOTION_COUNT = mistake(
        "notion/count",
        "a number or length to buy that is 0 or less",
        "What is listed is bought, and 0 or less of it cannot be: take the line out, or say how \
         many or how much.",
    );
    NOTION_UNNEEDED = warning(
        "notion/unneeded",
        "a price for something that is not needed, or buttons that close nothing",
        "A price without an amount is for what the garment needs of that kind and measure. Nothing here is of \
         the kind, so what is needed may be left without a price. Libraries may price more than is needed. Buttons and \
         the like that are listed by number are sewn on at marks, with set; what a closure takes is counted by itself.",
    );
    NOTION_SHORT = mistake(
        "notion/short",
        "more is set than is bought",
        "Eyelets, snaps and loops that are set at marks are counted over all copies of their pieces: a mark on a piece \
         of a pair is there twice, and so is one on a half that is cut on the fold. Say how many are bought, or no \
         number, and as many are bought as are set.",
    );
    NOTION_UNSET = advice(
        "notion/unset",
        "something bought that is set nowhere, or more of it than is set",
        "An eyelet or a rivet is of no use until it is set. Say at which marks, set eyelets \"eyelet 5 mm\" at hood.low, \
         hood.high: then a step sets them, and they are counted. More than are set may be meant as spares.",
    );
    CLOTH_NAP = advice(
        "cloth/nap",
        "a raised cloth of which nothing is said of its nap",
        "The fibres of a raised cloth nearly always lie one way, so that it looks darker and feels rougher from one end than \
         from the other. Pieces that do not all lie that way look like two cloths. Where it has a nap more of it is bought.",
    );
    CLOTH_SELVAGE = warning(
        "cloth/selvage",
        "a selvage of a cloth that is knitted round",
        "A tube is knitted round and has no selvages; slit open, its cut edges may be cut from up to the \
         edge. Only cloth that is sold open has selvages. Either the cloth is no tube, or it has none.",
    );
    CLOTH_NARROW = mistake(
        "cloth/narrow",
        "a piece wider than the cloth",
        "Between the selvages there is less cloth than the piece needs with its allowances. Take a wider \
         cloth, cut it on the cross grain if the cloth allows it, or put a seam in with split. A piece on \
         the fold needs twice its half; on folded cloth the half must fit into half the width.",
    );
    CLOTH_THICK = warning(
        "cloth/thick",
        "a thick lining eats the wearing ease",
        "Inside a round, a layer of thickness t takes 2 × pi × t from the girth: an 8 mm fleece some 5 cm. \
         What is left for the body to move in is shown. Add it to the ease of the outer.",
    );
    CAUTION_CORD = caution(
        "caution/cord",
        "a cord in a child's garment",
        "Cords at the neck, the waist and the hem of children's clothes have caught in playground slides and \
         vehicle doors. EN 14682 sets out where they may be and how long; the law where the garment is sold \
         decides.",
    );
    CAUTION_SMALL_PARTS = caution(
        "caution/small-parts",
        "small parts on a garment for a child under three",
        "Buttons and toggles that come off are swallowed. Rules on small parts for children under three \
         ask that they hold against a pull; the law where the garment is sold decides.",
    );
    CAUTION_FLAME = caution(
        "caution/flame",
        "raised fibre or nightwear near a flame",
        "Brushed and looped surfaces can flash over when they catch fire, and loose nightwear catches first. \
         Rules on the burning of children's nightwear (EN 14878 among them) say what may be used; the law \
         where the garment is sold decides.",
    );
    SEAM_GRAIN = advice(
        "seam/grain",
        "grain that differs across a seam",
        "Along and across the grain a cloth stretches, shrinks and hangs differently. Two body pieces that are \
         sewn together up and down are cut the same way of it, or the seam twists and one side grows longer in wear. \
         Bands and yokes that are sewn on by edges across are often turned, and are not meant.",
    );
    MEASURE_OTHER = advice(
        "measure/other",
        "a measure that is called after one girth and compared with another",
        "What a garment has round the chest is held against the wearer's chest. Held against the waist it shows far more ease \
         than there is, and a garment that is too tight passes for roomy.",
    );
    MEASURE_WIDE = advice(
        "measure/wide",
        "a finished girth that is nearly twice the body's, or more",
        "The roomiest of coats has half as much again as the body. A girth of twice the body's is most often one that was \
         counted twice: both halves of a piece on the fold, and then doubled once more. The list for the wearer is wrong then, \
         though the pieces may be right.",
    );
    MEASURE_TIGHT = advice(
        "measure/tight",
        "a finished girth below the body's in cloth that does not stretch so far",
        "A garment in woven cloth is wider than the body by its wearing ease. One that is narrower closes only if \
         its cloth stretches, and then no further than the cloth does. The measure that is compared with the body's \
         shows both.",
    );
}
