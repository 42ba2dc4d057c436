//! What is said of stitches, of rows of topstitching and understitching, and of tacks.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    STITCH_BREAKS = advice(
        "stitch/breaks",
        "a stitch without give on a seam that stretches",
        "A straight lockstitch has as much thread as seam. When the seam stretches in wear, or as it is \
         sewn, the thread breaks. Overedge and chain stitches give with the cloth.",
    );
    STITCH_UNFIT = warning(
        "stitch/unfit",
        "a stitch that cannot be sewn where it is said",
        "Overedges are sewn round a raw edge, and cut off what lies beyond it: no row inside the cloth, no binding and no hem that is \
         turned under is sewn with one. A blindstitch holds a hem, a coverstitch covers one; neither closes a seam.",
    );
    ROW_ROOM = mistake(
        "row/room",
        "a row of stitching that does not lie on the cloth",
        "A row lies inside the edge that it is sewn beside, so far from it as is said, and each further row further \
         in. Where the piece ends before that, or the edge bends more tightly than the row is far from it, it cannot \
         be sewn. On the edge itself, 0 from it, nothing holds.",
    );
    ROW_NO_SEAM = mistake(
        "row/no-seam",
        "a facing is understitched where it is in no seam",
        "Understitching sews a facing to the allowances of the seam that joins it to the outside, so that the seam \
         rolls to the inside. An edge that is in no seam has no allowances to sew it to.",
    );
    ROW_OUTSIDE = warning(
        "row/outside",
        "understitching that shows on the outside",
        "Understitching holds the allowances to the facing, close to their seam, so that the facing rolls to the \
         inside and no stitches show. Sewn on the piece that is faced, the row shows on the right side and pulls \
         the facing out: name the edge of the facing; or topstitch, if it is to show.",
    );
    ROW_MISSES = mistake(
        "row/misses",
        "understitching that misses the allowances of its seam",
        "The allowances lie under the facing, as wide as they are cut. A row further from the seam than that sews \
         nothing but the facing: it is sewn 2 or 3 mm from the seam (common practice).",
    );
    ROW_OFF_CLOTH = mistake(
        "row/off-cloth",
        "a row along a line that goes on beyond the cloth",
        "A line inside a piece may be drawn from any point to any other. Stitched along, it must lie on the cloth, \
         allowances included: a figure of one of its ends is too large, or belongs to another piece.",
    );
    ROW_PLACE = mistake(
        "row/place",
        "a row or a tack at a place that the edge does not have",
        "A run of an edge and a place on it are counted as the garment is sewn: from a corner of that edge, from a \
         mark on it or from an edge beside it, and no further than it goes.",
    );
    SET_PLACE = mistake(
        "set/place",
        "something that is set where it cannot be",
        "What is bought is set at a mark, a corner or a place on an edge of a piece that is cut in the layer that is \
         named, one at each place. An eyelet has cloth all round its hole: on an edge, or over a seam, it tears out.",
    );
    TACK_APART = mistake(
        "tack/apart",
        "a tack between pieces that nothing sews together",
        "A few stitches keep a facing or a lining in its place. They do not carry it: what hangs by a tack alone \
         comes off with it.",
    );
    TACK_SHUTS = warning(
        "tack/shuts",
        "a tack at the end of a closure that has to open",
        "A bar at the foot of a fly takes the strain where its zip ends and the seam begins. At the top it holds shut what is to \
         open, or strengthens what the band holds already. Along the teeth of a zip it stops the slider.",
    );
    TACK_FAR = warning(
        "tack/far",
        "a tack between places that do not lie on one another",
        "A few stitches hold a lining or a facing where it lies. Between two places that lie far from one another once all \
         is sewn they draw the cloth together.",
    );
}
