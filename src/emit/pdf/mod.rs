//! The pieces on paper, true to scale: PDF 1.7 (ISO 32000-1), parted into pages that lie over one
//! another. Each size is a layer (optional content, 8.11) that a viewer can switch; so are its stitching lines, where
//! several sizes are asked for with both lines.

mod along;
mod cells;
mod cover;
mod ink;
mod letters;
mod pack;
mod page;
mod paper;
mod stretches;
mod tiles;
mod wide;

pub use paper::Paper;
pub use wide::{Wide, pdf_wide};

use super::drawing::{DrawnGroup, Group, Lines, Look, Shape, What, draw_group, pieces};
use crate::cutting::Cutting;
use crate::garment::{Garment, SizeId};
use crate::limits::PAGES;
use crate::report::{INCH, Remedy};
use ink::{Ground, Layer, draw, layer_name, meets, name_of_any, sharing};
use kurbo::{Point, Rect as Area, Vec2};
use letters::Letters;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, TextStr};
use rayon::prelude::*;
use stretches::{GAP, Ink, ink};
use thiserror::Error;
use tiles::{MARGIN, Tiling, tile};

/// Why pieces cannot be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum Unprintable {
    /// They would take more than [`PAGES`] pages.
    #[error("the pieces would take more than {PAGES} pages")]
    Pages,
    /// A piece is wider than the one page.
    #[error("a piece is wider than the page")]
    Narrow,
}

impl Unprintable {
    /// What would help.
    pub fn remedies(self) -> &'static [Remedy] {
        match self {
            Unprintable::Pages => &[Remedy::LargerPaper, Remedy::FewerPieces],
            Unprintable::Narrow => &[Remedy::LargerPaper],
        }
    }
}

/// Points in a millimetre: 72 in an inch of 25.4 mm (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / INCH;

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
    let drawn: Vec<(&Group, DrawnGroup)> = pieces
        .par_iter()
        .filter_map(|piece| Some((piece, draw_group(garment, piece, look, false)?)))
        .collect();
    let (pieces, mut groups): (Vec<&Group>, Vec<DrawnGroup>) = drawn.into_iter().unzip();
    let mut inks: Vec<Vec<Ink>> = groups.par_iter().map(ink).collect();
    let mut tiling = tile(&groups, &inks, paper)?;
    // Once it is known where pages join, words keep off there.
    let clear: Vec<Option<DrawnGroup>> = (pieces.par_iter().zip(&groups).zip(&tiling.moves))
        .map(|((piece, group), by)| {
            let joins = tiling.joins(group, *by);
            let look = Look { joins, ..look.clone() };
            let again =
                is_crossed(group, &look.joins).then(|| draw_group(garment, piece, &look, false)).flatten();
            // A label that is then under the piece takes more room than there is between pieces.
            let room = group.bounds.inflate(GAP - 1.0, GAP - 1.0);
            again.filter(|again| again.bounds.union(room) == room)
        })
        .collect();
    if clear.iter().any(Option::is_some) {
        for ((group, own), clear) in groups.iter_mut().zip(&mut inks).zip(clear) {
            if let Some(clear) = clear {
                (*own, *group) = (ink(&clear), clear);
            }
        }
        tiling = Tiling::of(&inks, &groups, tiling.moves, tiling.field);
    }
    if let Some(shown) = &look.of_nest {
        tiling.leave_out_all_but(shown);
    }
    let sizes = sizes_shown(cuts, look);
    let words = size_words(garment, &sizes);
    let (layers, sewn_apart) = layers(&sizes, look);
    let drawn = shapes_shown(&groups, &tiling.moves, look);
    let bounds: Vec<Area> = drawn.par_iter().map(Shape::bounds).collect();
    let mut letters = Letters::default();
    let (width, height) = paper.size();
    let whole = Area::new(0.0, 0.0, width, height);
    let count = tiling.pages.len() + 1;
    let mut contents: Vec<Vec<u8>> = Vec::with_capacity(count);
    let mut first = started(height);
    let cover = cover::cover(garment, &groups, &drawn, &tiling, paper, &words);
    draw(&mut first, &cover, whole, false, Ground::Paper, &mut letters);
    contents.push(first.finish().to_vec());
    for (at, &page) in tiling.pages.iter().enumerate() {
        let mut content = started(height);
        let part = tiling.part(page);
        content.save_state().transform([1.0, 0.0, 0.0, 1.0, MARGIN as f32, MARGIN as f32]);
        content.save_state().rect(0.0, 0.0, part.width() as f32, part.height() as f32);
        content.clip_nonzero().end_path();
        let on_page = drawn.iter().zip(&bounds).filter(|(_, bounds)| meets(**bounds, part));
        draw(&mut content, on_page.map(|(shape, _)| shape), part, sewn_apart, Ground::Paper, &mut letters);
        content.restore_state();
        draw(&mut content, &page::joins(&tiling, page), part, false, Ground::Paper, &mut letters);
        content.restore_state();
        let foot = page::foot(page, at + 2, count, &garment.title, &words);
        draw(&mut content, &foot, whole, false, Ground::Paper, &mut letters);
        contents.push(content.finish().to_vec());
        progress(at + 1, count - 1);
    }
    let contents: Vec<Vec<u8>> = contents.par_iter().map(|content| packed(content)).collect();
    let sheets = Sheets { contents: &contents, size: (width, height) };
    Ok(written(garment, sheets, &layers, &sharing(&drawn), &letters))
}

/// The sizes that are shown.
fn sizes_shown(cuts: &[Cutting], look: &Look) -> Vec<SizeId> {
    let all = cuts.iter().filter_map(|cut| cut.parts.first()).map(|part| part.size);
    all.filter(|size| look.shows_any(std::iter::once(*size))).collect()
}

/// All that is shown of the pieces, where they lie.
fn shapes_shown(groups: &[DrawnGroup], moves: &[Vec2], look: &Look) -> Vec<Shape> {
    let placed = groups.iter().zip(moves);
    let shown = placed.filter(|(group, _)| look.shows_any(group.outlines.iter().map(|(size, _)| *size)));
    shown
        .flat_map(|(group, by)| {
            let shapes = group.shapes.iter().filter(|shape| look.shows_shape(shape));
            shapes.map(|shape| shape.clone().moved(*by))
        })
        .collect()
}

/// The layers of these sizes, and whether their stitching lines have layers of their own.
fn layers(sizes: &[SizeId], look: &Look) -> (Vec<Layer>, bool) {
    let sewn_apart = sizes.len() > 1 && look.lines == Some(Lines::Both);
    let of_size = |&size: &SizeId| {
        let sewn = sewn_apart.then_some(Layer { size, sewn: true });
        [Some(Layer { size, sewn: false }), sewn]
    };
    (sizes.iter().flat_map(of_size).flatten().collect(), sewn_apart)
}

/// Whether words of a group stand across one of the lines.
fn is_crossed(group: &DrawnGroup, lines: &[(Point, Point)]) -> bool {
    group.shapes.iter().any(|shape| {
        let own = shape.bounds();
        matches!(shape.what, What::Words(_))
            && lines.iter().any(|&(from, to)| {
                let line = Area::from_points(from, to);
                own.x0 < line.x1 + 1.0
                    && line.x0 < own.x1 + 1.0
                    && own.y0 < line.y1 + 1.0
                    && line.y0 < own.y1 + 1.0
            })
    })
}

/// How many points are a unit of a page whose longer side is so long, in millimetres: no page has more than 14 400 units a
/// side (ISO 32000-1, annex C.2), and a larger one has larger units (14.11.2 and table 30).
fn user_unit(longest: f64) -> f64 {
    (longest * POINTS / 14_400.0).ceil().max(1.0)
}

/// A page's operators, with millimetres for units, of a page whose longer side is so long.
fn started(longest: f64) -> Content {
    let mut content = Content::new();
    let scale = (POINTS / user_unit(longest)) as f32;
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

/// Pages of one size.
struct Sheets<'a> {
    /// Each one's operators.
    contents: &'a [Vec<u8>],
    /// Width and height in millimetres.
    size: (f64, f64),
}

/// The file round the pages' operators. `sharing`: sizes that have lines together.
fn written(
    garment: &Garment,
    Sheets { contents, size: (width, height) }: Sheets,
    layers: &[Layer],
    sharing: &[Vec<SizeId>],
    letters: &Letters,
) -> Vec<u8> {
    let pages = contents.len() as i32;
    // Catalogue, page tree, information; then layers, pages, contents and fonts.
    let (catalog, tree, information) = (Ref::new(1), Ref::new(2), Ref::new(3));
    let layer = |at: usize| Ref::new(4 + at as i32);
    let any = |at: usize| Ref::new(4 + (layers.len() + at) as i32);
    let first_page = 4 + (layers.len() + sharing.len()) as i32;
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
    for (at, sizes) in sharing.iter().enumerate() {
        // Seen as long as any of them is (ISO 32000-1, 8.11.2.2).
        let of = |size: &SizeId| layers.iter().position(|own| own.size == *size && !own.sewn);
        let mut group = pdf.indirect(any(at)).dict();
        group.pair(Name(b"Type"), Name(b"OCMD"));
        group.insert(Name(b"OCGs")).array().items(sizes.iter().filter_map(of).map(layer));
        group.pair(Name(b"P"), Name(b"AnyOn"));
    }
    pdf.pages(tree).kids((0..pages).map(|page| Ref::new(first_page + page))).count(pages);
    let fonts = letters.refs(first_font);
    let unit = user_unit(width.max(height));
    let to_units = |length: f64| (length * POINTS / unit) as f32;
    let media = Rect::new(0.0, 0.0, to_units(width), to_units(height));
    for at in 0..pages {
        let mut page = pdf.page(Ref::new(first_page + at));
        if unit > 1.0 {
            page.user_unit(unit as f32);
        }
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
        for (at, sizes) in sharing.iter().enumerate() {
            properties.pair(Name(name_of_any(sizes).as_bytes()), any(at));
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
