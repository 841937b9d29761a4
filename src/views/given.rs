//! Sheets from outside: their tables are laid out, their pictures taken as they are.

use crate::drawing::{GivenSheet, GivenTable, Paper};
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::pages;
use std::borrow::Cow;

/// The drafts of some sheets.
pub(in crate::views) fn sheets(paper: Paper, held: bool, given: &GivenSheet) -> Vec<Draft> {
    let GivenSheet { name: _, id, title, tables, views } = given;
    if !tables.is_empty() {
        let tables: Vec<Flexible> = tables.iter().map(table).collect();
        return pages::sheets(paper, held, id, title, &tables, 0);
    }
    vec![Draft {
        paper,
        id: id.clone(),
        title: title.clone(),
        document_type: title.clone(),
        supplement: String::new(),
        scale: views.iter().find_map(|view| view.scale),
        views: views.clone(),
    }]
}

/// A table; one without rows says so.
fn table(given: &GivenTable) -> Flexible {
    let GivenTable { heading, columns, rows } = given;
    let columns: Vec<_> =
        columns.iter().map(|(head, size, figures)| (Cow::Owned(head.clone()), *size, *figures)).collect();
    let none =
        || vec![std::iter::once("none".to_owned()).chain(columns.iter().skip(1).map(|_| String::new())).collect()];
    let rows = if rows.is_empty() { none() } else { rows.clone() };
    Flexible::with(heading, columns, rows)
}
