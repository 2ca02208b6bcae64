// Passing it on: a car in a link, what can be taken away, the page without its network, as one file from a disk, and when a newer version comes.
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "./fixture.js";
import { gapList, leverBox, openBench } from "./bench.js";
import { expectAccessible, shoot } from "./look.js";
import { dist, singleFile, startSite } from "./site.js";

async function changeBackspacing(page) {
  const box = leverBox(page, "Backspacing");
  await box.fill("6 1/4");
  await box.press("Enter");
  await box.blur();
}

/** Waits until the page is kept for when there is no network. */
async function kept(page) {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
}

const carButton = (page) => page.locator(".car-button");

async function takeAway(page) {
  await page.getByRole("link", { name: "Take away" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Take away: /);
}

/** The link to the car that is open. */
async function linkOf(page) {
  await takeAway(page);
  return page.getByRole("textbox", { name: "Link" }).inputValue();
}

/** Opens a link in another profile and tells what its gap list says. */
async function seenThere(browser, page, link) {
  const context = await browser.newContext({ viewport: page.viewportSize() });
  try {
    const there = await context.newPage();
    await there.goto(link);
    await expect(there.locator("#rear-body path").first()).toBeAttached();
    await expect(leverBox(there, "Backspacing")).toHaveValue("6 1/4 in");
    // It is what the visit begins with: there is nothing to go back to.
    await expect(there.locator(".strip .steps button").first()).toHaveAttribute("aria-disabled", "true");
    return await gapList(there);
  } finally {
    await context.close();
  }
}

test("a car goes into a link and shows the same numbers in another profile and in the single file", async ({ page, browser }) => {
  await openBench(page);
  await changeBackspacing(page);
  const gaps = await gapList(page);
  const link = await linkOf(page);
  expect(link.length).toBeLessThan(200);
  expect(await seenThere(browser, page, link)).toBe(gaps);
  const alone = pathToFileURL(singleFile).href + new URL(link).hash;
  expect(await seenThere(browser, page, alone)).toBe(gaps);
});

test("the address follows the car, and going back is not going back to an older car", async ({ page }) => {
  await openBench(page);
  await changeBackspacing(page);
  await expect.poll(() => new URL(page.url()).hash).toMatch(/^#bench&car=1/);
  await takeAway(page);
  await page.getByRole("link", { name: "Bench" }).click();
  const box = leverBox(page, "Backspacing");
  const before = new URL(page.url()).hash;
  await box.fill("5");
  await box.press("Enter");
  await expect.poll(() => new URL(page.url()).hash).not.toBe(before);
  await page.goBack();
  await page.goBack();
  await expect(box).toHaveValue("5 in");
  await page.reload();
  await expect(leverBox(page, "Backspacing")).toHaveValue("5 in");
  await expect(page.getByRole("button", { name: "Undo: Backspacing" })).toBeVisible();
});

test("a link's car is one step, and what was open is kept", async ({ page, browser, baseURL }) => {
  const context = await browser.newContext();
  const other = await context.newPage();
  await other.goto(baseURL);
  await other.locator(".car-button").click();
  await other.getByRole("button", { name: /^Fastback/ }).click();
  const link = await linkOf(other);
  await context.close();
  await openBench(page);
  await changeBackspacing(page);
  await page.goto(link);
  await expect(carButton(page)).toContainText("Fastback");
  await page.getByRole("button", { name: /^Undo: Open/ }).click();
  await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
  await page.getByRole("button", { name: /^Redo: Open/ }).click();
  await carButton(page).click();
  await expect(page.getByRole("button", { name: /as you changed it/ })).toBeVisible();
});

for (const [what, token, says] of [
  ["damaged", "1J4wFRxtNqCQnVLPRZEr3ZAo", "characters are missing or changed"],
  ["too new", "2J4wFRxtNqCQnVLPRZEr3ZAoA", "newer Lip to Rail"],
  ["empty", "", "holds no car"],
]) {
  test(`a link that is ${what} says so and changes nothing`, async ({ page }) => {
    await openBench(page);
    await changeBackspacing(page);
    await expect.poll(() => new URL(page.url()).hash).toMatch(/car=1/);
    await page.evaluate((token) => (location.hash = `#bench&car=${token}`), token);
    const dialog = page.getByRole("dialog", { name: /The car of the link.*was not opened/ });
    await expect(dialog).toContainText(says);
    await dialog.getByRole("button", { name: "Close" }).click();
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
    expect(new URL(page.url()).hash).toBe(`#bench&car=${token}`);
  });
}

test("the take-away page is accessible and fits", async ({ page }) => {
  await openBench(page);
  await takeAway(page);
  await page.locator(".preview").scrollIntoViewIfNeeded();
  await expect(page.locator(".preview img")).toHaveAttribute("src", /^data:image\/svg/);
  await expectAccessible(page);
  for (const width of [320, 390, 1280]) {
    await page.setViewportSize({ width, height: 844 });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide, `${width} pixels`).toBeLessThanOrEqual(width);
  }
  await shoot(page, "take-away");
});

test("a post is copied, or selected where the browser refuses", async ({ page, context }) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await openBench(page);
  await takeAway(page);
  await page.getByRole("radio", { name: "Markdown" }).check();
  const post = page.getByRole("textbox", { name: "Post" });
  await expect(post).toHaveValue(/^\*\*Coupe.*\*\*/);
  await page.getByRole("button", { name: "Copy post" }).click();
  await expect(page.getByText("Copied.", { exact: true })).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(await post.inputValue());
  await page.evaluate(() => {
    navigator.clipboard.writeText = () => Promise.reject(new Error("no"));
  });
  await page.getByRole("button", { name: "Copy post" }).click();
  await expect(page.getByText("copy it by hand")).toBeVisible();
  const selected = await post.evaluate((area) => area.value.slice(area.selectionStart, area.selectionEnd));
  expect(selected).toBe(await post.inputValue());
});

test("pictures, the gap list and the car file are saved", async ({ page }) => {
  await openBench(page);
  await takeAway(page);
  const saved = async (button) => {
    const arrives = page.waitForEvent("download");
    await page.getByRole("button", { name: button }).click();
    const file = await arrives;
    return { name: file.suggestedFilename(), content: await readFile(await file.path()) };
  };
  for (const [picture, word] of [
    ["From behind", "rear"],
    ["From the side", "side"],
    ["Wheelhouse, unrolled", "map"],
    ["Gaps through travel", "travel"],
  ]) {
    await page.getByLabel("Picture", { exact: true }).selectOption(picture);
    await page.getByLabel("On paper").selectOption("Dark");
    await page.locator(".preview").scrollIntoViewIfNeeded();
    await expect(page.locator(".preview:not(.is-stale) img")).toHaveAttribute("src", new RegExp(`scene%20${word}`));
    const svg = await saved("Save as SVG");
    expect(svg.name).toMatch(new RegExp(`^coupe.*-${word}\\.svg$`));
    expect(svg.content.toString()).not.toMatch(/var\(|light-dark\(|prefers-color-scheme|<script/);
  }
  await page.getByLabel("Width, pixels").fill("640");
  await page.getByLabel("Width, pixels").press("Enter");
  await expect(page.locator(".preview:not(.is-stale) img")).toHaveAttribute("src", /width%3D%22640%22/);
  const png = await saved("Save as PNG");
  expect(png.name).toMatch(/\.png$/);
  expect(png.content.subarray(1, 4).toString()).toBe("PNG");
  // The header's width, PNG specification, 11.2.2.
  expect(png.content.readUInt32BE(16)).toBe(640);
  const gaps = await saved("Save the gap list");
  expect(gaps.name).toMatch(/-gaps\.csv$/);
  expect(gaps.content.toString()).toMatch(/^side,surface,.*\r\nleft,/);
  const car = await saved("Save the car file");
  expect(car.content.toString()).toContain("[tire]");
});

test("a figure stands alone in another page, as high as it needs to be, and keeps nothing", async ({ page, browser, site }) => {
  await openBench(page);
  await changeBackspacing(page);
  const finding = await page.locator("p.verdict").first().innerText();
  await takeAway(page);
  const snippet = await page.getByRole("textbox", { name: "Snippet" }).inputValue();
  const context = await browser.newContext();
  const around = await context.newPage();
  await around.route(`${site}around.html`, (route) =>
    route.fulfill({ contentType: "text/html", body: `<!DOCTYPE html><body style="width: 700px">${snippet}</body>` }),
  );
  await around.goto(`${site}around.html`);
  const frame = around.frameLocator("iframe");
  await expect(frame.getByRole("img", { name: /Rear view/ })).toBeVisible();
  await expect(frame.getByText(finding)).toBeVisible();
  await expect(frame.getByRole("link", { name: "Open it in Lip to Rail" })).toHaveAttribute("href", /#bench&car=1/);
  await expect(around.locator("iframe")).not.toHaveAttribute("height", "600");
  const [room, needed] = await Promise.all([
    around.locator("iframe").evaluate((it) => it.clientHeight),
    frame.locator("main").evaluate((it) => it.getBoundingClientRect().height),
  ]);
  expect(Math.abs(room - needed)).toBeLessThanOrEqual(1);
  expect(await around.evaluate(() => localStorage.length)).toBe(0);
  await context.close();
});

test("on a phone's width a figure alone shows the side it speaks of, and wears the colors it was asked for", async ({ page }) => {
  const picture = page.getByRole("img");
  await page.setViewportSize({ width: 700, height: 700 });
  await page.goto("#bench&figure=rear&colors=dark");
  const drawn = async () => decodeURIComponent(await picture.getAttribute("src"));
  const across = async () => Number(/viewBox="\S+ \S+ (\S+) /.exec(await drawn())?.[1]);
  await expect.poll(across).toBeGreaterThan(0);
  const both = await across();
  expect(await drawn()).not.toContain("prefers-color-scheme");
  await expect(page.locator("html")).toHaveAttribute("data-theme", "dark");
  await page.setViewportSize({ width: 360, height: 700 });
  await expect.poll(across).toBeLessThan(both * 0.6);
  expect(await drawn()).toMatch(/>tub wall[^<]*<[^]*>hits by /);
});

test("after one visit the page works without a network, with the same numbers", async ({ page, context }) => {
  await openBench(page);
  await changeBackspacing(page);
  const gaps = await gapList(page);
  await kept(page);
  await context.setOffline(true);
  await page.reload();
  await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
  expect(await gapList(page)).toBe(gaps);
});

test("the page can be installed", async ({ page }) => {
  await page.goto("");
  const manifest = await page.evaluate(async () => {
    const link = document.querySelector("link[rel=manifest]");
    return (await fetch(link.href)).json();
  });
  expect(manifest.name).toBe("Lip to Rail");
  for (const { src } of manifest.icons) expect(existsSync(join(dist, src))).toBe(true);
});

/** The site one version on: another `index.html`, and a worker that knows its digest. */
async function nextVersion() {
  const index = await readFile(join(dist, "index.html"), "utf8");
  const digest = (text) => `sha256-${createHash("sha256").update(text).digest("base64")}`;
  const next = index.replace("<body>", "<body data-version=\"next\">");
  const worker = await readFile(join(dist, "worker.js"), "utf8");
  expect(worker).toContain(digest(index));
  return new Map([
    ["index.html", next],
    ["worker.js", worker.replace(digest(index), digest(next)).replace(/VERSION = ".*"/, 'VERSION = "next"')],
  ]);
}

/** A site whose files can be changed, and a visitor of it. */
async function changingSite(browser, use) {
  const versions = new Map();
  const site = await startSite(versions);
  const context = await browser.newContext();
  const page = await context.newPage();
  try {
    await page.goto(site.address);
    await expect(page.getByRole("main")).toBeVisible();
    await kept(page);
    await use({ page, context, versions, address: site.address });
  } finally {
    await context.close();
    site.stop();
  }
}

test("a newer version waits until it is asked for, and the work is kept", async ({ browser }) => {
  await changingSite(browser, async ({ page, context, versions, address }) => {
    await changeBackspacing(page);
    for (const [name, text] of await nextVersion()) versions.set(name, text);
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    const offer = page.getByRole("button", { name: "Load it now" });
    await expect(offer).toBeVisible();
    expect(await page.locator("body").getAttribute("data-version")).toBeNull();
    // Another tab opened meanwhile still gets the version that is in use.
    const other = await context.newPage();
    await other.goto(address);
    await expect(other.getByRole("main")).toBeVisible();
    expect(await other.locator("body").getAttribute("data-version")).toBeNull();
    await other.close();
    await offer.click();
    await expect(page.locator("body")).toHaveAttribute("data-version", "next");
    await expect(leverBox(page, "Backspacing")).toHaveValue("6 1/4 in");
  });
});

test("an upload that is half done does not spoil the page that is kept", async ({ browser }) => {
  await changingSite(browser, async ({ page, context, versions }) => {
    // The worker of the next version has arrived, its page has not.
    versions.set("worker.js", (await nextVersion()).get("worker.js"));
    const update = page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      const failed = new Promise((resolve) => {
        registration.addEventListener("updatefound", () => {
          const { installing } = registration;
          installing.addEventListener("statechange", () => resolve(installing.state));
        });
      });
      await registration.update();
      return failed;
    });
    expect(await update).toBe("redundant");
    await context.setOffline(true);
    await page.reload();
    await expect(page.getByRole("main")).toBeVisible();
  });
});

test("one file from a disk shows the same numbers, and fetches nothing", async ({ page, browser }) => {
  await openBench(page);
  await changeBackspacing(page);
  const gaps = await gapList(page);
  const context = await browser.newContext({ viewport: page.viewportSize() });
  const alone = await context.newPage();
  const faults = [];
  alone.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  alone.on("pageerror", (error) => faults.push(String(error)));
  alone.on("request", (request) => {
    if (!/^(file|data|blob):/.test(request.url())) faults.push(request.url());
  });
  await alone.goto(pathToFileURL(singleFile).href);
  await expect(alone.getByRole("main")).toBeVisible();
  const right = alone.getByRole("radio", { name: "Right" });
  if (await right.isChecked()) await alone.getByRole("radio", { name: "Left" }).check();
  await changeBackspacing(alone);
  await expect(leverBox(alone, "Backspacing")).toHaveValue("6 1/4 in");
  expect(await gapList(alone)).toBe(gaps);
  // It is there again after a reload, as on a host.
  await alone.waitForTimeout(500);
  await alone.reload();
  await expect(leverBox(alone, "Backspacing")).toHaveValue("6 1/4 in");
  expect(faults).toEqual([]);
  await context.close();
});
