use clap::{Args, Parser, Subcommand, ValueEnum};
use fustian::emit::Form;
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
Ends with 0 when there is nothing to mend, 1 when the garment has mistakes, and 2 when the command
could not be done.";

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Look garments over and tell every mistake
    Check(Check),
    /// Work a garment out and write everything about it as JSON
    Resolve(Resolve),
    /// Show the pieces: how each is cut and how large it is in every size
    Pieces(Table),
    /// Show what to cut from which fabric
    Cutlist(Table),
    /// Tell why the trade minds a kind of mistake
    Explain(Explain),
    /// Print the JSON Schema of what `resolve` writes
    Schema,
}

#[derive(Debug, Args)]
pub struct Check {
    /// The garments' files; `-` reads what is piped in
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// How the messages are written
    #[arg(long, value_enum, default_value_t = MessageForm::Text, value_name = "FORM")]
    pub format: MessageForm,
    /// Leave out advice on habits of the trade
    #[arg(long)]
    pub quiet: bool,
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
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Table {
    /// The garment's file; `-` reads what is piped in
    #[arg(value_name = "FILE")]
    pub file: String,
    /// How the table is written
    #[arg(long, value_enum, default_value_t = TableForm::Text, value_name = "FORM")]
    pub format: TableForm,
    /// Only this size; may be given several times
    #[arg(long = "size", value_name = "NAME")]
    pub sizes: Vec<String>,
    #[command(flatten)]
    pub folder: Folder,
}

#[derive(Debug, Args)]
pub struct Explain {
    /// The words above a message, such as seam/unequal; without them, all are listed
    #[arg(value_name = "SLUG")]
    pub slug: Option<String>,
}

#[derive(Debug, Args)]
pub struct Folder {
    /// The folder that bases and libraries must lie in [default: the folder of FILE]
    #[arg(long, value_name = "PATH")]
    pub root: Option<PathBuf>,
}

/// How messages are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum MessageForm {
    /// Drawn over the lines they are about
    Text,
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
