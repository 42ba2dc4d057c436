//! A panel of the mess skirt of the ferry's crew, plain and with ten take-ups in its waist.

use std::fmt::Write;

/// What is taken out of the waist.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakenOut {
    Nothing,
    Darts,
    TruedDarts,
    PleatsInARow,
    SinglePleats,
    Slits,
}

impl TakenOut {
    pub const ALL: [TakenOut; 5] = [
        TakenOut::Darts,
        TakenOut::TruedDarts,
        TakenOut::PleatsInARow,
        TakenOut::SinglePleats,
        TakenOut::Slits,
    ];

    /// What a reader of ratios calls it.
    pub fn words(self) -> &'static str {
        match self {
            TakenOut::Nothing => "nothing",
            TakenOut::Darts => "ten darts",
            TakenOut::TruedDarts => "ten trued darts",
            TakenOut::PleatsInARow => "ten pleats in a row",
            TakenOut::SinglePleats => "ten single pleats",
            TakenOut::Slits => "ten slits",
        }
    }
}

/// A garment of one panel in six sizes. Like the awning's, it has straight edges and curves, a value of its own, a
/// line that it is lengthened at, a mark and a notch.
pub fn garment(taken: TakenOut) -> String {
    let mut text = String::from(
        "garment \"Mess skirt\"\nunits cm\nallowance 1\ntolerance 2mm\n\
         sizes deck0, deck1, deck2, deck3, deck4, deck5\n\
         body {\n  hip 94 grade +4\n  waist_to_knee 60 grade +0.5\n}\npick size by hip\nlet ease = 26\n\
         fabric wool \"navy wool\" { width 150; selvage 1 }\nlayer outer in wool { panel }\n\
         let drop = waist_to_knee - 2.5  \"waist to hem\"\n\
         piece panel \"Panel\" {\n  cut 2 mirrored\n\
         \x20 point top       = (0, 0)\n  point belt      = ((hip + ease)/2, 0)\n\
         \x20 point seat      = belt + (4, -20)\n  point knee      = (x(seat), -drop)\n\
         \x20 point foot      = (0, -drop)\n\
         \x20 outline from foot {\n    centre to top\n    waist  to belt\n\
         \x20   hipline to seat  curve leaving square to waist arriving down\n    side   to knee\n    hem    to foot\n  }\n\
         \x20 line thigh across at (0, -30)\n  mark pocket = (8, -12)\n  notch hipline 8 from belt\n",
    );
    for at in 0..10 {
        let (place, point) = (4 + 5 * at, 5 + 5 * at);
        match taken {
            TakenOut::Nothing => Ok(()),
            TakenOut::Darts => writeln!(
                text,
                "  dart dart{at} on waist at {place} from centre width 0.4 to ({place}, -10) pressed toward centre"
            ),
            TakenOut::TruedDarts => writeln!(
                text,
                "  dart dart{at} on waist at {place} from centre width 1.5 to ({point}, -10) pressed toward centre trued"
            ),
            TakenOut::PleatsInARow if at == 0 => writeln!(
                text,
                "  pleat pleats on waist at {place} from centre depth 1 count 10 apart 3 toward hipline"
            ),
            TakenOut::PleatsInARow => Ok(()),
            TakenOut::SinglePleats => {
                writeln!(text, "  pleat pleat{at} on waist at {place} from centre depth 1 toward hipline")
            }
            TakenOut::Slits => writeln!(text, "  slit slit{at} on waist at {place} from centre down 10"),
        }
        .expect("a text takes all");
    }
    text.push_str(
        "}\nlengthen panel at thigh by 3\nfinish panel.centre, panel.waist, panel.hipline, panel.side, panel.hem  raw\n",
    );
    if taken == TakenOut::Slits {
        let slits: Vec<String> =
            (0..10).map(|at| format!("panel.slit{at}.near, panel.slit{at}.far")).collect();
        writeln!(text, "finish {}  raw", slits.join(", ")).expect("a text takes all");
    }
    text
}
