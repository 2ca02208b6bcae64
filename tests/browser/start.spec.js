// A page that cannot start says so in words, and says what would help; what the browser keeps is not touched.
import { pathToFileURL } from "node:url";
import { expect, test } from "./fixture.js";
import { expectAccessible } from "./look.js";
import { singleFile, startSite } from "./site.js";

/** A visitor for whom something is wrong: what the page complains of is expected, and not the test's fault. */
async function visit({ browser, viewport }, { javaScriptEnabled = true, wrong = async () => {} }, look) {
  const site = await startSite();
  const context = await browser.newContext({ javaScriptEnabled, viewport });
  try {
    const page = await context.newPage();
    await wrong(page);
    await page.goto(site.address);
    await look(page);
  } finally {
    await context.close();
    site.stop();
  }
}

const notStarted = (page) => page.getByRole("alert").filter({ hasText: "did not start" });
const starting = (page) => page.getByText("Lip to Rail is on its way");

const desk = "lip-to-rail desk 1\nof another visit\n";

for (const [what, wrong] of [
  ["whose module is missing", (page) => page.route(/app_bg\.wasm$/, (route) => route.fulfill({ status: 404 }))],
  ["whose script is missing", (page) => page.route(/app\.js$/, (route) => route.fulfill({ status: 404 }))],
  ["whose module is cut short", (page) => page.route(/app_bg\.wasm$/, async (route) => {
    const response = await route.fetch();
    const body = await response.body();
    await route.fulfill({ response, body: body.subarray(0, body.length / 2) });
  })],
  ["in a browser without WebAssembly", (page) => page.addInitScript(() => delete globalThis.WebAssembly)],
]) {
  test(`a page ${what} says so, and leaves what is kept alone`, async ({ browser, viewport }) => {
    const kept = (page) => page.evaluate(() => localStorage.getItem("lip-to-rail.desk"));
    const before = async (page) => {
      await page.addInitScript((desk) => localStorage.setItem("lip-to-rail.desk", desk), desk);
      await wrong(page);
    };
    await visit({ browser, viewport }, { wrong: before }, async (page) => {
      await expect(notStarted(page)).toBeVisible();
      await expect(starting(page)).toBeHidden();
      await expect(notStarted(page)).toContainText("Load the page again");
      expect(await kept(page)).toBe(desk);
      await expectAccessible(page);
    });
  });
}

test("a page that starts does not say that it did not", async ({ page }) => {
  await page.goto("");
  await expect(page.getByRole("main")).toBeVisible();
  await expect(notStarted(page)).toBeHidden();
  await expect(starting(page)).toBeHidden();
});

test("while its module is on the way the page says so, and no longer", async ({ page }) => {
  let arrive;
  const arrived = new Promise((resolve) => (arrive = resolve));
  await page.route(/app_bg\.wasm$/, async (route) => {
    await arrived;
    await route.continue();
  });
  await page.goto("", { waitUntil: "commit" });
  await expect(starting(page)).toBeVisible();
  arrive();
  await expect(page.getByRole("main")).toBeVisible();
  await expect(starting(page)).toBeHidden();
});

test("without JavaScript the page says what it is, in its own dress", async ({ browser, viewport }) => {
  await visit({ browser, viewport }, { javaScriptEnabled: false }, async (page) => {
    const said = page.getByRole("main");
    await expect(said).toBeVisible();
    await expect(said.getByRole("heading", { level: 1 })).toHaveText("Lip to Rail");
    await expect(said).toContainText("how much tire fits");
    await expect(said).toContainText("needs JavaScript");
    await expect(starting(page)).toBeHidden();
    // The style sheet's measure for it is 40 rem; a phone is narrower.
    const { width } = await said.boundingBox();
    expect(width).toBe(Math.min(40 * 16, page.viewportSize().width));
  });
});

test("the one file says so too where it does not start", async ({ browser, viewport }) => {
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  await page.addInitScript(() => delete globalThis.WebAssembly);
  await page.goto(pathToFileURL(singleFile).href);
  await expect(notStarted(page)).toBeVisible();
  await expect(starting(page)).toBeHidden();
  await context.close();
});
