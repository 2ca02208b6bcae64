// What a visitor's browser loads of the page in `dist/`, file by file, and how heavy it is.
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { dist } from "./site.js";

/** Files that come after the page stands, or are for whoever keeps the page: no visitor waits for them. */
const aside = new Set(["SHA256SUMS", "worker.js"]);

/** A browser loads the module with vector instructions or the one in `plain/` without, never both. */
const belongs = { lanes: (file) => !file.startsWith("plain/"), plain: (file) => !/^app[._]/.test(file) };

function weigh(file) {
  const content = readFileSync(join(dist, file));
  const brotli = brotliCompressSync(content, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: content.length } });
  return { file, raw: content.length, gzip: gzipSync(content, { level: 9 }).length, brotli: brotli.length };
}

/** Each file that is loaded, with its bytes as it is, as gzip and as brotli, the heaviest first; `module` is `lanes` or
 * `plain`. */
export function weights(module) {
  return readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(dist, join(entry.parentPath, entry.name)))
    .filter((file) => !aside.has(file) && belongs[module](file))
    .map(weigh)
    .sort((one, other) => other.brotli - one.brotli);
}

/** Their sums. */
export function sum(files) {
  const total = (kind) => files.reduce((bytes, file) => bytes + file[kind], 0);
  return { file: "all", raw: total("raw"), gzip: total("gzip"), brotli: total("brotli") };
}
