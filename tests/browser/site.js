// The page in `dist/`, served from deep inside an otherwise empty site: an
// address that is not relative leads nowhere there.
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

export const dist = fileURLToPath(new URL("../../dist/", import.meta.url));
/** The page as one file. */
export const singleFile = fileURLToPath(new URL("../../single/lip-to-rail.html", import.meta.url));

const folder = "/some/club/page/";

/** What a host calls each kind of file. */
export const mediaTypes = {
  ".css": "text/css",
  ".html": "text/html",
  ".js": "text/javascript",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** Starts the site on a free port; returns its address and how to stop it. What `changed` holds stands for the
 * file of that name. */
export async function startSite(changed = new Map()) {
  if (!existsSync(join(dist, "index.html"))) {
    throw new Error("dist/ is empty: run `cargo xtask build` first");
  }
  const server = createServer((request, response) => answer(request, response, changed));
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${server.address().port}${folder}`,
    stop: () => server.close(),
  };
}

async function answer(request, response, changed) {
  try {
    const file = fileFor(new URL(request.url, "http://site").pathname);
    const body = changed.get(relative(dist, file)) ?? (await readFile(file));
    response.writeHead(200, { "content-type": mediaTypes[extname(file)] ?? "" });
    response.end(body);
  } catch {
    response.writeHead(404);
    response.end();
  }
}

function fileFor(path) {
  if (!path.startsWith(folder)) throw new Error("outside the page");
  const file = normalize(join(dist, path.slice(folder.length)));
  return file.endsWith(sep) ? join(file, "index.html") : file;
}
