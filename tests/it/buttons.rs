//! Buttons: where they come to lie, and whether there is room for them.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn front(buttons: &str) -> Compiled {
    let text = format!(
        "garment \"Mess jacket\"\nunits cm\nallowance 1\nfabric serge \"serge\" {{ width 150 }}\nlayer outer in serge {{ front }}\n\
         piece front \"Front\" {{\ncut 2 mirrored\noutline rectangle 30 by 60\npoint neck_cf = (2, 60)\npoint hem_cf = (2, 0)\n\
         line centre from neck_cf to hem_cf\n}}\nfinish front.left  hem 5\nfinish front.right, front.top, front.bottom  hem 1\n\
         closure placket front.centre to front.centre {{ buttons {buttons} }}\n"
    );
    compile(&MemoryLoader::new().with("jacket.fus", text), "jacket.fus")
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|one| one.slug()).collect()
}

#[test]
fn buttons_stand_evenly_from_the_first_to_the_last() {
    let compiled = front("6 of 15mm from 1.5 below neck_cf to 12 above hem_cf stand 2 right over left");
    assert_eq!(slugs(&compiled), [""; 0]);
    // From 60 − 1.5 = 58.5 down to 12: 46.5 cm in five spaces of 9.3 cm, on the line x = 2.
    let row = &compiled.sizes[0].sewn.fasteners[0];
    assert!((row.spacing.unwrap() - 93.0).abs() < 1e-6);
    let at: Vec<(f64, f64)> =
        compiled.sizes[0].sewn.parts[0].fasteners.iter().map(|one| (one.at.x, one.at.y)).collect();
    assert_eq!(at.len(), 6);
    for (nth, (x, y)) in at.iter().enumerate() {
        assert!((x - 20.0).abs() < 1e-6 && (y - (585.0 - 93.0 * nth as f64)).abs() < 1e-6, "{nth}: {x} {y}");
    }
}

#[test]
fn a_buttonhole_is_as_long_as_the_button_is_wide_and_thick() {
    // Width and thickness, 3 mm where nobody says it: common practice. Line 40 is 1 in, 25.4 mm.
    let row = &front("6 of 1in from 1.5 below neck_cf to 12 above hem_cf stand 2").sizes[0].sewn.fasteners[0];
    assert!((row.buttonhole.unwrap() - (25.4 + 3.0)).abs() < 1e-9);
}

#[test]
fn one_button_has_no_spacing() {
    let compiled = front("1 of 15mm from 5 below neck_cf to 5 below neck_cf stand 2");
    assert_eq!(slugs(&compiled), [""; 0]);
    assert_eq!(compiled.sizes[0].sewn.fasteners[0].spacing, None);
}

#[test]
fn there_must_be_room_for_half_a_button_and_more() {
    // Half of 34 mm and 3 mm are 20 mm: just as far as the line is from the edge.
    let fits = front("6 of 34mm from 3 below neck_cf to 12 above hem_cf stand 2");
    assert_eq!(slugs(&fits), [""; 0]);
    let tight = front("6 of 36mm from 3 below neck_cf to 12 above hem_cf");
    assert_eq!(slugs(&tight), ["button/edge"]);
    // Said to be narrow, and not what is drawn: the line is 2 cm from the edge.
    let said = front("6 of 20mm from 3 below neck_cf to 12 above hem_cf stand 1");
    assert_eq!(slugs(&said), ["button/edge", "button/stand"]);
}

#[test]
fn rows_that_cannot_be_sewn_are_told() {
    assert_eq!(slugs(&front("0 of 15mm from 3 below neck_cf to 12 above hem_cf stand 2")), ["button/count"]);
    assert_eq!(
        slugs(&front("1000000000 of 15mm from 3 below neck_cf to 12 above hem_cf stand 2")),
        ["button/count"]
    );
    assert_eq!(slugs(&front("6 of 15mm from 3 above neck_cf to 12 above hem_cf stand 2")), ["button/beyond"]);
    assert_eq!(slugs(&front("6 of 15mm from 3 below neck_cf to 12 below hem_cf stand 2")), ["button/beyond"]);
}

#[test]
fn spacing_outside_of_the_trades_habit_is_advice() {
    // 60 − 3 − 12 = 45 cm: five spaces of 9 cm; ten of 4.5 cm; two of 22.5 cm.
    for (count, slugs_told) in [(6, vec![]), (11, vec!["button/spacing"]), (3, vec!["button/spacing"])] {
        let compiled = front(&format!("{count} of 15mm from 3 below neck_cf to 12 above hem_cf stand 2"));
        assert_eq!(slugs(&compiled), slugs_told, "{count}");
    }
}
