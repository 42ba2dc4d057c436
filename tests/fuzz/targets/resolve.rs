//! Any bytes are compiled, as a variation or a garment beside the crew's own files, and whatever
//! comes of them is written and told.
#![no_main]

use fustian::compile;
use fustian::emit::{Form, cut_list, document, pieces, to_text};
use fustian::report::{RenderOptions, render, reported};
use fustian::source::MemoryLoader;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let loader = MemoryLoader::new()
        .with("fuzzed.fus", bytes)
        .with("deck-smock.fus", include_str!("../../../examples/deck-smock.fus"))
        .with("crew-library.fus", include_str!("../../../examples/crew-library.fus"));
    let compiled = compile(&loader, "fuzzed.fus");
    let sizes: Vec<_> = compiled.sizes.iter().collect();
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics))
        .expect("a document can be written");
    pieces(&compiled.garment, &sizes, Form::Text).expect("a table can be written");
    cut_list(&compiled.garment, &sizes, Form::Text).expect("a table can be written");
    let _ = reported(&compiled.map, &compiled.diagnostics);
    let _ = render(&compiled.map, &compiled.diagnostics, RenderOptions::default());
});
