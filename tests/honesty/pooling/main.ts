// How often the intervals of pooled answers hold the truth, over repeated draws of a consortium; and what joined rows would have said.
// node tests/honesty/built/tests/honesty/pooling/main.js [--draws N] > tests/honesty/pooling/results.md
import { parseArgs } from "node:util";
import { rowOf } from "../rows.js";
import { count as countIn, type Tallies } from "../tally.js";
import { type Kind, kinds, sizesOf, truthOf } from "./consortium.js";
import { replicate } from "./replicate.js";

const { values } = parseArgs({ options: { draws: { type: "string", default: "400" } } });
const draws = Number(values.draws);
const counts = [3, 6, 12] as const;

function talliesOf(kind: Kind, count: number): Tallies {
  const truth = truthOf(kind);
  const tallies: Tallies = {};
  for (let stream = 0; stream < draws; stream++) countIn(tallies, replicate({ kind, count, stream }, truth));
  process.stderr.write(`${kind.name}, ${count} sites\n`);
  return tallies;
}

const signed = (value: number): string => `${value < 0 ? "\u2212" : "+"}${Math.abs(value).toFixed(1)}`;

/** Coverage with its Monte Carlo error, bias and mean width in points; how many had no interval. */
function cell(name: string, tallies: Tallies): string {
  const tally = tallies[name];
  if (tally === undefined) return "";
  const row = rowOf({ part: "intervals", setting: "", figure: name, n: 0 }, tally);
  const none = 1 - row.given / row.replicates;
  const missing = none < 0.005 ? "" : `; none ${Math.round(100 * none)} %`;
  if (row.share === null) return `few${missing}`;
  const off = row.share < 0.93 && row.share < 0.95 - (3 * Math.sqrt(0.0475)) / Math.sqrt(row.given);
  const coverage = `${(100 * row.share).toFixed(1)} ± ${(100 * row.monteCarloError!).toFixed(1)}`;
  return `${off ? `**${coverage}**` : coverage}; ${signed(100 * row.bias!)}; ${(100 * row.meanWidth!).toFixed(0)}${missing}`;
}

function tableOf(kind: Kind): string {
  const found = counts.map((count) => talliesOf(kind, count));
  const names = [...new Set(found.flatMap((tallies) => Object.keys(tallies)))].sort();
  const head = `| interval | ${counts.map((count) => `${count} sites`).join(" | ")} |\n| --- |${counts.map(() => " --- |").join("")}`;
  const rows = names.map(
    (name) => `| ${[name, ...found.map((tallies) => cell(name, tallies))].join(" | ")} |`,
  );
  return `## ${kind.name[0]!.toUpperCase()}${kind.name.slice(1)}\n\n${kind.about}\n\n${[head, ...rows].join("\n")}\n`;
}

const sizes = counts.map((count) => `${count}: ${sizesOf(count).join(", ")}`).join("; ");

process.stdout.write(`# How often the intervals of pooled answers hold the truth

${draws} draws of a consortium for each kind and number of sites, by \`main.ts\`; SYNTHETIC. Injuries at its sites: ${sizes}. What is asked is the share back by week 13 of those with
a ring, and its difference from tape; where people return sooner more of them have a ring, so that rows joined as of one site mislead. In each cell: coverage of the 95 % interval in per
cent with its Monte Carlo error; bias and mean width of the interval in percentage points; "none" is the part of the draws without an interval. Bold: below 93 % by more than chance.
"Instead" marks what the toolkit does not print. The truth of a pooled share is that of the mean log odds of all sites of the kind, of a pooled difference the mean of the sites'; of a further site
its own.

${kinds.map(tableOf).join("\n")}`);
