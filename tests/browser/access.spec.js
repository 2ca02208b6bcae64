// What axe can see of WCAG 2.2 AA: every page, and the states of the Bench that no other test opens.
import { expect, test } from "./fixture.js";
import { chooseCar, lever, leverBox, openBench, openPanel } from "./bench.js";
import { expectAccessible } from "./look.js";
import { openPage, pages, unfold } from "./reach.js";

const fill = async (box, text) => {
  await box.fill(text);
  await box.press("Enter");
};

const states = {
  "both sides": (page) => page.getByRole("radio", { name: "Both" }).check(),
  "a car that clears": async (page) => {
    await fill(leverBox(page, "Seam move"), "3 in");
    await fill(leverBox(page, "Bump travel"), "1 in");
    await fill(leverBox(page, "Section width"), "9 in");
    await expect(page.locator(".verdict.clears").first()).toBeVisible();
  },
  "a car that is tight": async (page) => {
    await fill(leverBox(page, "Seam move"), "3 in");
    await fill(leverBox(page, "Bump travel"), "1 in");
    let width = 9;
    await expect(async () => {
      width += 0.25;
      await fill(leverBox(page, "Section width"), `${width} in`);
      await expect(page.locator(".view .verdict.tight")).toBeVisible({ timeout: 1000 });
    }).toPass({ timeout: 60_000 });
  },
  "the section swung": (page) => page.locator("#section").fill("-35"),
  "an empty box": (page) => fill(leverBox(page, "Backspacing"), ""),
  "a flaw in the stations": async (page) => {
    await openPanel(page, "Wheelhouse stations");
    await page.locator(".side-stations > summary").first().click();
    await page.getByRole("button", { name: "Edit these stations" }).first().click();
    const cell = page.locator('.stations tbody input[type="text"]').first();
    await fill(cell, "no length");
    await expect(page.locator(".flaws").first()).toBeVisible();
  },
  "a link that is refused": async (page) => {
    await page.evaluate(() => (location.hash = "#bench&car=1nothing"));
    await expect(page.getByRole("dialog", { name: /The car of the link.*was not opened/ })).toBeVisible();
  },
  "every panel open": unfold,
  "the wheel on its way on": async (page) => {
    await chooseCar(page, /Fastback/);
    await page.locator("#feed-title").scrollIntoViewIfNeeded();
    await expect(page.getByRole("slider", { name: "The way on" })).toBeVisible({ timeout: 30_000 });
  },
  "printed": (page) => page.emulateMedia({ media: "print" }),
};

for (const [name, reach] of Object.entries(states)) {
  test(`the Bench, ${name}`, async ({ page, isMobile }) => {
    test.slow();
    if (isMobile) await page.setViewportSize({ width: 320, height: 640 });
    await openBench(page);
    await reach(page);
    await expectAccessible(page);
  });
}

for (const address of pages) {
  test(`${address}, unfolded`, async ({ page, isMobile }) => {
    test.slow();
    if (isMobile) await page.setViewportSize({ width: 320, height: 640 });
    await openPage(page, address);
    await unfold(page);
    await expectAccessible(page);
  });
}

for (const figure of ["#bench&figure=rear", "#write-up&figure=seam", "#write-up&figure=seam&colors=dark"]) {
  test(`one figure in another page: ${figure}`, async ({ page }) => {
    await page.goto(figure);
    await expect(page.getByRole("img")).toBeVisible();
    await expectAccessible(page);
  });
}

test("every place to take hold of in the picture is 44 px wide, and none lies on another", async ({ page, isMobile }) => {
  if (isMobile) await page.setViewportSize({ width: 320, height: 640 });
  await openBench(page);
  const check = async (state) => {
    const boxes = await Promise.all((await page.locator(".picture .handle").all()).map((handle) => handle.boundingBox()));
    expect(boxes.length).toBeGreaterThan(2);
    for (const [index, one] of boxes.entries()) {
      // The browser lays out in 1/64 of a pixel.
      expect(Math.min(one.width, one.height), state).toBeGreaterThan(44 - 1 / 64);
      for (const other of boxes.slice(index + 1)) {
        const away = Math.max(Math.abs(one.x - other.x), Math.abs(one.y - other.y));
        expect(away, `${state}: ${JSON.stringify([one, other])}`).toBeGreaterThan(44 - 0.2);
      }
    }
  };
  await check("at ride height");
  for (const side of ["Right", "Both", "Left"]) {
    await page.getByRole("radio", { name: side }).check();
    for (const end of ["End", "Home"]) {
      await page.locator("#heave").press(end);
      await check(`${side}, ${end}`);
    }
  }
  const width = lever(page, "Section width");
  for (const end of ["End", "Home"]) {
    await width.press(end);
    await check(`width, ${end}`);
  }
});
