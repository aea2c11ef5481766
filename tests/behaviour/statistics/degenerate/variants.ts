import type { Case } from "./cases.js";
import type { Row } from "./row.js";
import { set, table } from "./table.js";

/** A row of the table once more with other options, and the cases that then come out otherwise. */
interface Variant {
  readonly of: string;
  readonly options: Readonly<Record<string, unknown>>;
  /** As `outcomes` of a row, "ok" for a full answer; all other cases as in the row itself. */
  readonly otherwise?: Readonly<Record<string, readonly Case[]>>;
  /** Further `nulls` and `onePoint` than the row itself has. */
  readonly nulls?: readonly string[];
  readonly onePoint?: readonly string[];
}

const kinds = ["equal-precision", "hall-wellner"] as const;
const scales = ["plain", "log-log", "arcsine", "log", "logit"] as const;

const variants: readonly Variant[] = [
  { of: "productLimit", options: { variance: "robust" } },
  { of: "cumulativeIncidence", options: { variance: "aalen" } },
  {
    of: "grayTest",
    options: { cause: 2, rho: 1 },
    otherwise: {
      "no-variance": ["two rows"],
      "no-events": [
        "everybody has the event at one time",
        "one cause only",
        "one group after the other",
        "the common incidence passes 1",
      ],
      ok: ["the cause asked for never seen"],
    },
  },
  ...kinds.flatMap((kind) => scales.map((scale) => ({ of: "simultaneousBand", options: { kind, scale } }))),
  {
    of: "hazardsRegression",
    options: { ties: "exact" },
    otherwise: {
      "! weights": ["every column that may be left out", "a weight of zero", "all weights zero"],
      "monotone-likelihood": ["all events at one time", "a single time", "time zero throughout"],
      collinear: ["everybody has the event at one time"],
      "! clusters": ["one person only", "two persons only", "each row its own person"],
    },
  },
  { of: "proportionalityTest", options: { method: "approximation-1994" } },
  {
    of: "acceleratedModel",
    options: { law: "exponential" },
    otherwise: {
      collinear: ["one row", "two rows", "all rows alike"],
      ok: ["a single time", "everybody has the event at one time"],
    },
    nulls: ["logScale", "logScaleStandardError"],
  },
  { of: "acceleratedModel", options: { law: "log-normal" } },
  {
    of: "acceleratedModel",
    options: { law: "log-logistic" },
    otherwise: { "monotone-likelihood": ["a single time"] },
  },
  {
    of: "linearRegression",
    options: { variance: "hc3" },
    otherwise: {
      "! variance": [
        "every column that may be left out",
        "one person only",
        "two persons only",
        "each row its own person",
      ],
    },
  },
  {
    of: "logisticRegression",
    options: { interval: "profile" },
    otherwise: {
      "! interval": [
        "every column that may be left out",
        "one person only",
        "two persons only",
        "each row its own person",
      ],
    },
  },
  {
    of: "logisticRegression",
    options: { penalty: "firth" },
    otherwise: {
      "no-variance": [
        "nothing wrong",
        "every column that may be left out",
        "ties everywhere",
        "a covariate tells the outcome",
        "a covariate almost tells the outcome",
        "a covariate in a huge unit",
        "a covariate far from zero",
        "one state only",
        "the other state only",
        "the reading tells the state",
        "a weight of zero",
        "each row its own person",
      ],
      "collinear + no-variance": [
        "one row",
        "two rows",
        "all rows alike",
        "constant covariate",
        "collinear covariates",
      ],
      "no-variance + too-few-rows": ["one person only", "two persons only"],
    },
    nulls: ["aic", "concordance"],
  },
  { of: "mixedRegression", options: { inference: "satterthwaite" } },
  { of: "mixedRegression", options: { inference: "normal" }, nulls: ["terms[].df"] },
  {
    of: "raterComponents",
    options: { model: "one-way" },
    otherwise: { ok: ["readings differ by a constant"] },
  },
  { of: "kappa", options: { weights: "linear" } },
  ...["wilson-continuity", "exact", "agresti-coull", "jeffreys"].map((method) => ({
    of: "proportionInterval",
    options: { method },
  })),
  // nobody or everybody: the well-known weakness of this interval, which would be one point
  {
    of: "proportionInterval",
    options: { method: "wald" },
    otherwise: {
      "no-variance": ["one row", "all rows alike", "one state only", "the other state only"],
    },
  },
];

function asRow({ of, options, otherwise = {}, nulls = [], onePoint = [] }: Variant): Row {
  const row = table.find(({ name }) => name === of)!;
  const moved = Object.values(otherwise).flat();
  const kept = Object.entries(row.outcomes).map(
    ([word, names]) => [word, names.filter((name) => !moved.includes(name))] as const,
  );
  const words = [...new Set([...Object.keys(row.outcomes), ...Object.keys(otherwise)])];
  return {
    ...row,
    name: `${of} with ${JSON.stringify(options)}`,
    given: (cohort) =>
      Object.entries(options).reduce(
        (given, [name, value]) => set(given, `1.${name}`, value),
        row.given(cohort),
      ),
    nulls: [...(row.nulls ?? []), ...nulls],
    onePoint: [...(row.onePoint ?? []), ...onePoint],
    outcomes: Object.fromEntries(
      words.map((word) => [word, [...(Object.fromEntries(kept)[word] ?? []), ...(otherwise[word] ?? [])]]),
    ),
  };
}

/** Every row of the table, and those with other options. */
export const tableWithVariants: readonly Row[] = [...table, ...variants.map(asRow)];
