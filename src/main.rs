fn main() {
    for path in std::env::args().skip(1) {
        let mut loader = fustian::source::MemoryLoader::new();
        for entry in std::fs::read_dir(std::path::Path::new(&path).parent().unwrap()).unwrap() {
            let p = entry.unwrap().path();
            if p.is_file() {
                loader = loader.with(p.file_name().unwrap().to_str().unwrap(), std::fs::read(&p).unwrap());
            }
        }
        let name = std::path::Path::new(&path).file_name().unwrap().to_str().unwrap().to_owned();
        let compiled = fustian::compile(&loader, &name);
        println!("== {path} {} plan steps {}", compiled.garment.title, compiled.garment.plan.steps.len());
        for d in &compiled.diagnostics {
            println!("{} {}", d.slug, d.title);
            for l in &d.labels {
                println!("    {:?} `{}` {}", compiled.map.place(l.span), compiled.map.text(l.span), l.text);
            }
            println!("    help: {:?}", d.help);
        }
    }
}
