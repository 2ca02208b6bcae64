// Colors that the system forces: verdicts keep their hatches and words, what is pressed its border, the focus its
// outline, and the drawing its lines.
import { expect, test } from "./fixture.js";
import { leverBox, openBench } from "./bench.js";
import { stop } from "./reach.js";

test.skip(({ isMobile }) => isMobile, "it is the same for all screens");

/** Contrast of two CSS colors, WCAG 2.2. */
function contrast(one, other) {
  const light = (color) => {
    const [r, g, b] = color.match(/[\d.]+/g).map((part) => {
      const share = Number(part) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [high, low] = [light(one), light(other)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

for (const colorScheme of ["light", "dark"]) {
  test.describe(`forced, ${colorScheme}`, () => {
    test.beforeEach(async ({ page }) => {
      await page.emulateMedia({ forcedColors: "active", colorScheme });
      await openBench(page);
    });

    test("each verdict has its word and a hatch of its own", async ({ page }) => {
      await leverBox(page, "Section width").fill("9 in");
      await leverBox(page, "Section width").press("Enter");
      const hatches = await page.locator(".round-legend, .legend").first().evaluate((legend) =>
        ["hits", "tight", "clears"].map((verdict) => {
          const line = legend.querySelector(`.${verdict}`);
          const { backgroundImage, borderStyle } = getComputedStyle(line.querySelector(".swatch"));
          return { verdict, says: line.textContent.includes(verdict), backgroundImage, borderStyle };
        }),
      );
      for (const { verdict, says, backgroundImage, borderStyle } of hatches) {
        expect(says, verdict).toBe(true);
        expect(backgroundImage, verdict).toContain("gradient");
        expect(borderStyle, verdict).toBe("solid");
      }
      expect(new Set(hatches.map(({ backgroundImage }) => backgroundImage)).size).toBe(3);
    });

    test("lines of the drawing stand out from the sheet", async ({ page }) => {
      const sheet = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
      for (const role of ["cut", "tire", "overlap", "flange", "arrow"]) {
        const shape = page.locator(`.picture .scene .${role}`).first();
        const [stroke, fill] = await shape.evaluate((it) => [getComputedStyle(it).stroke, getComputedStyle(it).fill]);
        // WCAG 2.2, 1.4.11: graphics, 3 to 1.
        expect(contrast(stroke === "none" ? fill : stroke, sheet), role).toBeGreaterThanOrEqual(3);
      }
      const words = page.locator(".picture .scene text").first();
      expect(contrast(await words.evaluate((it) => getComputedStyle(it).fill), sheet)).toBeGreaterThanOrEqual(4.5);
      // The overlap is hatched, not only colored.
      expect(await page.locator(".picture .scene .overlap").first().getAttribute("d")).toMatch(/M.+M/);
    });

    test("what is pressed and typed into keeps a border, a chosen side and the focus are seen", async ({ page }) => {
      const bare = await page.evaluate(() =>
        [...document.querySelectorAll('button:not(.surface, .car-button, .car), input[type="text"], select')]
          .filter((element) => element.checkVisibility())
          .filter((element) => ["none", "hidden"].includes(getComputedStyle(element).borderStyle))
          .map((element) => element.outerHTML.slice(0, 80)),
      );
      expect(bare).toEqual([]);
      const [chosen, other] = await page.locator(".view .shown").evaluate((group) =>
        [":checked + span", ":not(:checked) + span"].map((which) => getComputedStyle(group.querySelector(`input${which}`)).backgroundColor),
      );
      expect(contrast(chosen, other)).toBeGreaterThanOrEqual(3);
      for (let presses = 0; presses < 40; presses += 1) {
        await page.keyboard.press("Tab");
        const here = await stop(page);
        expect(here?.faults, here?.name).toEqual([]);
      }
    });
  });
}
