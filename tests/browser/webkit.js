// The page in WebKit, by the driver that comes with Debian's: what matters most. `npm run webkit` gives it a screen.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { createServer } from "node:net";
import { after, afterEach, before, test } from "node:test";
import { Builder, By, Key, until } from "selenium-webdriver";
import { startSite } from "./site.js";

const DRIVER = process.env.WEBKIT_DRIVER ?? "/usr/bin/WebKitWebDriver";
const BROWSER = process.env.WEBKIT ?? usualPlace();

/** How long something may take to be there, ms. */
const PATIENCE = 20_000;

/** Where Debian has the browser: behind the names of the machine and of the library's version. */
function usualPlace() {
  const folders = readdirSync("/usr/lib").filter((machine) => machine.endsWith("-linux-gnu"));
  const inside = folders.flatMap((machine) => readdirSync(`/usr/lib/${machine}`).map((name) => `/usr/lib/${machine}/${name}/MiniBrowser`));
  return inside.find((place) => place.includes("/webkit2gtk-") && existsSync(place));
}

let site, driver, browser;

before(async () => {
  site = await startSite();
  const port = await freePort();
  driver = spawn(DRIVER, [`--port=${port}`], { stdio: "inherit" });
  await listening(port);
  browser = await new Builder()
    .usingServer(`http://127.0.0.1:${port}`)
    .withCapabilities({ browserName: "MiniBrowser", "webkitgtk:browserOptions": { binary: BROWSER, args: ["--automation"] } })
    .build();
  await browser.manage().window().setRect({ width: 1280, height: 900 });
});

afterEach(async () => {
  assert.deepEqual(await browser.executeScript("return faults"), [], "the page complains of nothing");
});

after(async () => {
  await browser?.quit();
  driver?.kill();
  site?.stop();
});

async function freePort() {
  const server = createServer();
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}

async function listening(port) {
  const end = Date.now() + PATIENCE;
  while (Date.now() < end) {
    const status = await fetch(`http://127.0.0.1:${port}/status`).catch(() => null);
    if (status?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`${DRIVER} does not answer`);
}

/** Opens an address of the page and waits until it draws. */
async function open(address = "") {
  // An address that differs by its fragment only would not load the page.
  await browser.get("about:blank");
  await browser.get(site.address + address);
  await hear();
  await see("main h1, main h2");
}

/** Hears what the page complains of from here on: this driver tells no console. */
const hear = () =>
  browser.executeScript(`
    window.faults = [];
    addEventListener("error", ({ message }) => faults.push(message));
    addEventListener("unhandledrejection", ({ reason }) => faults.push(String(reason)));
    console.error = (...said) => faults.push(said.join(" "));
  `);

const see = (selector) => browser.wait(until.elementLocated(By.css(selector)), PATIENCE, selector);
const slider = () => see("#dial-backspacing");
const box = () => see("#dial-backspacing-box");
const gaps = async () => (await see(".gaps")).getText();
const value = async (field) => (await field()).getAttribute("value");

/** Waits until something is so. */
const holds = (what, is) => browser.wait(is, PATIENCE, what);

async function type(text) {
  const field = await box();
  await browser.executeScript("arguments[0].select()", field);
  await field.sendKeys(text, Key.ENTER);
}

test("the page mounts and draws", async () => {
  await open();
  await see("#rear-body path");
  assert.match(await browser.getTitle(), /Lip to Rail/);
  assert.match(await gaps(), /hits|tight|clears/);
});

test("a step of a slider changes the gap list, and is taken back", async () => {
  await open();
  const before = await gaps();
  await (await slider()).sendKeys(Key.ARROW_RIGHT, Key.ARROW_RIGHT);
  await holds("other gaps", async () => (await gaps()) !== before);
  await browser.actions().keyDown(Key.CONTROL).sendKeys("z").keyUp(Key.CONTROL).perform();
  await holds("the gaps of before", async () => (await gaps()) === before);
});

test("a fraction is typed", async () => {
  await open();
  await type("6 1/4");
  await holds("the length with its unit", async () => (await value(box)) === "6 1/4 in");
});

test("a handle is dragged", async () => {
  await open();
  const before = await gaps();
  const handle = await see(".picture .handle");
  await browser.actions().move({ origin: handle }).press().move({ origin: handle, x: 30, y: 0 }).release().perform();
  await holds("other gaps", async () => (await gaps()) !== before);
});

for (const [word, says] of [
  ["bench", /verdict|hits|tight|clears/],
  ["walk-round", /tire/],
  ["sheets", /sheet/i],
  ["take-away", /Take away/],
  ["write-up", /More tire than the car was built for/],
]) {
  test(`${word} opens`, async () => {
    await open(`#${word}`);
    await holds(String(says), async () => says.test(await (await see("main")).getText()));
  });
}

test("a link opens its car, and the work is there after a reload", async () => {
  await open();
  // No other test leaves this length.
  await type("6 1/2");
  const link = () => browser.executeScript("return location.hash");
  await holds("a link in the address", async () => /car=1/.test(await link()));
  const sent = await link();
  await type("5");
  await holds("the other length", async () => (await value(box)) === "5 in");
  await holds("it to be kept", () =>
    browser.executeScript(`return /^step /m.test(localStorage.getItem("lip-to-rail.desk"))`));
  await browser.navigate().refresh();
  await hear();
  await see("#rear-body path");
  assert.equal(await value(box), "5 in");
  await browser.executeScript("localStorage.clear(); sessionStorage.clear()");
  await open(sent);
  await holds("the link's length", async () => (await value(box)) === "6 1/2 in");
});
