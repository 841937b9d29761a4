//! `{"instances": [{"id", "kerf", "trim", "bins": [{"w", "h", "stock", "cost"}], "items": [{"w", "h", "n", "rot"}]}]}`,
//! the form in which instances of packing problems are passed on. Keys that are not listed are remarks.

use super::super::CutPart;
use super::super::nesting::{Piece, Request, SheetKind, Turn};
use super::{PartsJob, Saw, at, only};
use crate::diagnostic::{Diagnostic, Sink};
use crate::model::Grain;
use crate::source::FileId;
use serde::de::Error;
use serde::{Deserialize, Deserializer};

#[derive(Deserialize)]
struct File {
    instances: Vec<Instance>,
}

#[derive(Deserialize)]
struct Instance {
    id: Id,
    #[serde(default, deserialize_with = "not_below_zero")]
    kerf: Option<f64>,
    #[serde(default, deserialize_with = "not_below_zero")]
    trim: Option<f64>,
    #[serde(default)]
    bins: Vec<Bin>,
    items: Vec<Item>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Id {
    Text(String),
    Number(i64),
}

#[derive(Deserialize)]
struct Bin {
    #[serde(deserialize_with = "length")]
    w: f64,
    #[serde(deserialize_with = "length")]
    h: f64,
    #[serde(default)]
    stock: Option<u32>,
    #[serde(default, deserialize_with = "not_below_zero")]
    cost: Option<f64>,
}

#[derive(Deserialize)]
struct Item {
    #[serde(deserialize_with = "length")]
    w: f64,
    #[serde(deserialize_with = "length")]
    h: f64,
    #[serde(default)]
    n: Option<u32>,
    #[serde(default)]
    rot: Option<Flag>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Flag {
    Word(bool),
    Number(u8),
}

fn length<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    let value = f64::deserialize(from)?;
    if value > 0.0 { Ok(value) } else { Err(Error::custom(format!("a length of {value}; it must be more than 0"))) }
}

fn not_below_zero<'de, D: Deserializer<'de>>(from: D) -> Result<Option<f64>, D::Error> {
    match Option::<f64>::deserialize(from)? {
        Some(value) if value < 0.0 => Err(Error::custom(format!("{value}; it must be 0 or more"))),
        value => Ok(value),
    }
}

pub(super) fn jobs(text: &str, file: FileId, saw: &Saw) -> Result<Vec<PartsJob>, Sink> {
    let read: File = serde_json::from_str(text).map_err(|error| only(said(&error, text, file)))?;
    Ok(read.instances.into_iter().map(|instance| job(instance, saw)).collect())
}

/// The error with its place in the text.
fn said(error: &serde_json::Error, text: &str, file: FileId) -> Diagnostic {
    let lines = text.split_inclusive('\n').take(error.line().saturating_sub(1));
    let start = (lines.map(str::len).sum::<usize>() + error.column().saturating_sub(1)).min(text.len());
    let place = format!(" at line {} column {}", error.line(), error.column());
    let says = error.to_string();
    let message = format!("this is no list of parts: {}", says.strip_suffix(&place).unwrap_or(&says));
    let help = r#"the form is {"instances": [{"id": "a", "bins": [{"w": 2440, "h": 1220}], "items": [{"w": 600, "h": 400, "n": 2, "rot": 1}]}]}"#;
    Diagnostic::new(at(file, start..(start + 1).min(text.len())), message).help(help)
}

fn job(instance: Instance, saw: &Saw) -> PartsJob {
    let kind =
        |bin: &Bin| SheetKind { size: (bin.w, bin.h), cost: bin.cost.unwrap_or(bin.w * bin.h), stock: bin.stock };
    let turn = |item: &Item| match item.rot {
        Some(Flag::Word(true)) => Turn::Free,
        Some(Flag::Number(flag)) if flag > 0 => Turn::Free,
        _ => Turn::Never,
    };
    let piece = |item: &Item| Piece { length: item.w, width: item.h, count: item.n.unwrap_or(1), turn: turn(item) };
    let own: Vec<SheetKind> = instance.bins.iter().map(kind).collect();
    let pieces: Vec<Piece> = instance.items.iter().map(piece).collect();
    let part = |(index, piece): (usize, &Piece)| CutPart { number: index.to_string(), grain: piece.turn != Turn::Free };
    PartsJob {
        id: match instance.id {
            Id::Text(text) => text,
            Id::Number(number) => number.to_string(),
        },
        parts: pieces.iter().enumerate().map(part).collect(),
        named: false,
        grain: Grain::Length,
        request: Request {
            sheets: if own.is_empty() { saw.sheets.clone() } else { own },
            kerf: instance.kerf.or(saw.kerf).unwrap_or(0.0),
            trim: instance.trim.or(saw.trim).unwrap_or(0.0),
            useful: saw.useful,
            stages: saw.stages,
            pieces,
            effort: 0,
        },
    }
}
