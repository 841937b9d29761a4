//! A compiled plug-in and one call of it: no door to the outside but an answer and a log, and an end to everything.

use super::bounds::{Bounds, bytes};
use sha2::{Digest, Sha256};
use wasmi::{
    Caller, CompilationMode, Config, EnforcedLimits, Engine, Error, Extern, ExternType, Instance, Linker, Memory,
    Module, Store, StoreLimits, StoreLimitsBuilder, TrapCode,
};

/// The module that what a plug-in imports is in.
const HOST: &str = "boxwright";
/// What it may import.
const IMPORTS: [&str; 2] = ["answer", "log"];
/// Longest log that is kept, bytes; what is beyond is left out.
const LONGEST_LOG: usize = 1 << 16;
/// Most entries of all tables.
const MOST_ENTRIES: usize = 100_000;

/// A plug-in, compiled.
pub(super) enum Program {
    /// From WebAssembly.
    Wasm(Module),
    /// A part of this program.
    Linked(fn(&str, &[u8]) -> Vec<u8>),
}

/// What came of a call.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Heard {
    /// What was answered, or why the call was stopped.
    pub answer: Result<Vec<u8>, String>,
    /// What was logged.
    pub log: String,
    /// Units of fuel that were used.
    pub fuel: u64,
    /// Memory in the end, bytes.
    pub memory: usize,
}

/// What a call leaves behind on our side.
struct Side {
    limits: StoreLimits,
    answer: Vec<u8>,
    log: Vec<u8>,
    longest: usize,
    /// Why we stopped it.
    stopped: Option<String>,
}

impl Program {
    /// Compiles the bytes of a plug-in, whole, so that a call uses the same fuel each time.
    ///
    /// # Errors
    /// What is wrong with them, as the rest of a sentence about it.
    pub fn compile(wasm: &[u8], bounds: &Bounds) -> Result<Self, String> {
        if wasm.len() > bytes(bounds.code) {
            return Err(format!("is larger than {} MiB; `--plug-in-bound code=N` allows more", bounds.code));
        }
        if !wasm.starts_with(b"\0asm") {
            return Err("is no WebAssembly: the first bytes of such a file are `\\0asm`".to_owned());
        }
        let mut config = Config::default();
        config
            .consume_fuel(true)
            .enforced_limits(EnforcedLimits::strict())
            .compilation_mode(CompilationMode::Eager)
            .ignore_custom_sections(true);
        let module = Module::new(&Engine::new(&config), wasm).map_err(|error| format!("can't be compiled: {error}"))?;
        let foreign = module.imports().find(|one| one.module() != HOST || !IMPORTS.contains(&one.name()));
        if let Some(one) = foreign {
            let known = "`boxwright.answer` and `boxwright.log`";
            return Err(format!("imports `{}.{}`; there is nothing but {known} to import", one.module(), one.name()));
        }
        Ok(Self::Wasm(module))
    }

    /// Whether it exports a function.
    pub fn has(&self, function: &str) -> bool {
        match self {
            Self::Wasm(module) => matches!(module.get_export(function), Some(ExternType::Func(_))),
            Self::Linked(_) => true,
        }
    }

    /// Functions that are a part of this program.
    pub fn linked(functions: fn(&str, &[u8]) -> Vec<u8>) -> Self {
        Self::Linked(functions)
    }

    /// Calls a function with a question, in a memory of its own.
    pub fn call(&self, function: &str, question: Option<&[u8]>, bounds: &Bounds) -> Heard {
        let module = match self {
            Self::Wasm(module) => module,
            Self::Linked(functions) => {
                let answer = Ok(functions(function, question.unwrap_or_default()));
                return Heard { answer, log: String::new(), fuel: 0, memory: 0 };
            }
        };
        let limits = StoreLimitsBuilder::new()
            .memory_size(bytes(bounds.memory))
            .table_elements(MOST_ENTRIES)
            .instances(1)
            .memories(1)
            .tables(4)
            .trap_on_grow_failure(true)
            .build();
        let longest = bytes(bounds.answer);
        let side = Side { limits, answer: Vec::new(), log: Vec::new(), longest, stopped: None };
        let mut store = Store::new(module.engine(), side);
        store.limiter(|side| &mut side.limits);
        let all = bounds.fuel.saturating_mul(1_000_000);
        let done = run(module, &mut store, (function, question), all);
        let fuel = all.saturating_sub(store.get_fuel().unwrap_or(0));
        let memory = done.as_ref().map_or(0, |memory| memory.map_or(0, |memory| memory.data_size(&store)));
        let side = store.into_data();
        let answer = match (done, side.stopped) {
            (_, Some(why)) => Err(why),
            (Err(error), None) => Err(words(&error, bounds)),
            (Ok(_), None) => Ok(side.answer),
        };
        Heard { answer, log: String::from_utf8_lossy(&side.log).into_owned(), fuel, memory }
    }
}

/// Starts the program, puts the question into its memory and calls it.
fn run(
    module: &Module,
    store: &mut Store<Side>,
    (function, question): (&str, Option<&[u8]>),
    fuel: u64,
) -> Result<Option<Memory>, Error> {
    store.set_fuel(fuel)?;
    let mut linker = Linker::new(module.engine());
    linker.func_wrap(HOST, "answer", |caller: Caller<'_, Side>, at: u32, length: u32| answer(caller, at, length))?;
    linker.func_wrap(HOST, "log", |caller: Caller<'_, Side>, at: u32, length: u32| log(caller, at, length))?;
    let instance = linker.instantiate_and_start(&mut *store, module)?;
    let memory = instance.get_memory(&*store, "memory");
    match question {
        None => instance.get_typed_func::<(), ()>(&*store, function)?.call(&mut *store, ())?,
        Some(question) => ask(&instance, store, (function, question), memory)?,
    }
    Ok(memory)
}

fn ask(
    instance: &Instance,
    store: &mut Store<Side>,
    (function, question): (&str, &[u8]),
    memory: Option<Memory>,
) -> Result<(), Error> {
    let memory = memory.ok_or_else(|| Error::new("it exports no memory called `memory`"))?;
    let length = u32::try_from(question.len()).map_err(|_| Error::new("the question is larger than 4 GiB"))?;
    let at = instance.get_typed_func::<u32, u32>(&*store, "room")?.call(&mut *store, length)?;
    let outside = |_| Error::new(format!("`room` gave {at}, where {length} bytes do not lie inside its memory"));
    memory.write(&mut *store, at as usize, question).map_err(outside)?;
    instance.get_typed_func::<(u32, u32), ()>(&*store, function)?.call(&mut *store, (at, length))
}

/// The bytes that a plug-in points at.
fn pointed(caller: &Caller<'_, Side>, at: u32, length: u32, what: &str) -> Result<Vec<u8>, Error> {
    let memory = match caller.get_export("memory") {
        Some(Extern::Memory(memory)) => memory,
        _ => return Err(Error::new("it exports no memory called `memory`")),
    };
    let (at, length) = (at as usize, length as usize);
    let found = at.checked_add(length).and_then(|end| memory.data(caller).get(at..end)).map(<[u8]>::to_vec);
    found.ok_or_else(|| {
        Error::new(format!("`{what}` points at {length} bytes from {at}, which do not lie inside its memory"))
    })
}

fn answer(mut caller: Caller<'_, Side>, at: u32, length: u32) -> Result<(), Error> {
    let side = caller.data_mut();
    if side.answer.len() + length as usize > side.longest {
        let why =
            format!("its answer is longer than {} MiB; `--plug-in-bound answer=N` allows more", side.longest >> 20);
        side.stopped = Some(why.clone());
        return Err(Error::new(why));
    }
    let bytes = pointed(&caller, at, length, "answer")?;
    caller.data_mut().answer.extend(bytes);
    Ok(())
}

fn log(mut caller: Caller<'_, Side>, at: u32, length: u32) -> Result<(), Error> {
    let room = LONGEST_LOG - caller.data().log.len().min(LONGEST_LOG);
    let length = length.min(u32::try_from(room).unwrap_or(0));
    let bytes = pointed(&caller, at, length, "log")?;
    caller.data_mut().log.extend(bytes);
    Ok(())
}

/// Why a call ended early.
fn words(error: &Error, bounds: &Bounds) -> String {
    match error.as_trap_code() {
        Some(TrapCode::OutOfFuel) => {
            format!("it took more than {} million steps; `--plug-in-bound fuel=N` allows more", bounds.fuel)
        }
        Some(TrapCode::GrowthOperationLimited) => {
            format!("it wanted more than {} MiB of memory; `--plug-in-bound memory=N` allows more", bounds.memory)
        }
        Some(TrapCode::StackOverflow) => "its functions called each other too deep".to_owned(),
        Some(TrapCode::UnreachableCodeReached) => "it gave up (`unreachable`), as a panic does".to_owned(),
        Some(trap) => format!("it failed: {trap}"),
        None => format!("it failed: {error}"),
    }
}

/// The SHA-256 of some bytes (FIPS 180-4), in hexadecimal digits.
#[must_use]
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}
