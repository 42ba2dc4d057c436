use crate::report::INCH;

/// A sheet of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 297 × 420 mm (ISO 216).
    A3,
    /// 420 × 594 mm (ISO 216).
    A2,
    /// 594 × 841 mm (ISO 216).
    A1,
    /// 841 × 1189 mm (ISO 216).
    A0,
    /// 8 1/2 × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// 11 × 17 in (ANSI/ASME Y14.1, size B).
    Tabloid,
    /// 17 × 22 in (ANSI/ASME Y14.1).
    AnsiC,
    /// 22 × 34 in (ANSI/ASME Y14.1).
    AnsiD,
    /// 34 × 44 in (ANSI/ASME Y14.1).
    AnsiE,
}

impl Paper {
    /// Width and height in millimetres.
    pub fn size(self) -> (f64, f64) {
        let inches = |width: f64, height: f64| (width * INCH, height * INCH);
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A3 => (297.0, 420.0),
            Paper::A2 => (420.0, 594.0),
            Paper::A1 => (594.0, 841.0),
            Paper::A0 => (841.0, 1189.0),
            Paper::Letter => inches(8.5, 11.0),
            Paper::Tabloid => inches(11.0, 17.0),
            Paper::AnsiC => inches(17.0, 22.0),
            Paper::AnsiD => inches(22.0, 34.0),
            Paper::AnsiE => inches(34.0, 44.0),
        }
    }
}
