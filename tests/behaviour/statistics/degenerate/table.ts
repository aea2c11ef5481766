import { ArgumentError } from "../../../../src/statistics/index.js";
import { type Case, type Cohort, cases, type Subject } from "./cases.js";
import type { Row } from "./row.js";
import { accuracyRows } from "./rows-accuracy.js";
import { agreementRows } from "./rows-agreement.js";
import { causeRows } from "./rows-causes.js";
import { clusteredRows } from "./rows-clustered.js";
import { curveRows } from "./rows-curves.js";
import { exactPoolingRows } from "./rows-exact-pooling.js";
import { groupRows } from "./rows-groups.js";
import { hazardRows } from "./rows-hazards.js";
import { intervalRows } from "./rows-intervals.js";
import { poolingRows } from "./rows-pooling.js";
import { regressionRows } from "./rows-regressions.js";
import { resamplingRows } from "./rows-resampling.js";
import { shareRows } from "./rows-shares.js";
import { stateRows } from "./rows-states.js";
import { valueRows } from "./rows-values.js";
import { deepFreeze, walk } from "./walker.js";

/** The rows of the table. */
export const table: readonly Row[] = [
  ...curveRows,
  ...causeRows,
  ...stateRows,
  ...groupRows,
  ...hazardRows,
  ...intervalRows,
  ...regressionRows,
  ...valueRows,
  ...shareRows,
  ...resamplingRows,
  ...agreementRows,
  ...accuracyRows,
  ...clusteredRows,
  ...exactPoolingRows,
  ...poolingRows,
];

export type Given = readonly unknown[];
export const call = ({ of }: Row, given: Given): unknown => (of as (...given: Given) => unknown)(...given);

/** The arguments with one value of them replaced, all else the same objects. */
function replaced(given: unknown, path: readonly string[], value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  const copy = (Array.isArray(given) ? [...given] : { ...given! }) as Record<string, unknown>;
  copy[step] = replaced(copy[step], rest, value);
  return copy;
}
export const at = (given: unknown, path: string): unknown =>
  path.split(".").reduce((within, step) => (within as Record<string, unknown>)?.[step], given);
export const set = (given: Given, path: string, value: unknown): Given =>
  replaced(given, path.split("."), value) as Given;

const wordOf = (error: ArgumentError): string =>
  error.index === null ? `! ${error.argument}` : `! ${error.argument}[${error.index}]`;

/** What comes of a call, in the words of the table. */
export function outcome(row: Row, given: Given, cohort: Cohort): { word: string; faults: readonly string[] } {
  const before = JSON.stringify(given);
  let answer: unknown;
  try {
    answer = call(row, deepFreeze(given));
  } catch (error) {
    if (error instanceof ArgumentError) return { word: wordOf(error), faults: [] };
    return { word: `threw ${String(error)}`, faults: [] };
  }
  const read = row.read as ((answer: unknown, cohort: Cohort) => unknown) | undefined;
  const { faults, reasons } = walk(read ? read(answer, cohort) : answer, row.nulls ?? [], row.onePoint);
  const changed = JSON.stringify(given) === before ? [] : ["the arguments were changed"];
  return { word: [...reasons].sort().join(" + ") || "ok", faults: [...faults, ...changed] };
}

export const casesOf = ({ subjects }: Row): readonly Case[] =>
  (Object.keys(cases) as Case[]).filter((name) => ["rows", ...subjects].includes(cases[name].subject));

/** Columns that a case is about, where they may be left out. */
const columnOf: Partial<Record<Subject, string>> = {
  weights: "0.weights",
  persons: "0.clusters",
  strata: "0.strata",
};

/** Arguments for a case; columns that may be left out are there where the case is about them. */
export function givenFor(row: Row, name: Case): Given {
  const { cohort, subject } = cases[name];
  const every = name === "every column that may be left out";
  return Object.entries(row.optional ?? {})
    .filter(([path]) => every || path === columnOf[subject])
    .reduce((given, [path, column]) => set(given, path, column(cohort.records)), row.given(cohort));
}

/** What the table states of a case. */
export const statedFor = ({ outcomes }: Row, name: Case): string =>
  Object.entries(outcomes).find(([, names]) => names.includes(name))?.[0] ?? "ok";
