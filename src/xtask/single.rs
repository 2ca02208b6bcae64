//! `single-file`: the whole page as one HTML file that opens from a disk, with no server.
//!
//! A page from a disk may fetch nothing, so style sheets, script and module stand in the file; the module packed, as
//! text, where a browser takes it for data. Its policy names every script
//! and style sheet by its digest.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use miniz_oxide::deflate::compress_to_vec_zlib;
use wasm_bindgen_cli_support::Bindgen;

use crate::bundle::STYLES;
use crate::project::Project;
use crate::wasm::{self, Lanes};
use crate::{digest, offline};

/// Unpacks the module and starts the page, or has it say that it did not start; follows the script that binds it, which
/// defines `wasm_bindgen`.
const START: &str = r#"
(async () => {
  try {
    const packed = Uint8Array.from(atob(document.getElementById("module").textContent), (letter) => letter.charCodeAt(0));
    const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
    await wasm_bindgen({ module_or_path: await new Response(unpacked).arrayBuffer() });
  } catch (fault) {
    console.error(fault);
    document.getElementById("starting")?.remove();
    document.body.append(document.getElementById("not-started")?.content ?? "");
  }
})();
"#;

/// The most thorough packing.
const LEVEL: u8 = 10;

/// Makes the file, and says how large it is.
pub fn make(project: &Project) -> Result<()> {
    // Any browser that unpacks runs the module without vector instructions, which gives the same digits.
    let module = wasm::compile(project, "app", &[], Lanes::Without)?;
    write(project, &module)
}

/// Writes the file with a compiled module in it.
fn write(project: &Project, module: &Path) -> Result<()> {
    let folder = project.target.join("single-file");
    Bindgen::new()
        .input_path(module)
        .no_modules(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .omit_default_module_path(true)
        .generate(&folder)
        .context("could not write the browser's side of the page")?;
    let script = fs::read_to_string(folder.join("app.js"))? + START;
    let module = fs::read(folder.join("app_bg.wasm"))?;
    let mut page = Page::new(fs::read_to_string(project.root.join("index.html"))?);
    for name in STYLES {
        let sheet = fs::read_to_string(project.root.join("style").join(name))?;
        page.take_in_style(name, &sheet)?;
    }
    let icon = fs::read(project.root.join("offline/icon.svg"))?;
    let icon = format!(
        r#"<link rel="icon" href="data:image/svg+xml;base64,{}" />"#,
        digest::base64(&icon)
    );
    page.replace(offline::NO_ICON, &icon)?;
    page.take_in_script(&script, &compress_to_vec_zlib(&module, LEVEL))?;
    let file = project.single_file();
    fs::create_dir_all(file.parent().context("it lies in a folder")?)?;
    fs::write(&file, &page.text).context("could not write the file")?;
    println!(
        "{} is ready: {} kB",
        file.strip_prefix(&project.root)?.display(),
        page.text.len().div_ceil(1000)
    );
    Ok(())
}

/// The page's shell, on its way to stand alone, and the digests of the style sheets that it took in.
struct Page {
    text: String,
    sheets: Vec<String>,
}

impl Page {
    fn new(text: String) -> Self {
        let sheets = Vec::new();
        Self { text, sheets }
    }

    /// Puts a style sheet in the place of its link.
    fn take_in_style(&mut self, name: &str, sheet: &str) -> Result<()> {
        ensure!(
            !sheet.contains("</style"),
            "{name} would end its own element"
        );
        let link = |media: &str| format!(r#"<link rel="stylesheet" href="style/{name}"{media} />"#);
        let print = r#" media="print""#;
        let content = format!("\n{sheet}");
        self.sheets
            .push(format!("'{}'", digest::integrity(content.as_bytes())));
        if self.text.contains(&link(print)) {
            self.replace(&link(print), &format!("<style{print}>{content}</style>"))
        } else {
            self.replace(&link(""), &format!("<style>{content}</style>"))
        }
    }

    /// Puts script and module in the place of what loads them, and lets the policy know.
    fn take_in_script(&mut self, script: &str, module: &[u8]) -> Result<()> {
        ensure!(
            !script.contains("</script"),
            "the script would end its own element"
        );
        self.take_out(r#"<link rel="modulepreload""#, "/>")?;
        self.take_out(r#"<link rel="preload""#, "/>")?;
        self.take_out(r#"<script type="module">"#, "</script>")?;
        let stays = self.script_that_stays()?;
        let policy = self.take_out(r#"content="default-src 'none'"#, "\"\n")?;
        let allowed = format!(
            "content=\"default-src 'none'; script-src '{stays}' '{}' 'wasm-unsafe-eval'; style-src {}; \
             img-src data:; base-uri 'none'; form-action 'none'\"\n",
            digest::integrity(script.as_bytes()),
            self.sheets.join(" ")
        );
        self.text.insert_str(policy, &allowed);
        let end = self
            .text
            .find("  </body>")
            .context("index.html has no body")?;
        // The module and what is shown without it first: the script finds them already there.
        self.text.insert_str(
            end,
            &format!(
                "    <script type=\"application/wasm\" id=\"module\">{}</script>\n    <script>{script}</script>\n",
                digest::base64(module)
            ),
        );
        Ok(())
    }

    /// The digest of the one script of the shell that the file has as well.
    fn script_that_stays(&self) -> Result<String> {
        let (_, behind) = self
            .text
            .split_once("<script>")
            .context("index.html has no plain script")?;
        let (script, _) = behind
            .split_once("</script>")
            .context("index.html's script does not end")?;
        Ok(digest::integrity(script.as_bytes()))
    }

    fn replace(&mut self, old: &str, new: &str) -> Result<()> {
        ensure!(
            self.text.matches(old).count() == 1,
            "index.html does not have {old} once"
        );
        self.text = self.text.replacen(old, new, 1);
        Ok(())
    }

    /// Takes out what begins and ends so, and tells where it stood.
    fn take_out(&mut self, begins: &str, ends: &str) -> Result<usize> {
        let from = self
            .text
            .find(begins)
            .with_context(|| format!("index.html has no {begins}"))?;
        let behind = self.text[from..]
            .find(ends)
            .with_context(|| format!("no {ends} behind {begins}"))?;
        self.text
            .replace_range(from..from + behind + ends.len(), "");
        Ok(from)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_the_file_is_loaded_from_elsewhere() {
        let shell = include_str!("../../index.html");
        let mut page = Page::new(shell.to_owned());
        for name in STYLES {
            page.take_in_style(name, "p { color: red; }")
                .expect("each sheet is linked");
        }
        page.take_in_script("start();", b"module")
            .expect("a script");
        for loads in ["href=\"style", "app.js", "app_bg.wasm", "'self'", "import("] {
            assert!(!page.text.contains(loads), "{loads} in {}", page.text);
        }
        assert!(!page.text.contains("unsafe-inline"));
        let sheet = digest::integrity(b"\np { color: red; }");
        assert_eq!(page.text.matches(&sheet).count(), STYLES.len());
        assert!(page.text.contains(&digest::integrity(b"start();")));
        let stays = page.script_that_stays().expect("the shell's own");
        assert!(page.text.contains(&format!("'{stays}'")));
        assert!(page.text.contains(r#"<style media="print">"#));
        assert!(
            Page::new(shell.to_owned())
                .take_in_script("\"</script>\"", b"")
                .is_err()
        );
    }
}
