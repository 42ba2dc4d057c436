//! Files that lead to other files: bases, libraries, pins.

use fustian::garment::{LoadedChain, Merged, load, merge, via_variation};
use fustian::report::{Diagnostic, Severity};
use fustian::source::{LoadError, Loaded, Loader, MemoryLoader, SourceMap, pin_of};

fn chain(files: &[(&str, &str)]) -> (SourceMap, LoadedChain) {
    let mut loader = MemoryLoader::new();
    for (name, text) in files {
        loader = loader.with(name, *text);
    }
    let mut map = SourceMap::default();
    let first = files.first().map_or("", |(name, _)| name);
    let chain = load(&loader, &mut map, first);
    (map, chain)
}

/// The only mistake, and the words that its first place covers.
fn only(map: &SourceMap, chain: &LoadedChain) -> (Diagnostic, String) {
    let [one] = chain.mistakes.as_slice() else { panic!("not one mistake: {:#?}", chain.mistakes) };
    (one.clone(), map.text(one.span()).to_owned())
}

#[test]
fn a_base_that_is_not_there() {
    let (map, chain) = chain(&[("jacket.fus", "variation \"Deck jacket\" of \"smok.fus\"\n")]);
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/missing", "\"smok.fus\""));
    assert!(one.help.is_some_and(|help| help.contains("jacket.fus")), "it says from where paths start");
    assert!(chain.incomplete);
}

#[test]
fn the_first_file_is_not_there() {
    let (map, chain) = chain(&[]);
    let mut other = SourceMap::default();
    let missing = load(&MemoryLoader::new(), &mut other, "gone.fus");
    assert_eq!(missing.mistakes.first().map(|one| one.slug()), Some("file/missing"));
    assert_eq!(other.place(missing.mistakes[0].span()).0, "gone.fus");
    assert!(missing.incomplete && chain.incomplete && map.files().len() == 1);
}

#[test]
fn a_variation_of_itself() {
    let (map, chain) = chain(&[("smock.fus", "variation \"Smock\" of \"smock.fus\"\n")]);
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/circle", "\"smock.fus\""));
}

#[test]
fn bases_in_a_circle_show_every_link() {
    let (map, chain) = chain(&[
        ("a.fus", "variation \"A\" of \"b.fus\"\n"),
        ("b.fus", "variation \"B\" of \"c.fus\"\n"),
        ("c.fus", "variation \"C\" of \"b.fus\"\n"),
    ]);
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/circle", "\"b.fus\""));
    assert_eq!(one.title, "the bases go round in a circle: b.fus is of c.fus is of b.fus");
    let places: Vec<_> = one.labels.iter().map(|label| map.place(label.span).0).collect();
    assert_eq!(places, ["c.fus", "b.fus"]);
}

#[test]
fn a_file_that_uses_itself() {
    let (map, chain) = chain(&[("smock.fus", "garment \"Smock\"\nuse \"smock.fus\"\n")]);
    assert_eq!(only(&map, &chain).0.slug(), "file/circle");
}

#[test]
fn a_base_outside_the_folder() {
    let (map, chain) = chain(&[("jacket.fus", "variation \"Jacket\" of \"../smock.fus\"\n")]);
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/outside", "\"../smock.fus\""));
}

#[test]
fn a_library_is_no_base_and_a_garment_no_library() {
    let library = ("cloth.fus", "library \"Cloth\"\n");
    let (map, of_library) = chain(&[("jacket.fus", "variation \"Jacket\" of \"cloth.fus\"\n"), library]);
    assert_eq!(only(&map, &of_library).0.slug(), "file/kind");
    let (map, uses_garment) = chain(&[
        ("apron.fus", "garment \"Galley apron\"\nuse \"smock.fus\"\n"),
        ("smock.fus", "garment \"Deck smock\"\n"),
    ]);
    let (one, words) = only(&map, &uses_garment);
    assert_eq!((one.slug(), words.as_str()), ("file/kind", "\"smock.fus\""));
    assert_eq!(one.labels.len(), 2, "the heading of the other file is shown too");
}

#[test]
fn a_library_uses_no_other() {
    let (map, chain) = chain(&[
        ("apron.fus", "garment \"Galley apron\"\nuse \"cloth.fus\"\n"),
        ("cloth.fus", "library \"Cloth\"\nuse \"sizes.fus\"\n"),
        ("sizes.fus", "library \"Sizes\"\n"),
    ]);
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/kind", "use \"sizes.fus\""));
    assert_eq!(map.place(one.span()).0, "cloth.fus");
}

#[test]
fn a_heading_must_be_there_once_and_first() {
    for (text, places) in [
        ("units cm\n", vec![1]),
        ("", vec![1]),
        ("units cm\ngarment \"Apron\"\n", vec![2, 1]),
        ("garment \"Apron\"\ngarment \"Skirt\"\n", vec![2, 1]),
        ("garment \"Apron\"\nlibrary \"Cloth\"\n", vec![2, 1]),
    ] {
        let (map, chain) = chain(&[("apron.fus", text)]);
        let one = only(&map, &chain).0;
        assert_eq!(one.slug(), "file/heading", "{text}");
        let lines: Vec<_> = one.labels.iter().map(|label| map.place(label.span).1).collect();
        assert_eq!(lines, places, "{text}");
    }
}

#[test]
fn a_pinned_base_may_change_its_notes_but_not_what_it_says() {
    let smock = "garment \"Deck smock\"\nlet ease = 22\n";
    let pin = pin_of(smock);
    let jacket = format!("variation \"Deck jacket\" of \"smock.fus\" as of {pin}\n");
    let noted = "# the crew's\ngarment   \"Deck smock\"\n\nlet ease  =  22  # at the chest\n";
    for same in [smock, noted] {
        let (_, chain) = chain(&[("jacket.fus", &jacket), ("smock.fus", same)]);
        assert_eq!(chain.mistakes, []);
    }
    let changed = "garment \"Deck smock\"\nlet ease = 24\n";
    let (map, chain) = chain(&[("jacket.fus", &jacket), ("smock.fus", changed)]);
    let (one, words) = only(&map, &chain);
    assert_eq!(
        (one.slug(), one.severity(), words.as_str()),
        ("file/changed", Severity::Warning, pin.as_str())
    );
    assert!(one.labels[0].text.contains(&pin_of(changed)), "both pins are shown: {:?}", one.labels);
    assert!(!chain.incomplete);
}

#[test]
fn bytes_that_are_no_text() {
    let loader = MemoryLoader::new().with("smock.fus", b"garment \"Sm\xf6ck\"\n".to_vec());
    let mut map = SourceMap::default();
    let chain = load(&loader, &mut map, "smock.fus");
    let (one, _) = only(&map, &chain);
    assert_eq!(one.slug(), "file/not-text");
    assert_eq!(map.place(one.span()), ("smock.fus", 1, 12));
}

#[test]
fn a_file_that_is_too_large() {
    let loader = MemoryLoader::new()
        .with("jacket.fus", "variation \"Jacket\" of \"big.fus\"\n")
        .with("big.fus", vec![b' '; fustian::limits::FILE_BYTES + 1]);
    let mut map = SourceMap::default();
    let chain = load(&loader, &mut map, "jacket.fus");
    let (one, words) = only(&map, &chain);
    assert_eq!((one.slug(), words.as_str()), ("file/too-large", "\"big.fus\""));
    assert!(one.title.contains("8 MB"), "the limit is named: {}", one.title);
}

/// Every file is a variation of yet another.
struct Endless;

impl Loader for Endless {
    fn load(&self, _from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let number: usize = path.trim_end_matches(".fus").parse().map_err(|_| LoadError::Missing)?;
        let text = format!("variation \"No {number}\" of \"{}.fus\"\n", number + 1);
        Ok(Loaded { key: path.into(), name: path.into(), bytes: text.into_bytes() })
    }
}

#[test]
fn a_chain_without_end_stops_at_the_limit() {
    let mut map = SourceMap::default();
    let chain = load(&Endless, &mut map, "0.fus");
    let (one, _) = only(&map, &chain);
    assert_eq!(one.slug(), "file/too-many");
    assert!(one.title.contains("64"), "the limit is named: {}", one.title);
    assert_eq!(map.files().len(), fustian::limits::FILES);
}

#[test]
fn a_library_used_by_base_and_variation_stands_once() {
    let (_, chain) = chain(&[
        ("jacket.fus", "variation \"Jacket\" of \"smock.fus\"\nuse \"cloth.fus\"\n"),
        ("smock.fus", "garment \"Smock\"\nuse \"cloth.fus\"\n"),
        ("cloth.fus", "library \"Cloth\"\nfabric shell \"dry-waxed cotton\" { width 150 }\n"),
    ]);
    let merged = merge(chain);
    assert_eq!(merged.mistakes, []);
    assert_eq!(merged.declarations.len(), 1);
    assert!(merged.declarations[0].from_library);
}

#[test]
fn a_mistake_in_the_base_shows_the_variation_too() {
    let (map, chain) = chain(&[
        ("jacket.fus", "variation \"Jacket\" of \"smock.fus\"\n"),
        ("smock.fus", "garment \"Smock\"\nlet ease = 22\nlet ease = 24\n"),
    ]);
    let merged: Merged = merge(chain);
    let one = via_variation(&merged, &map, merged.mistakes.iter().take(1).cloned().collect());
    let places: Vec<_> = one
        .iter()
        .flat_map(|one| &one.labels)
        .map(|label| (map.place(label.span), label.text.as_str()))
        .collect();
    assert_eq!(
        places,
        [
            (("smock.fus", 3, 5), "here again"),
            (("smock.fus", 2, 5), "first given here"),
            (("jacket.fus", 1, 23), "the base of this variation"),
        ]
    );
}
