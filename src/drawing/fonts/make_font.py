"""Makes boxwright-plan.ttf from B612-Regular.otf (version 1.008). Needs fonttools 4.68.

    python3 make_font.py B612-Regular.otf boxwright-plan.ttf

Keeps the characters a drawing needs, turns the outlines into TrueType ones, and adds the letters of Latin
Extended-A that B612 lacks by setting its own accents over its own letters.
"""

import sys
import unicodedata

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.recordingPen import DecomposingRecordingPen, RecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

NAME = "Boxwright Plan"
KEPT = (
    list(range(0x20, 0x7F))
    + list(range(0xA0, 0x180))
    + [0x192, 0x2C6, 0x2C7, *range(0x2D8, 0x2DE)]
    + [*range(0x391, 0x3CA), 0x3D5]
    + [*range(0x2010, 0x2017), *range(0x2018, 0x201F), 0x2020, 0x2021, 0x2022, 0x2026, 0x2030]
    + [0x2032, 0x2033, 0x2034, 0x2039, 0x203A, 0x2070, *range(0x2074, 0x207A), *range(0x2080, 0x208A), 0x20AC, 0x2103, 0x2109, 0x2122, 0x2126, 0x212B]
    + [0x2153, 0x2154, *range(0x2190, 0x219A), 0x2202, 0x2206, 0x2211, 0x2212, 0x2213, 0x221A, 0x221E]
    + [0x2225, 0x2248, 0x2260, 0x2261, 0x2264, 0x2265, 0x22A5, 0x25B6, 0x25BC, 0x25CF, 0x2605, 0x2610, 0x2611]
    + [0x26A0, 0x2713]
)
# Combining marks and the spacing accents of B612 that stand for them.
ACCENTS = {
    0x300: "`", 0x301: "´", 0x302: "ˆ", 0x303: "˜", 0x304: "¯", 0x306: "˘", 0x307: "˙", 0x308: "¨",
    0x30A: "˚", 0x30B: "˝", 0x30C: "ˇ", 0x327: "¸", 0x328: "˛",
}
BELOW = {0x327, 0x328}
# Characters that B612 lacks and whose like it has.
LIKE = {"ρ": "p", "∆": "Δ", "∑": "Σ", "\u2011": "-", "‒": "–"}
CAPITAL_LIFT = 400  # how much higher B612 sets the accents of capital letters


class Letters:
    """Outlines of the source font as lists of pen calls."""

    def __init__(self, path):
        self.font = TTFont(path)
        self.glyphs = self.font.getGlyphSet()
        self.cmap = self.font.getBestCmap()

    def outline(self, char):
        pen = DecomposingRecordingPen(self.glyphs)
        self.glyphs[self.cmap[ord(char)]].draw(pen)
        return pen.value

    def width(self, char):
        return self.glyphs[self.cmap[ord(char)]].width


def bounds(calls):
    pen = BoundsPen(None)
    replay(calls, pen)
    return pen.bounds


def replay(calls, pen):
    for name, args in calls:
        getattr(pen, name)(*args)


def moved(calls, dx, dy):
    pen = RecordingPen()
    replay(calls, TransformPen(pen, (1, 0, 0, 1, dx, dy)))
    return pen.value


def bar(x0, y0, x1, y1, thick):
    """A straight stroke as a closed outline, level or rising."""
    half = thick / 2
    return [
        ("moveTo", ((x0, y0 - half),)), ("lineTo", ((x0, y0 + half),)),
        ("lineTo", ((x1, y1 + half),)), ("lineTo", ((x1, y1 - half),)), ("closePath", ()),
    ]


def without_dot(calls):
    """The lower contour of i or j."""
    contours, now = [], []
    for call in calls:
        now.append(call)
        if call[0] in ("closePath", "endPath"):
            contours.append(now)
            now = []
    return min(contours, key=lambda c: bounds(c)[1])


def special(letters, char):
    """Letters that are no base with an accent over it."""
    o = letters.outline
    if char in LIKE:
        return o(LIKE[char]), letters.width(LIKE[char])
    if char == "ı":
        return without_dot(o("i")), letters.width("i")
    if char in "ĐđĦħŁłŦŧ":
        base = {"Đ": "D", "đ": "d", "Ħ": "H", "ħ": "h", "Ł": "L", "ł": "l", "Ŧ": "T", "ŧ": "t"}[char]
        shape, width = o(base), letters.width(base)
        x0, _, x1, _ = bounds(shape)
        strokes = {
            "Đ": bar(x0 - 110, 760, x0 + 560, 760, 150), "đ": bar(x1 - 480, 1350, x1 + 110, 1350, 130),
            "Ħ": bar(x0 - 110, 1180, x1 + 110, 1180, 130), "ħ": bar(x0 - 110, 1350, x0 + 480, 1350, 130),
            "Ł": bar(x0 - 130, 560, x0 + 560, 900, 160), "ł": bar(x0 - 40, 700, x0 + 420, 960, 160),
            "Ŧ": bar(x0 + 240, 760, x1 - 240, 760, 150), "ŧ": bar(x0 + 30, 560, x1 - 60, 560, 130),
        }
        return shape + strokes[char], width
    if char in "ďľĽť":
        base = {"ď": "d", "ľ": "l", "Ľ": "L", "ť": "t"}[char]
        shape, width = o(base), letters.width(base)
        mark = o("'")
        x = {"ď": bounds(shape)[2] + 90, "ľ": bounds(shape)[0] + 300, "Ľ": bounds(shape)[2] - 380,
             "ť": bounds(shape)[2] - 20}[char]
        top = bounds(shape)[3] if char != "ť" else 1560
        lift = moved(mark, x - bounds(mark)[0], top - bounds(mark)[3])
        return shape + lift, max(width, bounds(lift)[2] + 80)
    return None


def accented(letters, char):
    """A letter with an accent, from the parts that Unicode names; None where there are none."""
    parts = unicodedata.decomposition(char).split()
    if len(parts) != 2 or int(parts[1], 16) not in ACCENTS:
        return None
    base, mark = chr(int(parts[0], 16)), int(parts[1], 16)
    mark_shape = letters.outline("'" if char == "ģ" else ACCENTS[mark])
    if base in "ij" and mark not in BELOW:
        shape = without_dot(letters.outline(base))
    elif ord(base) in letters.cmap:
        shape = letters.outline(base)
    else:
        return None
    b, m = bounds(shape), bounds(mark_shape)
    dx = (b[0] + b[2]) / 2 - (m[0] + m[2]) / 2
    if mark == 0x328:
        dx = b[2] - m[2] - (0 if base.isupper() else 20)
    if char == "ģ":
        dy = 1220 - m[1]
    elif mark in BELOW:
        dy = -70 if mark == 0x327 and base in "KkLlNnRrGT" else 0
    elif base in "hlkdb":
        dy = b[3] + 80 - m[1]
    else:
        dy = CAPITAL_LIFT if base.isupper() else 0
    return shape + moved(mark_shape, dx, dy), letters.width(base)


def outlines(letters):
    """Every kept character that can be had: name, outline, width."""
    found = {}
    for code in sorted(set(KEPT)):
        char = chr(code)
        if code in letters.cmap:
            found[code] = (letters.outline(char), letters.width(char))
        elif made := special(letters, char) or accented(letters, char):
            found[code] = made
    return found


def main(source, target):
    letters = Letters(source)
    found = outlines(letters)
    order = [".notdef"] + [f"uni{code:04X}" for code in found]
    missing = DecomposingRecordingPen(letters.glyphs)
    letters.glyphs[".notdef"].draw(missing)
    shapes = {".notdef": (missing.value, letters.glyphs[".notdef"].width)}
    shapes |= {f"uni{code:04X}": made for code, made in found.items()}
    glyphs = {}
    for name, (calls, _) in shapes.items():
        pen = TTGlyphPen(None)
        replay(calls, Cu2QuPen(pen, max_err=4.0, reverse_direction=True))
        glyphs[name] = pen.glyph()
    builder = FontBuilder(2000, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({code: f"uni{code:04X}" for code in found})
    builder.setupGlyf(glyphs)
    metrics = {name: (round(width), builder.font["glyf"][name].xMin if glyphs[name].numberOfContours else 0)
               for name, (_, width) in shapes.items()}
    builder.setupHorizontalMetrics(metrics)
    builder.setupHorizontalHeader(ascent=1930, descent=-500)
    licence = "This Font Software is licensed under the SIL Open Font License, Version 1.1."
    builder.setupNameTable({
        "copyright": "Copyright (c) 2012, AIRBUS (airbus-group.com), with a Reserved Font Name; modified version",
        "familyName": NAME, "styleName": "Regular", "uniqueFontIdentifier": f"{NAME} Regular 1",
        "fullName": f"{NAME} Regular", "psName": "BoxwrightPlan-Regular", "version": "Version 1.0",
        "licenseDescription": licence, "licenseInfoURL": "http://scripts.sil.org/OFL",
    }, mac=False)
    builder.setupOS2(sTypoAscender=1930, sTypoDescender=-500, usWinAscent=1930, usWinDescent=500,
                     sCapHeight=1500, sxHeight=1100, usWeightClass=400, fsType=0, version=4)
    builder.setupPost(keepGlyphNames=False)
    builder.font["head"].created = builder.font["head"].modified = 3_600_000_000
    builder.font.recalcTimestamp = False
    builder.save(target)
    print(len(order), "glyphs;", "lacking:", "".join(chr(c) for c in sorted(set(KEPT)) if c not in found))


main(sys.argv[1], sys.argv[2])
