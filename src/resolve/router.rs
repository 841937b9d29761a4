//! The router and its tools.

use super::names::Resolver;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Failed;
use crate::language::{ROUTER, RouterDoc, TOOL, TOOL_NUMBER, ToolDoc};
use crate::model::{Router, RouterFiles, Tool, ToolUse};
use crate::source::Span;

impl Resolver<'_> {
    /// The router; none where the layout has none, or what is written of it has mistakes.
    pub fn router(&mut self) -> Option<Router> {
        let doc = self.doc.router.as_ref()?;
        self.one_router(doc).ok()
    }

    fn one_router(&mut self, doc: &RouterDoc) -> Result<Router, Failed> {
        let [safe, spoil, tab_length, tab_thickness, tab_every] = self.figures(&ROUTER, &doc.figures)?;
        let mut tools: Vec<Tool> = Vec::new();
        let mut failed = false;
        for (place, (name, entry)) in doc.tools.iter().enumerate() {
            match self.tool((place, name), &entry.value, entry.span) {
                Ok(tool) => tools.push(tool),
                Err(Failed) => failed = true,
            }
        }
        for (at, tool) in tools.iter().enumerate() {
            if let Some(other) = tools.iter().take(at).find(|other| other.number == tool.number) {
                let message = format!("the tools `{}` and `{}` are both number {}", other.name, tool.name, tool.number);
                self.error(Diagnostic::new(tool.span, message).help("give one of them another `number`"));
                failed = true;
            }
        }
        if failed {
            return Err(Failed);
        }
        Ok(Router {
            tools,
            files: doc.files.as_ref().map_or(RouterFiles::Sheets, |files| files.value),
            millimetres: doc.millimetres.as_ref().map(|word| word.value.clone()),
            change: doc.change.as_ref().map(|word| word.value.clone()),
            pilots: doc.pilots.as_ref().is_some_and(|pilots| pilots.value),
            safe,
            spoil,
            tab_length,
            tab_thickness,
            tab_every,
            span: doc.span,
        })
    }

    fn tool(&mut self, (place, name): (usize, &str), doc: &ToolDoc, span: Span) -> Result<Tool, Failed> {
        let [diameter, speed, feed, plunge, pass, deep] = self.figures(&TOOL, &doc.figures)?;
        let number = match &doc.number {
            None => place as f64 + 1.0,
            Some(number) => self.within(number, TOOL_NUMBER, "number", "")?,
        };
        if number.fract() != 0.0 {
            let error = Diagnostic::new(span, format!("the number of the tool `{name}` is {number}"));
            return Err(self.error(error.help("write a whole number")));
        }
        if feed <= 0.0 && doc.uses.iter().any(|of| *of != ToolUse::Drill) {
            let error = Diagnostic::new(span, format!("the tool `{name}` cuts sideways and has no `feed`"));
            return Err(self.error(error.help("write `feed: 3000`, in mm a minute, or `for: [drill]`")));
        }
        // A whole number of 1 to 999, checked above.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let number = number as u32;
        Ok(Tool {
            name: name.to_owned(),
            number,
            uses: doc.uses.clone(),
            diameter,
            speed,
            feed,
            plunge,
            pass,
            deep,
            span,
        })
    }
}
