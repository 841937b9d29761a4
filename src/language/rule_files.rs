//! Files of house rules, and what a layout has of them.

use super::layout::LayoutDoc;
use super::lower_layout::rules;
use super::node::{Node, NodeValue};
use super::path::{folder_of, follow};
use super::reader::Reader;
use super::rule::{MOST_RULES, RuleDoc};
use super::yaml;
use crate::diagnostic::{Diagnostic, Sink};
use crate::source::{SourceMap, Spanned, World};
use std::sync::Arc;

/// Most files of rules that a layout names.
const MOST_FILES: usize = 16;

/// Adds the rules of the files that a layout names to its own. The files follow the rules of `extends` for leaving the
/// layout's folder.
pub(super) fn read_rules(
    world: &dyn World,
    layout_path: &str,
    allow_outside: bool,
    doc: &mut LayoutDoc,
    (sources, sink): (&mut SourceMap, &mut Sink),
) {
    let mut all = (*doc.rules).clone();
    if let Some(over) = doc.rule_files.get(MOST_FILES) {
        let message = format!("`rule-files` names {} files; at most {MOST_FILES} are allowed", doc.rule_files.len());
        sink.push(Diagnostic::new(over.span, message).help("put their rules into fewer files"));
        return;
    }
    for named in &doc.rule_files {
        let Some(root) = file(world, (layout_path, named), allow_outside, (sources, sink)) else { continue };
        let mut reader = Reader::new(sources, sink);
        let Some(more) = file_of_rules(&mut reader, &root) else { continue };
        let (broken, names) = reader.into_names();
        doc.broken.extend(broken);
        doc.named.extend(names);
        for (name, rule) in more {
            if let Some(known) = all.get(&name) {
                let error = Diagnostic::new(rule.span, format!("the rule `{name}` is there already"));
                sink.push(error.note(known.span, format!("`{name}` as it was read first")).help("rename one of them"));
                continue;
            }
            all.insert(name, rule);
        }
    }
    if let Some((_, over)) = all.get_index(MOST_RULES) {
        let message = format!("the layout has {} rules; at most {MOST_RULES} are allowed", all.len());
        sink.push(Diagnostic::new(over.span, message).label("one too many").help("leave some out"));
        return;
    }
    doc.rules = Arc::new(all);
}

/// The tree of a file of rules.
fn file(
    world: &dyn World,
    (layout_path, named): (&str, &Spanned<String>),
    allow_outside: bool,
    (sources, sink): (&mut SourceMap, &mut Sink),
) -> Option<Node> {
    let from = sources.file(named.span.file).map_or(layout_path, |file| file.name.as_str());
    let path = match follow(folder_of(layout_path), folder_of(from), &named.value, allow_outside) {
        Ok(path) => path,
        Err(why) => {
            let error = Diagnostic::new(named.span, format!("`rule-files` {why}"));
            sink.push(error.help("keep the files of a layout in its folder"));
            return None;
        }
    };
    match world.read(&path) {
        Ok(text) => {
            let file = sources.add(path, text.clone());
            yaml::parse(file, &text, sink)
        }
        Err(why) => {
            let error = Diagnostic::new(named.span, format!("the file of rules `{path}` can't be read: {why}"));
            sink.push(error.help("check its name and folder"));
            None
        }
    }
}

/// A whole file of rules.
pub(super) fn file_of_rules(r: &mut Reader<'_>, root: &Node) -> Option<super::Named<RuleDoc>> {
    let mut f = r.fields(root, "the file of rules")?;
    f.need(r, "house-rules", version);
    let rules = f.section("rules").map(|node| rules(r, node)).unwrap_or_default();
    f.close(r);
    Some(rules)
}

fn version(r: &mut Reader<'_>, node: &Node) -> Option<()> {
    if node.value == NodeValue::Int(1) {
        return Some(());
    }
    r.error(Diagnostic::new(node.span, "this version of house rules is not known").help("write `house-rules: 1`"));
    None
}
