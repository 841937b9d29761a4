//! Plug-ins for tests, written as WebAssembly text: no compiler for another language is needed.

/// The bytes of a module in text form.
pub fn wasm(text: &str) -> Vec<u8> {
    wat::parse_str(text).unwrap()
}

/// A description of a plug-in called `house` with one check `sealed`, one output `list` and one sheet `table`, and more keys.
pub fn description(more: &str) -> String {
    let limit = r#"{"name":"least","value":900,"unit":"mm","bound":"least","class":"common-practice","source":"common practice, no source"}"#;
    let check = format!(
        r##"{{"name":"sealed","says":"lockers are sealed","manual":"# Computes\nNothing.","limits":[{limit}],"reads":{{"model":["modules/*/name"]}}}}"##
    );
    format!(
        r#"{{"format":"boxwright-plug-in","version":1,"name":"house","says":"rules of a house","checks":[{check}],
        "backends":[{{"name":"list","says":"a list","reads":{{"model":["name"]}}}}],
        "sheets":[{{"name":"table","says":"a table","reads":{{"model":["name"]}}}}]{more}}}"#
    )
}

/// A finding of the check on a module, with more keys.
pub fn finding(subject: &str, more: &str) -> String {
    format!(r#"{{"check":"sealed","severity":"fault","subject":"{subject}","message":"it is not sealed"{more}}}"#)
}

/// An answer with a key.
pub fn answer(key: &str, value: &str) -> String {
    format!(r#"{{"format":"boxwright-answer","version":1,"{key}":{value}}}"#)
}

/// The parts of a guest that answers with fixed texts.
pub struct Guest {
    /// Answer to `describe`.
    pub describe: String,
    /// Answers to `check`, `backend` and `sheet`.
    pub answers: [String; 3],
    /// What its functions do before they answer, as instructions.
    pub before: [&'static str; 3],
    /// More fields of the module.
    pub more: String,
}

impl Default for Guest {
    fn default() -> Self {
        let table = r#"[{"title":"Hardware","tables":[{"heading":"Hinges","columns":[{"head":"what"},{"head":"count","figures":true}],"rows":[["hinge","4"]]}]}]"#;
        Self {
            describe: description(""),
            answers: [
                answer("findings", &format!("[{}]", finding("locker", ""))),
                answer("files", r#"[{"name":"list.txt","text":"one\ntwo\n"}]"#),
                answer("sheets", table),
            ],
            before: [""; 3],
            more: String::new(),
        }
    }
}

impl Guest {
    /// The same with another answer to one of `check`, `backend` and `sheet`.
    pub fn answering(mut self, function: usize, answer: &str) -> Self {
        self.answers[function] = answer.to_owned();
        self
    }

    /// The same with instructions before the answer of one of `check`, `backend` and `sheet`.
    pub fn doing(mut self, function: usize, before: &'static str) -> Self {
        self.before[function] = before;
        self
    }

    /// The module.
    pub fn wasm(&self) -> Vec<u8> {
        let texts = [&self.describe, &self.answers[0], &self.answers[1], &self.answers[2]];
        let (mut data, mut functions, mut at) = (String::new(), String::new(), 1024);
        for (index, name) in ["describe", "check", "backend", "sheet"].into_iter().enumerate() {
            let (text, length) = (texts[index], texts[index].len());
            data += &format!("(data (i32.const {at}) \"{}\")\n", escaped(text));
            let asked = if index == 0 { "" } else { "(param $at i32) (param $length i32)" };
            let before = index.checked_sub(1).map_or("", |index| self.before[index]);
            functions += &format!(
                "(func (export \"{name}\") {asked} {before} (call $answer (i32.const {at}) (i32.const {length})))\n"
            );
            at += length.next_multiple_of(8);
        }
        let (pages, room) = (at / 65536 + 2, (at / 65536 + 1) * 65536);
        wasm(&format!(
            "(module
            (import \"boxwright\" \"answer\" (func $answer (param i32 i32)))
            (import \"boxwright\" \"log\" (func $log (param i32 i32)))
            (memory (export \"memory\") {pages})
            (func (export \"room\") (param i32) (result i32)
                (drop (memory.grow (i32.add (i32.const 1) (i32.shr_u (local.get 0) (i32.const 16))))) (i32.const {room}))
            {data}{functions}{})",
            self.more
        ))
    }
}

fn escaped(text: &str) -> String {
    let plain = |byte: u8| (32..127).contains(&byte) && byte != b'"' && byte != b'\\';
    text.bytes().map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("\\{byte:02x}") }).collect()
}
