// What to doubt: how far gaps may be off and what to measure again, the three
// tires, warnings with their numbers.
import { expect, test } from "./fixture.js";
import { expectAccessible } from "./look.js";
import { chooseCar, gapList, gapRow, leverBox, openBench, openPanel, pictureOf } from "./bench.js";

const bands = (page) => page.locator(".gaps .band");
const again = (page) => page.locator(".gaps .again");

/** Opens one of the invented cars, and waits until its bands are worked out. */
async function openCar(page, name) {
  await openBench(page);
  await chooseCar(page, name);
  await bandsOf(page);
}

/** Waits until every gap says how far it may be off. */
async function bandsOf(page) {
  await page.locator(".gaps").scrollIntoViewIfNeeded();
  await expect(page.locator(".gaps")).not.toHaveClass(/is-awaited/);
  await expect(bands(page).first()).toHaveText(/^± /);
}

async function type(box, text) {
  await box.fill(text);
  await box.press("Enter");
}

test("every gap says how far it may be off, at worst too", async ({ page }) => {
  await openBench(page);
  await bandsOf(page);
  const rows = await page.locator(".gaps .sides tbody tr:not(.again)").count();
  expect(rows).toBeGreaterThan(0);
  await expect(bands(page)).toHaveText(Array(2 * rows).fill(/^± \d/));
  await expect(gapRow(page, "Left", "tub wall").locator(".band").first()).toHaveAttribute("title", /at worst$/);

  await openPanel(page, "How far off each gap may be");
  const table = page.getByRole("region", { name: "How far off each gap may be" });
  await expect(table.getByRole("row")).toHaveCount(rows + 1);
  await expect(table.getByRole("row", { name: /tub wall, left/ })).toContainText(/at worst.*Flange face in to tub wall/);
});

test("a verdict that hangs on the tape leads to the reading that matters most", async ({ page }) => {
  await openCar(page, /Fastback/);
  const first = again(page).first();
  await expect(first).toContainText(/Measure again: within ± .* it may be anything from \w+ to \w+/);
  const button = first.getByRole("button");
  const [, what, side] = (await button.textContent()).match(/^(.*) \((left|right)\)$/);
  await button.click();
  const box = page.getByRole("textbox", { name: `${what}, ${side}`, exact: true });
  await expect(box).toBeFocused();
  await expect(box).toBeInViewport();

  // A better look at it settles the matter.
  const before = await again(page).count();
  await page.getByLabel("Show how far each reading may be off").check();
  const error = page.getByLabel(`How far ${what}, ${side} may be off`, { exact: true });
  await expect(error).toHaveValue("1/8 in");
  await type(error, "0");
  await expect(error).toHaveValue("0 in");
  await bandsOf(page);
  await expect(page.locator(".gaps").getByRole("button", { name: `${what} (${side})` })).toHaveCount(0);
  expect(await again(page).count()).toBeLessThanOrEqual(before);
});

test("a reading's own error is kept over a reload, taken back by an empty box, and undone", async ({ page }) => {
  await openBench(page);
  await openPanel(page, "Tape readings");
  await page.getByLabel("Show how far each reading may be off").check();
  const error = page.getByLabel("How far Flange face in to frame rail, left may be off");
  await type(error, "1/2");
  await page.reload();
  await openPanel(page, "Tape readings");
  await page.getByLabel("Show how far each reading may be off").check();
  await expect(error).toHaveValue("1/2 in");
  await type(error, "");
  await expect(error).toHaveValue("1/8 in");
  await page.getByRole("button", { name: /^Undo: Tape error, Flange face in to frame rail, left/ }).click();
  await expect(error).toHaveValue("1/2 in");
  await type(error, "rather sure");
  await expect(error).toHaveAttribute("aria-invalid", "true");
});

test("while newer bands are worked out the old ones are not shown", async ({ page }) => {
  await openBench(page);
  await bandsOf(page);
  await type(leverBox(page, "Backspacing"), "6 in");
  const shown = () =>
    page.evaluate(() => {
      const list = document.querySelector(".gaps");
      const visible = getComputedStyle(list.querySelector(".band")).visibility === "visible";
      return list.classList.contains("is-awaited") === visible;
    });
  expect(await shown()).toBe(false);
  await bandsOf(page);
  expect(await shown()).toBe(false);
});

test("the tire is switched: picture and gaps follow, the verdict says so, a reload keeps it", async ({ page }) => {
  await openBench(page);
  const note = page.locator(".asked-note");
  await expect(note).toHaveCount(0);
  const [picture, gaps] = [await pictureOf(page), await gapList(page)];
  await page.getByLabel("Largest that may arrive").check();
  await expect(note).toContainText(/largest tire that may arrive: 12 5\/16 in wide/);
  await expect(page.getByRole("status", { name: "Verdict" })).toContainText(/largest tire that may arrive/);
  await expect.poll(() => pictureOf(page)).not.toBe(picture);
  await expect.poll(() => gapList(page)).not.toBe(gaps);
  await page.reload();
  await expect(note).toContainText(/largest tire/);
  await page.getByRole("button", { name: "Undo: Tire asked for" }).click();
  await expect(note).toHaveCount(0);
  await expect.poll(() => pictureOf(page)).toBe(picture);

  await page.getByLabel("Grown at speed").check();
  await expect(page.getByText(/Type how much it grows/)).toBeVisible();
  await type(page.getByLabel("Growth at speed").first(), "1 in");
  await expect(note).toContainText(/grown at speed: 11 13\/16 in wide and 29 in tall/);
  await note.getByRole("button", { name: "Back to nominal" }).click();
  await expect(note).toHaveCount(0);
  await expect(page.getByLabel("Nominal", { exact: true })).toBeChecked();
});

test("a largest tire that cannot be on its rim is told as that, with the way back", async ({ page }) => {
  await openBench(page);
  await chooseCar(page, /Low car/);
  await page.getByLabel("Largest that may arrive").check();
  const told = page.getByRole("alert").filter({ hasText: "There is no such tire on this rim." });
  await expect(told).toContainText(/mm\) more than its lower sidewall is high/);
  await expect(page.locator(".asked-note")).toHaveCount(0);
  await told.getByRole("button", { name: "Back to the nominal tire" }).click();
  await expect(told).toBeHidden();
});

test("warnings come with their numbers, their source and a caution", async ({ page }) => {
  await openBench(page);
  const list = page.locator(".warnings");
  await expect(list.locator("summary")).toHaveText("One warning: wide rim");
  await openPanel(page, "One warning");
  await expect(list.getByRole("listitem")).toContainText(/10 in, is wider .* end at 9 1\/2 in\..*Ask the tire's maker.*Source: /);
  await expect(list).toContainText("your local rules decide");
  await list.locator("summary").click();
  await type(leverBox(page, "Rim width"), "9 in");
  await expect(list.locator("summary")).toHaveText("No warnings");
});

test("all of it is accessible, and nothing scrolls sideways on a small phone", async ({ page, isMobile }) => {
  // The access check reads every element of two opened tables, twice.
  test.slow();
  if (isMobile) await page.setViewportSize({ width: 320, height: 640 });
  await openCar(page, /Fastback/);
  await page.getByLabel("Largest that may arrive").check();
  await page.locator(".warnings > summary").click();
  await openPanel(page, "Tape readings");
  await page.getByLabel("Show how far each reading may be off").check();
  await openPanel(page, "How far off each gap may be");
  await bandsOf(page);
  await expectAccessible(page);
  const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(beyond).toBe(0);
});
