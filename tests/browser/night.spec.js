// Firefox on a narrow screen, for a visitor who asked for dark colors and less motion. There it is the browser that is
// set so, not the driver: see playwright.config.js.
import { expectPoses, openBench } from "./bench.js";
import { expect, test } from "./fixture.js";
import { violationsOf } from "./look.js";
import { openPage, pages, tooWide } from "./reach.js";

for (const address of pages) {
  test(`${address} is dark, fits, and axe finds nothing`, async ({ page }) => {
    await openPage(page, address);
    // How light what is behind the text is, from 0 to 255.
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor.match(/\d+/g).map(Number));
    expect(Math.max(...ground.slice(0, 3))).toBeLessThan(128);
    expect(await tooWide(page)).toEqual([]);
    expect(await violationsOf(page)).toEqual([]);
  });
}

test("playing shows poses, not a ride", async ({ page }) => {
  await openBench(page);
  await expectPoses(page);
});
