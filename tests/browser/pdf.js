// Reads as much of a PDF as it takes to measure the straight level lines on its pages.
import { inflateSync } from "node:zlib";

// Millimeters in a point, the PDF's own unit.
const POINT = 25.4 / 72;

/** How many pages there are, and the lengths of all level lines, mm. */
export function levelLines(pdf) {
  const text = pdf.toString("latin1");
  const pages = (text.match(/\/Type \/Page\b/g) ?? []).length;
  return { pages, lines: streams(pdf, text).flatMap(lengths) };
}

function streams(pdf, text) {
  const found = [];
  for (const start of text.matchAll(/stream\r?\n/g)) {
    const from = start.index + start[0].length;
    try {
      const bytes = pdf.subarray(from, text.indexOf("endstream", from));
      found.push(inflateSync(bytes).toString("latin1"));
    } catch {
      // A picture, or the end of another stream: it holds no lines.
    }
  }
  return found;
}

/** Follows the scale through a stream; only upright pages are printed here, so two numbers hold it. */
function lengths(stream) {
  let scale = [1, 1];
  let here = [0, 0];
  const kept = [];
  const lines = [];
  for (const line of stream.split("\n")) {
    const words = line.trim().split(/\s+/);
    const numbers = words.slice(0, -1).map(Number);
    switch (words.at(-1)) {
      case "q":
        kept.push(scale);
        break;
      case "Q":
        scale = kept.pop() ?? [1, 1];
        break;
      case "cm":
        scale = [scale[0] * numbers[0], scale[1] * numbers[3]];
        break;
      case "m":
        here = numbers;
        break;
      case "l":
        if (numbers[1] === here[1]) lines.push(Math.abs((numbers[0] - here[0]) * scale[0]) * POINT);
        here = numbers;
        break;
    }
  }
  return lines;
}
