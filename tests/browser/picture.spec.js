// The picture: dragged by its handles, followed through travel, lit from the
// gap list.
import { expect, test } from "./fixture.js";
import { expectPoses, gapList, gapRow, lever, middle, openBench, openPanel, pictureOf } from "./bench.js";

const handle = (page, name) => page.locator(".handles").getByRole("slider", { name, exact: true });

async function drag(page, grip, { x = 0, y = 0 }) {
  const from = await middle(grip);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let step = 1; step <= 6; step += 1) {
    await page.mouse.move(from.x + (x * step) / 6, from.y + (y * step) / 6);
  }
  await page.mouse.up();
}

const dragged = [
  ["Seam move, left side", "Seam move", { x: 20 }],
  ["Backspacing, left side", "Backspacing", { x: 20 }],
  ["Track width, left side", "Track width", { x: 20 }],
  ["Section width, left side", "Section width", { x: 8 }],
];

for (const [grip, name, way] of dragged) {
  test(`${name} is dragged in the picture, and one step takes it back`, async ({ page }) => {
    await openBench(page);
    const [spoken, picture, gaps] = [
      await lever(page, name).getAttribute("aria-valuetext"),
      await pictureOf(page),
      await gapList(page),
    ];
    await drag(page, handle(page, grip), way);
    await expect(lever(page, name)).not.toHaveAttribute("aria-valuetext", spoken);
    await expect.poll(() => pictureOf(page)).not.toBe(picture);
    await expect.poll(() => gapList(page)).not.toBe(gaps);
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect(lever(page, name)).toHaveAttribute("aria-valuetext", spoken);
    await expect.poll(() => pictureOf(page)).toBe(picture);
  });
}

test("taking hold of a handle moves nothing", async ({ page }) => {
  await openBench(page);
  const picture = await pictureOf(page);
  await drag(page, handle(page, "Backspacing, left side"), {});
  expect(await pictureOf(page)).toBe(picture);
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute("aria-disabled", "true");
});

test("a handle follows the arrow keys the way they point", async ({ page }) => {
  await openBench(page);
  const seam = handle(page, "Seam move, left side");
  const { x } = await middle(seam);
  await seam.focus();
  for (let press = 0; press < 32; press += 1) await page.keyboard.press("ArrowRight");
  await expect.poll(async () => (await middle(seam)).x).toBeGreaterThan(x + 3);
  await expect(seam).toHaveAttribute("aria-valuetext", /inch/);
});

test("the axle is lifted by its middle, and the list tells the gaps as it is held", async ({ page }) => {
  await openBench(page);
  const heave = page.locator("#heave");
  await drag(page, handle(page, "Both wheels up or down"), { y: -20 });
  await expect(heave).toHaveAttribute("aria-valuetext", / up$/);
  await expect(page.locator(".gaps table").first()).toHaveClass("is-held");
  await page.getByRole("button", { name: "To ride height" }).click();
  await expect(heave).toHaveAttribute("aria-valuetext", "at ride height");
});

test("roll lifts one wheel and lowers the other", async ({ page }) => {
  await openBench(page);
  const tilt = page.locator("#tilt");
  await tilt.focus();
  for (let press = 0; press < 16; press += 1) await page.keyboard.press("ArrowRight");
  await expect(tilt).toHaveAttribute("aria-valuetext", /degrees, left up/);
});

test("travel plays and stops", async ({ page }) => {
  await openBench(page);
  const heave = page.locator("#heave");
  await page.getByRole("button", { name: "Play travel" }).click();
  await expect(heave).toHaveAttribute("aria-valuetext", / up$/);
  await page.getByRole("button", { name: "Pause" }).click();
  const held = await heave.getAttribute("aria-valuetext");
  await page.waitForTimeout(300);
  await expect(heave).toHaveAttribute("aria-valuetext", held);
});

test("who asked for less motion sees poses, not a ride", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  await openBench(page);
  await expectPoses(page);
  await page.getByRole("button", { name: "Pause" }).click();
});

test("a surface picked in the list is shown in the pose where it comes nearest", async ({ page }) => {
  await openBench(page);
  const row = gapRow(page, "Left", "tub wall");
  const button = row.getByRole("button");
  await button.click();
  await expect(button).toHaveAttribute("aria-pressed", "true");
  await expect(page.locator(".gaps table").first()).toHaveClass("is-held");
  await page.getByRole("button", { name: "To ride height" }).click();
  await expect(button).toHaveAttribute("aria-pressed", "false");
});

test("one surface is marked as what stops the tire, and the verdict names it", async ({ page }) => {
  await openBench(page);
  await expect(page.getByText("what stops the tire").first()).toBeVisible();
  await expect(page.getByRole("status", { name: "Verdict" })).toHaveText(/stops the tire: they overlap by .+ (through travel|at ride height)\./);
});

test("the chart says what it finds and lists its data", async ({ page }) => {
  await openBench(page);
  const chart = page.locator(".chart svg");
  await expect(chart).toHaveAttribute("role", "img");
  await expect(chart).toHaveAttribute("aria-label", /\w+ .*\./);
  await openPanel(page, "The same as a table");
  await expect(page.locator(".chart table tbody tr")).not.toHaveCount(0);
});

test("one side is shown as large as the width allows", async ({ page }) => {
  await openBench(page);
  const tires = page.locator("#rear-wheels .tire");
  await page.getByRole("radio", { name: "Both" }).check();
  const both = await tires.count();
  await page.getByRole("radio", { name: "Right" }).check();
  await expect.poll(() => tires.count()).toBeLessThanOrEqual(both);
  await expect(handle(page, "Seam move, left side")).toHaveCount(0);
  await expect(handle(page, "Seam move, right side")).toBeVisible();
});
