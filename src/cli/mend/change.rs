//! Changed files: as they will be, and what changes in them line by line.

use crate::cli::disk::{Changed, Disk};
use crate::compile::Compiled;
use crate::diagnostic::{Edit, edited};
use crate::source::{FileId, MemoryWorld, Overlay, SourceFile, shown};
use std::fmt::Write;

/// Lines that are shown before and behind a change.
const AROUND: usize = 3;

/// A file with its edits.
pub(super) fn changed(file: &SourceFile, id: FileId, edits: &[Edit]) -> Changed {
    let (path, before) = (file.name.clone(), file.text.clone());
    let after = edited(&before, id, edits);
    Changed { path, before, after }
}

/// The disk with changed files.
pub(super) fn with_changes<'a>(disk: &'a Disk, files: &[Changed]) -> Overlay<'a> {
    let over = files.iter().fold(MemoryWorld::default(), |world, file| world.with(&file.path, &file.after));
    Overlay::new(disk, over)
}

/// Whether two of some edits change one place.
pub(super) fn overlaps(edits: &[&Edit]) -> bool {
    let mut all: Vec<&Edit> = edits.to_vec();
    all.sort_by_key(|edit| (edit.span.file, edit.span.start, edit.span.end));
    let meet = |a: &Edit, b: &Edit| a.span.file == b.span.file && (b.span.start < a.span.end || a.span == b.span);
    all.windows(2).any(|pair| matches!(pair, [a, b] if meet(a, b)))
}

/// The edits as a unified diff, with the files' names.
pub(super) fn unified(compiled: &Compiled, edits: &[Edit]) -> String {
    let mut told = String::new();
    let files = (0..).map(FileId).map_while(|id| compiled.sources.file(id).map(|file| (id, file)));
    for (id, file) in files.filter(|(id, _)| edits.iter().any(|edit| edit.span.file == *id)) {
        let made = changed(file, id, edits);
        let name = shown(&file.name);
        let _in_memory = write!(told, "--- {name}\n+++ {name}\n{}", hunk(&made.before, &made.after));
    }
    told
}

/// The lines that differ, in one piece with those around them.
fn hunk(before: &str, after: &str) -> String {
    let [old, new] = [before, after].map(|text| text.lines().collect::<Vec<&str>>());
    let same = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let rest = old.len().min(new.len()) - same;
    let tail = old.iter().rev().zip(new.iter().rev()).take(rest).take_while(|(a, b)| a == b).count();
    let start = same.saturating_sub(AROUND);
    let behind = tail.min(AROUND);
    let ends = [old.len() - tail, new.len() - tail];
    let mut told =
        format!("@@ -{},{} +{},{} @@\n", start + 1, ends[0] + behind - start, start + 1, ends[1] + behind - start);
    let mut lines = |sign: char, lines: &[&str]| {
        for line in lines {
            let _in_memory = writeln!(told, "{sign}{}", shown(line));
        }
    };
    lines(' ', old.get(start..same).unwrap_or_default());
    lines('-', old.get(same..ends[0]).unwrap_or_default());
    lines('+', new.get(same..ends[1]).unwrap_or_default());
    lines(' ', old.get(ends[0]..ends[0] + behind).unwrap_or_default());
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Span;

    // By hand, in the form of POSIX diff -u.
    #[test]
    fn a_hunk_has_three_lines_around_it() {
        let old = "1\n2\n3\n4\n5\n6\n7\n8\n9\n";
        assert_eq!(hunk(old, &old.replace('5', "five")), "@@ -2,7 +2,7 @@\n 2\n 3\n 4\n-5\n+five\n 6\n 7\n 8\n");
        assert_eq!(hunk(old, &old.replace("1\n", "0\n1\n")), "@@ -1,3 +1,4 @@\n+0\n 1\n 2\n 3\n");
        assert_eq!(hunk("a\n", "b\n"), "@@ -1,1 +1,1 @@\n-a\n+b\n");
        assert_eq!(hunk("x\nx\n", "x\nx\nx\n"), "@@ -1,2 +1,3 @@\n x\n x\n+x\n");
    }

    #[test]
    fn changes_of_one_place_are_seen() {
        let edit = |start, end| Edit { span: Span { file: FileId(0), start, end }, text: String::new() };
        let meet = |a: Edit, b: Edit| overlaps(&[&a, &b]);
        assert!(meet(edit(0, 5), edit(4, 6)) && meet(edit(3, 3), edit(3, 3)) && meet(edit(0, 5), edit(0, 5)));
        assert!(!meet(edit(0, 5), edit(5, 6)) && !meet(edit(5, 5), edit(0, 5)));
    }
}
