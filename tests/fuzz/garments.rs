//! What must hold of any bytes that are compiled as a garment.

use fustian::cutting::Cutting;
use fustian::emit::drawing::{Look, sheet as drawn};
use fustian::emit::{Form, Paper, cut_list, document, dxf, pdf, pieces, svg, to_text};
use fustian::report::{RenderOptions, render, reported};
use fustian::sewing::order::plan;
use fustian::sheet::{Choices, Language, SheetPaper, sheet};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::{parse, tidy::tidy};
use fustian::{Compiled, Severity, compile};
use std::path::Path;

/// Words of the language, wherever they may stand.
pub const WORDS: [&str; 72] = [
    "garment \"x\"",
    "variation \"y\" of \"deck-smock.fus\"",
    "units in",
    "sizes S, M, L",
    " grade +1 ",
    "body {",
    "let x = ",
    "let x between 1 and 9 so that ",
    "measure m \"m\" = ",
    "require ",
    "piece p \"P\" {",
    " cut 2 mirrored\n",
    " cut 1 on fold ",
    " point a = (0, 0)\n",
    "outline from ",
    "outline rectangle 10 by 20\n",
    "outline copy of ",
    "outline rest of ",
    " curve leaving square to ",
    " arriving up ",
    " rounded 2 ",
    "dart d on ",
    "pleat d on ",
    "tuck d on ",
    "slit d on ",
    " in the middle ",
    " at 50% from ",
    " width 3 ",
    " trued ",
    " count 3 apart 2 ",
    "mark k = ",
    "line l across at ",
    "notch ",
    "seam s ",
    " to ",
    " easing 1..2 ",
    " gathered 3..9 ",
    " matching ",
    " leaving gap 5 ",
    "{ stitch handstitch }",
    "finish ",
    " hem 2 turned under 1/2 ",
    " raw ",
    "casing ",
    "elastic ",
    "cord ",
    "place ",
    " caught in ",
    "strap ",
    "tack ",
    "closure c ",
    " zipper ",
    " buttons 5 ",
    "opening ",
    " passes head",
    "lengthen ",
    "extend ",
    "split ",
    "close ",
    "move dart ",
    "fold out ",
    "unfold ",
    "drop ",
    "replace ",
    "set ",
    "fabric f \"f\" { width 140 }",
    "layer outer in f { p }",
    "steps {",
    " on left ",
    "..",
    "1/8",
    "°",
];

/// Small sound garments and small mistakes, so that many are tried: every text of the examples and their mistakes that is
/// no longer than so many bytes.
const LONGEST: usize = 6000;

/// The texts to damage.
///
/// # Panics
/// Where the examples cannot be read.
pub fn seeds() -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut found = Vec::new();
    for folder in [folder.clone(), folder.join("mistakes")] {
        for entry in std::fs::read_dir(folder).expect("the examples") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|extension| extension == "fus") {
                found.push((path.clone(), std::fs::read(path).expect("a text")));
            }
        }
    }
    found.sort();
    found.into_iter().map(|(_, text)| text).filter(|text| text.len() <= LONGEST).collect()
}

fn beside(name: &str, bytes: &[u8]) -> MemoryLoader {
    let crew = [
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("mess-skirt.fus", include_str!("../../examples/mess-skirt.fus")),
        ("steward-bodice.fus", include_str!("../../examples/steward-bodice.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ];
    crew.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, *text)).with(name, bytes)
}

/// Any bytes are a tree and mistakes, whose spans are places in the text; what is tidied is tidy. Whether it has no mistake.
///
/// # Panics
/// Where that does not hold.
pub fn is_read(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let mut map = SourceMap::default();
    let file = map.add("own.fus", text.as_ref());
    let parsed = parse(&map, file);
    let whole = map.file(file).span();
    for mistake in &parsed.mistakes {
        let span = mistake.span();
        assert!(whole.lo <= span.lo && span.lo <= span.hi && span.hi <= whole.hi, "{mistake:?}");
        let is_boundary = |at: u32| text.is_char_boundary((at - whole.lo) as usize);
        assert!(is_boundary(span.lo) && is_boundary(span.hi), "{mistake:?}");
    }
    let Ok(tidied) = tidy(&map, file) else {
        assert!(!parsed.mistakes.is_empty(), "what can be read is not tidied");
        return false;
    };
    let again = map.add("tidied.fus", tidied.as_str());
    assert_eq!(tidy(&map, again).ok().as_ref(), Some(&tidied), "what is tidied is not tidy");
    parsed.mistakes.is_empty()
}

fn figures(compiled: &Compiled) -> String {
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("a document is written")
}

/// Any bytes are a garment or are told what is wrong with them, and whatever comes of them can be written: with words,
/// in numbers, and the same once the text is tidied. Whether nothing is wrong.
///
/// # Panics
/// Where that does not hold.
pub fn is_worked_out(bytes: &[u8]) -> bool {
    let compiled = compile(&beside("own.fus", bytes), "own.fus");
    // A name may be any word.
    let says_nan = String::from_utf8_lossy(bytes).contains("NaN");
    let says_inf = String::from_utf8_lossy(bytes).contains("inf");
    for told in &compiled.diagnostics {
        let title = told.title.to_string();
        assert!(!title.is_empty() && !title.contains(char::is_control), "{title:?}");
        assert!((says_nan || !title.contains("NaN")) && (says_inf || !title.contains("inf mm")), "{title}");
        assert!(told.slug() != "lost/unreported", "something is lost, and nothing says so");
    }
    reported(&compiled.map, &compiled.diagnostics);
    render(&compiled.map, &compiled.diagnostics, RenderOptions::default());
    let is_wrong = compiled.diagnostics.iter().any(|one| one.severity() == Severity::Mistake);
    let sizes: Vec<_> = compiled.sizes.iter().collect();
    let all =
        [pieces(&compiled.garment, &sizes, Form::Text), cut_list(&compiled.garment, &sizes, Form::Text)];
    let figures_of = figures(&compiled);
    if is_wrong {
        return false;
    }
    for text in all.into_iter().map(|text| text.expect("a table is written")) {
        assert!(says_nan || !text.contains("NaN"), "{text}");
    }
    for size in &compiled.sizes {
        plan(&compiled.garment, &size.drawn, &size.sewn);
    }
    let cuts: Vec<Cutting> =
        compiled.sizes.iter().take(2).map(|size| size.cut(&compiled.garment).clone()).collect();
    let picture = svg(&drawn(&compiled.garment, &cuts, &Look::drawing()), "drawn");
    assert!((says_nan || !picture.contains("NaN")) && !picture.contains("\"inf"), "a picture of no numbers");
    dxf(&compiled.garment, &cuts);
    if let Ok(text) = std::str::from_utf8(bytes) {
        let mut map = SourceMap::default();
        let file = map.add("own.fus", text);
        if let Ok(tidied) = tidy(&map, file) {
            let again = compile(&beside("own.fus", tidied.as_bytes()), "own.fus");
            assert_eq!(figures(&again), figures_of, "tidied it is another garment");
        }
    }
    // The slow ones of few.
    if bytes.iter().fold(0u8, |sum, byte| sum.wrapping_add(*byte)).is_multiple_of(16) {
        let _ = pdf(&compiled.garment, &cuts, Paper::A4, &Look::printing(), &mut |_, _| {});
        let choices = Choices {
            sizes: Vec::new(),
            paper: SheetPaper::A4,
            language: Language::English,
            without_lays: true,
            widths: Vec::new(),
        };
        let _ = sheet(&compiled, &choices, &|| {});
    }
    true
}
