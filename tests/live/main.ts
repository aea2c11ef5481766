// Our functions against an installed R with its package survival, over random data sets that nobody has looked at before.
// npm run reference:live [-- NUMBER-OF-SETS [SEED]]   The committed results.md is of 500 sets with the seed below.
import { writeFileSync } from "node:fs";
import { drawSets } from "./draw-sets.js";
import { judge, type Verdict } from "./judge.js";
import { referenceVersion, runReference } from "./run-reference.js";
import { summaryOf } from "./summary.js";

const usual = { count: 500, seed: 20_260 };

const say = (text: string): void => void process.stdout.write(`${text}\n`);

function sayFailures(verdicts: readonly Verdict[]): void {
  for (const { set, method, traits, disagreements } of verdicts.slice(0, 40))
    say(`failed: set ${set}, ${method} (${traits})\n  ${disagreements.slice(0, 4).join("\n  ")}`);
}

function run(options: { readonly count: number; readonly seed: number; readonly version: string }): void {
  const { count, seed, version } = options;
  const sets = drawSets({ seed, count });
  const verdicts = judge(sets, runReference("tests/live/reference.R", sets));
  const failed = verdicts.filter(({ outcome }) => outcome === "failed");
  const passed = verdicts.filter(({ outcome }) => outcome === "passed");
  const summary = summaryOf(verdicts, { version, seed, sets: sets.length });
  sayFailures(failed);
  say(summary);
  if (count === usual.count && seed === usual.seed) writeFileSync("tests/live/results.md", summary);
  say(`${passed.length} passed, ${failed.length} failed`);
  process.exitCode = failed.length > 0 || passed.length === 0 ? 1 : 0;
}

const version = referenceVersion();
if (version === null)
  say("skipped: Rscript with the package survival is not installed here, so nothing was compared");
else
  run({
    count: Number(process.argv[2] ?? usual.count),
    seed: Number(process.argv[3] ?? usual.seed),
    version,
  });

// answers of sites pooled, against another package
await import("./pooling/main.js");

// one regression on all rows, from rounds of sums of the sites
await import("./rounds/main.js");
