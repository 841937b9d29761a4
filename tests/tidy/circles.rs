//! Circles of files: which file under `src` needs which, by the imports and the paths in its code.
//!
//! A name counts for the file that makes it, however it is reached: a `pub use` is a door and no need of its own, unless
//! the file uses the name itself. A file and one of its own folder that need each other are a circle as well.

use crate::{built, none};
use std::collections::{BTreeMap, BTreeSet};

/// Most doors from a name to the file that makes it.
const MOST_DOORS: usize = 8;

type Path = Vec<String>;

struct File {
    path: String,
    /// Names that it imports, with where from; whether it only hands them on.
    uses: BTreeMap<String, (Path, bool)>,
    /// Paths in the rest of its code.
    chains: BTreeSet<Path>,
}

/// `crate::a::b` of `src/a/b.rs` and of `src/a/b/mod.rs`.
fn module_of(path: &str) -> Path {
    let inner = path.trim_start_matches("src/").trim_end_matches(".rs").trim_end_matches("/mod");
    inner.split('/').filter(|part| !["lib", "main"].contains(part)).map(str::to_owned).collect()
}

fn segments(path: &str) -> Path {
    path.split("::").map(str::to_owned).collect()
}

/// The single paths of an import tree without white space: `a::{b, c::d}` is `a::b` and `a::c::d`.
fn expanded(tree: &str) -> Vec<String> {
    let Some((before, inner)) = tree.split_once('{') else { return vec![tree.to_owned()] };
    let inner = inner.strip_suffix('}').unwrap_or(inner);
    let (mut depth, mut parts) = (0, vec![String::new()]);
    for c in inner.chars() {
        depth += i32::from(c == '{') - i32::from(c == '}');
        match c {
            ',' if depth == 0 => parts.push(String::new()),
            _ => parts.last_mut().unwrap().push(c),
        }
    }
    parts.iter().filter(|part| !part.is_empty()).flat_map(|part| expanded(&format!("{before}{part}"))).collect()
}

/// A path from the crate down; `None` for one that begins with the name of a library or of something local.
fn absolute(module: &Path, path: &[String], children: &BTreeSet<Path>) -> Option<Path> {
    let first = path.first()?.as_str();
    let child = || [module.as_slice(), &path[..1]].concat();
    if !["crate", "super", "self"].contains(&first) {
        return children.contains(&child()).then(|| [module.as_slice(), path].concat());
    }
    let mut base = if first == "crate" { Path::new() } else { module.clone() };
    let mut rest = path;
    while let Some((word, further)) =
        rest.split_first().filter(|(word, _)| ["crate", "super", "self"].contains(&word.as_str()))
    {
        if word == "super" {
            base.pop();
        }
        rest = further;
    }
    Some([base.as_slice(), rest].concat())
}

fn read(path: &str, code: &str, modules: &BTreeSet<Path>) -> File {
    let module = module_of(path);
    let (mut uses, mut rest) = (BTreeMap::new(), String::new());
    let mut lines = code.lines();
    while let Some(line) = lines.next() {
        let start = line.trim_start();
        let tree = start
            .strip_prefix("use ")
            .or_else(|| start.starts_with("pub").then(|| start.split_once("use ")).flatten().map(|(_, tree)| tree));
        let Some(tree) = tree else {
            rest += line;
            rest.push('\n');
            continue;
        };
        let mut whole = tree.to_owned();
        while !whole.contains(';') {
            let Some(next) = lines.next() else { break };
            whole += next;
        }
        let dense: String = whole.replace(" as ", "@").replace(';', "").split_whitespace().collect();
        for one in expanded(&dense) {
            let (one, name) = one.split_once('@').map_or((one.as_str(), None), |(one, name)| (one, Some(name)));
            let from = segments(one.trim_end_matches("::self"));
            let name = name.map_or_else(|| from.last().cloned().unwrap_or_default(), str::to_owned);
            if let Some(from) = absolute(&module, &from, modules) {
                uses.insert(name, (from, start.starts_with("pub")));
            }
        }
    }
    let part = |c: char| c.is_alphanumeric() || c == '_';
    let words: BTreeSet<&str> = rest.split(|c: char| !part(c)).collect();
    uses.iter_mut().for_each(|(name, (_, door))| *door = *door && !words.contains(name.as_str()));
    let chains = rest
        .split(|c: char| !part(c) && c != ':')
        .map(|word| word.trim_matches(':'))
        .filter(|word| word.contains("::"));
    let chains: BTreeSet<Path> = chains.map(segments).collect();
    let chains = chains.into_iter().filter_map(|chain| match uses.get(&chain[0]) {
        Some((from, _)) => Some([from.as_slice(), &chain[1..]].concat()),
        None => absolute(&module, &chain, modules),
    });
    let chains = chains.collect();
    File { path: path.to_owned(), uses, chains }
}

/// The file that makes what a path names; `None` for a module as a whole.
fn maker(files: &BTreeMap<Path, File>, path: &[String], doors: usize) -> Option<Path> {
    let length = (0..=path.len()).rev().find(|length| files.contains_key(&path[..*length]))?;
    let (module, rest) = path.split_at(length);
    let name = rest.first()?;
    match files[module].uses.get(name).filter(|_| doors < MOST_DOORS) {
        Some((from, _)) => maker(files, &[from.as_slice(), &rest[1..]].concat(), doors + 1),
        None => Some(module.to_vec()),
    }
}

fn needs(files: &BTreeMap<Path, File>, module: &Path) -> BTreeSet<Path> {
    let file = &files[module];
    let imports = file.uses.values().filter(|(_, door)| !door).map(|(from, _)| from);
    let made = imports.chain(&file.chains).filter_map(|path| maker(files, path, 0));
    made.filter(|other| other != module && !other.is_empty()).collect()
}

/// Each circle that a walk along the needs closes, as `a > b > a`.
fn circles(texts: &[(String, String)]) -> Vec<String> {
    let modules: BTreeSet<Path> = texts.iter().map(|(path, _)| module_of(path)).collect();
    let files: BTreeMap<Path, File> =
        texts.iter().map(|(path, code)| (module_of(path), read(path, code, &modules))).collect();
    let (mut found, mut done) = (Vec::new(), BTreeSet::new());
    for module in files.keys() {
        walk(&files, module, &mut Vec::new(), &mut done, &mut found);
    }
    found
}

fn walk(
    files: &BTreeMap<Path, File>,
    at: &Path,
    way: &mut Vec<Path>,
    done: &mut BTreeSet<Path>,
    found: &mut Vec<String>,
) {
    if let Some(start) = way.iter().position(|known| known == at) {
        let circle = way[start..].iter().chain([at]).map(|module| files[module].path.as_str());
        found.push(format!("a circle: {}", circle.collect::<Vec<_>>().join(" > ")));
    } else if !done.contains(at) {
        way.push(at.clone());
        for next in needs(files, at) {
            walk(files, &next, way, done, found);
        }
        way.pop();
        done.insert(at.clone());
    }
}

#[test]
fn no_files_need_each_other_in_a_circle() {
    let texts: Vec<(String, String)> =
        built().iter().filter(|file| file.path != "src/main.rs").map(|file| (file.path.clone(), file.code())).collect();
    assert!(texts.len() > 100);
    none(circles(&texts));
}

#[test]
fn a_circle_of_files_is_seen() {
    let found = |texts: &[(&str, &str)]| {
        let texts: Vec<(String, String)> =
            texts.iter().map(|(path, code)| ((*path).to_owned(), (*code).to_owned())).collect();
        circles(&texts)
    };
    let door = ("src/a/mod.rs", "mod b;\nmod c;\npub use b::B;\npub use c::C;\n");
    let two = found(&[door, ("src/a/b.rs", "use super::c::C;"), ("src/a/c.rs", "use super::b::B;")]);
    assert_eq!(two, ["a circle: src/a/b.rs > src/a/c.rs > src/a/b.rs"]);
    let through_the_door = [door, ("src/a/b.rs", "use crate::a::{C as D, E};"), ("src/a/c.rs", "fn f(b: super::B) {}")];
    assert_eq!(found(&through_the_door).len(), 1);
    let by_module = [door, ("src/a/b.rs", "use super::c;\nfn f() { c::g() }"), ("src/a/c.rs", "use super::b::B;")];
    assert_eq!(found(&by_module).len(), 1);
    let parent = [("src/a.rs", "mod b;\nstruct A;\nfn f() { b::g() }"), ("src/a/b.rs", "use super::A;")];
    assert_eq!(found(&parent), ["a circle: src/a.rs > src/a/b.rs > src/a.rs"]);
    let three = [
        door,
        ("src/a/b.rs", "use super::c::C;"),
        ("src/a/c.rs", "use super::{\n    d::D,\n};"),
        ("src/a/d.rs", "use super::B;"),
    ];
    assert_eq!(found(&three).len(), 1);
    let one_way =
        [door, ("src/a/b.rs", "use super::{C, d::D};"), ("src/a/c.rs", "use super::d::D;"), ("src/a/d.rs", "")];
    assert_eq!(found(&one_way), Vec::<String>::new());
}
