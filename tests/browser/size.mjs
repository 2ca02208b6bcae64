// Prints every file that the page loads and its bytes, for browsers with and without vector instructions.
import { sum, weights } from "./weights.js";

for (const [module, title] of [["lanes", "with"], ["plain", "without"]]) {
  const files = weights(module);
  console.log(`\n| ${title} vector instructions, bytes | raw | gzip | brotli |\n| --- | --- | --- | --- |`);
  for (const { file, raw, gzip, brotli } of [...files, sum(files)]) {
    console.log(`| ${file} | ${raw} | ${gzip} | ${brotli} |`);
  }
}
