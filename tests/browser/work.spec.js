// The work: every step can be taken back, a reload loses nothing, files come
// and go, and a bad one changes nothing.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "./fixture.js";
import { lever, leverBox, openBench, pictureOf, type } from "./bench.js";

const scenario = (name) => fileURLToPath(new URL(`../../scenarios/${name}.toml`, import.meta.url));
const carButton = (page) => page.locator(".car-button");
const fileInput = (page) => page.locator('input[type="file"]');

test("steps are taken back and done again, by button and by key", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  const first = await box.inputValue();
  await type(page, "Backspacing", "6 in");
  await type(page, "Track width", "58 in");
  await page.getByRole("button", { name: "Undo: Track width" }).click();
  await page.getByRole("button", { name: "Undo: Backspacing" }).click();
  await expect(box).toHaveValue(first);
  await page.keyboard.press("Control+Shift+Z");
  await expect(box).toHaveValue("6 in");
  await page.keyboard.press("Control+z");
  await expect(box).toHaveValue(first);
  await page.keyboard.press("Control+y");
  await page.keyboard.press("Control+y");
  await expect(leverBox(page, "Track width")).toHaveValue("58 in");
});

test("a slider held down is one step", async ({ page }) => {
  await openBench(page);
  const slider = lever(page, "Backspacing");
  const first = await slider.getAttribute("aria-valuetext");
  await slider.focus();
  for (let press = 0; press < 12; press += 1) await page.keyboard.press("ArrowRight");
  await page.getByRole("button", { name: "Undo: Backspacing" }).click();
  await expect(slider).toHaveAttribute("aria-valuetext", first);
});

test("a reload keeps the work, its steps and its settings", async ({ page }) => {
  await openBench(page);
  await type(page, "Backspacing", "6 1/4");
  await page.getByLabel("Lengths in").selectOption("Millimeters");
  await page.getByLabel("Colors").selectOption("Dark");
  await page.reload();
  await expect(leverBox(page, "Backspacing")).toHaveValue("158.8 mm");
  await expect(page.locator("html")).toHaveAttribute("data-theme", "dark");
  await page.getByRole("button", { name: "Undo: Backspacing" }).click();
  await expect(leverBox(page, "Backspacing")).not.toHaveValue("158.8 mm");
});

test("another car is opened, and the one that was changed is kept", async ({ page }) => {
  await openBench(page);
  const first = await carButton(page).locator(".car-name").textContent();
  await type(page, "Backspacing", "6 1/4");
  await carButton(page).click();
  await page.getByRole("button", { name: /^Fastback/ }).click();
  await expect(carButton(page)).toContainText("Fastback");
  await carButton(page).click();
  await page.getByRole("button", { name: /as you changed it/ }).click();
  await expect(carButton(page)).toContainText(first);
  await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
  await page.getByRole("button", { name: /^Undo: Open/ }).click();
  await expect(carButton(page)).toContainText("Fastback");
});

test("a good file is opened, and its saved twin opens again", async ({ page }) => {
  await openBench(page);
  await fileInput(page).setInputFiles(scenario("pickup"));
  await expect(carButton(page)).toContainText("Pickup");
  await type(page, "Bump travel", "2 in");
  const arrives = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  const file = await arrives;
  expect(file.suggestedFilename()).toMatch(/^pickup.*\.toml$/);
  const path = await file.path();
  expect(await readFile(path, "utf8")).toContain("bump");

  await page.getByRole("button", { name: /^Undo: Bump/ }).click();
  await fileInput(page).setInputFiles({ name: "again.toml", mimeType: "text/plain", buffer: await readFile(path) });
  await expect(leverBox(page, "Bump travel")).toHaveValue("2 in");
});

test("a bad file tells all its faults and leaves the car alone", async ({ page }) => {
  await openBench(page);
  const picture = await pictureOf(page);
  const text = (await readFile(scenario("coupe"), "utf8"))
    .replace(/^rim_width.*$/m, 'rim_width = "ten-ish"')
    .concat("\n[turbo]\nboost = 3\n");
  await fileInput(page).setInputFiles({ name: "bad.toml", mimeType: "text/plain", buffer: Buffer.from(text) });
  const dialog = page.getByRole("dialog", { name: /bad\.toml.*was not opened/ });
  await expect(dialog).toBeVisible();
  await expect(dialog.getByRole("listitem").filter({ hasText: /^\d+:\d+: / })).toHaveCount(2);
  await expect(dialog).toContainText("ten-ish");
  await expect(dialog).toContainText("turbo");
  await dialog.getByRole("button", { name: "Close" }).click();
  await expect(dialog).toBeHidden();
  expect(await pictureOf(page)).toBe(picture);
});

for (const [name, content] of [
  ["an empty file", Buffer.alloc(0)],
  ["a huge file", Buffer.alloc(5_000_000, "x")],
  ["a file of bytes", Buffer.from([0, 255, 254, 1, 2, 3])],
]) {
  test(`${name} is refused in words`, async ({ page }) => {
    await openBench(page);
    await fileInput(page).setInputFiles({ name: "odd.toml", mimeType: "text/plain", buffer: content });
    const dialog = page.getByRole("dialog");
    await expect(dialog.getByRole("listitem")).not.toHaveCount(0);
    await page.keyboard.press("Escape");
    await expect(dialog).toBeHidden();
  });
}

test("a file is dropped anywhere on the page", async ({ page }) => {
  await openBench(page);
  const text = await readFile(scenario("fastback"), "utf8");
  await page.evaluate((text) => {
    const held = new DataTransfer();
    held.items.add(new File([text], "dropped.toml"));
    document.querySelector("footer").dispatchEvent(new DragEvent("drop", { dataTransfer: held, bubbles: true, cancelable: true }));
  }, text);
  await expect(carButton(page)).toContainText("Fastback");
});
