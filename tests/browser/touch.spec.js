// By finger: a handle is dragged and the page stays, a swipe beside it scrolls, two fingers enlarge; and nothing moves
// by itself for who asked for less motion.
import { expect, test } from "./fixture.js";
import { lever, leverBox, middle, openBench, type } from "./bench.js";
import { openPage, pages, unfold } from "./reach.js";

/** Fingers on the glass, as the browser's own protocol moves them. */
async function glass(page) {
  const session = await page.context().newCDPSession(page);
  const touch = (type, points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  return {
    async drag(from, to, steps = 8) {
      await touch("touchStart", [from]);
      for (let step = 1; step <= steps; step += 1) {
        const share = step / steps;
        await touch("touchMove", [{ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }]);
      }
      await touch("touchEnd", []);
    },
    pinch: (x, y, scaleFactor) => session.send("Input.synthesizePinchGesture", { x, y, scaleFactor, relativeSpeed: 400 }),
  };
}

test.describe("by finger", () => {
  test.skip(({ isMobile }) => !isMobile, "a desk has no glass");

  test("a dragged handle moves its lever, and the page stays where it is", async ({ page }) => {
    await openBench(page);
    const fingers = await glass(page);
    const handle = page.getByRole("slider", { name: "Backspacing, left side" });
    const from = await middle(handle);
    const [before, top] = [await handle.getAttribute("aria-valuenow"), await page.evaluate(() => scrollY)];
    await fingers.drag(from, { x: from.x - 60, y: from.y - 12 });
    await expect(handle).not.toHaveAttribute("aria-valuenow", before);
    await expect(lever(page, "Backspacing")).toHaveAttribute("aria-valuetext", await handle.getAttribute("aria-valuetext"));
    expect(await page.evaluate(() => scrollY)).toBe(top);
  });

  test("a swipe up that begins on a handle scrolls the page, and changes nothing", async ({ page }) => {
    await openBench(page);
    const fingers = await glass(page);
    const handle = page.getByRole("slider", { name: "Backspacing, left side" });
    const before = await handle.getAttribute("aria-valuenow");
    const from = await middle(handle);
    await fingers.drag(from, { x: from.x - 20, y: from.y - 200 });
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(50);
    await expect(handle).toHaveAttribute("aria-valuenow", before);
    await expect(page.locator(".strip .steps button").first()).toHaveAttribute("aria-disabled", "true");
  });

  test("a swipe up that begins on a slider scrolls the page, and leaves the slider where it was", async ({ page }) => {
    await openBench(page);
    // Beside the marks: what is put back is the value, not the mark next to it.
    await type(page, "Backspacing", "5.53 in");
    const shown = await leverBox(page, "Backspacing").inputValue();
    const link = async () => {
      await page.goto("#take-away");
      const text = await page.getByRole("textbox", { name: "Link", exact: true }).inputValue();
      await page.goto("#bench");
      return text;
    };
    const kept = await link();
    const fingers = await glass(page);
    const slider = lever(page, "Backspacing");
    const { x, y, width, height } = await middle(slider).then(() => slider.boundingBox());
    const top = await page.evaluate(() => scrollY);
    const from = { x: x + width * 0.8, y: y + height / 2 };
    await fingers.drag(from, { x: from.x - 20, y: from.y - 200 });
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(top + 50);
    await expect(leverBox(page, "Backspacing")).toHaveValue(shown);
    expect(await link()).toBe(kept);
    // And a finger that pulls it along still moves it.
    const now = await middle(slider).then(() => slider.boundingBox());
    await fingers.drag({ x: now.x + now.width * 0.5, y: now.y + now.height / 2 }, { x: now.x + now.width * 0.8, y: now.y + now.height / 2 });
    await expect(leverBox(page, "Backspacing")).not.toHaveValue(shown);
  });

  test("a swipe on the picture, beside the handles, scrolls the page", async ({ page }) => {
    await openBench(page);
    const fingers = await glass(page);
    const picture = await page.locator(".picture .sheet").boundingBox();
    const boxes = await Promise.all((await page.locator(".picture .handle").all()).map((handle) => handle.boundingBox()));
    const isFree = ({ x, y }) => boxes.every((box) => x < box.x || x > box.x + box.width || y < box.y || y > box.y + box.height);
    const spots = [0.1, 0.3, 0.5, 0.7, 0.9].flatMap((x) => [0.6, 0.8, 0.95].map((y) => ({ x: picture.x + picture.width * x, y: picture.y + picture.height * y })));
    const from = spots.find(isFree);
    await fingers.drag(from, { x: from.x, y: from.y - 200 });
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(50);
  });

  test("two fingers enlarge the page", async ({ page }) => {
    await openBench(page);
    const fingers = await glass(page);
    const { x, y } = await middle(page.locator(".scrubber"));
    await fingers.pinch(x, y, 2);
    await expect.poll(() => page.evaluate(() => visualViewport.scale)).toBeGreaterThan(1.5);
  });
});

test.describe("with less motion", () => {
  test.skip(({ isMobile }) => isMobile, "it is the same for all screens");

  for (const address of pages) {
    test(`nothing on ${address} moves by itself`, async ({ page }) => {
      await page.emulateMedia({ reducedMotion: "reduce" });
      await openPage(page, address);
      await unfold(page);
      const moving = await page.evaluate(() => {
        const found = document.getAnimations().map((animation) => animation.constructor.name);
        for (const element of document.querySelectorAll("*")) {
          for (const part of [undefined, "::before", "::after"]) {
            const { animationName, transitionDuration, scrollBehavior } = getComputedStyle(element, part);
            const isStill = animationName === "none" && transitionDuration.split(", ").every((time) => time === "0s") && scrollBehavior === "auto";
            if (!isStill) found.push(`${element.tagName} ${element.className}: ${animationName} ${transitionDuration} ${scrollBehavior}`);
          }
        }
        return found;
      });
      expect(moving).toEqual([]);
    });
  }
});
