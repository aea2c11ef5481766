// Our pooling of sites against an installed R with its package metafor, over random sets that nobody has looked at before.
// Run by npm run reference:live after the other comparison. The committed results.md is of 300 sets with the seed below.
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { type Figures, figuresOfReference } from "../figures-of-reference.js";
import { drawSites, type SetOfSites } from "./draw-sites.js";
import { oursOf } from "./ours.js";

const usual = { count: 300, seed: 20_261 };
const relative = 1e-6;
/** Below this difference, in parts of the spread of a set's estimates, two figures count as equal. */
const absolute = 1e-9;

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const isInstalled = (): string | null => {
  const asked = spawnSync(
    "Rscript",
    ["-e", 'cat(as.character(getRversion()), as.character(packageVersion("metafor")))'],
    {
      encoding: "utf8",
    },
  );
  return asked.status === 0 ? asked.stdout.trim() : null;
};

function reference(sets: readonly SetOfSites[]): ReadonlyMap<number, Figures> {
  const rows = sets.flatMap(({ set, y, v, x }) => y.map((one, i) => [set, one, v[i], x[i]].join(",")));
  return figuresOfReference("tests/live/pooling/reference.R", {
    name: "sites.csv",
    text: `set,y,v,x\n${rows.join("\n")}\n`,
  });
}

interface Count {
  compared: number;
  failed: number;
  /** Our likelihood is the higher one: it has another top, or the reference stopped short of it. */
  higher: number;
  /** The reference has no figure. */
  without: number;
  worst: number;
}

const methodOf = (name: string): string => name.split(/[/:]/)[0]!;

function judge(sets: readonly SetOfSites[], theirs: ReadonlyMap<number, Figures>): Map<string, Count> {
  const counts = new Map<string, Count>();
  for (const one of sets) {
    const ours = oursOf(one);
    const answers = theirs.get(one.set) ?? new Map<string, number | null>();
    const spread = Math.max(...one.y) - Math.min(...one.y);
    for (const [name, value] of ours) {
      const method = methodOf(name);
      const count = counts.get(method) ?? { compared: 0, failed: 0, higher: 0, without: 0, worst: 0 };
      counts.set(method, count);
      const other = answers.get(name);
      if (other === undefined || other === null) {
        count.without += 1;
        continue;
      }
      const top = `${method}:logLik/0`;
      const [height, reached] = [ours.get(top), answers.get(top)];
      if (typeof height === "number" && typeof reached === "number" && height > reached + 1e-9) {
        count.higher += 1;
        continue;
      }
      count.compared += 1;
      const apart = value === null ? Infinity : Math.abs(value - other);
      if (apart <= absolute * Math.max(1, spread) + relative * Math.abs(other)) {
        if (Math.abs(other) > 1e-3) count.worst = Math.max(count.worst, apart / Math.abs(other));
        continue;
      }
      count.failed += 1;
      if (count.failed <= 5)
        say(`failed: set ${one.set} (${one.traits}), ${name}: ours ${value}, theirs ${other}`);
    }
  }
  return counts;
}

function summaryOf(
  counts: ReadonlyMap<string, Count>,
  of: { version: string; sets: number; seed: number },
): string {
  const rows = [...counts].map(
    ([method, { compared, failed, higher, without, worst }]) =>
      `| ${method} | ${compared} | ${failed} | ${higher} | ${without} | ${worst.toExponential(1)} |`,
  );
  return `# Our pooling of sites against R and metafor (${of.version})

${of.sets} random sets of 2 to 20 sites, seed ${of.seed}: variances over four powers of ten, spreads from none to a hundred times the errors, equal estimates, one huge site. Relative tolerance ${relative}.

| figures of | compared | failed | our likelihood higher | the reference has none | worst relative difference |
| --- | --- | --- | --- | --- | --- |
${rows.join("\n")}

"Our likelihood higher": the likelihood has more than one top, or the reference stopped before it; its figures at another place are not compared. A limit of tau-squared has none where the
interval is empty.
`;
}

function run({ count, seed, version }: { count: number; seed: number; version: string }): void {
  const sets = drawSites({ count, seed });
  const counts = judge(sets, reference(sets));
  const summary = summaryOf(counts, { version, sets: count, seed });
  say(summary);
  const failed = [...counts.values()].reduce((sum, one) => sum + one.failed, 0);
  const compared = [...counts.values()].reduce((sum, one) => sum + one.compared, 0);
  if (count === usual.count && seed === usual.seed) writeFileSync("tests/live/pooling/results.md", summary);
  say(`${compared - failed} passed, ${failed} failed`);
  if (failed > 0 || compared === 0) process.exitCode = 1;
}

const version = isInstalled();
if (version === null)
  say("skipped: Rscript with the package metafor is not installed here, so nothing was compared");
else
  run({
    count: Number(process.argv[2] ?? usual.count),
    seed: Number(process.argv[3] ?? usual.seed),
    version,
  });
