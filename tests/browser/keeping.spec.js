// Keeping the work when the browser does not: its memory full, forbidden, damaged, written by a newer page or by another
// tab. Nothing is lost, and the visitor is told what happened and what to do.
import { readFile } from "node:fs/promises";
import { expect, test } from "./fixture.js";
import { leverBox, openBench, type } from "./bench.js";

const DESK = "lip-to-rail.desk";
const carButton = (page) => page.locator(".car-button");
const told = (page) => page.getByRole("status").filter({ has: page.getByRole("button", { name: "Understood" }) });
const kept = (page) => page.evaluate((desk) => localStorage.getItem(desk), DESK);

/** Waits until what the page keeps holds this. */
const keeps = (page, text) => expect.poll(() => kept(page)).toContain(text);

/** Has the browser keep `desk` before the page is opened, but not again when it is loaded again. */
async function left(page, desk, opening = false) {
  await page.addInitScript(
    ([name, desk, opening]) => {
      if (!location.protocol.startsWith("http") || sessionStorage.getItem("left")) return;
      sessionStorage.setItem("left", "1");
      if (opening) sessionStorage.setItem("lip-to-rail.opening", "1");
      localStorage.setItem(name, desk);
    },
    [DESK, desk, opening],
  );
}

/** A desk as the page keeps it, with its backspacing changed to 6 in and a car of one's own put aside. */
async function worked(page) {
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await carButton(page).click();
  await page.getByRole("button", { name: /^Fastback/ }).click();
  await type(page, "Track width", "57 in");
  // At the start of a line: a side that is shown is kept as well. The step is kept after the car, on a slow machine.
  await keeps(page, "\nown ");
  await keeps(page, "Track width");
  return kept(page);
}

/** What was put aside, as a file. */
async function putAside(page) {
  await carButton(page).click();
  const arrives = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save what was put aside" }).click();
  return readFile(await (await arrives).path(), "utf8");
}

for (const [what, deny] of [
  ["whose memory is full", () => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  }],
  ["that forbids its memory", () => {
    for (const memory of ["localStorage", "sessionStorage"]) {
      Object.defineProperty(window, memory, {
        get: () => {
          throw new DOMException("denied", "SecurityError");
        },
      });
    }
  }],
  ["that forbids the memory of a tab", () => {
    Object.defineProperty(window, "localStorage", { get: () => null });
    Object.defineProperty(window, "sessionStorage", { get: () => null });
  }],
]) {
  test(`a browser ${what} is told, and the page works`, async ({ page }) => {
    await page.addInitScript(deny);
    await openBench(page);
    await expect(told(page)).toContainText("does not let the page keep your work");
    await expect(told(page)).toContainText("Save your car as a file");
    await page.getByRole("button", { name: "Understood" }).click();
    await type(page, "Backspacing", "6 in");
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 in");
    const arrives = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    expect(await readFile(await (await arrives).path(), "utf8")).toContain("backspacing");
    // The step is there to be taken back, and it is told once, not at each change.
    await expect(page.getByRole("button", { name: "Undo: Backspacing" })).toBeVisible();
    await expect(told(page)).toBeHidden();
  });
}

test("a memory that fills up later is told when it does, and holds what it held", async ({ page }) => {
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await keeps(page, "step ");
  const before = await kept(page);
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await type(page, "Backspacing", "5 in");
  await expect(told(page)).toContainText("its room is full");
  expect(await kept(page)).toBe(before);
  // The address holds the car once it has stood still for longer than this, whatever the browser keeps.
  await page.waitForTimeout(1000);
  await page.reload();
  await expect(leverBox(page, "Backspacing")).toHaveValue("5 in");
});

for (const [what, desk, says] of [
  ["garbage", "\u0000\u0001 not a desk {", "cannot be read"],
  ["half of something else", '{"desk": [1, 2', "cannot be read"],
  ["a desk without its present", "lip-to-rail desk 1\nnow 4 4 file\n", "cannot be read"],
  ["of a newer version", "lip-to-rail desk 2\nwhat this page does not know\n", "A newer version of this page kept"],
]) {
  test(`kept work that is ${what} is put aside as it was, and told`, async ({ page }) => {
    await left(page, desk);
    await openBench(page);
    await expect(told(page)).toContainText(says);
    await expect(carButton(page)).toContainText("invented");
    await type(page, "Backspacing", "6 in");
    await keeps(page, "step ");
    expect(await putAside(page)).toBe(desk);
    // Saved, it is still there: a file may go astray.
    await page.reload();
    await expect(told(page)).toContainText("still put aside");
    await carButton(page).click();
    await page.getByRole("button", { name: "Forget what was put aside" }).click();
    await page.reload();
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 in");
    await expect(told(page)).toBeHidden();
  });
}

test("kept work of which a part cannot be read opens with the rest, and is put aside whole", async ({ page, browser, baseURL, viewport }) => {
  const desk = (await worked(page)).replace(/^own \d+/m, "own 99");
  const context = await browser.newContext({ viewport });
  const other = await context.newPage();
  await left(other, desk);
  await other.goto(baseURL);
  await expect(told(other)).toContainText("Some of what this browser kept");
  await expect(carButton(other)).toContainText("Fastback");
  await expect(leverBox(other, "Track width")).toHaveValue("57 in");
  const file = await putAside(other);
  expect(file).toBe(desk);
  await context.close();
});

test("put-aside work opens again as a file, with all its cars", async ({ page, browser, baseURL, viewport }) => {
  const desk = await worked(page);
  const context = await browser.newContext({ viewport });
  const other = await context.newPage();
  await other.goto(baseURL);
  await other.locator('input[type="file"]').setInputFiles({ name: "put-aside.txt", mimeType: "text/plain", buffer: Buffer.from(desk) });
  await expect(carButton(other)).toContainText("Fastback");
  await expect(leverBox(other, "Track width")).toHaveValue("57 in");
  await carButton(other).click();
  await other.getByRole("button", { name: /as you changed it/ }).first().click();
  await expect(leverBox(other, "Backspacing")).toHaveValue("6 in");
  await context.close();
});

test("a newer version's work stays where it is when there is no room to put it aside", async ({ page }) => {
  const desk = "lip-to-rail desk 2\nwhat this page does not know\n";
  await left(page, desk);
  await page.addInitScript((name) => {
    const set = Storage.prototype.setItem;
    Storage.prototype.setItem = function (slot, text) {
      if (this === globalThis.localStorage && slot !== name) throw new DOMException("full", "QuotaExceededError");
      set.call(this, slot, text);
    };
  }, DESK);
  await openBench(page);
  await expect(told(page)).toContainText("this visit keeps nothing");
  await type(page, "Backspacing", "6 in");
  // Longer than the page waits before it keeps a change.
  await page.waitForTimeout(1000);
  await page.reload();
  expect(await kept(page)).toBe(desk);
});

test("what a newer version keeps in another tab is put aside before this one writes", async ({ page }) => {
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await keeps(page, "step ");
  const newer = "lip-to-rail desk 2\nwhat this page does not know\n";
  await page.evaluate(([name, newer]) => localStorage.setItem(name, newer), [DESK, newer]);
  await type(page, "Track width", "58 in");
  await expect(told(page)).toContainText("A newer version of this page kept");
  await keeps(page, "Track width");
  expect(await putAside(page)).toBe(newer);
});

test("kept work that stopped the page is put aside, not tried again", async ({ page }) => {
  const desk = "lip-to-rail desk 1\nwhat stopped it\n";
  await left(page, desk, true);
  await openBench(page);
  await expect(told(page)).toContainText("stopped the page. All of it was put aside");
  expect(await putAside(page)).toBe(desk);
});

test("two tabs at once: what one keeps is not lost by the other, and both are told", async ({ page, context }) => {
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await keeps(page, "step ");
  const other = await context.newPage();
  await openBench(other);
  await expect(leverBox(other, "Backspacing")).toHaveValue("6 in");
  await type(other, "Backspacing", "5 in");
  await expect(told(page)).toContainText("Another tab of this page");
  // Each goes on with its own car.
  await expect(leverBox(page, "Backspacing")).toHaveValue("6 in");
  await page.bringToFront();
  await type(page, "Backspacing", "6 1/4");
  await expect(told(other)).toContainText("Another tab of this page");
  await keeps(page, "(tab of ");
  await page.close();
  await other.close();
  const later = await context.newPage();
  await openBench(later);
  await expect(leverBox(later, "Backspacing")).toHaveValue("6 1/4 in");
  await carButton(later).click();
  await later.getByRole("button", { name: /\(tab of .*as you changed it/ }).click();
  await expect(leverBox(later, "Backspacing")).toHaveValue("5 in");
});

test("a second tab that only looks takes nothing from the first", async ({ page, context }) => {
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await keeps(page, "step ");
  const other = await context.newPage();
  await openBench(other);
  await page.bringToFront();
  await type(page, "Backspacing", "5 3/4");
  await expect(told(other)).toBeVisible();
  await other.close();
  await page.close();
  const later = await context.newPage();
  await openBench(later);
  await expect(leverBox(later, "Backspacing")).toHaveValue("5 3/4 in");
  await expect(later.getByRole("button", { name: "Undo: Backspacing" })).toBeVisible();
});
