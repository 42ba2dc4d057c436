//! Compiles the parser that the generator wrote.

fn main() {
    let source = std::path::Path::new("../../grammar/tree-sitter/src");
    println!("cargo:rerun-if-changed={}", source.display());
    cc::Build::new()
        .include(source)
        .file(source.join("parser.c"))
        .file(source.join("scanner.c"))
        .std("c11")
        .warnings(false)
        .compile("tree-sitter-fustian");
}
