//! The command line of Fustian; everything it does is in the library and in `cli`.

mod cli;

/// A garment is many small things, made and put away again at each keystroke, by several threads: with what most systems have
/// for that it takes a fifth of all time.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> std::process::ExitCode {
    cli::run()
}
