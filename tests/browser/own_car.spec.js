// A car of one's own, from nothing: begun, named, measured, with what stands near its tires; and what becomes of numbers
// that do not go together.
import { expect, test } from "./fixture.js";
import { expectAccessible } from "./look.js";
import { gapRow, leverBox, openBench, openPanel, type } from "./bench.js";
import { tooWide } from "./reach.js";

const carButton = (page) => page.locator(".car-button");
const reading = (page, what) => page.getByRole("textbox", { name: what, exact: true });
const told = (page) => page.getByRole("status").filter({ has: page.getByRole("button", { name: "Understood" }) });

async function fill(box, text) {
  await box.fill(text);
  await box.press("Enter");
  await box.blur();
}

/** Begins a car. */
async function begin(page) {
  await openBench(page);
  await carButton(page).click();
  await page.getByRole("button", { name: /^Start a car of your own/ }).click();
  await expect(carButton(page)).toContainText("My car");
}

test("a car is begun, named and measured, and is there again after a reload", async ({ page }) => {
  await begin(page);
  await expect(told(page)).toContainText("Coupe, body on frame (invented)");
  await carButton(page).click();
  await fill(reading(page, "Name"), "Two-door wagon");
  await page.keyboard.press("Escape");
  await openPanel(page, "Tape readings");
  await expect(page.getByText("40 are still guesses")).toBeVisible();
  const box = reading(page, "Flange face in to frame rail, left");
  await fill(box, "9-3/4");
  await expect(box).toHaveValue("9 3/4 in");
  await expect(page.getByText("39 are still guesses")).toBeVisible();
  await fill(box, "about 10");
  await expect(box).toHaveValue("10 in");
  await expect(page.getByText("40 are still guesses")).toBeVisible();
  await fill(box, "9 1/2 G");
  await expect(page.getByText("40 are still guesses")).toBeVisible();
  await page.waitForTimeout(1000);
  await page.reload();
  await expect(carButton(page)).toContainText("Two-door wagon");
  await openPanel(page, "Tape readings");
  await expect(box).toHaveValue("9 1/2 in");
});

test("a second car of one's own has another name, and the first is kept", async ({ page }) => {
  await begin(page);
  await type(page, "Backspacing", "6 in");
  await carButton(page).click();
  await page.getByRole("button", { name: /^Start a car of your own/ }).click();
  await expect(carButton(page)).toContainText("My car 2");
  await carButton(page).click();
  await page.getByRole("button", { name: /^My car.*Begun here/ }).click();
  await expect(leverBox(page, "Backspacing")).toHaveValue("6 in");
});

test("a part and a place not to cut are added, show up, and go again", async ({ page }) => {
  await begin(page);
  await openPanel(page, "Parts nearby and locator");
  await page.getByRole("button", { name: "Add a part" }).click();
  const name = page.locator("#part-0-name");
  await expect(name).toBeFocused();
  await fill(name, "Tailpipe");
  await expect(gapRow(page, "Left", "Tailpipe")).toBeVisible();
  const group = page.getByRole("group", { name: "Tailpipe" });
  await fill(group.getByRole("textbox", { name: "Radius" }), "1 1/4");
  await group.getByRole("combobox", { name: "Side" }).selectOption("right");
  await expect(gapRow(page, "Right", "Tailpipe")).toBeVisible();
  await page.getByRole("button", { name: "Add a place not to cut" }).click();
  await fill(page.locator("#zone-0-name"), "Belt anchorage");
  expect(await tooWide(page)).toEqual([]);
  await expectAccessible(page);
  await page.getByRole("button", { name: "Remove Tailpipe" }).click();
  await expect(page.getByRole("button", { name: "Add a part" })).toBeFocused();
  await expect(page.getByText("no part, one place not to cut")).toBeVisible();
  await page.getByRole("button", { name: "Undo: Remove Tailpipe" }).click();
  await expect(gapRow(page, "Right", "Tailpipe")).toBeVisible();
});

test("the locator is another kind, and rolls where it rolled", async ({ page }) => {
  await begin(page);
  await openPanel(page, "Parts nearby and locator");
  const kind = page.getByRole("combobox", { name: "Locator" });
  await kind.selectOption({ label: "Leaf springs" });
  const height = reading(page, "Height of the roll point");
  await fill(height, "-2");
  await kind.selectOption({ label: "Track bar" });
  await expect(height).toBeHidden();
  await expect(reading(page, "Axle end, up")).toHaveValue("\u22122 in");
  await page.getByRole("button", { name: /^Undo: Locator/ }).click();
  await expect(kind).toHaveValue("leaf-springs");
});

test("numbers that do not go together are told where they are, and outlive a reload", async ({ page }) => {
  await begin(page);
  await openPanel(page, "Tape readings");
  const box = reading(page, "Flange face in to seam, left");
  await fill(box, "20");
  const banner = page.getByRole("alert");
  await expect(banner).toContainText("Flange face in to seam, left: 20 in (508.0 mm) puts the seam off the roof");
  await expect(box).toHaveAttribute("data-wrong", "");
  await expectAccessible(page);
  await page.waitForTimeout(1000);
  await page.reload();
  await expect(carButton(page)).toContainText("My car");
  await expect(told(page)).toBeHidden();
  await expect(banner).toContainText("puts the seam off the roof");
  await page.getByRole("button", { name: "Show me" }).click();
  await expect(box).toBeFocused();
  await expect(box).toHaveValue("20 in");
  // Nothing is printed of a car that is no car.
  await page.goto("#sheets/cut");
  await expect(page.locator(".sheet-told")).toContainText("no sheet of numbers that do not go together");
  await expect(page.locator(".paper-page svg")).toHaveCount(0);
  await page.getByRole("button", { name: "Undo the last step" }).click();
  await expect(page.locator(".paper-page svg").first()).toBeVisible({ timeout: 30_000 });
});

test("load and pressure go with the lengths", async ({ page }) => {
  await openBench(page);
  await openPanel(page, "All numbers");
  const load = reading(page, "Load on the tire");
  await fill(load, "950");
  await expect(load).toHaveValue("950 lb");
  await page.getByRole("combobox", { name: /Lengths/ }).selectOption("millimeters");
  await expect(load).toHaveValue("431 kg");
});

test("a seam that differs from the other is dragged alone", async ({ page, isMobile }) => {
  test.skip(isMobile, "both sides are in the picture at a desk");
  await openBench(page);
  await page.getByRole("checkbox", { name: "Move left and right apart" }).check();
  await type(page, "Seam move, left", "1 in");
  await type(page, "Seam move, right", "1/2 in");
  // What is kept of the tick is another setting: the seams differ all the same.
  const grip = page.getByRole("slider", { name: "Seam move, right side" });
  await grip.focus();
  await grip.press("ArrowRight");
  await expect(leverBox(page, "Seam move, left")).toHaveValue("1 in");
  await expect(leverBox(page, "Seam move, right")).not.toHaveValue("1/2 in");
});
