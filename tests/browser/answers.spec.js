// What would make it fit: each answer is of the car that is shown, goes on the
// car in one step and off again, and the mix obeys what the reader rather changes.
import { expect, test } from "./fixture.js";
import { chooseCar, leverBox, openBench } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";

// The answers are worked out while the page idles: on a busy machine that is seconds.
const workedOut = { timeout: 40_000 };

const answers = (page) => page.getByRole("region", { name: "What would make it fit" });
const row = (page, name) => answers(page).locator(".rows > li").filter({ has: page.getByText(name, { exact: true }) });
const mix = (page) => answers(page).locator(".mix");
const tryIt = (page, name) => answers(page).getByRole("button", { name: `Try it: ${name}` });
const takeBack = (page, name) => answers(page).getByRole("button", { name: `Take it back: ${name}` });

async function openCar(page, name) {
  await openBench(page);
  await chooseCar(page, name);
  await answers(page).scrollIntoViewIfNeeded();
}

/** The words of one side's verdicts in the gap list. */
function verdicts(page, side) {
  return page.getByRole("table", { name: `${side} side` }).locator("tbody .word").allInnerTexts();
}

test("the coupe's answers: the seam will do, backspacing will not", async ({ page }) => {
  test.slow();
  await openBench(page);
  await answers(page).scrollIntoViewIfNeeded();
  await expect(row(page, "Seam move, left")).toContainText(/\d in would do.* the tub wall on the left, through travel, decides/, workedOut);
  await expect(row(page, "Backspacing")).toContainText(/Cannot: even at .+ stays .+ short of its target/);
  await expect(tryIt(page, "backspacing")).toHaveCount(0);
  await expect(mix(page)).toContainText(/Seam move, left \d/, workedOut);
  await expectAccessible(page);
  await shoot(page, "answers");
});

test("trying the seam makes its side clear, and it is taken back in one step", async ({ page }) => {
  test.slow();
  await openBench(page);
  await answers(page).scrollIntoViewIfNeeded();
  await expect(tryIt(page, "seam move, left")).toBeVisible(workedOut);
  const before = await verdicts(page, "Left");
  expect(before.some((word) => word !== "clears")).toBe(true);
  const told = await row(page, "Seam move, left").locator(".told").innerText();

  await tryIt(page, "seam move, left").click();
  await expect.poll(async () => new Set(await verdicts(page, "Left"))).toEqual(new Set(["clears"]));
  await expect(row(page, "Seam move, left")).toContainText("On the car.");
  // The answers are still those of the car before it.
  await expect(row(page, "Seam move, left").locator(".told")).toHaveText(told);
  await page.getByRole("button", { name: "Undo: Try seam move, left" }).click();
  await expect.poll(() => verdicts(page, "Left")).toEqual(before);

  // Another trial takes the place of the first.
  await tryIt(page, "seam move, left").click();
  await tryIt(page, "seam move, right").click();
  await expect(takeBack(page, "seam move, right")).toBeVisible();
  await expect(takeBack(page, "seam move, left")).toHaveCount(0);
  await expect.poll(() => verdicts(page, "Left")).toEqual(before);
  await takeBack(page, "seam move, right").click();
  await expect(page.getByRole("button", { name: "Undo", exact: true })).toHaveAttribute("aria-disabled", "true");
});

test("an answer is never of another state", async ({ page }) => {
  test.slow();
  await openBench(page);
  await answers(page).scrollIntoViewIfNeeded();
  await expect(row(page, "Backspacing")).toContainText("now 5 1/2 in", workedOut);
  const box = leverBox(page, "Backspacing");
  await box.fill("5 3/4");
  await box.press("Enter");
  await expect(answers(page).locator(".lead").first()).toContainText("is being worked out");
  await expect(answers(page).locator(".rows > li")).toHaveCount(0);
  await answers(page).scrollIntoViewIfNeeded();
  await expect(row(page, "Backspacing")).toContainText("now 5 3/4 in", workedOut);
});

test("what may be changed decides the mix, and outlives a reload", async ({ page }) => {
  test.slow();
  await openCar(page, /^Fastback/);
  await expect(mix(page)).toContainText(/Backspacing .*Nothing is cut\./s, workedOut);
  const most = () => answers(page).getByRole("textbox", { name: "Most change of backspacing" });
  await answers(page).locator(".wishes > summary").click();
  await most().fill("0");
  await most().press("Enter");
  await expect(most()).toHaveValue("0 in");
  await expect(mix(page).getByRole("listitem").first()).toBeVisible(workedOut);
  await expect(mix(page)).not.toContainText("Backspacing");
  await answers(page).getByRole("button", { name: "Rather bump travel: one place up" }).click();
  const first = answers(page).locator(".wishes li .name").first();
  await expect(first).toHaveText("Bump travel");

  // It is kept a moment after the last change, and at once when the page is left.
  await page.reload();
  await answers(page).scrollIntoViewIfNeeded();
  await answers(page).locator(".wishes > summary").click();
  await expect(most()).toHaveValue("0 in");
  await expect(first).toHaveText("Bump travel");
  await expectAccessible(page);
  await answers(page).getByRole("button", { name: /Back to the usual/ }).click();
  await expect(first).toHaveText("Backspacing");
  await expect(mix(page)).toContainText("Backspacing", workedOut);
});

test("the low car says that the tub alone cannot, and what together can", async ({ page }) => {
  test.slow();
  await openCar(page, /^Low car/);
  for (const side of ["left", "right"]) {
    await expect(row(page, `Seam move, ${side}`)).toContainText(/Cannot: .*where tub and frame rail meet/, workedOut);
  }
  await expect(mix(page)).toContainText(/Section width .* less/, workedOut);
  await tryIt(page, "the mix").click();
  for (const side of ["Left", "Right"]) {
    await expect.poll(async () => new Set(await verdicts(page, side))).toEqual(new Set(["clears"]));
  }
  await expect(mix(page)).toContainText("On the car.");
});

test("the sedan says what would have to change instead", async ({ page }) => {
  test.slow();
  await openCar(page, /^Sedan/);
  await expect(mix(page)).toContainText(/No mix within the preferences will do: the roof/, workedOut);
  await expect(row(page, "Axle ahead of its station")).toContainText(/further ahead\) would do/, workedOut);
  await tryIt(page, "axle ahead of its station").click();
  await expect.poll(async () => new Set(await verdicts(page, "Left"))).toEqual(new Set(["clears"]));
  await shoot(page, "answers-instead");
});

test("the answers fit a phone without sideways scrolling", async ({ page }) => {
  test.slow();
  await page.setViewportSize({ width: 320, height: 700 });
  await openBench(page);
  await answers(page).scrollIntoViewIfNeeded();
  await expect(row(page, "Seam move, left")).toContainText("would do", workedOut);
  await answers(page).locator(".wishes > summary").click();
  const widths = () => page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
  const [scroll, client] = await widths();
  expect(scroll).toBeLessThanOrEqual(client);
});
