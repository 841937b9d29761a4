//! Which tool does what.

use crate::base::number::trimmed;
use crate::model::{Router, Tool, ToolUse};

/// A tool fits a bore that differs by less than this from it, mm.
const SAME: f64 = 0.05;

/// The tool for a bore, and whether it goes straight down.
pub(super) fn for_bore<'r>(
    router: &'r Router,
    (diameter, depth): (f64, f64),
    of: &str,
) -> Result<(&'r Tool, bool), String> {
    let reaches = |tool: &&Tool| tool.deep >= depth;
    let drill = |tool: &&Tool| tool.uses.contains(&ToolUse::Drill) && (tool.diameter - diameter).abs() < SAME;
    if let Some(tool) = router.tools.iter().find(|tool| drill(tool) && reaches(tool)) {
        return Ok((tool, true));
    }
    let mills = |tool: &&Tool| tool.uses.contains(&ToolUse::Bores) && tool.diameter < diameter - SAME;
    match widest(router, |tool| mills(tool) && reaches(tool)) {
        Some(tool) => Ok((tool, false)),
        None => Err(format!(
            "no tool bores {} mm wide and {} mm deep, as {of} wants; under `router` give `tools` a drill of that diameter \
             (`for: [drill]`) or a narrower cutter (`for: [bores]`) that is `deep` enough",
            trimmed(diameter, 2),
            trimmed(depth, 2)
        )),
    }
}

/// The widest tool for a groove.
pub(super) fn for_groove<'r>(router: &'r Router, (width, depth): (f64, f64), of: &str) -> Result<&'r Tool, String> {
    let fits =
        |tool: &&Tool| tool.uses.contains(&ToolUse::Grooves) && tool.diameter <= width + 0.001 && tool.deep >= depth;
    widest(router, |tool| fits(tool)).ok_or_else(|| {
        format!(
            "no tool cuts a groove {} mm wide and {} mm deep, as {of} wants; under `router` give `tools` a cutter `for: [grooves]` \
             that is no wider and `deep` enough",
            trimmed(width, 2),
            trimmed(depth, 2)
        )
    })
}

/// The first tool that may cut through for a use.
pub(super) fn through<'r>(router: &'r Router, to: ToolUse, depth: f64, of: &str) -> Result<&'r Tool, String> {
    use crate::model::Word;
    let fits = |tool: &&Tool| tool.uses.contains(&to) && tool.deep >= depth;
    router.tools.iter().find(fits).ok_or_else(|| {
        format!(
            "no tool is `for: [{}]` and cuts {} mm deep, as {of} wants; under `router` give `tools` one that does",
            to.name(),
            trimmed(depth, 2)
        )
    })
}

/// The widest tool that fits; the first of equal ones.
fn widest(router: &Router, fits: impl Fn(&&Tool) -> bool) -> Option<&Tool> {
    let mut best: Option<&Tool> = None;
    for tool in router.tools.iter().filter(fits) {
        if best.is_none_or(|known| tool.diameter > known.diameter) {
            best = Some(tool);
        }
    }
    best
}
