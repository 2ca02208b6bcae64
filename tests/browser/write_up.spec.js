// The club's page: numbers in the sentences follow the figures, and what is not seen does no work.
import { expect, test } from "./fixture.js";
import { expectAccessible, shoot } from "./look.js";

const chapter = (page, name) => page.getByRole("region", { name, exact: true });
const lever = (page, name) => chapter(page, name).getByRole("slider");

const CHAPTERS = [
  "What stands in the way",
  "Measure before you believe anything",
  "Backspacing first",
  "Why travel matters",
  "What moving the seam buys",
  "Cutting and welding, with care",
  "Will it go on?",
  "Before it goes on the road",
];

/** Opens the page as a reader would, and waits for its first figure. */
async function openWriteUp(page, fragment = "#write-up") {
  await page.goto(fragment);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("More tire than the car was built for");
}

/** Goes to a chapter and waits until its figure is drawn. */
async function read(page, name) {
  await chapter(page, name).scrollIntoViewIfNeeded();
  await lever(page, name).scrollIntoViewIfNeeded();
  // The way on of the wheel is searched between frames; on a busy machine it takes its time.
  await expect(chapter(page, name)).not.toContainText(/being (worked out|searched)/, { timeout: 40_000 });
}

test("every chapter's numbers follow its lever", async ({ page }) => {
  test.setTimeout(180_000);
  await openWriteUp(page);
  for (const name of CHAPTERS) {
    await read(page, name);
    const numbers = () => chapter(page, name).locator(".block b").allInnerTexts();
    const before = await numbers();
    expect(before.length, name).toBeGreaterThan(0);
    expect(before, name).not.toContain("…");
    await lever(page, name).focus();
    await page.keyboard.press(name === "Will it go on?" ? "Home" : "PageUp");
    await expect.poll(numbers, { message: name, timeout: 40_000 }).not.toEqual(before);
    await read(page, name);
    await chapter(page, name).getByRole("button", { name: "Put back" }).click();
    await expect.poll(numbers, { message: name, timeout: 40_000 }).toEqual(before);
  }
});

test("what the text says of a gap is what its picture shows", async ({ page }) => {
  await openWriteUp(page);
  const name = "Why travel matters";
  await read(page, name);
  const [, surface, angle] = await chapter(page, name).locator(".block b").allInnerTexts();
  const picture = chapter(page, name).getByRole("img");
  await expect(picture).toHaveAttribute("aria-label", new RegExp(`section ${angle} straight up: the (left|right) tire hits the ${surface}\\.`));
});

test("a figure below the fold does no work until it is seen", async ({ page }) => {
  await openWriteUp(page);
  await read(page, CHAPTERS[0]);
  const last = chapter(page, CHAPTERS.at(-1));
  await expect(last.locator("svg path")).toHaveCount(0);
  await expect(last.locator(".block b").first()).toHaveText("…");
  await read(page, CHAPTERS.at(-1));
  await expect(last.locator("svg path").first()).toBeAttached();
  await expect(last.locator(".block b").first()).not.toHaveText("…");
});

test("a chapter's figure stands in another page with its lever, in the colors that suit it", async ({ page, browser, site }) => {
  await openWriteUp(page);
  const name = CHAPTERS[4];
  await read(page, name);
  await chapter(page, name).getByText("Put this figure into a page of your own").click();
  await chapter(page, name).getByLabel("Colors").selectOption("Light");
  const snippet = await chapter(page, name).getByRole("textbox", { name: "Snippet" }).inputValue();
  expect(snippet).toContain("#write-up&amp;figure=seam&amp;colors=light");
  const context = await browser.newContext({ colorScheme: "dark" });
  const around = await context.newPage();
  await around.route(`${site}around.html`, (route) =>
    route.fulfill({ contentType: "text/html", body: `<!DOCTYPE html><body style="width: 700px">${snippet}</body>` }),
  );
  await around.goto(`${site}around.html`);
  const frame = around.frameLocator("iframe");
  const slider = frame.getByRole("slider", { name: "Tub set inboard" });
  await expect(frame.locator("figcaption")).toContainText(/The tire/);
  const before = await frame.locator("figcaption").innerText();
  await slider.press("End");
  await expect(frame.locator("figcaption")).not.toHaveText(before);
  await expect(frame.locator("html")).toHaveAttribute("data-theme", "light");
  await expect(frame.getByRole("link", { name: "Read on in Lip to Rail" })).toHaveAttribute("href", /#write-up&at=seam$/);
  await expect(around.locator("iframe")).not.toHaveAttribute("height", "600");
  const room = () => around.locator("iframe").evaluate((it) => it.clientHeight);
  const needed = () => frame.locator("main").evaluate((it) => it.getBoundingClientRect().height);
  await expect.poll(async () => Math.abs((await room()) - (await needed()))).toBeLessThanOrEqual(1);
  expect(await around.evaluate(() => localStorage.length)).toBe(0);
  await context.close();
});

test("a chapter has its own address, and the car on the bench stays as it is", async ({ page }) => {
  await openWriteUp(page, "#write-up&at=seam");
  await expect(page.getByRole("heading", { name: CHAPTERS[4] })).toBeFocused();
  await expect(page.getByRole("heading", { name: CHAPTERS[4] })).toBeInViewport();
  await page.getByRole("link", { name: CHAPTERS[1] }).click();
  await expect(page.getByRole("heading", { name: CHAPTERS[1] })).toBeFocused();
  expect(new URL(page.url()).hash).toBe("#write-up&at=measure");
  await read(page, CHAPTERS[1]);
  await lever(page, CHAPTERS[1]).focus();
  await page.keyboard.press("End");
  await expect(page.locator(".strip .steps button").first()).toHaveAttribute("aria-disabled", "true");
  await chapter(page, CHAPTERS[3]).getByRole("link", { name: "Open it on the Bench" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Bench: Sedan/);
});

test("the page is accessible and fits a narrow phone", async ({ page }) => {
  test.setTimeout(180_000);
  await openWriteUp(page);
  for (const name of CHAPTERS) await read(page, name);
  await shoot(page, "write-up");
  await expectAccessible(page);
  await page.setViewportSize({ width: 320, height: 640 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
});
