// By the keyboard alone: every stop is seen, none holds the focus, none loses it, and the whole job can be done.
import { expect, test } from "./fixture.js";
import { gapList, gapRow, lever, leverBox, openBench } from "./bench.js";
import { openPage, pages, stop, tabTo } from "./reach.js";

test.skip(({ isMobile }) => isMobile, "a keyboard stands on a desk");

for (const address of pages) {
  test(`${address}: every stop is seen, and the last one lets go`, async ({ page }) => {
    test.slow();
    await openPage(page, address);
    const faults = [];
    let last = -1;
    for (let presses = 0; presses < 500; presses += 1) {
      await page.keyboard.press("Tab");
      let here = await stop(page);
      if (here?.faults.length) {
        // What comes into sight is worked out, which may move what is below; where it stands then counts.
        await page.waitForTimeout(1000);
        here = await stop(page);
      }
      // Past the last one the browser's own buttons follow.
      if (!here || here.number < last) break;
      faults.push(...here.faults.map((fault) => `${here.name}: ${fault}`));
      expect(here.number, `${here.name} holds the focus`).toBeGreaterThan(last);
      last = here.number;
    }
    expect(faults).toEqual([]);
    expect(last).toBeGreaterThan(5);
    expect(last).toBeLessThan(499);
  });
}

test("the first stop leads past the strip, and changes no address", async ({ page }) => {
  await openBench(page);
  const before = page.url();
  await page.keyboard.press("Tab");
  await expect(page.getByRole("link", { name: "Skip to the page itself" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
  expect(page.url()).toBe(before);
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement.closest("header"))).toBeNull();
});

test("the job on the Bench, from the car to the answer that is tried and taken back", async ({ page }) => {
  test.setTimeout(240_000);
  await openBench(page);
  const menu = page.locator(".car-button");
  await tabTo(page, menu);
  await page.keyboard.press("Enter");
  const cars = page.getByRole("group", { name: "Cars" });
  await expect(cars).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(cars).toBeHidden();
  await expect(menu).toBeFocused();
  await page.keyboard.press("Enter");
  await tabTo(page, cars.getByRole("button", { name: /^Sedan/ }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/Sedan/);
  await expect(menu).toBeFocused();

  // The picture's handles, by the arrows that point where they go.
  const handle = page.getByRole("slider", { name: "Backspacing, left side" });
  await tabTo(page, handle);
  const gaps = await gapList(page);
  await page.keyboard.press("ArrowLeft");
  await expect.poll(() => gapList(page)).not.toBe(gaps);
  await expect(handle).toBeFocused();

  // A lever by its box: typed as a tape reads, taken back letter by letter while it is typed.
  const box = leverBox(page, "Backspacing");
  await tabTo(page, box);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("5 3/8");
  await page.keyboard.press("Control+Z");
  await expect(page.getByRole("button", { name: /^Undo: Backspacing/ })).toBeVisible();
  await page.keyboard.press("Control+A");
  await page.keyboard.type("5 3/8");
  await page.keyboard.press("Enter");
  await expect(box).toHaveValue("5 3/8 in");
  await expect(box).toBeFocused();
  // Handed in, the letters are the car's: a step back is a step of the car.
  await page.keyboard.press("Control+Z");
  await expect(box).not.toHaveValue("5 3/8 in");
  await page.keyboard.press("Control+Shift+Z");
  await expect(box).toHaveValue("5 3/8 in");
  const slider = lever(page, "Track width");
  await tabTo(page, slider);
  await page.keyboard.press("PageUp");
  await expect(slider).toHaveAttribute("aria-valuetext", /inch/);

  // The gap list shows where a surface comes nearest.
  const surface = gapRow(page, "Left", "tub wall").getByRole("button").first();
  await tabTo(page, surface);
  await page.keyboard.press("Space");
  await expect(surface).toHaveAttribute("aria-pressed", "true");
  await expect(surface).toBeFocused();

  // An answer is tried and taken back with the same button.
  const answer = page.locator(".answers .try button").first();
  await page.locator(".answers").scrollIntoViewIfNeeded();
  await expect(answer).toBeVisible({ timeout: 60_000 });
  await tabTo(page, answer);
  await page.keyboard.press("Enter");
  await expect(answer).toHaveAccessibleName(/^Take it back/);
  await expect(answer).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(answer).toHaveAccessibleName(/^Try it/);
  await expect(answer).toBeFocused();

  // A tape reading, and what is faulty in it.
  const tape = page.locator("summary").filter({ hasText: /^\s*Tape readings/ });
  await tabTo(page, tape);
  await page.keyboard.press("Enter");
  const reading = page.locator(".panel .reading input").first();
  await tabTo(page, reading);
  await page.keyboard.press("Control+A");
  await page.keyboard.type("a hand");
  await page.keyboard.press("Enter");
  await expect(reading).toHaveAttribute("aria-invalid", "true");
  await page.keyboard.press("Escape");
  await expect(reading).not.toHaveAttribute("aria-invalid");
  await expect(reading).toBeFocused();
});

test("what is taken off the page hands the focus on", async ({ page }) => {
  await openBench(page);
  const heading = page.getByRole("heading", { level: 1 });
  const rim = leverBox(page, "Rim width");
  await rim.fill("20 in");
  await rim.press("Enter");
  const undo = page.getByRole("alert").getByRole("button", { name: "Undo the last step" });
  await undo.focus();
  await page.keyboard.press("Enter");
  await expect(undo).toHaveCount(0);
  await expect(heading).toBeFocused();

  await page.evaluate(() => (location.hash = "#gallery"));
  const understood = page.getByRole("button", { name: "Understood" });
  await understood.focus();
  await page.keyboard.press("Enter");
  await expect(understood).toHaveCount(0);
  await expect(heading).toBeFocused();
});

test("gaps that were found: typed one after the other, and forgotten", async ({ page }) => {
  await openPage(page, "sheets/mock-up");
  const summary = page.locator("#found-summary");
  await tabTo(page, summary);
  await page.keyboard.press("Enter");
  const boxes = page.locator(".found .numbers input");
  await tabTo(page, boxes.first());
  await page.keyboard.type("2 1/2");
  await page.keyboard.press("Tab");
  await expect(boxes.nth(1)).toBeFocused();
  await expect(boxes.first()).toHaveValue("2 1/2 in");
  const forget = page.getByRole("button", { name: "Forget all gaps found" });
  await tabTo(page, forget);
  await page.keyboard.press("Enter");
  await expect(summary).toBeFocused();
});

test("sheets, links, figures and back", async ({ page }) => {
  test.setTimeout(180_000);
  await openPage(page, "sheets/tape");
  await tabTo(page, page.getByRole("link", { name: "Order sheet" }));
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Order sheet");
  const csv = page.getByRole("button", { name: /CSV/ });
  await tabTo(page, csv);
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  expect(download.suggestedFilename()).toMatch(/order\.csv$/);
  await expect(csv).toBeFocused();
  const toPage = async (name, title) => {
    await tabTo(page, page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name }), "Shift+Tab");
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(title);
    await expect(page.getByRole("heading", { level: 1 })).toBeFocused();
  };
  await toPage("Take away", /./);
  await tabTo(page, page.locator("main .to-copy").first());
  await toPage("Write-up", /More tire/);
  const figure = page.locator(".live").first();
  const knob = figure.getByRole("slider");
  await tabTo(page, knob);
  const said = await figure.locator("figcaption").innerText();
  await page.keyboard.press("Home");
  await expect(figure.locator("figcaption")).not.toHaveText(said);
  const back = figure.getByRole("button", { name: "Put back" });
  await tabTo(page, back);
  await page.keyboard.press("Enter");
  await expect(back).toBeFocused();
  await toPage("Walk-round", /^Walk-round/);
  await page.goBack();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/More tire/);
});
