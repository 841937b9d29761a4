//! What a package holds beside the program: manual pages and completions, made from the same definitions as the help.
//!
//! `SHIPPED=folder` writes them there, as `.ci/package` does.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use boxwright::cli::definition;
use boxwright::registry::Registry;
use clap::Command;
use clap_complete::{Shell, generate};
use std::collections::BTreeMap;
use std::path::Path;

/// Where each shell looks for completions, below the folder `share`.
const SHELLS: [(Shell, &str); 3] = [
    (Shell::Bash, "bash-completion/completions/boxwright"),
    (Shell::Fish, "fish/vendor_completions.d/boxwright.fish"),
    (Shell::Zsh, "zsh/vendor-completions/_boxwright"),
];

/// The command and its commands, each under the name of its manual page, with all options that it takes.
fn commands() -> BTreeMap<String, Command> {
    let mut whole = definition(&Registry::standard()).disable_help_subcommand(true);
    whole.build();
    let page = |command: &Command| command.get_display_name().unwrap_or(command.get_name()).to_owned();
    let each = whole.get_subcommands().map(|command| (page(command), command.clone()));
    let mut commands: BTreeMap<String, Command> = each.collect();
    commands.insert(page(&whole), whole);
    commands
}

/// A manual page whose indented lines, the examples, are not filled.
fn as_written(page: &str) -> String {
    let indented = |line: &&str| line.starts_with("  ");
    let lines: Vec<&str> = page.lines().collect();
    let runs = lines.chunk_by(|a, b| indented(a) == indented(b)).map(|run| {
        let text = run.join("\n") + "\n";
        if run.iter().all(indented) { format!(".nf\n{text}.fi\n") } else { text }
    });
    runs.collect()
}

/// All files, by their paths below the folder `share`.
fn files() -> BTreeMap<String, String> {
    let mut files = BTreeMap::new();
    for (name, command) in commands() {
        let source = format!("boxwright {}", env!("CARGO_PKG_VERSION"));
        let mut bytes = Vec::new();
        clap_mangen::Man::new(command).title(name.to_uppercase()).source(source).render(&mut bytes).unwrap();
        files.insert(format!("man/man1/{name}.1"), as_written(&String::from_utf8(bytes).unwrap()));
    }
    for (shell, path) in SHELLS {
        let mut bytes = Vec::new();
        generate(shell, &mut definition(&Registry::standard()), "boxwright", &mut bytes);
        files.insert(path.to_owned(), String::from_utf8(bytes).unwrap());
    }
    files
}

/// Text of a manual page as it is read: without escapes of the roff language.
fn plain(page: &str) -> String {
    page.replace("\\-", "-").replace("\\fB", "").replace("\\fI", "").replace("\\fR", "")
}

#[test]
fn every_command_and_option_is_in_the_manual_and_the_completions() {
    let files = files();
    let commands = commands();
    assert!(commands.len() > 5, "{:?}", commands.keys());
    for (name, command) in commands {
        let page = plain(&files[&format!("man/man1/{name}.1")]);
        let options = command.get_arguments().filter_map(|option| option.get_long()).map(|long| format!("--{long}"));
        let words: Vec<String> =
            options.chain(command.get_subcommands().map(|one| one.get_name().to_owned())).collect();
        assert!(!words.is_empty(), "{name} has no option");
        for word in &words {
            assert!(page.contains(word.as_str()), "the page {name} lacks {word}");
            for (_, path) in SHELLS {
                // Fish writes options without their hyphens.
                let bare = word.trim_start_matches('-');
                assert!(files[path].contains(bare), "{path} lacks {word} of {name}");
            }
        }
    }
    let Ok(folder) = std::env::var("SHIPPED") else { return };
    for (path, text) in files {
        let path = Path::new(&folder).join(path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }
}
