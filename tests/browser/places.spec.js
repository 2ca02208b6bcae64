// From page to page: each has its address, its title and its heading, and an address that is not
// understood loses nothing.
import { expect, test } from "./fixture.js";
import { gapList, leverBox, openBench } from "./bench.js";

const heading = (page) => page.getByRole("heading", { level: 1 });

test("the bench is where an address without a page leads", async ({ page }) => {
  for (const fragment of ["", "#bench", "#bench&car=abc"]) {
    await page.goto(fragment);
    await expect(page.locator("#rear-body path").first()).toBeAttached();
    await expect(heading(page)).toHaveText(/^Bench: Coupe/);
    await expect(page).toHaveTitle(/^The tire .+ · Coupe.+ · Lip to Rail$/);
    await expect(page.locator(".told .banner")).toHaveCount(0);
    expect(new URL(page.url()).hash).toBe(fragment);
  }
});

test("a page that this version has not is told; the bench stands in, with its car and its address", async ({ page }) => {
  await openBench(page);
  const box = leverBox(page, "Backspacing");
  await box.fill("5 1/8");
  await box.press("Enter");
  const gaps = await gapList(page);
  await page.evaluate(() => (location.hash = "#gallery/3&car=abc&light"));
  await expect(page.getByRole("main").getByRole("status").filter({ hasText: "gallery/3" })).toContainText("The Bench is shown");
  expect(await gapList(page)).toBe(gaps);
  await expect(box).toHaveValue("5 1/8 in");
  expect(new URL(page.url()).hash).toBe("#gallery/3&car=abc&light");
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
