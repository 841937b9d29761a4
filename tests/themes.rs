//! The built-in themes: neighbouring fills can be told apart by colour-blind readers and in grey print.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod common;

use std::collections::BTreeMap;

type Triple = [f64; 3];

/// Fills that meet in a plan, or are drawn on each other.
const NEIGHBOURS: [(&str, &str); 22] = [
    ("floor", "furniture"),
    ("floor", "upholstery"),
    ("floor", "bedding"),
    ("floor", "wet"),
    ("floor", "wall"),
    ("floor", "paper"),
    ("furniture", "upholstery"),
    ("furniture", "bedding"),
    ("furniture", "wet"),
    ("furniture", "wall"),
    ("furniture", "paper"),
    ("upholstery", "bedding"),
    ("upholstery", "wall"),
    ("upholstery", "paper"),
    ("bedding", "wall"),
    ("bedding", "paper"),
    ("wet", "wall"),
    ("wet", "paper"),
    ("glass", "wall"),
    ("people", "upholstery"),
    ("people", "furniture"),
    ("people", "paper"),
];

/// Least colour difference and least difference in lightness of neighbours. A difference of about 2.3 is just seen
/// (Mahy, Van Eycken and Oosterlinck 1994, as widely quoted); twice that is asked for.
const LEAST: f64 = 4.6;

/// Text and floor, furniture, paper: as for small text, contrast 4.5 (WCAG 2.2, success criterion 1.4.3).
const READABLE: [&str; 5] = ["floor", "furniture", "wet", "bedding", "paper"];

fn times(matrix: [Triple; 3], vector: Triple) -> Triple {
    matrix.map(|row| row.iter().zip(vector).map(|(a, b)| a * b).sum())
}

/// IEC 61966-2-1: linear light of an sRGB value.
fn linear(code: u8) -> f64 {
    let value = f64::from(code) / 255.0;
    if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
}

/// CIE 15: L*a*b* for the white D65, from linear sRGB by the matrix of IEC 61966-2-1.
fn lab(rgb: Triple) -> Triple {
    let to_xyz = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]];
    let white = [0.95047, 1.0, 1.08883];
    let xyz = times(to_xyz, rgb);
    let f = |i: usize| {
        let t: f64 = xyz[i] / white[i];
        if t > (6.0_f64 / 29.0).powi(3) { t.cbrt() } else { t * (29.0_f64 / 6.0).powi(2) / 3.0 + 4.0 / 29.0 }
    };
    [116.0 * f(1) - 16.0, 500.0 * (f(0) - f(1)), 200.0 * (f(1) - f(2))]
}

/// CIE 15: the colour difference of 1976.
fn difference(a: Triple, b: Triple) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
}

/// How a dichromat sees linear RGB: Vienot, Brettel and Mollon, "Digital video colourmaps for checking the legibility of
/// displays by dichromats", Color Research and Application 24 (1999), with its matrices as widely quoted.
fn dichromat(rgb: Triple, kind: &str) -> Triple {
    let to_lms = [[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.029_956_6, 0.184_309, 1.467_09]];
    let to_rgb = [
        [0.080_944_447_9, -0.130_504_409, 0.116_721_066],
        [-0.010_248_533_5, 0.054_019_326_6, -0.113_614_708],
        [-0.000_365_296_938, -0.004_121_614_69, 0.693_511_405],
    ];
    // The paper draws colours in a little, so that none leaves the screen's range.
    let drawn_in = match kind {
        "protanope" => rgb.map(|part| 0.992_052 * part + 0.003_974),
        _ => rgb.map(|part| 0.957_237 * part + 0.021_381_4),
    };
    let [l, m, s] = times(to_lms, drawn_in);
    let seen = match kind {
        "protanope" => [2.02344 * m - 2.52581 * s, m, s],
        _ => [l, 0.494_207 * l + 1.248_27 * s, s],
    };
    times(to_rgb, seen).map(|part| part.clamp(0.0, 1.0))
}

/// The colours of a theme file, in linear light.
fn colours(path: &str) -> BTreeMap<String, Triple> {
    let text = common::text(path);
    let lines = text.lines().filter_map(|line| line.trim().split_once(": \"#"));
    let part = |hex: &str, at: usize| linear(u8::from_str_radix(&hex[at..at + 2], 16).unwrap());
    lines.map(|(name, hex)| (name.to_owned(), [part(hex, 0), part(hex, 2), part(hex, 4)])).collect()
}

const THEMES: [&str; 2] = ["src/language/theme/sober.yaml", "src/language/theme/warm.yaml"];

#[test]
fn neighbouring_fills_are_told_apart_by_everybody() {
    let mut close = Vec::new();
    for theme in THEMES {
        let colours = colours(theme);
        for (a, b) in NEIGHBOURS {
            let (one, other) = (colours[a], colours[b]);
            let mut tell = |who: &str, apart: f64| {
                if apart < LEAST {
                    close.push(format!("{theme}: {a} and {b} are {apart:.1} apart for {who}"));
                }
            };
            tell("most", difference(lab(one), lab(other)));
            for kind in ["protanope", "deuteranope"] {
                tell(kind, difference(lab(dichromat(one, kind)), lab(dichromat(other, kind))));
            }
            tell("grey print", (lab(one)[0] - lab(other)[0]).abs());
        }
    }
    assert!(close.is_empty(), "\n{}\n", close.join("\n"));
}

#[test]
fn text_can_be_read_on_what_it_stands_on() {
    let luminance = |rgb: Triple| 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    for theme in THEMES {
        let colours = colours(theme);
        for ground in READABLE {
            let contrast = (luminance(colours[ground]) + 0.05) / (luminance(colours["text"]) + 0.05);
            assert!(contrast >= 4.5, "{theme}: {contrast:.1} on {ground}");
        }
    }
}

// White is L* 100 with no colour, mid grey of code 119 is L* 50 (CIE 15 with IEC 61966-2-1, by hand); a dichromat sees
// greys as they are, and a red and a green that a protanope confuses come near.
#[test]
fn the_colour_sums_are_right() {
    let close = |a: f64, b: f64| assert!((a - b).abs() < 0.1, "{a} is not {b}");
    let grey = |code: u8| [linear(code); 3];
    close(lab(grey(255))[0], 100.0);
    close(lab(grey(119))[0], 50.0);
    close(difference(lab(grey(255)), lab(grey(0))), 100.0);
    for kind in ["protanope", "deuteranope"] {
        let [r, g, b] = dichromat(grey(128), kind);
        assert!((r - g).abs() < 0.01 && (g - b).abs() < 0.01, "{kind}: {r} {g} {b}");
        let (red, green) = ([0.5, 0.1, 0.1], [0.1, 0.3, 0.1]);
        let seen = difference(lab(dichromat(red, kind)), lab(dichromat(green, kind)));
        assert!(seen < 0.6 * difference(lab(red), lab(green)), "{kind}: {seen}");
    }
}
