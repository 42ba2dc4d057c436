//! A length where an angle is needed, a number divided by a length: the message says how to write it
//! right, and written so it compiles.

use fustian::report::Diagnostic;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn made(line: &str) -> Compiled {
    let text = format!("garment \"Galley apron\"\nunits cm\nlet strap = 12\nlet slant = 30°\n{line}\n");
    compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus")
}

/// A piece whose right edge leaves at an angle, or whose point is a pair, as given.
fn drawn(point: &str, angle: &str) -> String {
    format!(
        "block piece bib \"Bib\" {{\npoint a = (0, 0)\npoint b = (30, 0)\npoint c = {point}\npoint d = (0, 40)\n\
         outline from a {{\nfoot to b\nside to c curve leaving {angle} arriving up\ntop to d\nback to a\n}}\n}}"
    )
}

#[track_caller]
fn mixed(line: &str, place: &str, title: &str, help: &str) -> Diagnostic {
    let compiled = made(line);
    let [told] = compiled.diagnostics.as_slice() else { panic!("{line}: {:#?}", compiled.diagnostics) };
    assert_eq!((told.slug(), compiled.map.text(told.span())), ("unit/mixed", place), "{line}");
    assert_eq!(told.title, title, "{line}");
    let found = told.help.as_deref().unwrap_or_default();
    assert!(found.contains(help), "{line}: {found}");
    told.clone()
}

#[track_caller]
fn sound(line: &str) {
    let compiled = made(line);
    // Of figures alone no garment is made, which is told.
    let told: Vec<&Diagnostic> =
        compiled.diagnostics.iter().filter(|one| one.slug() != "piece/none").collect();
    assert!(told.is_empty(), "{line}: {told:#?}");
}

#[test]
fn what_is_added_is_of_one_kind() {
    for (line, place, title, help, mended) in [
        (
            "let a = 12cm + 5deg",
            "5deg",
            "a length and an angle cannot be added or subtracted",
            "12cm * tan(5deg)",
            "let a = 12cm + 12cm * tan(5deg)",
        ),
        (
            "let a = slant - strap",
            "strap",
            "an angle and a length cannot be added or subtracted",
            "of two lengths atan2(up, right) makes one",
            "let a = slant - atan2(strap, strap)",
        ),
        (
            "let a = strap + strap * strap",
            "strap * strap",
            "a length and an area cannot be added or subtracted",
            "sqrt(strap * strap) is a length",
            "let a = strap + sqrt(strap * strap)",
        ),
        (
            "let a = strap * strap - strap",
            "strap",
            "an area and a length cannot be added or subtracted",
            "(strap) * 20cm",
            "let a = strap * strap - (strap) * 20cm",
        ),
        (
            "let a = strap / strap + 3cm",
            "3cm",
            "a plain number and a length cannot be added or subtracted",
            "(3cm) / 1cm",
            "let a = strap / strap + (3cm) / 1cm",
        ),
    ] {
        let told = mixed(line, place, title, help);
        assert_eq!(told.labels.len(), 2, "both operands are shown: {line}");
        sound(mended);
    }
}

#[test]
fn what_is_multiplied_or_divided_makes_something() {
    for (line, place, title, help, mended) in [
        (
            "let a = strap * slant",
            "slant",
            "a length cannot be multiplied by an angle",
            "tan(slant), which are plain numbers",
            "let a = strap * tan(slant)",
        ),
        // The angle of a part of a cone or of a ring.
        (
            "let a = slant * strap / 5cm",
            "strap",
            "an angle cannot be multiplied by a length",
            "in brackets: … * (strap / …)",
            "let a = slant * (strap / 5cm)",
        ),
        (
            "let a = strap * slant / 3°",
            "slant",
            "a length cannot be multiplied by an angle",
            "in brackets: … * (slant / …)",
            "let a = strap * (slant / 3°)",
        ),
        (
            "let a = slant / 3cm",
            "3cm",
            "an angle cannot be divided by a length",
            "which are plain numbers",
            "let a = sin(slant) * 3cm",
        ),
        (
            "let a = strap * strap * 2cm",
            "2cm",
            "an area cannot be multiplied by a length",
            "has no unit, as 2 in 2 * 2cm",
            "let a = strap * strap * 2",
        ),
        (
            "let a = strap / strap / 4cm",
            "4cm",
            "a plain number cannot be divided by a length",
            "turn it round, 4cm / …, or leave the unit out",
            "let a = strap / strap / 4",
        ),
    ] {
        let told = mixed(line, place, title, help);
        assert_eq!(told.labels.len(), 2, "both operands are shown: {line}");
        sound(mended);
    }
}

#[test]
fn a_statement_says_what_it_needs() {
    let cloth =
        |width: &str| format!("fabric canvas \"canvas\" {{ width {width} }}\nlayer outer in canvas {{ }}");
    let told = made(&cloth("strap * slant"));
    assert!(told.diagnostics.iter().any(|one| one.slug() == "unit/mixed"));
    for (line, place, title, help, mended) in [
        (
            drawn("(30, 40)", "strap"),
            "strap",
            "this is a length where an angle is needed",
            "of two lengths atan2(up, right) makes one",
            drawn("(30, 40)", "atan2(strap, 3cm)"),
        ),
        (
            drawn("(b, 40)", "up"),
            "b",
            "this is a point where a length is needed",
            "x(b) and y(b) are lengths",
            drawn("(x(b), 40)", "up"),
        ),
        (
            drawn("strap", "up"),
            "strap",
            "this is a length where a point is needed",
            "a point has two lengths: (to the side, up)",
            drawn("(30, strap)", "up"),
        ),
        (
            drawn("(slant, 40)", "up"),
            "slant",
            "this is an angle where a length is needed",
            "12cm * tan(slant)",
            drawn("(30cm * tan(slant), 40)", "up"),
        ),
        (
            drawn("(strap * strap, 40)", "up"),
            "strap * strap",
            "this is an area where a length is needed",
            "sqrt(strap * strap) is a length",
            drawn("(sqrt(strap * strap), 40)", "up"),
        ),
    ] {
        mixed(&line, place, title, help);
        sound(&mended);
    }
}

/// What is called as a function touches its bracket: a row of the body may have its name. One edge is measured at a time.
#[test]
fn a_measure_may_be_called_as_a_function_is() {
    let piece = "allowance 1\nfabric c \"c\" { width 150 }\nlayer outer in c { p }\npiece p \"P\" { cut 1; outline rectangle 20 by 10 }\n\
                 finish p.top, p.bottom, p.left, p.right raw\n";
    // 166 / 2 and the 10 of the piece are 93.
    sound(&format!(
        "body {{ height 166 }}\n{piece}let half = height / 2 + height(p)\nrequire half = 93 \"by hand\""
    ));
    let compiled = made(&format!("{piece}let both = length(p.top + p.bottom)"));
    let [told] = compiled.diagnostics.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert_eq!(told.slug(), "name/unknown");
    let help = told.help.as_deref().unwrap_or_default();
    assert!(
        help.contains("length(p.top) + length(p.bottom)") && help.contains("total(p.top + p.bottom)"),
        "{help}"
    );
    sound(&format!("{piece}let both = length(p.top) + length(p.bottom)"));
}
