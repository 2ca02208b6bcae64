// How long the page takes to answer: `node speed.mjs NAME=FOLDER [NAME=FOLDER]`, with each folder a built page. Two
// pages are measured by turns in one run, so that what else the machine does weighs on both alike; each line then tells
// how many times as long the first takes.
import { chromium } from "@playwright/test";
import { chooseCar } from "../bench.js";
import config from "../playwright.config.js";
import { meter } from "./meter.js";
import { servePage } from "./page.js";

const STEPS = 300;
const DRAG_MOVES = 150;
/** First visits of which the middle one counts. */
const VISITS = 3;
/** Bits a second and milliseconds there and back of a middling phone network. */
const NETWORK = { downloadThroughput: (1.6 * 1024 * 1024) / 8, uploadThroughput: (750 * 1024) / 8, latency: 150 };
/** Full speed, and as slow as an old phone. */
const SLOWDOWNS = [1, 4];
/** By the table of the benchmark that times the model alone. */
const HEAVIEST = /^Low car/;
/** What the page works out once a car stands still takes less, ms. */
const SETTLED = 4000;

const pages = await Promise.all(
  process.argv.slice(2).map(async (argument) => {
    const [name, folder] = argument.split("=");
    if (!folder) throw new Error(`want NAME=FOLDER, not ${argument}`);
    return { name, ...(await servePage(folder)) };
  }),
);
if (pages.length === 0) throw new Error("want NAME=FOLDER, the folder of a built page");

const [{ use }] = config.projects;
const browser = await chromium.launch(use.launchOptions);

/** A fresh visitor's page, slowed down, with the meter in it. */
async function visit(slowdown, network) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: slowdown });
  if (network) {
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", { offline: false, ...network });
  }
  await page.addInitScript(meter);
  return { page, close: () => context.close() };
}

/** Opens the car that takes longest, and waits until what is worked out once it stands still is there. */
async function openHeaviest(page, address) {
  await page.goto(address);
  await page.waitForFunction(() => window.meter.ready, null, { timeout: 120_000 });
  await chooseCar(page, HEAVIEST);
  await page.waitForTimeout(SETTLED);
  await page.evaluate(() => Object.assign(window.meter, { steps: [], longTasks: [] }));
}

/** The steps of a slider by its arrow key, each when the last is painted: back and forth over its middle. */
async function slide(page) {
  const slider = page.locator('input[type="range"]').and(page.getByRole("slider", { name: "Bump travel", exact: true }));
  await slider.focus();
  for (let step = 0; step < STEPS; step += 1) {
    await page.keyboard.press(step % 20 < 10 ? "ArrowLeft" : "ArrowRight");
    await page.waitForFunction((steps) => window.meter.steps.length > steps, step, { polling: 1 });
  }
}

/** The seam dragged in the picture, in and out, a move about every frame. */
async function drag(page) {
  const handle = page.locator(".handles").getByRole("slider", { name: "Seam move, left side", exact: true });
  await handle.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await handle.boundingBox();
  const middle = { x: x + width / 2, y: y + height / 2 };
  await page.mouse.move(middle.x, middle.y);
  await page.mouse.down();
  for (let move = 0; move < DRAG_MOVES; move += 1) {
    await page.mouse.move(middle.x + 40 * Math.sin(move / 12), middle.y);
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  await page.waitForFunction(() => window.meter.waiting === 0);
}

async function measureSteps({ address }, slowdown, act) {
  const { page, close } = await visit(slowdown, null);
  await openHeaviest(page, address);
  await act(page);
  const { steps, longTasks } = await page.evaluate(() => window.meter);
  await close();
  return { steps, longTasks };
}

async function measureVisit({ address }, slowdown, network) {
  const { page, close } = await visit(slowdown, network);
  await page.goto(address);
  await page.waitForFunction(() => window.meter.ready, null, { timeout: 120_000 });
  const found = await page.evaluate(() => ({
    firstPaint: performance.getEntriesByName("first-contentful-paint")[0].startTime,
    ready: window.meter.ready,
    blocked: window.meter.longTasks.reduce((sum, { length }) => sum + Math.max(0, length - 50), 0),
  }));
  await close();
  return found;
}

/** The value below which a share of the values lies. */
function quantile(values, share) {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

const cell = (value) => value.toFixed(1);

/** A row of the table: a figure of each page, and the first against the second. */
function row(what, figures) {
  const ratio = figures.length > 1 ? [(figures[0] / figures[1]).toFixed(2)] : [];
  console.log(`| ${[what, ...figures.map(cell), ...ratio].join(" | ")} |`);
}

const head = ["what, ms", ...pages.map(({ name }) => name), ...(pages.length > 1 ? ["ratio"] : [])];
console.log(`| ${head.join(" | ")} |`);
console.log(`| ${head.map(() => "---").join(" | ")} |`);

/** One act on each page; a row for each figure. */
async function steps(what, slowdown, act) {
  const found = [];
  for (const page of pages) found.push(await measureSteps(page, slowdown, act));
  const count = found[0].steps.length;
  for (const [name, share] of [["median", 0.5], ["95 %", 0.95], ["99 %", 0.99]]) {
    row(`${what}, ${name} of ${count}`, found.map(({ steps }) => quantile(steps, share)));
  }
  // A count, so it has no ratio.
  console.log(`| ${[`${what}, tasks over 50 ms`, ...found.map(({ longTasks }) => longTasks.length)].join(" | ")} |`);
}

/** First visits to each page by turns; a row for each figure's median. */
async function visits(what, slowdown, network) {
  const found = pages.map(() => []);
  for (let round = 0; round < VISITS; round += 1) {
    for (const [index, page] of pages.entries()) found[index].push(await measureVisit(page, slowdown, network));
  }
  for (const [name, key] of [["first paint", "firstPaint"], ["ready to use", "ready"], ["blocked", "blocked"]]) {
    row(`${what}, ${name}`, found.map((visits) => quantile(visits.map((visit) => visit[key]), 0.5)));
  }
}

for (const slowdown of SLOWDOWNS) {
  const speed = slowdown === 1 ? "" : `, processor ${slowdown} times slower`;
  await steps(`slider step${speed}`, slowdown, slide);
  await steps(`drag of the seam${speed}`, slowdown, drag);
  await visits(`first visit${speed}`, slowdown, null);
}
const [, phone] = SLOWDOWNS;
await visits(`first visit, processor ${phone} times slower, 1.6 Mbit/s`, phone, NETWORK);

await browser.close();
for (const page of pages) page.stop();
