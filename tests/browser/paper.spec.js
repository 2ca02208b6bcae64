// A page of the sheets, printed: what is full size on the sheet is full size in the PDF.
import { readFile } from "node:fs/promises";
import { expect, test } from "@playwright/test";
import { levelLines } from "./pdf.js";

const tile = new URL("../goldens/coupe-strip-tile.svg", import.meta.url);

// A hair's breadth, mm: nobody sees less on a steel rule.
const SEEN = 0.1;

test("the check rulers measure true in the PDF", async ({ page }, info) => {
  test.skip(info.project.name !== "desktop", "paper is the same for all");
  const svg = await readFile(tile, "utf8");
  const [, width, height] = svg.match(/ width="([\d.]+)mm" height="([\d.]+)mm"/);
  const paper = `@page { size: ${width}mm ${height}mm; margin: 0 } body { margin: 0 } svg { display: block }`;
  await page.setContent(`<style>${paper}</style>${svg}`);
  const pdf = await page.pdf({ preferCSSPageSize: true });
  const { pages, lines } = levelLines(pdf);
  expect(pages, "the sheet stays on its one page").toBe(1);
  for (const ruler of [100, 101.6]) {
    const nearest = lines.reduce((best, line) =>
      Math.abs(line - ruler) < Math.abs(best - ruler) ? line : best,
    );
    expect(Math.abs(nearest - ruler), `${ruler} mm, found ${nearest}`).toBeLessThan(SEEN);
  }
});
