//! `boxwright desk`: the picture beside the text, in a browser.

use super::arguments::Desk;
use super::console::Console;
use super::outcome::Outcome;
use crate::compile::Options;
use crate::registry::Registry;
use std::io;

/// Serves the page until the process is ended.
#[cfg(feature = "desk")]
pub(super) fn run(desk: &Desk, registry: &Registry, options: Options, console: &mut Console) -> io::Result<Outcome> {
    if desk.files.iter().any(|file| file == super::disk::STDIN) {
        console.complain("a desk follows files; standard input can't be followed");
        return Ok(Outcome::Broken);
    }
    let layouts = desk.files.iter().map(|file| layout(file, options.allow_outside)).collect();
    let setup = crate::desk::Setup { layouts, registry: registry.clone(), options, port: desk.port };
    match crate::desk::Desk::start(setup) {
        Ok(served) => {
            let address = served.address();
            console.report(&format!("the desk is at {address}\n"))?;
            if !desk.no_browser && !opened(&address) {
                console.remark("no browser could be opened; open the address in one\n");
            }
            served.serve();
            Ok(Outcome::Clean)
        }
        Err(why) => {
            console.complain(&why);
            Ok(Outcome::Broken)
        }
    }
}

#[cfg(feature = "desk")]
fn layout(file: &str, allow_outside: bool) -> crate::desk::Layout {
    let named = file.to_owned();
    let open = move || -> Box<dyn crate::desk::Reading> { Box::new(super::disk::Disk::new(&named, allow_outside)) };
    crate::desk::Layout { path: super::disk::layout_path(file), open: Box::new(open) }
}

/// Whether the system's browser took the address.
#[cfg(feature = "desk")]
fn opened(address: &str) -> bool {
    use std::process::{Command, Stdio};
    let mut command = match std::env::consts::OS {
        "windows" => Command::new("explorer"),
        "macos" => Command::new("open"),
        _ => Command::new("xdg-open"),
    };
    command.arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().is_ok()
}

/// Says how to get it.
#[cfg(not(feature = "desk"))]
pub(super) fn run(_: &Desk, _: &Registry, _: Options, console: &mut Console) -> io::Result<Outcome> {
    console.complain("this boxwright was built without its desk; build it with `--features desk`");
    Ok(Outcome::Broken)
}
