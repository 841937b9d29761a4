//! Tanks, things beside the furniture, and load cases.

use super::groups::three;
use super::places::place;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Expr;
use crate::language::node::Node;
use crate::language::place::PlaceDoc;
use crate::language::reader::Reader;
use crate::language::vehicle::{LoadCaseDoc, LoadDoc};
use crate::model::{Holds, LoadKind};

/// One tank or thing.
pub(super) fn load(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<LoadDoc> {
    let mut f = r.fields(node, &format!("load `{name}`"))?;
    let at = f.opt(r, "at", three);
    let place_span = f.key_span("place");
    let place = f.opt(r, "place", place).map(|place| PlaceDoc { span: place_span, ..place });
    let (has_at, has_place) = (f.has("at"), f.has("place"));
    let mass = f.opt(r, "mass", Reader::expr);
    let tank = f.opt(r, "tank", three);
    let size = f.opt(r, "size", three);
    let holds = f.opt(r, "holds", |r, node| r.known::<Holds>(node, "holds"));
    let density = f.opt(r, "density", Reader::expr);
    let aboard = f.word(r, "aboard", &["always", "full"]);
    let fill = f.opt(r, "fill", fill).unwrap_or_default();
    let kind = f.opt(r, "is", |r, node| r.known::<LoadKind>(node, "is"));
    let filler = f.opt(r, "filler", three);
    f.close(r);
    if has_at == has_place {
        let (message, help) = if has_at {
            ("is placed twice, by `at` and by `place`", "leave one of them out")
        } else {
            ("does not say where it is", "add `at: [x, y, z]`, its middle, or `place:` with its edges")
        };
        r.error(Diagnostic::new(node.span, format!("load `{name}` {message}")).help(help));
    }
    if !states_a_mass(node) {
        let error = Diagnostic::new(node.span, format!("load `{name}` has neither `mass` nor `tank`"));
        r.error(error.help("add `mass:` in kilograms, or for a tank `tank: [length, width, height]` in mm"));
    }
    Some(LoadDoc { at, place, mass, tank, size, holds, density, aboard, fill, kind, filler })
}

/// Whether one of the two keys is written, well or badly.
fn states_a_mass(node: &Node) -> bool {
    node.as_map().is_some_and(|map| map.contains_key("mass") || map.contains_key("tank"))
}

/// `{ empty, running, full }`.
fn fill(r: &mut Reader<'_>, node: &Node) -> Option<[Option<Expr>; 3]> {
    let mut f = r.fields(node, "`fill`")?;
    let shares = ["empty", "running", "full"].map(|key| f.opt(r, key, Reader::expr));
    f.close(r);
    Some(shares)
}

/// `{ arrangement, people, contents, cargo, fill }`.
pub(super) fn load_case(r: &mut Reader<'_>, name: &str, node: &Node) -> Option<LoadCaseDoc> {
    let mut f = r.fields(node, &format!("load case `{name}`"))?;
    let arrangement = f.opt(r, "arrangement", Reader::name);
    let people = f.opt(r, "people", Reader::expr);
    let contents = f.opt(r, "contents", Reader::expr);
    let cargo = f.opt(r, "cargo", Reader::flag);
    let fill = f.section("fill").map(|node| r.named(node, "`fill`", |r, _, node| r.expr(node))).unwrap_or_default();
    f.close(r);
    Some(LoadCaseDoc { arrangement, people, contents, cargo, fill })
}
