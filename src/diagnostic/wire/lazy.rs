//! A part of a wire form that is made when it is written, and not at all where nobody wants it.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

/// Something that is made when it is written.
pub struct Lazy<'a, T>(Box<dyn Fn() -> T + 'a>);

impl<'a, T> Lazy<'a, T> {
    /// What a function gives.
    pub fn new(make: impl Fn() -> T + 'a) -> Self {
        Self(Box::new(make))
    }
}

impl<T: Serialize> Serialize for Lazy<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        (self.0)().serialize(serializer)
    }
}

impl<T: JsonSchema> JsonSchema for Lazy<'_, T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }

    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }

    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}

impl<T> fmt::Debug for Lazy<'_, T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("(made when it is written)")
    }
}
