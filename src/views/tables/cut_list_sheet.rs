//! Sheets of the cut list: a table of parts for each stock, and totals. Sizes in mm: length × width × thickness.

use crate::base::number::trimmed;
use crate::drawing::Paper;
use crate::figures::Figures;
use crate::joinery::{
    BAND_END, BandTotal, CutList, Row, StockTotal, band_words, machining, row_note, sheets_of_each_size,
};
use crate::model::{Model, Stock};
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::pages;

/// Sheets for all rows of the cut list; none for an empty one.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let (model, list) = (figures.model, figures.cut_list());
    let mut tables: Vec<Flexible> = list
        .totals
        .iter()
        .flat_map(|total| total.stocks.iter().map(|stock| parts(model, list, total, *stock)))
        .collect();
    tables.push(totals(model, list));
    tables.extend(Some(bands(model, &figures.purchases().bands)).filter(|table| !table.rows.is_empty()));
    tables.push(how_to_read());
    let mut drafts = pages::sheets(paper, held, "cut-list", "Cut list", &tables, 0);
    for (index, draft) in drafts.iter_mut().enumerate() {
        draft.id = format!("cut-list-{}", index + 1);
    }
    drafts
}

/// What the words of the cut list mean.
fn how_to_read() -> Flexible {
    let lines = [
        (
            "face",
            "The machined side of a piece, or its good one. What is machined on the other side says `on the back`.",
        ),
        (
            "datum corner",
            "Where its front and its left edge meet. Places are (along the length, across the width) from it on the finished piece, bands on, in mm; of grooves the middle line, of cut-outs the corner nearest to the datum.",
        ),
        (
            "shaped",
            "Corners in order around the piece, straight from one to the next or by an arc of radius R; a hollow arc is cut into the piece.",
        ),
        (
            "right hand",
            "Face up and length to the right, the datum corner is at the lower left: front below, back above. Pieces without a hand lie so too.",
        ),
        (
            "left hand",
            "The mirror image: face up and length to the right, the datum corner is at the upper left: front above, back below.",
        ),
        (
            "edges",
            "Front and back run along the length (the first figure of the size), left and right across it, wherever the piece stands in the module.",
        ),
        (
            "stands at",
            "On the sheets of the modules: from the left end, the front and the floor of the module to the piece, as you stand before the module.",
        ),
        (
            "finished size",
            "Length x width x thickness with bands. Saw size: less the bands, plus what is left on for scribing.",
        ),
        ("scribing", "Left on at that edge beyond the finished size; outlines and part files are of finished size."),
        ("grain", "Along the length or the width; `free` where the stock has none or it does not matter."),
    ];
    let rows = lines.iter().map(|(word, says)| vec![(*word).to_owned(), (*says).to_owned()]).collect();
    Flexible::new("How to read the cut list", &[("word", 30.0, false), ("what it means", -1.0, false)], rows)
}

/// A stock, or stocks of one material, with what they are.
fn named(names: &str, stock: Option<&Stock>) -> String {
    stock.map_or_else(String::new, |stock| format!("{names} ({}, {} mm)", stock.material, trimmed(stock.thickness, 1)))
}

/// The rows of one stock.
fn parts(model: &Model, list: &CutList, total: &StockTotal, stock: usize) -> Flexible {
    let own = || list.rows.iter().filter(move |row| row.stock == stock);
    let rows = own().map(part).collect();
    let stock_of = model.stocks.get(stock);
    let name = stock_of.map_or("", |stock| stock.name.as_str());
    let columns = [
        ("no.", 27.0, false),
        ("part", -0.62, false),
        ("modules", -0.38, false),
        ("count", 12.0, true),
        ("cut size", 27.0, false),
        ("finished size", 36.0, false),
        ("grain", 14.0, false),
        ("bands", 40.0, false),
        ("mass each, kg", 24.0, true),
    ];
    let (pieces, sheets) = (own().fold(0_u32, |sum, row| sum.saturating_add(row.count)), total.plan.sheets.len());
    let words = |count: usize, one: &str| format!("{count} {one}{}", if count == 1 { "" } else { "s" });
    let with = if total.stocks.len() > 1 { format!(" for {}", total.names(model)) } else { String::new() };
    let counts = format!("{}, {}{with}", words(pieces as usize, "piece"), words(sheets, "sheet"));
    let links = own().map(|row| {
        let module = row.modules.first().map(|(name, _)| format!("label-{name}"));
        (format!("row-{}", row.number), module.unwrap_or_default())
    });
    let table = Flexible::new(&format!("{}: {counts}", named(name, stock_of)), &columns, rows);
    table.leading(links)
}

fn part(row: &Row) -> Vec<String> {
    let size = |values: &[f64]| values.iter().map(|value| trimmed(*value, 1)).collect::<Vec<_>>().join(" × ");
    let modules: Vec<String> = row.modules.iter().map(|(name, count)| format!("{count} for {name}")).collect();
    let more = [machining(row), row_note(row)];
    let more = more.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join("; ");
    vec![
        row.number.clone(),
        if more.is_empty() { row.name.clone() } else { format!("{}: {more}", row.name) },
        modules.join(", "),
        row.count.to_string(),
        size(&[row.cut.0, row.cut.1]),
        size(&[row.finished.0, row.finished.1, row.finished.2]),
        row.grain.name().to_owned(),
        band_words(row),
        trimmed(row.mass, 2),
    ]
}

fn totals(model: &Model, list: &CutList) -> Flexible {
    let mut rows: Vec<Vec<String>> = list.totals.iter().map(|total| total_row(model, total)).collect();
    if rows.len() > 1 {
        rows.push(all_row(list));
    }
    let columns = [
        ("stock", -1.0, false),
        ("pieces", 18.0, true),
        ("area, m²", 22.0, true),
        ("mass, kg", 22.0, true),
        ("sheets", 46.0, false),
        ("least possible", 26.0, true),
        ("waste", 18.0, true),
        ("price", 22.0, true),
        ("too large for a sheet", 36.0, true),
    ];
    Flexible::new("Totals", &columns, rows)
}

/// Edge bands to buy.
fn bands(model: &Model, bands: &[BandTotal]) -> Flexible {
    let rows = bands.iter().map(|band| {
        vec![
            band.words("×"),
            format!("{} ({})", band.material, band.names(model)),
            band.edges.to_string(),
            trimmed(band.metres, 2),
            trimmed(band.buy, 0),
            band.price.map(|price| trimmed(price, 2)).unwrap_or_default(),
        ]
    });
    let columns = [
        ("band", 46.0, false),
        ("for boards", -1.0, false),
        ("edges", 18.0, true),
        ("on the pieces, m", 28.0, true),
        ("to buy, m", 22.0, true),
        ("price", 22.0, true),
    ];
    let end = trimmed(BAND_END, 0);
    Flexible::new(
        &format!("Edge bands, {end} mm over at each end of an edge, in whole metres"),
        &columns,
        rows.collect(),
    )
}

fn total_row(model: &Model, total: &StockTotal) -> Vec<String> {
    let too_large = total.plan.too_large.len();
    vec![
        named(&total.names(model), total.stocks(model).next()),
        total.pieces.to_string(),
        trimmed(total.area, 2),
        trimmed(total.mass, 1),
        sheets_of_each_size(total, "×").join(", "),
        total.plan.bound.to_string(),
        format!("{} %", trimmed(total.waste * 100.0, 0)),
        total.price.map(|price| trimmed(price, 2)).unwrap_or_default(),
        if too_large > 0 { too_large.to_string() } else { String::new() },
    ]
}

/// The sums of all stocks; of prices those that are known.
fn all_row(list: &CutList) -> Vec<String> {
    let totals = &list.totals;
    let price: Option<f64> = totals.iter().filter_map(|total| total.price).reduce(|a, b| a + b);
    let some = if totals.iter().all(|total| total.price.is_some()) { "" } else { " of what has one" };
    vec![
        "all stocks".to_owned(),
        totals.iter().fold(0_u32, |sum, total| sum.saturating_add(total.pieces)).to_string(),
        trimmed(totals.iter().map(|total| total.area).sum(), 2),
        trimmed(totals.iter().map(|total| total.mass).sum(), 1),
        totals.iter().map(|total| total.plan.sheets.len()).sum::<usize>().to_string(),
        totals.iter().map(|total| total.plan.bound).sum::<usize>().to_string(),
        String::new(),
        price.map(|price| format!("{}{some}", trimmed(price, 2))).unwrap_or_default(),
        String::new(),
    ]
}
