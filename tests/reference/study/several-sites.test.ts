import { beforeAll, describe, expect, it } from "vitest";
import type { EffectResult, Results } from "../../../src/study/index.js";
import { csv, resultsOfSites } from "../../behaviour/run/site-files.js";
import { injury, on, treated } from "../../behaviour/study/hand-made.js";
import {
  type Expected,
  expectClose,
  type Row,
  referenceFile,
  referenceRows,
} from "../statistics/reference-data.js";

const names = ["north", "south", "east", "west"];
const rows = referenceRows("pooling_rows", "rows.csv");
const expected: Expected = referenceFile("pooling_rows");

const filesOf = (site: string) => {
  const own = rows.map((row, i) => ({ ...row, id: String(i) }) as Row).filter((row) => row.site === site);
  return {
    [`${site}/injuries.csv`]: csv(
      own.map(({ id, time, event, grade }) =>
        injury(id!, {
          grade: grade!,
          full_climbing_date: event === "1" ? on(Number(time)) : "",
          last_contact_date: on(event === "1" ? 500 : Number(time)),
        }),
      ),
    ),
    [`${site}/treatments.csv`]: csv(
      own.map(({ id, group }) => treated(id!, group === "1" ? "ring" : "tape")),
    ),
  };
};
const study = `study: four-sites
title: Four sites
data:
  from_sites:
${names.map((site) => `    - { site: ${site}, injuries: ${site}/injuries.csv, treatments: ${site}/treatments.csv }`).join("\n")}
landmarks_weeks: [10]
main_landmark_weeks: 10
`;

let results: Results;
beforeAll(async () => {
  results = await resultsOfSites({ "study.yaml": study, ...Object.assign({}, ...names.map(filesOf)) });
});

const effectOf = (effects: readonly EffectResult[], measure: EffectResult["measure"]) =>
  effects.find((one) => one.measure === measure && one.adjusted_for.length > 0)!;

function expectAnswer(effects: readonly EffectResult[], { hazard, standardised }: Expected): void {
  if (hazard !== undefined) {
    const ratio = effectOf(effects, "hazard_ratio");
    expect(Number(ratio.n.compared) + Number(ratio.n.reference)).toBe(hazard.n);
    // Newton's method stops at 1e-9 on the log scale
    for (const [found, wanted, what] of [
      [ratio.estimate.value, hazard.ratio, "ratio"],
      [ratio.standard_error, hazard.se, "error"],
      [ratio.estimate.lower, hazard.lower, "lower"],
      [ratio.estimate.upper, hazard.upper, "upper"],
    ] as const)
      expectClose(found, wanted, { rel: 1e-6, what });
  }
  if (standardised === undefined) return;
  const share = effectOf(effects, "landmark_difference");
  const mean = effectOf(effects, "restricted_mean_difference");
  expect(share.strata_used).toHaveLength(standardised.strata);
  expectClose(share.estimate.value, standardised.share, { rel: 1e-9, what: "share" });
  expectClose(share.standard_error, standardised.share_se, { rel: 1e-9, what: "error of the share" });
  expectClose(mean.estimate.value, standardised.mean, { rel: 1e-9, what: "mean" });
  expectClose(mean.standard_error, standardised.mean_se, { rel: 1e-9, what: "error of the mean" });
}

describe("rows of four sites in one stage against R 4.2.2 and survival 3.5.3", () => {
  it("stratified by site and grade", () => expectAnswer(results.effects, expected.joined));

  it.each(names)("without %s", (site) => {
    const { effects } = results.sites!.without.find((one) => one.site === site)!;
    expectAnswer(
      effects,
      expected.without.find((one: Expected) => one.site === site),
    );
  });

  it.each(names)("%s by itself, stratified by grade", (site) => {
    const { effects, landmarks } = results.sites!.answers.find((one) => one.site === site)!;
    const wanted = expected.alone.find((one: Expected) => one.site === site);
    expectClose(landmarks[0]!.returned.value, wanted.share, { rel: 1e-12, what: "share" });
    expectAnswer(effects, wanted);
  });

  it("with a gamma frailty of the site in the place of its stratum", () => {
    const { n, hazard_ratio, variance } = results.sites!.frailty[0]!;
    expect(n).toBe(expected.frailty.n);
    // R's search for the variance of a frailty stops by its own rule
    expectClose(variance.value, expected.frailty.variance, { rel: 1e-3, what: "variance" });
    expectClose(hazard_ratio.value, expected.frailty.ratio, { rel: 1e-4, what: "ratio" });
  });
});
