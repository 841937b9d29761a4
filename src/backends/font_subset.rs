//! A copy of the font that holds the outlines of some glyphs only, for embedding. Glyph numbers stay as they are.

use crate::drawing::{Item, Sheet, font};
use std::collections::BTreeSet;
use ttf_parser::{RawFace, Tag};

/// The font with the outlines of `glyphs` (and of the box for lacking characters); the whole font if it is not built
/// as expected.
#[must_use]
pub fn subset(font: &[u8], glyphs: &BTreeSet<u16>) -> Vec<u8> {
    try_subset(font, glyphs).unwrap_or_else(|| font.to_vec())
}

/// The glyphs of all texts on a sheet.
#[must_use]
pub fn used_glyphs(sheet: &Sheet) -> BTreeSet<u16> {
    let mut glyphs = BTreeSet::new();
    let layers = sheet.views.iter().flat_map(|view| &view.layers);
    layers.for_each(|layer| collect(&layer.items, &mut glyphs));
    glyphs
}

fn collect(items: &[Item], glyphs: &mut BTreeSet<u16>) {
    for item in items {
        match item {
            Item::Text(text) => glyphs.extend(font::shown(&text.words).map(|char| font::glyph(char).id)),
            Item::Group(group) => collect(&group.items, glyphs),
            Item::Path(_) => {}
        }
    }
}

fn try_subset(font: &[u8], glyphs: &BTreeSet<u16>) -> Option<Vec<u8>> {
    let face = RawFace::parse(font, 0).ok()?;
    let table = |name: &[u8; 4]| face.table(Tag::from_bytes(name));
    let (glyf, loca) = cut_outlines(&Places::of(&face)?, table(b"glyf")?, glyphs)?;
    let mut head = table(b"head")?.to_vec();
    head.get_mut(50..52)?.copy_from_slice(&[0, 0]);
    head.get_mut(8..12)?.copy_from_slice(&[0; 4]);
    let mut tables = Vec::new();
    for record in face.table_records {
        let data = match &record.tag.to_bytes() {
            b"glyf" => glyf.clone(),
            b"loca" => loca.clone(),
            b"head" => head.clone(),
            _ => face.table(record.tag)?.to_vec(),
        };
        tables.push((record.tag.to_bytes(), data));
    }
    assemble(&tables)
}

/// Where each glyph's outline is in the `glyf` table.
struct Places<'a> {
    loca: &'a [u8],
    long: bool,
    count: u16,
}

impl<'a> Places<'a> {
    fn of(face: &RawFace<'a>) -> Option<Self> {
        let table = |name: &[u8; 4]| face.table(Tag::from_bytes(name));
        let long = table(b"head")?.get(51)? == &1;
        Some(Self { loca: table(b"loca")?, long, count: u16_at(table(b"maxp")?, 4)? })
    }

    fn begin(&self, glyph: u16) -> Option<usize> {
        let i = usize::from(glyph);
        if self.long {
            let bytes: [u8; 4] = self.loca.get(i * 4..i * 4 + 4)?.try_into().ok()?;
            return usize::try_from(u32::from_be_bytes(bytes)).ok();
        }
        Some(usize::from(u16_at(self.loca, i * 2)?) * 2)
    }
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

/// New `glyf` and (short) `loca` tables.
fn cut_outlines(places: &Places<'_>, glyf: &[u8], glyphs: &BTreeSet<u16>) -> Option<(Vec<u8>, Vec<u8>)> {
    let (mut outlines, mut loca) = (Vec::new(), vec![0, 0]);
    for glyph in 0..places.count {
        if glyph == 0 || glyphs.contains(&glyph) {
            outlines.extend_from_slice(glyf.get(places.begin(glyph)?..places.begin(glyph + 1)?)?);
            outlines.resize(outlines.len().next_multiple_of(4), 0);
        }
        loca.extend_from_slice(&u16::try_from(outlines.len() / 2).ok()?.to_be_bytes());
    }
    Some((outlines, loca))
}

/// A font file of tables: directory, checksums, padding.
fn assemble(tables: &[([u8; 4], Vec<u8>)]) -> Option<Vec<u8>> {
    let count = u16::try_from(tables.len()).ok()?;
    let power = 1u16 << count.checked_ilog2()?;
    let mut file = 0x0001_0000u32.to_be_bytes().to_vec();
    for word in [count, power * 16, u16::try_from(power.ilog2()).ok()?, (count - power) * 16] {
        file.extend_from_slice(&word.to_be_bytes());
    }
    let mut offset = file.len() + tables.len() * 16;
    let mut head = None;
    for (tag, data) in tables {
        if tag == b"head" {
            head = Some(offset);
        }
        file.extend_from_slice(tag);
        for word in [checksum(data), u32::try_from(offset).ok()?, u32::try_from(data.len()).ok()?] {
            file.extend_from_slice(&word.to_be_bytes());
        }
        offset += data.len().next_multiple_of(4);
    }
    for (_, data) in tables {
        file.extend_from_slice(data);
        file.resize(file.len().next_multiple_of(4), 0);
    }
    let adjustment = 0xB1B0_AFBAu32.wrapping_sub(checksum(&file));
    file.get_mut(head? + 8..head? + 12)?.copy_from_slice(&adjustment.to_be_bytes());
    Some(file)
}

/// Sum of the big-endian words, as the font format defines it.
fn checksum(data: &[u8]) -> u32 {
    data.chunks(4).fold(0u32, |sum, chunk| {
        let mut word = [0; 4];
        word.iter_mut().zip(chunk).for_each(|(to, from)| *to = *from);
        sum.wrapping_add(u32::from_be_bytes(word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::font::{BYTES, glyph};

    struct Count(usize);

    impl ttf_parser::OutlineBuilder for Count {
        fn move_to(&mut self, _: f32, _: f32) {
            self.0 += 1;
        }
        fn line_to(&mut self, _: f32, _: f32) {
            self.0 += 1;
        }
        fn quad_to(&mut self, _: f32, _: f32, _: f32, _: f32) {
            self.0 += 1;
        }
        fn curve_to(&mut self, _: f32, _: f32, _: f32, _: f32, _: f32, _: f32) {
            self.0 += 1;
        }
        fn close(&mut self) {}
    }

    fn points(font: &[u8], char: char) -> usize {
        let face = ttf_parser::Face::parse(font, 0).unwrap();
        let mut count = Count(0);
        face.outline_glyph(face.glyph_index(char).unwrap(), &mut count);
        count.0
    }

    #[test]
    fn keeps_the_chosen_outlines_and_no_others() {
        let small = subset(BYTES, &"aØ8".chars().map(|char| glyph(char).id).collect());
        assert!(small.len() < BYTES.len() / 5, "{} bytes", small.len());
        for char in ['a', 'Ø', '8'] {
            assert_eq!(points(&small, char), points(BYTES, char));
            assert!(points(&small, char) > 5);
        }
        assert_eq!(points(&small, 'b'), 0);
    }

    #[test]
    fn all_glyphs_give_the_whole_font() {
        let all = subset(BYTES, &(0..u16::MAX).collect());
        assert!(all.len().abs_diff(BYTES.len()) < 2000);
        assert_eq!(points(&all, 'b'), points(BYTES, 'b'));
    }

    #[test]
    fn broken_fonts_come_back_whole() {
        assert_eq!(subset(b"no font", &BTreeSet::new()), b"no font");
        assert_eq!(subset(&BYTES[..2000], &BTreeSet::new()), &BYTES[..2000]);
    }
}
