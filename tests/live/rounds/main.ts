// One regression on all rows from rounds of sums of the sites, against an installed R with its package survival on the rows themselves, over
// random sites that nobody has looked at before. Run by npm run reference:live after the other comparisons.
import { writeFileSync } from "node:fs";
import { type Figures, figuresOfReference } from "../figures-of-reference.js";
import { referenceVersion } from "../run-reference.js";
import { drawRows, type SetOfRows } from "./draw-rows.js";
import { oursOf } from "./ours.js";

const usual = { count: 40, seed: 20_261 };
/** Of closed sums at one maximum; robust errors of the accelerated models are by differences in the reference. */
const toleranceOf = (name: string): number => (/^accelerated.*:(robust|corrected)/.test(name) ? 1e-5 : 1e-6);

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const columns = [
  "site",
  "stratum",
  "person",
  "entry",
  "time",
  "event",
  "left",
  "right",
  "group",
  "age",
] as const;

function reference(sets: readonly SetOfRows[]): ReadonlyMap<number, Figures> {
  const lines = sets.flatMap(({ set, sites }) =>
    sites.flat().map((row) => [set, ...columns.map((name) => row[name] ?? "")].join(",")),
  );
  return figuresOfReference("tests/live/rounds/reference.R", {
    name: "rows.csv",
    text: `set,${columns.join(",")}\n${lines.join("\n")}\n`,
  });
}

interface Count {
  compared: number;
  failed: number;
  /** Ours has no finite maximum, or the reference no figure. */
  without: number;
  worst: number;
}

function judge(sets: readonly SetOfRows[], theirs: ReadonlyMap<number, Figures>): Map<string, Count> {
  const counts = new Map<string, Count>();
  for (const one of sets)
    for (const [name, value] of oursOf(one)) {
      const kind = name.split("/")[0]!;
      const count = counts.get(kind) ?? { compared: 0, failed: 0, without: 0, worst: 0 };
      counts.set(kind, count);
      const other = theirs.get(one.set)?.get(name) ?? null;
      if (value === null || other === null) {
        count.without += 1;
        continue;
      }
      count.compared += 1;
      const apart = Math.abs(value - other) / Math.max(Math.abs(other), 1e-3);
      count.worst = Math.max(count.worst, apart);
      if (apart <= toleranceOf(name)) continue;
      count.failed += 1;
      if (count.failed <= 3)
        say(`failed: set ${one.set} (${one.traits}), ${name}: ours ${value}, theirs ${other}`);
    }
  return counts;
}

const summaryOf = (
  counts: ReadonlyMap<string, Count>,
  { version, sets, seed }: { readonly version: string; readonly sets: number; readonly seed: number },
): string => `# Regressions over rounds against ${version}

${sets} random sets of 2 to 5 sites with 8 to 40 rows each, seed ${seed}: ties to days, weeks and four weeks, late entry, strata within sites, a number as covariate, up to three injuries a person;
for the accelerated models returns between visits of each their own span. Ours has nothing but what each site sends; the reference has all rows. Relative tolerance 1e-6; robust and corrected errors of accelerated
models 1e-5, since the reference takes their scores by differences.

| figures | compared | failed | one of the two has none | worst relative difference |
| --- | --- | --- | --- | --- |
${[...counts].map(([kind, { compared, failed, without, worst }]) => `| ${kind} | ${compared} | ${failed} | ${without} | ${worst.toExponential(1)} |`).join("\n")}

Robust: over people, as in large samples. Corrected: for few people, in hazards by each person's influence times the change by one Newton step without them, in accelerated models by the factor
people over people less parameters.
`;

function run({ count, seed, version }: { count: number; seed: number; version: string }): void {
  const sets = drawRows({ count, seed });
  const counts = judge(sets, reference(sets));
  const summary = summaryOf(counts, { version, sets: count, seed });
  say(summary);
  if (count === usual.count && seed === usual.seed) writeFileSync("tests/live/rounds/results.md", summary);
  const sum = (of: (count: Count) => number) => [...counts.values()].reduce((all, one) => all + of(one), 0);
  const [compared, failed] = [sum((one) => one.compared), sum((one) => one.failed)];
  say(`${compared - failed} passed, ${failed} failed`);
  if (failed > 0 || compared === 0) process.exitCode = 1;
}

const version = referenceVersion();
if (version === null)
  say("skipped: Rscript with the package survival is not installed here, so nothing was compared");
else
  run({
    // each person is deleted in turn, so that many sets take the reference long
    count: Math.min(usual.count, Number(process.argv[2] ?? usual.count)),
    seed: usual.seed,
    version,
  });
