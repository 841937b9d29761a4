//! Upper bounds on the number of blocks in a set of cells.

use super::grid::Grid;

/// No more blocks than this fit on the cells of the grid.
///
/// A block has eight cells. Along each diagonal numbering `x +- y +- z` modulo 4 it covers every number twice, so four
/// times the rarest class is a bound; and it covers as many plus as minus cells of every product of three patterns of
/// period 4 with two plus and two minus signs.
pub(super) fn most(grid: &Grid) -> usize {
    let classes = classes(grid);
    let cells: i64 = classes.iter().sum();
    let diagonal = [(1, 1), (1, 3), (3, 1), (3, 3)].into_iter().map(|(s, t)| rarest(&classes, s, t) / 2);
    let patterns =
        PATTERNS.iter().flat_map(|p| PATTERNS.iter().flat_map(move |q| PATTERNS.iter().map(move |r| (p, q, r))));
    let signed = patterns.map(|(p, q, r)| (cells - sum(&classes, p, q, r).abs()) / 8);
    let least = diagonal.chain(signed).fold(cells / 8, i64::min);
    usize::try_from(least).unwrap_or(0)
}

const PATTERNS: [[i64; 4]; 6] =
    [[1, 1, -1, -1], [1, -1, 1, -1], [1, -1, -1, 1], [-1, 1, 1, -1], [-1, 1, -1, 1], [-1, -1, 1, 1]];

/// Number of free cells for each (x, y, z) modulo 4.
fn classes(grid: &Grid) -> [i64; 64] {
    let mut counts = [0; 64];
    for (index, _) in grid.cells().iter().enumerate().filter(|(_, free)| **free) {
        let [x, y, z] = grid.cell(index);
        if let Some(count) = counts.get_mut(x % 4 * 16 + y % 4 * 4 + z % 4) {
            *count += 1;
        }
    }
    counts
}

fn rarest(classes: &[i64; 64], s: usize, t: usize) -> i64 {
    let of = |class: usize| {
        let member = |(index, _): &(usize, &i64)| (index / 16 + s * (index / 4 % 4) + t * (index % 4)) % 4 == class;
        classes.iter().enumerate().filter(member).map(|(_, count)| count).sum::<i64>()
    };
    (0..4).map(of).min().unwrap_or(0)
}

fn sum(classes: &[i64; 64], p: &[i64; 4], q: &[i64; 4], r: &[i64; 4]) -> i64 {
    let signs = p.iter().flat_map(|a| q.iter().flat_map(move |b| r.iter().map(move |c| a * b * c)));
    classes.iter().zip(signs).map(|(count, sign)| count * sign).sum()
}
