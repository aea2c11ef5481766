// How often the intervals that a report prints hold the truth, and how often its tests find what is not there.
// npm run honesty [-- --quick] [-- --workers N] [-- --only WORD] [-- --on DAY, for the heading]
// Neither the number of workers nor their order changes a result: a replicate is a stream, a chunk of replicates is added in its place.
import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { Job } from "./job.js";
import { pageOf } from "./page.js";
import { rowOf } from "./rows.js";
import { runJobs } from "./run-jobs.js";
import { settings, sizes } from "./settings.js";
import { merge, type Tallies } from "./tally.js";

const { values } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    workers: { type: "string", default: "2" },
    only: { type: "string", default: "" },
    on: { type: "string", default: "" },
  },
});
const quickly = 60;
const chunk = 20;

const chosen = settings.flatMap((setting, index) =>
  setting.name.includes(values.only) ? [{ setting, index }] : [],
);
const jobs = chosen.flatMap(({ setting, index }) => {
  const truth = setting.truth();
  const replicates = values.quick ? quickly : setting.replicates;
  return sizes.flatMap((n): Job[] =>
    Array.from({ length: Math.ceil(replicates / chunk) }, (_, at) => ({
      setting: index,
      n,
      from: at * chunk,
      to: Math.min(replicates, (at + 1) * chunk),
      truth,
    })),
  );
});

/** A line for every twentieth of the work. */
const onDone = (done: number): void => {
  const part = Math.ceil(jobs.length / 20);
  if (done % part === 0) process.stderr.write(`${done} of ${jobs.length} chunks\n`);
};
const outcomes = await runJobs(jobs, { workers: Number(values.workers), onDone });

const rows = chosen.flatMap(({ setting, index }) =>
  sizes.flatMap((n) => {
    const tallies: Tallies = {};
    jobs.forEach((job, at) => {
      if (job.setting === index && job.n === n) merge(tallies, outcomes[at]!);
    });
    return Object.entries(tallies).map(([figure, tally]) =>
      rowOf({ setting: setting.name, figure, n }, tally),
    );
  }),
);

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const page = pageOf(rows, { on: values.on, version, settings: chosen.map(({ setting }) => setting), sizes });
process.stdout.write(`${page}\n`);
if (!values.quick && values.only === "") {
  writeFileSync("tests/honesty/results.md", page);
  writeFileSync(
    "tests/honesty/results.json",
    `${JSON.stringify({ version, on: values.on, rows }, null, 2)}\n`,
  );
}
