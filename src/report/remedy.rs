use std::fmt;

/// A way out that lies in how Fustian is asked and not in the text.
///
/// The library says it in words that fit any program; a program that has an option or a button for it
/// names that instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Remedy {
    /// Let files of a wider folder be read.
    WidenRoot,
    /// Lay the cloth open instead of folded.
    OpenCloth,
    /// Print on larger paper.
    LargerPaper,
    /// Print some of the pieces only.
    FewerPieces,
}

impl Remedy {
    /// What to do, without the name of any option: "lay the cloth open".
    pub fn words(self) -> &'static str {
        match self {
            Remedy::WidenRoot => "let a wider folder be read",
            Remedy::OpenCloth => "lay the cloth open",
            Remedy::LargerPaper => "take larger paper",
            Remedy::FewerPieces => "print fewer pieces",
        }
    }
}

impl fmt::Display for Remedy {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        formatter.write_str(self.words())
    }
}

/// A way out: something to change in the text or at the cutting table, or in how Fustian is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WayOut {
    /// In words.
    Words(String),
    /// In how Fustian is asked.
    Remedy(Remedy),
}

impl WayOut {
    /// The same with a program's own words for a remedy.
    pub fn worded(self, words: impl Fn(Remedy) -> String) -> WayOut {
        match self {
            WayOut::Remedy(remedy) => WayOut::Words(words(remedy)),
            WayOut::Words(_) => self,
        }
    }
}

impl fmt::Display for WayOut {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        match self {
            WayOut::Words(words) => formatter.write_str(words),
            WayOut::Remedy(remedy) => remedy.fmt(formatter),
        }
    }
}
