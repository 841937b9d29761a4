//! How a draft shows the modules that are wrong: hatched over all of the room asked for.

use crate::drawing::{Hatch, Item, LayerKind, LineClass, hatch};
use crate::model::Module;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::outline;
use kurbo::Rect;

/// Hatches a module's room on paper, if something is wrong with the module.
pub(in crate::views) fn hatched(module: &Module, room: Rect, canvas: &mut Canvas) {
    if module.misfits.is_empty() {
        return;
    }
    let edge = outline(room);
    let items = vec![Item::line(hatch(&edge, Hatch::Wrong), LineClass::Mark), Item::line(edge, LineClass::Mark)];
    let title = format!("Does not fit: {}", module.name);
    canvas.group(LayerKind::Furniture, &format!("misfit-{}", module.name), &title, items);
}
