//! A small generator of big files: the deck awning of the crew's ferry, sewn of any number of
//! panels, in any number of sizes.

use std::fmt::Write;

/// A garment of that many pieces in that many sizes. Every piece has straight edges and curves, a
/// value of its own, a line that it is lengthened at, a mark, a notch, and seams to its neighbour.
pub fn garment(pieces: usize, sizes: usize) -> String {
    let names: Vec<String> = (0..sizes).map(|size| format!("deck{size}")).collect();
    let names = names.join(", ");
    let mut text = format!(
        "garment \"Deck awning\"\nunits cm\nallowance 1\ntolerance 2mm\nsizes {names}\n\
         body {{\n  chest 80 grade +0.5\n  back_waist 40 grade +0.1\n}}\n\
         pick size by chest\nlet ease = 24\nfabric canvas \"sail canvas\" {{ width 150; selvage 1 }}\n"
    );
    if sizes == 1 {
        text = text.replace("80 grade +0.5", "80").replace("40 grade +0.1", "40");
    }
    let panels: Vec<String> = (0..pieces).map(|at| format!("panel{at}")).collect();
    writeln!(text, "layer outer in canvas {{ {} }}", panels.join(", ")).expect("a text takes all");
    for at in 0..pieces {
        panel(&mut text, at, pieces);
    }
    text
}

fn panel(text: &mut String, at: usize, pieces: usize) {
    // Every other panel is sewn to the next; an odd one out to its own mirror image.
    let neighbour = if at + 1 < pieces { at + 1 } else { at };
    write!(
        text,
        r#"
# Panel {at}: its lower edge is cut to the rail.
let drop{at} = back_waist + 20.{at:06}  "neck to rail"
piece panel{at} "Panel {at}" {{
  cut 2 mirrored
  point head     = (0, -7.5)
  point gather   = (chest/12 + 1, 0)
  point tip      = gather + (chest/8 + 1.5, -4)
  point underarm = ((chest + ease)/4, -(chest/8 + 12))
  point rail     = (x(underarm), -drop{at})
  point foot     = (0, -drop{at})
  outline from foot {{
    centre   to head
    neckline to gather    curve leaving right arriving square to shoulder
    shoulder to tip
    armhole  to underarm  curve leaving square to shoulder arriving right
    side     to rail
    hem      to foot
  }}
  line waist across at (0, -back_waist)
  mark eyelet = (4, 4 - drop{at})
  notch armhole 8 from underarm
}}
lengthen panel{at} at waist by 3
measure fall{at} "Fall of panel {at}" = length(panel{at}.centre) + finished(panel{at}.neckline)
require length(panel{at}.side) >= 20 "panel {at} must clear the rail"
seam side{at}  panel{at}.side to panel{at}.side
finish panel{at}.hem  hem 3 turned under 1
finish panel{at}.centre, panel{at}.neckline, panel{at}.armhole  raw
"#
    )
    .expect("a text takes all");
    if at.is_multiple_of(2) {
        writeln!(text, "seam shoulder{at}  panel{at}.shoulder to panel{neighbour}.shoulder")
            .expect("a text takes all");
    }
}

/// A garment of about that many bytes, in that many sizes.
pub fn garment_of_bytes(bytes: usize, sizes: usize) -> String {
    let (few, many) = (garment(100, sizes).len(), garment(200, sizes).len());
    let pieces = 100 + bytes.saturating_sub(few) * 100 / (many - few);
    garment(pieces, sizes)
}
