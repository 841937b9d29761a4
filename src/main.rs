//! The command `boxwright`: everything is in the library; here is only the exit code.

fn main() -> std::process::ExitCode {
    boxwright::cli::run(&boxwright::registry::Registry::standard())
}
