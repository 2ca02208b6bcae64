// Memory is steady: however often a handle is dragged, the page holds what it held. `npm run memory` does it for longer.
import { expect, test } from "./fixture.js";
import { openBench } from "./bench.js";
import { counting, dragOnce, held, settle } from "./memory.js";

test("dragging again and again leaves nothing behind", async ({ page, isMobile }) => {
  // A drag takes some seconds on a busy machine.
  test.setTimeout(240_000);
  test.skip(isMobile, "the same page, dragged the same way");
  const session = await counting(page);
  await openBench(page);
  const after = async (drags) => {
    for (let drag = 0; drag < drags; drag += 1) await dragOnce(page);
    await settle(page);
    return held(session, page);
  };
  const first = await after(2);
  const last = await after(8);
  expect(last.inPage).toBe(first.inPage);
  expect(last.listeners).toBe(first.listeners);
  expect(last.nodes).toBe(first.nodes);
});
