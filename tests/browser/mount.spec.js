// Will the wheel go on: the verdict, the wheel along its way, stud length and droop.
import { expect, test } from "./fixture.js";
import { chooseCar, openBench } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";

const section = (page) => page.getByRole("region", { name: /^Will the (left|right) wheel go on\?$/ });
const verdict = (page) => section(page).locator(".verdict");
const slider = (page) => section(page).getByRole("slider", { name: "The way on" });
const picture = (page) => section(page).getByRole("img");
const playButton = (page) => section(page).getByRole("button", { name: /the wheel's way on$/ });
const number = (page, name) => section(page).getByRole("textbox", { name, exact: true });

/** Opens an invented car and waits until its way on is searched. */
async function openFeed(page, name) {
  await openBench(page);
  await chooseCar(page, name);
  await found(page);
}

async function found(page) {
  await section(page).scrollIntoViewIfNeeded();
  // The sedan's way is the longest to find; between frames of a busy machine it takes its time.
  await expect(section(page).locator(".is-stale")).toHaveCount(0, { timeout: 40_000 });
  await expect(verdict(page)).not.toHaveText(/being searched/);
}

test("the verdict is told, and the picture stands at the tightest spot", async ({ page }) => {
  await openFeed(page, /Sedan/);
  await expect(verdict(page)).toHaveText(/wheel goes on with the axle at full droop, .+ Tightest at the .+\./);
  await expect(verdict(page)).toHaveClass(/clears/);
  await expect(section(page)).toContainText("Taking the wheel off is the same way backward.");
  await expect(picture(page)).toHaveAttribute("aria-label", /seen from behind\. .+; nearest is the .+\.$/);
  const tightest = (words) => /(?:nearest is|Tightest at) the (.+)\.$/.exec(words)[1];
  expect(tightest(await section(page).locator(".spot-words").innerText())).toBe(tightest(await verdict(page).innerText()));
});

test("the wheel is moved along its way by keys, and each place is said in words", async ({ page }) => {
  await openFeed(page, /Sedan/);
  await slider(page).focus();
  await page.keyboard.press("End");
  await expect(slider(page)).toHaveAttribute("aria-valuetext", "on the flange");
  const seated = await section(page).locator("#mount-wheel").innerHTML();
  await page.keyboard.press("Home");
  await expect(slider(page)).toHaveAttribute("aria-valuetext", /inches out/);
  expect(await section(page).locator("#mount-wheel").innerHTML()).not.toBe(seated);
  // A wheel that only goes straight in would not show that every number is said.
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("PageUp");
  await expect(slider(page)).toHaveAttribute("aria-valuetext", /degrees?|down|up/);
  await page.getByRole("button", { name: "Tightest spot" }).click();
  await expect(section(page).locator(".spot-words")).toHaveText(/nearest is the/);
});

test("it plays to the flange and stops there; a hand on the slider ends it", async ({ page }) => {
  await openFeed(page, /Fastback/);
  await slider(page).focus();
  await page.keyboard.press("End");
  await playButton(page).click();
  await expect(playButton(page)).toHaveText(/Pause/);
  await expect(slider(page)).not.toHaveAttribute("aria-valuetext", "on the flange");
  await slider(page).focus();
  await page.keyboard.press("ArrowRight");
  await expect(playButton(page)).toHaveText(/Play/);
  await page.keyboard.press("End");
  for (let press = 0; press < 2; press += 1) await page.keyboard.press("PageDown");
  await playButton(page).click();
  await expect(slider(page)).toHaveAttribute("aria-valuetext", "on the flange");
  await expect(playButton(page)).toHaveText(/Play/);
});

test("with less motion it is held place by place", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  await openFeed(page, /Fastback/);
  await slider(page).focus();
  await page.keyboard.press("Home");
  await playButton(page).click();
  const seen = new Set();
  for (let look = 0; look < 20; look += 1) {
    seen.add(await slider(page).inputValue());
    await page.waitForTimeout(100);
  }
  // A glide would have been seen between the places that are held.
  expect(seen.size).toBeGreaterThan(1);
  expect([...seen].filter((mark) => mark % 20 !== 0)).toEqual([]);
});

test("droop that is taken away is asked for, and no word of another state stays", async ({ page }) => {
  await openFeed(page, /Sedan/);
  const before = await verdict(page).innerText();
  const droop = number(page, "Droop travel");
  await droop.fill("1 in");
  const [first] = await Promise.all([
    page.waitForFunction(() => document.querySelector(".feed .is-stale") && document.querySelector(".feed .verdict").innerText),
    droop.press("Enter"),
  ]);
  expect(await first.jsonValue()).toMatch(/being searched/);
  await found(page);
  await expect(verdict(page)).not.toHaveText(before);
  await expect(verdict(page)).toHaveText(/does not go on as the axle hangs: it takes .+ in more droop, or the body lifted so much/);
  await expect(verdict(page)).toHaveClass(/tight/);
});

test("longer studs are taken as they are typed", async ({ page }) => {
  await openFeed(page, /Fastback/);
  await number(page, "Stud length").fill("3");
  await number(page, "Stud length").press("Enter");
  await found(page);
  await expect(page.locator("#number-axle-stud_length")).toHaveValue("3 in");
});

test("a wheel that cannot sit on its flange has no way to slide along", async ({ page }) => {
  await openFeed(page, /coupe/i);
  await page.getByRole("radio", { name: "Left" }).check();
  await found(page);
  await expect(verdict(page)).toHaveText(/cannot sit on its flange as the axle hangs: it overlaps the .+ by .+\./);
  await expect(slider(page)).toHaveCount(0);
});

test("will it go on: seen and accessible", async ({ page }) => {
  await openFeed(page, /Sedan/);
  await slider(page).focus();
  await shoot(page, "mount", {});
  await expectAccessible(page);
});
