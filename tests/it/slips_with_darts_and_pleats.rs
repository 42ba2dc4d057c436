//! An engineer's fitted waistcoat: it is sound, and each slip in it is told.

use crate::workbench::in_memory;
use fustian::compile;

const WAISTCOAT: &str = "garment \"Engineer's fitted waistcoat\"
units cm
allowance 1
fabric serge \"navy serge\" { width 150 }
layer outer in serge { front, back }

piece front \"Front\" {
  cut 2 mirrored
  drawn left
  point hem_cf     = (0, -58)
  point hem_side   = (25, -58)
  point dart_low   = (24.2, -29.5)
  point dart_up    = (24.5, -27)
  point underarm   = (25, -22)
  point tip        = (19, -3)
  point neck_side  = (8, 0)
  point neck_cf    = (0, -22)
  point bust_point = (11, -25)
  outline from hem_cf {
    hem       to hem_side
    side      to dart_low; bust_dart dart about bust_point to dart_up stopping 3 short pressed down trued; side to underarm
    armhole   to tip        curve leaving square to side arriving square to shoulder
    shoulder  to neck_side
    neckline  to neck_cf
    centre    to hem_cf
  }
  dart contour at (11, -40) width 2.5 up 12 down 12 pressed toward centre
  slit watch from (4, -19) to (10, -19) window 1.6
}

piece back \"Back\" {
  cut 1 on fold centre
  drawn right
  point hem_cb     = (0, -56)
  point hem_side   = (25, -55.6)
  point underarm   = (25, -22)
  point tip        = (21, -2)
  point neck_side  = (8, 0)
  point neck_cb    = (0, -2)
  outline from hem_cb {
    hem       to hem_side   
    side      to underarm
    armhole   to tip        curve leaving square to side arriving square to shoulder
    shoulder  to neck_side
    neckline  to neck_cb    curve leaving square to shoulder arriving square to centre
    centre    to hem_cb
  }
  dart waist_dart at (10, -40) width 2 up 10 down 10 pressed toward centre
  dart shoulder_dart on shoulder in the middle width 1 to (13, -10) pressed toward neckline trued
  slit vent on hem at the fold up 14 window 3
}

seam shoulder  back.shoulder to front.shoulder easing 0..1.5
seam side      front.side to back.side
finish front.armhole, back.armhole, front.neckline, back.neckline, front.centre  bound 1
finish front.watch.near, front.watch.far, front.watch.start, front.watch.end  bound 0.6
finish back.vent.near  hem 1.5
finish back.vent.end  overlocked
finish front.hem, back.hem  hem 2
steps {
  \"Darts\"  { sew front.bust_dart, front.contour, back.waist_dart, back.shoulder_dart; press front.bust_dart }
  \"Slits\"  { finish front.watch.near, front.watch.far, front.watch.start, front.watch.end; finish back.vent.end; hem back.vent.near }
  \"Seams\"  { sew shoulder, side }
  \"Edges\"  { hem front.hem, back.hem; finish front.armhole, back.armhole, front.neckline, back.neckline, front.centre }
}
";

fn told(text: &str) -> Vec<&'static str> {
    let compiled = compile(&in_memory(&[("made.fus", text)]), "made.fus");
    let slugs = compiled.diagnostics.iter().map(|one| one.slug());
    slugs.filter(|slug| !["steps/none", "seam/kink"].contains(slug)).collect()
}

fn all_told(sound: &str, slips: &[(&str, &str, &str)]) {
    assert!(told(sound).is_empty(), "{:?}", told(sound));
    for (was, is, slug) in slips {
        let found = told(&sound.replace(was, is));
        assert!(sound.contains(was) && found.contains(slug), "{is}: {found:?}");
    }
}

#[test]
fn slips_in_a_waistcoat_with_darts_and_slits_are_told() {
    all_told(
        WAISTCOAT,
        &[
            ("point dart_up    = (24.5, -27)", "point dart_up    = (24.6, -25.5)", "seam/unequal"),
            (
                "slit watch from (4, -19) to (10, -19)",
                "slit watch from (7, -36) to (15, -36)",
                "slit/overlap",
            ),
            ("up 12 down 12", "up 12 down 22", "dart/outside"),
            ("at the fold up 14 window 3", "at the fold up 14", "slit/narrow"),
            ("at the fold up 14 window 3", "at the fold up 60 window 3", "slit/outside"),
            ("at the fold up 14", "at the fold right 14", "slit/fold"),
            ("finish back.vent.end  overlocked\n", "", "slit/unfinished"),
            ("pressed toward neckline trued", "pressed toward neckline", "dart/kink"),
            ("width 2.5 up 12", "width 0 up 12", "dart/nothing"),
            ("contour at (11, -40) width 2.5 up 12", "contour at (13, -40) width 2.5 up 14.5", "dart/points"),
            ("bust_point = (11, -25)", "bust_point = (-3, -25)", "dart/outside"),
            ("stopping 3 short", "stopping 9 short", "dart/blunt"),
            ("down 12 pressed toward centre", "down 12 pressed up", "dart/pressed"),
            ("bound 0.6", "bound 2", "hem/crosses"),
        ],
    );
}
