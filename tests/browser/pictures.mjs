// `npm run pictures`: the README's pictures, of the page in dist/ as its three readers meet it, into tests/pictures.
import { fileURLToPath } from "node:url";
import { chromium } from "@playwright/test";
import config from "./playwright.config.js";
import { chooseCar } from "./bench.js";
import { openPage } from "./reach.js";
import { startSite } from "./site.js";

const pictures = fileURLToPath(new URL("../pictures/", import.meta.url));
const site = await startSite();
const [{ use }] = config.projects;
const browser = await chromium.launch(use.launchOptions);

/** Whether nothing in sight is still worked out: long work begins when its place comes into sight, and is told. */
const isDone = () =>
  [...document.querySelectorAll("main p")].every((line) => {
    const { top, bottom } = line.getBoundingClientRect();
    return top === bottom || top > innerHeight || bottom < 0 || !line.textContent.includes("being worked out");
  });

/** A page, with its heading `at` at the top, or from its own top. */
async function picture(name, address, [width, height], at, reach = async () => {}) {
  const page = await browser.newPage({ viewport: { width, height }, baseURL: site.address, colorScheme: "light" });
  await openPage(page, address);
  await reach(page);
  const top = at ? page.getByRole("heading", { name: at }) : page.locator("body");
  // What stands above it may grow until it is there.
  for (const _ of [1, 2, 3]) {
    await top.evaluate((top) => top.scrollIntoView());
    await page.waitForTimeout(2000);
    await page.waitForFunction(isDone, null, { timeout: 120_000 });
  }
  await page.screenshot({ path: `${pictures}${name}.png`, animations: "disabled" });
  await page.close();
}

await picture("bench", "bench", [1440, 1500], null, async (page) => {
  await chooseCar(page, /^Sedan/);
  await page.getByRole("button", { name: /^Worst/ }).click();
  await page.getByRole("button", { name: /^roof, left/ }).click();
});
await picture("walk-round", "walk-round", [640, 1150], "What stops it");
await picture("write-up", "write-up", [1000, 1050], "What moving the seam buys");

await browser.close();
site.stop();
