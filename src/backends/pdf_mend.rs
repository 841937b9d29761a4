//! What the PDF library leaves to be mended: page contents, version, ids, layer order, page labels, viewer settings.

use super::number::on_paper;
use super::pdf_content::POINTS;
use crate::drawing::{LayerKind, Sheet, Spots, font, links};
use flate2::{Compression, write::ZlibEncoder};
use kurbo::Rect;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat, dictionary};
use rayon::prelude::*;
use std::io::Write;

/// What is shown around the place that a link leads to, mm.
const AROUND: f64 = 20.0;

/// How hard streams are deflated, 1 to 9: beyond this, time grows and files hardly shrink.
const EFFORT: u32 = 5;
/// Stands in the file until its id is known.
const NO_ID: &str = "00000000000000000000000000000000";

/// Mends a document, gives its pages their deflated contents and gives its bytes.
///
/// # Errors
/// A sentence, if the document lacks a part or can't be written.
pub fn finish(mut document: Document, sheets: &[Sheet], contents: Vec<Vec<u8>>) -> Result<Vec<u8>, String> {
    document.version = "1.7".into();
    mend(&mut document, sheets).map_err(|error| format!("The PDF can't be put together: {error}."))?;
    set_contents(&mut document, contents).map_err(|error| format!("The PDF can't be put together: {error}."))?;
    deflate_streams(&mut document).map_err(|error| format!("The PDF can't be written: {error}."))?;
    let no_id = Object::String(vec![0; NO_ID.len() / 2], StringFormat::Hexadecimal);
    document.trailer.set("ID", vec![no_id.clone(), no_id]);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|error| format!("The PDF can't be written: {error}."))?;
    sign(&mut bytes).ok_or("The PDF can't be put together: it has no place for its identifier.")?;
    Ok(bytes)
}

/// Puts deflated contents in, in the order of the pages.
fn set_contents(document: &mut Document, contents: Vec<Vec<u8>>) -> lopdf::Result<()> {
    for (page, content) in document.get_pages().into_values().zip(contents) {
        let stream = document.get_dictionary(page)?.get(b"Contents")?.as_reference()?;
        let stream = document.get_object_mut(stream)?.as_stream_mut()?;
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(content);
    }
    Ok(())
}

/// Deflates the streams that are not yet, side by side.
fn deflate_streams(document: &mut Document) -> std::io::Result<()> {
    let streams = document.objects.values_mut().filter_map(|object| object.as_stream_mut().ok());
    let plain: Vec<&mut Stream> = streams.filter(|stream| stream.dict.get(b"Filter").is_err()).collect();
    plain.into_par_iter().try_for_each(|stream| {
        let deflated = deflate(&stream.content)?;
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(deflated);
        Ok(())
    })
}

/// The bytes as a stream of RFC 1950.
pub fn deflate(bytes: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(EFFORT));
    encoder.write_all(bytes)?;
    encoder.finish()
}

/// Puts the hash of the file in the two places of its id, in the trailer.
fn sign(bytes: &mut [u8]) -> Option<()> {
    let id = format!("{:032X}", content_hash(bytes));
    let length = NO_ID.len();
    let mut end = bytes.len();
    for _ in 0..2 {
        let before = bytes.get(..end)?;
        let at = before.windows(length).rposition(|window| window == NO_ID.as_bytes())?;
        bytes.get_mut(at..at + length)?.copy_from_slice(id.as_bytes());
        end = at;
    }
    Some(())
}

/// FNV-1a, 128 bits: the same content has the same id.
fn content_hash(bytes: &[u8]) -> u128 {
    const OFFSET: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    bytes.iter().fold(OFFSET, |hash, byte| (hash ^ u128::from(*byte)).wrapping_mul(PRIME))
}

fn mend(document: &mut Document, sheets: &[Sheet]) -> lopdf::Result<()> {
    mend_info(document)?;
    mend_layers(document)?;
    mend_bookmarks(document)?;
    mend_pages(document);
    add_links(document, sheets);
    let catalog = document.catalog_mut()?;
    catalog.set("PageMode", if sheets.is_empty() { "UseNone" } else { "UseOutlines" });
    catalog.set("PageLayout", "SinglePage");
    catalog.set("PageLabels", page_labels(sheets));
    catalog.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true, "PrintScaling" => "None" });
    Ok(())
}

/// No dates, no claim of a standard that the file does not keep.
fn mend_info(document: &mut Document) -> lopdf::Result<()> {
    let info = document.trailer.get(b"Info")?.as_reference()?;
    let info = document.get_dictionary_mut(info)?;
    for key in [&b"CreationDate"[..], b"ModDate", b"GTS_PDFXVersion", b"Identifier", b"Trapped"] {
        info.remove(key);
    }
    let empty: Vec<Vec<u8>> = info.iter().filter(|(_, value)| is_empty(value)).map(|(key, _)| key.clone()).collect();
    for key in empty {
        info.remove(&key);
    }
    Ok(())
}

/// An empty text, with or without a byte order mark.
fn is_empty(value: &Object) -> bool {
    value.as_str().is_ok_and(|text| text.is_empty() || text == [0xfe, 0xff])
}

/// Layers listed from front to back, as viewers show them, and without the library's usage notes.
fn mend_layers(document: &mut Document) -> lopdf::Result<()> {
    let listed = document.catalog()?.get(b"OCProperties")?.as_dict()?.get(b"OCGs")?.as_array()?.clone();
    let mut ordered: Vec<(LayerKind, ObjectId)> = Vec::new();
    for object in listed {
        let id = object.as_reference()?;
        let group = document.get_dictionary_mut(id)?;
        group.remove(b"Usage");
        group.set("Intent", "View");
        let name = group.get(b"Name")?.as_str()?.to_vec();
        ordered.extend(LayerKind::ALL.into_iter().find(|kind| kind.name().as_bytes() == name).map(|kind| (kind, id)));
    }
    ordered.sort();
    let all: Vec<Object> = ordered.iter().map(|(_, id)| Object::Reference(*id)).collect();
    let front_first: Vec<Object> = all.iter().rev().cloned().collect();
    let shown = dictionary! { "Name" => text("All layers"), "BaseState" => "ON", "Order" => front_first };
    document.catalog_mut()?.set("OCProperties", dictionary! { "OCGs" => all, "D" => shown });
    Ok(())
}

/// Bookmarks show their whole sheet.
fn mend_bookmarks(document: &mut Document) -> lopdf::Result<()> {
    for object in document.objects.values_mut() {
        let Ok(entry) = object.as_dict_mut() else { continue };
        let page = entry.get(b"Dest").and_then(Object::as_array).ok().and_then(|dest| dest.first()).cloned();
        if let Some(page) = page {
            entry.set("Dest", vec![page, "Fit".into()]);
        }
    }
    Ok(())
}

/// No empty lists of links, no boxes that only say what the media box says.
fn mend_pages(document: &mut Document) {
    for id in document.get_pages().into_values() {
        let Ok(page) = document.get_dictionary_mut(id) else { continue };
        page.remove(b"CropBox");
        if page.get(b"Annots").and_then(Object::as_array).is_ok_and(Vec::is_empty) {
            page.remove(b"Annots");
        }
    }
}

/// Links of each sheet to places of this or other sheets, which then stand at the top of the window.
fn add_links(document: &mut Document, sheets: &[Sheet]) {
    let spots = Spots::new(sheets);
    let pages: Vec<ObjectId> = document.get_pages().into_values().collect();
    for (index, (sheet, page)) in sheets.iter().zip(&pages).enumerate() {
        let layers = sheet.views.iter().flat_map(|view| &view.layers);
        let found = layers.flat_map(|layer| links(&layer.items)).filter_map(|(place, to)| {
            let spot = spots.find(index, to)?;
            Some(link(place, *pages.get(spot.sheet)?, spot.bounds))
        });
        let found: Vec<Object> = found.map(Object::from).collect();
        if let Some(page) = document.get_dictionary_mut(*page).ok().filter(|_| !found.is_empty()) {
            page.set("Annots", found);
        }
    }
}

/// A length as a number of points, rounded to thousandths.
#[allow(clippy::cast_possible_truncation, reason = "the library stores single precision")]
fn number(mm: f64) -> Object {
    Object::Real(((on_paper(mm * POINTS) * 1000.0).round() / 1000.0) as f32)
}

/// A link that shows nothing of its own.
fn link(place: Rect, page: ObjectId, to: Rect) -> Dictionary {
    let place = [place.x0, place.y0, place.x1, place.y1].map(number).to_vec();
    let (left, top) = (number(to.x0 - AROUND), number(to.y1 + AROUND));
    let destination: Vec<Object> = vec![page.into(), "XYZ".into(), left, top, Object::Null];
    dictionary! {
        "Type" => "Annot", "Subtype" => "Link", "Rect" => place, "Border" => vec![0.into(), 0.into(), 0.into()],
        "Dest" => destination,
    }
}

/// Each page is called by its sheet's id.
fn page_labels(sheets: &[Sheet]) -> Dictionary {
    let label = |(page, sheet): (usize, &Sheet)| {
        let name: String = font::shown(&sheet.id).collect();
        [Object::Integer(i64::try_from(page).unwrap_or(0)), dictionary! { "P" => text(&name) }.into()]
    };
    dictionary! { "Nums" => sheets.iter().enumerate().flat_map(label).collect::<Vec<_>>() }
}

/// A text string: plain where it is ASCII, else UTF-16.
fn text(words: &str) -> Object {
    if words.is_ascii() {
        return Object::String(words.as_bytes().to_vec(), StringFormat::Literal);
    }
    let units = std::iter::once(0xfeff).chain(words.encode_utf16());
    Object::String(units.flat_map(u16::to_be_bytes).collect(), StringFormat::Hexadecimal)
}

#[cfg(test)]
mod tests {
    use super::content_hash;

    // FNV reference values (draft-eastlake-fnv): 128 bits of nothing and of `a`.
    #[test]
    fn hash_is_fnv_1a() {
        assert_eq!(content_hash(b""), 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d);
        assert_eq!(content_hash(b"a"), 0xd228_cb69_6f1a_8caf_7891_2b70_4e4a_8964);
    }
}
