import { ArgumentError } from "../../../../src/statistics/index.js";
import { wellFormed } from "./cases.js";
import type { Holds, Row } from "./row.js";
import { at, call, type Given, set } from "./table.js";

/** A call that must be refused, and how. */
export interface Trial {
  readonly what: string;
  readonly given: Given;
  /** Argument that the error must name, and the index where there is one. */
  readonly argument: string;
  readonly index: number | null;
  /** The length of another column may be called wrong instead: both are as likely. */
  readonly orAnother: boolean;
}

/** Values that a column of each kind must refuse. */
const refused: Readonly<Record<Holds, readonly number[]>> = {
  finite: [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
  "not negative": [Number.NaN, Number.POSITIVE_INFINITY, -1],
  "zero or one": [Number.NaN, Number.POSITIVE_INFINITY, -1, 0.5, 2],
  code: [Number.NaN, Number.POSITIVE_INFINITY, 0.5],
  count: [Number.NaN, Number.POSITIVE_INFINITY, -1, 0.5],
  // a test that had no p-value has null
  "p-value": [Number.NaN, Number.POSITIVE_INFINITY, -0.1, 1.1],
  "end of an interval": [Number.NaN],
  // a site without one has null, one that tells nothing an infinite one
  "site estimate": [Number.NaN],
  "site variance": [Number.NaN, -1],
  "site share": [Number.NaN, Number.POSITIVE_INFINITY, -1],
  "median time": [Number.NaN, Number.POSITIVE_INFINITY, -1, 0],
};

const mayBeNull: readonly Holds[] = [
  "end of an interval",
  "p-value",
  "site estimate",
  "site variance",
  "site share",
  "median time",
];

const whole = (row: Row): Given => row.given(wellFormed);
/** The arguments with an optional column in them, where the path is one. */
const withColumn = (row: Row, path: string): Given => {
  const column = row.optional?.[path];
  return column === undefined ? whole(row) : set(whole(row), path, column(wellFormed.records));
};

function ofColumn(row: Row, [path, held]: readonly [string, Row["columns"][string]]): readonly Trial[] {
  const [holds, argument] = typeof held === "string" ? [held, path.slice(path.lastIndexOf(".") + 1)] : held;
  const given = withColumn(row, path);
  const values = Array.from(at(given, path) as ArrayLike<number | null>);
  const index = Math.min(1, values.length - 1);
  const optional = row.optional?.[path] !== undefined || row.mayBeLeftOut?.includes(path) === true;
  const holes = mayBeNull.includes(holds) ? [] : [null, undefined];
  const odd = [...refused[holds], ...holes].map((value) => ({
    what: `${argument}[${index}] = ${value}`,
    given: set(
      given,
      path,
      values.map((one, place) => (place === index ? value : one)),
    ),
    argument,
    index,
    orAnother: false,
  }));
  const whollyWrong = [null, ...(optional ? [] : [undefined]), "text", 7].map((value) => ({
    what: `${argument} is ${typeof value === "string" ? `"${value}"` : value}`,
    given: set(given, path, value),
    argument,
    index: null,
    orAnother: false,
  }));
  const short = row.ofAnyLength?.includes(path)
    ? []
    : [
        {
          what: `${argument} is one value short`,
          given: set(given, path, values.slice(1)),
          argument,
          index: null,
          orAnother: true,
        },
      ];
  const late =
    path === "0.entries"
      ? [
          {
            what: "entries[1] at its own time",
            given: set(
              given,
              path,
              values.map((one, place) => (place === 1 ? wellFormed.records[1]!.time : one)),
            ),
            argument,
            index: 1,
            orAnother: false,
          },
        ]
      : [];
  return [...odd, ...whollyWrong, ...short, ...late];
}

const ofNumber = (row: Row, [path, values]: readonly [string, readonly unknown[]]): readonly Trial[] =>
  values.map((value) => {
    const argument = row.called?.[path] ?? path.slice(path.lastIndexOf(".") + 1);
    return {
      what: `${argument} = ${value}`,
      given: set(whole(row), path, value),
      argument,
      index: null,
      orAnother: false,
    };
  });

/** A regression without covariates at all. */
const ofCovariates = (row: Row): readonly Trial[] =>
  !Object.keys(row.columns).some((path) => path.startsWith("0.covariates."))
    ? []
    : [null, ...(row.mayBeLeftOut?.includes("0.covariates") ? [] : [undefined])].map((value) => ({
        what: `covariates is ${value}`,
        given: set(whole(row), "0.covariates", value),
        argument: "covariates.names",
        index: null,
        orAnother: false,
      }));

/** Everything that a function must refuse. */
export const trialsOf = (row: Row): readonly Trial[] => [
  ...ofCovariates(row),
  ...Object.entries(row.columns).flatMap((column) => ofColumn(row, column)),
  ...Object.entries(row.numbers ?? {}).flatMap((number) => ofNumber(row, number)),
];

/** How a trial ended: the words of the error, or what went wrong. */
export function ending(row: Row, { given, argument, index, orAnother }: Trial): string {
  let answer: unknown;
  try {
    answer = call(row, given);
  } catch (error) {
    if (!(error instanceof ArgumentError)) return `threw ${String(error)}`;
    const right = error.argument === argument && error.index === index;
    return right || (orAnother && error.index === null) ? "refused" : `refused with: ${error.message}`;
  }
  return `answered ${JSON.stringify(answer)?.slice(0, 120)}`;
}
