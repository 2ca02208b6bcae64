// `npm run memory -- MINUTES`: drags for so long (1 minute where none are told), and says every so often what the page
// holds. It is no test: memory.spec.js is.
import { chromium } from "@playwright/test";
import config from "./playwright.config.js";
import { openBench } from "./bench.js";
import { counting, dragOnce, held, settle } from "./memory.js";
import { startSite } from "./site.js";

const minutes = Number(process.argv[2] ?? 1);
if (!(minutes > 0)) throw new Error(`${process.argv[2]} is no number of minutes`);
const LINES = 10;

const site = await startSite();
const [{ use }] = config.projects;
const browser = await chromium.launch(use.launchOptions);
const page = await browser.newPage({ viewport: use.viewport });
const session = await counting(page);
await openBench(page, site.address);
const start = Date.now();
let drags = 0;
console.log("minutes  drags  nodes  in the page  listeners  script, kB  module, kB");
for (let line = 0; line <= LINES; line += 1) {
  while (Date.now() - start < (line / LINES) * minutes * 60_000 || drags < 3) {
    await dragOnce(page);
    drags += 1;
  }
  await settle(page);
  const now = await held(session, page);
  const cells = [((Date.now() - start) / 60_000).toFixed(1), drags, now.nodes, now.inPage, now.listeners, Math.round(now.script / 1000), Math.round(now.module / 1000)];
  console.log(cells.join("  "));
}
await browser.close();
site.stop();
