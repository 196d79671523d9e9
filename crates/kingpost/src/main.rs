//! The program: hands its arguments on, prints the answer, ends with its exit code.

use std::{
    io::{self, Write},
    process::ExitCode,
    sync::Arc,
};

/// The system's own allocator keeps the blocks that hashing PINs and typesetting take.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let printed = kingpost::answer(std::env::args_os(), Arc::new(kingpost::RealWorld::new()));
    // A reader that has gone away, as in `| head`, is no trouble of ours.
    let _ = io::stdout().write_all(printed.out.as_bytes());
    let _ = io::stderr().write_all(printed.err.as_bytes());
    ExitCode::from(printed.code)
}
