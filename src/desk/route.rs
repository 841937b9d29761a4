//! What is answered to what is asked, without the wire.

use super::about::about;
use super::room::{Room, Seat};
use crate::drawing::font;
use serde_json::json;

/// An answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Answer {
    pub status: u16,
    pub kind: &'static str,
    pub bytes: Vec<u8>,
}

const HTML: &str = "text/html; charset=utf-8";
const CSS: &str = "text/css; charset=utf-8";
const SCRIPT: &str = "text/javascript; charset=utf-8";
const JSON: &str = "application/json; charset=utf-8";

/// The files of the page.
const PAGE: [(&str, &str, &str); 9] = [
    ("", HTML, include_str!("page/index.html")),
    ("desk.css", CSS, include_str!("page/desk.css")),
    ("icon.svg", "image/svg+xml", include_str!("page/icon.svg")),
    ("desk.js", SCRIPT, include_str!("page/desk.js")),
    ("ask.js", SCRIPT, include_str!("page/ask.js")),
    ("stage.js", SCRIPT, include_str!("page/stage.js")),
    ("sheets.js", SCRIPT, include_str!("page/sheets.js")),
    ("findings.js", SCRIPT, include_str!("page/findings.js")),
    ("keys.js", SCRIPT, include_str!("page/keys.js")),
];

impl Answer {
    fn of(kind: &'static str, bytes: impl Into<Vec<u8>>) -> Self {
        Self { status: 200, kind, bytes: bytes.into() }
    }

    /// Nothing is there.
    pub fn missing() -> Self {
        Self { status: 404, kind: "text/plain; charset=utf-8", bytes: b"nothing is here\n".to_vec() }
    }
}

/// The answer to a path below the secret.
pub(super) fn answer(room: &Room, path: &str) -> Answer {
    if let Some((_, kind, text)) = PAGE.iter().find(|(name, ..)| *name == path) {
        return Answer::of(kind, *text);
    }
    let steps: Vec<&str> = path.split('/').collect();
    let seat = |number: &str| number.parse().ok().and_then(|at: usize| room.seats.get(at));
    let found = match steps.as_slice() {
        ["font.ttf"] => Some(Answer::of("font/ttf", font::BYTES)),
        ["layouts"] => Some(Answer::of(JSON, layouts(room))),
        ["layout", number] => seat(number).map(|seat| Answer::of(JSON, seat.now().told(&seat.layout.path))),
        ["sheet", number, id] => seat(number).and_then(|seat| sheet(seat, id)),
        ["small", number, id] => seat(number).and_then(|seat| small(seat, id)),
        ["about", number, group] => seat(number).and_then(|seat| behind(seat, group)),
        _ => None,
    };
    found.unwrap_or_else(Answer::missing)
}

fn layouts(room: &Room) -> String {
    let all: Vec<&str> = room.seats.iter().map(|seat| seat.layout.path.as_str()).collect();
    json!(all).to_string()
}

fn sheet(seat: &Seat, id: &str) -> Option<Answer> {
    let sight = seat.now();
    let pictures = sight.pictures.as_ref()?;
    let inset = pictures.inset(id)?;
    let told = json!({ "revision": pictures.revision, "svg": inset.svg, "style": inset.style });
    Some(Answer::of(JSON, told.to_string()))
}

fn small(seat: &Seat, id: &str) -> Option<Answer> {
    let picture = seat.now().pictures.as_ref()?.small(id)?;
    Some(Answer::of("image/png", picture.to_vec()))
}

fn behind(seat: &Seat, group: &str) -> Option<Answer> {
    let sight = seat.now();
    let told = about(&sight.pictures.as_ref()?.compiled, &decoded(group)?)?;
    Some(Answer::of(JSON, told.to_string()))
}

fn decoded(text: &str) -> Option<String> {
    percent_encoding::percent_decode_str(text).decode_utf8().ok().map(|text| text.into_owned())
}
