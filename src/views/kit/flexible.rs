//! A table that can be made for any width: columns share what fixed ones leave, and no column is wider than its texts.

use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::{Column, RowLink, Table, text_width};
use crate::views::kit::words::plain;
use kurbo::Rect;
use std::borrow::Cow;
use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

/// Height of letters in tables, mm.
pub(in crate::views) const LETTERS: f64 = 1.8;
/// Height of a table's heading, mm.
pub(in crate::views) const HEADING: f64 = 4.6;

/// Height of letters in tables on sheets with room, mm.
const LARGER: f64 = 2.5;
/// Least width of most tables, mm.
const LEAST: f64 = 90.0;
/// Least part of a table's width for its columns that share.
const LEAST_SHARE: f64 = 0.22;
/// Air in a cell left and right of its text, mm.
pub(in crate::views) const CELL: f64 = 2.6;

/// A table that can be made for any width.
#[derive(Debug, Clone)]
pub(in crate::views) struct Flexible {
    /// Words over it.
    pub heading: String,
    /// Heads with a fixed width in mm, or a share of what is left when negative; the last says figures.
    columns: Vec<(Cow<'static, str>, f64, bool)>,
    /// All rows.
    pub rows: Vec<Vec<String>>,
    /// Where the rows lead; empty where none does.
    links: Vec<Option<RowLink>>,
    /// Narrower than this it is hard to read, mm.
    pub least: f64,
    /// Height of letters, mm.
    letters: f64,
    /// Heights of head and rows by the bits of a width, so that each is measured once.
    heights: RefCell<BTreeMap<u64, Rc<[f64]>>>,
    /// What the texts of each column need.
    needs: OnceCell<Vec<Need>>,
}

/// What the texts of a column need, mm with their air.
#[derive(Debug, Clone, Copy)]
struct Need {
    /// The longest word.
    word: f64,
    /// The longest text in one line.
    line: f64,
}

impl Flexible {
    /// A table; widths are mm, or shares of what is left where negative; the flag says figures.
    pub fn new(heading: &str, columns: &[(&'static str, f64, bool)], rows: Vec<Vec<String>>) -> Self {
        let columns = columns.iter().map(|(head, size, figures)| (Cow::Borrowed(*head), *size, *figures));
        Self::with(heading, columns.collect(), rows)
    }

    /// The same with heads that no source holds.
    pub fn with(heading: &str, columns: Vec<(Cow<'static, str>, f64, bool)>, rows: Vec<Vec<String>>) -> Self {
        let heading = heading.to_owned();
        Self {
            heading,
            columns,
            rows,
            links: Vec::new(),
            least: LEAST,
            letters: LETTERS,
            heights: RefCell::default(),
            needs: OnceCell::new(),
        }
    }

    /// The same table with another least width, mm.
    pub fn at_least(self, least: f64) -> Self {
        Self { least, ..self }
    }

    /// The same table with a name for each row and the name of the group that it leads to.
    pub fn leading(self, links: impl IntoIterator<Item = (String, String)>) -> Self {
        let link = |(id, to): (String, String)| Some(RowLink { id: plain(&id), to: plain(&to) });
        Self { links: links.into_iter().map(link).collect(), ..self }
    }

    /// The same table with nothing measured yet, after its rows were changed.
    pub fn afresh(self) -> Self {
        Self { heights: RefCell::default(), needs: OnceCell::new(), ..self }
    }

    /// The same table in larger letters, with columns as much wider.
    pub fn larger(&self) -> Self {
        let wider = |(head, size, figures): &(Cow<'static, str>, f64, bool)| {
            (head.clone(), if *size > 0.0 { size * LARGER / LETTERS } else { *size }, *figures)
        };
        let columns = self.columns.iter().map(wider).collect();
        let least = self.least * LARGER / LETTERS;
        Self { columns, least, letters: LARGER, heights: RefCell::default(), needs: OnceCell::new(), ..self.clone() }
    }

    /// The table in a width, with the rows from one index to another; narrower where no text needs more.
    pub fn table(&self, width: f64, from: usize, to: usize) -> Table {
        let widths = self.widths(width);
        let columns = self.columns.iter().zip(widths).map(|((head, _, figures), width)| {
            if *figures { Column::figures(head, width) } else { Column::words(head, width) }
        });
        let rows = self.rows.get(from..to).unwrap_or_default().to_vec();
        let links = self.links.get(from..to).unwrap_or_default().to_vec();
        Table { columns: columns.collect(), rows, letters: self.letters, links }
    }

    /// Widths of the columns: fixed ones give way toward their longest word where shares would get too little; shares
    /// take no more than their longest text.
    fn widths(&self, width: f64) -> Vec<f64> {
        let needs = self.needs.get_or_init(|| (0..self.columns.len()).map(|column| self.need(column)).collect());
        let fixed: f64 = self.columns.iter().map(|column| column.1.max(0.0)).sum();
        let columns = || self.columns.iter().map(|column| column.1).zip(needs);
        let shared: f64 = columns().filter(|(size, _)| *size < 0.0).map(|(_, need)| need.line).sum();
        let room = width - shared.min(width * LEAST_SHARE);
        let least: f64 = columns().filter(|(size, _)| *size > 0.0).map(|(size, need)| need.word.min(size)).sum();
        let kept = if fixed > room { ((room - least) / (fixed - least)).clamp(0.0, 1.0) } else { 1.0 };
        let mut widths: Vec<f64> = columns()
            .map(
                |(size, need)| if size > 0.0 { need.word.min(size) + (size - need.word.min(size)) * kept } else { 0.0 },
            )
            .collect();
        let mut left = (width - widths.iter().sum::<f64>()).max(0.0);
        let mut open: Vec<usize> = (0..widths.len()).filter(|at| self.share(*at) > 0.0).collect();
        while !open.is_empty() {
            let shares: f64 = open.iter().map(|at| self.share(*at)).sum();
            let of = |at: usize| left * self.share(at) / shares;
            let need = |at: usize| needs.get(at).map_or(0.0, |need| need.line);
            let filled: Vec<usize> = open.iter().copied().filter(|at| need(*at) <= of(*at)).collect();
            let given: Vec<(usize, f64)> = match filled.as_slice() {
                [] => open.drain(..).map(|at| (at, of(at))).collect(),
                filled => filled.iter().map(|at| (*at, need(*at))).collect(),
            };
            open.retain(|at| !filled.contains(at));
            for (at, given) in given {
                left -= given;
                if let Some(width) = widths.get_mut(at) {
                    *width = given;
                }
            }
        }
        widths
    }

    fn share(&self, column: usize) -> f64 {
        self.columns.get(column).map_or(0.0, |column| (-column.1).max(0.0))
    }

    /// What the texts of a column need.
    fn need(&self, column: usize) -> Need {
        let head = self.columns.get(column).map_or("", |column| column.0.as_ref());
        let texts = self.rows.iter().filter_map(|row| row.get(column)).map(String::as_str).chain([head]);
        let width = |words: &str| text_width(words, self.letters) + CELL;
        texts.fold(Need { word: 0.0, line: 0.0 }, |need, text| Need {
            word: text.split_whitespace().map(width).fold(need.word, f64::max),
            line: need.line.max(width(text)),
        })
    }

    /// How many rows, from one on, fit a place with the heading.
    pub fn fitting_in(&self, slot: Rect, from: usize) -> usize {
        if slot.width() < self.least { 0 } else { self.fitting(slot.width(), from, slot.height() - HEADING) }
    }

    /// How many rows, from one on, fit a height.
    pub fn fitting(&self, width: f64, from: usize, height: f64) -> usize {
        let heights = self.heights(width);
        let head = heights.first().copied().unwrap_or(0.0);
        let mut used = head + SAME_LENGTH;
        let mut holds = |row: &&f64| {
            used += **row;
            used <= height
        };
        heights.iter().skip(from + 1).take_while(|row| holds(row)).count()
    }

    /// Heights of the head and of each row in a width.
    fn heights(&self, width: f64) -> Rc<[f64]> {
        let mut known = self.heights.borrow_mut();
        let heights = known.entry(width.to_bits()).or_insert_with(|| {
            let head = self.table(width, 0, 0).height();
            let rows = (0..self.rows.len()).map(|row| self.table(width, row, row + 1).height() - head);
            std::iter::once(head).chain(rows).collect()
        });
        Rc::clone(heights)
    }
}
