// One case at one size in a process of its own: node run-case.js CASE SIZE SECONDS. Prints one line of JSON.

import { cases } from "./cases.js";
import { differenceFromChecked } from "./checked.js";
import type { Timing } from "./timing.js";

const [name, size, seconds] = process.argv.slice(2) as [string, string, string];
const found = cases.find((one) => one.name === name);
if (found === undefined)
  throw new Error(`no case "${name}"; there are ${cases.map((one) => one.name).join(", ")}`);
const n = Number(size);
const run = found.prepare(n);

/** Seconds of one run. */
async function timed(): Promise<number> {
  const start = performance.now();
  await run();
  return (performance.now() - start) / 1000;
}

const megabytes = (): number => process.resourceUsage().maxRSS / 1000;
const before = megabytes();
const first = await timed();
const warmUntil = performance.now() + 300;
while (performance.now() < warmUntil && first < 0.3) await run();
const inner = Math.max(1, Math.ceil(0.005 / first));
const until = performance.now() + Number(seconds) * 1000;
const runs: number[] = [];
// as many as there is time for: the first call, which is cold, tells nothing of how many that are
while (runs.length < 5 || (runs.length < 200 && performance.now() < until)) {
  const start = performance.now();
  for (let again = 0; again < inner; again++) await run();
  runs.push((performance.now() - start) / 1000 / inner);
}
runs.sort((a, b) => a - b);
const timing: Timing = {
  seconds: runs[Math.floor(runs.length / 2)]!,
  first,
  runs: runs.length,
  megabytes: megabytes(),
  megabytesOfData: before,
  difference: differenceFromChecked(found, { n, values: await run() }),
};
process.stdout.write(`${JSON.stringify(timing)}\n`);
