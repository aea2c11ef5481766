import { describe, expect, it } from "vitest";
import {
  hazardModel,
  predictedCurves,
  type StandardisedPredictions,
  standardisedPredictions,
} from "../../../../src/statistics/hazards/index.js";
import { type Generator, type HazardColumns, seededGenerator } from "../../../../src/statistics/index.js";

/** Two fingers a person, alike in age and frailty; treated fingers return sooner. */
function invented(random: Generator, people: number): HazardColumns & { readonly clusters: number[] } {
  const rows = Array.from({ length: people }, (_, person) => {
    const age = random.normal();
    const frailty = 0.6 * random.normal();
    return Array.from({ length: 2 }, () => {
      const treated = random.uniform() < 0.5 ? 1 : 0;
      const event = (-Math.log(random.uniform()) * 60) / Math.exp(0.7 * treated - 0.4 * age + frailty);
      const censored = 150 * random.uniform();
      return {
        person,
        age,
        treated,
        time: Math.ceil(Math.min(event, censored)),
        event: event <= censored ? 1 : 0,
      };
    });
  }).flat();
  return {
    times: rows.map(({ time }) => time),
    events: rows.map(({ event }) => event),
    clusters: rows.map(({ person }) => person),
    covariates: {
      names: ["treated", "age"],
      columns: [rows.map(({ treated }) => treated), rows.map(({ age }) => age)],
    },
  };
}

const question = {
  settings: [
    { name: "not treated", values: { treated: 0 } },
    { name: "treated", values: { treated: 1 } },
  ],
  times: [30, 60],
  horizon: 90,
};

/** Estimates in one order: shares, restricted means, their differences. */
const figures = ({ settings, contrasts }: StandardisedPredictions): { estimate: number; error: number }[] => [
  ...settings.flatMap(({ notYet, restrictedMean }) =>
    [...notYet, ...(restrictedMean ? [restrictedMean] : [])].map((mean) => ({
      estimate: mean.estimate,
      error: mean.standardError,
    })),
  ),
  ...contrasts.flatMap(({ differences, restrictedMean }) =>
    [...differences, ...(restrictedMean ? [restrictedMean.difference] : [])].map(
      ({ difference, standardError }) => ({
        estimate: difference!,
        error: standardError!,
      }),
    ),
  ),
];

describe("standardised predictions", () => {
  it.each(["efron", "breslow"] as const)(
    "one row as population: the predicted curve and its standard error, %s",
    (ties) => {
      const { clusters: _clusters, ...columns } = invented(seededGenerator(5, 0), 40);
      const model = hazardModel(columns, { ties });
      const found = standardisedPredictions(model, {
        ...question,
        population: { covariates: { names: ["treated", "age"], columns: [[0], [0.5]] } },
      });
      const { curves } = predictedCurves(model, {
        rows: [
          [0, 0.5],
          [1, 0.5],
        ],
        times: question.times,
      });
      curves.forEach(({ notYet, standardError }, s) => {
        notYet.forEach((share, at) => {
          expect(found.settings[s]?.notYet[at]?.estimate).toBeCloseTo(share, 12);
          expect(found.settings[s]?.notYet[at]?.standardError).toBeCloseTo(standardError[at]!, 12);
        });
      });
    },
  );

  it("the restricted mean is the area under the shares day by day", () => {
    const model = hazardModel(invented(seededGenerator(6, 0), 30));
    const times = Array.from({ length: 90 }, (_, day) => day);
    const { settings } = standardisedPredictions(model, { ...question, times });
    for (const { notYet, restrictedMean } of settings)
      expect(notYet.reduce((sum, { estimate }) => sum + estimate, 0)).toBeCloseTo(
        restrictedMean!.estimate!,
        9,
      );
  });

  it("each row its own cluster and weights all 2: as with weights 1", () => {
    const columns = invented(seededGenerator(7, 0), 30);
    const own = { ...columns, clusters: columns.clusters.map((_, row) => row) };
    const once = standardisedPredictions(hazardModel(own), question);
    const twice = standardisedPredictions(
      hazardModel({ ...own, weights: own.clusters.map(() => 2) }),
      question,
    );
    figures(once).forEach(({ estimate, error }, at) => {
      expect(figures(twice)[at]?.estimate).toBeCloseTo(estimate, 10);
      expect(figures(twice)[at]?.error).toBeCloseTo(error, 10);
    });
  });

  it.each(["model", "clustered"] as const)(
    "standard errors, %s: those of 300 bootstrap replicates within a fifth",
    (variance) => {
      const random = seededGenerator(8, 0);
      const people = 120;
      const whole = invented(random, people);
      const rowsOf = (person: number): number[] => [2 * person, 2 * person + 1];
      const single = variance === "model";
      const pick = (rows: readonly number[]): HazardColumns => ({
        times: rows.map((row) => whole.times[row]!),
        events: rows.map((row) => whole.events[row]!),
        covariates: {
          names: ["treated", "age"],
          columns: whole.covariates.columns.map((column) => rows.map((row) => column[row]!)),
        },
        ...(!single && { clusters: rows.map((_, at) => at >> 1) }),
      });
      const all = Array.from({ length: people }, (_, person) => person);
      const rows = (drawn: readonly number[]): number[] =>
        single ? drawn.map((p) => 2 * p) : drawn.flatMap(rowsOf);
      // the covariates averaged over stay those of the sample: that is what the variance is conditional on
      const { covariates: population } = pick(rows(all));
      const answer = (drawn: readonly number[]) =>
        figures(
          standardisedPredictions(hazardModel(pick(rows(drawn))), {
            ...question,
            population: { covariates: population },
          }),
        );
      const found = answer(all);
      const replicates = Array.from({ length: 300 }, () => answer(all.map(() => random.integer(people))));
      found.forEach(({ error }, at) => {
        const values = replicates.map((one) => one[at]!.estimate!);
        const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
        const spread = Math.sqrt(
          values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1),
        );
        expect(error / spread, `figure ${at}`).toBeGreaterThan(0.8);
        expect(error / spread, `figure ${at}`).toBeLessThan(1.2);
      });
    },
  );
});
