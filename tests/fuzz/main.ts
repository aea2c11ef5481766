// Malformed files by the thousand, through every door of ingest; random folders to write in, one for every hundred files; and spoilt
// summaries of sites, one for every twenty.
// npm run fuzz [-- --files 1000000] [-- --from 0] [-- --workers 2]. A file is made from its number alone: a fault is seen
// again with --from NUMBER --files 1. --minutes ends it earlier; --write keeps the figures in tests/fuzz/results.md.
import { type ChildProcess, fork } from "node:child_process";
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { type Generator, seededGenerator } from "../../src/statistics/shared/random.js";
import { judge, type Verdict } from "./judge.js";
import { drawnKind } from "./kinds.js";
import { drawnSettings, judgeSettings } from "./settings.js";
import { judgeSummary, sha256, soundSummaries } from "./summaries.js";
import { addTo, type Faulty, noTally, pageOf, type Tally, together } from "./tally.js";
import { judgeTarget } from "./targets.js";

const { values } = parseArgs({
  options: {
    files: { type: "string", default: "1000000" },
    from: { type: "string", default: "0" },
    workers: { type: "string", default: "1" },
    minutes: { type: "string", default: "Infinity" },
    write: { type: "boolean", default: false },
    part: { type: "boolean", default: false },
  },
});
const [files, from, workers] = [Number(values.files), Number(values.from), Number(values.workers)];

/** A file that takes longer, or a process that holds more, has gone wrong. */
const bounds = { seconds: 20, megabytes: 3_000 } as const;
/** A part that tells nothing for so long hangs, milliseconds; making a large file takes a part of it. */
const noAnswer = 180_000;

/** Files a process judges; the memory is looked at every so many. */
const atOnce = 2_500;
const lookEvery = 50;

/** What a part tells its parent. */
type Told = { readonly at: number } | { readonly tally: Tally };

/** One file of so many is one of settings. */
const settingsEvery = 8;

interface ToJudge {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly judged: () => Promise<Verdict>;
}

function tableToJudge(draw: Generator, number: number): ToJudge {
  const { name, make } = drawnKind(draw);
  const { table, bytes } = make(draw);
  const source = { table, file: `${table}.csv`, bytes };
  return { name, bytes, judged: () => judge(source, { isForSite: number % 4 === 0 }) };
}

function settingsToJudge(draw: Generator): ToJudge {
  const file = drawnSettings(draw);
  return { name: file.kind, bytes: file.bytes, judged: async () => judgeSettings(file) };
}

async function judgeOne(number: number, tally: Tally): Promise<void> {
  const draw = seededGenerator(20_261_125, number);
  const { name, bytes, judged } =
    number % settingsEvery === settingsEvery - 1 ? settingsToJudge(draw) : tableToJudge(draw, number);
  const start = performance.now();
  try {
    const verdict = await judged();
    addTo(tally, {
      kind: name,
      verdict,
      seconds: (performance.now() - start) / 1000,
      bytes: bytes.length,
    });
  } catch (error) {
    const what = error instanceof Error ? `${error.message}\n${error.stack ?? ""}` : String(error);
    tally.faults.push({ number, kind: name, what });
  }
  if (performance.now() - start > bounds.seconds * 1000)
    tally.faults.push({ number, kind: name, what: "took too long" });
}

/** So often the writer is judged too, in a random folder made from the same number. */
const targetEvery = 100;

async function judgeOneTarget(number: number, tally: Tally): Promise<void> {
  const kind = "targets and neighbours";
  const start = performance.now();
  try {
    const verdict = await judgeTarget(seededGenerator(20_261_127, number));
    addTo(tally, { kind, verdict, seconds: (performance.now() - start) / 1000, bytes: 0 });
  } catch (error) {
    tally.faults.push({ number, kind, what: error instanceof Error ? `${error.message}` : String(error) });
  }
}

/** So often a summary of a site is judged too, spoilt by the same number. */
const summaryEvery = 20;
let sound: ReturnType<typeof soundSummaries> | null = null;

function judgeOneSummary(number: number, tally: Tally): void {
  const kind = "summary of a site spoilt";
  sound ??= soundSummaries();
  const start = performance.now();
  try {
    const found = judgeSummary(sound, { draw: seededGenerator(20_261_128, number), sha256 });
    const seconds = (performance.now() - start) / 1000;
    addTo(tally, {
      kind,
      verdict: found === "pooled" ? "read" : found,
      seconds,
      bytes: sound.sound.length,
    });
    if (seconds > bounds.seconds) tally.faults.push({ number, kind, what: "took too long" });
  } catch (error) {
    tally.faults.push({ number, kind, what: error instanceof Error ? `${error.message}` : String(error) });
  }
}

/** Judges a range of numbers in this process, telling the parent how far it has come. */
async function part(tell: (told: Told) => void): Promise<void> {
  const tally = noTally();
  for (let number = from; number < from + files; number++) {
    tell({ at: number });
    await judgeOne(number, tally);
    if (number % targetEvery === 0) await judgeOneTarget(number, tally);
    if (number % summaryEvery === 0) judgeOneSummary(number, tally);
    if (number % lookEvery === 0)
      tally.megabytes = Math.max(tally.megabytes, process.memoryUsage().rss / 1e6);
    if (tally.megabytes > bounds.megabytes) {
      tally.faults.push({ number, kind: "memory", what: `${tally.megabytes.toFixed(0)} MB` });
      break;
    }
  }
  tell({ tally });
}

/** One part in a process of its own: a crash or a hang is a fault with the number of its file. */
function partInProcess(start: number, count: number): Promise<Tally> {
  return new Promise((done) => {
    const own = fileURLToPath(import.meta.url);
    const child: ChildProcess = fork(own, ["--part", "--from", String(start), "--files", String(count)]);
    let at = start;
    let heard = performance.now();
    const end = (faults: Faulty[], tally = noTally()): void => {
      clearInterval(watch);
      child.kill("SIGKILL");
      done({ ...tally, faults: [...tally.faults, ...faults] });
    };
    const watch = setInterval(() => {
      if (performance.now() - heard > noAnswer) end([{ number: at, kind: "hang", what: "no answer" }]);
    }, 1000);
    child.on("message", (told: Told) => {
      heard = performance.now();
      if ("at" in told) at = told.at;
      else end([], told.tally);
    });
    child.on("exit", (code) => {
      if (code !== null && code !== 0)
        end([{ number: at, kind: "crash", what: `the process ended with ${code}` }]);
    });
  });
}

async function main(): Promise<void> {
  const starts = Array.from({ length: Math.ceil(files / atOnce) }, (_, at) => from + at * atOnce);
  const total = noTally();
  let done = 0;
  const end = performance.now() + Number(values.minutes) * 60_000;
  const isOver = (): boolean => performance.now() > end;
  const work = async (): Promise<void> => {
    for (let start = starts.shift(); start !== undefined && !isOver(); start = starts.shift()) {
      const tally = await partInProcess(start, Math.min(atOnce, from + files - start));
      for (const name of Object.keys(tally.kinds))
        total.kinds[name] = together(total.kinds[name], tally.kinds[name]!);
      total.faults.push(...tally.faults);
      for (const { number, kind, what } of tally.faults)
        process.stderr.write(`${number} (${kind}): ${what}\n`);
      total.megabytes = Math.max(total.megabytes, tally.megabytes);
      done += 1;
      if (done % 20 === 0) process.stderr.write(`${done * atOnce} files, ${total.faults.length} faults\n`);
    }
  };
  await Promise.all(Array.from({ length: workers }, work));
  const page = pageOf(total, { bounds });
  process.stdout.write(page);
  if (values.write) writeFileSync("tests/fuzz/results.md", page);
  process.exitCode = total.faults.length === 0 ? 0 : 1;
}

if (values.part) await part((told) => process.send?.(told));
else await main();
