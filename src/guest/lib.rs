//! Plug-ins for boxwright in Rust: the forms that go between, and the exports.
//!
//! A plug-in is a library (`crate-type = ["cdylib"]`) for the target `wasm32-unknown-unknown` with two macros in it:
//!
//! ```ignore
//! boxwright_guest::describe!(description);
//! boxwright_guest::answers!(check: find);
//!
//! fn description() -> Description { ... }
//! fn find(question: &Question) -> Result<Vec<Finding>, String> { ... }
//! ```
//!
//! The forms are those that `boxwright schema plug-in`, `plug-in-question`, `plug-in-answer`, `model` and `findings` print.
//! [`Model`] has the parts that most plug-ins read; another type that can be deserialised may stand in its place:
//! `Question<MyModel>`.

mod answer;
mod description;
mod findings;
mod host;
mod model;
mod question;

pub use answer::{Answer, Column, File, Sheet, Table};
pub use description::{Backend, Check, Description, PlannedSheet, Reads};
pub use findings::{About, Argument, Finding, Limit, Mark, Measure, Place};
pub use host::{answer_with, answered, describe_with, log, room};
pub use model::{
    Arrangement, Bands, Box3, BoxSpace, Cable, Fill, Hardware, Layup, Load, Mass, Model, Module, Move, Opening, Part,
    Person, Pose, PoseOf, Prism, Run, Services, Solid, Space, Stock, StockSheet, Tank, Waste, Water, Zone,
};
pub use question::{Checked, Question};

/// The version of the forms.
pub const VERSION: u32 = 1;

/// Exports what a plug-in says of itself, given by a function without parameters.
#[macro_export]
macro_rules! describe {
    ($description:path) => {
        /// Says what the plug-in is.
        #[unsafe(no_mangle)]
        pub extern "C" fn describe() {
            $crate::describe_with(&$description());
        }

        /// Gives room for a question.
        #[unsafe(no_mangle)]
        pub extern "C" fn room(length: usize) -> *mut u8 {
            $crate::room(length)
        }
    };
}

/// Exports functions that answer: `check` gives findings, `backend` files, `sheet` sheets.
#[macro_export]
macro_rules! answers {
    ($($kind:ident: $function:path),+ $(,)?) => {
        $($crate::answer!($kind: $function);)+
    };
}

/// Exports one function that answers.
#[doc(hidden)]
#[macro_export]
macro_rules! answer {
    (check: $function:path) => {
        $crate::export!(check, $function, $crate::Answer::of_findings);
    };
    (backend: $function:path) => {
        $crate::export!(backend, $function, $crate::Answer::of_files);
    };
    (sheet: $function:path) => {
        $crate::export!(sheet, $function, $crate::Answer::of_sheets);
    };
}

/// Exports a function under a name.
#[doc(hidden)]
#[macro_export]
macro_rules! export {
    ($name:ident, $function:path, $wrap:path) => {
        /// Answers the question that lies at a place.
        ///
        /// # Safety
        /// The place was given by `room` for this length, and is written.
        #[unsafe(no_mangle)]
        pub unsafe extern "C" fn $name(at: *const u8, length: usize) {
            // The host writes as many bytes as it asked room for.
            let question = unsafe { core::slice::from_raw_parts(at, length) };
            $crate::answer_with(question, |question| $function(question).map($wrap));
        }
    };
}
