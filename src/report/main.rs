//! The headless command, `lip-to-rail`: arguments and streams in, an exit code out.

use std::io;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = std::env::args_os().skip(1);
    report::run(
        arguments,
        &mut io::stdout().lock(),
        &mut io::stderr().lock(),
    )
    .into()
}
