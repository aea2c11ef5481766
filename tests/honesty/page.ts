import { type Committed, isOff, isShort, keyOf, type Row } from "./rows.js";
import type { Setting } from "./setting.js";

const percent = (share: number): string => (100 * share).toFixed(1);
const signed = (value: number): string => `${value < 0 ? "\u2212" : "+"}${Math.abs(value).toFixed(1)}`;

function cell(row: Row | undefined): string {
  if (row === undefined) return "";
  const missing = 1 - row.given / row.replicates;
  const none = missing >= 0.005 ? `; none ${Math.round(100 * missing)} %` : "";
  if (row.share === null) return `few${none}`;
  const figure = `${percent(row.share)} ± ${percent(row.monteCarloError ?? 0)}`;
  const bias =
    row.part === "sentences" && row.bias !== null
      ? `; bias ${signed(row.bias)} ± ${(row.biasError ?? 0).toFixed(1)}`
      : "";
  return `${isOff(row) ? `**${figure}**` : figure}${bias}${none}`;
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

/** Which sentences hold the truth too seldom, setting by setting: said in words, so that nobody must find them among the numbers. */
function misses(rows: readonly Row[], settings: readonly Setting[]): string {
  const lines = settings.flatMap(({ part, name }) => {
    const short = rows.filter((row) => row.part === part && row.setting === name && isShort(row));
    const figures = [...new Set(short.map(({ figure }) => figure))].map((figure) => {
      const at = short.filter((row) => row.figure === figure);
      return `${figure}: ${at.map((row) => `${percent(row.share!)} % at n = ${row.n}`).join(", ")}`;
    });
    return figures.length === 0 ? [] : [`- **${name}**: ${figures.join("; ")}.`];
  });
  return lines.length === 0 ? "None." : lines.join("\n");
}

const parts = [
  {
    part: "sentences",
    title: "The printed sentences",
    about: `Cohorts from programs that share no code with the toolkit (\`cohorts/\`) are written as CSV tables and a study file, read, answered and told. The figure and the interval
are taken from the words and tables that a reader sees. The truth is what the sentence speaks of: who was really back, whether or not the clinic got to know of it,
computed from a very large draw of the same program. Figures are in their printed units, and so is the bias, the mean of the printed figure less the truth, with its Monte
Carlo error; "none" is the share of reports whose sentence says that the figure cannot be given, or gives no interval.`,
  },
  {
    part: "intervals",
    title: "The intervals and tests of the methods",
    about: `Cohorts of \`synthetic/\`, their truth known from the scenario; fields of the results are judged. For tests a cell is the share of p below 0.05 where nothing differs.`,
  },
] as const;

/** The committed rows as a page. */
export function pageOf({ rows, runs }: Committed, settings: readonly Setting[]): string {
  const told = parts.flatMap(({ part, title, about }) => {
    const own = settings.filter(
      (setting) => setting.part === part && runs[keyOf({ part, setting: setting.name })],
    );
    if (own.length === 0) return [];
    const short =
      part === "sentences" ? `\n### Sentences that hold the truth too seldom\n\n${misses(rows, own)}\n` : "";
    return [
      `## ${title}\n\n${about}\n${short}\n${own.map((setting) => settingOnPage(setting, { rows, runs })).join("\n")}`,
    ];
  });
  return `# How often the intervals hold the truth

Made by \`npm run honesty\`; SYNTHETIC cohorts, invented persons. n is the number of injuries in all.
A cell is the coverage of the 95 % interval in percent with its Monte Carlo standard error, among the replicates in
which there was an interval; "none" is the share of replicates without one, "few" stands where fewer than 50 had one. Bold: off by more than 2 points and by more than twice
the Monte Carlo error. "Instead" marks an interval that the toolkit does not print, counted beside the one it prints. results.json has bias, width and the two sides
of the misses.

${told.join("\n")}`;
}

function settingOnPage({ part, name, about, sizes }: Setting, { rows, runs }: Committed): string {
  const own = rows.filter((row) => row.part === part && row.setting === name);
  const { version, on } = runs[keyOf({ part, setting: name })]!;
  const made = `${own[0]?.replicates ?? 0} replicates a size, version ${version}${on === "" ? "" : `, on ${on}`}.`;
  return `### ${name[0]!.toUpperCase()}${name.slice(1)}\n\n${about} ${made}\n\n${table(own, sizes)}\n`;
}
