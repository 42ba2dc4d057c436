//! What an option may be given: words, and what of the library each of them means.

use clap::ValueEnum;
use clap::builder::PossibleValue;
use fustian::emit::drawing::Lines;
use fustian::emit::{Form, Paper};
use fustian::sheet::{Language, SheetPaper};

/// Outlines by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LinesName {
    /// Where it is cut
    Cut,
    /// Where it is sewn
    Sew,
    /// Where it is cut and where it is sewn
    Both,
}

impl From<LinesName> for Lines {
    fn from(name: LinesName) -> Self {
        match name {
            LinesName::Cut => Lines::Cut,
            LinesName::Sew => Lines::Sew,
            LinesName::Both => Lines::Both,
        }
    }
}

/// Papers by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperName {
    /// 210 x 297 mm
    A4,
    /// 297 x 420 mm
    A3,
    /// 420 x 594 mm
    A2,
    /// 594 x 841 mm
    A1,
    /// 841 x 1189 mm
    A0,
    /// 8 1/2 x 11 in
    Letter,
    /// 11 x 17 in
    Tabloid,
    /// 17 x 22 in
    AnsiC,
    /// 22 x 34 in
    AnsiD,
    /// 34 x 44 in
    AnsiE,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::A3 => Paper::A3,
            PaperName::A2 => Paper::A2,
            PaperName::A1 => Paper::A1,
            PaperName::A0 => Paper::A0,
            PaperName::Letter => Paper::Letter,
            PaperName::Tabloid => Paper::Tabloid,
            PaperName::AnsiC => Paper::AnsiC,
            PaperName::AnsiD => Paper::AnsiD,
            PaperName::AnsiE => Paper::AnsiE,
        }
    }
}

/// Papers that a sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SheetPaperName {
    /// 210 x 297 mm
    A4,
    /// 8 1/2 x 11 in
    Letter,
}

impl From<SheetPaperName> for SheetPaper {
    fn from(name: SheetPaperName) -> SheetPaper {
        match name {
            SheetPaperName::A4 => SheetPaper::A4,
            SheetPaperName::Letter => SheetPaper::Letter,
        }
    }
}

/// A language of a sheet, by its name or its tag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LanguageName(pub Language);

impl ValueEnum for LanguageName {
    fn value_variants<'a>() -> &'a [Self] {
        const COUNT: usize = Language::ALL.len();
        const NAMES: [LanguageName; COUNT] = {
            let mut names = [LanguageName(Language::English); COUNT];
            let mut at = 0;
            while at < COUNT {
                names[at] = LanguageName(Language::ALL[at]);
                at += 1;
            }
            names
        };
        &NAMES
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.0.name()).alias(self.0.tag()))
    }
}

/// Forms that other programs read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Exchange {
    /// DXF after ASTM D6673-10, in millimetres
    Dxf,
}

/// Ways for cloth to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Fold {
    /// In a single ply
    Open,
    /// Folded along its length; a tube as it is
    Lengthwise,
}

/// How much is searched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum EffortName {
    /// About a second for a jacket
    Quick,
    /// Thirty times as much
    Normal,
    /// Three hundred times as much
    Long,
}

/// How lays are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LayForm {
    /// In words
    Text,
    /// For other programs
    Json,
}

/// Results that have a schema.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// What `resolve` writes
    Resolve,
    /// What `lay --format json` writes
    Lay,
    /// What `materials --format json` writes
    Materials,
    /// What `steps --format json` writes
    Steps,
    /// What `compare --format json` writes
    Compare,
}

/// What `resolve` may add.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum With {
    /// How the parts lie on their cloths
    Lay,
    /// What to buy
    Materials,
}

/// What tells sizes apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SizesFromName {
    /// Each size is a layer, or an outermost group
    Layers,
    /// A piece's name ends with its size: front-M, front 38
    Names,
}

/// Units of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitName {
    /// Centimetres
    Cm,
    /// Inches
    In,
}

/// The drafts that a new file may begin with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Kind {
    /// One piece that is tied round the waist
    Apron,
    /// Front, back and two handles
    Bag,
    /// Front, back and a band with a cord
    Skirt,
    /// A knitted top, its sleeves one with front and back
    Top,
    /// Pulled on, with elastic at the waist
    Trousers,
}

/// How messages are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum MessageForm {
    /// Drawn over the lines they are about
    Text,
    /// A line each, file:line:column: severity: text [slug], for an editor's list of places, grep or a screen reader
    Plain,
    /// For other programs
    Json,
    /// For code scanning in version control (SARIF 2.1.0)
    Sarif,
}

/// How differences are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ComparisonForm {
    /// Lines for people
    Text,
    /// Markdown
    Markdown,
    /// Comma-separated values, a row a cause and then one a figure and size
    Csv,
    /// For other programs
    Json,
}

/// How tables are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum TableForm {
    /// Aligned columns
    Text,
    /// A Markdown table
    Markdown,
    /// For spreadsheets
    Csv,
    /// For other programs
    Json,
}

impl From<TableForm> for Form {
    fn from(form: TableForm) -> Form {
        match form {
            TableForm::Text => Form::Text,
            TableForm::Markdown => Form::Markdown,
            TableForm::Csv => Form::Csv,
            TableForm::Json => Form::Json,
        }
    }
}
