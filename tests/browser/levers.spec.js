// The levers: every slider moves the picture and the gap list, by keyboard as
// by typing, and says its value with its unit.
import { expect, test } from "./fixture.js";
import { gapList, lever, leverBox, openBench, openPanel, pictureOf } from "./bench.js";

const levers = [
  ["Backspacing", "ArrowRight"],
  ["Track width", "ArrowLeft"],
  ["Rim width", "ArrowLeft"],
  ["Section width", "ArrowLeft"],
  ["Tire diameter", "ArrowLeft"],
  ["Seam move", "ArrowRight"],
  ["Bump travel", "ArrowLeft"],
  ["Droop travel", "ArrowLeft"],
  ["Roll limit", "ArrowLeft"],
  ["Ride height", "ArrowRight"],
];

// What has no effect on a gap on every car: it moves, and that is all.
const silent = new Set(["Droop travel", "Roll limit"]);

for (const [name, key] of levers) {
  test(`${name} moves by keyboard`, async ({ page }) => {
    await openBench(page);
    const slider = lever(page, name);
    const [spoken, picture, gaps] = [
      await slider.getAttribute("aria-valuetext"),
      await pictureOf(page),
      await gapList(page),
    ];
    await slider.focus();
    for (let press = 0; press < 16; press += 1) await page.keyboard.press(key);
    await expect(slider).not.toHaveAttribute("aria-valuetext", spoken);
    await expect(slider).toHaveAttribute("aria-valuetext", /inch|degree/);
    if (silent.has(name)) return;
    await expect.poll(() => pictureOf(page)).not.toBe(picture);
    await expect.poll(() => gapList(page)).not.toBe(gaps);
  });
}

test("a number is typed as a fraction, in another unit, or as nonsense", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  await box.fill("6 3/8");
  await box.press("Enter");
  await expect(box).toHaveValue("6 3/8 in");
  await expect(lever(page, "Backspacing")).toHaveAttribute("aria-valuetext", /6 and 3 eighths inches/);

  await box.fill("150 mm");
  await box.press("Enter");
  await expect(box).toHaveValue("5 7/8 in");

  const picture = await pictureOf(page);
  await box.fill("rather wide");
  await box.press("Enter");
  await expect(box).toHaveValue("rather wide");
  await expect(box).toHaveAttribute("aria-invalid", "true");
  await expect(box).toHaveAccessibleDescription(/Not understood.*rather wide.*such as/);
  expect(await pictureOf(page)).toBe(picture);

  await box.fill("-4");
  await box.press("Enter");
  await expect(box).toHaveAccessibleDescription(/out of range/);

  await box.press("Escape");
  await expect(box).toHaveValue("5 7/8 in");
  await expect(box).not.toHaveAttribute("aria-invalid");
});

test("numbers that do not go together are told, and the picture stays", async ({ page }) => {
  await openBench(page);
  const picture = await pictureOf(page);
  const box = leverBox(page, "Rim width");
  await box.fill("20 in");
  await box.press("Enter");
  const told = page.getByRole("alert").filter({ hasText: "do not go together" });
  await expect(told).toBeVisible();
  await expect(told.getByRole("listitem")).not.toHaveCount(0);
  await expect(box).toHaveValue("20 in");
  expect(await pictureOf(page)).toBe(picture);
  await told.getByRole("button", { name: /Undo/ }).click();
  await expect(told).toBeHidden();
});

test("the tire's size is typed as printed; a measured size beats it until it is given back", async ({ page }) => {
  await openBench(page);
  const size = page.getByLabel("Size as printed");
  await size.fill("295/55R15");
  await size.press("Enter");
  await expect(size).toHaveValue("295/55R15");
  const width = leverBox(page, "Section width");
  const printed = await width.inputValue();

  await width.fill("11 in");
  await width.press("Enter");
  await expect(page.getByText("Your value is in use, not the printed size.")).toBeVisible();
  await page.getByRole("button", { name: /Back to the printed/ }).click();
  await expect(width).toHaveValue(printed);

  await size.fill("275/60X15");
  await size.press("Enter");
  await expect(size).toHaveAttribute("aria-invalid", "true");
  await expect(size).toHaveAccessibleDescription(/Not understood after “275\/60”.*X15/);
  await expect(size).toHaveValue("275/60X15");
});

test("lengths are written as the reader wants them", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  await page.getByLabel("Lengths in").selectOption("Millimeters");
  await expect(box).toHaveValue(/^\d+\.\d mm$/);
  await expect(lever(page, "Backspacing")).toHaveAttribute("aria-valuetext", /millimeters/);
  expect(await gapList(page)).toContain(" mm");
  await page.getByLabel("Lengths in").selectOption("Inches, decimal");
  await expect(box).toHaveValue(/^\d+\.\d{3} in$/);
  await box.fill("6.1");
  await box.press("Enter");
  await expect(box).toHaveValue("6.100 in");
});

test("the two seams are moved apart and together again", async ({ page }) => {
  await openBench(page);
  await page.getByLabel("Move left and right apart").check();
  const left = lever(page, "Seam move, left");
  const right = lever(page, "Seam move, right");
  await left.focus();
  for (let press = 0; press < 8; press += 1) await page.keyboard.press("ArrowRight");
  await expect(left).toHaveAttribute("aria-valuetext", "1 half inch");
  await expect(right).toHaveAttribute("aria-valuetext", /^0/);
  await page.getByLabel("Move left and right apart").uncheck();
  await expect(lever(page, "Seam move")).toHaveAttribute("aria-valuetext", "1 half inch");
});

test("a tape reading that was a guess is one no more once it is typed", async ({ page }) => {
  await openBench(page);
  await openPanel(page, "Tape readings");
  const guesses = page.getByText(/still guesses/);
  const before = await guesses.textContent();
  const reading = page.getByLabel("Thickness of the lip, left", { exact: true });
  await reading.fill("1/4");
  await reading.press("Enter");
  await expect(guesses).not.toHaveText(before);
  await expect(reading).toHaveValue("1/4 in");
});
