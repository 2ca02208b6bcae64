// What a page must be for whoever reads it large, by keys or by touch; asked of any page in any state.
import { expect } from "./fixture.js";

/** Every page by its address. */
export const pages = [
  "bench",
  "sheets/tape",
  "sheets/order",
  "sheets/mock-up",
  "sheets/cut",
  "sheets/strip",
  "sheets/weld",
  "walk-round",
  "take-away",
  "write-up",
];

/** Opens a page and waits until what it works out is there. */
export async function openPage(page, address) {
  await page.goto(`#${address}`);
  await expect(page.getByRole("heading", { level: 1 })).toBeAttached();
  if (address === "bench") await expect(page.locator("#rear-body path").first()).toBeAttached();
  if (address.startsWith("sheets")) await expect(page.locator(".sheet-told")).toHaveText("", { timeout: 60_000 });
  if (address === "walk-round") await expect(page.locator(".in-short")).not.toHaveText(/worked out/, { timeout: 60_000 });
}

/** Unfolds everything that is folded. */
export function unfold(page) {
  return page.evaluate(() => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
  });
}

/** What does not fit into the page's width: the page itself, what stands out of it, text that is cut off. What scrolls
 * sideways within itself may be wider, and must be reached by keys and have a name. */
export function tooWide(page) {
  return page.evaluate(() => {
    const root = document.documentElement;
    const found = [];
    if (root.scrollWidth > root.clientWidth) found.push(`the page scrolls ${root.scrollWidth - root.clientWidth} px sideways`);
    const name = (element) => `${element.tagName.toLowerCase()}.${element.getAttribute("class") ?? ""} “${element.textContent.trim().slice(0, 30)}”`;
    for (const element of document.body.querySelectorAll("*")) {
      // A drawing is one picture; what only the ear gets is cut off on purpose.
      if (element.closest("svg svg, svg *, .heard, .skip")) continue;
      const { right, width, height } = element.getBoundingClientRect();
      if (width === 0 || height === 0) continue;
      const { overflowX } = getComputedStyle(element);
      // Half a pixel is lost in rounding.
      const isWider = element.scrollWidth > element.clientWidth + 1;
      if (["auto", "scroll"].includes(overflowX)) {
        if (isWider && !(element.tabIndex >= 0 && element.getAttribute("aria-label"))) found.push(`${name(element)} scrolls and has no name or focus`);
        continue;
      }
      if (element.parentElement.closest(".wide, .paper-wide")) continue;
      if (right > root.clientWidth + 1) found.push(`${name(element)} ends at ${right}`);
      const isCut = ["hidden", "clip"].includes(overflowX) && !element.matches("input, textarea, .sheet");
      if (isCut && isWider) found.push(`${name(element)} is cut off`);
    }
    return found;
  });
}

/** Which texts lie on each other. */
export function overlaps(page) {
  return page.evaluate(() => {
    const shown = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !element.closest("svg, .heard, .skip, .handles, [popover]");
    const leaves = [...document.body.querySelectorAll("*")].filter(
      (element) => shown(element) && [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()),
    );
    const boxes = leaves.flatMap((element) => {
      const layer = element.closest(".warned, .view, .told");
      return [...element.childNodes]
        .filter((node) => node.nodeType === Node.TEXT_NODE && node.data.trim())
        .flatMap((node) => {
          const range = document.createRange();
          range.selectNodeContents(node);
          return [...range.getClientRects()].map((box) => ({ element, layer, box, text: node.data.trim().slice(0, 30) }));
        });
    });
    boxes.sort((one, other) => one.box.top - other.box.top);
    const found = [];
    for (const [index, one] of boxes.entries()) {
      for (const other of boxes.slice(index + 1)) {
        if (other.box.top >= one.box.bottom) break;
        // The picture that stays lies over what passes under it, and an unfolded list over the picture.
        if (one.layer !== other.layer || one.element === other.element) continue;
        const wide = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
        const high = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
        // Line boxes touch; letters that lie on each other share a third of a line.
        if (wide > 2 && high > Math.min(one.box.height, other.box.height) / 3) found.push(`“${one.text}” and “${other.text}”`);
      }
    }
    return found;
  });
}

/** Where the focus is, and what is wrong with it there: nothing shows it, or something lies over it. */
export function stop(page) {
  return page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return null;
    const faults = [];
    // What is clipped to nothing or clear shows the focus on what stands for it.
    const shows = [at, at.nextElementSibling, at.closest("label")].filter(Boolean);
    const ringed = shows.find((element) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(element);
      return outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 1;
    });
    if (!ringed) faults.push("no outline");
    const box = at.getBoundingClientRect();
    const seen = { top: Math.max(box.top, 0), left: Math.max(box.left, 0), bottom: Math.min(box.bottom, innerHeight), right: Math.min(box.right, innerWidth) };
    const points = [0.05, 0.5, 0.95].flatMap((x) => [0.05, 0.5, 0.95].map((y) => [seen.left + (seen.right - seen.left) * x, seen.top + (seen.bottom - seen.top) * y]));
    const isSeen = points.some(([x, y]) => {
      const top = document.elementFromPoint(x, y);
      return top && (at.contains(top) || top.contains(at) || shows.some((element) => element.contains(top)));
    });
    if (!isSeen) faults.push("out of sight");
    window.reachStops ??= new Map();
    if (!window.reachStops.has(at)) window.reachStops.set(at, window.reachStops.size);
    const name = `${at.tagName.toLowerCase()}#${at.id}.${at.getAttribute("class") ?? ""} “${(at.getAttribute("aria-label") ?? at.textContent).trim().slice(0, 40)}”`;
    return { name, faults, number: window.reachStops.get(at) };
  });
}

/** Goes on by Tab until the focus is on `target`; every stop on the way must be seen. */
export async function tabTo(page, target, key = "Tab") {
  await expect(target).toBeAttached();
  for (let presses = 0; presses < 400; presses += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press(key);
    const here = await stop(page);
    expect(here?.faults ?? [], here?.name).toEqual([]);
  }
  throw new Error(`${target} is not reached by ${key}`);
}
