//! Running other programs: one that fails stops the command, and says which it was.

use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};

/// What the xtask asks of a program it starts.
pub trait Run {
    /// Runs it with its output in full view.
    fn run(&mut self) -> Result<()>;

    /// Runs it and hands back what it printed.
    fn output_text(&mut self) -> Result<String>;

    /// Whether it can be started and ends well; for looking whether it is there.
    fn answers(&mut self) -> bool;
}

impl Run for Command {
    fn run(&mut self) -> Result<()> {
        let status = self
            .status()
            .with_context(|| format!("could not start {}", spoken(self)))?;
        ensure!(status.success(), "failed: {} ({status})", spoken(self));
        Ok(())
    }

    fn output_text(&mut self) -> Result<String> {
        let output = self
            .stderr(Stdio::inherit())
            .output()
            .with_context(|| format!("could not start {}", spoken(self)))?;
        ensure!(
            output.status.success(),
            "failed: {} ({})",
            spoken(self),
            output.status
        );
        Ok(String::from_utf8(output.stdout)?)
    }

    fn answers(&mut self) -> bool {
        self.stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status()
            .is_ok_and(|status| status.success())
    }
}

/// The command as one would type it.
fn spoken(command: &Command) -> String {
    let mut words = vec![command.get_program().to_string_lossy()];
    words.extend(command.get_args().map(|word| word.to_string_lossy()));
    words.join(" ")
}
