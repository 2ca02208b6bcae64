//! What makes a built page one that can be installed and that works without a network: icon, manifest, and a worker
//! that knows every file of the page by its digest.

use std::fs;

use anyhow::{Context, Result, ensure};

use crate::bundle::PLAIN;
use crate::digest;
use crate::project::Project;

/// What stands in `index.html` where the icon and the manifest are named.
pub const NO_ICON: &str = r#"<link rel="icon" href="data:," />"#;

/// Names them. The page keeps itself for later only where a manifest is named.
const NAMED: &str = r#"<link rel="icon" type="image/svg+xml" href="icon.svg" />
    <link rel="manifest" href="manifest.webmanifest" />"#;

/// Adds to the page in `dist/` all that it needs.
pub fn add(project: &Project) -> Result<()> {
    let (from, dist) = (project.root.join("offline"), project.dist());
    for name in ["icon.svg", "manifest.webmanifest"] {
        fs::copy(from.join(name), dist.join(name))
            .with_context(|| format!("could not copy {name}"))?;
    }
    let index = dist.join("index.html");
    let page = fs::read_to_string(&index)?;
    ensure!(page.contains(NO_ICON), "index.html names an icon already");
    fs::write(&index, page.replacen(NO_ICON, NAMED, 1))?;
    let files = digest::of_files(&dist, digest::integrity)?;
    let worker = fs::read_to_string(from.join("worker.js"))?;
    fs::write(dist.join("worker.js"), written(&files, &worker))?;
    Ok(())
}

/// The worker for these files, each a path in the page and a digest.
fn written(files: &[(String, String)], worker: &str) -> String {
    let lines = files.iter().map(|(path, integrity)| {
        let module = match module_of(path) {
            Some(module) => format!(r#", "module": "{module}""#),
            None => String::new(),
        };
        format!("{{ \"path\": \"{path}\", \"integrity\": \"{integrity}\"{module} }},\n")
    });
    let lines: String = lines.collect();
    // A change of the worker itself is a new version too.
    let mut digests: Vec<String> = files
        .iter()
        .map(|(path, integrity)| path.clone() + integrity)
        .collect();
    digests.push(worker.to_owned());
    let version = digest::version(&digests);
    format!("const VERSION = \"{version}\";\nconst FILES = [\n{lines}];\n\n{worker}")
}

/// Which of the two modules a file belongs to, as the page calls them; `None` for what both use.
fn module_of(path: &str) -> Option<&'static str> {
    let in_plain = path
        .strip_prefix(PLAIN)
        .is_some_and(|rest| rest.starts_with('/'));
    match path {
        _ if in_plain => Some("plain"),
        "app.js" | "app_bg.wasm" => Some("lanes"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worker_keeps_each_file_with_its_module_and_changes_with_any() {
        let files = ["app.js", "index.html", "plain/app.js", "plainly.css"]
            .map(|path| (path.to_owned(), digest::integrity(path.as_bytes())));
        let text = written(&files, "// the rest");
        assert!(text.contains(r#""module": "lanes""#) && text.ends_with("\n// the rest"));
        assert_eq!(text.matches(r#""module": "plain""#).count(), 1);
        assert_eq!(text.matches("sha256-").count(), files.len());
        let version = |files: &[(String, String)], rest| {
            let text = written(files, rest);
            text.lines().next().map(str::to_owned)
        };
        assert_ne!(
            version(&files, "// the rest"),
            version(&files, "// another")
        );
        assert_ne!(
            version(&files, "// the rest"),
            version(&files[1..], "// the rest")
        );
    }
}
