//! The command as a user meets it: exit codes, what it writes and where, and what it leaves alone.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;

use assert_cmd::Command;
use command::{boxwright, bytes, folder, stderr, stdout, write};
use std::fs;
use std::process::Stdio;

#[test]
fn the_exit_code_is_that_of_the_worst_layout() {
    let folder = folder();
    for (files, code) in [
        (vec!["good.yaml"], 0),
        (vec!["tight.yaml"], 1),
        (vec!["bad.yaml"], 2),
        (vec!["good.yaml", "tight.yaml"], 1),
        (vec!["tight.yaml", "bad.yaml", "good.yaml"], 2),
        (vec!["gone.yaml"], 2),
    ] {
        boxwright(&folder).arg("check").args(&files).assert().code(code);
        boxwright(&folder).arg("build").args(&files).assert().code(code);
    }
    for usage in [vec!["check"], vec!["draw", "good.yaml"], vec!["build", "good.yaml", "--only", "stone"], vec![]] {
        boxwright(&folder).args(usage).assert().code(2);
    }
}

#[test]
fn build_writes_a_folder_for_each_layout() {
    let folder = folder();
    boxwright(&folder).args(["build", "good.yaml", "tight.yaml", "--out", "made"]).assert().code(1);
    for layout in ["good", "tight"] {
        let files = bytes(&folder.path().join("made").join(layout));
        assert!(files.keys().any(|name| name.starts_with("plan-") && name.ends_with(".svg")), "{:?}", files.keys());
        for name in ["sheets.pdf", "cut-list.csv", "model.json", "findings.json"] {
            assert!(files.contains_key(name), "{name} of {layout}");
        }
        for name in ["model.json", "findings.json"] {
            serde_json::from_slice::<serde_json::Value>(&files[name]).unwrap();
        }
    }
    assert_eq!(fs::read_dir(folder.path().join("made")).unwrap().count(), 2, "nothing is left beside them");
}

#[test]
fn with_faults_drawings_and_cut_list_are_held() {
    let folder = folder();
    boxwright(&folder).args(["build", "good.yaml", "tight.yaml"]).assert().code(1);
    let held = |layout: &str| {
        let files = bytes(&folder.path().join("out").join(layout));
        let texts = files.into_iter().filter(|(name, _)| name.ends_with(".svg") || name.ends_with(".csv"));
        texts.map(|(_, bytes)| String::from_utf8(bytes).unwrap().contains("HELD")).collect::<Vec<bool>>()
    };
    assert!(held("tight").len() >= 2 && held("tight").into_iter().all(|held| held));
    assert!(held("good").into_iter().all(|held| !held));
}

#[test]
fn a_failed_build_leaves_the_earlier_outputs_whole() {
    let folder = folder();
    boxwright(&folder).args(["build", "good.yaml"]).assert().code(0);
    let out = folder.path().join("out/good");
    fs::write(out.join("notes.txt"), "mine").unwrap();
    let before = bytes(&out);
    fs::copy(folder.path().join("bad.yaml"), folder.path().join("good.yaml")).unwrap();
    boxwright(&folder).args(["build", "good.yaml"]).assert().code(2);
    assert_eq!(bytes(&out), before);
}

#[test]
fn outputs_that_can_not_be_written_are_told_plainly() {
    let folder = folder();
    write(&folder, "out", "a file in the way");
    let told = stderr(boxwright(&folder).args(["build", "good.yaml"]));
    assert!(told.contains("can't be written"), "{told}");
    boxwright(&folder).args(["build", "good.yaml"]).assert().code(2);
}

#[test]
fn only_makes_the_chosen_outputs_and_takes_stale_ones_away() {
    let folder = folder();
    boxwright(&folder).args(["build", "good.yaml"]).assert().code(0);
    fs::write(folder.path().join("out/good/notes.txt"), "mine").unwrap();
    boxwright(&folder).args(["build", "good.yaml", "--only", "svg"]).assert().code(0);
    let names: Vec<String> =
        bytes(&folder.path().join("out/good")).into_keys().filter(|n| !n.starts_with('.')).collect();
    assert!(names.iter().all(|name| name.ends_with(".svg") || name == "notes.txt"), "{names:?}");
    assert!(names.len() >= 2);
}

#[test]
fn two_builds_give_the_same_bytes() {
    let folder = folder();
    boxwright(&folder).args(["build", "good.yaml", "--out", "a"]).assert().code(0);
    boxwright(&folder).args(["build", "good.yaml", "--out", "b"]).env("RAYON_NUM_THREADS", "1").assert().code(0);
    assert_eq!(bytes(&folder.path().join("a/good")), bytes(&folder.path().join("b/good")));
}

#[test]
fn quiet_says_nothing_of_a_clean_layout_and_something_of_faults() {
    let folder = folder();
    assert_eq!(stdout(boxwright(&folder).args(["check", "good.yaml", "--quiet"])), "");
    assert_eq!(stdout(boxwright(&folder).args(["build", "good.yaml", "--quiet"])), "");
    assert!(stdout(boxwright(&folder).args(["check", "tight.yaml", "--quiet"])).contains("twin"));
    assert!(stdout(boxwright(&folder).args(["check", "bad.yaml", "--quiet"])).contains("lenght"));
}

#[test]
fn an_error_shows_its_line_and_a_near_name() {
    let folder = folder();
    let told = stdout(boxwright(&folder).args(["check", "bad.yaml"]));
    assert!(told.contains("lenght: 4000") && told.contains("bad.yaml:") && told.contains("length"), "{told}");
    write(&folder, "latin.yaml", "");
    fs::write(folder.path().join("latin.yaml"), b"boxwright: 1\ntitle: caf\xe9\n").unwrap();
    assert!(stdout(boxwright(&folder).args(["check", "latin.yaml"])).contains("line 2"));
    assert!(stdout(boxwright(&folder).args(["check", "goood.yaml"])).contains("did you mean `good.yaml`"));
}

#[test]
fn json_is_one_document_for_all_files() {
    let folder = folder();
    let text = stdout(boxwright(&folder).args(["check", "--format", "json", "good.yaml", "tight.yaml", "bad.yaml"]));
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let layouts = value.as_array().unwrap();
    assert_eq!(layouts.len(), 3);
    let finding = &layouts[1]["findings"][0];
    assert_eq!(finding["severity"], "fault");
    let errors = layouts[2]["errors"].as_array().unwrap();
    assert!(errors.iter().any(|error| error["message"].as_str().unwrap().contains("lenght")));
    assert!(errors.iter().all(|error| error["place"]["line"].as_u64().unwrap() > 1));
}

#[test]
fn colour_only_where_it_is_wanted() {
    let folder = folder();
    let escapes = |command: &mut Command| stdout(command).contains('\x1b');
    assert!(!escapes(boxwright(&folder).args(["check", "tight.yaml"])));
    assert!(escapes(boxwright(&folder).args(["check", "tight.yaml", "--colour", "always"])));
    assert!(!escapes(boxwright(&folder).args(["check", "tight.yaml", "--colour", "never"])));
    assert_eq!(stderr(boxwright(&folder).args(["build", "good.yaml"])), "", "no progress away from a terminal");
}

/// A clean layout is one line, a finding is one, and what it is is told in full when asked for.
#[test]
fn a_report_is_short_unless_more_is_asked_for() {
    let folder = folder();
    let check = |more: &[&str]| stdout(boxwright(&folder).arg("check").args(more));
    assert_eq!(check(&["good.yaml"]).lines().count(), 1, "{}", check(&["good.yaml"]));
    let brief = check(&["tight.yaml"]);
    let is_one = |line: &&str| {
        let begins = ["fault: ", "caution: "].iter().any(|word| line.starts_with(word));
        begins && line.contains(" of ") && line.contains(" tight.yaml:")
    };
    let (last, lines) = brief.lines().collect::<Vec<_>>().split_last().map(|(a, b)| (*a, b.to_vec())).unwrap();
    assert!(lines.iter().all(|line| is_one(line) || line.starts_with("  mend: ") || line.starts_with("  help: ")));
    assert!(lines.iter().any(|line| line.starts_with("fault: no-overlap of twin and ")), "{brief}");
    assert!(
        last.starts_with("tight.yaml: held by ") && last.contains("no-overlap") && last.contains(" note"),
        "{last}"
    );
    let noted = check(&["tight.yaml", "--notes"]);
    assert!(noted.lines().any(|line| line.starts_with("note: ")) && noted.lines().count() > brief.lines().count());
    assert!(lines.iter().all(|line| noted.contains(line)), "{noted}");
    let full = check(&["tight.yaml", "--full"]);
    for word in ["fault[no-overlap]: ", "  = required: ", "  = measured: ", "note[", " --> tight.yaml:", last] {
        assert!(full.contains(word), "{word}: {full}");
    }
}

/// Drawings speak for themselves: what a check says is told again only where it holds them.
#[test]
fn build_says_no_more_than_what_holds_the_drawings() {
    let folder = folder();
    let clean = stdout(boxwright(&folder).args(["build", "good.yaml"]));
    assert_eq!(clean.lines().count(), 1, "{clean}");
    let held = stdout(boxwright(&folder).args(["build", "tight.yaml"]));
    let (last, lines) = held.lines().collect::<Vec<_>>().split_last().map(|(a, b)| (*a, b.to_vec())).unwrap();
    assert!(last.starts_with("out/tight: ") && last.contains("stamped HELD for "), "{last}");
    assert!(lines.iter().all(|line| line.starts_with("fault: ") || line.starts_with("  ")), "{held}");
    let checked = stdout(boxwright(&folder).args(["check", "tight.yaml"]));
    assert!(!lines.is_empty() && lines.iter().all(|line| checked.contains(line)));
}

/// What a line prints names the finding, for the command and in the file.
#[test]
fn a_finding_is_accepted_by_the_name_that_is_printed() {
    let folder = folder();
    let line = |file: &str| {
        let told = stdout(boxwright(&folder).args(["check", file]));
        told.lines().find(|line| line.starts_with("fault: no-overlap of ")).map(str::to_owned)
    };
    let brief = line("tight.yaml").unwrap();
    let key = brief.strip_prefix("fault: ").and_then(|rest| rest.split(": ").next()).unwrap();
    let accept = |file: &str, key: &str| {
        let mut command = boxwright(&folder);
        command.args(["accept", file]).args(key.split(' ')).args(["--because", "it's \"soft\": both give way"]);
        command
    };
    let read = || fs::read_to_string(folder.path().join("tight.yaml")).unwrap();
    let before = read();
    accept("tight.yaml", key).assert().code(0);
    let after = read();
    let (head, entry) = after.split_at(before.len());
    assert_eq!(head, before, "nothing else has changed");
    assert!(entry.contains("check: no-overlap, of: twin and ") && entry.contains("up-to: "), "{entry}");
    assert_eq!(line("tight.yaml"), None);
    assert!(
        stdout(boxwright(&folder).args(["check", "tight.yaml", "--notes"])).contains("it's \"soft\": both give way")
    );
    assert!(stderr(&mut accept("tight.yaml", key)).contains("accepted already"));
    assert!(stderr(&mut accept("tight.yaml", &format!("{key}x"))).contains("did you mean"));
    assert!(stderr(&mut accept("-", key)).contains("standard input"));
    accept("bad.yaml", key).assert().code(2);
    let up_to = entry.split("up-to: ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
    write(&folder, "worse.yaml", &after.replacen(&format!("up-to: {up_to} mm"), "up-to: 0.1 mm", 1));
    assert!(line("worse.yaml").unwrap().contains(", accepted at 0.1 mm"));
    write(&folder, "slip.yaml", &after.replacen("of: twin and", "of: twim and", 1));
    let told = stdout(boxwright(&folder).args(["check", "slip.yaml"]));
    assert!(
        told.contains("note: no-overlap of twim and ") && told.contains("did you mean `no-overlap of twin and "),
        "{told}"
    );
    assert_eq!(read(), after, "a refusal writes nothing");
}

/// A report that can't be written is never a success; what else there is to do is done.
#[test]
fn a_report_that_is_lost_is_told_and_the_work_goes_on() {
    let folder = folder();
    let binary = env!("CARGO_BIN_EXE_boxwright");
    let cases = [
        vec!["check", "good.yaml"],
        vec!["check", "--format", "json", "good.yaml"],
        vec!["build", "tight.yaml"],
        vec!["symbols"],
        vec!["explain"],
        vec!["schema", "findings"],
        vec!["--help"],
        vec!["--version"],
        vec!["build", "--help"],
    ];
    for arguments in cases {
        // A pipe that nobody reads any more.
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let mut outputs: Vec<Stdio> = vec![writer.into()];
        // A device that is always full, where there is one.
        outputs.extend(fs::OpenOptions::new().write(true).open("/dev/full").ok().map(Stdio::from));
        for output in outputs {
            let mut command = std::process::Command::new(binary);
            command.args(&arguments).current_dir(folder.path()).stdout(output).stderr(Stdio::piped());
            let output = command.spawn().unwrap().wait_with_output().unwrap();
            let told = String::from_utf8_lossy(&output.stderr);
            assert!(told.starts_with("error: ") && told.contains("can't be written"), "{arguments:?}: {told}");
            assert!(!told.contains("panicked"), "{arguments:?}");
            assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        }
    }
    assert!(folder.path().join("out/tight/sheets.pdf").is_file(), "the build went on");
}

#[test]
fn a_layout_may_come_from_standard_input() {
    let folder = folder();
    let text = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    for (name, code) in [("good.yaml", 0), ("tight.yaml", 1), ("bad.yaml", 2)] {
        boxwright(&folder).args(["check", "-"]).write_stdin(text(name)).assert().code(code);
        boxwright(&folder).args(["build", "-"]).write_stdin(text(name)).assert().code(code);
    }
    let told = stdout(boxwright(&folder).args(["check", "-"]).write_stdin(text("bad.yaml")));
    assert!(told.contains("stdin:") && told.contains("lenght"), "{told}");
    boxwright(&folder).args(["build", "-", "--out", "a"]).write_stdin(text("good.yaml")).assert().code(0);
    write(&folder, "stdin.yaml", &text("good.yaml"));
    boxwright(&folder).args(["build", "stdin.yaml", "--out", "b"]).assert().code(0);
    let named = |folder: &std::path::Path| {
        let files = bytes(folder).into_iter().filter(|(name, _)| !name.ends_with(".json"));
        files.collect::<Vec<_>>()
    };
    assert_eq!(named(&folder.path().join("a/stdin")), named(&folder.path().join("b/stdin")));
    let variant = "boxwright: 1\nextends: good.yaml\ntitle: A variant\n";
    boxwright(&folder).args(["check", "-"]).write_stdin(variant).assert().code(0);
    for bad in [&b"boxwright: 1\ntitle: caf\xe9\n"[..], b"", &vec![b' '; (1 << 20) + 1]] {
        boxwright(&folder).args(["check", "-"]).write_stdin(bad).assert().code(2);
    }
    for command in ["check", "build"] {
        let mut twice = boxwright(&folder);
        twice.args([command, "-", "-"]).write_stdin(text("good.yaml"));
        assert!(stderr(&mut twice).contains("`-` is named twice"));
    }
    let sums = stdout(boxwright(&folder).args(["explain", "heating", "--in", "-"]).write_stdin(text("good.yaml")));
    assert!(!sums.is_empty());
}

#[test]
fn new_leaves_a_file_that_is_there() {
    let folder = folder();
    write(&folder, "kept.yaml", "mine");
    boxwright(&folder).args(["new", "kept"]).assert().code(2);
    assert_eq!(fs::read_to_string(folder.path().join("kept.yaml")).unwrap(), "mine");
    boxwright(&folder).args(["new", "no-such-folder/a"]).assert().code(2);
    boxwright(&folder).args(["new", "a b"]).assert().code(2);
}

#[test]
fn every_command_has_examples_in_its_help() {
    let folder = folder();
    for command in ["new", "check", "accept", "build", "explain", "symbols"] {
        let help = stdout(boxwright(&folder).args([command, "--help"]));
        assert!(help.contains("Examples:"), "{command}");
        assert!(help.lines().all(|line| line.chars().count() <= 120), "{command}");
    }
    assert!(stdout(boxwright(&folder).arg("--help")).contains("Exit code: 0"));
}

#[test]
fn checks_and_symbols_explain_themselves() {
    let folder = folder();
    let list = stdout(boxwright(&folder).arg("explain"));
    for check in list.lines().filter_map(|line| line.split_whitespace().next()) {
        let page = stdout(boxwright(&folder).args(["explain", check]));
        assert!(page.starts_with(check) && page.contains("Why"), "{check}");
    }
    assert!(list.contains("walkway"));
    assert!(stderr(boxwright(&folder).args(["explain", "walkwey"])).contains("did you mean `walkway`"));
    let list = stdout(boxwright(&folder).arg("symbols"));
    assert!(list.contains("galley/base-run"));
    let page = stdout(boxwright(&folder).args(["symbols", "galley/base-run"]));
    for word in ["run", "depth", "height", "drawers"] {
        assert!(page.contains(word), "{word}");
    }
    assert!(stderr(boxwright(&folder).args(["symbols", "galley/base-runn"])).contains("did you mean"));
    assert!(list.contains("recipes/drawer"));
    let page = stdout(boxwright(&folder).args(["symbols", "recipes/shelf"]));
    assert!(page.contains("load") && page.contains("whole number, 10 to 200") && page.contains("carcass"), "{page}");
    fs::create_dir_all(folder.path().join("mine/own")).unwrap();
    fs::write(folder.path().join("mine/own/box.yaml"), "symbol: own/box\nsays: A box of ours\nsize:\n  run: { default: 600, least: 300, most: 900 }\n  depth: { default: 400, least: 300, most: 900 }\n  height: { default: 400, least: 300, most: 900 }\nsolids:\n  body: { u: [0, run], v: [0, depth], w: [0, height] }\n").unwrap();
    for name in ["mine/own/box", "mine/own/box.yaml"] {
        let page = stdout(boxwright(&folder).args(["symbols", name]));
        assert!(page.contains("A box of ours") && page.contains("300 to 900"), "{page}");
    }
    fs::write(folder.path().join("mine/own/bad.yaml"), "symbol: own/box\nsays: 3\n").unwrap();
    assert!(stdout(boxwright(&folder).args(["symbols", "mine/own/bad"])).contains("bad.yaml:"));
}

#[test]
fn symbols_of_ones_own_are_looked_at_by_themselves() {
    let folder = folder();
    let ask = |code: i32| {
        let answer = boxwright(&folder).args(["symbols", "--check", "mine"]).assert().code(code).get_output().clone();
        String::from_utf8([answer.stdout, answer.stderr].concat()).unwrap()
    };
    assert!(ask(2).contains("can't be read as a folder"));
    let write = |name: &str, text: &str| {
        let path = folder.path().join("mine").join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    fs::create_dir_all(folder.path().join("mine/own")).unwrap();
    assert!(ask(2).contains("`mine/own/bench.yaml`"), "where a symbol stands");
    let shelf = |gap: &str| {
        format!(
            "symbol: own/rack\nsays: Two uprights with a board\nsize:\n  run: {{ default: 600, least: 300, most: 900 }}\n  depth: {{ default: 300, least: 200, most: 400 }}\n  height: {{ default: 400, least: 300, most: height-most }}\nsettings:\n  low: {{ kind: length, least: 50, most: height / 2, default: 100 }}\nsolids:\n  body: {{ u: [0, run], v: [0, depth], w: [0, height], open: [front, back, top] }}\nparts:\n  side:\n    stock: carcass\n    at:\n      - {{ u: [0, t], v: [0, depth], w: [0, height] }}\n      - {{ u: [run - t, run], v: [0, depth], w: [0, height] }}\n  board: {{ stock: carcass, at: {{ u: [{gap}, run - {gap}], v: [60, depth - 60], w: [low, low + t] }} }}\n"
        )
        .replace("height-most", "900").replace("solids:", "let:\n  wide: t.carcass + if(height > 600, 60, 0)\nsolids:")
    };
    write("own/rack.yaml", &shelf("t"));
    let clean = ask(0);
    assert!(clean.contains("mine/own/rack: 9 ways, no fault"), "{clean}");
    assert!(clean.contains("1 symbol, 9 ways to make them: no fault"), "{clean}");
    write("own/rack.yaml", &shelf("t + 60").replace("own/rack", "own/gap"));
    assert!(ask(2).contains("holds the symbol `own/gap`"));
    write("own/rack.yaml", &shelf("wide"));
    let loose = ask(1);
    assert!(loose.contains("part-loose") && loose.contains("height 900 mm") && loose.contains("1 fault"), "{loose}");
    write("recipes/lid.yaml", "recipe: lead\nsays: A lid\n");
    write("own/no good.yaml", "symbol: own/no\n");
    let broken = ask(2);
    assert!(broken.contains("recipes/lid.yaml:") && broken.contains("can't be named `own/no good`"), "{broken}");
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_needs_leave() {
    let (folder, other) = (folder(), tempfile::tempdir().unwrap());
    fs::copy(folder.path().join("good.yaml"), other.path().join("base.yaml")).unwrap();
    std::os::unix::fs::symlink(other.path().join("base.yaml"), folder.path().join("base.yaml")).unwrap();
    write(&folder, "variant.yaml", "boxwright: 1\nextends: base.yaml\ntitle: A variant\n");
    boxwright(&folder).args(["check", "variant.yaml"]).assert().code(2);
    boxwright(&folder).args(["check", "variant.yaml", "--allow-outside"]).assert().code(0);
}

/// A list of parts with one that no sheet takes.
const PARTS: &str = "number,length,width,count,grain\nside,720,560,4,length\nbeam,3000,90,1,\n";

#[test]
fn parts_are_laid_and_drawn_and_what_is_too_large_is_named() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder, "parts.csv", PARTS);
    let mut command = boxwright(&folder);
    command.args(["nest", "parts.csv", "--effort", "1"]).assert().code(1);
    assert!(stderr(&mut command).contains("too large for every sheet: beam"));
    let made = bytes(&folder.path().join("out/parts"));
    assert!(made.contains_key("sheets.pdf") && made.contains_key("cutting-parts-1.svg"), "{:?}", made.keys());
    let svg = String::from_utf8(made["cutting-parts-1.svg"].clone()).unwrap();
    assert!(svg.contains("720 × 560") && svg.contains("fence"));
}

#[test]
fn plans_for_programs_have_every_part() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder, "parts.csv", "length,width,count,number\n600,400,3,a\n300,200,2,b\n");
    let mut command = boxwright(&folder);
    let text = stdout(command.args(["nest", "parts.csv", "--format", "json", "--sheet", "1300x1000", "--trim", "0"]));
    let plans: serde_json::Value = serde_json::from_str(&text).unwrap();
    let plan = &plans["instances"][0];
    assert_eq!(
        (plan["id"].as_str(), plan["sheets"].as_u64(), plan["bound"].as_u64()),
        (Some("parts"), Some(1), Some(1))
    );
    let layout = plan["layout"].as_array().unwrap();
    assert_eq!(layout.iter().filter(|one| one["part"] == "a" && one["sheet"] == 1).count(), 3);
    assert_eq!(layout.len(), 5);
    assert!(!folder.path().join("out").exists());
}

/// From standard input, with what is odd said beside the plan, and a quick preview.
#[test]
fn a_list_from_standard_input_is_laid() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = boxwright(&folder);
    command
        .args(["nest", "-", "--format", "json", "--effort", "0"])
        .write_stdin("number,length,width,count\na,600,400,\n");
    let plans: serde_json::Value = serde_json::from_str(&stdout(&mut command)).unwrap();
    assert_eq!((&plans["instances"][0]["id"], &plans["instances"][0]["sheets"]), (&"stdin".into(), &1.into()));
    let said = stderr(&mut command);
    assert!(said.contains("note: this row has no count") && said.contains("stdin:2:"), "{said}");
    let mut command = boxwright(&folder);
    command.args(["nest", "-"]).write_stdin("length,width\n6OO,400\n").assert().code(2);
}

/// A hundred thousand pieces end, and one more is refused with what to do.
#[test]
fn very_many_pieces_are_laid_and_more_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let list = |last: u32| {
        let row =
            |n: u32| format!("{},{},{}\n", 100 + n * 37 % 900, 60 + n * 53 % 400, if n < 99 { 1000 } else { last });
        format!("length,width,count\n{}", (0..100).map(row).collect::<String>())
    };
    let nest = |last| {
        let mut command = boxwright(&folder);
        command.args(["nest", "-", "--format", "json", "--effort", "0"]).write_stdin(list(last));
        command
    };
    let plans: serde_json::Value = serde_json::from_str(&stdout(&mut nest(1000))).unwrap();
    assert_eq!(plans["instances"][0]["layout"].as_array().unwrap().len(), 100_000);
    nest(1001).assert().code(2);
    assert!(stderr(&mut nest(1001)).contains("100001 pieces; at most 100000 are laid at once"));
}

#[test]
fn a_wrong_list_of_parts_is_shown_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder, "parts.csv", "number,length,width\na,600,4OO\n");
    write(&folder, "jobs.json", "{\"instances\": [{\"id\": \"a\",\n  \"items\": [{\"w\": 5}]}]}");
    for (file, place) in [("parts.csv", "parts.csv:2:7"), ("jobs.json", "jobs.json:2:")] {
        let mut command = boxwright(&folder);
        command.args(["nest", file]).assert().code(2);
        let told = stdout(&mut command);
        assert!(told.contains(place) && told.contains("help:"), "{told}");
    }
    boxwright(&folder).args(["nest", "gone.csv"]).assert().code(2);
}
