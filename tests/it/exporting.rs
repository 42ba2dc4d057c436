//! Pieces for other programs, read back with the dxf crate.

use crate::cutting_lines::{cut_all, example};
use dxf::Drawing;
use dxf::entities::{Entity, EntityType};
use dxf::enums::AcadVersion;
use fustian::emit::dxf as write;
use std::collections::BTreeSet;
use std::io::Cursor;

fn on<'a>(block: &'a dxf::Block, layer: &str) -> Vec<&'a Entity> {
    block.entities.iter().filter(|entity| entity.common.layer == layer).collect()
}

fn length(entity: &Entity) -> f64 {
    match &entity.specific {
        EntityType::Polyline(line) => {
            let mut points: Vec<_> = line.vertices().map(|vertex| vertex.location.clone()).collect();
            if line.is_closed() {
                points.push(points[0].clone());
            }
            points.windows(2).map(|pair| (pair[0].x - pair[1].x).hypot(pair[0].y - pair[1].y)).sum()
        }
        EntityType::Line(line) => (line.p1.x - line.p2.x).hypot(line.p1.y - line.p2.y),
        other => panic!("{other:?} has no length"),
    }
}

/// One block a piece and size; the layers of ASTM D6673-10; lengths within 0.1 mm of the pieces
/// (chords of their curves within 0.02 mm).
#[test]
fn each_piece_and_size_is_a_block() {
    for name in ["deck-jacket.fus", "mess-jacket.fus", "galley-apron.fus"] {
        let compiled = example(name);
        let cuts = cut_all(&compiled);
        let bytes = write(&compiled.garment, &cuts);
        let drawing = Drawing::load(&mut Cursor::new(&bytes)).unwrap();
        assert_eq!(drawing.header.version, AcadVersion::R13);
        let blocks: Vec<_> = drawing.blocks().filter(|block| !block.name.starts_with('*')).collect();
        let parts: Vec<_> = cuts.iter().flat_map(|cut| &cut.parts).collect();
        assert_eq!(blocks.len(), parts.len(), "{name}");
        let names: BTreeSet<&str> = blocks.iter().map(|block| block.name.as_str()).collect();
        assert_eq!(names.len(), blocks.len(), "{name}");
        for (block, part) in blocks.iter().zip(&parts) {
            let sum = |paths: &[fustian::shape::path::Path]| -> f64 {
                paths.iter().map(fustian::shape::path::Path::length).sum()
            };
            let boundary: f64 = on(block, "1").into_iter().map(length).sum();
            assert!((boundary - sum(&part.cutting_ring())).abs() < 0.1, "{}", block.name);
            let sewn: f64 = on(block, "14").into_iter().map(length).sum();
            assert!((sewn - sum(&part.stitching) - sum(&part.rows)).abs() < 0.1, "{}", block.name);
            let snips: usize = part.notches.iter().map(|notch| notch.snips.len()).sum();
            assert_eq!(on(block, "4").len(), snips, "{}", block.name);
            assert_eq!(on(block, "6").len(), usize::from(part.fold.is_some()), "{}", block.name);
            assert_eq!(on(block, "7").len(), 1, "{}", block.name);
            assert_eq!(on(block, "8").len(), part.lines.len() + part.guides.len(), "{}", block.name);
            assert_eq!(on(block, "13").len(), part.marks.len() + part.fasteners.len(), "{}", block.name);
            assert_eq!(on(block, "2").len(), part.cutting.len() + part.stitching.len(), "{}", block.name);
            let texts: Vec<&str> = on(block, "15")
                .into_iter()
                .filter_map(|entity| match &entity.specific {
                    EntityType::Text(text) => Some(text.value.as_str()),
                    _ => None,
                })
                .collect();
            assert!(texts.contains(&&*format!("Quantity: {}", part.copies)), "{texts:?}");
            let inserted = drawing.entities().any(
                |entity| matches!(&entity.specific, EntityType::Insert(insert) if insert.name == block.name),
            );
            assert!(inserted, "{}", block.name);
        }
    }
}

/// Pieces lie side by side within the extents that the header says, and a notch is a vertex of the boundary.
#[test]
fn pieces_lie_side_by_side() {
    let compiled = example("deck-smock.fus");
    let cuts = cut_all(&compiled);
    let drawing = Drawing::load(&mut Cursor::new(&write(&compiled.garment, &cuts))).unwrap();
    let mut placed: Vec<geo::Rect> = Vec::new();
    for entity in drawing.entities() {
        let EntityType::Insert(insert) = &entity.specific else { continue };
        let block = drawing.blocks().find(|block| block.name == insert.name).unwrap();
        let mut vertices: Vec<(f64, f64)> = Vec::new();
        for outline in on(block, "1") {
            let EntityType::Polyline(line) = &outline.specific else { panic!("{outline:?}") };
            vertices.extend(line.vertices().map(|vertex| (vertex.location.x, vertex.location.y)));
        }
        for notch in on(block, "4") {
            let EntityType::ModelPoint(notch) = &notch.specific else { panic!("{notch:?}") };
            let near = |at: &(f64, f64)| (at.0 - notch.location.x).hypot(at.1 - notch.location.y) < 0.006;
            assert!(vertices.iter().any(near), "{}: {:?}", block.name, notch.location);
        }
        let (dx, dy) = (insert.location.x, insert.location.y);
        let moved = geo::MultiPoint::from_iter(vertices.iter().map(|at| (at.0 + dx, at.1 + dy)));
        placed.push(geo::BoundingRect::bounding_rect(&moved).unwrap());
    }
    assert_eq!(placed.len(), cuts.iter().map(|cut| cut.parts.len()).sum::<usize>());
    let (low, high) = (&drawing.header.minimum_drawing_extents, &drawing.header.maximum_drawing_extents);
    for (at, own) in placed.iter().enumerate() {
        assert!(
            own.min().x >= low.x && own.min().y >= low.y && own.max().x <= high.x && own.max().y <= high.y
        );
        assert!(placed[..at].iter().all(|other| !geo::Intersects::intersects(own, other)), "{own:?}");
    }
    let texts: Vec<&str> = drawing
        .entities()
        .filter_map(|entity| match &entity.specific {
            EntityType::Text(text) => Some(text.value.as_str()),
            _ => None,
        })
        .collect();
    let sample = format!("Sample Size: {}", compiled.garment.sizes[0].name);
    assert!(texts.contains(&"Units: METRIC") && texts.contains(&&*sample), "{texts:?}");
}

/// What would be read as a code is spelled so that it stands for itself (Autodesk's DXF reference: `%%%` is one percent
/// sign, `\U+005C` a backslash).
#[test]
fn words_never_become_codes() {
    let text = "garment \"50% %%c \\U+0041 ^J\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n\
        layer outer in canvas { bib }\npiece bib \"Bib\" { cut 1; outline rectangle 40 by 50 }\n\
        finish bib.bottom, bib.right, bib.top, bib.left  hem 2\n";
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let title = compiled.garment.title.to_string();
    let written = String::from_utf8(write(&compiled.garment, &cut_all(&compiled))).unwrap();
    let line = written.lines().find(|line| line.starts_with("Style Name")).unwrap();
    let spelled = title.replace("%%", "%%%%%%").replace("\\U", "\\U+005CU").replace('^', "^ ");
    assert_eq!(line, format!("Style Name: {spelled}"));
}

/// Every handle is given once, and making the file twice gives the same bytes.
#[test]
fn the_file_is_sound_and_the_same_each_time() {
    let compiled = example("galley-apron.fus");
    let cuts = cut_all(&compiled);
    let bytes = write(&compiled.garment, &cuts);
    assert!(bytes == write(&compiled.garment, &cuts));
    let text = String::from_utf8(bytes).unwrap();
    assert!(text.is_ascii() && !text.contains("$TD"));
    let lines: Vec<&str> = text.lines().collect();
    let handles: Vec<&str> =
        lines.chunks(2).filter(|pair| pair[0].trim() == "5").map(|pair| pair[1]).collect();
    let distinct: BTreeSet<&&str> = handles.iter().collect();
    assert_eq!(distinct.len(), handles.len());
    let seed = lines.iter().position(|line| *line == "$HANDSEED").unwrap() + 2;
    let value = |handle: &str| u64::from_str_radix(handle, 16).unwrap();
    let greatest = handles.iter().filter(|handle| **handle != lines[seed]).map(|handle| value(handle)).max();
    assert!(greatest.unwrap() < value(lines[seed]));
}

/// Names that DXF does not allow are spelled with what it does, and none is lost or doubled.
#[test]
fn any_name_can_be_exported() {
    let text = "garment \"Smock ^ é ½\"\nunits cm\nallowance 1\n\
        fabric canvas \"a/b <c> 🧵\" { width 150 }\nlayer outer in canvas { größe, grüße }\n\
        piece größe \"One\" { cut 1; outline rectangle 40 by 50 }\n\
        piece grüße \"Other\" { cut 1; outline rectangle 30 by 50 }\n\
        finish größe.bottom, größe.right, größe.top, größe.left  hem 2\n\
        finish grüße.bottom, grüße.right, grüße.top, grüße.left  hem 2\n";
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let bytes = write(&compiled.garment, &cut_all(&compiled));
    let drawing = Drawing::load(&mut Cursor::new(&bytes)).unwrap();
    let names: Vec<&str> =
        drawing.blocks().map(|block| block.name.as_str()).filter(|name| !name.starts_with('*')).collect();
    assert_eq!(names, ["OUTER_GR__E", "OUTER_GR__E_2"]);
    let titles: Vec<&str> = drawing
        .entities()
        .filter_map(|entity| match &entity.specific {
            EntityType::Text(text) => text.value.strip_prefix("Style Name: "),
            _ => None,
        })
        .collect();
    assert_eq!(titles, ["Smock ^ é ½"]);
}
