// How often what a report says holds the truth: its printed sentences, its intervals, and its tests where nothing differs.
// npm run honesty [-- --draws N] [-- --only WORDS] [-- --workers N] [-- --on DAY]
// --draws: so many replicates of each setting and size instead of its own number. --only: settings whose part and name hold the words.
// --check: the day, on which fewer replicates than before are compared with the committed rows, which stay, with a note of how far they lie apart.
// --on: the day, under which the settings that were run take the place of their earlier rows; without it nothing is written.
// Neither the number of workers nor their order changes a result: a replicate is a stream, a chunk of replicates is added in its place.
import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { Job } from "./job.js";
import { pageOf } from "./page.js";
import { type Committed, rowOf, withCheck, withRun } from "./rows.js";
import { runJobs } from "./run-jobs.js";
import { settings } from "./settings.js";
import { merge, type Tallies } from "./tally.js";

const { values } = parseArgs({
  options: {
    draws: { type: "string" },
    workers: { type: "string", default: "2" },
    only: { type: "string", default: "" },
    on: { type: "string", default: "" },
    check: { type: "string", default: "" },
  },
});
const chunk = 20;

const chosen = settings.flatMap((setting, index) =>
  `${setting.part}: ${setting.name}`.includes(values.only) ? [{ setting, index }] : [],
);
const jobs = chosen.flatMap(({ setting, index }) => {
  const truth = setting.truth();
  const replicates = values.draws === undefined ? setting.replicates : Number(values.draws);
  return setting.sizes.flatMap((n): Job[] =>
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
  setting.sizes.flatMap((n) => {
    const tallies: Tallies = {};
    jobs.forEach((job, at) => {
      if (job.setting === index && job.n === n) merge(tallies, outcomes[at]!);
    });
    return Object.entries(tallies).map(([figure, tally]) =>
      rowOf({ part: setting.part, setting: setting.name, figure, n }, tally),
    );
  }),
);

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const run = { version, on: values.on, rows };
if (values.on === "" && values.check === "")
  process.stdout.write(pageOf(withRun(null, run, settings), settings));
else {
  const before = JSON.parse(readFileSync("tests/honesty/results.json", "utf8")) as Committed;
  const committed =
    values.check === "" ? withRun(before, run, settings) : withCheck(before, { on: values.check, rows });
  writeFileSync("tests/honesty/results.md", pageOf(committed, settings));
  writeFileSync("tests/honesty/results.json", `${JSON.stringify(committed, null, 2)}\n`);
}
