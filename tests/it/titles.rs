//! What stands in a message where the sizes are named, and what stands in it because a maker wrote it.

use fustian::compile;
use fustian::report::{Diagnostic, Finding, SizeId, Title, catalogue, group};
use fustian::source::{MemoryLoader, Span};

fn titles(text: &str) -> Vec<String> {
    let compiled = compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus");
    let told = compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    told.map(|one| one.title.to_string()).collect()
}

/// A galley apron in those sizes with a pocket's corner far outside it.
fn apron(title: &str, sizes: &str) -> String {
    format!(
        "garment \"Galley apron\"\nunits cm\n{sizes}\nfabric shell \"dry-waxed cotton\" {{ width 150 }}\n\
         layer outer in shell {{ apron }}\npiece apron \"{title}\" {{\n  cut 1\n  outline rectangle 70 by 80\n  \
         mark corner = (120, 45)\n}}\nfinish apron.left, apron.top, apron.right, apron.bottom  hem 2\n"
    )
}

#[test]
fn a_title_that_a_maker_wrote_stays_as_it_is() {
    for written in ["Front {sizes} panel", "Front {any size} panel", "{sizes}", "Front {} {{sizes}}"] {
        let all = format!("corner lies 50 cm outside {written} in every size");
        assert_eq!(titles(&apron(written, "sizes S, M")), [all]);
        let one = format!("corner lies 50 cm outside {written}");
        assert_eq!(titles(&apron(written, "")), [one]);
    }
}

#[test]
fn what_a_maker_requires_is_said_in_their_own_words() {
    let text = format!(
        "{}require 1 > 2 \"the apron must go round {{sizes}}, in {{any size}}\"\n",
        apron("Apron", "sizes S, M").replace("(120, 45)", "(20, 45)")
    );
    assert_eq!(
        titles(&text),
        ["the requirement is not met in every size: the apron must go round {sizes}, in {any size}"]
    );
}

/// Sizes of a crew, in which something was found.
fn merged(title: Title, found: &[usize], figures: &[&str]) -> String {
    let sizes: Vec<String> = ["S", "M", "L", "XL"].map(str::to_owned).into();
    let findings = found.iter().zip(figures).map(|(&size, figure)| {
        let diagnostic = Diagnostic::new(&catalogue::SEAM_UNEQUAL, Span::default(), title.clone());
        Finding::new(SizeId::from_index(size), size as f64, diagnostic).figure("length", *figure)
    });
    let merged = group(findings.collect(), &sizes);
    assert_eq!(merged.len(), 1);
    merged[0].title.to_string()
}

#[test]
fn the_sizes_are_named_where_the_title_says_so() {
    let title = || Title::new("the side is too short").in_sizes().then(": let it out");
    let not = || Title::new("the side does not match").in_any_size().then(": let it out");
    let same = ["1 cm"; 4];
    assert_eq!(merged(title(), &[0, 1, 2, 3], &same), "the side is too short in every size: let it out");
    assert_eq!(merged(not(), &[0, 1, 2, 3], &same), "the side does not match in any size: let it out");
    assert_eq!(merged(title(), &[1, 2, 3], &same), "the side is too short in M to XL: let it out");
    assert_eq!(merged(not(), &[0, 2], &same), "the side does not match in S and L: let it out");
    let worst = "the side is too short in M to XL (worst: XL): let it out";
    assert_eq!(merged(title(), &[1, 2, 3], &["1 cm", "2 cm", "3 cm"]), worst);
    assert_eq!(title().as_str(), "the side is too short: let it out");
}

/// A title names its place with a method; words in braces would be shown as they stand.
#[test]
fn no_message_holds_the_place_of_the_sizes_in_its_words() {
    for (file, text) in super::catalogue::source_texts() {
        let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
        let found: Vec<&str> =
            code.filter(|line| ["{sizes}}", "{any size}"].iter().any(|place| line.contains(place))).collect();
        assert!(found.is_empty(), "{file}: {found:#?}");
    }
}
