//! Sound drawings to damage: what the program itself writes of examples, and files as makers have them.

use fustian::cutting::Cutting;
use fustian::emit::drawing::{Lines, Look, sheet};
use fustian::emit::{dxf, svg};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// Words of all formats, wherever they may stand.
pub const WORDS: [&str; 96] = [
    // Of DXF: entities, sections and group codes.
    "SECTION",
    "ENDSEC",
    "ENTITIES",
    "BLOCKS",
    "BLOCK",
    "ENDBLK",
    "EOF",
    "INSERT",
    "POLYLINE",
    "LWPOLYLINE",
    "VERTEX",
    "SEQEND",
    "LINE",
    "ARC",
    "CIRCLE",
    "ELLIPSE",
    "SPLINE",
    "POINT",
    "TEXT",
    "MTEXT",
    "ATTRIB",
    "$INSUNITS",
    "Units: ENGLISH",
    "\n0\n",
    "\n2\n",
    "\n8\n",
    "\n10\n",
    "\n20\n",
    "\n40\n",
    "\n41\n",
    "\n42\n",
    "\n50\n",
    "\n62\n",
    "\n66\n",
    "\n70\n",
    "\n71\n",
    "\n230\n",
    "\\U+D800",
    "%%%%",
    "Piece Name: ",
    "Size: ",
    "Quantity: 2",
    "\n0\nSEQEND\n",
    "\n  8\n14\n",
    "\n  8\n4\n",
    // Of SVG.
    "<g>",
    "</g>",
    "<path d='M0 0 H9 V9 Z'/>",
    "<use href='#a'/>",
    "<text>",
    "</text>",
    "<defs>",
    "</svg>",
    "id='a'",
    " transform='scale(0)'",
    " transform='rotate(45) skewX(89)'",
    " viewBox='0 0 0 0'",
    " viewBox='0 0 1e9 1e-9'",
    "mm",
    "in",
    "%",
    "px",
    "M",
    "m",
    "L",
    "H",
    "V",
    "C",
    "S",
    "Q",
    "T",
    "A",
    "Z",
    "a5 5 0 1 1 9 9",
    " d=''",
    " display='none'",
    "&amp;",
    "<!--",
    "-->",
    "<![CDATA[",
    "style='transform:none'",
    "matrix(1 0 0 1 0 0)",
    // Of tables.
    ",",
    ";",
    "\t",
    "\"",
    "notch",
    "grain",
    "fold",
    "corner",
    "curve",
    "line hem",
    "mark",
    "piece,size,point,x,y,kind",
    "\u{feff}",
    "\u{202e}",
];

/// The seeds of each format: SVG, DXF and tables of points.
pub fn drawings() -> [Vec<Vec<u8>>; 3] {
    let (mut vectors, mut plots) = (Vec::new(), Vec::new());
    for (name, sizes) in EXPORTED {
        let compiled = compiled(name);
        let cuts: Vec<Cutting> =
            compiled.sizes.iter().take(sizes).map(|size| size.cut(&compiled.garment).clone()).collect();
        let look = Look { lines: Some(Lines::Both), ..Look::drawing() };
        vectors.push(svg(&sheet(&compiled.garment, &cuts, &look), "drawn").into_bytes());
        plots.push(dxf(&compiled.garment, &cuts));
    }
    vectors.extend(MAKERS_VECTORS.iter().map(|text| text.as_bytes().to_vec()));
    plots.extend(MAKERS_PLOTS.iter().map(|text| text.as_bytes().to_vec()));
    [vectors, plots, MAKERS_POINTS.iter().map(|text| text.as_bytes().to_vec()).collect()]
}

/// Small examples that together hold folds, darts, pleats, slits, placed pieces and layers, and in how many sizes they are
/// exported: what is small is tried often.
const EXPORTED: [(&str, usize); 6] = [
    ("crew-badge.fus", 1),
    ("watch-cap.fus", 2),
    ("galley-apron.fus", 1),
    ("ticket-bag.fus", 1),
    ("steward-bodice.fus", 2),
    ("mess-skirt-vent.fus", 1),
];

const MAKERS_VECTORS: [&str; 2] =
    [include_str!("../it/sources/makers/mess-skirt.svg"), include_str!("seeds/everything.svg")];
const MAKERS_PLOTS: [&str; 2] =
    [include_str!("../it/sources/makers/watch-waistcoat.dxf"), include_str!("seeds/everything.dxf")];
const MAKERS_POINTS: [&str; 2] =
    [include_str!("../it/sources/makers/oilskin-mitten.csv"), include_str!("seeds/everything.csv")];

/// The examples, so that one finds its base and its library.
const EXAMPLES: [(&str, &str); 9] = [
    ("crew-badge.fus", include_str!("../../examples/crew-badge.fus")),
    ("watch-cap.fus", include_str!("../../examples/watch-cap.fus")),
    ("galley-apron.fus", include_str!("../../examples/galley-apron.fus")),
    ("ticket-bag.fus", include_str!("../../examples/ticket-bag.fus")),
    ("steward-bodice.fus", include_str!("../../examples/steward-bodice.fus")),
    ("mess-skirt-vent.fus", include_str!("../../examples/mess-skirt-vent.fus")),
    ("mess-skirt.fus", include_str!("../../examples/mess-skirt.fus")),
    ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
];

fn compiled(name: &str) -> Compiled {
    let loader = EXAMPLES.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, *text));
    compile(&loader, name)
}
