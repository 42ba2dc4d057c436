//! The journey from text to result, stage by stage: `cargo bench --bench journey`.

mod big;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use fustian::compile;
use fustian::emit::{document, to_text};
use fustian::resolve::resolve;
use fustian::source::{FileId, MemoryLoader};
use fustian::syntax::{bare_parse, parse_text};
use std::hint::black_box;

const JACKET: &str = "deck-jacket.fus";

fn crew() -> [(&'static str, &'static str); 5] {
    [
        (JACKET, include_str!("../../examples/deck-jacket.fus")),
        ("deck-zip.fus", include_str!("../../examples/deck-zip.fus")),
        ("deck-lined.fus", include_str!("../../examples/deck-lined.fus")),
        ("deck-smock.fus", include_str!("../../examples/deck-smock.fus")),
        ("crew-library.fus", include_str!("../../examples/crew-library.fus")),
    ]
}

fn loader(files: &[(&str, &str)]) -> MemoryLoader {
    files.iter().fold(MemoryLoader::new(), |loader, (path, text)| loader.with(path, *text))
}

fn jacket(criterion: &mut Criterion) {
    let files = crew();
    let loader = loader(&files);
    let compiled = compile(&loader, JACKET);
    let mut group = criterion.benchmark_group("deck jacket");
    group.bench_function("bare parse", |bench| {
        bench.iter(|| files.iter().map(|(_, text)| bare_parse(black_box(text))).sum::<usize>());
    });
    group.bench_function("tree", |bench| {
        bench.iter(|| files.map(|(_, text)| parse_text(black_box(text), 0, FileId(0))));
    });
    group.bench_function("drawing alone", |bench| {
        bench.iter(|| resolve(black_box(&compiled.garment), &compiled.plan))
    });
    group.bench_function("check", |bench| bench.iter(|| compile(black_box(&loader), JACKET)));
    group.bench_function("resolve", |bench| {
        bench.iter(|| {
            let compiled = compile(black_box(&loader), JACKET);
            to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics))
        });
    });
    group.finish();
}

fn growing(criterion: &mut Criterion) {
    for (name, shapes) in
        [("pieces", [(10, 6), (100, 6), (1000, 6)]), ("sizes", [(20, 1), (20, 10), (20, 100)])]
    {
        let mut group = criterion.benchmark_group(name);
        group.sample_size(10);
        for (pieces, sizes) in shapes {
            let loader = loader(&[("awning.fus", &big::garment(pieces, sizes))]);
            group.throughput(Throughput::Elements((pieces * sizes) as u64));
            group.bench_function(BenchmarkId::new("check", format!("{pieces} × {sizes}")), |bench| {
                bench.iter(|| compile(black_box(&loader), "awning.fus"));
            });
        }
        group.finish();
    }
}

fn megabyte(criterion: &mut Criterion) {
    let text = big::garment_of_bytes(1_000_000, 1);
    let loader = loader(&[("awning.fus", &text)]);
    let mut group = criterion.benchmark_group("1 MB");
    group.sample_size(10).throughput(Throughput::Bytes(text.len() as u64));
    group.bench_function("bare parse", |bench| bench.iter(|| bare_parse(black_box(&text))));
    group.bench_function("check", |bench| bench.iter(|| compile(black_box(&loader), "awning.fus")));
    group.finish();
}

criterion_group!(benches, jacket, growing, megabyte);
criterion_main!(benches);
