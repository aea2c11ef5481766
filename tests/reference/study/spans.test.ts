import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { resultsSchema } from "../../../src/study/index.js";
import { withoutSmallCells } from "../../../src/study/small-cells/index.js";
import { lawsChosen, lawWords, timeRatioWords } from "../../../src/words/known-returns.js";
import { injury, on, type Row, resultsOf, treated } from "../../behaviour/study/hand-made.js";

const file = (name: string) => new URL(`../data/spans/${name}`, import.meta.url);
const rowsOf = (name: string): Row[] => {
  const [head, ...lines] = readFileSync(file(name), "utf8").trim().split("\n");
  const names = head!.split(",");
  return lines.map((line) => Object.fromEntries(line.split(",").map((cell, at) => [names[at]!, cell])));
};

/** A row of the reference as the injuries table has it: a date, or two bounds, or none. */
function injuryOf({ id, sex, left, right }: Row): Row {
  const at = (day: string) => on(Number(day));
  const known: Row =
    right === "NA"
      ? { full_climbing_not_before: at(left!), last_contact_date: at(left!) }
      : left === right
        ? { full_climbing_date: at(right!), last_contact_date: at(right!) }
        : {
            ...(left === "0" ? {} : { full_climbing_not_before: at(left!) }),
            full_climbing_not_after: at(right!),
            last_contact_date: at(right!),
          };
  return injury(id!, { sex: sex!, full_climbing_date: "", ...known });
}

const study: NonNullable<Parameters<typeof resultsOf>[2]> = {
  compare: { by: "sex", groups: ["female", "male"], reference: "male", adjust_for: [], within: null },
  landmarks_weeks: [13],
};
const injuries = rowsOf("injuries.csv").map(injuryOf);
const resultsFor = (rows: readonly Row[], plan: Parameters<typeof resultsOf>[2]) =>
  resultsOf(
    rows,
    rows.map((row) => treated(row.injury_id!, "tape")),
    plan,
  );

describe("returns known only between visits, through the whole study layer", () => {
  const results = resultsFor(injuries, study);
  const compared = results.curves.find(({ family }) => family === "compared")!;

  it("keeps the spans by the rule, and every row is used or set aside", () => {
    const { path, because, groups } = results.known_returns;
    expect(path).toBe("spans");
    expect(because).toContain("wide_share");
    expect(groups.map(({ to_the_day, narrow, wide, n }) => to_the_day + narrow + wide - n)).toEqual([
      0, 0, 0,
    ]);
    for (const { read, used, set_aside } of results.accounting.tables) expect(used + set_aside).toBe(read);
    expect(results.accounting.comparison.compared).toBe(40);
  });

  it("AIC of each law: survreg with interval data (R package survival, make.R)", () => {
    const names: Row = { lognormal: "log-normal", loglogistic: "log-logistic", weibull: "weibull" };
    for (const { law, aic } of rowsOf("expected.csv")) {
      const own = compared.model!.laws.find((one) => one.law === names[law!])!;
      expect(Math.abs(own.aic! / Number(aic) - 1)).toBeLessThan(1e-6);
    }
  });

  it("shares and medians of the chosen law: survreg; the median is read off whole weeks, within a tenth of a day", () => {
    const chosen = compared.model!.law!.replace("-", "");
    const expected = rowsOf("expected.csv").find(({ law }) => law === chosen)!;
    for (const { label, landmarks, quantiles } of compared.curves) {
      // the share is a sum over steps of the curve
      expect(Math.abs(landmarks[0]!.returned.value! - Number(expected[`share_${label}`]))).toBeLessThan(1e-4);
      const half = quantiles.find(({ share }) => share === 0.5)!.days.value!;
      expect(Math.abs(half - Number(expected[`median_${label}`]))).toBeLessThan(0.1);
    }
    const difference = results.effects.find(({ measure }) => measure === "landmark_difference")!;
    expect(difference.estimate.value).toBeCloseTo(
      Number(expected.share_female) - Number(expected.share_male),
      4,
    );
  });

  /* Student's t with 40 - 3 degrees of freedom is 2.026192 at 95 % (qt in R 4.2.2); the error has the factor 40 / 37. */
  it("the ratio of times of the chosen law: survreg's coefficient and its error", () => {
    const model = compared.model!;
    const expected = rowsOf("expected.csv").find(({ law }) => law === model.law!.replace("-", ""))!;
    const [value, error] = [Number(expected.log_ratio), Number(expected.log_ratio_error)];
    expect(model.form).toBe("together");
    const [told] = model.time_ratios;
    expect(told).toMatchObject({ compared: "female", reference: "male" });
    const { ratio, p } = told!;
    expect(Math.log(ratio.value!)).toBeCloseTo(value, 5);
    const half = 2.026192 * error * Math.sqrt(40 / 37);
    expect(Math.log(ratio.upper!) - Math.log(ratio.value!)).toBeCloseTo(half, 4);
    expect(p! < 0.05).toBe(ratio.upper! < 1);
    expect(timeRatioWords(compared, results.plan)).toMatch(
      /^As if no other end came, times to a return were 0\.\d+ times as long in female climbers as in male climbers \(95\s% confidence interval .*; p .*\)\.$/,
    );
  });

  it("warns that the groups were seen on unlike schedules, and gives no hazard ratio", () => {
    expect(results.warnings.map(({ code }) => code)).toContain("unlike-schedules");
    const ratio = results.effects.find(({ measure }) => measure === "hazard_ratio")!;
    expect(ratio.estimate).toEqual({ value: null, lower: null, upper: null, reason: "between-visits" });
    for (const { p, reason } of results.tests) expect([p, reason]).toEqual([null, "between-visits"]);
  });

  it("with every return known to the day the rule leaves figures as they are on one day", () => {
    const exact = injuries.map((row) => ({
      ...row,
      full_climbing_date: row.full_climbing_date || row.full_climbing_not_after || "",
      full_climbing_not_before: "",
      full_climbing_not_after: "",
    }));
    const byRule = resultsFor(exact, study);
    const onDays = resultsFor(exact, { ...study, question: { inexact_returns: "on_one_day" } });
    expect(byRule.known_returns.path).toBe("days");
    expect(byRule.curves).toEqual(onDays.curves);
    expect(byRule.effects).toEqual(onDays.effects);
  });

  it("a group in which nobody returned keeps its curve and gives reasons, never a number", () => {
    const none = injuries.map((row, i) =>
      row.sex === "male"
        ? injury(`n${i}`, { sex: "male", full_climbing_date: "", last_contact_date: on(200) })
        : row,
    );
    const { curves, effects } = resultsFor(none, { ...study, question: { inexact_returns: "as_spans" } });
    const male = curves
      .find(({ family }) => family === "compared")!
      .curves.find(({ label }) => label === "male")!;
    expect(male.landmarks[0]!.returned.value).toBe(0);
    const difference = effects.find(({ measure }) => measure === "landmark_difference")!;
    expect(difference.estimate.reason).toBe("no-events");
  });

  /* p is 1 less the level of the interval that comes to 0, by the definition of both. */
  it("a difference has the p of its interval: at the level 1 - p a limit is 0", () => {
    const own = results.effects.filter(({ method, p }) => method === "accelerated_model" && p !== null);
    expect(own.map(({ measure }) => measure)).toEqual(
      expect.arrayContaining(["landmark_difference", "restricted_mean_difference"]),
    );
    for (const { id, estimate, p } of own) {
      expect(p! < 0.05).toBe(estimate.lower! > 0 || estimate.upper! < 0);
      const { effects } = resultsFor(injuries, { ...study, confidence_level: 1 - p! });
      const { lower, upper } = effects.find((one) => one.id === id)!.estimate;
      expect(Math.min(Math.abs(lower!), Math.abs(upper!))).toBeLessThan(1e-6);
    }
  });

  it("with small cells left out no count of fewer than five is told, nor any figure without a reason", () => {
    const told = withoutSmallCells(results, { people: 5, injuries: 5, rows: {} });
    resultsSchema.parse(told);
    const { readings, most_open, groups } = told.known_returns;
    expect([readings, most_open]).toEqual([[], null]);
    for (const { to_the_day, narrow, wide, n } of groups)
      for (const count of [to_the_day, narrow, wide, n])
        if (typeof count === "number" && count > 0) expect(count).toBeGreaterThanOrEqual(5);
    for (const { model, curves } of told.curves) {
      expect(model?.other_ends ?? []).toEqual([]);
      // four digits at most: many would give the times away
      for (const { aic } of model?.laws ?? []) expect(aic).toBe(Number(aic!.toPrecision(4)));
      for (const { alone, restricted_mean: mean } of curves) {
        expect(alone).toBeNull();
        if (mean.days.value === null) expect(mean.days.reason).not.toBeNull();
      }
    }
    for (const { estimate, p } of told.effects)
      expect([estimate.value, p].includes(null) ? estimate.reason : "given").not.toBeNull();
    expect(told.loss_bounds).toBeNull();
  });

  it("a report says by which law, with which AIC", () => {
    const { law, aic } = compared.model!;
    expect(lawsChosen(results.curves)).toContain(
      `groups compared, crude: ${lawWords[law!]}, AIC ${aic!.toFixed(1)}`,
    );
  });
});

describe("a mean time that hangs on few who are never back", () => {
  const early = Array.from({ length: 24 }, (_, i) =>
    injury(`e${i}`, {
      sex: i % 2 === 0 ? "female" : "male",
      full_climbing_date: on(20 + i),
      last_contact_date: on(250),
    }),
  );
  const meanOf = (rows: readonly Row[]) =>
    resultsFor(rows, study).curves.find(({ family }) => family === "all")!.curves[0]!.restricted_mean.days;

  /* None of 24 never back: up to 1 - 0.025^(1/24) = 14 % may be (exact limit); each such counts with 182 days instead of about 31. */
  it("has no limits where everybody was back soon, and has them where many were not", () => {
    expect(meanOf(early)).toMatchObject({ lower: null, upper: null, reason: "few-not-back" });
    const slow = early.map((row, i) =>
      i % 3 === 0 ? { ...row, full_climbing_date: "", last_contact_date: on(250) } : row,
    );
    const { lower, upper, reason } = meanOf(slow);
    expect([lower !== null, upper !== null, reason]).toEqual([true, true, null]);
  });

  it("nor has a difference of two such means", () => {
    const { effects } = resultsFor(early, study);
    const difference = effects.find(({ measure }) => measure === "restricted_mean_difference")!;
    expect(difference).toMatchObject({ p: null, estimate: { lower: null, reason: "few-not-back" } });
  });
});
