//! The example of each check's manual page: the layout of the test suite that just fails it.

use crate::backends::svg_file;
use crate::compile::{Compiled, Options, compile};
use crate::registry::Registry;
use crate::source::MemoryWorld;
use crate::views::check_picture;
use include_dir::{Dir, DirEntry, include_dir};

static SUITE: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/tests/suite");

/// An example, compiled.
pub(super) struct Example {
    /// The layout as written, without the marks of the test suite.
    pub text: String,
    compiled: Compiled,
}

impl Example {
    /// The example of a check; `None` if it has none.
    pub fn new(check: &str, registry: &Registry) -> Option<Self> {
        let path = format!("{check}-fails.yaml");
        let text = SUITE.get_file(&path)?.contents_utf8()?;
        let world = files(&SUITE, MemoryWorld::default());
        let compiled = compile(&world, &path, registry, &Options::default());
        compiled.model.is_some().then(|| Self { text: without_marks(text), compiled })
    }

    /// The plan with what the check finds in it, as SVG; `None` if it finds nothing.
    pub fn picture(&self, check: &str) -> Option<Vec<u8>> {
        let sheet = check_picture(self.compiled.model.as_ref()?, &self.compiled.findings, check)?;
        Some(svg_file(&sheet).bytes)
    }
}

fn files(folder: &Dir<'_>, world: MemoryWorld) -> MemoryWorld {
    folder.entries().iter().fold(world, |world, entry| match entry {
        DirEntry::Dir(inner) => files(inner, world),
        DirEntry::File(file) => match (file.path().to_str(), file.contents_utf8()) {
            (Some(path), Some(text)) => world.with(&path.replace('\\', "/"), text),
            _ => world,
        },
    })
}

/// The text without what the suite expects of its lines.
fn without_marks(text: &str) -> String {
    let plain = |line: &str| line.split("# ! ").next().unwrap_or(line).trim_end().to_owned();
    let lines = text.lines().filter(|line| !line.trim_start().starts_with("# ! "));
    lines.map(|line| plain(line) + "\n").collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_check_has_an_example_with_a_picture() {
        let registry = Registry::standard();
        for check in &registry.checks {
            let example = Example::new(check.name(), &registry);
            let picture = example.as_ref().and_then(|example| example.picture(check.name()));
            assert!(
                picture.is_some_and(|svg| svg.starts_with(b"<?xml") || svg.starts_with(b"<svg")),
                "{}",
                check.name()
            );
            assert!(!example.unwrap().text.contains("# !"), "{}", check.name());
        }
    }
}
