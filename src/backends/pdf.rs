//! PDF: one file for the sheet set, in mm, with text as text, layers, bookmarks and page labels.

use super::backend::{Backend, OutputFile, Product, Reads};
use super::font_subset::{subset, used_glyphs};
use super::pdf_content::POINTS;
use super::pdf_page::FONT;
use super::{pdf_mend, pdf_page};
use crate::drawing::{LayerKind, Paper, Sheet, font};
use printpdf::{
    FontId, FontMetrics, FontType, Layer, LayerIntent, LayerInternalId, LayerSubtype, Op, PageAnnotId, PageAnnotation,
    ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfFontMetricsStub, PdfPage, PdfSaveOptions, Pt, Rect, TextItem,
};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// The PDF back-end.
pub struct Pdf;

impl Backend for Pdf {
    fn name(&self) -> &'static str {
        "pdf"
    }

    fn says(&self) -> &'static str {
        "all sheets as one PDF file"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Sheets]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        Ok(vec![OutputFile { name: "sheets.pdf".into(), bytes: file(product.sheets, &product.model.title.title)? }])
    }
}

/// The sheets as the bytes of one PDF file with a title.
///
/// # Errors
/// A sentence, if the file can't be put together.
pub fn file(sheets: &[Sheet], title: &str) -> Result<Vec<u8>, String> {
    let title: String = font::shown(title).collect();
    let mut document = PdfDocument::new(&title);
    "Boxwright".clone_into(&mut document.metadata.info.producer);
    "Boxwright".clone_into(&mut document.metadata.info.creator);
    for kind in LayerKind::ALL {
        document.resources.layers.map.insert(LayerInternalId(kind.name().into()), layer(kind));
    }
    let glyphs: BTreeSet<u16> = sheets.par_iter().map(used_glyphs).reduce(BTreeSet::new, |a, b| &a | &b);
    document.resources.fonts.map.insert(FontId(FONT.into()), embedded_font(&glyphs));
    let none = BTreeSet::new();
    for (i, sheet) in sheets.iter().enumerate() {
        let bookmark = PageAnnotation { name: font::shown(&sheet.title).collect(), page: i + 1 };
        document.bookmarks.map.insert(PageAnnotId(format!("{i:06}")), bookmark);
        document.pages.push(page(sheet, if i == 0 { &glyphs } else { &none }));
    }
    let options = PdfSaveOptions { optimize: true, subset_fonts: false, secure: true, image_optimization: None };
    let document = document.to_lopdf_document(&options, &mut Vec::new());
    let contents = sheets.par_iter().map(|sheet| pdf_mend::deflate(&pdf_page::content(sheet)));
    let contents: Result<Vec<Vec<u8>>, _> = contents.collect();
    pdf_mend::finish(document, sheets, contents.map_err(|error| format!("The PDF can't be written: {error}."))?)
}

/// A page that has what its content will name: layers, and a font with some glyphs. The library takes both from the
/// steps that it is given; the real content comes later.
fn page(sheet: &Sheet, glyphs: &BTreeSet<u16>) -> PdfPage {
    let layers = sheet.views.iter().flat_map(|view| &view.layers).filter(|layer| !layer.items.is_empty());
    let kinds: BTreeSet<LayerKind> = layers.map(|layer| layer.kind).collect();
    let mut ops = Vec::new();
    for kind in kinds {
        ops.extend([Op::BeginLayer { layer_id: LayerInternalId(kind.name().into()) }, Op::EndLayer]);
    }
    if !glyphs.is_empty() {
        let font = PdfFontHandle::External(FontId(FONT.into()));
        // Of characters with the same glyph the last one is what a reader copies.
        let words = characters(glyphs).map(|(char, _)| char).collect::<Vec<_>>().into_iter().rev().collect();
        ops.extend([
            Op::StartTextSection,
            Op::SetFont { font, size: Pt(1.0) },
            Op::ShowText { items: vec![TextItem::Text(words)] },
            Op::EndTextSection,
        ]);
    }
    let paper = media_box(sheet.paper);
    PdfPage { media_box: paper.clone(), trim_box: paper.clone(), crop_box: paper, ops }
}

#[allow(clippy::cast_possible_truncation, reason = "the format stores single precision")]
fn media_box(paper: Paper) -> Rect {
    let points = |mm: f64| Pt(((mm * POINTS * 1000.0).round() / 1000.0) as f32);
    Rect::from_wh(points(paper.width), points(paper.height))
}

/// What is written with these glyphs. U+FFFD stands for all characters that the font lacks and shows as its box.
fn characters(glyphs: &BTreeSet<u16>) -> impl Iterator<Item = (char, font::Glyph)> {
    let lacking = font::lacking();
    let known = font::glyphs().filter(move |(_, glyph)| glyphs.contains(&glyph.id) && glyph.id != lacking.id);
    std::iter::once((char::REPLACEMENT_CHARACTER, lacking)).filter(|(_, box_)| glyphs.contains(&box_.id)).chain(known)
}

fn layer(kind: LayerKind) -> Layer {
    Layer {
        name: kind.name().into(),
        creator: "Boxwright".into(),
        intent: LayerIntent::View,
        usage: LayerSubtype::Artwork,
    }
}

/// The font with some of its glyphs.
fn embedded_font(glyphs: &BTreeSet<u16>) -> PdfFont {
    let mut codes = BTreeMap::new();
    let mut widths = BTreeMap::from([(font::lacking().id, font::lacking().advance)]);
    for (char, glyph) in characters(glyphs) {
        codes.insert(u32::from(char), glyph.id);
        widths.insert(glyph.id, glyph.advance);
    }
    PdfFont::new(ParsedFont {
        original_bytes: subset(font::BYTES, glyphs),
        font_index: 0,
        font_name: Some(font::EMBEDDED_NAME.into()),
        codepoint_to_glyph: codes,
        glyph_widths: widths,
        units_per_em: 2000,
        font_metrics: FontMetrics { ascent: 1930, descent: -500 },
        font_type: FontType::TrueType,
        pdf_font_metrics: PdfFontMetricsStub {
            units_per_em: 2000,
            x_min: -200,
            y_min: -500,
            x_max: 2200,
            y_max: 2000,
            us_weight_class: 400,
            ..PdfFontMetricsStub::default()
        },
    })
}
