use std::io;

/// How a command ended that could do its work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Nothing to mend: exit 0.
    Good,
    /// The garment has mistakes, which have been reported: exit 1.
    Mistakes,
    /// What was asked for could not be read, which has been reported: exit 2.
    Unread,
}

/// Why a command could not do its work.
#[derive(Debug)]
pub enum Trouble {
    /// In words for the maker: exit 2.
    Message(String),
    /// Whoever was reading our output went away; nothing is to be said of it.
    NobodyReads,
}

impl Trouble {
    /// Trouble with writing to stdout.
    pub fn of_stdout(error: &io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Trouble::NobodyReads,
            _ => Trouble::Message(format!("the result could not be written: {error}")),
        }
    }
}
