//! Tests of reading themes: what is built in, what is left out, every kind of mistake.

use super::*;
use crate::language::read_layout;
use crate::source::MemoryWorld;

const HEAD: &str = "boxwright: 1\ntitle: T\nbox: { length: 4000, width: 2000, height: 1900 }\n";

/// The theme of a layout with its errors as `file:line:column message | help`.
fn read(named: &str, file: &str, allow_outside: bool) -> (Theme, Vec<String>) {
    let layout = format!("{HEAD}sheets: {{ theme: {named} }}\n");
    let world = MemoryWorld::default().with("l/a.yaml", &layout).with("l/own.yaml", file).with("own.yaml", file);
    let (mut sources, mut sink) = (SourceMap::default(), Sink::default());
    let doc = read_layout(&world, "l/a.yaml", allow_outside, &mut sources, &mut sink).unwrap();
    let tell = |error: &Diagnostic| {
        let (name, at) = sources.place(error.span).unwrap();
        let help = error.help.as_deref().unwrap_or("");
        format!("{name}:{}:{} {} | {help}", at.line, at.column, error.message)
    };
    (doc.sheets.look, sink.errors().iter().map(tell).collect())
}

fn errors(file: &str) -> Vec<String> {
    read("own.yaml", file, false).1
}

#[test]
fn built_in_themes_say_everything() {
    for (name, text) in BUILT_IN {
        let (theme, errors) = read(name, "", false);
        assert_eq!(errors, Vec::<String>::new(), "{name}");
        let mut keys = vec!["theme:", "pattern:", "size:"];
        keys.extend([
            "paper:",
            "floor:",
            "furniture:",
            "upholstery:",
            "bedding:",
            "wet:",
            "glass:",
            "wall:",
            "people:",
        ]);
        keys.extend(["line:", "floor-line:", "text:", "title:", "caption:", "figure:", "name:", "note:", "edge:"]);
        assert!(keys.iter().all(|key| text.contains(key)), "{name}");
        assert!(theme.letters.note > 0.0 && theme.widths.detail > 0.0 && theme.size > 0.0, "{name}");
    }
}

#[test]
fn what_a_file_leaves_out_is_as_in_sober() {
    let (sober, _) = read("sober", "", false);
    let (own, errors) = read("own.yaml", "theme: 1\ncolours: { wall: \"#010203\" }\nfloor: { pattern: none }\n", false);
    assert_eq!(errors, Vec::<String>::new());
    let colours = Colours { wall: [1, 2, 3], ..sober.colours };
    assert_eq!(own, Theme { colours, pattern: Pattern::None, ..sober });
}

#[test]
fn mistakes_in_a_file_are_told_with_their_place() {
    for (text, wanted) in [
        ("colours: { floor: 5 }\n", "own.yaml:1:1 the theme has no `theme` | add `theme: ...`"),
        ("theme: 2\n", "own.yaml:1:8 this version of themes is not known | write `theme: 1`"),
        ("theme: 1\ncolors: {}\n", "own.yaml:2:1 unknown key `colors` in the theme | did you mean `colours`?"),
        (
            "theme: 1\ncolours: { flor: \"#000000\" }\n",
            "own.yaml:2:12 unknown key `flor` in `colours` | did you mean `floor`?",
        ),
        ("theme: 1\ncolours: { wall: red }\n", "own.yaml:2:18 `red` is not a colour | write red, green and blue"),
        ("theme: 1\ncolours: { wall: \"#12345\" }\n", "own.yaml:2:18 `#12345` is not a colour"),
        ("theme: 1\ncolours: { wall: \"#+1+1+1\" }\n", "own.yaml:2:18 `#+1+1+1` is not a colour"),
        ("theme: 1\ncolours: { wall: \"#ééé\" }\n", "own.yaml:2:18 `#ééé` is not a colour"),
        ("theme: 1\ncolours:\n  wall: #102030\n", "own.yaml:3:3 `wall` has no colour | write red, green and blue"),
        ("theme: 1\nfloor: { pattern: board }\n", "own.yaml:2:19 `pattern` can't be `board` | did you mean `boards`?"),
        ("theme: 1\nfloor: { size: 5 }\n", "own.yaml:2:16 `size` can't be 5 | write millimetres from 40 to 2000"),
        ("theme: 1\nletters: { title: 99 }\n", "own.yaml:2:19 `title` can't be 99 | write millimetres from 1 to 30"),
        ("theme: 1\nlines: { wall: thick }\n", "own.yaml:2:16 `wall` needs a number, and a text stands here"),
        ("- 1\n", "own.yaml:1:1 the theme needs a map of keys, and a list stands here"),
        ("", "own.yaml:1:1"),
    ] {
        let found = errors(text);
        assert!(found.iter().any(|error| error.starts_with(&format!("l/{wanted}"))), "{text}: {found:?}");
    }
}

#[test]
fn a_theme_that_is_not_there_is_told() {
    let one = |named: &str| read(named, "theme: 1\n", false).1.join("\n");
    assert!(
        one("wram").contains("there is no theme `wram` | did you mean `warm`? write `sober` or `warm`"),
        "{}",
        one("wram")
    );
    assert!(one("gone.yaml").contains("the theme file `l/gone.yaml` can't be read"), "{}", one("gone.yaml"));
    assert!(one("../own.yaml").contains("`theme` names `../own.yaml`, which leaves the layout's folder"));
    assert!(one("/own.yaml").contains("which is not relative to the file"));
    assert_eq!(read("../own.yaml", "theme: 1\n", true).1, Vec::<String>::new());
}
