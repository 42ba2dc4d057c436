//! The letters that a document uses, embedded as parts of their fonts (ISO 32000-1, 9.7 and 9.9).

use crate::emit::drawing::{Face, Glyph, faces};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// The letters used so far.
#[derive(Default)]
pub(super) struct Letters {
    used: [Used; faces().len()],
}

#[derive(Default)]
struct Used {
    remapper: GlyphRemapper,
    letters: BTreeMap<u16, char>,
}

/// Every font is one object and four that it needs.
const OBJECTS: i32 = 5;

impl Letters {
    /// What a face is called in a page's resources.
    pub fn name(&self, face: Face) -> &'static str {
        match face {
            Face::Plain => "F0",
            Face::Bold => "F1",
        }
    }

    /// The code of a letter in its font's part.
    pub fn code(&mut self, face: Face, glyph: &Glyph) -> u16 {
        let at = faces().iter().position(|known| *known == face).unwrap_or(0);
        let Some(used) = self.used.get_mut(at) else { return 0 };
        let code = used.remapper.remap(glyph.id.0);
        used.letters.entry(code).or_insert(glyph.letter);
        code
    }

    /// The fonts' objects: the face's name in resources and its object, from `first` on.
    pub fn refs(&self, first: i32) -> Vec<(&'static str, Ref)> {
        let refs = (first..).step_by(OBJECTS as usize).map(Ref::new);
        faces().into_iter().map(|face| self.name(face)).zip(refs).collect()
    }

    /// Writes the fonts, from object `first` on.
    pub fn write(&self, pdf: &mut Pdf, first: i32) {
        for ((face, used), (_, font)) in faces().into_iter().zip(&self.used).zip(self.refs(first)) {
            write_font(pdf, face, used, font);
        }
    }
}

fn write_font(pdf: &mut Pdf, face: Face, used: &Used, font: Ref) {
    let Some(parsed) = face.font() else { return };
    let Ok(data) = subsetter::subset(face.data(), 0, &used.remapper) else { return };
    let object = |off: i32| Ref::new(font.get() + off);
    let (cid, descriptor, file, unicode) = (object(1), object(2), object(3), object(4));
    let name = match face {
        Face::Plain => "FSTNPL+NotoSans",
        Face::Bold => "FSTNBD+NotoSans-Bold",
    };
    let name = Name(name.as_bytes());
    let system = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
    pdf.type0_font(font)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid)
        .to_unicode(unicode);
    let to_body = 1000.0 / f32::from(parsed.units_per_em());
    let mut cid_font = pdf.cid_font(cid);
    cid_font.subtype(CidFontType::Type2).base_font(name).system_info(system);
    cid_font.font_descriptor(descriptor).default_width(0.0).cid_to_gid_map_predefined(Name(b"Identity"));
    let widths = used
        .remapper
        .remapped_gids()
        .map(|glyph| f32::from(parsed.glyph_hor_advance(ttf_parser::GlyphId(glyph)).unwrap_or(0)) * to_body);
    cid_font.widths().consecutive(0, widths);
    cid_font.finish();
    let bounds = parsed.global_bounding_box();
    let scaled = |value: i16| f32::from(value) * to_body;
    pdf.font_descriptor(descriptor)
        .name(name)
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(
            scaled(bounds.x_min),
            scaled(bounds.y_min),
            scaled(bounds.x_max),
            scaled(bounds.y_max),
        ))
        .italic_angle(0.0)
        .ascent(scaled(parsed.ascender()))
        .descent(scaled(parsed.descender()))
        .cap_height(scaled(parsed.capital_height().unwrap_or(parsed.ascender())))
        .stem_v(if face == Face::Bold { 140.0 } else { 80.0 })
        .font_file2(file);
    let packed = super::packed(&data);
    let mut stream = pdf.stream(file, &packed);
    stream.filter(Filter::FlateDecode).pair(Name(b"Length1"), data.len() as i32);
    stream.finish();
    let mut map: UnicodeCmap = UnicodeCmap::new(Name(b"Fustian"), system);
    for (code, letter) in &used.letters {
        map.pair(*code, *letter);
    }
    pdf.cmap(unicode, &map.finish());
}
