//! The program on a terminal, which is had through util-linux's `script`.
//!
//! Where that is not installed such a test has nothing to do, unless `FUSTIAN_TERMINAL_REQUIRED` is set.

use std::path::Path;
use std::process::{Command, Stdio};

/// What the program writes on a terminal, run with those arguments and variables of the environment; none where no terminal
/// can be had and none is required.
pub fn on_a_terminal(folder: &Path, arguments: &str, variables: &[(&str, &str)]) -> Option<String> {
    let has_script = Command::new("script").arg("--version").stdout(Stdio::null()).status();
    if !has_script.is_ok_and(|status| status.success()) {
        let is_required =
            std::env::var_os("FUSTIAN_TERMINAL_REQUIRED").is_some_and(|value| !value.is_empty());
        assert!(!is_required, "a terminal is required here, and `script` is not installed");
        eprintln!("not checked: script is not installed");
        return None;
    }
    let typed = format!("{} {arguments}", env!("CARGO_BIN_EXE_fustian"));
    let output = Command::new("script")
        .args(["-q", "-e", "-c", &typed, "/dev/null"])
        .current_dir(folder)
        .envs(variables.iter().copied())
        .stdin(Stdio::null())
        .output()
        .expect("script runs");
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}
