//! Sheets that come from outside: what is on them, before they have frame and number.

use super::sheet::View;

/// A sheet from outside.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GivenSheet {
    /// Name by which it is chosen: that of a plug-in, a colon, that of its sheet.
    pub name: String,
    /// File stem and key.
    pub id: String,
    /// Name for people.
    pub title: String,
    /// Tables, one under the other, on as many pages as they need.
    pub tables: Vec<GivenTable>,
    /// Or pictures in paper millimetres.
    pub views: Vec<View>,
}

/// A table for which room is found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GivenTable {
    /// Words over it.
    pub heading: String,
    /// Heads with a width in mm, or a share of what is left where negative; the last says figures.
    pub columns: Vec<(String, f64, bool)>,
    /// Rows with as many texts as there are columns.
    pub rows: Vec<Vec<String>>,
}
