// The draws as two tables: each way of knowing under days and under spans, and every rule over all of them.
// node tests/honesty/built/tests/honesty/inexact-returns/table.js < draws.jsonl > tests/honesty/inexact-returns/results.md
import { readFileSync } from "node:fs";
import type { Drawn, Path } from "./draw.js";

const draws = readFileSync(0, "utf8")
  .split("\n")
  .filter((line) => line.endsWith("}"))
  .map((line) => JSON.parse(line) as Drawn);

type Choice = (drawn: Drawn) => Path;
const spansIf =
  (holds: (known: { readonly wide: number; readonly days: number }) => boolean): Choice =>
  ({ wideShare, meanWide }) =>
    holds({ wide: wideShare ?? 0, days: meanWide ?? 0 }) ? "spans" : "days";

/** By what is known of the returns: share of wide spans, and days of wide spans a return. */
const rules: Readonly<Record<string, Choice>> = {
  "days throughout": () => "days",
  "spans throughout": () => "spans",
  "spans from 1 in 10, or 3 days a return": spansIf(({ wide, days }) => wide > 0.1 || days > 3),
  "spans from 2 in 10": spansIf(({ wide }) => wide > 0.2),
  "spans from 3 in 10": spansIf(({ wide }) => wide > 0.3),
  "spans from 3 in 10, or 15 days a return (taken)": spansIf(({ wide, days }) => wide > 0.3 || days > 15),
  "spans from 4 in 10": spansIf(({ wide }) => wide > 0.4),
  "spans from 5 in 10": spansIf(({ wide }) => wide > 0.5),
};

const kinds = [
  { name: "difference", of: /^difference/ },
  { name: "shares", of: /^share/ },
  { name: "half back", of: /^half/ },
] as const;

/** Errors and how often intervals held of one kind of figure in some cohorts under a choice. */
function foundOf(
  cohorts: readonly Drawn[],
  { of, choice }: { readonly of: RegExp; readonly choice: Choice },
) {
  const found = cohorts.flatMap((drawn) =>
    Object.entries(drawn.figures)
      .filter(([figure]) => of.test(figure))
      .map(([, paths]) => paths[choice(drawn)]),
  );
  const errors = found.flatMap(({ error }) => error ?? []);
  const held = found.flatMap(({ holds }) => holds ?? []);
  const mean = errors.reduce((sum, one) => sum + one, 0) / errors.length;
  const square = errors.reduce((sum, one) => sum + one * one, 0) / errors.length;
  return {
    bias: `${mean < 0 ? "\u2212" : "+"}${Math.abs(mean).toFixed(1)}`,
    error: Math.sqrt(square).toFixed(1),
    coverage: ((100 * held.filter((one) => one).length) / held.length).toFixed(0),
  };
}

const row = (cells: readonly (string | number)[]): string => `| ${cells.join(" | ")} |`;
const headed = (head: readonly string[], rows: readonly string[]): string =>
  [row(head), row(head.map(() => "---")), ...rows].join("\n");

const knowing = [...new Set(draws.map(({ program }) => program.split("; ")[0]!))];
const courses = [...new Set(draws.map(({ program }) => program.split("; ")[1]!))];
const cellOf = ({ bias, error, coverage }: ReturnType<typeof foundOf>): string =>
  `${bias}, ${error}, ${coverage} %`;

const byKnowing = knowing.flatMap((known) =>
  [40, 80, 200].map((n) => {
    const own = draws.filter((drawn) => drawn.n === n && drawn.program.startsWith(`${known}; `));
    return row([
      known,
      n,
      own.length,
      ...kinds.flatMap(({ of }) =>
        (["days", "spans"] as const).map((path) => cellOf(foundOf(own, { of, choice: () => path }))),
      ),
    ]);
  }),
);

const byRule = courses.flatMap((course) =>
  Object.entries(rules).map(([name, choice]) => {
    const own = draws.filter(({ program }) => program.includes(`; ${course}; `));
    return row([course, name, ...kinds.map(({ of }) => cellOf(foundOf(own, { of, choice })))]);
  }),
);

process.stdout.write(`# Returns known only to spans: on days, or as spans?

${draws.length} cohorts by \`main.ts\`, SYNTHETIC. Each way of knowing stands for four courses of what really happens: log-normal times or two waves (no law of the toolkit is like
them), ring sooner by a quarter or nothing different. In each cell: bias, root mean square error, coverage of the 95 % interval; of the difference of shares by week 13 grade for grade
and of the groups' shares in percentage points, of the times by which half were back in days.

## Each way of knowing

${headed(
  ["returns", "n", "cohorts", ...kinds.flatMap(({ name }) => [`${name}, days`, `${name}, spans`])],
  byKnowing,
)}

## Rules, over all ways of knowing and sizes

${headed(["course", "rule", ...kinds.map(({ name }) => name)], byRule)}
`);
