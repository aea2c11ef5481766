// Runs every script of tests/reference/data under an installed R and compares what it makes with what is committed.
// npm run reference:make [-- TOPIC...] [-- --write]   With --write, files whose bytes differ are replaced.
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { distance } from "./compare.js";
import { committed, isAbsence, onCopy, runScript, topicsWithScript, versionOfR } from "./scripts.js";

/** Share by which a figure may differ under other versions of R, its packages or its linear algebra. */
const usualTolerance = 1e-9;

/** Topics whose figures are less exact than that, with the reason. */
const looser: Readonly<Record<string, { readonly tolerance: number; readonly reason: string }>> = {
  synthetic_cohort: { tolerance: 1e-6, reason: "degrees of freedom there rest on numerical derivatives" },
  mixed_slope: { tolerance: 1e-5, reason: "the optimiser stops by value, so that variances hold about 1e-6" },
};

/** Made-up data that a script reads; every other JSON file is what a script writes. */
const drawnSets = "sets.json";

type Outcome = "equal" | "close" | "different" | "skipped";

interface Line {
  readonly file: string;
  readonly outcome: Outcome;
  readonly remark: string;
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const notMade = (file: string, stopped: string): Line => ({
  file,
  outcome: isAbsence(stopped) ? "skipped" : "different",
  remark: stopped,
});

/** One file made anew beside the committed one. */
function compared(made: string, topic: string, name: string): Line {
  const file = `${topic}/${name}`;
  if (!existsSync(made)) return { file, outcome: "different", remark: "the script did not write it" };
  const [kept, anew] = [committed(topic, name), made].map((path) =>
    existsSync(path) ? readFileSync(path, "utf8") : "",
  ) as [string, string];
  if (kept === anew) return { file, outcome: "equal", remark: "equal, byte for byte" };
  if (kept === "" || !name.endsWith(".json")) return { file, outcome: "different", remark: "other text" };
  const { worst, worstAt, unlike } = distance(JSON.parse(kept), JSON.parse(anew));
  if (unlike.length > 0)
    return { file, outcome: "different", remark: `other at ${unlike.slice(0, 5).join(", ")}` };
  const { tolerance, reason } = looser[topic] ?? { tolerance: usualTolerance, reason: "" };
  const remark = `worst difference ${worst.toExponential(1)} at ${worstAt}; tolerance ${tolerance} ${reason}`;
  return { file, outcome: worst <= tolerance ? "close" : "different", remark: remark.trim() };
}

/** The CSV files of all topics, made in a folder of their own by one script. */
function madeData(folder: string): readonly Line[] {
  const into = join(folder, "csv");
  mkdirSync(into);
  const stopped = runScript("../r/data.R", into);
  if (stopped !== null) return [notMade("data of all topics", stopped)];
  return readdirSync(into).flatMap((topic) =>
    readdirSync(join(into, topic)).map((name) => keepOrCompare(join(into, topic, name), topic, name)),
  );
}

/** The simulated rows and the figures of one topic. */
function madeTopic(folder: string, topic: string): readonly Line[] {
  const own = join(folder, "data", topic);
  const outputs = readdirSync(own).filter((name) => name.endsWith(".json") && name !== drawnSets);
  for (const name of outputs) rmSync(join(own, name));
  const simulated = existsSync(join(own, "simulate.R"));
  const stopped = (simulated ? runScript("simulate.R", own) : null) ?? runScript("make.R", own);
  if (stopped !== null) return [notMade(topic, stopped)];
  const rows = simulated ? readdirSync(own).filter((name) => name.endsWith(".csv")) : [];
  return [...outputs, ...rows].map((name) => keepOrCompare(join(own, name), topic, name));
}

const given = process.argv.slice(2);
const replaces = given.includes("--write");

function keepOrCompare(made: string, topic: string, name: string): Line {
  const line = compared(made, topic, name);
  if (replaces && line.outcome !== "equal" && existsSync(made)) copyFileSync(made, committed(topic, name));
  return line;
}

function run(version: string): void {
  const asked = given.filter((one) => !one.startsWith("--"));
  const topics = topicsWithScript().filter((topic) => asked.length === 0 || asked.includes(topic));
  say(`${version}; a difference is a share of the larger figure, or of 0.001 where both are smaller`);
  const lines = onCopy((folder) => {
    const all: Line[] = [];
    const tell = (some: readonly Line[]): void => {
      for (const line of some) say(`${line.outcome.padEnd(9)} ${line.file}: ${line.remark}`);
      all.push(...some);
    };
    if (asked.length === 0) tell(madeData(folder));
    for (const topic of topics) tell(madeTopic(folder, topic));
    return all;
  });
  const count = (outcome: Outcome): number => lines.filter((line) => line.outcome === outcome).length;
  say(
    `${count("equal")} equal, ${count("close")} within tolerance, ${count("different")} different, ${count("skipped")} skipped`,
  );
  process.exitCode = count("different") > 0 || lines.length === 0 ? 1 : 0;
}

const version = versionOfR();
if (version === null) say("skipped: Rscript is not installed here, so nothing was made anew");
else run(version);
