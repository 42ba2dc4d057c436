//! The command line of Fustian; everything it does is in the library and in `cli`.

mod cli;

fn main() -> std::process::ExitCode {
    cli::run()
}
