//! The schema of layout files.

use super::keys::{
    Keys, any, at_most, by_check, by_name, document, full_list, known, known_or_own, list, loosened, named, number,
    own, words,
};
use super::places::{cutaway, layer, module, opening, roof, room, shell, zone};
use super::router::router;
use super::rules::rule;
use super::vehicle::{climate, labels, load, load_case, services, vehicle};
use crate::language::lower_layout::{MOST, STANDS};
use crate::model::{PaperSize, Purpose, SheetKind};
use serde_json::{Value, json};

const SAYS: &str = "A layout of Boxwright. Lengths are mm, masses kg, angles degrees; an expression may stand in the place of a number";

/// The schema of a layout file, JSON Schema 2020-12.
///
/// A file that extends another may leave out what the other says, and take entries away with `null`.
#[must_use]
pub fn layout_schema() -> Value {
    let whole = vec![("layout", whole()), ("room", room()), ("roof", roof()), ("shell", shell())];
    let entries = vec![
        ("plug-in", plug_in()),
        ("extends", extends()),
        ("person", person()),
        ("cutaway", cutaway()),
        ("layer", layer()),
        ("opening", opening()),
        ("purpose", known_or_own::<Purpose>("name")),
        ("zone", zone()),
        ("module", module()),
        ("route", route()),
        ("cargo", cargo()),
        ("stock", stock()),
        ("vehicle", vehicle()),
        ("load", load()),
        ("load-case", load_case()),
        ("services", services()),
        ("sheets", sheets()),
        ("rule", rule()),
    ];
    let defs: Vec<(&'static str, Value)> = whole.into_iter().chain(entries).collect();
    let main = json!({
        "type": "object",
        "if": { "required": ["extends"] },
        "then": { "$ref": "#/$defs/part-of-layout" },
        "else": { "$ref": "#/$defs/layout" },
    });
    let mut schema = document("Layout", SAYS, main, defs);
    if let Some(defs) = schema["$defs"].as_object_mut() {
        let loose: Vec<_> = defs.iter().map(|(name, of)| (format!("part-of-{name}"), loosened(of))).collect();
        defs.extend(loose);
        if let Some(needed) = defs.get_mut("part-of-layout") {
            needed["required"] = json!(["boxwright", "extends"]);
            needed["properties"]["boxwright"] = json!({ "const": 1 });
            needed["properties"]["extends"] = by_name("extends");
        }
    }
    schema
}

/// The names of a section, with how many it may have.
fn section(key: &str, entry: &str) -> Value {
    let most = MOST.iter().find(|(section, _)| *section == key);
    let all = named(by_name(entry));
    most.map_or(all.clone(), |(_, most)| at_most(*most, all))
}

/// A whole layout.
fn whole() -> Value {
    let keys = Keys::of("A layout")
        .need("boxwright", "Version of the language", json!({ "const": 1 }))
        .opt("extends", "The layout that this one changes", by_name("extends"))
        .need("title", "Title of the drawings", by_name("text"))
        .opt("number", "Drawing number", by_name("text"))
        .opt("revision", "Revisions, the last one is the current one", revisions())
        .opt("drawn", "", drawn())
        .opt("symbols", "Folders with symbols of its own", list(by_name("text")))
        .opt("plug-ins", "Checks, outputs and sheets from outside, by their names", section("plug-ins", "plug-in"))
        .opt("people", "Who lives there", section("people", "person"))
        .opt("parameters", "Named values", named(by_name("value")))
        .need("box", "", by_name("room"))
        .opt("layups", "Layers of panels, from inside to outside", named(layers()))
        .opt("openings", "Doors, windows, hatches", section("openings", "opening"))
        .opt("purposes", "Purposes of its own", own())
        .opt("zones", "Parts of the floor", section("zones", "zone"))
        .opt("modules", "The furniture", section("modules", "module"));
    uses(keys).closed()
}

/// How it is used, what carries it and how it is drawn.
fn uses(keys: Keys) -> Keys {
    let poses = at_most(most("arrangements"), named(named(by_name("name"))));
    keys.opt("arrangements", "A pose for each module", poses)
        .opt("routes", "Ways that must stay free", list(by_name("route")))
        .opt("cargo", "Things to be carried", section("cargo", "cargo"))
        .opt("vehicle", "", by_name("vehicle"))
        .opt("loads", "Tanks, and things beside the furniture", section("loads", "load"))
        .opt("load-cases", "Load cases of its own", section("load-cases", "load-case"))
        .opt("services", "", by_name("services"))
        .opt("climate", "", climate())
        .opt("rules", "House rules", named(by_name("rule")))
        .opt("rule-files", "Files of house rules", list(by_name("text")))
        .opt("limits", "Changed limits of checks", limits())
        .opt("accepted", "Findings that stay", list(accepted()))
        .opt("stocks", "Sheet materials", named(by_name("stock")))
        .opt("prices", "", prices())
        .opt("labels", "", labels())
        .opt("router", "", router())
        .opt("sheets", "", by_name("sheets"))
}

fn most(key: &str) -> usize {
    MOST.iter().find(|(section, _)| *section == key).map_or(usize::MAX, |(_, most)| *most)
}

fn day() -> Value {
    json!({ "type": "string", "pattern": "^\\s*\\d{4}-\\d{2}-\\d{2}\\s*$" })
}

fn revisions() -> Value {
    let one = Keys::of("A revision")
        .need("mark", "", by_name("text"))
        .opt("note", "What changed", by_name("text"))
        .opt("date", "YYYY-MM-DD", day())
        .opt("by", "Who changed it", by_name("text"))
        .closed();
    any([by_name("text"), one.clone(), full_list(any([by_name("text"), one]))])
}

fn drawn() -> Value {
    Keys::of("Who drew it, and when")
        .opt("by", "Who drew it", by_name("text"))
        .opt("approved", "Who approved it", by_name("text"))
        .opt("owner", "Legal owner of the drawings", by_name("text"))
        .opt("date", "Date of issue, YYYY-MM-DD", day())
        .closed()
}

fn plug_in() -> Value {
    Keys::of("A plug-in")
        .need("file", "Path of its file", by_name("text"))
        .opt(
            "sha256",
            "SHA-256 of the file; without it the file is not used",
            json!({ "type": ["string", "number"], "pattern": "^\\s*[0-9A-Fa-f]{64}\\s*$" }),
        )
        .closed()
}

fn extends() -> Value {
    let whole = json!({ "type": "string" });
    let taken = Keys::of("A layout, and how it is taken")
        .need("file", "Its path", by_name("text"))
        .opt("mirror", "Left and right change places", by_name("flag"))
        .opt("turn", "Turned by half", by_name("flag"));
    any([whole, taken.closed()])
}

fn person() -> Value {
    Keys::of("A person").opt("stature", "Body height, mm", number()).opt("mass", "kg", number()).closed()
}

fn layers() -> Value {
    json!({ "type": "array", "items": by_name("layer"), "minItems": 1 })
}

fn route() -> Value {
    Keys::of("A way that must stay free")
        .need("from", "An opening or a module", by_name("name"))
        .need("to", "An opening or a module", by_name("name"))
        .opt("in", "Arrangements; all if left out", by_name("names"))
        .opt("least", "Least width, mm", number())
        .closed()
}

fn cargo() -> Value {
    Keys::of("Things of one kind that are carried")
        .need("size", "The box around one, mm", by_name("triple"))
        .need("mass", "Of one, kg", number())
        .opt("count", "How many", number())
        .need("in", "The module that it is kept in", by_name("name"))
        .opt("through", "The opening that it goes through", by_name("name"))
        .opt("stands", "How it may stand", words(&STANDS))
        .closed()
}

fn limits() -> Value {
    let check = json!({
        "description": "Limits of a check by name, and why they are changed",
        "type": "object",
        "properties": { "because": by_name("text") },
        "required": ["because"],
        "minProperties": 2,
        "additionalProperties": number(),
    });
    by_check(check)
}

fn accepted() -> Value {
    Keys::of("A finding that stays")
        .need("check", "", by_name("check-name"))
        .need("of", "The subject of the finding, as printed", by_name("text"))
        .opt(
            "about",
            "What is printed behind the subject; all if left out",
            any([by_name("text"), full_list(by_name("text"))]),
        )
        .opt("in", "Arrangements; all if left out", by_name("names"))
        .opt("up-to", "The figure that it was accepted at; worse ones are not", number())
        .need("because", "", by_name("text"))
        .closed()
}

fn stock() -> Value {
    let sized = |more, says: &str| {
        let map = Keys::of("A size of sheets").need("size", "Length and width, mm", by_name("pair"));
        full_list(any([by_name("pair"), map.opt(more, says, number()).closed()]))
    };
    Keys::of("A sheet material as it is bought")
        .opt("material", "", by_name("name"))
        .opt("sheets", "Sizes that are bought", sized("price", "Of one"))
        .opt("offcuts", "What is on hand", sized("count", "How many"))
        .opt("useful", "The smallest offcut worth keeping, mm", by_name("pair"))
        .opt("stages", "How often panels are turned between cuts", json!({ "enum": [2, 3, "2", "3", "free"] }))
        .opt("grain", "Which way it runs on the sheet", words(&["long", "short", "none"]))
        .opt("kerf", "Width of the saw cut, mm", number())
        .opt("trim", "Taken off each edge of a sheet, mm", number())
        .opt("price", "Of one sheet of the first size", number())
        .opt("thickness", "As measured, mm", number())
        .closed()
}

fn prices() -> Value {
    Keys::of("Prices in the currency of the sheets' prices")
        .opt("band-metre", "Of a metre of edge band", number())
        .opt("hardware", "Of one piece, by name", named(number()))
        .closed()
}

fn sheets() -> Value {
    let sections = Keys::of("Planes of the sections, mm").opt("along", "From the left wall", number()).opt(
        "across",
        "From the front wall",
        number(),
    );
    Keys::of("How the drawings are made")
        .opt("paper", "", known::<PaperSize>())
        .opt("orientation", "", words(&["landscape", "portrait"]))
        .opt("only", "Kinds of sheets to make", full_list(known::<SheetKind>()))
        .opt("scale", "20 for 1:20", number())
        .opt("projection", "", words(&["first", "third"]))
        .opt("figures", "What dimensions say", words(&["mm", "mm+inch"]))
        .opt("sections", "", sections.closed())
        .opt("theme", "Name or path of the brochure's theme", by_name("text"))
        .closed()
}
