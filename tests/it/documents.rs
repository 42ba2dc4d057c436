//! What comes out: the document, its schema, and the tables.

use fustian::cutting::WorkedSize;
use fustian::emit::{Form, Schemas, cut_list, document, pieces, schema, to_text};
use fustian::garment::*;
use fustian::resolve::{
    CornerName, CutRow, DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot, Missing,
};
use fustian::resolve::{Quantity, SizedGarment};
use fustian::sewing::Sewing;
use fustian::shape::path::Path as Way;
use fustian::shape::{Point, Vec2};
use fustian::source::{MemoryLoader, SourceMap, Span};
use serde_json::{Value as Json, json};
use std::fs;
use std::path::Path;
use std::sync::Arc;

fn number(value: f64) -> Expression {
    Expression { node: Node::Constant(value), dimension: Dimension::Length, span: Span::default() }
}

fn named(name: &str, kind: ValueKind) -> Value {
    Value { name: name.into(), span: Span::default(), label: None, dimension: Dimension::Length, kind }
}

fn piece(name: &str, cut: CutHow, edges: std::ops::Range<usize>, paper: usize) -> Piece {
    let drawing = Drawing {
        outline: Outline::None,
        order: Vec::new(),
        spots: Vec::new(),
        lines: Vec::new(),
        moves: Vec::new(),
        divides: Vec::new(),
        notches: Vec::new(),
        take_ups: Vec::new(),
        left_out: Vec::new(),
    };
    Piece {
        name: name.to_lowercase().into(),
        title: name.into(),
        span: Span::default(),
        block: false,
        origin: PieceOrigin::Drawn,
        ended_by: None,
        like: None,
        cut: Cut { count: number(1.0), how: cut, loose: false, span: Span::default() },
        drawing,
        edges: edges.map(EdgeId::from_index).collect(),
        points: Vec::new(),
        folds: Vec::new(),
        grain: Grain::Up,
        allowance: None,
        corners: Vec::new(),
        never_flipped: None,
        drawn: None,
        one_sided: None,
        told_apart: false,
        papers: vec![PaperId::from_index(paper)],
    }
}

fn edge_name(piece: usize, name: &str) -> EdgeName {
    EdgeName {
        piece: PieceId::from_index(piece),
        name: name.into(),
        span: Span::default(),
        label: None,
        adjust: false,
        line: false,
        take_up: false,
        side_of: None,
        same_run_as: None,
        part_of: None,
        copied_from: None,
        portion: None,
    }
}

fn paper(piece: usize) -> Paper {
    Paper {
        piece: PieceId::from_index(piece),
        layer: None,
        alterations: vec![],
        becomes: vec![],
        made_of: vec![],
    }
}

/// Straight edges from corner to corner, and back to the first.
fn drawn(piece: usize, first_edge: usize, corners: &[(f64, f64)], cut: CutHow, count: u32) -> DrawnPiece {
    let edge = |at: usize| {
        let (from, to) = (corners[at], corners[(at + 1) % corners.len()]);
        let id = EdgeId::from_index(first_edge + at);
        DrawnEdge {
            edge: id,
            path: Way::straight(from.into(), to.into()),
            corner: CornerName::Between(id, id),
            touched: Vec::new(),
        }
    };
    DrawnPiece {
        piece: PieceId::from_index(piece),
        edges: (0..corners.len()).map(edge).collect(),
        lines: Vec::new(),
        spots: Vec::new(),
        notches: Vec::new(),
        take_ups: Vec::new(),
        slits: Vec::new(),
        kept_back: Vec::new(),
        opened: None,
        cut,
        unfolded: false,
        count,
        grain: Vec2::new(0.0, 1.0),
        counted_back: Vec::new(),
        cutting: Vec::new(),
        missing: Missing::default(),
    }
}

/// A smock of two pieces in two sizes, worked out by hand: a front on the fold, 25 cm wide as drawn
/// (26 in M) and 60 cm long, and a band of 85 by 13 cm, folded top to bottom.
fn smock() -> (Garment, Vec<WorkedSize>) {
    let body = named("chest", ValueKind::Body(number(960.0)));
    let measure = named(
        "chest_finished",
        ValueKind::Measure { value: number(0.0), against: Some(ValueId::from_index(0)) },
    );
    let fabric = |name: &str, title: &str| Fabric {
        name: name.into(),
        title: title.into(),
        span: Span::default(),
        from_library: false,
        width: None,
        tubular: false,
        selvage: None,
        stretch: TwoWays::default(),
        shrink: TwoWays::default(),
        repeat: TwoWays::default(),
        one_way: false,
        nap_said: false,
        thickness: None,
        price: None,
        kind: None,
        raised: None,
    };
    let layer = |name: &str, fabric: usize, piece: usize| Layer {
        name: name.into(),
        span: Span::default(),
        fabric: Some(FabricId::from_index(fabric)),
        fused: false,
        share: None,
        onto: None,
        pieces: vec![PieceId::from_index(piece)],
        piece_spans: vec![Span::default()],
    };
    let mut band = piece("Band", CutHow::Alike, 4..8, 1);
    band.folds.push(FoldOver {
        in_four: false,
        edge: EdgeId::from_index(6),
        onto: EdgeId::from_index(4),
        span: Span::default(),
    });
    let mut garment = Garment {
        title: "Deck smock".into(),
        sizes: ["S", "M"].map(|name| Size { name: name.into(), span: Span::default() }).to_vec(),
        values: vec![body, measure],
        fabrics: vec![fabric("shell", "waxed cotton"), fabric("rib", "2x2 rib, \"soft\"")],
        layers: vec![layer("outer", 0, 0), layer("knit", 1, 1)],
        pieces: vec![piece("Front", CutHow::OnFold(EdgeId::from_index(0)), 0..4, 0), band],
        papers: vec![paper(0), paper(1)],
        points: vec![PointName {
            piece: PieceId::from_index(0),
            name: "pocket_corner".into(),
            span: Span::default(),
            label: None,
            mark: true,
            same_as: None,
            copied_from: None,
        }],
        ..Garment::default()
    };
    for name in ["centre", "neckline", "side", "hem"] {
        garment.edges.push(edge_name(0, name));
    }
    for name in ["bottom", "right", "top", "left"] {
        garment.edges.push(edge_name(1, name));
    }
    garment.edges.push(EdgeName { line: true, ..edge_name(0, "waist") });
    let size = |size: usize, width: f64| {
        let corners = [(0.0, -600.0), (0.0, -0.0), (width, 0.0), (width, -600.0)];
        let mut front = drawn(0, 0, &corners, CutHow::OnFold(EdgeId::from_index(0)), 1);
        front.lines.push(DrawnLine {
            edge: EdgeId::from_index(8),
            path: Way::straight(Point::new(0.0, -380.0), Point::new(width, -380.0)),
        });
        front.spots.push(DrawnSpot { point: PointId::from_index(0), at: Point::new(40.0, -580.004) });
        front.notches.push(DrawnNotch {
            edge: EdgeId::from_index(2),
            along: 80.0,
            at: Point::new(width, -80.0),
            double: true,
            declared: 0,
        });
        let band = drawn(1, 4, &[(0.0, 0.0), (850.0, 0.0), (850.0, 130.0), (0.0, 130.0)], CutHow::Alike, 1);
        let row = |layer: usize, piece: usize, how| CutRow {
            part: Part {
                layer: LayerId::from_index(layer),
                piece: PieceId::from_index(piece),
                paper: PaperId::from_index(piece),
            },
            fabric: Some(FabricId::from_index(layer)),
            copies: 1,
            how,
            flipped: false,
            hand: None,
            whole: false,
        };
        SizedGarment {
            size: SizeId::from_index(size),
            values: vec![Some(Quantity::Scalar(960.0)), Some(Quantity::Scalar(4.0 * width))],
            papers: vec![Some(Arc::new(front)), Some(Arc::new(band))],
            drafted: Vec::new(),
            amounts: Vec::new(),
            zips: Vec::new(),
            placed: Vec::new(),
            cut_list: vec![row(0, 0, CutHow::OnFold(EdgeId::from_index(0))), row(1, 1, CutHow::Alike)],
            missing: Vec::new(),
        }
    };
    let sizes = [size(0, 250.0), size(1, 260.0)];
    let sizes = sizes.map(|drawn| WorkedSize::sewn(&garment, drawn, Sewing::default()));
    (garment, sizes.into())
}

fn written() -> Json {
    let (garment, sizes) = smock();
    let document = document(&garment, &sizes, &SourceMap::default(), &[]);
    serde_json::from_str(&to_text(&document).unwrap()).unwrap()
}

fn keys(value: &Json) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

#[test]
fn keys_keep_their_order() {
    let written = written();
    assert_eq!(keys(&written), ["fustian", "garment", "unit", "fabrics", "sizes", "diagnostics"]);
    let size = &written["sizes"][0];
    assert_eq!(
        keys(size),
        [
            "size",
            "body",
            "measures",
            "cloths",
            "pieces",
            "cut_list",
            "alterations",
            "seams",
            "closures",
            "placements",
            "openings",
            "cords",
            "elastic",
            "notions",
            "steps"
        ]
    );
}

/// By hand: the front is 25 cm wide as a half and so 50 cm opened out; its hem and neckline run on
/// across the fold, its side does not. The ease is 4 × 25 cm - 96 cm.
#[test]
fn a_half_on_the_fold_is_also_told_as_on_the_garment() {
    let written = written();
    let front = &written["sizes"][0]["pieces"][0];
    assert_eq!(front["part"], "outer.front");
    assert_eq!(front["fold"], "centre");
    assert_eq!(front["finished"], json!({ "width": 500, "height": 600 }));
    assert_eq!(front["edges"][0], json!({ "name": "centre", "path": "M0 -600L0 0", "length": 600 }));
    assert_eq!(front["edges"][2], json!({ "name": "side", "path": "M250 0L250 -600", "length": 600 }));
    assert_eq!(
        front["edges"][3],
        json!({ "name": "hem", "path": "M250 -600L0 -600", "length": 250, "on_garment": 500 })
    );
    assert_eq!(written["sizes"][0]["measures"]["chest_finished"]["ease"], 40);
    assert_eq!(written["sizes"][1]["pieces"][0]["finished"]["width"], 520);
}

/// By hand: folded top to bottom the band is half as high, and its ends are half as long.
#[test]
fn a_folded_piece_is_told_as_it_is_worn() {
    let written = written();
    let band = &written["sizes"][0]["pieces"][1];
    assert_eq!(band["finished"], json!({ "width": 850, "height": 65 }));
    assert_eq!(band["edges"][0], json!({ "name": "bottom", "path": "M0 0L850 0", "length": 850 }));
    assert_eq!(
        band["edges"][1],
        json!({ "name": "right", "path": "M850 0L850 130", "length": 130, "finished": 65 })
    );
}

#[test]
fn a_piece_is_drawn_with_its_marks_lines_and_notches() {
    let written = written();
    let front = &written["sizes"][0]["pieces"][0];
    assert_eq!(front["stitching_line"], "M0 -600L0 0L250 0L250 -600L0 -600Z");
    assert_eq!(front["marks"], json!({ "pocket_corner": { "x": 40, "y": -580 } }));
    assert_eq!(front["lines"], json!({ "waist": "M0 -380L250 -380" }));
    let notch = json!({ "edge": "side", "along": 80, "at": { "x": 250, "y": -80 }, "double": true });
    assert_eq!(front["notches"], json!([notch]));
    assert_eq!(front["grain"], json!({ "angle": 90 }));
}

#[test]
fn tables_show_the_sizes_side_by_side() {
    let (garment, sizes) = smock();
    let sizes: Vec<&WorkedSize> = sizes.iter().collect();
    let text = pieces(&garment, &sizes, Form::Text).unwrap();
    let expected = "\
Deck smock: cut width × height, with allowances

piece   part          cut                  S   M
Front   outer.front   1 on fold (centre)
Band    knit.band     1

Deck smock: finished width × height

piece   part          cut                  S             M
Front   outer.front   1 on fold (centre)   50 × 60 cm    52 × 60 cm
Band    knit.band     1                    85 × 6.5 cm   85 × 6.5 cm
";
    assert_eq!(text, expected);
    let text = cut_list(&garment, &sizes, Form::Text).unwrap();
    let expected = "\
shell: waxed cotton

piece   layer   cut                  S   M
Front   outer   1 on fold (centre)

rib: 2x2 rib, \"soft\"

piece   layer   cut   S   M
Band    knit    1
";
    assert_eq!(text, expected);
}

/// By hand: a half of 20 cm on the fold opens out to 40, with 1 cm at each side 42; 60 cm high with
/// 1 cm at the top and a hem of 3 turned under by 1 at the bottom is 65. A pocket of 16 by 18 with
/// 1 cm on three sides and a hem of 2 turned under by 1 is 18 by 22.
#[test]
fn what_is_cut_is_told_with_its_allowances() {
    const APRON: &str = r#"garment "Galley apron"
units cm
allowance 1
fabric canvas "apron canvas" { width 150 }
layer outer in canvas { apron, pocket }
piece apron "Apron" { cut 1 on fold left; outline rectangle 20 by 60; mark low = (0, 20) }
piece pocket "Pocket" { cut 1; outline rectangle 16 by 18; mark mid = (8, 0) }
finish apron.top, apron.right  overlocked
finish apron.bottom  hem 3 turned under 1
finish pocket.top    hem 2 turned under 1
finish pocket.left, pocket.right, pocket.bottom  overlocked
"#;
    let compiled = fustian::compile(&MemoryLoader::new().with("apron.fus", APRON), "apron.fus");
    let said: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(said, ["piece/apart"]);
    let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let told: Json = serde_json::from_str(&to_text(&document).unwrap()).unwrap();
    let pieces_told = &told["sizes"][0]["pieces"];
    assert_eq!(pieces_told[0]["cut"], json!({ "width": 420, "height": 650 }));
    assert_eq!(pieces_told[1]["cut"], json!({ "width": 180, "height": 220 }));
    assert_eq!(told["sizes"][0]["cut_list"][1]["cut"], json!({ "width": 180, "height": 220 }));
    let sizes: Vec<&WorkedSize> = compiled.sizes.iter().collect();
    let table = pieces(&compiled.garment, &sizes, Form::Csv).unwrap();
    assert!(table.contains("outer.apron,Apron,one size,1,on fold,left,42,65,40,60,cm"), "{table}");
    let table = cut_list(&compiled.garment, &sizes, Form::Text).unwrap();
    assert!(table.contains("Pocket   outer   1                  18 × 22 cm"), "{table}");
}

#[test]
fn what_comes_off_on_purpose_is_told() {
    let text = "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n\
         layer outer in canvas { apron, cloth }\npiece apron { cut 1; outline rectangle 60 by 80 }\n\
         piece cloth { cut 1 loose; outline rectangle 40 by 40 }\n\
         finish apron.top, apron.left, apron.right, apron.bottom  hem 1\n\
         finish cloth.top, cloth.left, cloth.right, cloth.bottom  hem 1\n";
    let compiled = fustian::compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus");
    let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let json: Json = serde_json::from_str(&to_text(&document).unwrap()).unwrap();
    let pieces = json["sizes"][0]["pieces"].as_array().unwrap();
    let loose: Vec<(&str, &Json)> =
        pieces.iter().map(|piece| (piece["part"].as_str().unwrap(), &piece["loose"])).collect();
    assert_eq!(loose, [("outer.apron", &Json::Null), ("outer.cloth", &json!(true))]);
}

#[test]
fn tables_for_spreadsheets_have_a_row_for_each_size() {
    let (garment, sizes) = smock();
    let sizes: Vec<&WorkedSize> = sizes.iter().collect();
    let text = pieces(&garment, &sizes, Form::Csv).unwrap();
    let expected = "\
        part,label,size,copies,how,fold,cut_width,cut_height,finished_width,finished_height,unit\r\n\
        outer.front,Front,S,1,on fold,centre,,,50,60,cm\r\n\
        outer.front,Front,M,1,on fold,centre,,,52,60,cm\r\n\
        knit.band,Band,S,1,alike,none,,,85,6.5,cm\r\n\
        knit.band,Band,M,1,alike,none,,,85,6.5,cm\r\n";
    assert_eq!(text, expected);
    let markdown = pieces(&garment, &sizes, Form::Markdown).unwrap();
    assert!(markdown.contains("| Front | outer.front | 1 on fold (centre) | 50 × 60 cm  |"), "{markdown}");
    let told: Json = serde_json::from_str(&pieces(&garment, &sizes, Form::Json).unwrap()).unwrap();
    assert_eq!(told[1]["sizes"]["M"]["finished"]["height"], 65);
    let told: Json = serde_json::from_str(&cut_list(&garment, &sizes, Form::Json).unwrap()).unwrap();
    assert_eq!(told[0]["sizes"], json!(["S", "M"]), "sizes cut alike are told together");
}

/// The published schema, itself found sound.
pub fn validator() -> jsonschema::Validator {
    let schema: Json = serde_json::from_str(&schema(Schemas::default()).unwrap()).unwrap();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    jsonschema::draft202012::meta::validate(&schema).unwrap();
    jsonschema::draft202012::new(&schema).unwrap()
}

#[test]
fn the_document_is_of_the_form_that_its_schema_says() {
    let validator = validator();
    let good = written();
    validator.validate(&good).unwrap();
    let mut bad = good.clone();
    bad["sizes"][0]["pieces"][0]["finished"]["width"] = json!("50 cm");
    assert!(!validator.is_valid(&bad));
    let mut bad = good;
    bad["sizes"][0].as_object_mut().unwrap().shift_remove("pieces");
    assert!(!validator.is_valid(&bad));
}

#[test]
fn the_schema_in_the_grammar_folder_is_the_one_that_is_printed() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/resolved.schema.json");
    let committed = fs::read_to_string(path).unwrap();
    assert!(
        committed == schema(Schemas::default()).unwrap(),
        "write it anew: fustian schema > grammar/resolved.schema.json"
    );
}

#[test]
fn every_example_validates() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    let mut garments = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            let text = fs::read_to_string(&path).unwrap();
            if !text.lines().any(|line| line.starts_with("library ")) {
                garments.push(name.clone());
            }
            loader = loader.with(&name, text);
        }
    }
    garments.sort();
    assert!(garments.len() >= 4, "{garments:?}");
    let validator = validator();
    for name in garments {
        let compiled = fustian::compile(&loader, &name);
        let drawn = fustian::report::render(&compiled.map, &compiled.diagnostics, Default::default());
        assert!(!compiled.has_mistakes(), "{name}:\n{drawn}");
        assert!(compiled.sizes.len() == compiled.garment.sizes.len() && !compiled.sizes.is_empty(), "{name}");
        let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
        let text = to_text(&document).unwrap();
        let json: Json = serde_json::from_str(&text).unwrap();
        validator.validate(&json).unwrap_or_else(|reason| panic!("{name}: {reason}"));
        assert!(json["sizes"][0]["pieces"].as_array().is_some_and(|pieces| !pieces.is_empty()), "{name}");
        assert!(!text.contains("-0,") && !text.contains("-0\n"), "{name}: there is no -0");
    }
}

/// The sizes are written side by side; what comes out is what serde_json writes of the whole at once.
#[test]
fn sizes_that_are_written_side_by_side_stand_as_if_written_at_once() {
    let folder = crate::workbench::examples();
    let loader = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    let files = ["deck-jacket.fus", "deck-smock.fus", "deck-zip.fus", "deck-lined.fus", "crew-library.fus"];
    let files = files.iter().fold(MemoryLoader::new(), |all, name| all.with(name, loader(name).as_str()));
    for first in ["deck-jacket.fus", "deck-smock.fus"] {
        let compiled = fustian::compile(&files, first);
        let mut whole = document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
        assert_eq!(to_text(&whole).unwrap(), serde_json::to_string_pretty(&whole).unwrap() + "\n");
        whole.sizes.clear();
        assert_eq!(to_text(&whole).unwrap(), serde_json::to_string_pretty(&whole).unwrap() + "\n");
    }
}
