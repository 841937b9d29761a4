//! Parts of wire forms: what is wanted is named by paths, and only that is made and written.

use serde::ser::{
    Serialize, SerializeMap, SerializeSeq, SerializeStruct, SerializeTuple, SerializeTupleStruct, Serializer,
};
use std::collections::BTreeMap;

/// What is wanted of a form: all of it, or some of what lies below.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Wants {
    all: bool,
    below: BTreeMap<String, Wants>,
}

/// Stands for every key and every entry of a list.
const EACH: &str = "*";

static ALL: Wants = Wants { all: true, below: BTreeMap::new() };

impl Wants {
    /// Wants what a path leads to, too: `modules/*/extent`. An empty path leads to everything.
    pub fn add(&mut self, path: &str) {
        let mut here = self;
        for step in path.split('/').filter(|step| !step.is_empty()) {
            here = here.below.entry(step.to_owned()).or_default();
        }
        here.all = true;
    }

    /// Whether nothing is wanted.
    #[must_use]
    pub fn none(&self) -> bool {
        !self.all && self.below.is_empty()
    }

    /// What is wanted of a key; `None` where it is not.
    fn of(&self, key: &str) -> Option<Self> {
        if self.all {
            return Some(ALL.clone());
        }
        match (self.below.get(key), self.below.get(EACH)) {
            (None, None) => None,
            (Some(one), None) | (None, Some(one)) => Some(one.clone()),
            (Some(one), Some(each)) => Some(one.clone().and(each)),
        }
    }

    /// Both together.
    fn and(mut self, other: &Self) -> Self {
        self.all |= other.all;
        for (key, wants) in &other.below {
            let known = self.below.remove(key).unwrap_or_default();
            self.below.insert(key.clone(), known.and(wants));
        }
        self
    }
}

/// A form of which only what is wanted is written.
pub struct Only<'a, T: ?Sized>(pub &'a T, pub &'a Wants);

impl<T: Serialize + ?Sized> Serialize for Only<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.1.all {
            return self.0.serialize(serializer);
        }
        self.0.serialize(Filter { inner: serializer, wants: self.1 })
    }
}

/// Hands on what is wanted to another serializer.
struct Filter<'a, S> {
    inner: S,
    wants: &'a Wants,
}

/// A list or a map of which the wanted part goes on.
struct Partly<'a, S> {
    inner: S,
    wants: &'a Wants,
    /// The key whose value comes next, if it is wanted.
    next: Option<Wants>,
}

/// Values without keys are what a path leads to, whatever it says beyond.
macro_rules! plain {
    ($($name:ident: $of:ty,)*) => {
        $(fn $name(self, value: $of) -> Result<S::Ok, S::Error> {
            self.inner.$name(value)
        })*
    };
}

impl<'a, S: Serializer> Serializer for Filter<'a, S> {
    type Ok = S::Ok;
    type Error = S::Error;
    type SerializeSeq = Partly<'a, S::SerializeSeq>;
    type SerializeTuple = Partly<'a, S::SerializeTuple>;
    type SerializeTupleStruct = Partly<'a, S::SerializeTupleStruct>;
    type SerializeTupleVariant = S::SerializeTupleVariant;
    type SerializeMap = Partly<'a, S::SerializeMap>;
    type SerializeStruct = Partly<'a, S::SerializeStruct>;
    type SerializeStructVariant = S::SerializeStructVariant;

    plain! {
        serialize_bool: bool,
        serialize_i8: i8,
        serialize_i16: i16,
        serialize_i32: i32,
        serialize_i64: i64,
        serialize_u8: u8,
        serialize_u16: u16,
        serialize_u32: u32,
        serialize_u64: u64,
        serialize_f32: f32,
        serialize_f64: f64,
        serialize_char: char,
        serialize_str: &str,
        serialize_bytes: &[u8],
    }

    fn serialize_none(self) -> Result<S::Ok, S::Error> {
        self.inner.serialize_none()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<S::Ok, S::Error> {
        self.inner.serialize_some(&Only(value, self.wants))
    }

    fn serialize_unit(self) -> Result<S::Ok, S::Error> {
        self.inner.serialize_unit()
    }

    fn serialize_unit_struct(self, name: &'static str) -> Result<S::Ok, S::Error> {
        self.inner.serialize_unit_struct(name)
    }

    fn serialize_unit_variant(self, name: &'static str, at: u32, variant: &'static str) -> Result<S::Ok, S::Error> {
        self.inner.serialize_unit_variant(name, at, variant)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(self, name: &'static str, value: &T) -> Result<S::Ok, S::Error> {
        self.inner.serialize_newtype_struct(name, &Only(value, self.wants))
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        name: &'static str,
        at: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<S::Ok, S::Error> {
        // One of several cannot be left out, so a path that speaks of another one wants this one whole.
        let wants = self.wants.of(variant).unwrap_or_else(|| ALL.clone());
        self.inner.serialize_newtype_variant(name, at, variant, &Only(value, &wants))
    }

    fn serialize_seq(self, length: Option<usize>) -> Result<Self::SerializeSeq, S::Error> {
        let next = self.wants.of(EACH);
        let length = if next.is_none() { Some(0) } else { length };
        Ok(Partly { inner: self.inner.serialize_seq(length)?, wants: self.wants, next })
    }

    fn serialize_tuple(self, length: usize) -> Result<Self::SerializeTuple, S::Error> {
        Ok(Partly { inner: self.inner.serialize_tuple(length)?, wants: self.wants, next: self.wants.of(EACH) })
    }

    fn serialize_tuple_struct(self, name: &'static str, length: usize) -> Result<Self::SerializeTupleStruct, S::Error> {
        let inner = self.inner.serialize_tuple_struct(name, length)?;
        Ok(Partly { inner, wants: self.wants, next: self.wants.of(EACH) })
    }

    fn serialize_tuple_variant(
        self,
        name: &'static str,
        at: u32,
        variant: &'static str,
        length: usize,
    ) -> Result<S::SerializeTupleVariant, S::Error> {
        self.inner.serialize_tuple_variant(name, at, variant, length)
    }

    fn serialize_map(self, _length: Option<usize>) -> Result<Self::SerializeMap, S::Error> {
        Ok(Partly { inner: self.inner.serialize_map(None)?, wants: self.wants, next: None })
    }

    fn serialize_struct(self, name: &'static str, length: usize) -> Result<Self::SerializeStruct, S::Error> {
        Ok(Partly { inner: self.inner.serialize_struct(name, length)?, wants: self.wants, next: None })
    }

    fn serialize_struct_variant(
        self,
        name: &'static str,
        at: u32,
        variant: &'static str,
        length: usize,
    ) -> Result<S::SerializeStructVariant, S::Error> {
        self.inner.serialize_struct_variant(name, at, variant, length)
    }
}

impl<S: SerializeSeq> SerializeSeq for Partly<'_, S> {
    type Ok = S::Ok;
    type Error = S::Error;

    fn serialize_element<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), S::Error> {
        self.next.as_ref().map_or(Ok(()), |wants| self.inner.serialize_element(&Only(value, wants)))
    }

    fn end(self) -> Result<S::Ok, S::Error> {
        self.inner.end()
    }
}

impl<S: SerializeTuple> SerializeTuple for Partly<'_, S> {
    type Ok = S::Ok;
    type Error = S::Error;

    fn serialize_element<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), S::Error> {
        self.inner.serialize_element(&Only(value, self.next.as_ref().unwrap_or(&ALL)))
    }

    fn end(self) -> Result<S::Ok, S::Error> {
        self.inner.end()
    }
}

impl<S: SerializeTupleStruct> SerializeTupleStruct for Partly<'_, S> {
    type Ok = S::Ok;
    type Error = S::Error;

    fn serialize_field<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), S::Error> {
        self.inner.serialize_field(&Only(value, self.next.as_ref().unwrap_or(&ALL)))
    }

    fn end(self) -> Result<S::Ok, S::Error> {
        self.inner.end()
    }
}

impl<S: SerializeMap> SerializeMap for Partly<'_, S> {
    type Ok = S::Ok;
    type Error = S::Error;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Result<(), S::Error> {
        // Keys of the forms are texts; another one is wanted by `*` alone.
        let text = serde_json::to_value(key).ok().and_then(|key| key.as_str().map(str::to_owned));
        self.next = self.wants.of(text.as_deref().unwrap_or(EACH));
        if self.next.is_some() { self.inner.serialize_key(key) } else { Ok(()) }
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), S::Error> {
        self.next.take().map_or(Ok(()), |wants| self.inner.serialize_value(&Only(value, &wants)))
    }

    fn end(self) -> Result<S::Ok, S::Error> {
        self.inner.end()
    }
}

impl<S: SerializeStruct> SerializeStruct for Partly<'_, S> {
    type Ok = S::Ok;
    type Error = S::Error;

    fn serialize_field<T: Serialize + ?Sized>(&mut self, key: &'static str, value: &T) -> Result<(), S::Error> {
        self.wants.of(key).map_or(Ok(()), |wants| self.inner.serialize_field(key, &Only(value, &wants)))
    }

    fn end(self) -> Result<S::Ok, S::Error> {
        self.inner.end()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::wire::Lazy;
    use std::cell::Cell;

    #[derive(serde::Serialize)]
    struct Inner {
        name: &'static str,
        at: [f64; 2],
    }

    #[derive(serde::Serialize)]
    enum Kind {
        Swing(Inner),
        Arch { width: f64 },
    }

    #[derive(serde::Serialize)]
    struct Form<'a> {
        title: &'static str,
        list: Vec<Inner>,
        some: Option<Inner>,
        kinds: Vec<Kind>,
        costly: Lazy<'a, Vec<u32>>,
        #[serde(flatten)]
        more: Inner,
    }

    fn part(paths: &[&str], made: &Cell<u32>) -> String {
        let inner = |name| Inner { name, at: [1.0, 2.5] };
        let costly = || {
            made.set(made.get() + 1);
            vec![7]
        };
        let kinds = vec![Kind::Swing(inner("s")), Kind::Arch { width: 3.0 }];
        let form = Form {
            title: "t",
            list: vec![inner("a"), inner("b")],
            some: Some(inner("c")),
            kinds,
            costly: Lazy::new(costly),
            more: inner("m"),
        };
        let mut wants = Wants::default();
        paths.iter().for_each(|path| wants.add(path));
        serde_json::to_string(&Only(&form, &wants)).unwrap()
    }

    #[test]
    fn what_a_path_leads_to_is_written_and_nothing_else_is_made() {
        let made = Cell::new(0);
        let of = |paths: &[&str]| part(paths, &made);
        assert_eq!(of(&["title"]), r#"{"title":"t"}"#);
        assert_eq!(
            of(&["list/*/name", "some"]),
            r#"{"list":[{"name":"a"},{"name":"b"}],"some":{"name":"c","at":[1.0,2.5]}}"#
        );
        assert_eq!(of(&["list"]), r#"{"list":[{"name":"a","at":[1.0,2.5]},{"name":"b","at":[1.0,2.5]}]}"#);
        assert_eq!(
            of(&["*/*/name"]),
            r#"{"title":"t","list":[{"name":"a"},{"name":"b"}],"some":{"name":"c","at":[1.0,2.5]},"kinds":[{"Swing":{"name":"s","at":[1.0,2.5]}},{"Arch":{"width":3.0}}],"costly":[7],"name":"m","at":[1.0,2.5]}"#
        );
        assert_eq!(of(&["some/at/*", "name"]), r#"{"some":{"at":[1.0,2.5]},"name":"m"}"#);
        assert_eq!(of(&["nothing", "list/name"]), r#"{"list":[]}"#);
        let before = made.get();
        of(&["title", "list", "kinds/*/Swing/name"]);
        assert_eq!(made.get(), before, "it was made for nothing");
        assert!(of(&[""]).contains("costly"));
    }
}
