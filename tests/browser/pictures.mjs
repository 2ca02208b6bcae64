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

/** Opens a page and has it photographed once it is all there. */
async function picture(name, address, [width, height], reach) {
  const page = await browser.newPage({ viewport: { width, height }, baseURL: site.address, colorScheme: "light" });
  await openPage(page, address);
  await reach(page);
  // Long work is told while it goes on.
  await page.getByText("being worked out").first().waitFor({ state: "detached", timeout: 120_000 });
  await page.waitForTimeout(1000);
  await page.screenshot({ path: `${pictures}${name}.png`, animations: "disabled" });
  await page.close();
}

await picture("bench", "bench", [1440, 1500], async (page) => {
  await chooseCar(page, /^Sedan/);
  await page.getByRole("button", { name: /^Worst/ }).click();
  await page.getByRole("button", { name: /^roof, left/ }).click();
});
await picture("walk-round", "walk-round", [760, 1000], (page) =>
  page.getByRole("heading", { name: "What stops it" }).evaluate((heading) => heading.scrollIntoView()),
);
await picture("write-up", "write-up", [1000, 1100], (page) =>
  page.getByRole("heading", { name: "What moving the seam buys" }).evaluate((heading) => heading.scrollIntoView()),
);

await browser.close();
site.stop();
