// What the mock-up found: typed beside what is predicted, explained, and taken over in one step.
import { expect, test } from "./fixture.js";
import { expectAccessible } from "./look.js";

test("gaps found with the mock-up name a reading, and its correction is one step", async ({ page, browser }) => {
  await page.goto("#sheets/mock-up");
  const panel = page.locator("details.found");
  await panel.locator("summary").first().click();
  const lip = panel.getByLabel("Found, left quarter lip, ride height");
  await lip.fill("2 1/2 in");
  await lip.press("Enter");
  await expect(panel.getByText("1 typed in")).toBeVisible();
  await expect(panel.getByText(/One reading explains it best: .*quarter lip \(left\)/)).toBeVisible({ timeout: 30_000 });
  await expectAccessible(page);
  await panel.getByRole("button", { name: "Take this correction over" }).click();
  const undo = page.getByRole("button", { name: /Undo/ });
  await expect(undo).toBeEnabled();
  await undo.click();
  await expect(lip).toHaveValue("2 1/2 in");
  await page.reload();
  await expect(panel.getByText("1 typed in")).toBeVisible();
  // They go wherever the car goes.
  await page.goto("#take-away");
  const link = await page.getByRole("textbox", { name: "Link", exact: true }).inputValue();
  const context = await browser.newContext();
  const there = await context.newPage();
  await there.goto(link.replace("#bench", "#sheets/mock-up"));
  await there.locator("details.found summary").first().click();
  await expect(there.getByLabel("Found, left quarter lip, ride height")).toHaveValue("2 1/2 in");
  await context.close();
});
