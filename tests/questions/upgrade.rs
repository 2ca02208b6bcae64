//! Car files of other versions.
//!
//! There is one format so far, so there is nothing to upgrade yet: what must hold is that a file of any other format is
//! refused where it says so, and nowhere else, and that a good file some lines of which are lost, doubled, swapped or
//! overwritten, as a file of a version before or after it looks to this one, reads or is told. When there is a second
//! format, files of the first come here.

use carfile::{FORMAT, SCENARIOS, read};

use crate::car_file::are_told;
use crate::clock::timed;
use crate::same;
use crate::source::Source;

/// The line that says the format begins with this.
const KEY: &str = "format";

/// The most lines that are changed.
const CHANGES: usize = 8;

pub fn ask(input: &[u8]) {
    let mut source = Source::new(input);
    let file = source.choice(SCENARIOS);
    let mut lines: Vec<String> = file.text.lines().map(str::to_owned).collect();
    if source.flag() {
        let other = i64::from(source.byte()) - 128;
        of_format(&lines, other);
    }
    for _ in 0..CHANGES {
        if source.is_done() {
            break;
        }
        change(&mut lines, &mut source);
    }
    let text = lines.join("\n");
    match timed("reading a changed car file", || read(&text)) {
        Ok(car) => same::comes_back(&car),
        Err(faults) => are_told(text.as_bytes(), &faults),
    }
}

/// A good file that says it is of another format opens only if it is this one, and is refused for that alone.
fn of_format(lines: &[String], number: i64) {
    let said = |line: &String| {
        if line.starts_with(KEY) {
            format!("{KEY} = {number}")
        } else {
            line.clone()
        }
    };
    let text = lines.iter().map(said).collect::<Vec<_>>().join("\n");
    match read(&text) {
        Ok(_) => assert_eq!(
            number, FORMAT,
            "a file of another format is taken for one of this"
        ),
        Err(faults) => {
            assert_ne!(number, FORMAT, "{faults:#?}");
            assert_eq!(faults.len(), 1, "{faults:#?}");
            assert_eq!(
                (faults[0].at.as_str(), faults[0].column),
                (KEY, KEY.len() + 4)
            );
        }
    }
}

/// Loses, doubles, swaps or overwrites a line, or a part of one.
fn change(lines: &mut Vec<String>, source: &mut Source<'_>) {
    if lines.is_empty() {
        return;
    }
    let at = source.below(lines.len());
    match source.below(6) {
        0 => {
            lines.remove(at);
        }
        1 => lines.insert(at, lines[at].clone()),
        2 => {
            let other = source.below(lines.len());
            lines.swap(at, other);
        }
        3 => lines.insert(at, source.text()),
        4 => {
            let key = lines[at].split('=').next().unwrap_or_default().to_owned();
            lines[at] = format!("{key}= {}", source.text());
        }
        _ => {
            let value = lines[at]
                .split_once('=')
                .map_or("", |(_, value)| value)
                .to_owned();
            lines[at] = format!("{} ={value}", source.text());
        }
    }
}
