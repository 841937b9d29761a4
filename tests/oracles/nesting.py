"""Draws cutting jobs whose least number of sheets is proved, and writes nesting.json beside this file.

Each job starts from whole sheets that are cut edge to edge into pieces (so a guillotine plan with that many sheets
exists), and pieces are taken away only while their area with kerf stays above what one sheet less can hold (so no
plan has fewer). Own draws, fixed seed.
"""
import json, pathlib, random

SHEET = (2440, 1220)


def cut(rng, w, h, kerf, least):
    """Cuts a rectangle edge to edge until pieces are small; returns pieces (w, h)."""
    can = [axis for axis, size in (("w", w), ("h", h)) if size >= 2 * least + kerf]
    if not can or (w * h < 500_000 and rng.random() < 0.35):
        return [(w, h)]
    axis = "w" if w > 1.6 * h and "w" in can else "h" if h > 1.6 * w and "h" in can else rng.choice(can)
    size = w if axis == "w" else h
    at = rng.randint(least, size - kerf - least)
    rest = size - kerf - at
    if axis == "w":
        return cut(rng, at, h, kerf, least) + cut(rng, rest, h, kerf, least)
    return cut(rng, w, at, kerf, least) + cut(rng, w, rest, kerf, least)


def job(rng, sheets, kerf, trim, slack, turning):
    w, h = SHEET[0] - 2 * trim, SHEET[1] - 2 * trim
    pieces = [piece for _ in range(sheets) for piece in cut(rng, w, h, kerf, 120)]
    rng.shuffle(pieces)
    whole = (w + kerf) * (h + kerf)
    padded = lambda piece: (piece[0] + kerf) * (piece[1] + kerf)
    total = sum(map(padded, pieces))
    for piece in sorted(pieces, key=padded):
        if total - padded(piece) >= max((sheets - slack) * whole, (sheets - 1) * whole + 1):
            pieces.remove(piece)
            total -= padded(piece)
    turns = [turning == "free" or (turning == "some" and rng.random() < 0.5) for _ in pieces]
    return {
        "sheets": sheets, "kerf": kerf, "trim": trim,
        "pieces": [[a, b, free] for (a, b), free in zip(pieces, turns)],
    }


rng = random.Random(20240607)
jobs = [
    job(rng, sheets, kerf, trim, slack, turning)
    for sheets, kerf, trim, slack, turning in [
        (1, 0, 0, 0.08, "free"), (1, 3, 10, 0.1, "never"), (2, 3, 10, 0.12, "free"), (2, 4, 0, 0.16, "never"),
        (3, 3, 10, 0.2, "free"), (3, 0, 0, 0.25, "never"), (4, 4, 10, 0.25, "free"), (4, 3, 0, 0.3, "never"),
        (5, 3, 10, 0.4, "free"), (5, 4, 10, 0.4, "never"), (6, 3, 10, 0.4, "free"), (8, 3, 10, 0.6, "free"),
        # With 4, 7 and 10 parts in a hundred free.
        (3, 3, 10, 0.12, "free"), (5, 3, 0, 0.2, "free"), (7, 3, 10, 0.28, "some"), (4, 3, 0, 0.28, "never"),
        (6, 3, 10, 0.42, "free"), (7, 3, 0, 0.49, "never"), (3, 3, 10, 0.3, "some"), (7, 3, 10, 0.7, "never"),
    ]
]
lines = ",\n".join(json.dumps(one, separators=(",", ":")) for one in jobs)
pathlib.Path(__file__).with_suffix(".json").write_text("[\n" + lines + "\n]\n")
