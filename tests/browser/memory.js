// How much the page holds: counted by Chromium, once it has thrown away what nobody uses.
import { lever, middle } from "./bench.js";

/** Counts what the page holds: nodes in all and elements in the page, listeners, bytes of script and of the module. */
export async function held(session, page) {
  // Once is not always enough: what is freed may free more.
  for (let time = 0; time < 3; time += 1) await session.send("HeapProfiler.collectGarbage");
  const { metrics } = await session.send("Performance.getMetrics");
  const of = (name) => metrics.find((metric) => metric.name === name).value;
  return {
    nodes: of("Nodes"),
    listeners: of("JSEventListeners"),
    script: of("JSHeapUsedSize"),
    ...(await page.evaluate(() => ({
      inPage: document.querySelectorAll("*").length,
      module: globalThis.moduleMemory.buffer.byteLength,
    }))),
  };
}

/** A session that counts, for a page that is opened after it. */
export async function counting(page) {
  // The page's module shows its memory to whoever starts it.
  await page.addInitScript(() => {
    const start = WebAssembly.instantiateStreaming;
    WebAssembly.instantiateStreaming = async (...given) => {
      const started = await start(...given);
      globalThis.moduleMemory = started.instance.exports.memory;
      return started;
    };
  });
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  return session;
}

/** Drags a handle there and back once, and steps a slider as far; the car is the same afterward. */
export async function dragOnce(page) {
  const handle = page.locator(".picture .handle").first();
  const { x, y } = await middle(handle);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (const at of [8, 16, 24, 16, 8, 0]) await page.mouse.move(x + at, y, { steps: 2 });
  await page.mouse.up();
  const slider = lever(page, "Backspacing");
  await slider.focus();
  for (const key of ["ArrowRight", "ArrowRight", "ArrowLeft", "ArrowLeft"]) await page.keyboard.press(key);
}

/** Waits until what is worked out later stands. */
export async function settle(page) {
  await page.waitForTimeout(2500);
}
