//! The way to the host: the only two functions that it has for a plug-in.

use super::answer::Answer;
use super::description::Description;
use super::question::Question;
use serde::Serialize;
use serde::de::DeserializeOwned;

#[cfg(target_arch = "wasm32")]
mod door {
    #[link(wasm_import_module = "boxwright")]
    unsafe extern "C" {
        fn answer(at: *const u8, length: usize);
        fn log(at: *const u8, length: usize);
    }

    pub fn say(text: &[u8]) {
        // The host reads the bytes before it returns.
        unsafe { answer(text.as_ptr(), text.len()) }
    }

    pub fn note(text: &[u8]) {
        // The host reads the bytes before it returns.
        unsafe { log(text.as_ptr(), text.len()) }
    }
}

/// Without a host, as in tests of a plug-in's own, nobody hears.
#[cfg(not(target_arch = "wasm32"))]
mod door {
    pub fn say(_text: &[u8]) {}

    pub fn note(_text: &[u8]) {}
}

/// Writes a line into the log, which `boxwright plug-ins try` shows.
pub fn log(words: &str) {
    door::note(words.as_bytes());
    door::note(b"\n");
}

/// Room for a question, which is never given back: a plug-in lives for one call.
pub fn room(length: usize) -> *mut u8 {
    vec![0_u8; length].leak().as_mut_ptr()
}

/// Says what the plug-in is.
pub fn describe_with(description: &Description) {
    door::say(text(description).as_bytes());
}

/// Reads a question and answers it.
pub fn answer_with<M: DeserializeOwned + Default>(
    question: &[u8],
    make: impl Fn(&Question<M>) -> Result<Answer, String>,
) {
    door::say(text(&answered(question, make)).as_bytes());
}

/// The answer to a question, for tests of a plug-in's own.
pub fn answered<M: DeserializeOwned + Default>(
    question: &[u8],
    make: impl Fn(&Question<M>) -> Result<Answer, String>,
) -> Answer {
    let read = serde_json::from_slice(question).map_err(|error| format!("the question can't be read: {error}"));
    read.and_then(|question| make(&question)).unwrap_or_else(Answer::failed)
}

fn text(form: &impl Serialize) -> String {
    // The forms have only text keys and write into memory, so this can't fail.
    serde_json::to_string(form).unwrap_or_default()
}
