//! What `grammar/EDITORS.md` tells to write into an editor's settings, in the editors themselves where they are found.

use crate::workbench::{example, out};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// The settings of an editor: the text in the page's fence of that language.
fn settings(language: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/EDITORS.md");
    let page = fs::read_to_string(path).expect("EDITORS.md");
    let (_, rest) = page.split_once(&format!("```{language}\n")).expect("settings");
    rest.split_once("```").expect("their end").0.to_owned()
}

/// A folder with a garment whose line 30 is wrong in every size.
fn workshop() -> (TempDir, PathBuf) {
    let folder = TempDir::new().expect("a folder");
    let path = folder.path().join("smock.fus");
    fs::write(&path, example("mistakes/alter-one-side.fus")).expect("a file");
    (folder, path)
}

/// An editor that finds this build of the program; none where it is not there or says no to what it must have.
fn editor(program: &str, has: &[&str], needed: fn(&str) -> bool) -> Option<Command> {
    let output = Command::new(program).args(has).output().ok()?;
    if !output.status.success() || !needed(&out(&output)) {
        return None;
    }
    let here = Path::new(env!("CARGO_BIN_EXE_fustian")).parent().expect("a folder");
    let path = std::env::var("PATH").unwrap_or_default();
    let mut command = Command::new(program);
    command.env("PATH", format!("{}:{path}", here.display()));
    Some(command)
}

/// The first version that has `vim.lsp.config`.
fn neovim_011(version: &str) -> bool {
    let number =
        version.lines().next().and_then(|line| line.rsplit_once('v')).map_or("", |(_, number)| number);
    let parts: Vec<u32> = number.split('.').map_while(|part| part.parse().ok()).collect();
    parts >= vec![0, 11]
}

#[test]
fn neovim_knows_notes_and_colours_and_tells_mistakes() {
    let Some(mut neovim) = editor("nvim", &["--version"], neovim_011) else { return };
    let (folder, garment) = workshop();
    let config = folder.path().join("config/nvim");
    fs::create_dir_all(config.join("parser")).expect("a folder");
    fs::create_dir_all(config.join("queries/fustian")).expect("a folder");
    fs::write(config.join("init.lua"), settings("lua")).expect("written");
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/tree-sitter");
    let query = "queries/highlights.scm";
    fs::copy(grammar.join(query), config.join("queries/fustian/highlights.scm")).expect("a copy");
    let mut compiler = Command::new("cc");
    compiler.args(["-shared", "-fPIC", "-I"]).arg(grammar.join("src"));
    compiler.args(["parser.c", "scanner.c"].map(|name| grammar.join("src").join(name)));
    let compiled = compiler.arg("-o").arg(config.join("parser/fustian.so")).status();
    let compiled = compiled.is_ok_and(|status| status.success());

    let told = folder.path().join("told");
    let ask = format!(
        "local told = {{ vim.bo.filetype, vim.bo.commentstring }}\n\
         vim.wait(60000, function()\n\
           return #vim.diagnostic.get(0, {{ severity = vim.diagnostic.severity.ERROR }}) > 0\n\
         end)\n\
         for _, one in ipairs(vim.diagnostic.get(0, {{ severity = vim.diagnostic.severity.ERROR }})) do\n\
           table.insert(told, one.lnum + 1 .. \" \" .. one.code)\n\
         end\n\
         local captures = {{}}\n\
         if vim.treesitter.highlighter.active[vim.api.nvim_get_current_buf()] then\n\
           vim.treesitter.get_parser(0):parse()\n\
           captures = vim.treesitter.get_captures_at_pos(0, 29, 0)\n\
         end\n\
         table.insert(told, captures[1] and captures[1].capture or \"no colours\")\n\
         vim.api.nvim_win_set_cursor(0, {{ 30, 0 }})\n\
         vim.cmd(\"normal gcc\")\n\
         table.insert(told, vim.api.nvim_get_current_line())\n\
         vim.fn.writefile(told, [[{}]])\n\
         vim.cmd(\"qa!\")\n",
        told.display()
    );
    let script = folder.path().join("ask.lua");
    fs::write(&script, ask).expect("written");
    for (variable, name) in
        [("XDG_CONFIG_HOME", "config"), ("XDG_DATA_HOME", "data"), ("XDG_STATE_HOME", "state")]
    {
        neovim.env(variable, folder.path().join(name));
    }
    let output = neovim
        .arg("--headless")
        .arg(&garment)
        .args(["-c", &format!("luafile {}", script.display())])
        .output();
    let output = output.expect("neovim runs");
    let told =
        fs::read_to_string(&told).unwrap_or_else(|_| String::from_utf8_lossy(&output.stderr).into_owned());
    let colour = if compiled { "keyword" } else { "no colours" };
    assert_eq!(
        told.lines().collect::<Vec<_>>(),
        ["fustian", "# %s", "30 alter/one-side", colour, "# lengthen front at waist by 16"]
    );
}

#[test]
fn emacs_knows_notes_and_tells_mistakes() {
    let has = ["-q", "--batch", "--eval", "(require 'eglot)"];
    let Some(mut emacs) = editor("emacs", &has, |_| true) else { return };
    let (folder, garment) = workshop();
    let init = folder.path().join("init.el");
    fs::write(&init, settings("elisp")).expect("written");
    // Without a window nobody types: what waits for the end of a command is called by hand, and the clock of the
    // looking anew as well.
    let ask = format!(
        "(progn (find-file \"{}\") (run-hooks 'post-command-hook)\n\
         (let ((times 0))\n\
           (while (and (< times 300) (null (flymake-diagnostics)))\n\
             (accept-process-output nil 0.2)\n\
             (when (bound-and-true-p flymake-mode) (flymake-start))\n\
             (setq times (1+ times))))\n\
         (princ (format \"%s\\n\" major-mode))\n\
         (dolist (one (flymake-diagnostics))\n\
           (when (string-match \"alter/one-side\" (flymake-diagnostic-text one))\n\
             (princ (format \"%d alter/one-side\\n\" (line-number-at-pos (flymake-diagnostic-beg one))))))\n\
         (font-lock-ensure)\n\
         (princ (format \"%s\\n\" (get-text-property (point-min) 'face)))\n\
         (goto-char (point-min)) (forward-line 29) (comment-line 1) (forward-line -1)\n\
         (princ (buffer-substring (line-beginning-position) (line-end-position))))\n",
        garment.display()
    );
    let output = emacs
        .args(["-q", "--batch", "-f", "package-initialize", "-l"])
        .arg(&init)
        .args(["--eval", &ask])
        .output()
        .expect("emacs runs");
    let told = out(&output);
    assert_eq!(
        told.lines().collect::<Vec<_>>(),
        ["fustian-mode", "30 alter/one-side", "font-lock-comment-face", "# lengthen front at waist by 16"],
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
}
