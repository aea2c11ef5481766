import { type Committed, isOff, isShort, keyOf, type PooledRow, pooled, type Row } from "./rows.js";
import type { Setting } from "./setting.js";

const percent = (share: number): string => (100 * share).toFixed(1);
const signed = (value: number): string => `${value < 0 ? "\u2212" : "+"}${Math.abs(value).toFixed(1)}`;

function cell(row: Row | undefined): string {
  if (row === undefined) return "";
  const bias =
    row.part === "sentences" && row.bias !== null
      ? `; bias ${signed(row.bias)} ± ${(row.biasError ?? 0).toFixed(1)}`
      : "";
  return coverageCell(row, { isMarked: isOff(row), bias });
}

function coverageCell(
  { share, monteCarloError, given, replicates }: PooledRow,
  { isMarked, bias }: { readonly isMarked: boolean; readonly bias: string },
): string {
  const missing = 1 - given / replicates;
  const none = missing >= 0.005 ? `; none ${Math.round(100 * missing)} %` : "";
  if (share === null) return `few${none}`;
  const figure = `${percent(share)} ± ${percent(monteCarloError ?? 0)}`;
  return `${isMarked ? `**${figure}**` : figure}${bias}${none}`;
}

function table(
  { figures, sizes }: { readonly figures: readonly string[]; readonly sizes: readonly number[] },
  cellOf: (at: { readonly figure: string; readonly n: number }) => string,
): string {
  const lines = figures.map(
    (figure) => `| ${[figure, ...sizes.map((n) => cellOf({ figure, n }))].join(" | ")} |`,
  );
  const head = `| figure | ${sizes.map((n) => `n = ${n}`).join(" | ")} |\n| --- |${sizes.map(() => " --- |").join("")}`;
  return `${head}\n${lines.join("\n")}`;
}

const figuresOf = (rows: readonly Row[]): readonly string[] => [...new Set(rows.map(({ figure }) => figure))];

/** Each sentence over all programs whose data have the days and allow an answer: what a reader can count on. */
function together(rows: readonly Row[], settings: readonly Setting[]): string {
  const names = new Set(settings.filter(({ allows }) => allows === "days").map(({ name }) => name));
  const own = rows.filter(({ part, setting }) => part === "sentences" && names.has(setting));
  const { sizes } = settings[0]!;
  return table({ figures: figuresOf(own), sizes }, ({ figure, n }) => {
    const row = pooled(own.filter((one) => one.figure === figure && one.n === n));
    return row === null ? "" : coverageCell(row, { isMarked: isShort(row), bias: "" });
  });
}

const whatIsMissing: Readonly<Record<Setting["allows"], string>> = {
  days: "",
  visits: " (returns known between visits only)",
  "no answer": " (these data allow no answer)",
};

/** Which sentences hold the truth too seldom, setting by setting: said in words, so that nobody must find them among the numbers. */
function misses(rows: readonly Row[], settings: readonly Setting[]): string {
  const lines = settings.flatMap(({ part, name, allows }) => {
    const short = rows.filter((row) => row.part === part && row.setting === name && isShort(row));
    const told = figuresOf(short).map((figure) => {
      const at = short.filter((row) => row.figure === figure);
      return `${figure}: ${at.map((row) => `${percent(row.share!)} % at n = ${row.n}`).join(", ")}`;
    });
    return told.length === 0 ? [] : [`- **${name}**${whatIsMissing[allows]}: ${told.join("; ")}.`];
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
    about: `Cohorts of \`synthetic/\`, their truth known from the scenario; fields of the results are judged. For tests a cell is the share of p below 0.05 where nothing differs.
A share back is a share of everybody: whoever gave up or ruptured the finger anew before being back counts as not back, unless the setting says otherwise.`,
  },
] as const;

/** The committed rows as a page. */
export function pageOf({ rows, runs }: Committed, settings: readonly Setting[]): string {
  const told = parts.flatMap(({ part, title, about }) => {
    const own = settings.filter(
      (setting) => setting.part === part && runs[keyOf({ part, setting: setting.name })],
    );
    if (own.length === 0) return [];
    const summary = part === "sentences" ? `\n${summaryOf(rows, own)}` : "";
    const single = own.map((setting) => settingOnPage(setting, { rows, runs })).join("\n");
    return [`## ${title}\n\n${about}\n${summary}\n${single}`];
  });
  return `# How often the intervals hold the truth

Made by \`npm run honesty\`; SYNTHETIC cohorts, invented persons. n is the number of injuries in all.
A cell is the coverage of the 95 % interval in percent with its Monte Carlo standard error, among the replicates in
which there was an interval; "none" is the share of replicates without one, "few" stands where fewer than 50 had one. Bold: off by more than 2 points and by more than twice
the Monte Carlo error. "Instead" marks an interval that the toolkit does not print, counted beside the one it prints. results.json has bias, width and the two sides
of the misses.

${told.join("\n")}`;
}

const summaryOf = (rows: readonly Row[], settings: readonly Setting[]): string =>
  `### All programs together in which the days are known and the data allow an answer

Bold: below 95 % by more than 2 points and by more than three times the Monte Carlo error.

${together(rows, settings)}

### Sentences that hold the truth too seldom

Those below 95 % by more than 2 points and by more than three times the Monte Carlo error.

${misses(rows, settings)}
`;

function settingOnPage({ part, name, about, sizes }: Setting, { rows, runs }: Committed): string {
  const own = rows.filter((row) => row.part === part && row.setting === name);
  const { version, on, checked } = runs[keyOf({ part, setting: name })]!;
  const again =
    checked === undefined
      ? ""
      : ` Run again on ${checked.on} with ${checked.replicates} replicates; figures that then lay more than two Monte Carlo errors from these: ${checked.apart} of ${checked.figures}, the furthest ${checked.largest.toFixed(1)} errors.`;
  const made = `${own[0]?.replicates ?? 0} replicates a size, version ${version}${on === "" ? "" : `, on ${on}`}.${again}`;
  const cells = table({ figures: figuresOf(own), sizes }, ({ figure, n }) =>
    cell(own.find((row) => row.figure === figure && row.n === n)),
  );
  return `### ${name[0]!.toUpperCase()}${name.slice(1)}\n\n${about} ${made}\n\n${cells}\n`;
}
