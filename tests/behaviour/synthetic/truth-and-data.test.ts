import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { everyInjury } from "../../../src/cohort/eligible.js";
import { deriveCohort, linkTables, type OutcomeRecord, toColumns } from "../../../src/cohort/index.js";
import type { Question } from "../../../src/cohort/question.js";
import type { TypedRow } from "../../../src/schema/cells.js";
import { hazardsRegression, standardisedCurves } from "../../../src/statistics/index.js";
import { drawCohort, readScenario, trueEffects } from "../../../src/synthetic/index.js";

const url = new URL("../../../synthetic-data/registry/scenario.yaml", import.meta.url);
const written = readScenario("scenario.yaml", readFileSync(url, "utf8"));
/** Dated to the day, so that nothing but chance separates the data from the truth. */
const scenario = {
  ...written,
  injuries: 20_000,
  heaped_share: 0,
  sites: written.sites.map((site) => ({
    ...site,
    dates: { week_share: 0, month_share: 0, between_visits_share: 0 },
  })),
};
const question: Question = {
  milestone: "full_climbing",
  clock: "injury",
  entry: "clock",
  inexactDates: "midpoint",
  competingEnds: ["gave_up", "new_rupture", "died"],
  treatmentsOfInterest: ["tape", "ring", "surgery"],
  treatmentWithoutStart: "left_out",
  who: everyInjury,
  closedOn: null,
};

const typed = <Row>(rows: readonly Row[]): TypedRow<Row>[] =>
  rows.map((values, index) => ({ file: "synthetic.csv", row: index + 2, values }));
const { injuries, treatments, imaging, visits, sites } = drawCohort(scenario);
const linked = linkTables({
  injuries: typed(injuries),
  treatments: typed(treatments),
  imaging: typed(imaging),
  visits: typed(visits),
  sites: typed(sites),
  personIds: "per_site",
});
const { records, excluded } = deriveCohort(linked, question);
const compared = records.filter(
  ({ firstTreatment }) => firstTreatment === "ring" || firstTreatment === "tape",
);
const ring = Float64Array.from(compared, ({ firstTreatment }) => (firstTreatment === "ring" ? 1 : 0));
const strata = Float64Array.from(compared, ({ grade }) => ["1", "2", "3", "4a", "4b"].indexOf(grade));
const { times, events, causes } = toColumns(compared);

describe("20,000 drawn injuries, derived and analysed, against the truth of their scenario", () => {
  const truth = trueEffects(scenario, { draws: 30_000 });

  it("gives a record for each injury", () => {
    expect(excluded).toEqual([]);
    expect(records).toHaveLength(20_000);
  });

  it("proportional hazards stratified by grade find the conditional ratio", () => {
    const covariates = { names: ["ring"], columns: [ring] };
    const fit = hazardsRegression({ times, events, strata, covariates });
    const off = fit.coefficients[0]! - Math.log(truth.conditional_hazard_ratio.ring);
    expect(Math.abs(off)).toBeLessThan(4 * fit.standardErrors[0]!);
  });

  it("standardised curves find the landmark differences and the difference of restricted means", () => {
    const days = truth.standardised!.landmark_differences.map(({ day }) => day)!;
    const found = standardisedCurves(
      { times, causes, groups: ring, strata },
      { times: days, horizon: truth.horizon_days },
    );
    expect(found.shares).not.toBeNull();
    for (const [index, { difference }] of (found.shares ?? []).entries()) {
      const true_ = truth.standardised?.landmark_differences[index]?.difference;
      expect(Math.abs(difference.difference! - true_!.value!)).toBeLessThan(
        4 * Math.hypot(difference.standardError!, true_!.standard_error!),
      );
    }
    const mean = found.restrictedMean?.difference;
    const trueMean = truth.standardised?.restricted_mean_difference_days;
    expect(Math.abs(mean!.difference! - trueMean!.value!)).toBeLessThan(
      4 * Math.hypot(mean!.standardError!, trueMean!.standard_error!),
    );
  });

  it("the mean change of the loaded A2 distance, grade 3, differs by what the scenario says", () => {
    const changes = (treatment: string) =>
      compared
        .filter((record) => record.grade === "3" && record.firstTreatment === treatment)
        .flatMap(changeOf);
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const found = mean(changes("ring")) - mean(changes("tape"));
    // Spread of a change: sqrt(0.25^2 + 2 x 0.15^2) = 0.33 mm, in more than 1,000 injuries a group.
    expect(Math.abs(found - truth.distance_change_difference_mm)).toBeLessThan(0.05);
  });
});

const changeOf = ({ distances }: OutcomeRecord): number[] =>
  distances
    .filter(
      ({ pulley, position, followUpMm }) => pulley === "A2" && position === "loaded" && followUpMm !== null,
    )
    .map(({ baselineMm, followUpMm }) => followUpMm! - baselineMm);
