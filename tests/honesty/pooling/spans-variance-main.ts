// The variance matrix that a site in spans sends with its figures beside that of a bootstrap over people.
// node tests/honesty/built/tests/honesty/pooling/spans-variance-main.js [--draws N]; the output and what was found of it are kept in
// tests/honesty/pooling/spans-variance.md
import { parseArgs } from "node:util";
import { bootstrapped, figuresInSpans, siteInSpans } from "./spans-variance.js";

const { values } = parseArgs({ options: { draws: { type: "string", default: "400" } } });
const draws = Number(values.draws);
const sites = [
  { injuries: 200, seed: 1 },
  { injuries: 400, seed: 2 },
] as const;

const correlation = (matrix: readonly (readonly number[])[], i: number, j: number): number =>
  matrix[i]![j]! / Math.sqrt(matrix[i]![i]! * matrix[j]![j]!);

function partOf({ injuries, seed }: (typeof sites)[number]): string {
  const site = siteInSpans(injuries, seed);
  const { model, sets } = figuresInSpans(site.members, site.asked)!;
  const { all, alike, drawsAlike } = bootstrapped(site, { draws, seed: 20_261_128 + seed, model });
  let apart = 0;
  const lines = sets.flatMap(({ names, values: found, variances }, set) => {
    for (let i = 0; i < names.length; i++)
      for (let j = 0; j < i; j++)
        apart = Math.max(apart, Math.abs(correlation(variances, i, j) - correlation(alike[set]!, i, j)));
    return names.map((name, i) => {
      const [own, same, any] = [variances, alike[set]!, all[set]!].map((matrix) =>
        Math.sqrt(matrix[i]![i]!),
      ) as [number, number, number];
      const ratios = [own / same, own / any].map((ratio) => ratio.toFixed(2)).join(" | ");
      return `| ${name} | ${found[i]!.toFixed(3)} | ${own.toFixed(4)} | ${same.toFixed(4)} | ${any.toFixed(4)} | ${ratios} |`;
    });
  });
  const n = site.members.reduce((sum, { records }) => sum + records.length, 0);
  process.stderr.write(`${injuries} injuries\n`);
  return `## ${n} injuries compared, of ${site.people} people in all

The model chosen: ${model}; so it was in ${drawsAlike} of ${draws} draws.

| figure | value | error by the matrix | by draws with this model | by all draws | ratio | ratio |
| --- | --- | --- | --- | --- | --- | --- |
${lines.join("\n")}

The correlations of two figures of one set by the matrix and by the draws with this model lie at most ${apart.toFixed(2)} apart.
`;
}

process.stdout.write(`# The variance matrix of figures in spans

A site whose returns are known between visits only sends its shares, mean days and differences by a model of the times, with a variance matrix clustered by people.
Here it is set beside the covariance over ${draws} draws of people with all their injuries; the model is chosen and fitted for each draw. SYNTHETIC. Made by
\`spans-variance-main.ts\`. From ${draws} draws an error is itself known to ${(100 / Math.sqrt(2 * (draws - 1))).toFixed(0)} in 100 (one standard error).

${sites.map(partOf).join("\n")}`);
