import { isOff, type Row } from "./rows.js";

export interface Run {
  /** The day it was run on, as the caller says. */
  readonly on: string;
  readonly version: string;
  readonly settings: readonly { readonly name: string; readonly about: string }[];
  readonly sizes: readonly number[];
}

const percent = (share: number): string => (100 * share).toFixed(1);

function cell(row: Row | undefined): string {
  if (row === undefined) return "";
  const missing = 1 - row.given / row.replicates;
  const none = missing >= 0.005 ? `; none ${Math.round(100 * missing)} %` : "";
  if (row.share === null) return `few${none}`;
  const figure = `${percent(row.share)} ± ${percent(row.monteCarloError ?? 0)}`;
  return `${isOff(row) ? `**${figure}**` : figure}${none}`;
}

function table(rows: readonly Row[], sizes: readonly number[]): string {
  const figures = [...new Set(rows.map(({ figure }) => figure))];
  const lines = figures.map((figure) => {
    const cells = sizes.map((n) => cell(rows.find((row) => row.figure === figure && row.n === n)));
    return `| ${[figure, ...cells].join(" | ")} |`;
  });
  const head = `| figure | ${sizes.map((n) => `n = ${n}`).join(" | ")} |\n| --- |${sizes.map(() => " --- |").join("")}`;
  return `${head}\n${lines.join("\n")}`;
}

/** The rows as a page. */
export function pageOf(rows: readonly Row[], { on, version, settings, sizes }: Run): string {
  const parts = settings.map(({ name, about }) => {
    const own = rows.filter(({ setting }) => setting === name);
    const replicates = own[0]?.replicates ?? 0;
    return `## ${name[0]!.toUpperCase()}${name.slice(1)}\n\n${about} ${replicates} replicates a size.\n\n${table(own, sizes)}\n`;
  });
  return `# How often the intervals hold the truth

Made by \`npm run honesty\`, version ${version}${on === "" ? "" : `, on ${on}`}; SYNTHETIC cohorts, truth known from the scenario. n is the number of injuries in all.
A cell is the coverage of the 95 % interval in percent (for tests: the share of p below 0.05) with its Monte Carlo standard error, among the replicates in
which there was an interval; "none" is the share of replicates without one. Bold: off by more than 2 points and by more than twice the
Monte Carlo error. "Instead" marks an interval that the toolkit does not print, counted beside the one it prints. results.json has bias,
width and the two sides of the misses.

${parts.join("\n")}`;
}
