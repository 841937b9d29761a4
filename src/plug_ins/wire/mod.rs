//! The forms that go between the command and a plug-in, version 1; `boxwright schema` prints their JSON Schemas.

mod answer;
mod description;
mod names;
mod question;
mod reads;
mod sheet;

pub use answer::{
    AboutWire, Answer, ArgumentWire, FileWire, FindingWire, MarkWire, MeasureWire, PlaceWire, RequiredWire,
    answer_schema,
};
pub use description::{CheckWire, Description, LimitWire, description_schema};
pub use names::{bound, class, unit};
pub use question::{Question, question_schema};
pub use reads::{Reading, ReadsWire};
pub use sheet::{ColumnWire, SheetAnswer, TableWire};

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// The version of the forms that is spoken.
pub const VERSION: u32 = 1;

/// What every form begins with.
#[derive(Deserialize)]
struct Head {
    format: String,
    version: u32,
}

/// Reads a form of a plug-in.
///
/// # Errors
/// What is wrong with it, as a sentence that begins with what it is.
fn read<T: DeserializeOwned>(what: &str, format: &str, bytes: &[u8]) -> Result<T, String> {
    let text = std::str::from_utf8(bytes);
    let text = text.map_err(|error| format!("its {what} is no UTF-8 text from byte {} on", error.valid_up_to()))?;
    if text.trim().is_empty() {
        return Err(format!("its {what} is empty: it never called `answer`"));
    }
    let wrong = |error: serde_json::Error| format!("its {what} can't be read: {error}");
    let head: Head = serde_json::from_str(text).map_err(wrong)?;
    if head.format != format {
        return Err(format!("its {what} has the format `{}`, and `{format}` is wanted", head.format));
    }
    if head.version != VERSION {
        let made =
            if head.version > VERSION { "a newer boxwright" } else { "the plug-in made anew with its present kit" };
        return Err(format!(
            "its {what} is of version {}, and this boxwright speaks version {VERSION}; it takes {made}",
            head.version
        ));
    }
    serde_json::from_str(text).map_err(wrong)
}
