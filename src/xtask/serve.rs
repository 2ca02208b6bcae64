//! `serve`: the page on this machine, for trying it by hand.

use std::io;
use std::path::Path;

use anyhow::{Result, bail};
use axum::Router;
use axum::http::HeaderValue;
use axum::http::header::CACHE_CONTROL;
use tokio::net::TcpListener;
use tokio::runtime;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

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
    runtime::Builder::new_current_thread()
        .enable_io()
        .build()?
        .block_on(async {
            let listener = listen(port).await?;
            println!("http://{}/", listener.local_addr()?);
            Ok(serve(listener, &project.dist()).await?)
        })
}

/// Takes the port, or the next one that is free.
async fn listen(port: u16) -> Result<TcpListener> {
    for port in port..=port.saturating_add(PORTS_TRIED) {
        // Only this machine: the page is not published by looking at it.
        if let Ok(listener) = TcpListener::bind(("127.0.0.1", port)).await {
            return Ok(listener);
        }
    }
    bail!("no free port from {port} upward");
}

/// Answers with what lies in the folder, and nothing beside it.
async fn serve(listener: TcpListener, folder: &Path) -> io::Result<()> {
    // The next look must show the next build.
    let fresh =
        SetResponseHeaderLayer::overriding(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    let files = Router::new()
        .fallback_service(ServeDir::new(folder))
        .layer(fresh);
    axum::serve(listener, files).await
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};
    use std::net::{SocketAddr, TcpStream};
    use std::path::PathBuf;
    use std::time::Duration;
    use std::{fs, thread};

    use super::*;

    /// A served folder, and what lies beside it, for as long as a test looks at it.
    struct Served {
        folder: PathBuf,
        address: SocketAddr,
    }

    impl Drop for Served {
        fn drop(&mut self) {
            // What is left behind in a folder for passing files harms nobody.
            let _ = fs::remove_dir_all(&self.folder);
        }
    }

    /// A folder with a page, a module and a folder in it, and a file beside it that nobody may have.
    fn served(name: &str) -> Served {
        let folder =
            std::env::temp_dir().join(format!("lip-to-rail-{name}-{}", std::process::id()));
        fs::create_dir_all(folder.join("dist/deeper")).unwrap();
        fs::write(folder.join("beside.html"), "not for the visitor").unwrap();
        for file in ["index.html", "model.wasm", "app.js", "deeper/index.html"] {
            fs::write(folder.join("dist").join(file), file).unwrap();
        }
        let listener = std::net::TcpListener::bind(("127.0.0.1", 0)).unwrap();
        let address = listener.local_addr().unwrap();
        listener.set_nonblocking(true).unwrap();
        let dist = folder.join("dist");
        thread::spawn(move || {
            let runtime = runtime::Builder::new_current_thread()
                .enable_io()
                .build()
                .unwrap();
            runtime.block_on(async {
                serve(TcpListener::from_std(listener).unwrap(), &dist)
                    .await
                    .unwrap();
            });
        });
        Served { folder, address }
    }

    /// Asks, and leaves the connection open.
    fn ask(to: &Served, request: &str, ending: &str) -> TcpStream {
        let mut stream = TcpStream::connect(to.address).unwrap();
        // However busy the machine: what has not come by then never will.
        stream
            .set_read_timeout(Some(Duration::from_mins(1)))
            .unwrap();
        write!(stream, "{request} HTTP/1.1\r\nHost: here\r\n{ending}\r\n").unwrap();
        stream
    }

    fn answer(to: &Served, request: &str) -> String {
        let mut answer = String::new();
        ask(to, request, "Connection: close\r\n")
            .read_to_string(&mut answer)
            .unwrap();
        answer.to_ascii_lowercase()
    }

    #[test]
    fn files_are_called_what_they_are_and_kept_by_nobody() {
        let served = served("types");
        for (path, media_type, body) in [
            ("/", "text/html", "index.html"),
            ("/index.html?again", "text/html", "index.html"),
            ("/deeper/", "text/html", "deeper/index.html"),
            ("/app.js", "text/javascript", "app.js"),
            // Browsers compile a module as it arrives only under this name.
            ("/model.wasm", "application/wasm", "model.wasm"),
        ] {
            let answer = answer(&served, &format!("GET {path}"));
            assert!(
                answer.starts_with("http/1.1 200 ok\r\n"),
                "{path}: {answer}"
            );
            assert!(
                answer.contains(&format!("content-type: {media_type}\r\n")),
                "{path}: {answer}"
            );
            assert!(
                answer.contains("cache-control: no-store\r\n"),
                "{path}: {answer}"
            );
            assert!(
                answer.ends_with(&format!("\r\n\r\n{body}")),
                "{path}: {answer}"
            );
        }
    }

    #[test]
    fn no_address_leads_out_of_the_folder() {
        let served = served("ways-out");
        for path in [
            "/../beside.html",
            "/deeper/../../beside.html",
            "//../beside.html",
            "/%2e%2e/beside.html",
            "/..%2fbeside.html",
            "/..\\beside.html",
            "/none.html",
        ] {
            let answer = answer(&served, &format!("GET {path}"));
            assert!(answer.starts_with("http/1.1 404 "), "{path}: {answer}");
        }
    }

    #[test]
    fn nothing_is_taken_from_a_visitor() {
        let answer = answer(&served("methods"), "POST /");
        assert!(answer.starts_with("http/1.1 405 "), "{answer}");
    }

    /// A browser opens several connections at once and keeps them.
    #[test]
    fn connections_that_are_kept_open_keep_nobody_waiting() {
        let served = served("connections");
        let mut kept: Vec<TcpStream> = (0..64).map(|_| ask(&served, "GET /", "")).collect();
        for stream in &mut kept {
            let mut status = [0; "HTTP/1.1 200".len()];
            stream.read_exact(&mut status).unwrap();
            assert_eq!(&status, b"HTTP/1.1 200");
        }
    }
}
