//! `serve`: the page on this machine, for trying it by hand.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::thread;

use anyhow::{Result, bail};
use tiny_http::{Header, Method, Request, Response, Server};

use crate::bundle;
use crate::project::Project;

/// Where the page is looked for first.
pub const DEFAULT_PORT: u16 = 8190;

/// How many ports are tried, from the one asked for upward.
const PORTS_TRIED: u16 = 20;

/// Builds the page, then serves it until the program is stopped.
pub fn build_and_serve(project: &Project, port: u16) -> Result<()> {
    // A page that a browser keeps for later would hide the next build.
    bundle::lay_out(project)?;
    let server = listen(port)?;
    println!("http://{}/", server.server_addr());
    for request in server.incoming_requests() {
        let dist = project.dist();
        // A visitor who leaves early, or stops reading, is no reason to keep the others waiting.
        thread::spawn(move || {
            if let Err(error) = answer(request, &dist) {
                eprintln!("{error}");
            }
        });
    }
    Ok(())
}

/// Takes the port, or the next one that is free.
fn listen(port: u16) -> Result<Server> {
    for port in port..=port.saturating_add(PORTS_TRIED) {
        // Only this machine: the page is not published by looking at it.
        if let Ok(server) = Server::http(("127.0.0.1", port)) {
            return Ok(server);
        }
    }
    bail!("no free port from {port} upward");
}

fn answer(request: Request, dist: &Path) -> io::Result<()> {
    if !matches!(request.method(), Method::Get | Method::Head) {
        return request.respond(Response::empty(405));
    }
    let Some(file) = file_for(request.url(), dist) else {
        return request.respond(Response::from_string("not found").with_status_code(404));
    };
    let mut response = Response::from_file(File::open(&file)?);
    response.add_header(header("Content-Type", media_type(&file)));
    // The next look must show the next build.
    response.add_header(header("Cache-Control", "no-store"));
    request.respond(response)
}

/// The file an address stands for, if there is one inside the folder.
///
/// No name in the folder needs escaping, so addresses are taken as they come:
/// an escaped one finds nothing.
fn file_for(address: &str, dist: &Path) -> Option<PathBuf> {
    let path = address.split(['?', '#']).next()?.strip_prefix('/')?;
    let mut file = fs::canonicalize(dist).ok()?;
    for name in path.split('/').filter(|name| !name.is_empty()) {
        if name.starts_with('.') || name.contains(['\\', ':', '\0']) {
            return None;
        }
        file.push(name);
    }
    if file.is_dir() {
        file.push("index.html");
    }
    file.is_file().then_some(file)
}

/// Browsers compile a module as it arrives only when it is called what it is.
fn media_type(file: &Path) -> &'static str {
    match file.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json" | "webmanifest") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        _ => "application/octet-stream",
    }
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("headers written here are plain ASCII")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// This crate's own folder stands in for a built page.
    fn found(address: &str) -> bool {
        file_for(address, Path::new(env!("CARGO_MANIFEST_DIR"))).is_some()
    }

    #[test]
    fn addresses_inside_the_folder_are_found() {
        assert!(found("/serve.rs"));
        assert!(found("/serve.rs?again#here"));
        assert!(!found("/index.html"));
        assert!(!found("/"));
    }

    #[test]
    fn no_address_leads_out_of_the_folder() {
        for address in [
            "/../Cargo.toml",
            "/./serve.rs",
            "/%2e%2e/Cargo.toml",
            "/..%2fCargo.toml",
            "/..\\Cargo.toml",
            "//../Cargo.toml",
            "../Cargo.toml",
            "serve.rs",
        ] {
            assert!(!found(address), "{address}");
        }
    }
}
