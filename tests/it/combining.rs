//! Variations that are combined over one base: what stands, what they inherit, and where they disagree.

use crate::workbench::{err, folder_of, in_memory, out, run};
use fustian::emit::{document, files, to_text};
use fustian::{Compiled, compile, packed};

/// A work apron of the crew, in centimetres: a panel with a pocket, and a yoke.
const APRON: &str = "garment \"Deck apron\"\nunits cm\nallowance 1\nfabric canvas \"apron canvas\" { width 150 }\n\
    layer outer in canvas { panel, yoke, pocket }\nlet width_of = 60\nlet depth = 40\n\
    piece panel \"Panel\" {\n  cut 1\n  outline rectangle width_of by 70\n  line waist across at (0, 30)\n\
    \x20 mark corner_mark = (20, 20)\n}\n\
    piece yoke \"Yoke\" {\n  cut 1\n  outline rectangle width_of by 20\n}\n\
    piece pocket \"Pocket\" {\n  cut 1\n  outline rectangle 20 by 18\n}\n\
    seam across panel.top to yoke.bottom { matching panel.top_right with yoke.bottom_right }\n\
    finish panel.left, panel.right, panel.bottom  hem 2\nfinish yoke.left, yoke.right, yoke.top  hem 2\n\
    finish pocket.top  hem 2\nplace pocket on panel { corner bottom_left at corner_mark; topstitch left, bottom, right }\n\
    steps { \"Pocket\" { hem pocket.top; place pocket }\n  \"Body\" { sew across }\n\
    \x20 \"Edges\" { hem panel.left, panel.right, panel.bottom, yoke.left, yoke.right, yoke.top } }\n";

/// The apron with these files beside it; the first is compiled.
fn apron(others: &[(&str, &str)]) -> Compiled {
    let base = [("apron.fus", APRON)];
    let all: Vec<(&str, &str)> = others.iter().copied().chain(base).collect();
    compile(&in_memory(&all), all[0].0)
}

fn document_of(compiled: &Compiled) -> String {
    assert!(compiled.diagnostics.is_empty(), "{:#?}", compiled.diagnostics);
    let mut document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    document.garment = String::new();
    to_text(&document).expect("figures")
}

/// Slug, title and the file and line of each place of the only message.
fn only(compiled: &Compiled) -> (&'static str, String, Vec<String>) {
    let [one] = compiled.diagnostics.as_slice() else { panic!("not one: {:#?}", compiled.diagnostics) };
    let places = one.labels.iter().map(|label| {
        let (file, line, _) = compiled.map.place(label.span);
        format!("{file}:{line}")
    });
    (one.slug(), one.title.to_string(), places.collect())
}

fn help(compiled: &Compiled) -> String {
    compiled.diagnostics.iter().filter_map(|one| one.help.clone()).collect::<Vec<_>>().join("\n")
}

const LONGER: (&str, &str) =
    ("longer.fus", "variation \"Longer\" of \"apron.fus\"\nlengthen panel at waist by 12\n");
const WIDER: (&str, &str) = ("wider.fus", "variation \"Wider\" of \"apron.fus\"\nset width_of = 72\n");
const BARE: (&str, &str) =
    ("bare.fus", "variation \"Bare\" of \"apron.fus\"\ndrop pocket and all sewn to it\n");

#[test]
fn what_is_combined_stands_over_one_base() {
    let both = apron(&[
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"longer.fus\", \"wider.fus\"\n"),
        LONGER,
        WIDER,
    ]);
    let text = document_of(&both);
    // 70 + 12 long and 72 wide, in millimetres.
    assert!(text.contains("\"width\": 720") && text.contains("\"height\": 820"), "{text}");
}

#[test]
fn the_order_of_files_that_touch_different_facts_does_not_matter() {
    let of = |with: &str| {
        let heading = format!("variation \"All\" of \"apron.fus\" with {with}\n");
        let compiled = compile(
            &in_memory(&[
                ("all.fus", &heading),
                ("apron.fus", APRON),
                LONGER,
                WIDER,
                ("shallow.fus", SHALLOW),
            ]),
            "all.fus",
        );
        document_of(&compiled)
    };
    const SHALLOW: &str =
        "variation \"Shallow\" of \"apron.fus\"\nset depth = 30\nreplace finish yoke.top hem 1.5\n";
    let orders = [
        "\"longer.fus\", \"wider.fus\", \"shallow.fus\"",
        "\"shallow.fus\", \"wider.fus\", \"longer.fus\"",
        "\"wider.fus\", \"shallow.fus\", \"longer.fus\"",
    ];
    for order in orders {
        assert_eq!(of(order), of(orders[0]), "{order}");
    }
}

#[test]
fn combined_at_once_or_one_after_the_other() {
    let at_once = apron(&[
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"longer.fus\", \"wider.fus\"\n"),
        LONGER,
        WIDER,
    ]);
    let after = apron(&[
        ("both.fus", "variation \"Both\" of \"one.fus\" with \"wider.fus\"\n"),
        ("one.fus", "variation \"One\" of \"apron.fus\" with \"longer.fus\"\n"),
        LONGER,
        WIDER,
    ]);
    assert_eq!(document_of(&at_once), document_of(&after));
    let nothing = apron(&[
        (
            "both.fus",
            "variation \"Both\" of \"apron.fus\" with \"longer.fus\", \"wider.fus\", \"nothing.fus\"\n",
        ),
        ("nothing.fus", "variation \"Nothing\" of \"apron.fus\"\n"),
        LONGER,
        WIDER,
    ]);
    assert_eq!(document_of(&at_once), document_of(&nothing));
}

#[test]
fn a_file_that_is_reached_twice_is_one() {
    let diamond = apron(&[
        ("top.fus", "variation \"Top\" of \"apron.fus\" with \"left.fus\", \"right.fus\"\n"),
        ("left.fus", "variation \"Left\" of \"longer.fus\"\nset width_of = 72\n"),
        ("right.fus", "variation \"Right\" of \"longer.fus\"\nset depth = 30\n"),
        LONGER,
    ]);
    let text = document_of(&diamond);
    assert!(text.contains("\"height\": 820"), "lengthened once: {text}");
}

#[test]
fn two_files_that_change_one_fact() {
    let narrow = ("narrow.fus", "variation \"Narrow\" of \"apron.fus\"\n\nset width_of = 50\n");
    let heading = "variation \"Both\" of \"apron.fus\" with \"wider.fus\", \"narrow.fus\"\n";
    let compiled = apron(&[("both.fus", heading), WIDER, narrow]);
    let (slug, title, places) = only(&compiled);
    assert_eq!(slug, "variation/conflict");
    assert_eq!(title, "wider.fus and narrow.fus both change the let width_of, and not alike");
    assert_eq!(places, ["narrow.fus:3", "wider.fus:2", "both.fus:1"]);
    assert_eq!(help(&compiled), "say in both.fus what holds: set width_of = …");
    // The file that combines them decides.
    let decided = format!("{heading}set width_of = 64\n");
    let text = document_of(&apron(&[("both.fus", &decided), WIDER, narrow]));
    assert!(text.contains("\"width\": 640"), "{text}");
    // Both say the same.
    let alike = ("narrow.fus", "variation \"Narrow\" of \"apron.fus\"\nset width_of   = 72\n");
    let text = document_of(&apron(&[("both.fus", heading), WIDER, alike]));
    assert!(text.contains("\"width\": 720"), "{text}");
}

#[test]
fn one_drops_what_another_changes() {
    let drops = ("open.fus", "variation \"Open\" of \"apron.fus\"\ndrop seam across\n");
    let eased = (
        "eased.fus",
        "variation \"Eased\" of \"apron.fus\"\nreplace seam across panel.top to yoke.bottom { allowance 1.5; matching panel.top_right with yoke.bottom_right }\n",
    );
    for order in ["\"open.fus\", \"eased.fus\"", "\"eased.fus\", \"open.fus\""] {
        let heading = format!("variation \"Both\" of \"apron.fus\" with {order}\n");
        let all = apron(&[("both.fus", &heading), drops, eased]);
        let conflict = all.diagnostics.iter().find(|one| one.slug() == "variation/conflict");
        assert_eq!(
            conflict.map(|one| one.title.to_string()).as_deref(),
            Some("open.fus drops the seam across, which eased.fus changes"),
            "{:#?}",
            all.diagnostics
        );
        let decided = format!(
            "{heading}replace seam across panel.top to yoke.bottom {{ allowance 2; matching panel.top_right with yoke.bottom_right }}\n"
        );
        let text = document_of(&apron(&[("both.fus", &decided), drops, eased]));
        assert!(!text.is_empty());
    }
}

#[test]
fn one_drops_what_another_uses() {
    let trim = (
        "trim.fus",
        "variation \"Trim\" of \"apron.fus\"\nnotion \"ribbon\" 1\nin steps after \"Pocket\" add \"Bar\" { baste across }\n\
         in piece pocket add { mark badge = (4, 4) }\n",
    );
    let compiled = apron(&[
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"bare.fus\", \"trim.fus\"\n"),
        BARE,
        trim,
    ]);
    let told: Vec<String> = compiled.diagnostics.iter().map(|one| one.title.to_string()).collect();
    assert!(
        told.iter().any(|title| title == "bare.fus drops the piece pocket, to which trim.fus adds"),
        "{told:#?}"
    );
}

/// Each of two files takes away what the other goes on from: both are told, at both places.
#[test]
fn each_drops_what_the_other_needs() {
    let plain = (
        "plain.fus",
        "variation \"Plain\" of \"apron.fus\"\ndrop pocket and all sewn to it\n\
         replace finish yoke.top hem 2.5\n",
    );
    let open = (
        "open.fus",
        "variation \"Open\" of \"apron.fus\"\ndrop finish yoke.top\n\
         in piece pocket add { mark badge = (4, 4) }\n",
    );
    for order in ["\"plain.fus\", \"open.fus\"", "\"open.fus\", \"plain.fus\""] {
        let heading = format!("variation \"Both\" of \"apron.fus\" with {order}\n");
        let both = apron(&[("both.fus", &heading), plain, open]);
        let conflicts = both.diagnostics.iter().filter(|one| one.slug() == "variation/conflict");
        let mut told: Vec<String> = conflicts.map(|one| one.title.to_string()).collect();
        told.sort();
        assert_eq!(
            told,
            [
                "open.fus drops the finish of yoke.top, which plain.fus changes",
                "plain.fus drops the piece pocket, to which open.fus adds"
            ],
            "{order}: {:#?}",
            both.diagnostics
        );
    }
}

#[test]
fn a_variation_with_nothing_is_its_base() {
    let base = document_of(&apron(&[]));
    assert_eq!(document_of(&apron(&[("same.fus", "variation \"Same\" of \"apron.fus\"\n")])), base);
    let same = ("same.fus", "variation \"Same\" of \"apron.fus\"\n");
    let with = ("both.fus", "variation \"Both\" of \"apron.fus\" with \"same.fus\"\n");
    assert_eq!(document_of(&apron(&[with, same])), base);
}

#[test]
fn units_are_the_bases_unless_said() {
    let inches = APRON.replace("units cm", "units in");
    let longer = |units: &str| {
        let text = format!("variation \"Longer\" of \"apron.fus\"\n{units}lengthen panel at waist by 12\n");
        compile(&in_memory(&[("longer.fus", &text), ("apron.fus", &inches)]), "longer.fus")
    };
    // 70 in and 12 in: 82 times 25.4 mm.
    let height = |compiled: &Compiled| {
        let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
        let text = to_text(&document).expect("figures");
        let at = text.find("\"height\": ").expect("a height") + 10;
        text[at..].split([',', '\n']).next().expect("a number").trim().to_owned()
    };
    let inherited = longer("");
    assert_eq!(height(&inherited), "2082.8");
    assert_eq!(height(&longer("units in\n")), "2082.8");
    // 70 in and 12 cm: 1778 and 120 mm.
    assert_eq!(height(&longer("units cm\n")), "1898");
    let told: Vec<&fustian::report::Diagnostic> =
        inherited.diagnostics.iter().filter(|one| one.slug() == "unit/inherited").collect();
    let [one] = told.as_slice() else { panic!("{told:#?}") };
    assert_eq!(one.title, "the numbers of longer.fus are read as inches, as apron.fus says");
    assert!(longer("units in\n").diagnostics.iter().all(|one| one.slug() != "unit/inherited"));
}

#[test]
fn resolve_says_of_which_files_and_units_a_garment_is() {
    let compiled =
        apron(&[("both.fus", "variation \"Both\" of \"apron.fus\" with \"longer.fus\"\n"), LONGER]);
    let told = files(&compiled.garment, &compiled.map);
    let told: Vec<(&str, &str, Option<&str>)> =
        told.iter().map(|file| (&*file.file, file.units, file.units_from.as_deref())).collect();
    assert_eq!(
        told,
        [
            ("apron.fus", "cm", None),
            ("longer.fus", "cm", Some("apron.fus")),
            ("both.fus", "cm", Some("apron.fus"))
        ]
    );
}

#[test]
fn a_file_is_taken_back_as_if_it_had_never_been_combined() {
    let with = [
        LONGER,
        WIDER,
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"longer.fus\", \"wider.fus\"\n"),
        ("alone.fus", "variation \"Alone\" of \"apron.fus\" with \"wider.fus\"\n"),
        ("back.fus", "variation \"Back\" of \"both.fus\" without \"longer.fus\"\n"),
        ("again.fus", "variation \"Again\" of \"back.fus\" with \"longer.fus\"\n"),
    ];
    let all: Vec<(&str, &str)> = with.iter().copied().chain([("apron.fus", APRON)]).collect();
    let of = |name: &str| document_of(&compile(&in_memory(&all), name));
    assert_eq!(of("back.fus"), of("alone.fus"));
    assert_eq!(of("again.fus"), of("both.fus"));
    // A base is taken back too, and what stands under it stays.
    let all: Vec<(&str, &str)> = [
        ("kept.fus", "variation \"Kept\" of \"upon.fus\" without \"longer.fus\"\n"),
        ("upon.fus", "variation \"Upon\" of \"longer.fus\"\nset width_of = 72\n"),
        LONGER,
        WIDER,
        ("apron.fus", APRON),
    ]
    .to_vec();
    let kept = document_of(&compile(&in_memory(&all), "kept.fus"));
    assert_eq!(kept, document_of(&compile(&in_memory(&all), "wider.fus")));
}

#[test]
fn nothing_to_take_back() {
    for (words, title) in [
        ("without \"longer.fus\"", "longer.fus is not combined here, so there is nothing to take back"),
        ("without \"apron.fus\"", "apron.fus is the garment itself, and cannot be left out"),
    ] {
        let heading = format!("variation \"Back\" of \"apron.fus\" with \"wider.fus\" {words}\n");
        let compiled = apron(&[("back.fus", &heading), LONGER, WIDER]);
        let (slug, told, places) = only(&compiled);
        assert_eq!((slug, told.as_str(), places[0].as_str()), ("drop/nothing", title, "back.fus:1"));
    }
}

#[test]
fn headings_that_cannot_be() {
    for (heading, slug, title) in [
        (
            "variation \"A\" of \"apron.fus\" with \"longer.fus\", \"longer.fus\"\n",
            "file/twice",
            "\"longer.fus\" is combined twice",
        ),
        (
            "variation \"A\" of \"longer.fus\" with \"longer.fus\"\n",
            "file/twice",
            "\"longer.fus\" is the base, and is combined with itself",
        ),
        (
            "variation \"A\" of \"apron.fus\" with \"longer.fus\" without \"longer.fus\"\n",
            "file/twice",
            "longer.fus is combined and taken back in one heading",
        ),
        (
            "variation \"A\" of \"upon.fus\" with \"longer.fus\"\n",
            "file/twice",
            "upon.fus combines longer.fus already",
        ),
        ("variation \"A\" of \"apron.fus\" with \"a.fus\"\n", "file/circle", "a.fus is combined with itself"),
        (
            "variation \"A\" of \"apron.fus\" with \"round.fus\"\n",
            "file/circle",
            "the files go round in a circle: a.fus is with round.fus is with a.fus",
        ),
        (
            "variation \"A\" of \"apron.fus\" with \"gone.fus\"\n",
            "file/missing",
            "there is no file \"gone.fus\"",
        ),
        (
            "variation \"A\" of \"apron.fus\" with \"bib.fus\"\n",
            "file/kind",
            "\"bib.fus\" is a garment, and only variations and libraries are combined",
        ),
        (
            "variation \"A\" of \"apron.fus\" with \"bibbed.fus\"\n",
            "variation/base",
            "bibbed.fus is a variation of bib.fus, and not of apron.fus",
        ),
    ] {
        let compiled = apron(&[
            ("a.fus", heading),
            LONGER,
            ("round.fus", "variation \"Round\" of \"apron.fus\" with \"a.fus\"\n"),
            ("upon.fus", "variation \"Upon\" of \"apron.fus\" with \"longer.fus\"\n"),
            ("bib.fus", "garment \"Bib\"\n"),
            ("bibbed.fus", "variation \"Bibbed\" of \"bib.fus\"\n"),
        ]);
        let (told, words, _) = only(&compiled);
        assert_eq!((told, words.as_str()), (slug, title));
    }
}

#[test]
fn more_files_than_a_chain_may_have_are_told_once() {
    let names: Vec<String> = (0..70).map(|at| format!("v{at}.fus")).collect();
    let with: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
    let heading = format!("variation \"All\" of \"apron.fus\" with {}\n", with.join(", "));
    let small = "variation \"Small\" of \"apron.fus\"\n";
    let mut all: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), small)).collect();
    all.extend([("all.fus", heading.as_str()), ("apron.fus", APRON)]);
    let (slug, _, places) = only(&compile(&in_memory(&all), "all.fus"));
    assert_eq!((slug, places[0].as_str()), ("file/too-many", "all.fus:1"));
    // As a chain of bases too.
    let chain: Vec<String> = (0..70)
        .map(|at| match at {
            69 => "variation \"Last\" of \"apron.fus\"\n".to_owned(),
            at => format!("variation \"One\" of \"v{}.fus\"\n", at + 1),
        })
        .collect();
    let mut all: Vec<(&str, &str)> =
        names.iter().map(String::as_str).zip(chain.iter().map(String::as_str)).collect();
    all.push(("apron.fus", APRON));
    let (slug, _, places) = only(&compile(&in_memory(&all), "v0.fus"));
    assert_eq!((slug, places[0].as_str()), ("file/too-many", "v63.fus:1"));
}

#[test]
fn a_list_keeps_the_sizes_of_its_own_base() {
    let sized = APRON.replace("let depth = 40", "sizes S, M, L\nlet depth = each 38, 40, 42");
    let compiled = compile(
        &in_memory(&[
            ("both.fus", "variation \"Both\" of \"apron.fus\" with \"some.fus\", \"deep.fus\"\n"),
            ("some.fus", "variation \"Some\" of \"apron.fus\"\nsizes S, L\n"),
            ("deep.fus", "variation \"Deep\" of \"apron.fus\"\nset depth = each 48, 50, 52\n"),
            ("apron.fus", &sized),
        ]),
        "both.fus",
    );
    assert!(document_of(&compiled).contains("\"size\": \"L\""));
    let packed = packed(
        &in_memory(&[
            ("both.fus", "variation \"Both\" of \"apron.fus\" with \"some.fus\", \"deep.fus\"\n"),
            ("some.fus", "variation \"Some\" of \"apron.fus\"\nsizes S, L\n"),
            ("deep.fus", "variation \"Deep\" of \"apron.fus\"\nset depth = each 48, 50, 52\n"),
            ("apron.fus", &sized),
        ]),
        "both.fus",
    );
    assert!(packed.contains("each 48, 52"), "{packed}");
}

#[test]
fn pins_depfiles_and_packing_know_what_is_combined() {
    let folder = folder_of(&[
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"longer.fus\", \"wider.fus\"\n"),
        ("apron.fus", APRON),
        LONGER,
        WIDER,
    ]);
    let at = folder.path();
    assert!(run(at, &["pin", "both.fus"]).status.success());
    let pinned = std::fs::read_to_string(at.join("both.fus")).expect("a text");
    assert_eq!(pinned.matches(" as of ").count(), 3, "{pinned}");
    assert!(run(at, &["check", "both.fus"]).status.success());
    std::fs::write(at.join("wider.fus"), WIDER.1.replace("72", "76")).expect("written");
    assert!(err(&run(at, &["check", "both.fus"])).contains("\"wider.fus\" has changed since it was pinned"));
    let output = run(at, &["resolve", "both.fus", "-o", "b.json", "--depfile", "b.d"]);
    assert!(output.status.success(), "{}", err(&output));
    let rule = std::fs::read_to_string(at.join("b.d")).expect("a rule");
    assert!(rule.starts_with("b.json: both.fus apron.fus longer.fus wider.fus\n"), "{rule}");
    let resolved = std::fs::read_to_string(at.join("b.json")).expect("a document");
    assert!(resolved.contains("\"units_from\": \"apron.fus\""), "{resolved}");
    let one = run(at, &["pack", "both.fus"]);
    assert!(one.status.success(), "{}", err(&one));
    assert!(out(&one).contains("width_of = 76") && !out(&one).contains("variation"), "{}", out(&one));
    let compared = run(at, &["compare", "apron.fus", "both.fus"]);
    assert!(
        out(&compared).contains("added: lengthen panel at waist by 12 (longer.fus:2)"),
        "{}",
        out(&compared)
    );
}

/// Facts that have nothing to do with one another, each as a file of its own says it.
const FACTS: [&str; 10] = [
    "set width_of = 72",
    "set depth = 30",
    "replace finish yoke.top hem 1.5",
    "replace finish pocket.top hem 2.5",
    "replace seam across panel.top to yoke.bottom { allowance 1.5; matching panel.top_right with yoke.bottom_right }",
    "lengthen panel at waist by 12",
    "in piece yoke add { mark loop_mark = (4, 4) }",
    "in piece panel replace { mark corner_mark = (18, 22) }",
    "replace tolerance 3mm",
    "measure deep \"Depth\" = depth",
];

fn of_facts(heading: &str) -> String {
    let names: Vec<String> = (0..FACTS.len()).map(|at| format!("f{at}.fus")).collect();
    let texts: Vec<String> =
        FACTS.iter().map(|fact| format!("variation \"One\" of \"apron.fus\"\n{fact}\n")).collect();
    let base = format!("{APRON}tolerance 2mm\n");
    let mut all: Vec<(&str, &str)> = vec![("all.fus", heading), ("apron.fus", &base)];
    all.extend(names.iter().map(String::as_str).zip(texts.iter().map(String::as_str)));
    let loader = in_memory(&all);
    let text = document_of(&compile(&loader, "all.fus"));
    // Written as one file it says the same.
    let one = packed(&loader, "all.fus");
    assert_eq!(document_of(&compile(&in_memory(&[("one.fus", &one)]), "one.fus")), text, "{one}");
    text
}

#[test]
fn combining_is_what_it_is_whatever_the_order_and_however_it_is_nested() {
    let mut seen: Vec<String> = Vec::new();
    for (one, first) in FACTS.iter().enumerate() {
        for (other, second) in FACTS.iter().enumerate().skip(one + 1) {
            let with = |list: &str| of_facts(&format!("variation \"All\" of \"apron.fus\" with {list}\n"));
            let both = with(&format!("\"f{one}.fus\", \"f{other}.fus\""));
            assert_eq!(both, with(&format!("\"f{other}.fus\", \"f{one}.fus\"")), "{one} and {other}");
            let nested = format!("variation \"All\" of \"f{one}.fus\" with \"f{other}.fus\"\n");
            assert_eq!(both, of_facts(&nested), "{other} over {one}");
            let said = format!("variation \"All\" of \"apron.fus\"\n{first}\n{second}\n");
            assert_eq!(both, of_facts(&said), "{one} and {other} in one file");
            let back =
                format!("variation \"All\" of \"f{one}.fus\" with \"f{other}.fus\" without \"f{one}.fus\"\n");
            assert_eq!(with(&format!("\"f{other}.fus\"")), of_facts(&back), "{one} taken back under {other}");
            seen.push(both);
        }
    }
    seen.sort();
    seen.dedup();
    // `depth` alone changes nothing that is drawn, except where it is measured.
    assert!(seen.len() > 30, "each pair is another garment: {}", seen.len());
}

/// A front whose centre is 21 in, and three files, none of which knows the others: a band of 2 1/2 in when
/// it is folded, 1/2 in of allowance at the hem, and a zip of 30 in. 30 - 2 1/2 - 1/2 - 21 = 6.
const FRONT: &str = "garment \"Mate's vest\"\nunits in\nallowance 1/2\nfabric shell \"shell\" { width 60 }\n\
    layer outer in shell { front, back }\n\
    piece front { cut 2 mirrored; outline rectangle 11 by 21; line waist across at (0, 8) }\n\
    piece back { cut 1; outline rectangle 22 by 21; line waist across at (0, 8) }\n";
const BAND: &str = "variation \"Banded\" of \"vest.fus\"\nadd band to layer outer\n\
    piece band { cut 1; outline rectangle 44 by 5; folded top to bottom }\n";
const HEM: &str = "variation \"Hemmed\" of \"vest.fus\"\nextend front.bottom, back.bottom by 1/2\n";
const ZIPPED: &str = "variation \"Zipped\" of \"vest.fus\"\n\
    closure front_zip band.left + front.left to band.right + front.left { zipper separating 30 }\n\
    lengthen front, back at waist until front_zip fits\n";

fn vest(heading: &str) -> Compiled {
    let files = [
        ("all.fus", heading),
        ("three.fus", "variation \"Three\" of \"vest.fus\" with \"zip.fus\", \"hem.fus\", \"band.fus\"\n"),
        ("vest.fus", FRONT),
        ("band.fus", BAND),
        ("hem.fus", HEM),
        ("zip.fus", ZIPPED),
    ];
    compile(&in_memory(&files), "all.fus")
}

fn amounts(compiled: &Compiled) -> Vec<f64> {
    compiled.sizes[0].drawn.amounts.iter().map(|amount| amount.expect("an amount") / 25.4).collect()
}

#[test]
fn a_zips_sum_through_three_files_and_undone_in_a_fourth() {
    let near = |found: &[f64], wanted: &[f64]| {
        assert_eq!(found.len(), wanted.len(), "{found:?}");
        assert!(found.iter().zip(wanted).all(|(one, other)| (one - other).abs() < 1e-6), "{found:?}");
    };
    for order in ["\"band.fus\", \"hem.fus\", \"zip.fus\"", "\"zip.fus\", \"band.fus\", \"hem.fus\""] {
        let heading = format!("variation \"All\" of \"vest.fus\" with {order}\n");
        let mut found = amounts(&vest(&heading));
        found.sort_by(f64::total_cmp);
        near(&found, &[0.5, 6.0]);
    }
    // Undone: 21 + 1/2 + 2 1/2 is 24, 6 short of the zip.
    let undone =
        vest("variation \"All\" of \"three.fus\"\ndrop lengthen back, front at waist of \"zip.fus\"\n");
    near(&amounts(&undone), &[0.5]);
    let told = undone.diagnostics.iter().find(|one| one.slug() == "zipper/length").expect("it does not fit");
    assert_eq!(told.title.to_string(), "the zip of front_zip is 6 in longer than its edges");
    // Given instead of found, and taken back with its file.
    let given = vest("variation \"All\" of \"three.fus\"\nreplace lengthen front, back at waist by 6\n");
    assert!(given.diagnostics.iter().all(|one| one.kind.family() != "zipper"), "{:#?}", given.diagnostics);
    near(&amounts(&vest("variation \"All\" of \"three.fus\" without \"zip.fus\"\n")), &[0.5]);
}

#[test]
fn a_given_amount_that_is_made_up_for_is_told_and_any_other_is_not() {
    let told = |more: &str, zip: &str| {
        let zip_file = ZIPPED.replace("separating 30", zip);
        let files = [
            ("all.fus", "variation \"All\" of \"vest.fus\" with \"longer.fus\", \"zip.fus\", \"band.fus\"\n"),
            ("longer.fus", more),
            ("vest.fus", FRONT),
            ("band.fus", BAND),
            ("zip.fus", zip_file.as_str()),
        ];
        let compiled = compile(&in_memory(&files), "all.fus");
        compiled.diagnostics.iter().any(|one| one.slug() == "alter/swallowed")
    };
    let longer = "variation \"Longer\" of \"vest.fus\"\nlengthen front, back at waist by 2\n";
    assert!(told(longer, "separating 30"));
    // Of the back alone, at another line, or too much to be made up for.
    let back = longer.replace("front, back", "back");
    assert!(!told(&back, "separating 30"));
    let chest = longer.replace("lengthen front, back at waist by 2", "in piece front add { line chest across at (0, 14) }\nin piece back add { line chest across at (0, 14) }\nlengthen front, back at chest by 2");
    assert!(!told(&chest, "separating 30"));
    // From stock: 21 + 2 1/2 is 23 1/2, so 24 is taken; with 2 more 26.
    assert!(!told(longer, "separating stocked 24, 26"));
    assert!(told(longer, "separating stocked 26, 28"), "26 is taken either way");
}

#[test]
fn a_library_lends_pieces_and_comes_whole_where_it_is_combined() {
    let parts = "library \"Parts\"\npiece tab \"Tab\" { cut 1; outline rectangle 4cm by 8cm }\n\
        piece strap_end \"End\" { cut 1; outline rectangle unheard_of by 8cm }\n";
    let uses = APRON
        .replace("layer outer in canvas { panel,", "use \"parts.fus\"\nlayer outer in canvas { tab, panel,")
        + "finish tab.top, tab.left, tab.right, tab.bottom raw\n";
    let compiled = compile(&in_memory(&[("apron.fus", &uses), ("parts.fus", parts)]), "apron.fus");
    assert!(compiled.garment.pieces.iter().any(|piece| &*piece.name == "tab"));
    assert!(
        compiled.diagnostics.iter().all(|one| one.slug() != "name/unknown"),
        "what stays in the library is not looked at: {:#?}",
        compiled.diagnostics
    );
    // What a library says beside is no use to who only uses it.
    let addition = "library \"Ribbon\"\nseam ribbon yoke.top to yoke.top\n";
    let uses = APRON.replace("units cm", "units cm\nuse \"ribbon.fus\"");
    let compiled = compile(&in_memory(&[("apron.fus", &uses), ("ribbon.fus", addition)]), "apron.fus");
    let told: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(told, ["file/kind"], "{:#?}", compiled.diagnostics);
    assert!(help(&compiled).contains("with \"ribbon.fus\""), "{}", help(&compiled));
    // Combined, it is read in the unit of the garment.
    let inches = APRON.replace("units cm", "units in");
    let combined = compile(
        &in_memory(&[
            ("all.fus", "variation \"All\" of \"apron.fus\" with \"hem.fus\"\n"),
            ("hem.fus", "library \"Hem\"\nlengthen panel at waist by 1\n"),
            ("apron.fus", &inches),
        ]),
        "all.fus",
    );
    assert_eq!(amounts(&combined), [1.0]);
}

/// The deck examples with a file that combines some of them.
fn deck(heading: &str) -> Compiled {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect("an example");
    let names = ["deck-smock.fus", "deck-zip.fus", "deck-lined.fus", "deck-hood.fus", "crew-library.fus"];
    let texts: Vec<String> = names.iter().map(|name| read(name)).collect();
    let mut all: Vec<(&str, &str)> = names.iter().copied().zip(texts.iter().map(String::as_str)).collect();
    all.push(("all.fus", heading));
    compile(&in_memory(&all), "all.fus")
}

#[test]
fn what_goes_with_a_piece_goes_whichever_file_comes_first() {
    // The hood drops the collar with all that is sewn to it; the zip has another collar there.
    let of = |with: &str| {
        let compiled = deck(&format!("variation \"All\" of \"deck-smock.fus\" with {with}\n"));
        let told: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
        assert_eq!(told, ["drop/along"], "{with}: {:#?}", compiled.diagnostics);
        let steps: Vec<String> = compiled.garment.steps.iter().map(|step| step.title.to_string()).collect();
        let seams: std::collections::BTreeSet<String> =
            compiled.garment.seams.iter().map(|seam| seam.name.to_string()).collect();
        (seams, steps.len())
    };
    let one = of("\"deck-zip.fus\", \"deck-hood.fus\"");
    assert_eq!(one, of("\"deck-hood.fus\", \"deck-zip.fus\""));
    assert!(one.0.contains("hood_neck") && !one.0.contains("collar"), "{one:?}");
}

#[test]
fn a_step_beside_one_that_was_taken_back_stands_where_that_stood() {
    let compiled = apron(&[
        ("all.fus", "variation \"All\" of \"both.fus\" without \"bar.fus\"\n"),
        (
            "both.fus",
            "variation \"Both\" of \"apron.fus\" with \"bar.fus\"\nin steps after \"Bar\" add \"Press\" { press across }\n",
        ),
        (
            "bar.fus",
            "variation \"Bar\" of \"apron.fus\"\nin steps after \"Body\" add \"Bar\" { press across }\n",
        ),
    ]);
    document_of(&compiled);
    let titles: Vec<&str> = compiled.garment.steps.iter().map(|step| &*step.title).collect();
    assert_eq!(titles, ["Pocket", "Body", "Press", "Edges"]);
    // What else of that file is still named is told with where it stood and where it was taken back.
    let compiled = apron(&[
        ("all.fus", "variation \"All\" of \"both.fus\" without \"bar.fus\"\n"),
        ("both.fus", "variation \"Both\" of \"apron.fus\" with \"bar.fus\"\nset loops = 3\n"),
        ("bar.fus", "variation \"Bar\" of \"apron.fus\"\nlet loops = 2\n"),
    ]);
    let (slug, title, places) = only(&compiled);
    assert_eq!((slug, title.as_str()), ("replace/nothing", "there is no let loops to set"));
    assert!(
        places.contains(&"bar.fus:2".to_owned()) && places.contains(&"all.fus:1".to_owned()),
        "{places:?}"
    );
}
