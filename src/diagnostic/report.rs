//! Stub.
use crate::diagnostic::{Finding, Sink};
use crate::source::SourceMap;
/// Stub.
pub fn errors(_e: &Sink, _s: &SourceMap, _c: bool) -> String {
    String::new()
}
/// Stub.
pub fn findings(_e: &[Finding], _s: &SourceMap, _c: bool) -> String {
    String::new()
}
