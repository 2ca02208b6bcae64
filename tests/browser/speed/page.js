// A built page served as a static host serves it: compressed, each file as often as it is asked for.
import { readdirSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, relative } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { mediaTypes } from "../site.js";

/** Serves a folder on a free port; returns its address and how to stop it. */
export async function servePage(folder) {
  const files = new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && extname(entry.name) in mediaTypes)
      .map((entry) => join(entry.parentPath, entry.name))
      .map((file) => [`/${relative(folder, file)}`, brotliCompressSync(readFileSync(file))]),
  );
  const server = createServer((request, response) => {
    const path = new URL(request.url, "http://site").pathname.replace(/\/$/, "/index.html");
    const body = files.get(path);
    response.writeHead(body ? 200 : 404, { "content-type": mediaTypes[extname(path)] ?? "", "content-encoding": "br" });
    response.end(body);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { address: `http://127.0.0.1:${server.address().port}/`, stop: () => server.close() };
}
