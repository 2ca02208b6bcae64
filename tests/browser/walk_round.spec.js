// The owner's page: what is told follows the car and the levers, playing changes nothing, the shop is kept, and it prints.
import { expect, test } from "./fixture.js";
import { chooseCar } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";
import { levelLines } from "./pdf.js";

const panel = (page, name) => page.getByRole("region", { name, exact: true });
const caption = (page, name) => panel(page, name).locator("figcaption");
const lever = (page, name, label) => panel(page, name).getByRole("slider", { name: label, exact: true });

// Two cars' answers between frames, on a machine that does other things besides.
test.describe.configure({ timeout: 300_000 });

/** Opens the page of an invented car and waits until its course is worked out. */
async function openWalk(page, name = /^Coupe/) {
  await page.goto("#walk-round");
  await chooseCar(page, name);
  await told(page);
}

async function told(page) {
  // Between frames of a busy machine the answers take their time.
  await expect(page.locator(".walk-round")).not.toContainText("being worked out", { timeout: 120_000 });
}

test("the coupe's owner reads why it is cut, with the numbers of the gap list", async ({ page }) => {
  await openWalk(page);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Walk-round: Coupe/);
  await expect(page.locator(".in-short")).toHaveText(/does not fit because the tub wall on both sides is in its way, and nothing short of cutting/);
  await expect(panel(page, "What else was tried").getByRole("listitem")).toHaveCount(5);
  await expect(panel(page, "What we will change")).toContainText("set inboard by 1 1/2 in on both sides");
  await expect(panel(page, "What that means")).toContainText("geometry, not approval");
  const words = await panel(page, "What stops it").innerText();
  const overlap = /On the road.*they overlap by (?:up to )?([^.]+)\./.exec(words)[1];
  await page.goto("#bench");
  await expect(page.getByRole("table", { name: "Right side" }).getByRole("row").filter({ hasText: "tub wall" })).toContainText(overlap);
});

test("a plan that is put on the car is told whole, and to its owner by a link", async ({ page, browser }) => {
  await openWalk(page);
  const changes = () => panel(page, "What we will change").getByRole("listitem").allInnerTexts();
  const others = () => panel(page, "What else was tried").getByRole("listitem").allInnerTexts();
  const proposed = [await changes(), await others()];
  expect(proposed[0].length).toBe(3);
  await expect(panel(page, "What we will change")).toContainText("This is a proposal");
  await page.goto("#bench");
  // What would make it fit is worked out once it is looked at.
  await panel(page, "What would make it fit").scrollIntoViewIfNeeded();
  const tried = page.getByRole("button", { name: "Try it: the mix" });
  await tried.click({ timeout: 120_000 });
  await page.goto("#walk-round");
  await told(page);
  await expect(panel(page, "What we will change")).not.toContainText("This is a proposal");
  expect([await changes(), await others()]).toEqual(proposed);
  await page.goto("#sheets/order");
  await expect(page.getByRole("region", { name: /^Page / }).getByText("Bump travel, before")).toBeVisible();
  await page.goto("#take-away");
  const link = await page.getByRole("textbox", { name: /for the car's owner/ }).inputValue();
  const context = await browser.newContext({ viewport: page.viewportSize() });
  const there = await context.newPage();
  await there.goto(link);
  await told(there);
  expect(await panel(there, "What we will change").getByRole("listitem").allInnerTexts()).toEqual(proposed[0]);
  await context.close();
});

test("nobody is told to cut who need not, and where cutting will not do it is said", async ({ page }) => {
  await openWalk(page, /^Fastback/);
  await expect(page.locator(".in-short")).toContainText("nothing has to be cut");
  await expect(panel(page, "What that means")).toContainText("No metal, no welding.");
  await openWalk(page, /^Sedan/);
  await expect(panel(page, "What would have to change")).toContainText("Moving the tub will not do, so we would not cut it");
});

test("a lever moves picture and sentence, and nothing on the car", async ({ page }) => {
  await openWalk(page);
  const name = "What we will change";
  const before = await caption(page, name).innerText();
  const drawn = await panel(page, name).locator("svg").innerHTML();
  await lever(page, name, "Tub set inboard").focus();
  await page.keyboard.press("Home");
  await expect(caption(page, name)).toHaveText(/The tire hits the/);
  expect(await panel(page, name).locator("svg").innerHTML()).not.toBe(drawn);
  await expect(page.locator(".strip .steps button").first()).toHaveAttribute("aria-disabled", "true");
  await panel(page, name).getByRole("button", { name: "Put back" }).click();
  await expect(caption(page, name)).toHaveText(before);
});

test("the bump plays, and is held pose by pose where less motion is asked for", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  await openWalk(page);
  const stops = panel(page, "What stops it");
  await stops.getByRole("button", { name: "Play travel" }).click();
  await expect(caption(page, "What stops it")).toHaveText(/With both wheels 3\sin up, tire and right tub wall: they overlap by/);
  await stops.getByRole("button", { name: "Pause" }).click();
  // It begins, and ends, where the metal is most in the way.
  await stops.getByRole("button", { name: "Put back" }).click();
  await expect(caption(page, "What stops it")).toHaveText(/With left wheel .+ down, right wheel .+ up, .*tire and right tub wall: they overlap by 1\s3\/4\sin/);
});

test("the shop's name, notes and photo are kept and never become markup", async ({ page }) => {
  await openWalk(page);
  await page.getByText("For the shop: name, notes and photo").click();
  await page.getByLabel("Shop", { exact: true }).fill("<b>Bay</b> 7");
  await page.getByLabel("Notes for the owner").fill("Call first.\nThen come.");
  await page.getByLabel("Notes for the owner").blur();
  const png = await page.evaluate(() => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 2400, height: 1600 });
    canvas.getContext("2d").fillRect(0, 0, 1200, 800);
    return canvas.toDataURL("image/png").split(",")[1];
  });
  await page.getByLabel("Photo", { exact: true }).setInputFiles({ name: "car.png", mimeType: "image/png", buffer: Buffer.from(png, "base64") });
  const photo = page.getByRole("img", { name: "The shop's photo" });
  await expect(photo).toBeVisible();
  expect(await photo.evaluate((image) => Math.max(image.naturalWidth, image.naturalHeight))).toBe(1200);
  await page.waitForTimeout(500);
  await page.reload();
  await expect(page.locator(".shop-name")).toHaveText("<b>Bay</b> 7");
  await expect(page.locator(".shop-notes")).toHaveText("Call first.\nThen come.");
  await expect(photo).toBeVisible();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  const stream = await (await download).createReadStream();
  const text = (await stream.toArray()).join("");
  expect(text).toContain('[shop]\nname = "<b>Bay</b> 7"');
  expect(text).not.toContain("data:image");
});

test("a file that is no picture is refused in words", async ({ page }) => {
  await openWalk(page);
  await page.getByText("For the shop: name, notes and photo").click();
  await page.getByLabel("Photo", { exact: true }).setInputFiles({ name: "car.png", mimeType: "image/png", buffer: Buffer.from("no picture") });
  await expect(page.locator(".told")).toContainText("The photo was not taken");
});

test("the page is accessible and fits a narrow phone", async ({ page }) => {
  await openWalk(page);
  await shoot(page, "walk-round");
  await expectAccessible(page);
  await page.setViewportSize({ width: 320, height: 640 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
});

test("it prints to one or two pages", async ({ page }, info) => {
  test.skip(info.project.name === "phone", "paper has one width");
  for (const name of [/^Coupe/, /^Sedan/]) {
    await openWalk(page, name);
    for (const format of ["Letter", "A4"]) {
      const pdf = await page.pdf({ format, path: info.outputPath(`walk-${format}.pdf`) });
      expect(levelLines(pdf).pages, `${name} on ${format}`).toBeLessThanOrEqual(2);
    }
  }
});
