//! The plug-ins that a layout names: found in its folder, held against their SHA-256, loaded once in a session.

use crate::base::content::{Content, Digest};
use crate::base::memo::Memo;
use crate::diagnostic::{Diagnostic, Sink};
use crate::language::{Named, PlugInDoc, named_path};
use crate::plug_ins::{Bounds, PlugIn, sha256};
use crate::registry::Registry;
use crate::source::{SourceMap, Spanned, World};
use std::sync::Arc;

/// What plug-ins are loaded with.
pub(super) struct Outside<'a> {
    /// Where their files are.
    pub world: &'a dyn World,
    /// The layout.
    pub path: &'a str,
    /// Whether they may lie outside the layout's folder.
    pub allow_outside: bool,
    /// How far they may go.
    pub bounds: Bounds,
    /// What was loaded before.
    pub memo: &'a Memo,
}

impl Outside<'_> {
    /// A registry with the plug-ins of a layout; what can't be used is an error.
    pub fn joined(
        &self,
        plug_ins: &Named<PlugInDoc>,
        sources: &SourceMap,
        registry: &Registry,
        errors: &mut Sink,
    ) -> Registry {
        let mut all = registry.clone();
        for (name, doc) in plug_ins {
            let joined = self.load(name, &doc.value, sources).and_then(|plug_in| {
                let twice = |why| Diagnostic::new(doc.value.file.span, why).help("use one of them");
                all.with(&plug_in).map_err(twice)
            });
            match joined {
                Ok(joined) => all = joined,
                Err(error) => errors.push(error),
            }
        }
        all
    }

    fn load(&self, name: &str, doc: &PlugInDoc, sources: &SourceMap) -> Result<Arc<PlugIn>, Diagnostic> {
        let PlugInDoc { file, sha256: pinned } = doc;
        let at = |why: String, help: &str| Diagnostic::new(file.span, why).help(help);
        let path = named_path(self.path, file, sources, self.allow_outside);
        let path = path.map_err(|why| at(format!("`file` {why}"), "keep the plug-ins of a layout in its folder"))?;
        let bytes = self.world.bytes(&path, self.bounds.code_bytes());
        let bytes = bytes.map_err(|why| {
            at(format!("the plug-in `{}` can't be read: {why}", file.value), "check the file's name and folder")
        })?;
        let found = sha256(&bytes);
        self.trusted(file, pinned.as_ref(), &found)?;
        let mut digest = Digest::default();
        [file.value.as_str(), &found].iter().for_each(|text| text.feed(&mut digest));
        digest.bytes(format!("{:?}", self.bounds).as_bytes());
        let load = || PlugIn::load(&file.value, &bytes, self.bounds).map(Arc::new);
        let loaded = self.memo.get("plug-in file", digest.key(), load);
        let plug_in = loaded.as_ref().as_ref().map_err(|why| at(why.clone(), "mend the plug-in, or take it out"))?;
        if plug_in.name != name {
            let why = format!("the plug-in in `{}` is called `{}`, and `{name}` stands here", file.value, plug_in.name);
            return Err(at(why, &format!("write `{}:` before it", plug_in.name)));
        }
        Ok(Arc::clone(plug_in))
    }

    /// Refuses a file that nobody has said is the one that is meant.
    fn trusted(&self, file: &Spanned<String>, pinned: Option<&Spanned<String>>, found: &str) -> Result<(), Diagnostic> {
        let pin = format!("boxwright plug-ins pin {}", self.path);
        match pinned {
            Some(pinned) if pinned.value.eq_ignore_ascii_case(found) => Ok(()),
            Some(pinned) => {
                let why =
                    format!("the plug-in `{}` has changed since it was pinned: its SHA-256 is {found}", file.value);
                Err(Diagnostic::new(pinned.span, why).help(format!("if the new file is the one you want, `{pin}`")))
            }
            None => {
                let why =
                    format!("the plug-in `{}` has no `sha256`, so that any file would be run in its place", file.value);
                Err(Diagnostic::new(file.span, why).help(format!("once you trust it, `{pin}` writes it")))
            }
        }
    }
}
