//! How cloth and lines look: textures by cloth, tones by side, and a line for everything that is done.
//!
//! Cloth is told by texture, its sides by tone, what is sewn by the weight and rhythm of a line, so that nothing hangs on
//! colour. Pictures name classes; [`style`] and [`defs`] stand once on a page and say what they look like.

use std::fmt::Write;

/// How many cloths have a texture of their own; a sixth looks like the first.
pub const TEXTURES: usize = 5;

/// What a cloth looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cloth {
    /// Its texture.
    pub texture: Texture,
    /// Its right side is seen.
    pub right: bool,
    /// It is sewn to something already: half tone.
    pub joined: bool,
}

/// The texture of a cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Texture {
    /// Of a fabric: its place among those that layers are cut from.
    Of(usize),
    /// Of what is bought by length, and of a layer whose fabric is not known.
    Bought,
}

impl Cloth {
    /// The class of its surface.
    pub fn class(self) -> String {
        let side = match (self.right, self.joined) {
            (true, false) => 'r',
            (true, true) => 'h',
            (false, false) => 'w',
            (false, true) => 'v',
        };
        match self.texture {
            Texture::Of(nth) => format!("{side}{}", nth % TEXTURES),
            Texture::Bought => format!("{side}f"),
        }
    }
}

/// A line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// The outline of a piece.
    Outline,
    /// The outline of a piece that is sewn to something already.
    Joined,
    /// An edge that is sewn now.
    Now,
    /// Stitching that is seen.
    Stitched,
    /// Basting.
    Basted,
    /// Stitches by hand.
    Slipped,
    /// Sewn before.
    Before,
    /// A fold.
    Fold,
    /// A thread between points that meet.
    Thread,
    /// A bar at the end of a gap, a line inside a piece, an arrow's shaft.
    Ink,
    /// The tape of a zip, its outline.
    Tape,
    /// The teeth of a zip.
    Teeth,
    /// A cord, an elastic or a binding.
    Cord,
    /// An edge that differs from that of the base.
    Differs,
}

impl Stroke {
    /// The classes of the strokes that it is drawn with, the lowest first.
    pub fn classes(self) -> &'static [&'static str] {
        match self {
            Stroke::Outline => &["o"],
            Stroke::Joined => &["j"],
            Stroke::Now => &["c", "n"],
            Stroke::Stitched => &["c", "s"],
            Stroke::Basted => &["c", "b"],
            Stroke::Slipped => &["c", "l"],
            Stroke::Before => &["p"],
            Stroke::Fold => &["f"],
            Stroke::Thread => &["t"],
            Stroke::Ink => &["i"],
            Stroke::Tape => &["z"],
            Stroke::Teeth => &["e"],
            Stroke::Cord => &["c", "k"],
            Stroke::Differs => &["c", "d"],
        }
    }
}

/// A texture's right side, its half tone, and what is drawn on it.
struct Weave {
    full: &'static str,
    half: &'static str,
    /// The marks' colour on the full tone and on the half one.
    ink: [&'static str; 2],
    /// How large the pattern is.
    size: u32,
    /// The marks as path data; empty of plain cloth.
    marks: &'static str,
}

const WEAVES: [Weave; TEXTURES] = [
    Weave { full: "#7d97a3", half: "#bccad1", ink: ["", ""], size: 6, marks: "" },
    Weave {
        full: "#dcb978",
        half: "#f0dfbd",
        ink: ["#6b4f18", "#b99d66"],
        size: 6,
        marks: "M1.2 2h1.6M4.2 5h1.6",
    },
    Weave {
        full: "#a9b79a",
        half: "#d3dbca",
        ink: ["#4d5d43", "#98a48c"],
        size: 6,
        marks: "M1.5 0v6M4.5 0v6",
    },
    Weave {
        full: "#c9b3c4",
        half: "#e6dbe3",
        ink: ["#5f4459", "#a48f9f"],
        size: 8,
        marks: "M4 1.5v5M1.5 4h5",
    },
    Weave {
        full: "#b9c4cf",
        half: "#dde3e8",
        ink: ["#3f5266", "#8a9aa8"],
        size: 8,
        marks: "M0 4q2 -3.6 4 0t4 0",
    },
];

/// The patterns that pictures name. They stand once on a page that has pictures.
pub fn defs() -> String {
    let mut patterns = String::new();
    let mut pattern = |id: String, size: u32, ground: &str, marks: &[(&str, &str)]| {
        let _ = write!(
            patterns,
            "<pattern id=\"cloth-{id}\" width=\"{size}\" height=\"{size}\" patternUnits=\"userSpaceOnUse\">\
             <rect width=\"{size}\" height=\"{size}\" fill=\"{ground}\"/>"
        );
        for (data, ink) in marks {
            let _ =
                write!(patterns, "<path d=\"{data}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"1.1\"/>");
        }
        patterns.push_str("</pattern>");
    };
    for (nth, weave) in WEAVES.iter().enumerate() {
        let size = weave.size;
        if !weave.marks.is_empty() {
            pattern(format!("r{nth}"), size, weave.full, &[(weave.marks, weave.ink[0])]);
            pattern(format!("h{nth}"), size, weave.half, &[(weave.marks, weave.ink[1])]);
        }
        for (side, ground, hatch, ink) in
            [("w", "#fbfaf5", "#8d979b", weave.ink[0]), ("v", "#fdfcf9", "#c3c9cb", weave.ink[1])]
        {
            let data =
                format!("M-1 1L1 -1M0 {size}L{size} 0M{} {}L{} {}", size - 1, size + 1, size + 1, size - 1);
            let mut marks = vec![(data.as_str(), hatch)];
            if !weave.marks.is_empty() {
                marks.push((weave.marks, ink));
            }
            pattern(format!("{side}{nth}"), size, ground, &marks);
        }
    }
    for (side, ink) in [("rf", "#6f6a55"), ("hf", "#a8a491"), ("wf", "#6f6a55"), ("vf", "#a8a491")] {
        pattern(side.to_owned(), 6, "#efead9", &[("M0 0L6 6M0 6L6 0", ink)]);
    }
    format!(
        "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\" focusable=\"false\"><defs>{patterns}</defs></svg>"
    )
}

/// The style of the classes that pictures name. It stands once on a page that has pictures.
pub fn style() -> String {
    let mut style = String::new();
    for (nth, weave) in WEAVES.iter().enumerate() {
        if weave.marks.is_empty() {
            let _ = write!(style, ".pic .r{nth}{{fill:{}}}.pic .h{nth}{{fill:{}}}", weave.full, weave.half);
        } else {
            let _ = write!(
                style,
                ".pic .r{nth}{{fill:url(#cloth-r{nth})}}.pic .h{nth}{{fill:url(#cloth-h{nth})}}"
            );
        }
        let _ =
            write!(style, ".pic .w{nth}{{fill:url(#cloth-w{nth})}}.pic .v{nth}{{fill:url(#cloth-v{nth})}}");
    }
    for side in ["r", "h", "w", "v"] {
        let _ = write!(style, ".pic .{side}f{{fill:url(#cloth-{side}f)}}");
    }
    style.push_str(STYLE);
    style
}

const STYLE: &str = "\
.pic{display:block;width:100%;height:auto;font-family:'Liberation Sans',Arial,Helvetica,sans-serif;\
-webkit-print-color-adjust:exact;print-color-adjust:exact}\
.pic path{stroke-linejoin:round}\
.pic .o,.pic .j,.pic .c,.pic .n,.pic .s,.pic .b,.pic .l,.pic .p,.pic .f,.pic .t,.pic .i,.pic .z,.pic .e,.pic .k,.pic .d{fill:none}\
.pic .o{stroke:#1b2226;stroke-width:1.1}\
.pic .j{stroke:#5d686e;stroke-width:.8}\
.pic .c{stroke:#fff;stroke-width:7;stroke-linecap:round}\
.pic .n{stroke:#9a2616;stroke-width:4;stroke-linecap:round}\
.pic .s{stroke:#9a2616;stroke-width:3.6;stroke-dasharray:6 2.2}\
.pic .b{stroke:#9a2616;stroke-width:2.4;stroke-dasharray:9 5}\
.pic .l{stroke:#9a2616;stroke-width:3.4;stroke-dasharray:3 6}\
.pic .p{stroke:#1b2226;stroke-width:1.6}\
.pic .f{stroke:#1b2226;stroke-width:1.1;stroke-dasharray:8 3 2 3}\
.pic .t{stroke:#1b2226;stroke-width:1;stroke-dasharray:1.5 3.5;stroke-linecap:round}\
.pic .i{stroke:#1b2226;stroke-width:1.3}\
.pic .z{stroke:#1b2226;stroke-width:1;fill:#fff}\
.pic .e{stroke:#1b2226;stroke-width:3.2;stroke-dasharray:1.6 1.8}\
.pic .k{stroke:#47525a;stroke-width:4}\
.pic .d{stroke:#1b2226;stroke-width:5;stroke-dasharray:1.5 2.5}\
.pic .a{fill:#1b2226}\
.pic .g{fill:#fff;stroke:#1b2226;stroke-width:1.4}\
.pic .q{fill:#1b2226;stroke:#fff;stroke-width:1}\
.pic text{font-size:12.5px;fill:#1b2226;text-anchor:middle;paint-order:stroke;stroke:#fff;stroke-width:3px;\
stroke-linejoin:round}\
.pic .q+text{fill:#fff;stroke:none;font-weight:700}\
.pic .g+text{stroke:none;font-weight:600}\
.pic .m{text-anchor:start}\
.pic .u{fill:#1b2226;stroke:none}";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_class_of_cloth_is_styled_and_every_pattern_is_there() {
        let (style, defs) = (style(), defs());
        for nth in 0..TEXTURES {
            for (right, joined) in [(true, true), (true, false), (false, true), (false, false)] {
                let class = Cloth { texture: Texture::Of(nth), right, joined }.class();
                assert!(style.contains(&format!(".pic .{class}{{fill:")), "{class}");
                assert!(
                    !style.contains(&format!("url(#cloth-{class})"))
                        || defs.contains(&format!("id=\"cloth-{class}\""))
                );
            }
        }
    }
}
