//! Ways out that are options of the command line.

use fustian::Compiled;
use fustian::report::Remedy;

/// A remedy with the option that does it.
pub fn words(remedy: Remedy) -> String {
    match remedy {
        Remedy::WidenRoot => "name a wider folder with --root".to_owned(),
        Remedy::OpenCloth => "lay the cloth open (--fold open)".to_owned(),
        Remedy::LargerPaper => "take larger paper with --paper".to_owned(),
        Remedy::FewerPieces => "print fewer pieces with --pieces".to_owned(),
        other => other.words().to_owned(),
    }
}

/// The compiled garment, its messages with these words.
pub fn worded(mut compiled: Compiled) -> Compiled {
    let diagnostics = std::mem::take(&mut compiled.diagnostics);
    compiled.diagnostics = diagnostics.into_iter().map(|one| one.worded(words)).collect();
    compiled
}
