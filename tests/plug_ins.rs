//! Plug-ins: what they find, write and draw behaves as what is built in does, and nothing that they do harms the rest.

#![allow(clippy::panic, clippy::unwrap_used, reason = "a test may stop at once")]
#![cfg(feature = "plug-ins")]

mod common {
    pub mod guest;
}

use boxwright::backends::Reads;
use boxwright::compile::{Compiled, Options, Session, Wanted, compile};
use boxwright::diagnostic::{Finding, Severity};
use boxwright::plug_ins::{Bounds, PlugIn, sha256};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use boxwright::views::Chosen;
use common::guest::{Guest, answer, description, finding, wasm};
use std::sync::{Arc, OnceLock};

/// A box with one locker, and more lines.
fn layout(more: &str) -> String {
    format!(
        "boxwright: 1\ntitle: House\nbox: {{ length: 4000, width: 2000, height: 2000 }}\nmodules:\n  locker: {{ symbol: \
         stow/overhead-locker, faces: right, place: {{ front: 700, left: box.left, top: box.top }}, size: {{ run: 2200, \
         height: 360, depth: 400 }} }}\n{more}"
    )
}

/// Little fuel, so that what never ends ends soon.
fn loaded(wasm: &[u8]) -> Result<Registry, String> {
    let bounds = Bounds { fuel: 2, ..Bounds::default() };
    Registry::standard().with(&Arc::new(PlugIn::load("house.wasm", wasm, bounds)?))
}

fn compiled(registry: &Registry, more: &str) -> Compiled {
    let world = MemoryWorld::default().with("house.yaml", &layout(more));
    compile(&world, "house.yaml", registry, &Options::default())
}

fn with(guest: &Guest, more: &str) -> Compiled {
    compiled(&loaded(&guest.wasm()).unwrap(), more)
}

fn own(compiled: &Compiled) -> Vec<&Finding> {
    compiled.findings.iter().filter(|finding| finding.key.check.starts_with("house:")).collect()
}

/// Findings, sheets and files with their bytes.
type Drawn = (Vec<String>, Vec<String>, Vec<(String, Vec<u8>)>);

/// Sheets and files of the plug-in, or why there are none.
fn drawn(compiled: &Compiled, registry: &Registry) -> Drawn {
    let session = Session::new(registry.clone(), Options::default());
    let sheets = Chosen(["house:table", "checks"].map(|name| name.parse().unwrap()).to_vec());
    let wanted = Wanted { reads: vec![Reads::Sheets], sheets };
    let outputs = session.draw(compiled, &wanted).unwrap().unwrap();
    let (product, mut failed) = (outputs.product(compiled), outputs.failed.clone());
    let mut files = Vec::new();
    for backend in registry.backends.iter().filter(|one| one.is_outside()) {
        match backend.files(&product) {
            Ok(made) => files.extend(made.into_iter().map(|file| (file.name, file.bytes))),
            Err(why) => failed.push(why),
        }
    }
    (outputs.sheets.iter().map(|sheet| sheet.id.clone()).collect(), failed, files)
}

#[test]
fn what_it_has_stands_in_the_lists() {
    let registry = loaded(&Guest::default().wasm()).unwrap();
    let plain = Registry::standard();
    assert_eq!(registry.checks.len(), plain.checks.len() + 1);
    let check = registry.check("house:sealed").unwrap();
    assert_eq!((check.says(), check.manual().as_str()), ("lockers are sealed", "# Computes\nNothing.\n"));
    assert_eq!(check.limits()[0].name, "least");
    assert_eq!(registry.backends.last().unwrap().name(), "house:list");
    assert_eq!(registry.sheets[0].name(), "house:table");
}

#[test]
fn it_finds_is_placed_accepted_and_limited() {
    let guest = Guest::default();
    let found = with(&guest, "");
    let [finding] = own(&found)[..] else { panic!("{:?}", own(&found)) };
    assert_eq!(finding.key.to_string(), "house:sealed of locker");
    assert!(finding.is_open_fault() && finding.message == "it is not sealed");
    let span = finding.spans[0];
    assert_eq!(found.sources.text(span), "place");
    let accepted = with(&guest, "accepted: [ { check: house:sealed, of: locker, because: \"it stands open\" } ]\n");
    assert_eq!(own(&accepted)[0].accepted.as_deref(), Some("it stands open"));
    // The limit reaches the plug-in in the question, and a finding may hand it back.
    let required = r#","measured":{"value":840,"unit":"mm"},"required":{"name":"least","value":850.0,"unit":"mm","bound":"least","to":null,"within":0.001,"class":"common-practice","source":"common practice, no source"}"#;
    let limited = guest.answering(0, &answer("findings", &format!("[{}]", self::finding("locker", required))));
    let found = with(&limited, "limits: { house:sealed: { least: 850, because: \"lower\" } }\n");
    assert!(found.errors.errors().is_empty(), "{:?}", found.errors.errors());
    assert_eq!(found.checks.last().unwrap().limits.value("least"), 850.0);
    assert_eq!(own(&found)[0].required.as_ref().unwrap().origin(), "set by the layout: lower");
    // Handed back with another figure it is an error.
    assert!(
        own(&with(&limited, ""))[0]
            .message
            .contains("the limit `least` is at least 900 mm, and it is handed back as 850")
    );
}

#[test]
fn it_is_asked_for_what_it_reads_and_nothing_else() {
    let guest = Guest::default().doing(0, "(call $log (local.get $at) (local.get $length))");
    let plug_in = PlugIn::load("house.wasm", &guest.wasm(), Bounds::default()).unwrap();
    let compiled = compiled(&Registry::standard(), "");
    let tried = plug_in.try_checks(&compiled.figures().unwrap()).unwrap();
    assert_eq!(
        tried.log,
        r#"{"format":"boxwright-question","version":1,"ask":"","checks":[{"name":"house:sealed","says":"lockers are sealed","caution":null,"limits":[{"name":"least","value":900.0,"unit":"mm","bound":"least","to":null,"within":0.0005,"class":"common-practice","source":"common practice, no source"}]}],"model":{"modules":[{"name":"locker"}]}}"#
    );
    assert_eq!(tried.question, tried.log.len());
}

#[test]
fn it_writes_and_draws() {
    let registry = loaded(&Guest::default().wasm()).unwrap();
    let compiled = compiled(&registry, "");
    let (sheets, failed, files) = drawn(&compiled, &registry);
    assert_eq!(failed, Vec::<String>::new());
    assert!(sheets.contains(&"house-table".to_owned()), "{sheets:?}");
    assert_eq!(files, [("house-list.txt".to_owned(), b"one\ntwo\n".to_vec())]);
}

/// SHA-256 of the text "abc": FIPS 180-2, appendix B.1.
#[test]
fn a_layout_names_a_plug_in_by_its_file_and_what_is_in_it() {
    assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    let wasm = Guest::default().wasm();
    let of = |line: &str| {
        let text = layout(&format!("plug-ins:\n{line}"));
        let world = MemoryWorld::default().with("a/house.yaml", &text).with_bytes("a/own/h.wasm", &wasm);
        compile(&world, "a/house.yaml", &Registry::standard(), &Options::default())
    };
    let told = |line: &str| of(line).errors.errors()[0].message.clone();
    let good = of(&format!("  house: {{ file: own/h.wasm, sha256: \"{}\" }}\n", sha256(&wasm)));
    assert_eq!((good.errors.errors().len(), own(&good).len()), (0, 1));
    assert_eq!(good.registry.plug_ins[0].file, "own/h.wasm");
    let changed = of(&format!("  house: {{ file: own/h.wasm, sha256: \"{}\" }}\n", sha256(b"abc")));
    let error = &changed.errors.errors()[0];
    assert!(error.message.contains("has changed since it was pinned"), "{}", error.message);
    assert!(error.help.as_ref().unwrap().contains("boxwright plug-ins pin a/house.yaml"));
    assert!(told("  house: { file: own/h.wasm }\n").contains("has no `sha256`"));
    assert!(told("  house: { file: own/g.wasm }\n").contains("can't be read"));
    assert!(told("  house: { file: ../h.wasm }\n").contains("leaves the layout's folder"));
    assert!(told("  house: { file: own/h.wasm, sha256: abc }\n").contains("64 hexadecimal digits"));
    let other = told(&format!("  home: {{ file: own/h.wasm, sha256: \"{}\" }}\n", sha256(&wasm)));
    assert!(other.contains("is called `house`, and `home` stands here"), "{other}");
}

/// What is wrong with a plug-in that can't be loaded.
fn refused(wasm: &[u8]) -> String {
    loaded(wasm).unwrap_err()
}

fn described(description: &str) -> String {
    refused(&Guest { describe: description.to_owned(), ..Guest::default() }.wasm())
}

#[test]
fn what_is_no_plug_in_is_refused() {
    let says = |told: String, what: &str| assert!(told.contains("house.wasm") && told.contains(what), "{told}");
    says(refused(b"(module)"), "is no WebAssembly");
    says(refused(b"\0asm\x01\0\0\0\xff"), "can't be compiled");
    says(refused(&wasm("(module)")), "exports no function `describe`");
    says(
        refused(&wasm("(module (import \"wasi\" \"fd_write\" (func)) (func (export \"describe\")))")),
        "imports `wasi.fd_write`",
    );
    says(
        refused(&wasm("(module (func $a (loop (br 0))) (start $a) (func (export \"describe\")))")),
        "more than 2 million steps",
    );
    says(refused(&wasm("(module (memory 4096) (func (export \"describe\")))")), "failed");
    says(refused(&wasm("(module (func (export \"describe\")))")), "its description is empty");
    says(refused(&wasm("(module (func (export \"describe\") (param i32)))")), "failed");
    says(refused(&vec![0; (4 << 20) + 1]), "larger than 4 MiB");
    says(described("{\"format\":"), "its description can't be read");
    says(described(&description("").replace("plug-in\"", "plugin\"")), "has the format `boxwright-plugin`");
    let newer = described(&description("").replace("\"version\":1", "\"version\":7,\"new\":1"));
    says(newer, "is of version 7, and this boxwright speaks version 1");
    says(described(&description(",\"colour\":1")), "unknown field `colour`");
    says(described(&description("").replace("\"house\"", "\"../x\"")), "a name has up to");
    says(described(&description("").replace("\"house\"", "\"rule\"")), "means something else");
    says(described(&description("").replace("modules/*/name", "modules/*/nam")), "did you mean `name`?");
    says(described(&description("").replace("modules/*/name", "modules/name")), "there is no `name`");
    says(described(&description("").replace("\"unit\":\"mm\"", "\"unit\":\"inch\"")), "no unit `inch`");
    says(described(&description("").replace("lockers are sealed", "lockers \u{1f512}")), "U+1F512");
}

/// The layout without any plug-in, but for what is found by this one.
fn is_as_without(compiled: &Compiled) {
    static PLAIN: OnceLock<Vec<Finding>> = OnceLock::new();
    let plain = PLAIN.get_or_init(|| self::compiled(&Registry::standard(), "").findings);
    let others: Vec<&Finding> = compiled.findings.iter().filter(|one| !one.key.check.starts_with("house:")).collect();
    assert_eq!(others, plain.iter().collect::<Vec<_>>());
}

/// Why the check of a guest could not be made; all else is as without it.
fn stopped(guest: &Guest) -> String {
    let compiled = with(guest, "");
    is_as_without(&compiled);
    let [finding] = own(&compiled)[..] else { panic!("{:?}", own(&compiled)) };
    assert!(finding.severity == Severity::Fault && finding.suggestion.is_none());
    assert!(
        finding.message.starts_with("this check was not made") && finding.message.contains("`house` in `house.wasm`")
    );
    finding.message.clone()
}

fn says(guest: &Guest, what: &str) {
    let told = stopped(guest);
    assert!(told.contains(what), "{told}");
}

#[test]
fn a_guest_that_runs_over_is_stopped() {
    let doing = |what: &'static str| Guest::default().doing(0, what);
    says(&doing("(loop (br 0))"), "more than 2 million steps");
    says(&doing("(loop (drop (memory.grow (i32.const 100))) (br 0))"), "more than 64 MiB of memory");
    says(&doing("(unreachable)"), "gave up (`unreachable`)");
    says(&doing("(drop (i32.load (i32.const -4)))"), "out of bounds");
    says(&doing("(drop (i32.div_u (i32.const 1) (i32.const 0)))"), "divide by zero");
    says(&doing("(call $answer (i32.const -1) (i32.const 64))"), "do not lie inside its memory");
    says(&doing("(call $answer (i32.const 0) (i32.const 2000000000))"), "longer than 16 MiB");
    says(&doing("(loop (call $answer (i32.const 0) (i32.const 65536)) (br 0))"), "longer than 16 MiB");
    says(&doing("(loop (call $log (i32.const 0) (i32.const 65536)) (br 0))"), "more than 2 million steps");
    says(&doing("(call $log (i32.const -9) (i32.const 4))"), "do not lie inside its memory");
    let deep = Guest { more: "(func $deep (call $deep))".to_owned(), ..doing("(call $deep)") };
    says(&deep, "called each other too deep");
    let logged = Guest {
        more: "(data (i32.const 8) \"no gas\")".to_owned(),
        ..doing("(call $log (i32.const 8) (i32.const 6)) (unreachable)")
    };
    says(&logged, "its log ends: no gas");
}

fn finds(findings: &str) -> Guest {
    Guest::default().answering(0, &answer("findings", findings))
}

#[test]
fn a_finding_that_can_not_be_is_refused() {
    let one = |subject: &str, more: &str| finds(&format!("[{}]", finding(subject, more)));
    says(&Guest::default().answering(0, ""), "its answer is empty");
    says(
        &Guest::default().answering(0, "{\"format\":\"boxwright-answer\",\"version\":1,\"findings\":[{]}"),
        "can't be read",
    );
    says(
        &Guest::default().answering(0, "{\"format\":\"boxwright-answer\",\"version\":9}"),
        "of version 9, and this boxwright speaks version 1",
    );
    says(&Guest::default().answering(0, &answer("failed", "\"no gas law is known\"")), "no gas law is known");
    says(&Guest::default().answering(0, &answer("files", "[]")), "with files or sheets");
    says(&one("lokcer", ""), "the layout has no `lokcer`; did you mean `locker`?");
    says(&one("locker and bed", ""), "the layout has no `bed`");
    says(&one("locker", ",\"arrangements\":[\"night\"]"), "no arrangement `night`");
    says(&one("locker", ",\"mesured\":1"), "unknown field `mesured`");
    says(
        &one("locker", ",\"places\":[{\"file\":\"x.yaml\",\"line\":1,\"column\":1,\"end_line\":1,\"end_column\":2}]"),
        "no place 1:1 to 1:2",
    );
    says(&one("locker", ",\"marks\":[{\"at\":[1e300,0]}]"), "farther off than 100 m");
    says(&one("locker", ",\"marks\":[{\"area\":\"M 0 0 Q\"}]"), "is no path");
    says(&one("locker", ",\"suggestion\":\"buy\""), "can't be read");
    let measured = |value: f64| {
        let least = "\"required\":{\"value\":900,\"unit\":\"mm\",\"bound\":\"least\",\"class\":\"geometry\",\"source\":\"geometry\"}";
        one("locker", &format!(",\"measured\":{{\"value\":{value},\"unit\":\"mm\"}},{least}"))
    };
    says(&measured(900.0), "it is a fault, but 900 mm meets at least 900 mm");
    assert_eq!(own(&with(&measured(899.0), "")).len(), 1);
    let twice = finding("locker", "");
    says(&finds(&format!("[{twice},{twice}]")), "an earlier one is the same finding");
    let many: Vec<String> = (0..1001)
        .map(|at| finding("locker", &format!(",\"about\":[{{\"kind\":\"part\",\"name\":\"p{at}\"}}]")))
        .collect();
    says(&finds(&format!("[{}]", many.join(","))), "1001 findings, and 1000 are the most");
    says(&finds(&format!("[{}]", finding("locker", "").replace("sealed\"", "sound\""))), "describes no check `sound`");
    let mut bytes = finds("[]");
    bytes.before[0] = "(i32.store8 (i32.const 1024) (i32.const 255)) (call $answer (i32.const 1024) (i32.const 4))";
    says(&bytes, "is no UTF-8 text from byte 0 on");
}

/// Why the file of a guest is missing.
fn unwritten(files: &str) -> String {
    let registry = loaded(&Guest::default().answering(1, &answer("files", files)).wasm()).unwrap();
    let compiled = compiled(&registry, "");
    is_as_without(&compiled);
    let (sheets, failed, files) = drawn(&compiled, &registry);
    assert!(sheets.contains(&"house-table".to_owned()) && files.is_empty());
    assert!(failed.len() == 1 && failed[0].contains("the plug-in `house` in `house.wasm` failed"), "{failed:?}");
    failed[0].clone()
}

#[test]
fn a_file_that_may_not_be_is_refused() {
    let named = |name: &str| unwritten(&format!("[{{\"name\":\"{name}\",\"text\":\"x\"}}]"));
    for name in ["../up.txt", "a/b.txt", "c:\\\\x", "..", "x..y"] {
        assert!(named(name).contains("a name has no folders"), "{name}");
    }
    for name in ["", " a", ".hidden", "a\\u0000b", "caf\u{e9}", "-x"] {
        assert!(named(name).contains("a name has letters, digits"), "{name}");
    }
    assert!(unwritten("[{\"name\":\"a.txt\"}]").contains("either `text` or `base64`"));
    assert!(unwritten("[{\"name\":\"a.bin\",\"base64\":\"*\"}]").contains("no base64"));
    assert!(unwritten("[{\"name\":\"a.txt\",\"text\":\"\"},{\"name\":\"A.txt\",\"text\":\"\"}]").contains("two files"));
}

/// Why the sheet of a guest is missing.
fn undrawn(sheets: &str) -> String {
    let registry = loaded(&Guest::default().answering(2, &answer("sheets", sheets)).wasm()).unwrap();
    let compiled = compiled(&registry, "");
    let (sheets, failed, files) = drawn(&compiled, &registry);
    assert!(!sheets.contains(&"house-table".to_owned()) && files.len() == 1 && !sheets.is_empty());
    assert_eq!(failed.len(), 1, "{failed:?}");
    failed[0].clone()
}

#[test]
fn a_sheet_that_can_not_be_drawn_is_refused() {
    let view = |items: &str| {
        undrawn(&format!(
            "[{{\"title\":\"T\",\"views\":[{{\"id\":\"v\",\"title\":\"V\",\"layers\":[{{\"kind\":\"notes\",\"items\":[{items}]}}]}}]}}]"
        ))
    };
    assert!(undrawn("[{\"title\":\"T\"}]").contains("either `tables` or `views`"));
    assert!(view("{\"path\":{\"shape\":\"M 0 0 L x\"}}").contains("is no path"));
    assert!(view("{\"path\":{\"shape\":\"M 0 0 L 1 1\",\"line\":\"pink\"}}").contains("no line `pink`"));
    assert!(view("{\"text\":{\"at\":[0,0],\"words\":\"x\",\"height\":900,\"align\":\"start\"}}").contains("no height"));
    assert!(
        view("{\"text\":{\"at\":[0,0],\"words\":\"\\ud83d\\ude00\",\"height\":2.5,\"align\":\"start\"}}")
            .contains("U+1F600")
    );
    assert!(view("{\"group\":{\"id\":\"a b\",\"title\":\"x\",\"items\":[]}}").contains("is no id"));
}

/// Open files and sockets of this process.
#[cfg(target_os = "linux")]
fn open() -> Vec<String> {
    let entries = std::fs::read_dir("/proc/self/fd").unwrap().map(|entry| entry.unwrap().path());
    let mut open: Vec<String> =
        entries.filter_map(|path| Some(std::fs::read_link(path).ok()?.display().to_string())).collect();
    open.retain(|name| !name.contains("/fd"));
    open.sort();
    open
}

/// Run alone in a process of its own by the name of this test, since other tests open files at the same time.
#[test]
#[cfg(target_os = "linux")]
fn nothing_is_opened_for_it() {
    if std::env::var_os("ALONE").is_none() {
        let this = std::env::current_exe().unwrap();
        let mut run = std::process::Command::new(this);
        let run = run.args(["--exact", "nothing_is_opened_for_it", "--test-threads", "1"]).env("ALONE", "1");
        assert!(run.output().unwrap().status.success());
        return;
    }
    drop(compiled(&loaded(&Guest::default().wasm()).unwrap(), ""));
    let before = open();
    for guest in [Guest::default(), Guest::default().doing(0, "(unreachable)"), finds("[{}]")] {
        let registry = loaded(&guest.wasm()).unwrap();
        drop(drawn(&compiled(&registry, ""), &registry));
    }
    assert_eq!(open(), before);
}

/// The plug-in that the layout with every key names, in `tests/oracles/schemas/`: it has nothing. `UPDATE=1` writes it.
#[test]
fn the_plug_in_of_the_layout_with_every_key_is_made_from_this_text() {
    let says = r#"{"format":"boxwright-plug-in","version":1,"name":"none","says":"nothing at all"}"#;
    let bytes = wasm(&format!(
        "(module (import \"boxwright\" \"answer\" (func $answer (param i32 i32))) (memory (export \"memory\") 1)
        (data (i32.const 0) \"{}\")
        (func (export \"describe\") (call $answer (i32.const 0) (i32.const {}))))",
        says.replace('"', "\\22"),
        says.len()
    ));
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/oracles/schemas/every.wasm");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &bytes).unwrap();
    }
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "{}", sha256(&bytes));
    assert_eq!(loaded(&bytes).unwrap().plug_ins[0].parts(), Vec::<String>::new());
}

/// A folder with a layout that names a plug-in, and the command in it: exit code, standard output, standard error.
fn in_folder(plug_ins: &str, guest: Guest) -> (tempfile::TempDir, impl Fn(&[&str]) -> (i32, String, String) + use<>) {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("first.yaml"), layout(plug_ins)).unwrap();
    std::fs::write(folder.path().join("house.wasm"), guest.wasm()).unwrap();
    let path = folder.path().to_owned();
    let run = move |words: &[&str]| {
        let mut command = assert_cmd::cargo::cargo_bin_cmd!("boxwright");
        let output = command.args(words).current_dir(&path).output().unwrap();
        let [out, error] = [output.stdout, output.stderr].map(|bytes| String::from_utf8(bytes).unwrap());
        (output.status.code().unwrap(), out, error)
    };
    (folder, run)
}

#[test]
fn the_command_lists_pins_and_tries() {
    for plug_ins in [
        "plug-ins: { house: { file: house.wasm } }\n",
        "plug-ins:\n  house:\n    file: house.wasm   # ours\nzones: {}\n",
    ] {
        let (folder, run) = in_folder(plug_ins, Guest::default());
        let (code, out, _) = run(&["plug-ins", "list", "first.yaml"]);
        assert!(
            code == 2 && out.contains("house: house.wasm, NOT PINNED, SHA-256 ") && !out.contains("check"),
            "{out}"
        );
        let (code, out, error) = run(&["plug-ins", "pin", "first.yaml"]);
        assert_eq!((code, out.as_str(), error.as_str()), (0, "first.yaml: 1 plug-in pinned, 1 of them anew\n", ""));
        let (code, out, _) = run(&["plug-ins", "list", "first.yaml"]);
        assert!(code == 0 && out.contains("pinned") && out.contains("  output house:list: a list"), "{out}");
        let (code, out, _) = run(&["check", "first.yaml"]);
        assert!(code == 1 && out.contains("fault: house:sealed of locker: it is not sealed"), "{out}");
        let (code, out, _) = run(&["explain", "house:sealed", "--in", "first.yaml"]);
        assert!(code == 0 && out.contains("least: 900 }"), "{out}");
        let (_, out, error) = run(&["build", "first.yaml", "--only", "house:list,svg", "--sheets", "house:table"]);
        assert!(out.contains("2 files") && error.is_empty(), "{out}{error}");
        assert_eq!(std::fs::read(folder.path().join("out/first/house-list.txt")).unwrap(), b"one\ntwo\n");
        assert!(folder.path().join("out/first/house-table.svg").is_file());
        std::fs::write(folder.path().join("house.wasm"), finds("[]").wasm()).unwrap();
        let (_, out, _) = run(&["check", "first.yaml"]);
        assert!(out.contains("has changed since it was pinned"), "{out}");
    }
    let (_folder, run) = in_folder("", Guest::default().doing(1, "(unreachable)"));
    let (code, out, error) = run(&["plug-ins", "try", "house.wasm", "first.yaml"]);
    assert!(code == 2 && error.contains("the plug-in `house` in `house.wasm` failed: it gave up"), "{error}");
    let says = [
        "checks: asked with ",
        "house:sealed of locker",
        "sheet house:table: asked",
        "  Hardware",
        "fault: house:sealed",
    ];
    assert!(says.iter().all(|says| out.contains(says)), "{out}");
    let (code, out, error) =
        run(&["build", "first.yaml", "--plug-in", "house.wasm", "--only", "house:list,model-json"]);
    assert!(
        code == 2 && out.contains("1 file") && error.contains("the output `house:list` can't be made"),
        "{out}{error}"
    );
    let (code, _, error) = run(&["build", "first.yaml", "--only", "home:list"]);
    assert!(code == 2 && error.contains("there is no output `home:list`; outputs are `svg`"), "{error}");
    let (code, _, error) = run(&["check", "first.yaml", "--plug-in", "gone.wasm"]);
    assert!(code == 2 && error.contains("the plug-in `gone.wasm` can't be read: there is no such file"), "{error}");
    let (code, _, error) = run(&["check", "first.yaml", "--plug-in-bound", "fule=1"]);
    assert!(code == 2 && error.contains("there is no bound `fule`"), "{error}");
}
