import { fQuantile, fUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import type { MeanSquares } from "./mean-squares.js";

/** One form of the correlation with its interval and test. */
export interface IntraclassForm {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Of the hypothesis that the correlation is `against`; one-sided, larger correlations count. */
  readonly f: number | null;
  readonly df1: number | null;
  readonly df2: number | null;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** For one reading, and for the mean of as many readings as there are raters. */
export interface IntraclassPair {
  readonly single: IntraclassForm;
  readonly average: IntraclassForm;
}

/** What the forms share: the table, the null value, and the share of F below the upper point. */
interface Setting {
  readonly table: MeanSquares;
  readonly against: number;
  readonly upperShare: number;
}

type Part<Key extends keyof IntraclassForm> = Pick<IntraclassForm, Key>;

export const formWithout = (reason: Reason): IntraclassForm => ({
  ...pointOf(null, null),
  ...noTest,
  reason,
});

const noTest: Part<"f" | "df1" | "df2" | "p"> = { f: null, df1: null, df2: null, p: null };

/** An estimate with its limits; both null, both there. */
const pointOf = (
  estimate: number | null,
  limits: readonly [number, number] | null,
): Part<"estimate" | "lower" | "upper"> => ({
  estimate,
  lower: limits?.[0] ?? null,
  upper: limits?.[1] ?? null,
});

/** F = numerator over denominator; none where the denominator is 0. */
function testOf(
  squares: { readonly numerator: number; readonly denominator: number },
  df: { readonly numerator: number; readonly denominator: number },
): Part<"f" | "df1" | "df2" | "p"> {
  if (!(squares.denominator > 0)) return noTest;
  const f = squares.numerator / squares.denominator;
  return { f, df1: df.numerator, df2: df.denominator, p: fUpperTail(f, df) };
}

/** Subjects whose mean square is a smaller part of the error do not differ but for rounding. */
const flat = 1e-24;

/** One-way and consistency: all that matters is B over the error. */
export function ratioForms(
  { table, against, upperShare }: Setting,
  { error, errorDf }: { readonly error: number; readonly errorDf: number },
): IntraclassPair {
  const { betweenSubjects: b, raters: k } = table;
  const df = { numerator: table.subjects - 1, denominator: errorDf };
  if (error === 0) {
    const form = { ...pointOf(b > 0 ? 1 : null, null), ...noTest, reason: "no-variance" } as const;
    return { single: form, average: form };
  }
  const ratio = b / error;
  const low = ratio / fQuantile(upperShare, df);
  const high = ratio * fQuantile(upperShare, { numerator: errorDf, denominator: df.numerator });
  if (!(ratio > flat)) {
    // no subject differs from another: the limits would fall on the least value that there is
    const test = testOf({ numerator: 0, denominator: error }, df);
    const single = { ...pointOf(-1 / (k - 1), null), ...test, reason: "no-variance" } as const;
    return { single, average: { ...single, estimate: null } };
  }
  const single = {
    ...pointOf((b - error) / (b + (k - 1) * error), [(low - 1) / (low + k - 1), (high - 1) / (high + k - 1)]),
    ...testOf({ numerator: b * (1 - against), denominator: error * (1 + (k - 1) * against) }, df),
    reason: null,
  };
  const ofAverage = testOf({ numerator: b * (1 - against), denominator: error }, df);
  const average = {
    ...pointOf((b - error) / b, [1 - 1 / low, 1 - 1 / high]),
    ...ofAverage,
    reason: null,
  };
  return { single, average };
}

/** Agreement: the raters' mean square is part of the error. */
export function agreementForms(setting: Setting): IntraclassPair {
  const { table, against } = setting;
  const { subjects: n, raters: k, betweenSubjects: b, betweenRaters: j, residual: e } = table;
  const ofMean = b + (j - e) / n;
  const ofOne = b + (k - 1) * e + (k * (j - e)) / n;
  if (b === 0 && e === 0 && j === 0)
    return { single: formWithout("no-variance"), average: formWithout("no-variance") };
  const estimate = ofOne > 0 ? (b - e) / ofOne : null;
  const limits = estimate === null ? null : agreementLimits(setting, estimate);
  const stepped = ofMean > 0 && limits !== null ? averageLimits(limits, k) : null;
  const odds = against / (n * (1 - against));
  const test = { one: agreementTest(table, k * odds), mean: agreementTest(table, odds) };
  return {
    single: {
      ...pointOf(estimate, limits),
      ...test.one,
      reason:
        estimate === null ? "not-positive" : limits === null || test.one.f === null ? "no-variance" : null,
    },
    average: {
      ...pointOf(ofMean > 0 ? (b - e) / ofMean : null, stepped),
      ...test.mean,
      reason:
        stepped === null && !(ofMean > 0 && limits === null)
          ? "not-positive"
          : stepped === null || test.mean.f === null
            ? "no-variance"
            : null,
    },
  };
}

/** Spearman-Brown step; none from a lower limit below -1 / (k - 1), which no correlation can reach and where the step has no value. */
function averageLimits(limits: readonly [number, number], k: number): readonly [number, number] | null {
  const step = (single: number): number => (k * single) / (1 + (k - 1) * single);
  return 1 + (k - 1) * limits[0] > 0 ? [step(limits[0]), step(limits[1])] : null;
}

/**
 * Limits with Satterthwaite's degrees of freedom; every term is multiplied by E or divided by F beforehand, so that E = 0
 * and an infinite F are no special cases. Null where the raters' part and the residual leave no degrees of freedom.
 */
function agreementLimits({ table, upperShare }: Setting, estimate: number): readonly [number, number] | null {
  const { subjects: n, raters: k, betweenSubjects: b, betweenRaters: j, residual: e } = table;
  const fromRaters = k * estimate * j;
  const fromResidual = (n * (1 + (k - 1) * estimate) - k * estimate) * e;
  const spread = (n - 1) * fromRaters ** 2 + fromResidual ** 2;
  const df = ((k - 1) * (n - 1) * (fromRaters + fromResidual) ** 2) / spread;
  if (!(spread > 0 && df > 0)) return null;
  const divisor = fQuantile(upperShare, { numerator: n - 1, denominator: df });
  const factor = fQuantile(upperShare, { numerator: df, denominator: n - 1 });
  const rest = k * j + (k * n - k - n) * e;
  const lower = (n * (b / divisor - e)) / (rest + (n * b) / divisor);
  const upper = (n * (factor * b - e)) / (rest + n * factor * b);
  return Number.isFinite(lower) && Number.isFinite(upper) && b > flat * e ? [lower, upper] : null;
}

/** F = B / (a J + c E) with Satterthwaite's degrees of freedom; a = 0 is the test against no correlation. */
function agreementTest(table: MeanSquares, a: number): Part<"f" | "df1" | "df2" | "p"> {
  const { subjects: n, raters: k, betweenSubjects: b, betweenRaters: j, residual: e } = table;
  const fromRaters = a * j;
  const fromResidual = (1 + a * (n - 1)) * e;
  const plainDf = (n - 1) * (k - 1);
  const denominator = fromRaters + fromResidual;
  const df = a === 0 ? plainDf : denominator ** 2 / (fromRaters ** 2 / (k - 1) + fromResidual ** 2 / plainDf);
  return testOf({ numerator: b, denominator }, { numerator: n - 1, denominator: df });
}
