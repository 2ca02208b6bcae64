// The room chart: regions in words and hatching, a place read by pointer and by
// keys, and a wheel and tire put on the car.
import { expect, test } from "./fixture.js";
import { expectAccessible, shoot } from "./look.js";
import { leverBox, middle, openBench } from "./bench.js";

const section = (page) => page.locator(".room");
const stock = (page) => page.getByRole("application", { name: /with the stock tub/ });
const moved = (page) => page.getByRole("application", { name: /with the tub moved/ });
const words = (page, which) => page.locator(`#room-${which}-words`);

/** Waits until both charts are of the car that is shown. */
async function workedOut(page) {
  await section(page).scrollIntoViewIfNeeded();
  await stock(page).scrollIntoViewIfNeeded();
  await expect(page.locator(".room-view .is-stale")).toHaveCount(0, { timeout: 30000 });
}

test("both charts say in words, hatching and one sentence where there is room", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  for (const which of ["stock", "moved"]) {
    const drawn = page.locator(`#room-${which}-regions`);
    await expect(drawn.getByText("hits")).toBeAttached();
    await expect(drawn.locator(".travel-overlap").first()).toBeAttached();
    await expect(page.locator(`#room-${which}-wheel .spot`)).toBeAttached();
  }
  await expect(page.getByRole("img", { name: /^With the stock tub .+\.$/ })).toBeAttached();
  await expect(page.getByRole("img", { name: /^With the tub moved .+\.$/ })).toBeAttached();
  await page.locator("summary").filter({ hasText: "The room as a table" }).click();
  const table = page.getByRole("region", { name: /Backspacings with room/ }).getByRole("table");
  expect(await table.getByRole("row").count()).toBeGreaterThan(10);
});

test("a place is walked to by keys, read, put on the car and taken back", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  const backspacing = leverBox(page, "Backspacing");
  const width = leverBox(page, "Section width");
  const before = [await backspacing.inputValue(), await width.inputValue()];
  await stock(page).focus();
  await expect(words(page, "stock")).toHaveText(/^Backspacing .+ \(offset .+\), section width .+, with the stock tub: .+/);
  for (let press = 0; press < 4; press += 1) await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("PageDown");
  await expect(words(page, "stock")).toHaveText(/through travel|at ride height|certified/);
  await expect(words(page, "stock")).not.toHaveText(/Being certified/);
  const told = /^Backspacing (.+) \(offset .+\), section width (.+), with/.exec(await words(page, "stock").innerText());
  await page.keyboard.press("Enter");
  await expect(backspacing).toHaveValue(told[1]);
  await expect(width).toHaveValue(told[2]);
  expect([told[1], told[2]]).not.toEqual(before);
  // Another wheel moves the mark; the chart is the same and stays.
  await expect(page.locator(".room-view .is-stale")).toHaveCount(0);
  await page.keyboard.press("Control+z");
  await expect(backspacing).toHaveValue(before[0]);
  await expect(width).toHaveValue(before[1]);
});

test("what a place says of the wheel on the car is what the page says", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  await stock(page).focus();
  await page.keyboard.press("ArrowRight");
  await expect(words(page, "stock")).not.toHaveText(/Being certified/);
  const told = (await words(page, "stock").innerText()).split("with the stock tub: ")[1].split(" Least gaps")[0];
  await page.keyboard.press("Enter");
  await expect(page.getByRole("status", { name: "Verdict" })).toHaveText(told);
});

test("a place is pointed at and clicked", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  const before = await leverBox(page, "Backspacing").inputValue();
  const at = await middle(moved(page));
  await page.mouse.move(at.x + 40, at.y - 20);
  await expect(words(page, "moved")).toHaveText(/with the tub moved .+: .+\./);
  await expect(words(page, "stock")).toHaveText("No place is chosen.");
  await page.mouse.click(at.x + 40, at.y - 20);
  await expect(leverBox(page, "Backspacing")).not.toHaveValue(before);
});

test("no chart of another car is shown as this one's", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  const bump = leverBox(page, "Bump travel");
  const seen = await bump.evaluate(async (box) => {
    box.focus();
    box.value = "2 in";
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.dispatchEvent(new Event("change", { bubbles: true }));
    for (let frame = 0; frame < 3; frame += 1) await new Promise((done) => requestAnimationFrame(() => done()));
    const word = document.querySelector(".room-view .scene text");
    return {
      stale: document.querySelectorAll(".room-view .is-stale").length,
      shown: getComputedStyle(word).visibility === "visible",
      name: document.querySelector(".room-view svg").getAttribute("aria-label"),
    };
  });
  expect(seen).toEqual({ stale: 2, shown: false, name: "The chart is being worked out." });
  await workedOut(page);
});

test("the room: seen and accessible", async ({ page }) => {
  await openBench(page);
  await workedOut(page);
  await stock(page).focus();
  await page.keyboard.press("ArrowRight");
  await expect(words(page, "stock")).not.toHaveText(/Being certified/);
  await section(page).evaluate((element) => element.scrollIntoView({ block: "start" }));
  await shoot(page, "room", {});
  await expectAccessible(page);
});

test("the room fits a screen of 320 px", async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 800 });
  await openBench(page);
  await workedOut(page);
  await shoot(page, "room-narrow", {});
  const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(beyond).toBe(0);
});
