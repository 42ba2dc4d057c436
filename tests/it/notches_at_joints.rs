//! Notches that stand where stretches of an outline meet, on their way out to a drawing and back.

use crate::brought::{compiled, outline, piece};
use crate::cutting_lines::cut_all;
use crate::workbench::in_memory;
use fustian::bring::{BringOptions, bring};
use fustian::compile;
use fustian::emit::dxf;

/// A panel of which two strips take the edge down to 20 cm and from 20.6 cm on: notches 6 mm apart, at both ends of the
/// stretch between, which are two and no double one. They stand at the same places in both sizes.
#[test]
fn two_notches_at_the_ends_of_a_short_stretch_come_back_as_two() {
    let text = "garment \"Galley screen\"\nunits cm\nallowance 1\nsizes S, M\nbody { hip 90, 94 }\n\
                let high = each 60, 62\nlet wide = each 30, 33\nfabric canvas \"canvas\" { width 150 }\n\
                layer outer in canvas { panel, upper, lower }\n\
                piece panel \"Panel\" { cut 1; outline rectangle wide by high }\n\
                piece upper \"Upper strip\" { cut 1; outline rectangle 8 by 20 }\n\
                piece lower \"Lower strip\" { cut 1; outline rectangle 8 by high - 20.6 }\n\
                seam above  panel.right 20 from top_right to upper.left { matching panel.top_right with upper.top_left }\n\
                seam below  panel.right 20.6..high from top_right to lower.left { matching panel.bottom_right with lower.bottom_left }\n\
                finish panel.right 20..20.6 from top_right, panel.left, panel.top, panel.bottom  overlocked\n\
                finish upper.top, upper.right, upper.bottom, lower.top, lower.right, lower.bottom  overlocked\n";
    let made = compile(&in_memory(&[("screen.fus", text)]), "screen.fus");
    assert!(!made.has_mistakes(), "{:#?}", made.diagnostics);
    let bytes = dxf(&made.garment, &cut_all(&made));
    let brought =
        bring(&[("screen.dxf", &bytes)], &BringOptions::default()).unwrap_or_else(|why| panic!("{why}"));
    assert!(!brought.remarks.iter().any(|words| words.contains("notch")), "{:?}", brought.remarks);
    let back = compiled(&brought.text);
    for size in 0..2 {
        let drawn = piece(&back, size, "outer_panel");
        let ring = outline(&back, size, "outer_panel");
        let top = ring.iter().map(|path| path.bounding_box().y1).fold(f64::NEG_INFINITY, f64::max);
        let mut down: Vec<f64> = drawn.notches.iter().map(|notch| top - notch.at.y).collect();
        down.sort_by(f64::total_cmp);
        assert_eq!(down.len(), 2, "{}", brought.text);
        assert!(
            (down[0] - 200.0).abs() < 0.02 && (down[1] - 206.0).abs() < 0.02,
            "{down:?}\n{}",
            brought.text
        );
        assert!(drawn.notches.iter().all(|notch| !notch.double), "{}", brought.text);
    }
}
