// From page to page: each has its address, its title and its heading, and an address that is not
// understood loses nothing.
import { expect, test } from "./fixture.js";
import { gapList, leverBox, openBench } from "./bench.js";

const heading = (page) => page.getByRole("heading", { level: 1 });

test("the bench is where an address without a page leads", async ({ page }) => {
  for (const fragment of ["", "#bench", "#bench&light"]) {
    await page.goto(fragment);
    await expect(page.locator("#rear-body path").first()).toBeAttached();
    await expect(heading(page)).toHaveText(/^Bench: Coupe/);
    await expect(page).toHaveTitle(/^The tire .+ · Coupe.+ · Lip to Rail$/);
    await expect(page.locator(".told .banner")).toHaveCount(0);
    for (const word of fragment.split("&")) expect(new URL(page.url()).hash).toContain(word);
  }
});

test("a page that this version has not is told; the bench stands in, with its car and its address", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  await box.fill("5 1/8");
  await box.press("Enter");
  const gaps = await gapList(page);
  await page.evaluate(() => (location.hash = "#gallery/3&light"));
  await expect(page.getByRole("main").getByRole("status").filter({ hasText: "gallery/3" })).toContainText("What you see stands in for it");
  expect(await gapList(page)).toBe(gaps);
  await expect(box).toHaveValue("5 1/8 in");
  // The car comes into the address; nothing goes out of it.
  await expect.poll(() => new URL(page.url()).hash).toMatch(/^#gallery\/3&car=1[\w-]+&light$/);
  await page.goBack();
  expect(await gapList(page)).toBe(gaps);
});

test("no address stops the page", async ({ page }) => {
  for (const fragment of ["#%", "#=&&=", "##bench", "#bench#car=1", "#<b>bold</b>", `#${"x".repeat(5000)}`, "#bench&figure=&car="]) {
    await page.goto(fragment);
    await page.reload();
    await expect(page.locator("#rear-body path").first()).toBeAttached();
    await expect(heading(page)).toHaveText(/^Bench: /);
  }
});

test("from page to page and back: address, title, focus, and the work as it was", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  await box.fill("5 1/8");
  await box.press("Enter");
  const gaps = await gapList(page);
  const pages = page.getByRole("navigation", { name: "Pages" });
  await expect(pages.getByRole("link", { name: "Bench" })).toHaveAttribute("aria-current", "page");
  await pages.getByRole("link", { name: "Sheets" }).click();
  await expect(heading(page)).toHaveText("Tape sheet");
  await expect(heading(page)).toBeFocused();
  await expect(page).toHaveTitle(/^Tape sheet · /);
  await expect(page.locator(".gaps")).toHaveCount(0);
  await expect(pages.getByRole("link", { name: "Sheets" })).toHaveAttribute("aria-current", "page");
  await page.getByRole("navigation", { name: "Sheets" }).getByRole("link", { name: "Cut sheet" }).click();
  expect(new URL(page.url()).hash).toMatch(/^#sheets\/cut(&car=1|$)/);
  await expect(heading(page)).toBeFocused();
  await page.goBack();
  await expect(heading(page)).toHaveText("Tape sheet");
  await page.goBack();
  await expect(heading(page)).toHaveText(/^Bench: /);
  await expect(heading(page)).toBeFocused();
  expect(await gapList(page)).toBe(gaps);
  await page.goForward();
  await expect(heading(page)).toHaveText("Tape sheet");
  // Undo belongs to the car, on whichever page it is pressed.
  await page.getByRole("button", { name: /^Undo: Backspacing/ }).click();
  await page.goBack();
  await expect(leverBox(page, "Backspacing")).not.toHaveValue("5 1/8 in");
});

test("a page that is left does no work and breaks nothing, however often", async ({ page }) => {
  await openBench(page);
  await page.getByRole("button", { name: "Play travel" }).click();
  for (let turn = 0; turn < 6; turn += 1) {
    await page.evaluate((to) => (location.hash = to), turn % 2 ? "#bench" : "#sheets/weld");
    await page.waitForTimeout(120 * turn);
  }
  await expect(heading(page)).toHaveText(/^Bench: /);
  await expect(page.getByRole("button", { name: "Play travel" })).toBeVisible();
  await expect(page.locator("#rear-body path").first()).toBeAttached();
});
