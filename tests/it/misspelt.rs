//! A name that is not known, and the one that it nearly is: the message stands where the slip is, in
//! the use or in the declaration, shows the other, and offers the edit that mends it.

use fustian::report::Diagnostic;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

const SMOCK: &str = include_str!("../../examples/deck-smock.fus");

fn smock(text: &str) -> Compiled {
    let library = include_str!("../../examples/crew-library.fus");
    let loader = MemoryLoader::new().with("crew-library.fus", library).with("smock.fus", text);
    compile(&loader, "smock.fus")
}

/// The one message that a slip in the smock makes, and the smock with its edits made.
#[track_caller]
fn slip(right: &str, wrong: &str, times: usize) -> (Compiled, Diagnostic, String) {
    let text = SMOCK.replacen(right, wrong, times);
    assert_ne!(text, SMOCK, "{right}");
    let compiled = smock(&text);
    let [told] = compiled.diagnostics.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    let told = told.clone();
    assert_eq!(told.slug(), "name/unknown");
    let start = compiled.map.files()[0].span().lo;
    let mut edits = told.fix.clone().expect("a way to mend it").edits;
    edits.sort_by_key(|(span, _)| std::cmp::Reverse(span.lo));
    let mut mended = text;
    for (span, words) in edits {
        mended.replace_range((span.lo - start) as usize..(span.hi - start) as usize, &words);
    }
    (compiled, told, mended)
}

fn words<'a>(compiled: &'a Compiled, told: &Diagnostic) -> Vec<&'a str> {
    told.labels.iter().map(|label| compiled.map.text(label.span)).collect()
}

#[test]
fn a_misspelt_declaration_is_told_where_it_stands() {
    for (right, wrong, name, near) in [
        ("let neck_width ", "let nek_width ", "neck_width", "nek_width"),
        ("piece front ", "piece frnt ", "front", "frnt"),
        ("layer knit ", "layer kint ", "knit", "kint"),
        ("let armhole_depth ", "let armhole_dpeth ", "armhole_depth", "armhole_dpeth"),
        ("    armhole   to", "    armhol   to", "armhole", "armhol"),
        ("  point underarm  =", "  point underam  =", "underarm", "underam"),
    ] {
        let (compiled, told, mended) = slip(right, wrong, 1);
        assert_eq!(compiled.map.text(told.span()), near);
        assert_eq!(told.labels[0].text, format!("declared as {near}, which nothing uses"));
        assert!(told.title.ends_with(&format!(" called {name}")), "{}", told.title);
        assert!(told.help.as_deref().unwrap().starts_with(&format!("did you mean {name}? ")), "{near}");
        assert!(told.labels.len() > 2 && words(&compiled, &told)[1..].iter().all(|word| *word == name));
        assert!(told.labels[1].text.starts_with("no such "), "{:#?}", told.labels);
        assert_eq!(mended, SMOCK, "{near}");
    }
}

#[test]
fn a_misspelt_use_is_told_where_it_stands() {
    for (right, wrong, name, near) in [
        ("= neck_width/3", "= neck_widht/3", "neck_widht", "neck_width"),
        ("total(front.chest_line", "total(frint.chest_line", "frint", "front"),
        ("seam cuff       knit.cuff.top", "seam cuff       knitt.cuff.top", "knitt", "knit"),
        ("hem_band_ends, hem_band }", "hem_band_ends, hemband }", "hemband", "hem_band"),
        ("back.armhole  easing", "back.armhle  easing", "armhle", "armhole"),
        (
            "matching sleeve.underarm_front with front.underarm",
            "matching sleeve.underarm_front with front.undearm",
            "undearm",
            "underarm",
        ),
    ] {
        let (compiled, told, mended) = slip(right, wrong, 1);
        assert_eq!(words(&compiled, &told), [name, near]);
        assert_eq!(told.labels[1].text, "declared here");
        assert_eq!(told.help.as_deref().unwrap(), format!("did you mean {near}?"));
        assert_eq!(mended, SMOCK, "{near}");
    }
}

/// Two slips of the same kind are mended at once.
#[test]
fn a_slip_that_is_copied_is_mended_everywhere() {
    let (compiled, told, mended) = slip("shoulder_run, -0.28", "shoulder_rnu, -0.28", 2);
    assert_eq!(words(&compiled, &told), ["shoulder_rnu", "shoulder_rnu", "shoulder_run"]);
    assert_eq!(mended, SMOCK);
}
