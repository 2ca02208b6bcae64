// Runs inside the page before it: when an input happened, when the frame that answers it was painted, and what kept the
// main thread for long.

/** Installs the meter; handed to the browser as text, so it sees nothing outside itself. */
export function meter() {
  const meter = { steps: [], waiting: 0, longTasks: [], ready: null };
  window.meter = meter;

  // A message that is sent in a frame's own callback arrives when that frame was laid out and painted.
  const afterPaint = (then) =>
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => then(performance.now());
      channel.port2.postMessage(null);
    });

  const time = (event) => {
    if (!event.isTrusted || (event.type === "pointermove" && event.buttons === 0)) return;
    meter.waiting += 1;
    afterPaint((painted) => {
      meter.waiting -= 1;
      meter.steps.push(painted - event.timeStamp);
    });
  };
  // Before the page hears of them, so that its own work for the frame is inside what is measured.
  for (const kind of ["input", "pointermove"]) addEventListener(kind, time, { capture: true });

  new PerformanceObserver((list) => {
    for (const task of list.getEntries()) meter.longTasks.push({ start: task.startTime, length: task.duration });
  }).observe({ type: "longtask", buffered: true });

  // Ready to use: the picture is drawn, the gap list is there, and that frame was painted.
  const isDrawn = () => document.querySelector("#rear-body path") && document.querySelector(".gaps td");
  const watch = () => {
    if (isDrawn()) afterPaint((painted) => (meter.ready = painted));
    else requestAnimationFrame(watch);
  };
  watch();
}
