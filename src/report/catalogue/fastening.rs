//! What is said of closures: zips, buttons and what else fastens.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    CLOSURE_ALLOWANCE = mistake(
        "closure/allowance",
        "the edges along a zip do not have the same allowance",
        "A zip's tape is laid to the raw edges and sewn on in one line, over every piece that it passes. Where \
         the allowance changes, the line leaves the stitching line, and the fronts come out too wide or too \
         narrow by the difference. The seam that encloses the zip says it for all of them.",
    );
    CLOSURE_HOW = mistake(
        "closure/how",
        "a closure that does not say how it closes",
        "Between two edges there may be a zip or buttons, and each asks something else of them. Say zipper \
         with its kind and length, or buttons with their number and size.",
    );
    ZIPPER_LENGTH = mistake(
        "zipper/length",
        "a zip that does not fit its opening",
        "A zip is bought in a length and sewn between two edges. Longer than its edges it hangs over; \
         shorter, it leaves a gap that cannot be closed. The message says by how much in each size and \
         what would make it fit: lengthen the piece, or take the nearest stocked length.",
    );
    ZIPPER_SIDES = mistake(
        "zipper/sides",
        "the two sides of a zip differ in length",
        "Both halves of a zip have the same length. Sewn to edges that differ, one side puckers and the \
         fronts do not meet at the hem. Both lengths are shown.",
    );
    ZIPPER_STOCK = mistake(
        "zipper/stock",
        "no stocked zip fits",
        "None of the lengths in stock is near enough. The nearest is named, with how much longer or \
         shorter the opening would have to be for it.",
    );
    ZIPPER_CLEAR = mistake(
        "zipper/clear",
        "nothing lies behind a zip that is kept clear of cloth",
        "Kept clear of cloth, a zip runs past what lies behind it without catching it: the lining, or a facing, that the \
         seam which encloses the zip sews behind it is cut back. Where no seam does, there is nothing to cut back.",
    );
    ZIPPER_EASED = advice(
        "zipper/eased",
        "what is kept back from a zip is eased beside it",
        "What is kept back from the teeth of a zip loses a little at its neck and at its hem, where it meets what has its \
         full width. It is eased there: stretched a little, evenly, over the whole edge as it is sewn. Seams, notches \
         and openings count the full length; the message says how much is to be eased in which seam.",
    );
    ZIPPER_MUCH_EASED = warning(
        "zipper/much-eased",
        "more is kept back from a zip than can be eased beside it",
        "What is kept back from the teeth of a zip is eased at the neck and at the hem. More than about a tenth of an \
         edge, common practice, lies in gathers there instead: keep less back, or draw what lies behind the zip \
         narrower and the edge that it meets with it.",
    );
    BUTTON_COUNT = mistake(
        "button/count",
        "a row without a whole number of buttons",
        "Buttons are counted: one, two, three. Half a button, none or thousands of them cannot be sewn on.",
    );
    BUTTON_TWO_PLACES = mistake(
        "button/two-places",
        "one button of which two places are said",
        "A row goes from its first button to its last. Where there is only one, both are the same place; two places for it \
         say that a second one is missing, or that the one of them was not changed with the other, and buttonhole and \
         button do not meet.",
    );
    BUTTON_BEYOND = mistake(
        "button/beyond",
        "a row of buttons that goes on past its line",
        "The first and the last button are measured from a point of the piece, along the line that they \
         stand on. Measured the wrong way, or too far, they come to lie where there is no cloth.",
    );
    BUTTON_SIDES = mistake(
        "button/sides",
        "the two sides of a row of buttons differ in length",
        "Buttons on one side meet buttonholes on the other. On sides of different length they are spaced \
         alike but the ends do not meet, and the front hangs askew.",
    );
    BUTTON_EDGE = mistake(
        "button/edge",
        "buttons that reach over the edge of their cloth",
        "The button lies on the centre line and must not reach over the edge: the stand is at least half a \
         button and a little more. A line on which buttons stand may itself run out over the edge of its piece, where a neck is \
         cut low or a front slants away: what lies beyond the edge has no cloth to be sewn to.",
    );
    BUTTON_STAND = mistake(
        "button/stand",
        "a stand that is not as wide as it is drawn",
        "The centre lines of both sides lie on one another when the garment is buttoned, and each side goes \
         on by the stand. Where the centre line is a line inside the piece, the stand is drawn; if the text \
         gives another width, the facing, the overlap or the buttons will be in the wrong place.",
    );
    BUTTON_CLOSE = mistake(
        "button/close",
        "buttons or snaps that would lie over one another",
        "Each takes its own width of the line and a little more. Nearer than that their rims lie on one another, \
         and neither can be sewn on or pressed in.",
    );
    BUTTON_ITSELF = mistake(
        "button/itself",
        "buttons and buttonholes of one piece in one place",
        "A cuff or a strap closes its one end on its other, so that its two lines lie near opposite edges. Nearer to \
         one another than a button is wide, the buttons would be sewn on over the buttonholes.",
    );
    CLOSURE_LAP = mistake(
        "closure/lap",
        "buttons or snaps where nothing laps over",
        "A button lies on its buttonhole, and one half of a snap on the other, so the two sides lap. An edge that they \
         lie on goes on by the stand that is said; without one the cloth ends in the middle of them. Ties are knotted \
         between two edges that do not lap, and have no stand.",
    );
    CLOSURE_RIDGE = warning(
        "closure/ridge",
        "a snap across the inner edge of a hem",
        "A snap is pressed through cloth of even thickness. Half on the hem and half beside it, it is pressed in \
         askew and tears out.",
    );
    CLOSURE_BUCKLE = mistake(
        "closure/buckle",
        "a buckle that is not as wide as its strap",
        "The end of the strap is sewn round the bar of the buckle, and the other end goes through. Wider than the \
         bar it does not go through; much narrower, it slips to one side.",
    );
    BUTTON_SPACING = advice(
        "button/spacing",
        "buttons spaced otherwise than is usual in the trade",
        "Too far apart, the front gapes between them; too close, they are needless work. One of them \
         belongs where the strain is greatest. So it gapes above a row that begins much further below the neck, or the \
         waist, than its buttons are apart.",
    );
    CLOSURE_UNCLOSED = advice(
        "closure/unclosed",
        "a band above a zip whose ends nothing closes",
        "A zip that ends below a waistband or a collar leaves the ends of that to part: a hook, a button or a snap \
         holds them together, or the zip goes on to the top.",
    );
    CLOSURE_ACROSS = warning(
        "closure/across",
        "a band closed to a ring across the end of a closure",
        "A waistband, a cuff or a collar above a zip or buttons parts where they do: its ends meet there, and the closure \
         goes on between them or a hook holds them. One that goes on in one, and is closed to a ring by a seam of its own, holds \
         shut what was to open, where the other end is sewn shut as well.",
    );
}
