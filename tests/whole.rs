//! Outputs whole, whatever happens: builds killed at random, stopped by signals, and several into one folder.
//!
//! `KILLS=200` sets how many builds are killed.

#![cfg(unix)]
#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;

use command::{boxwright, bytes, folder, names};
use std::collections::BTreeMap;
use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

type Files = BTreeMap<String, Vec<u8>>;

/// Builds of one layout that make different files.
const KINDS: [&str; 2] = ["cut-list,findings-json", "svg,cut-list,model-json"];

fn start(folder: &TempDir, only: &str) -> Child {
    let mut command = Command::new(env!("CARGO_BIN_EXE_boxwright"));
    command.args(["build", "good.yaml", "--quiet", "--only", only]).current_dir(folder.path());
    command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
}

/// What each kind of build makes.
fn wanted(folder: &TempDir) -> [Files; 2] {
    KINDS.map(|only| {
        boxwright(folder).args(["build", "good.yaml", "--out", only, "--only", only]).assert().code(0);
        bytes(&folder.path().join(only).join("good"))
    })
}

/// Pseudo-random figures (the multiplier is Knuth's, MMIX).
struct Random(u64);

impl Random {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }
}

/// Waits until a build begins to write beside the folder, or ends.
fn wait_for_writing(out: &Path, child: &mut Child) {
    while child.try_wait().unwrap().is_none() && names(out).len() < 2 {
        std::thread::yield_now();
    }
}

/// Outputs in a folder without the foreign file.
fn outputs(folder: &Path) -> Files {
    let mut files = bytes(folder);
    assert_eq!(files.remove("notes.txt"), Some(b"mine".to_vec()), "the foreign file");
    files
}

#[test]
fn builds_killed_at_random_leave_all_old_or_all_new() {
    let kills: u64 = std::env::var("KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(12);
    let folder = folder();
    let wanted = wanted(&folder);
    let out = folder.path().join("out");
    let good = out.join("good");
    boxwright(&folder).args(["build", "good.yaml", "--only", KINDS[0]]).assert().code(0);
    fs::write(good.join("notes.txt"), "mine").unwrap();
    let begin = Instant::now();
    assert!(start(&folder, KINDS[0]).wait().unwrap().success());
    let usual = u64::try_from(begin.elapsed().as_micros()).unwrap();
    let (mut random, mut killed, mut writing) = (Random(7), 0, 0);
    for round in 0..kills {
        let kind = usize::try_from(round % 2).unwrap();
        let mut child = start(&folder, KINDS[1 - kind]);
        if round % 4 == 0 {
            std::thread::sleep(Duration::from_micros(random.below(usual)));
        } else {
            wait_for_writing(&out, &mut child);
            std::thread::sleep(Duration::from_micros(random.below(3000)));
        }
        child.kill().unwrap();
        killed += u64::from(child.wait().unwrap().signal().is_some());
        writing += u64::from(names(&out).len() > 1);
        let found = outputs(&good);
        assert!(wanted.contains(&found), "round {round}: {:?}", found.keys());
        boxwright(&folder).args(["build", "good.yaml", "--quiet", "--only", KINDS[kind]]).assert().code(0);
        assert_eq!(outputs(&good), wanted[kind], "round {round}");
        assert_eq!(names(&out), ["good"], "round {round}: nothing is left beside it");
    }
    println!("{killed} of {kills} builds killed, {writing} of them while they wrote");
    assert!(killed * 2 >= kills && writing > 0, "{killed} killed, {writing} while they wrote");
}

#[test]
fn signals_leave_nothing_behind() {
    let folder = folder();
    let wanted = wanted(&folder);
    let out = folder.path().join("out");
    boxwright(&folder).args(["build", "good.yaml", "--only", KINDS[0]]).assert().code(0);
    fs::write(out.join("good/notes.txt"), "mine").unwrap();
    let mut stopped = 0;
    for round in 0..8 {
        let (name, number) = [("-INT", 2), ("-TERM", 15)][round % 2];
        let mut child = start(&folder, KINDS[1 - round / 2 % 2]);
        wait_for_writing(&out, &mut child);
        let sent = Command::new("kill").args([name, &child.id().to_string()]).status().unwrap();
        let ended = child.wait().unwrap();
        if sent.success() && ended.signal().is_some() {
            assert_eq!(ended.signal(), Some(number), "round {round}");
            stopped += 1;
        }
        assert!(wanted.contains(&outputs(&out.join("good"))), "round {round}");
        assert_eq!(names(&out), ["good"], "round {round}: nothing is left beside it");
    }
    assert!(stopped > 0, "no signal came in time");
}

#[test]
fn several_builds_into_one_folder_wait_for_each_other() {
    let folder = folder();
    let wanted = wanted(&folder);
    let children: Vec<Child> = (0..6).map(|at| start(&folder, KINDS[at % 2])).collect();
    for child in children {
        let output = child.wait_with_output().unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    assert!(wanted.contains(&bytes(&folder.path().join("out/good"))));
    assert_eq!(names(&folder.path().join("out")), ["good"]);
}
