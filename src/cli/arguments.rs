use super::choices::{
    ComparisonForm, EffortName, Exchange, Fold, Kind, LanguageName, LayForm, LinesName, MessageForm,
    PaperName, SchemaOf, SheetPaperName, SizesFromName, TableForm, UnitName, With,
};
use clap::{ArgGroup, Args, Parser, Subcommand};
use fustian::sheet::Language;
use std::path::PathBuf;

/// Garments as plain text: worked out for every size, and checked that they can be cut and sewn.
#[derive(Debug, Parser)]
#[command(name = "fustian", version, arg_required_else_help = true, after_help = EXIT_CODES)]
pub struct Arguments {
    #[command(subcommand)]
    pub command: Command,
}

const EXIT_CODES: &str = "\
Results go to standard output, messages to standard error.
Ends with 0 when there is nothing to fix, 1 when the garment has mistakes, and 2 when the command
could not be done.";

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check garments and report every mistake
    Check(Check),
    /// Work a garment out and write everything about it as JSON
    Resolve(Resolve),
    /// Show the pieces: how each is cut and how large it is in every size
    Pieces(Table),
    /// Show what to cut from which fabric
    Cutlist(Table),
    /// Draw the pieces at true scale, with stitching and cutting lines, as SVG
    Draw(Draw),
    /// Print the pieces at true scale on paper, as a PDF of pages to stick together
    Print(Print),
    /// Write the sheet to sew by: sizes, what to buy, pieces, lays and every step, as one HTML page
    Sheet(Sheet),
    /// Show a garment in a browser while its text is being written
    Preview(Preview),
    /// Write the pieces for other programs, one block a piece and size
    Export(Export),
    /// Lay the pieces on their cloths: how much cloth it takes, and where each piece lies
    Lay(Lay),
    /// List what to buy: cloth, notions and thread, and what they cost
    Materials(Materials),
    /// Show the order of work: what is said, and what is worked out
    Steps(StepsOfWork),
    /// Format files in the one canonical layout
    Tidy(Tidy),
    /// Show what differs between two garments, or two versions of one
    Compare(Compare),
    /// Write a variation and all that it is made of as one file
    Pack(Pack),
    /// Bring in a pattern that is already drawn, as a garment to go on with
    Bring(Bring),
    /// Write a garment with all that is said in one line, bands, facings and plackets, written out
    Expand(Expand),
    /// List every file that garments hang on: bases, libraries and what is combined
    Inputs(Inputs),
    /// Write a small file to begin with
    New(New),
    /// Write into a file which content of its base and libraries it is made for
    Pin(Pin),
    /// Explain why a kind of mistake matters
    Explain(Explain),
    /// Help an editor: mistakes as you type, measures where you point (a language server)
    Editor(Editor),
    /// Print the JSON Schema of what `resolve`, or another command, writes
    Schema(Schema),
    /// Print what a shell needs to complete commands
    Completions(Completions),
    /// Print the manual page of fustian, or of one command
    Manual(Manual),
}

#[derive(Debug, Args)]
pub struct Check {
    /// The garments' files; `-` reads what is piped in
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// How the messages are written
    #[arg(long, value_enum, ignore_case = true, default_value_t = MessageForm::Text, value_name = "FORM")]
    pub format: MessageForm,
    /// Look again whenever one of the files is saved, until stopped
    #[arg(long)]
    pub watch: bool,
    /// Leave out advice on what is usual in the trade
    #[arg(long)]
    pub quiet: bool,
    /// Show what becomes of every edge, and its allowance, in the smallest size
    #[arg(long, conflicts_with = "format")]
    pub fates: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Resolve {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Only this size; may be given several times
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// Write to this file instead of standard output; it is replaced only once all is written
    #[arg(short, long, value_name = "PATH")]
    pub output: Option<PathBuf>,
    /// Write the files that the output is made of to this file, as make and ninja read it
    #[arg(long, value_name = "PATH", requires = "output")]
    pub depfile: Option<PathBuf>,
    /// Add this to every size, with commas between
    #[arg(long, value_enum, ignore_case = true, value_name = "WHAT", value_delimiter = ',')]
    pub with: Vec<With>,
    /// Tell cloth at these widths beside its own, with commas between, such as 115,150
    #[arg(long, value_name = "WIDTHS", value_delimiter = ',', requires = "with")]
    pub widths: Vec<String>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Table {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// How the table is written
    #[arg(long, value_enum, ignore_case = true, default_value_t = TableForm::Text, value_name = "FORM")]
    pub format: TableForm,
    /// Only this size; may be given several times
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// Where bases and libraries are that do not lie beside FILE
    #[arg(long, value_name = "FOLDER")]
    pub bases: Option<PathBuf>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Draw {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write to this file; it is replaced only once all is written
    #[arg(short, long, value_name = "PATH")]
    pub output: PathBuf,
    /// Only this size; may be given several times. Several sizes are drawn in one another
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// Only these pieces, with commas between: front, or outer.front for one layer's
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub pieces: Vec<String>,
    /// Which outlines are drawn: where nothing is said both of one size, and of several in one another where they are cut
    #[arg(long, value_enum, ignore_case = true, value_name = "WHICH")]
    pub lines: Option<LinesName>,
    /// Write words as text that can be marked and searched, in the letters of whoever looks, and not as outlines
    #[arg(long)]
    pub text: bool,
    /// Draw what can be shown of a draft that still has mistakes, and list them on the sheet
    #[arg(long)]
    pub unfinished: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Print {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write to this file; it is replaced only once all is written
    #[arg(short, long, value_name = "PATH")]
    pub output: PathBuf,
    /// The paper that it is printed on
    #[arg(long, value_enum, ignore_case = true, default_value_t = PaperName::A4, value_name = "NAME")]
    pub paper: PaperName,
    /// One page so wide and as long as it has to be, for a roll of paper or a projector, instead of many: 90cm, 36in
    #[arg(long, value_name = "WIDTH", conflicts_with = "paper")]
    pub wide: Option<String>,
    /// White on black, for a projector
    #[arg(long, requires = "wide")]
    pub dark: bool,
    /// A grid under the pieces, of 10 cm, or of 1 in for a garment in inches
    #[arg(long, requires = "wide")]
    pub grid: bool,
    /// Only this size; may be given several times. Several sizes are printed in one another, each
    /// as a layer that a viewer can hide
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// Leave the sizes of --size where they lie among all sizes: of the pages of all of them those are printed that these
    /// sizes need, under the names that they have there
    #[arg(long, requires = "sizes")]
    pub nest: bool,
    /// Only these pieces, with commas between: front, or outer.front for one layer's
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub pieces: Vec<String>,
    /// Which outlines are printed: where nothing is said both of one size, and of several in one another where they are
    /// cut. With both of several sizes each is a layer of its own
    #[arg(long, value_enum, ignore_case = true, value_name = "WHICH")]
    pub lines: Option<LinesName>,
    /// Print parts that several layers cut alike once for each layer
    #[arg(long)]
    pub every_part: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Clone, Debug, Args)]
pub struct Preview {
    /// The garment's file
    #[arg(value_name = "FILE")]
    pub file: String,
    /// The port that the page is served on, to this machine alone [default: one that is free]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    pub port: Option<u16>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Sheet {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write to this file; it is replaced only once all is written
    #[arg(short, long, value_name = "PATH")]
    pub output: PathBuf,
    /// Only this size; may be given several times
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// The paper that it is made to be printed on
    #[arg(long, value_enum, default_value_t = SheetPaperName::A4, value_name = "NAME")]
    pub paper: SheetPaperName,
    /// The language that it is written in; what the maker says stays as it is
    #[arg(long, value_enum, default_value_t = LanguageName(Language::English), value_name = "NAME")]
    pub language: LanguageName,
    /// Tell cloth at these widths beside its own, with commas between [default: 115 cm and 150 cm]
    #[arg(long, value_name = "WIDTHS", value_delimiter = ',', conflicts_with = "no_lays")]
    pub widths: Vec<String>,
    /// Leave out how the pieces lie on the cloth and how much of it is bought, which takes some seconds to find
    #[arg(long)]
    pub no_lays: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Export {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// In which form
    #[arg(long, value_enum, ignore_case = true, value_name = "FORM")]
    pub to: Exchange,
    /// Write to this file; it is replaced only once all is written
    #[arg(short, long, value_name = "PATH")]
    pub output: PathBuf,
    /// Only this size; may be given several times
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    /// Only these pieces, with commas between: front, or outer.front for one layer's
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub pieces: Vec<String>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Lay {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Only this cloth
    #[arg(long, value_name = "NAME")]
    pub fabric: Option<String>,
    /// Only these sizes, cut together in one lay; without it each size is laid by itself
    #[arg(long = "size", value_name = "NAMES", value_delimiter = ',')]
    pub sizes: Vec<String>,
    /// How the cloth lies [default: whichever takes less cloth]
    #[arg(long, value_enum, ignore_case = true, value_name = "WAY")]
    pub fold: Option<Fold>,
    /// Least distance between pieces, such as 5mm [default: 0]
    #[arg(long, value_name = "LENGTH")]
    pub space: Option<String>,
    /// Begin the search elsewhere: the same number gives the same lay
    #[arg(long, default_value_t = 1, value_name = "N")]
    pub seed: u64,
    /// How much is searched, whatever the machine
    #[arg(long, value_enum, ignore_case = true, default_value_t = EffortName::Quick, value_name = "HOW")]
    pub effort: EffortName,
    /// Search on for so long, all cloths together; an interrupt ends it with the best lays so far, a second one at once
    #[arg(long, value_name = "N", conflicts_with = "effort", value_parser = seconds)]
    pub seconds: Option<f64>,
    /// How the lays are written
    #[arg(long, value_enum, ignore_case = true, default_value_t = LayForm::Text, value_name = "FORM")]
    pub format: LayForm,
    /// Draw the lays into this file too
    #[arg(long, value_name = "PATH")]
    pub svg: Option<PathBuf>,
    #[command(flatten)]
    pub folder: Folder,
}

/// A time to search, in seconds.
fn seconds(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(seconds) if seconds > 0.0 && seconds <= 604_800.0 => Ok(seconds),
        _ => Err("write a number of seconds above 0, at most a week's".to_owned()),
    }
}

#[derive(Debug, Args)]
pub struct Materials {
    #[command(flatten)]
    pub table: Table,
    /// The cloth as if it had these widths, with commas between, such as 90,115,150
    #[arg(long, value_name = "WIDTHS", value_delimiter = ',')]
    pub widths: Vec<String>,
}

#[derive(Debug, Args)]
pub struct StepsOfWork {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write the steps into FILE, which is laid out in the canonical way
    #[arg(long, conflicts_with = "format")]
    pub write: bool,
    /// How the table is written
    #[arg(long, value_enum, ignore_case = true, default_value_t = TableForm::Text, value_name = "FORM")]
    pub format: TableForm,
    /// Where bases and libraries are that do not lie beside FILE
    #[arg(long, value_name = "FOLDER")]
    pub bases: Option<PathBuf>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Schema {
    /// Of which command's result
    #[arg(value_enum, ignore_case = true, default_value_t = SchemaOf::Resolve, value_name = "COMMAND")]
    pub of: SchemaOf,
}

#[derive(Debug, Args)]
pub struct Tidy {
    /// The files; `-` reads what is piped in and writes it to standard output
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Write nothing; end with 1 when a file would change
    #[arg(long)]
    pub check: bool,
}

#[derive(Debug, Args)]
pub struct Compare {
    /// The garment as it was
    #[arg(value_name = "OLD")]
    pub old: String,
    /// The garment as it is
    #[arg(value_name = "NEW")]
    pub new: String,
    /// How the differences are written
    #[arg(long, value_enum, ignore_case = true, default_value_t = ComparisonForm::Text, value_name = "FORM")]
    pub format: ComparisonForm,
    /// Every edge, seam and line of the cut list that comes out differently, and not only how many there are
    #[arg(long)]
    pub all: bool,
    /// What is bought too: cloth, thread and their cost, which takes some seconds to find
    #[arg(long)]
    pub materials: bool,
    /// Where bases and libraries are that do not lie beside OLD or NEW
    #[arg(long, value_name = "FOLDER")]
    pub bases: Option<PathBuf>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Pack {
    /// The garment's file
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write to this file instead of standard output; it is replaced only once all is written
    #[arg(short, long, value_name = "ONE.fus")]
    pub output: Option<PathBuf>,
    /// Replace the garment's own file
    #[arg(long, requires = "output")]
    pub force: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("written").args(["output", "look"]).multiple(true))]
pub struct Bring {
    /// The drawings: SVG and DXF files, and tables of points in CSV; `-` reads what is piped in
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Write to this file instead of standard output; a file that is there is left alone
    #[arg(short, long, value_name = "NAME.fus")]
    pub output: Option<PathBuf>,
    /// Replace a file that is there; never a drawing
    #[arg(long, requires = "written")]
    pub force: bool,
    /// Draw what was understood into this file too, every edge with its name; only a picture of this kind is replaced
    #[arg(long, value_name = "FILE.svg")]
    pub look: Option<PathBuf>,
    /// What tells sizes apart [default: layers that are called like sizes, or else names that end with them]
    #[arg(long, value_enum, ignore_case = true, value_name = "WHAT")]
    pub sizes_from: Option<SizesFromName>,
    /// How long a length is in the drawing, in the drawing's own units, such as 10cm=378
    #[arg(long, value_name = "LENGTH=N")]
    pub scale: Option<String>,
    /// The outlines hold this allowance: they are where the cloth is cut; with its unit, such as 1cm, unless --units says it
    #[arg(long, value_name = "LENGTH")]
    pub allowance: Option<String>,
    /// From how large a turn on a point is a corner, in degrees
    #[arg(long, value_name = "ANGLE", default_value = "25", value_parser = degrees)]
    pub corner: f64,
    /// How far a curve may lie from the points that it is fitted to [default: 0.2mm]
    #[arg(long, value_name = "LENGTH")]
    pub tolerance: Option<String>,
    /// In which unit the text is written, bare lengths here, and the points of a table that does not say it
    /// [default: inches if the drawing is in them; a table's points are millimetres]
    #[arg(long, value_enum, ignore_case = true, value_name = "UNIT")]
    pub units: Option<UnitName>,
    /// What the edges of a piece are called, in order; may be given several times
    #[arg(long, value_name = "PIECE:EDGE,EDGE")]
    pub names: Vec<String>,
}

/// An angle of a corner, in degrees.
fn degrees(text: &str) -> Result<f64, String> {
    let number = text.trim_end_matches('°').trim_end_matches("deg").trim();
    match number.parse::<f64>() {
        Ok(angle) if angle > 0.0 && angle <= 170.0 => Ok(angle),
        _ => Err("write an angle above 0, at most 170°".to_owned()),
    }
}

#[derive(Debug, Args)]
pub struct Expand {
    /// The garment's file; `-` reads it from standard input
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Write to this file instead of standard output; it is replaced only once all is written
    #[arg(short, long, value_name = "LONG.fus")]
    pub output: Option<PathBuf>,
    /// Replace the garment's own file
    #[arg(long, requires = "output")]
    pub force: bool,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Inputs {
    /// The garments' files; `-` reads what is piped in
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// How the list is written: a line a file, or for other programs
    #[arg(long, value_enum, default_value_t = LayForm::Text, value_name = "FORM")]
    pub format: LayForm,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct New {
    /// The file's name; a file that is there is left alone
    #[arg(value_name = "NAME")]
    pub name: PathBuf,
    /// What to begin with: a draft that compiles
    #[arg(long, value_name = "KIND", value_enum, default_value_t = Kind::Apron)]
    pub kind: Kind,
}

#[derive(Debug, Args)]
pub struct Pin {
    /// The file that names a base or libraries
    #[arg(value_name = "FILE")]
    pub file: String,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Completions {
    /// The shell
    #[arg(value_enum, ignore_case = true, value_name = "SHELL")]
    pub shell: clap_complete::Shell,
}

#[derive(Debug, Args)]
pub struct Manual {
    /// One command
    #[arg(value_name = "COMMAND")]
    pub command: Option<String>,
}

#[derive(Debug, Args)]
pub struct Explain {
    /// The words above a message, such as seam/unequal; without them, all are listed
    #[arg(value_name = "SLUG")]
    pub slug: Option<String>,
}

#[derive(Debug, Args)]
pub struct Editor {
    /// Speak over standard input and output, as it does anyhow: many editors say so
    #[arg(long, hide = true)]
    pub stdio: bool,
}

#[derive(Clone, Debug, Args)]
pub struct Folder {
    /// The folder that bases and libraries must lie in [default: the folder of FILE]
    #[arg(long, value_name = "PATH")]
    pub root: Option<PathBuf>,
}
