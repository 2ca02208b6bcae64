// What breaks around the page: itself, the machine's speed, its graphics, its worker. The work is there afterward.
import { readFile } from "node:fs/promises";
import { expect, test } from "./fixture.js";
import { gapList, lever, leverBox, openBench, type } from "./bench.js";
import { expectAccessible } from "./look.js";

/** Has the browser fail to make one element, as one without memory may: a fault that the page cannot go on from. */
const refuseAnElement = (page) =>
  page.evaluate(() => {
    const real = Document.prototype.createElement;
    Document.prototype.createElement = () => {
      Document.prototype.createElement = real;
      throw new Error("no more memory");
    };
  });

/** A page of another visitor, whose complaints are expected. */
async function elsewhere({ browser, viewport, baseURL }, options, use) {
  const context = await browser.newContext({ viewport, ...options });
  const page = await context.newPage();
  try {
    await use(page, baseURL);
  } finally {
    await context.close();
  }
}

const stopped = (page) => page.getByRole("alert").filter({ hasText: "The page stopped" });

test("a page that stops says so, and the work is there again", async ({ browser, viewport, baseURL }) => {
  await elsewhere({ browser, viewport, baseURL }, {}, async (page) => {
    await openBench(page, baseURL);
    await type(page, "Backspacing", "6 1/4");
    await expect.poll(() => page.evaluate(() => localStorage.getItem("lip-to-rail.desk"))).toContain("step ");
    await refuseAnElement(page);
    await page.getByRole("link", { name: "Take away" }).click();
    await expect(stopped(page)).toContainText("Your car is kept");
    await expectAccessible(page);
    await stopped(page).getByRole("link", { name: "Load the page again" }).click();
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
    await expect(page.getByRole("button", { name: "Undo: Backspacing" })).toBeVisible();
  });
});

test("a page that stops where nothing is kept says that too", async ({ browser, viewport, baseURL }) => {
  await elsewhere({ browser, viewport, baseURL }, {}, async (page) => {
    await page.addInitScript(() => Object.defineProperty(window, "localStorage", { get: () => null }));
    await openBench(page, baseURL);
    await expect(page.getByText("does not let the page keep your work")).toBeVisible();
    await refuseAnElement(page);
    await page.getByRole("link", { name: "Take away" }).click();
    await expect(stopped(page)).toContainText("The browser keeps nothing for this page");
  });
});

test("code that traps is told of as well, and the work is there again", async ({ browser, viewport, baseURL }) => {
  await elsewhere({ browser, viewport, baseURL }, {}, async (page) => {
    await openBench(page, baseURL);
    await type(page, "Backspacing", "6 1/4");
    await expect.poll(() => page.evaluate(() => localStorage.getItem("lip-to-rail.desk"))).toContain("step ");
    await page.evaluate(() => {
      // A module whose one function is the instruction that traps.
      const bytes = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11];
      const module = new WebAssembly.Module(new Uint8Array(bytes));
      setTimeout(new WebAssembly.Instance(module).exports.f);
    });
    await expect(stopped(page)).toBeVisible();
    await expectAccessible(page);
    await stopped(page).getByRole("link", { name: "Load the page again" }).click();
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
  });
});

test("on a slow device the last input wins, and the numbers are those of a fast one", async ({ page, context }) => {
  // It is slow.
  test.setTimeout(240_000);
  await openBench(page);
  const slow = await context.newCDPSession(page);
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const slider = lever(page, "Backspacing");
  await slider.focus();
  for (let press = 0; press < 20; press += 1) await page.keyboard.press("ArrowRight");
  for (let press = 0; press < 7; press += 1) await page.keyboard.press("ArrowLeft");
  await type(page, "Seam move", "1 in");
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  await expect(leverBox(page, "Seam move")).toHaveValue("1 in");
  const [backspacing, gaps] = [await leverBox(page, "Backspacing").inputValue(), await gapList(page)];
  await page.reload();
  await expect(leverBox(page, "Backspacing")).toHaveValue(backspacing);
  await expect(leverBox(page, "Seam move")).toHaveValue("1 in");
  expect(await gapList(page)).toBe(gaps);
});

test("without graphics memory only the PNG is missing, and that is told", async ({ page }) => {
  await page.addInitScript(() => {
    HTMLCanvasElement.prototype.getContext = () => null;
  });
  await openBench(page);
  await type(page, "Backspacing", "6 in");
  await page.getByRole("link", { name: "Take away" }).click();
  await page.locator(".preview").scrollIntoViewIfNeeded();
  await expect(page.locator(".preview:not(.is-stale) img")).toHaveAttribute("src", /^data:image\/svg/);
  await page.getByRole("button", { name: "Save as PNG" }).click();
  await expect(page.getByText("The browser did not take the picture.")).toBeVisible();
  const arrives = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as SVG" }).click();
  expect(await readFile(await (await arrives).path(), "utf8")).toMatch(/^<svg|^<\?xml/);
});

test("a browser that takes no worker shows the page all the same", async ({ browser, viewport, baseURL }) => {
  await elsewhere({ browser, viewport, baseURL }, { serviceWorkers: "block" }, async (page) => {
    const faults = [];
    page.on("pageerror", (error) => faults.push(String(error)));
    await page.addInitScript(() => {
      navigator.serviceWorker.register = () => Promise.reject(new DOMException("no", "SecurityError"));
    });
    await openBench(page, baseURL);
    await type(page, "Backspacing", "6 in");
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 in");
    expect(faults).toEqual([]);
  });
});

test("a page whose kept files are gone is kept again at the next visit", async ({ page, context }) => {
  const files = () =>
    page.evaluate(async () => {
      const [name] = await caches.keys();
      return name ? (await (await caches.open(name)).keys()).length : 0;
    });
  await openBench(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const all = await files();
  expect(all).toBeGreaterThan(0);
  await page.evaluate(async () => {
    for (const name of await caches.keys()) await caches.delete(name);
  });
  await page.reload();
  await expect(page.getByRole("main")).toBeVisible();
  await expect.poll(files).toBe(all);
  await context.setOffline(true);
  await page.reload();
  await expect(page.getByRole("main")).toBeVisible();
});
