// The page arrives: it mounts, from any path, and is light enough to wait for.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { expect, test } from "./fixture.js";
import { expectAccessible, shoot } from "./look.js";
import { dist } from "./site.js";

test("the page loads and mounts", async ({ page }) => {
  await page.goto("");
  await expect(page).toHaveTitle(/Lip to Rail/);
  await expect(page.getByRole("main")).toBeVisible();
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await shoot(page, "first");
});

test("the first look is accessible", async ({ page }) => {
  await page.goto("");
  await expect(page.getByRole("main")).toBeVisible();
  await expectAccessible(page);
});

// A browser under test never shows `noscript`; what it says can still be read.
test("without JavaScript the page says what it is", async ({ page }) => {
  await page.goto("");
  expect(await page.locator("noscript").innerHTML()).toMatch(/Lip to Rail.*JavaScript/s);
});

// The design asks for 300 kB; it was 712 kB when this was set.
const HEAVIEST = 720_000;

/** Every file in a folder of the page, and how many bytes each takes compressed. */
function weights(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((file) => [file, brotliCompressSync(readFileSync(file)).length]);
}

// A browser loads the module with vector instructions or the one without, never both.
test("everything the page loads is light, compressed", () => {
  const plain = join(dist, "plain");
  const sum = (files) => files.reduce((total, [, bytes]) => total + bytes, 0);
  const shared = weights(dist).filter(([file]) => !file.startsWith(plain) && !/\/app[^/]*$/.test(file));
  const modules = weights(dist).filter(([file]) => /\/app[^/]*$/.test(file) && !file.startsWith(plain));
  const heavier = Math.max(sum(modules), sum(weights(plain)));
  const bytes = sum(shared) + heavier;
  test.info().annotations.push({ type: "brotli bytes", description: String(bytes) });
  expect(bytes).toBeLessThan(HEAVIEST);
});

test("a browser without vector instructions gets the page without them, and the same numbers", async ({ page }) => {
  const gaps = () => page.getByRole("region", { name: "Gap list" }).innerText();
  await page.goto("");
  await expect(page.getByRole("main")).toBeVisible();
  const withLanes = await gaps();
  await page.addInitScript(() => {
    WebAssembly.validate = () => false;
  });
  const loaded = [];
  page.on("request", (request) => loaded.push(new URL(request.url()).pathname));
  await page.reload();
  await expect(page.getByRole("main")).toBeVisible();
  expect(loaded.filter((path) => path.endsWith("plain/app_bg.wasm"))).toHaveLength(1);
  expect(await gaps()).toBe(withLanes);
});
