// What a stranger posted: texts from files and links stay text on every page, and the page's own policy stops what would
// not.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "./fixture.js";
import { openBench } from "./bench.js";

const scenario = fileURLToPath(new URL("../../scenarios/low-car.toml", import.meta.url));

/** Ends a title, a script and an attribute, and does something once it is taken for markup. */
const hostile = (place) => `</title></script>"'><img src=x onerror=hurt=1><b data-hurt>${place}`;

/** An invented car with a hostile text in every place that a file has for one. */
async function hostileCar() {
  const text = (place) => JSON.stringify(hostile(place));
  const car = (await readFile(scenario, "utf8"))
    .replace(/^name = .*$/m, `name = ${text("name")}`)
    .replace(/^purpose = .*$/m, `purpose = ${text("purpose")}`)
    .replace(/^name = "shock mount"$/m, `name = ${text("no cut")}`)
    .replace(/^\[tire\]$/m, `[shop]\nname = ${text("shop")}\nnotes = ${text("notes")}\n\n[tire]`);
  const part = `[[obstacle]]\nname = ${text("part")}\nside = "left"\nfrom = [0, 450, 300]\nto = [100, 450, 300]\nradius = 20\n`;
  return `${car}\n${part}`;
}

/** Requires that nothing of a hostile text came to life. */
async function expectUnhurt(page) {
  const found = await page.evaluate(() => ({
    hurt: typeof window.hurt,
    elements: document.querySelectorAll("[data-hurt], img[src='x'], [onerror]").length,
  }));
  expect(found).toEqual({ hurt: "undefined", elements: 0 });
}

/** The pages that tell of the reader's car; the Write-up tells of invented ones only. */
const pages = ["Bench", "Sheets", "Walk-round", "Take away"];

test("hostile names from a file stay text on every page", async ({ page }) => {
  await openBench(page);
  await page
    .locator('input[type="file"][aria-label="Car file"]')
    .setInputFiles({ name: `${hostile("file").replaceAll("/", "")}.toml`, mimeType: "text/plain", buffer: Buffer.from(await hostileCar()) });
  await expect(page.locator(".car-name")).toHaveText(hostile("name"));
  for (const name of pages) {
    await page.getByRole("navigation").getByRole("link", { name, exact: true }).click();
    await expect(page.getByRole("link", { name, exact: true })).toHaveAttribute("aria-current", "page");
    await page.evaluate(() => document.querySelectorAll("details").forEach((panel) => (panel.open = true)));
    await expect(page.getByRole("main")).toContainText("</script>");
    await expectUnhurt(page);
  }
  await page.reload();
  await expect(page.locator(".car-name")).toHaveText(hostile("name"));
  await expectUnhurt(page);
});

test("a refused file with a hostile name and hostile content stays text", async ({ page }) => {
  await openBench(page);
  await page
    .locator('input[type="file"][aria-label="Car file"]')
    .setInputFiles({ name: "<img src=x onerror=hurt=1>.toml", mimeType: "text/plain", buffer: Buffer.from(`format = 1\n${hostile("x")} = 3\n`) });
  await expect(page.getByRole("main").or(page.getByRole("alert")).first()).toBeVisible();
  await expect(page.getByText("<img src=x onerror=hurt=1>.toml").first()).toBeVisible();
  await expectUnhurt(page);
});

for (const address of [
  "#car=<img src=x onerror=hurt=1>",
  "#bench&car=%3Cimg%20src%3Dx%20onerror%3Dhurt%3D1%3E",
  "#write-up&at=<script>hurt=1</script>",
  "#javascript:hurt=1",
  "#<img src=x onerror=hurt=1>",
]) {
  test(`a hostile address stays text: ${address}`, async ({ page }) => {
    await page.goto(address);
    await expect(page.getByRole("main")).toBeVisible();
    await expectUnhurt(page);
  });
}

test("the page's policy lets nothing in that is not its own", async ({ browser, site }) => {
  // A page of its own: the policy complains aloud, as it should.
  const context = await browser.newContext();
  const page = await context.newPage();
  const answered = [];
  page.on("response", (response) => answered.push(response.url()));
  await page.goto(site);
  await expect(page.getByRole("main")).toBeVisible();
  const refused = await page.evaluate(async () => {
    const refused = [];
    addEventListener("securitypolicyviolation", (violation) => refused.push(violation.effectiveDirective));
    const script = document.createElement("script");
    script.textContent = "hurt = 1";
    document.body.append(script);
    const image = document.createElement("img");
    image.src = "https://elsewhere.invalid/x.png";
    document.body.append(image);
    const frame = document.createElement("iframe");
    frame.src = "https://elsewhere.invalid/";
    document.body.append(frame);
    document.body.insertAdjacentHTML("beforeend", "<p style='color: red' onclick='hurt = 1'>x</p>");
    document.body.lastElementChild.click();
    await fetch("https://elsewhere.invalid/").catch(() => {});
    // Not at once: a driver's own call may evaluate text.
    setTimeout("hurt = 1", 0);
    await new Promise((resolve) => setTimeout(resolve, 200));
    return refused;
  });
  expect(new Set(refused)).toEqual(
    new Set(["script-src", "script-src-attr", "script-src-elem", "style-src-attr", "img-src", "frame-src", "connect-src"]),
  );
  expect(answered.filter((address) => !address.startsWith(site) && !address.startsWith("data:"))).toEqual([]);
  expect(await page.evaluate(() => typeof window.hurt)).toBe("undefined");
  await context.close();
});
