//! The pieces on paper, true to scale: PDF 1.7 (ISO 32000-1), parted into pages that lie over one
//! another. Each size is a layer (optional content, 8.11) that a viewer can switch; so are its stitching lines, where
//! several sizes are asked for with both lines.

mod cover;
mod ink;
mod letters;
mod page;
mod paper;
mod tiles;

pub use paper::Paper;

use super::drawing::{DrawnGroup, Lines, Look, Shape, draw_group, pieces};
use crate::cutting::Cutting;
use crate::garment::{Garment, SizeId};
use crate::limits::PAGES;
use crate::report::Remedy;
use ink::{Layer, draw, layer_name};
use kurbo::Rect as Area;
use letters::Letters;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use rayon::prelude::*;
use thiserror::Error;
use tiles::{MARGIN, tile};

/// Why pieces cannot be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum Unprintable {
    /// They would take more than [`PAGES`] pages.
    #[error("the pieces would take more than {PAGES} pages")]
    Pages,
}

impl Unprintable {
    /// What would help.
    pub fn remedies(self) -> &'static [Remedy] {
        match self {
            Unprintable::Pages => &[Remedy::LargerPaper, Remedy::FewerPieces],
        }
    }
}

/// Points in a millimetre: 72 in an inch of 25.4 mm (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / 25.4;

/// The pages of these sizes of a garment, in one another where they are several. `progress` hears
/// how many pages of how many are done.
///
/// # Errors
/// When it would take too many pages.
pub fn pdf(
    garment: &Garment,
    cuts: &[Cutting],
    paper: Paper,
    look: &Look,
    progress: &mut dyn FnMut(usize, usize),
) -> Result<Vec<u8>, Unprintable> {
    let pieces = pieces(garment, cuts, look);
    let groups: Vec<DrawnGroup> =
        pieces.par_iter().filter_map(|piece| draw_group(garment, piece, look, false)).collect();
    let tiling = tile(&groups, paper)?;
    let sizes: Vec<SizeId> = cuts.iter().filter_map(|cut| cut.parts.first()).map(|part| part.size).collect();
    let words = size_words(garment, &sizes);
    let sewn_apart = sizes.len() > 1 && look.lines == Some(Lines::Both);
    let layers: Vec<Layer> = sizes
        .iter()
        .flat_map(|&size| {
            let sewn = sewn_apart.then_some(Layer { size, sewn: true });
            [Some(Layer { size, sewn: false }), sewn]
        })
        .flatten()
        .collect();
    let mut drawn: Vec<Shape> = Vec::new();
    for (group, by) in groups.iter().zip(&tiling.moves) {
        drawn.extend(group.shapes.iter().map(|shape| shape.clone().moved(*by)));
    }
    let mut letters = Letters::default();
    let (width, height) = paper.size();
    let whole = Area::new(0.0, 0.0, width, height);
    let count = tiling.pages.len() + 1;
    let mut contents: Vec<Vec<u8>> = Vec::with_capacity(count);
    let mut first = started();
    let cover = cover::cover(garment, &groups, &tiling, paper, &words);
    draw(&mut first, &cover, whole, false, &mut letters);
    contents.push(packed(&first.finish()));
    for (at, &page) in tiling.pages.iter().enumerate() {
        let mut content = started();
        let part = tiling.part(page);
        content.save_state().transform([1.0, 0.0, 0.0, 1.0, MARGIN as f32, MARGIN as f32]);
        content.save_state().rect(0.0, 0.0, part.width() as f32, part.height() as f32);
        content.clip_nonzero().end_path();
        draw(&mut content, &drawn, part, sewn_apart, &mut letters);
        content.restore_state();
        draw(&mut content, &page::joins(&tiling, page), part, false, &mut letters);
        content.restore_state();
        let foot = page::foot(page, at + 2, count, &garment.title, &words);
        draw(&mut content, &foot, whole, false, &mut letters);
        contents.push(packed(&content.finish()));
        progress(at + 1, count - 1);
    }
    Ok(written(garment, &contents, &layers, (width, height), &letters))
}

/// A page's operators, with millimetres for units.
fn started() -> Content {
    let mut content = Content::new();
    let scale = POINTS as f32;
    content.transform([scale, 0.0, 0.0, scale, 0.0, 0.0]);
    content
}

/// Deflated (ISO 32000-1, 7.4.4).
fn packed(data: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(data, 6)
}

/// "size M", "sizes XS to 2XL", "for Second mate"; nothing of a garment in one size.
fn size_words(garment: &Garment, sizes: &[SizeId]) -> String {
    let name = |id: SizeId| &garment.size(id).name;
    match sizes {
        [] => String::new(),
        [one] => garment.size_words(*one),
        [first, .., last] => format!("sizes {} to {}", name(*first), name(*last)),
    }
}

/// The file round the pages' operators.
fn written(
    garment: &Garment,
    contents: &[Vec<u8>],
    layers: &[Layer],
    (width, height): (f64, f64),
    letters: &Letters,
) -> Vec<u8> {
    let pages = contents.len() as i32;
    // Catalogue, page tree, information; then layers, pages, contents and fonts.
    let (catalog, tree, information) = (Ref::new(1), Ref::new(2), Ref::new(3));
    let layer = |at: usize| Ref::new(4 + at as i32);
    let first_page = 4 + layers.len() as i32;
    let first_content = first_page + pages;
    let first_font = first_content + pages;
    let mut pdf = Pdf::new();
    pdf.set_version(1, 7);
    let mut root = pdf.catalog(catalog);
    root.pages(tree);
    let mut optional = root.insert(Name(b"OCProperties")).dict();
    optional.insert(Name(b"OCGs")).array().items((0..layers.len()).map(layer));
    let mut shown = optional.insert(Name(b"D")).dict();
    shown.pair(Name(b"Name"), TextStr("Sizes"));
    shown.insert(Name(b"Order")).array().items((0..layers.len()).map(layer));
    shown.insert(Name(b"ON")).array().items((0..layers.len()).map(layer));
    shown.finish();
    optional.finish();
    root.finish();
    pdf.document_info(information)
        .title(TextStr(&garment.title))
        .creator(TextStr("Fustian"))
        .producer(TextStr(concat!("Fustian ", env!("CARGO_PKG_VERSION"))));
    for (at, own) in layers.iter().enumerate() {
        let mut name = garment.size(own.size).name.to_string();
        if own.sewn {
            name.push_str(", sew");
        }
        let mut group = pdf.indirect(layer(at)).dict();
        group.pair(Name(b"Type"), Name(b"OCG"));
        group.pair(Name(b"Name"), TextStr(&name));
    }
    pdf.pages(tree).kids((0..pages).map(|page| Ref::new(first_page + page))).count(pages);
    let fonts = letters.refs(first_font);
    let media = Rect::new(0.0, 0.0, (width * POINTS) as f32, (height * POINTS) as f32);
    for at in 0..pages {
        let mut page = pdf.page(Ref::new(first_page + at));
        page.media_box(media).parent(tree).contents(Ref::new(first_content + at));
        let mut resources = page.resources();
        let mut named = resources.fonts();
        for (name, font) in &fonts {
            named.pair(Name(name.as_bytes()), *font);
        }
        named.finish();
        let mut properties = resources.insert(Name(b"Properties")).dict();
        for (at, own) in layers.iter().enumerate() {
            properties.pair(Name(layer_name(*own).as_bytes()), layer(at));
        }
        properties.finish();
        resources.finish();
    }
    for (content, at) in contents.iter().zip(first_content..) {
        pdf.stream(Ref::new(at), content).filter(Filter::FlateDecode);
    }
    letters.write(&mut pdf, first_font);
    pdf.finish()
}
