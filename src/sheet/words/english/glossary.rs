//! Words of the trade, and what they mean.

use super::super::{Glossary, Term};

pub(super) const GLOSSARY: Glossary = Glossary {
    allowance: Term {
        word: "allowance",
        meaning: "Cloth beyond the stitching line, so that the stitches hold. Here every piece is printed with it.",
    },
    right_sides: Term {
        word: "right sides together",
        meaning: "The sides that show when the garment is worn face each other, and the wrong sides look outward while you sew.",
    },
    wrong_side: Term {
        word: "wrong side",
        meaning: "The side of the cloth that does not show when the garment is worn.",
    },
    notch: Term {
        word: "notch",
        meaning: "A short snip into the allowance. Where two edges have notches, these come to lie on each other.",
    },
    ease: Term {
        word: "ease",
        meaning: "To sew a longer edge to a shorter one so that the surplus vanishes in tiny amounts and makes no fold.",
    },
    gather: Term {
        word: "gather",
        meaning: "To sew two rows of long stitches beside the seam line and pull them until the edge is as long as the other one.",
    },
    stretch: Term {
        word: "stretch",
        meaning: "To pull the shorter edge while sewing until it is as long as the other one.",
    },
    gap: Term {
        word: "gap",
        meaning: "A stretch of a seam that is left open. Through it the work is turned, and then it is closed by hand.",
    },
    french_seam: Term {
        word: "French seam",
        meaning: "A seam that is sewn twice: wrong sides together first, then right sides together, so that the raw edges lie inside it.",
    },
    lapped_seam: Term {
        word: "lapped seam",
        meaning: "One edge is folded under, laid on the other with both right sides up, and stitched from above.",
    },
    fell: Term {
        word: "fell",
        meaning: "To fold the wider allowance of a seam round the narrower one and stitch it flat, so that no raw edge is left.",
    },
    topstitch: Term {
        word: "topstitch",
        meaning: "To stitch from the right side, where the stitches show.",
    },
    understitch: Term {
        word: "understitch",
        meaning: "To stitch a facing or lining to the allowances beside its seam, so that it rolls inward and does not show.",
    },
    bind: Term {
        word: "bind",
        meaning: "To fold a strip of cloth round a raw edge and stitch it down on both sides.",
    },
    dart: Term { word: "dart", meaning: "A fold that is sewn to a point and gives flat cloth a shape." },
    pleat: Term { word: "pleat", meaning: "A fold that is laid in the cloth and held at its edge." },
    tuck: Term { word: "tuck", meaning: "A fold that is sewn along all its length." },
    baste: Term {
        word: "baste",
        meaning: "To hold something in its place with long stitches, which are taken out again when the seam is sewn.",
    },
    press: Term { word: "press", meaning: "To set the iron down and lift it again, without pushing it." },
    hem: Term { word: "hem", meaning: "To fold an edge to the wrong side and stitch it there." },
    turn_up: Term {
        word: "turn-up",
        meaning: "A hem that is folded up once more, on the outside, where it shows.",
    },
    overlock: Term {
        word: "overlock",
        meaning: "To sew over a raw edge so that it does not fray, with an overlock machine or a zigzag stitch.",
    },
    casing: Term { word: "casing", meaning: "A tunnel of cloth that elastic or a cord runs through." },
    face_down: Term {
        word: "face down",
        meaning: "The side that shows when the garment is worn lies on the cloth.",
    },
    concealed_zip: Term {
        word: "concealed zip",
        meaning: "A zip whose teeth roll behind the edges, so that only a seam shows.",
    },
    separating_zip: Term { word: "separating zip", meaning: "A zip that comes apart at its lower end." },
    buttonhole: Term {
        word: "buttonhole",
        meaning: "A slit that is edged with close stitches and then cut open, as long as the button is wide and thick.",
    },
    snap: Term { word: "snap", meaning: "A fastener of two parts that are pressed into each other." },
    toggle: Term { word: "toggle", meaning: "A short bar that goes through a loop." },
    thread: Term {
        word: "thread",
        meaning: "To draw something through a casing, with a bodkin or a safety pin at its end.",
    },
    tack: Term {
        word: "tack",
        meaning: "To hold something with a few stitches by hand, one on the other.",
    },
    bar_tack: Term {
        word: "bar tack",
        meaning: "A short, close row of zigzag stitches that holds where something pulls.",
    },
    fuse: Term {
        word: "fuse",
        meaning: "To press a cloth with glue on its back onto another, with heat and without steam unless its maker says otherwise.",
    },
    slipstitch: Term {
        word: "slipstitch",
        meaning: "To sew by hand from fold to fold, so that hardly a stitch shows.",
    },
    grain: Term {
        word: "grain",
        meaning: "The way in which the threads run that are parallel to the selvage. The arrow on a piece lies along it.",
    },
    selvage: Term { word: "selvage", meaning: "The firm edge along both sides of a cloth." },
    nap: Term {
        word: "nap",
        meaning: "Fibres or a design that point one way, so that all pieces have to lie the same way up.",
    },
    fold: Term {
        word: "on the fold",
        meaning: "The edge of the piece lies where the cloth is folded, so that it is cut once and opens out to twice its width.",
    },
    mirrored: Term {
        word: "one of each hand",
        meaning: "A left one and a right one: lay the cloth double, or turn the pattern over for the second.",
    },
    stitching_line: Term {
        word: "stitching line",
        meaning: "The line along which two pieces are sewn together.",
    },
    wearing_ease: Term {
        word: "wearing ease",
        meaning: "How much larger the finished garment is than the body.",
    },
};
