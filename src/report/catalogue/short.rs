//! What is said of bands and facings.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    BAND_ENDS = mistake(
        "band/ends",
        "a band whose ends lie nowhere that can be told",
        "A band that goes round is closed to a ring, and where its ends meet has to be said, since its seam lies there: at \
         the centre back, at a side. One that goes along has two ends, with an opening between them, and an underlap lies \
         beyond one of these. Say joined at for a ring, opening at for a band with two ends.",
    );
    BAND_LAYER = mistake(
        "band/layer",
        "a band or a facing in a layer of another kind",
        "A band or a facing is cut from cloth and sewn on. What stiffens it is fused onto it, and cut from a layer of its \
         own that is fused: in outer … stiffened firm.",
    );
    BAND_SHARE = mistake(
        "band/share",
        "a knitted band without its share",
        "A knitted band is cut shorter than the edge that it is sewn to and stretched onto it, or it gapes: a rib by 10 to \
         20 %, a lively one by more. How much depends on the cloth, so it has to be said. A share of 100 % says that it is \
         not stretched.",
    );
    BAND_UNDERLAP = warning(
        "band/underlap",
        "an underlap longer than a closure needs, or too short to lap",
        "A band laps under its other end by as much as hooks, a button or a buckle need, 3 to 5 cm, and so do the edges of \
         a vent. Far more, or less than 1 cm, is most often a slip of the figure or its unit. What hangs beyond a band to be \
         tied is a strap.",
    );
    BAND_UNCLOSED = advice(
        "band/unclosed",
        "a band with an underlap that nothing closes",
        "An underlap is there for a hook, a button or a buckle. A zip below the band does not hold it: without a closure of \
         its own the band stands open above it.",
    );
}
