// Times the cases in wasm, a line each, as main.rs does natively: name, milliseconds, and the numbers that came out.
// It is given the folder that holds the module and its script.

import { createRequire } from "node:module";
import path from "node:path";

const { cars, plain_bound, pose_grid, room, whole_model } = createRequire(import.meta.url)(
  path.resolve(process.argv[2], "bench.js"),
);

/** The two plainer ways take their time: they are run where `all` is asked for. */
const ALL = process.argv[3] === "all";
/** How often a quick case is run, where times are asked for; the least counts. */
const RUNS = ALL ? 40 : 1;
/** The same of a room chart. */
const ROOM_RUNS = Math.min(RUNS, 10);

function time(name, runs, work) {
  let least = Infinity;
  let found = [];
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    found = work();
    least = Math.min(least, performance.now() - start);
  }
  console.log([name, least, [...found].join(" ")].join("\t"));
}

for (const [car, name] of cars().entries()) {
  for (const accuracy of [0.1, 0.01]) {
    time(`model ${name} ${accuracy}`, RUNS, () => whole_model(car, accuracy));
  }
}
for (const [car, name] of cars().entries()) {
  time(`room ${name}`, ROOM_RUNS, () => room(car));
}
if (ALL) {
  time("grid", 1, () => pose_grid(0));
  time("plain", 1, () => plain_bound(0, 0.1, 200_000));
}
