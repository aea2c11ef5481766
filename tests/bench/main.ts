// Times the cases against the same in R, where it is installed, in turn on this machine.
// npm run bench [-- --cases km2,cox5] [-- --size 1000] [-- --rounds 3] [-- --seconds 1]
// --size runs every case at that one size, for trial. Only a run of all cases at their own sizes writes results.md.
import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { BenchCase } from "./case.js";
import { cases } from "./cases.js";
import { verifyCheckSums } from "./check-sums.js";
import { type CaseResult, pageOf } from "./page.js";
import { median, peerVersion, startMilliseconds, type Timing, timeOurs, timePeer } from "./timing.js";

const { values } = parseArgs({
  options: {
    cases: { type: "string", default: "" },
    size: { type: "string", default: "" },
    rounds: { type: "string", default: "3" },
    seconds: { type: "string", default: "1" },
  },
});
const rounds = Number(values.rounds);
const seconds = Number(values.seconds);
const onlySize = values.size === "" ? null : Number(values.size);
const asked = values.cases === "" ? null : values.cases.split(",");
const peers = peerVersion();
const say = (line: string): void => void process.stderr.write(`${line}\n`);

/** Medians over the rounds; the most memory of any. */
function together(timings: readonly Timing[]): Timing {
  const [first] = timings as [Timing];
  return {
    ...first,
    seconds: median(timings.map((timing) => timing.seconds)),
    first: median(timings.map((timing) => timing.first)),
    megabytes: Math.max(...timings.map(({ megabytes }) => megabytes)),
  };
}

/** Ours, peer, ours, peer: what else the machine does meets both. */
function inTurn(name: string, n: number): { readonly ours: Timing; readonly peer: Timing | null } {
  const ours: Timing[] = [];
  const theirs: Timing[] = [];
  for (let round = 0; round < rounds; round++) {
    ours.push(timeOurs({ name, n, seconds }));
    const peer = peers === null ? null : timePeer({ name, n, seconds });
    if (peer !== null) theirs.push(peer);
  }
  return { ours: together(ours), peer: theirs.length === 0 ? null : together(theirs) };
}

function growthOf({ name, growth }: BenchCase): CaseResult["growth"] {
  if (growth === null || onlySize !== null) return null;
  const [from, to] = growth;
  const [small, large] = [from, to].map((n) => timeOurs({ name, n, seconds }).seconds) as [number, number];
  return { exponent: Math.log(large / small) / Math.log(to / from), from, to };
}

/** The checked value, from a run at its own size unless the case ran there already. */
function checkedOf(
  bench: BenchCase,
  ran: { readonly n: number; readonly ours: Timing },
): CaseResult["checked"] {
  if (bench.checked === null) return null;
  const { at } = bench.checked;
  const difference =
    ran.n === at ? ran.ours.difference : timeOurs({ name: bench.name, n: at, seconds: 0 }).difference;
  return difference === null ? null : { n: at, difference };
}

function resultOf(bench: BenchCase): CaseResult {
  say(bench.name);
  const n = onlySize ?? bench.peer.size;
  const { ours, peer } = inTurn(bench.name, n);
  return { bench, n, ours, peer, growth: growthOf(bench), checked: checkedOf(bench, { n, ours }) };
}

verifyCheckSums();
const results = cases.filter(({ name }) => asked === null || asked.includes(name)).map(resultOf);
const starts = (words: readonly string[]) =>
  median(Array.from({ length: 9 }, () => startMilliseconds(words)));
const start = { help: starts(["dist/command/main.js", "--help"]), bare: starts(["-e", "0"]) };
const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const page = pageOf(results, { peers, start, version });
process.stdout.write(`${page}\n`);
if (asked === null && onlySize === null) writeFileSync("tests/bench/results.md", page);
const missed = results.filter(
  ({ bench, checked }) => checked !== null && !(checked.difference <= bench.checked!.tolerance),
);
if (missed.length > 0) {
  say(`checked values not met: ${missed.map(({ bench }) => bench.name).join(", ")}`);
  process.exitCode = 1;
}
