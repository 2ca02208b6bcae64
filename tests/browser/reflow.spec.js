// Read large or on a small screen: nothing scrolls sideways, is cut off or lies on something else.
import { expect, test } from "./fixture.js";
import { openPage, overlaps, pages, tooWide, unfold } from "./reach.js";

// 1280 by 800 CSS pixels at 200 %, and the 320 pixels that 1.4.10 asks for.
const screens = { "200 %": { width: 640, height: 400 }, "320 px": { width: 320, height: 640 } };

// WCAG 2.2, 1.4.12: what a reader may set.
const spacing = "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important } p { margin-bottom: 2em !important }";

for (const address of pages) {
  for (const [name, size] of Object.entries(screens)) {
    test(`${address} at ${name}`, async ({ page, isMobile }) => {
      test.skip(isMobile !== (name === "320 px"), "a desk is zoomed, a phone is narrow");
      await page.setViewportSize(size);
      await openPage(page, address);
      await unfold(page);
      expect(await tooWide(page)).toEqual([]);
      expect(await overlaps(page)).toEqual([]);
      // As a reader's own style sheet does it, which no policy of the page keeps out.
      await page.evaluate((css) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(css);
        document.adoptedStyleSheets = [sheet];
      }, spacing);
      expect(await tooWide(page), "with text spaced out").toEqual([]);
      expect(await overlaps(page), "with text spaced out").toEqual([]);
    });
  }
}

test("a sheet is seen whole on a phone, larger when asked, and prints at its own size either way", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openPage(page, "sheets/order");
  const paper = page.getByRole("region", { name: "Page 1 of 2" });
  const beyond = () => paper.evaluate((region) => region.scrollWidth - region.clientWidth);
  expect(await beyond()).toBe(0);
  const larger = page.getByRole("button", { name: /^Larger.*Page 1 of 2$/ });
  await larger.press("Enter");
  await expect(larger).toHaveAttribute("aria-pressed", "true");
  expect(await beyond()).toBeGreaterThan(0);
  await page.emulateMedia({ media: "print" });
  for (const svg of await page.locator(".paper-page svg").all()) {
    const off = await svg.evaluate((svg) => (svg.getBoundingClientRect().width / 96) * 25.4 - svg.viewBox.baseVal.width);
    // The browser lays out in 1/64 of a CSS pixel.
    expect(Math.abs(off)).toBeLessThan(25.4 / 96 / 64 + 1e-6);
  }
});
