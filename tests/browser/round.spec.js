// Round the wheel: the section is swung, the side view and the map tell what
// the axle's own section does not show.
import { expect, test } from "./fixture.js";
import { chooseCar, gapRow, leverBox, middle, openBench } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";

const section = (page) => page.locator("#section");
const worst = (page) => page.getByRole("button", { name: /^Worst: / });
const line = (page) => page.getByRole("group", { name: "Drag in the side view" }).getByRole("slider");
const map = (page) => page.locator(".map-view svg");
const spots = (page) => page.locator(".map-view .spots");
const spotWords = (page) => page.locator("#spot-words");
const ring = (page) => page.locator("#side-ring");

/** Opens the car whose tire corner hits behind the axle, but not at it. */
async function openSedan(page) {
  await openBench(page);
  await chooseCar(page, /Sedan, axle set back/);
  await expect(page.locator(".car-name")).toContainText("Sedan");
}

/** Waits until ring and map are of the car that is shown. */
async function workedOut(page) {
  await map(page).scrollIntoViewIfNeeded();
  await expect(page.locator(".map-view .is-stale")).toHaveCount(0);
  await ring(page).scrollIntoViewIfNeeded();
  await expect(ring(page).locator(".sector.hits, .sector.tight, .sector.clears").first()).toBeAttached();
}

test("a corner that hits behind the axle is told, shown, and one click away", async ({ page }) => {
  await openSedan(page);
  await expect(page.getByRole("status", { name: "Verdict" })).toHaveText(/roof.* stops the tire: they overlap by .+ through travel, \d+\u00b0 behind\./);
  await expect(page.locator("#rear-description")).toHaveText(/roof: hits by .+ through travel, \d+\u00b0 behind/);
  await workedOut(page);
  await expect(ring(page).locator(".sector.hits").first()).toBeAttached();
  await expect(ring(page).locator(".sector.clears").first()).toBeAttached();
  await expect(page.locator("#side-head")).toContainText(/worst: roof, \d+\u00b0 behind, hits by/);

  await expect(page.locator("#rear-overlaps .travel-overlap")).toHaveCount(0);
  await expect(worst(page)).toHaveText(/Worst: \d+\u00b0 behind/);
  await worst(page).click();
  await expect(section(page)).toHaveAttribute("aria-valuetext", /^\d+ degrees behind straight up$/);
  await expect(page.locator("#rear-ground")).toContainText(/Section \d+\u00b0 behind straight up/);
  await expect(page.locator("#rear-overlaps .travel-overlap").first()).toBeAttached();
});

test("the section is swung by slider, by degrees, and back", async ({ page }) => {
  await openBench(page);
  await section(page).focus();
  for (let press = 0; press < 5; press += 1) await page.keyboard.press("ArrowLeft");
  await expect(section(page)).toHaveAttribute("aria-valuetext", "5 degrees behind straight up");
  const box = page.locator("#section-box");
  await box.fill("35");
  await box.press("Enter");
  await expect(section(page)).toHaveAttribute("aria-valuetext", "35 degrees ahead of straight up");
  await box.fill("120");
  await box.press("Enter");
  await expect(box).toHaveAttribute("aria-invalid", "true");
  await page.getByRole("button", { name: "Straight up", exact: true }).click();
  await expect(section(page)).toHaveAttribute("aria-valuetext", "straight up");
});

test("the section's line is dragged round the wheel, and follows the arrow keys", async ({ page }) => {
  await openBench(page);
  const from = await middle(line(page));
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 60, from.y + 20, { steps: 6 });
  await page.mouse.up();
  await expect(section(page)).not.toHaveAttribute("aria-valuetext", "straight up");
  await line(page).focus();
  await page.keyboard.press("Home");
  await expect(line(page)).toHaveAttribute("aria-valuetext", "90 degrees behind straight up");
});

test("a surface picked in the list swings the section to its spot", async ({ page }) => {
  await openSedan(page);
  await gapRow(page, "Left", "roof").getByRole("button").click();
  await expect(section(page)).toHaveAttribute("aria-valuetext", /degrees behind/);
});

test("a spot of the map tells its gap and pose, and leads the rear view there", async ({ page }) => {
  await openSedan(page);
  await workedOut(page);
  await expect(map(page)).toHaveAttribute("aria-label", /the tire comes nearest to the roof, \d+\u00b0 behind: hits by/);
  await spots(page).focus();
  await expect(spotWords(page)).toHaveText(/^Roof, \d+\u00b0 behind: hits by .+ Nearest with .+\.$/);
  const first = await spotWords(page).innerText();
  for (let press = 0; press < 6; press += 1) await page.keyboard.press("ArrowRight");
  await expect(spotWords(page)).not.toHaveText(first);
  await page.keyboard.press("Enter");
  const there = Number(/(\d+)\u00b0/.exec(await spotWords(page).innerText())[1]);
  await expect(section(page)).toHaveAttribute("aria-valuetext", new RegExp(`^${there} degrees behind`));
  await expect(page.locator(".gaps table").first()).toHaveClass("is-held");
});

test("a spot is pointed at", async ({ page }) => {
  await openSedan(page);
  await workedOut(page);
  const at = await middle(spots(page));
  await page.mouse.move(at.x, at.y - 40);
  await expect(spotWords(page)).toHaveText(/Nearest with/);
  await page.mouse.click(at.x - 60, at.y - 40);
  await expect(section(page)).toHaveAttribute("aria-valuetext", /degrees/);
});

test("no number of another state is shown while ring and map are worked out", async ({ page }) => {
  await openSedan(page);
  await workedOut(page);
  await map(page).scrollIntoViewIfNeeded();
  const seen = await page.evaluate(async () => {
    const box = document.querySelector("#dial-seam-box, #dial-backspacing-box");
    const next = () => new Promise((done) => requestAnimationFrame(() => done()));
    box.focus();
    box.value = "5 in";
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.dispatchEvent(new Event("change", { bubbles: true }));
    const frames = [];
    for (let frame = 0; frame < 4; frame += 1) {
      await next();
      const word = document.querySelector(".map-view .scene text");
      frames.push({
        stale: document.querySelector(".map-view .is-stale") !== null,
        shown: word !== null && getComputedStyle(word).visibility === "visible",
        words: document.querySelector("#spot-words").textContent,
      });
    }
    return frames;
  });
  expect(seen.at(-1).stale).toBe(true);
  for (const { stale, shown } of seen.filter(({ stale }) => stale)) expect({ stale, shown }).toEqual({ stale: true, shown: false });
  await workedOut(page);
});

test("round the wheel: seen and accessible", async ({ page }) => {
  await openSedan(page);
  await worst(page).click();
  await workedOut(page);
  await map(page).scrollIntoViewIfNeeded();
  await spots(page).focus();
  await shoot(page, "round", {});
  await page.locator(".side-view").scrollIntoViewIfNeeded();
  await shoot(page, "round-side", {});
  await expectAccessible(page);
});

test("a changed lever leaves the section where it was swung", async ({ page }) => {
  await openBench(page);
  await section(page).focus();
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowRight");
  const box = leverBox(page, "Backspacing");
  await box.fill("5 in");
  await box.press("Enter");
  await expect(section(page)).toHaveAttribute("aria-valuetext", "3 degrees ahead of straight up");
});
