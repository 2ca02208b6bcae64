// How it looks and how it is reached: pictures for people, accessibility in
// every state, no sideways scrolling, colors that the system forces.
import { expect, test } from "./fixture.js";
import { expectAccessible, shoot } from "./look.js";
import { leverBox, openBench, openPanel } from "./bench.js";

const states = {
  bench: async () => {},
  moved: async (page) => {
    const seam = leverBox(page, "Seam move");
    await seam.fill("2 in");
    await seam.press("Enter");
  },
  held: async (page) => {
    await page.getByRole("button", { name: /tub wall, left/ }).click();
    await page.evaluate(() => scrollTo(0, 0));
  },
  fault: async (page) => {
    const box = leverBox(page, "Backspacing");
    await box.fill("rather wide");
    await box.press("Enter");
    const rim = leverBox(page, "Rim width");
    await rim.fill("20 in");
    await rim.press("Enter");
  },
  panels: async (page) => {
    await openPanel(page, "Tape readings");
    await openPanel(page, "All numbers");
    await openPanel(page, "The same as a table");
  },
  menu: async (page) => page.locator(".car-button").click(),
  refused: async (page) => {
    const bad = { name: "bad.toml", mimeType: "text/plain", buffer: Buffer.from("format = 1\nname = 3\n") };
    await page.locator('input[type="file"]').setInputFiles(bad);
    await expect(page.getByRole("dialog")).toBeVisible();
  },
};

for (const [name, reach] of Object.entries(states)) {
  test(`${name}: seen and accessible`, async ({ page }) => {
    await openBench(page);
    await reach(page);
    await shoot(page, name, { fullPage: name === "panels" });
    await expectAccessible(page);
  });
}

for (const width of [320, 390, 640, 800, 1024, 1440]) {
  test(`nothing scrolls sideways at ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 800 });
    await openBench(page);
    await openPanel(page, "Tape readings");
    await openPanel(page, "All numbers");
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(beyond).toBe(0);
  });
}

test("forced colors keep every sign", async ({ page }) => {
  await page.emulateMedia({ forcedColors: "active" });
  await openBench(page);
  await page.screenshot({ path: new URL(`shots/${test.info().project.name}-forced.png`, import.meta.url).pathname });
  await expect(page.locator(".gaps").getByText("hits").first()).toBeVisible();
});

test("on a phone the handles are large enough for a finger", async ({ page, isMobile }) => {
  test.skip(!isMobile);
  await openBench(page);
  for (const handle of await page.locator(".handle").all()) {
    const { width, height } = await handle.boundingBox();
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
  }
});
