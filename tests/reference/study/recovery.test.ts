import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { deriveCohort, linkTables } from "../../../src/cohort/index.js";
import { effectsOf } from "../../../src/study/effects.js";
import { compared } from "../../../src/study/groups.js";
import { answer, type EffectResult, readPlan } from "../../../src/study/index.js";
import { pairsOf } from "../../../src/study/pairs.js";
import { specificationOf } from "../../../src/study/specification.js";
import { drawCohort, readScenario, type Truth } from "../../../src/synthetic/index.js";

/*
 * The synthetic registry drawn again and again: the study must find what is true in the scenario, on average over the
 * draws, and its 95 % intervals must hold the truth about 95 times in 100.
 * The truth comes from another road, a large simulation of the scenario (truth.json, with its Monte Carlo error).
 */
const folder = new URL("../../../synthetic-data/registry/", import.meta.url);
const text = (name: string) => readFileSync(new URL(name, folder), "utf8");
const truth: Truth = JSON.parse(text("truth.json"));
const replicates = 120;

const scenario = readScenario("scenario.yaml", text("scenario.yaml"));
const plan = readPlan("study.yaml", text("study.yaml"));

/** The rows of a draw as the cohort layer takes them; that files lead to the same rows is checked with the ingest. */
function studyOfDraw(seed: number) {
  const cohort = drawCohort(scenario, { seed });
  const typed = <Row>(rows: readonly Row[]) =>
    rows.map((values, at) => ({ file: "drawn", row: at + 2, values }));
  const { injuries, treatments, imaging, visits, sites } = cohort;
  const tables = {
    injuries: typed(injuries),
    treatments: typed(treatments),
    imaging: typed(imaging),
    visits: typed(visits),
    sites: typed(sites),
    personIds: "per_site" as const,
  };
  return { tables, plan: { ...plan, data: { ...plan.data, closed_on: cohort.closedOn } } };
}

/** The effects of a draw alone: all else that a study answers would take three quarters of the time. */
function effectsOfDraw(seed: number): readonly EffectResult[] {
  const { tables, plan: closed } = studyOfDraw(seed);
  const specification = { ...specificationOf(closed), path: "days" as const };
  const { records } = deriveCohort(linkTables(tables), specification.question);
  return effectsOf(pairsOf(compared(records, specification), specification), specification);
}

/** Estimates of one effect over the draws, as differences from the truth on the scale of its interval. */
interface Recovery {
  readonly bias: number;
  readonly monteCarloError: number;
  readonly coverage: number;
}

function recoveryOf(
  draws: readonly (readonly EffectResult[])[],
  { find, truthOf }: { find: (effect: EffectResult) => boolean; truthOf: (effect: EffectResult) => number },
): Recovery {
  const found = draws.map((effects) => effects.find(find)!).filter(({ estimate }) => estimate.value !== null);
  expect(found.length).toBeGreaterThan(0.95 * replicates);
  const scale = (effect: EffectResult, value: number) => (effect.unit === "ratio" ? Math.log(value) : value);
  const errors = found.map(
    (effect) => scale(effect, effect.estimate.value!) - scale(effect, truthOf(effect)),
  );
  const bias = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const variance = errors.reduce((sum, error) => sum + (error - bias) ** 2, 0) / (errors.length - 1);
  const covered = found.filter((effect) => {
    const wanted = truthOf(effect);
    return effect.estimate.lower! <= wanted && wanted <= effect.estimate.upper!;
  });
  return {
    bias,
    monteCarloError: Math.sqrt(variance / errors.length),
    coverage: covered.length / found.length,
  };
}

/** The true contrast over the grades that a study has used: the others, by name, were left out. */
function overUsedGrades(
  effect: EffectResult,
  of: (contrast: NonNullable<Truth["standardised"]>) => number,
): number {
  const left = effect.left_out.map(({ stratum }) => stratum.replace("grade ", ""));
  const used = truth.by_grade.filter(({ grade, contrast }) => contrast !== null && !left.includes(grade));
  const whole = used.reduce((sum, { weight }) => sum + weight, 0);
  return used.reduce((sum, { weight, contrast }) => sum + (weight / whole) * of(contrast!), 0);
}

describe(`the synthetic registry, ${replicates} draws`, () => {
  let draws: (readonly EffectResult[])[] = [];
  beforeAll(() => {
    draws = Array.from({ length: replicates }, (_, at) => effectsOfDraw(1000 + at));
  }, 120_000);

  /** A mean of many draws lies within 3.5 of its Monte Carlo errors of the truth, but for 1 in 2,000 such checks. */
  const within = ({ bias, monteCarloError }: Recovery) =>
    expect(Math.abs(bias)).toBeLessThan(3.5 * monteCarloError);
  /** 95 % of the draws, give or take 3.3 binomial standard errors. */
  const covers = ({ coverage }: Recovery) => {
    expect(coverage).toBeGreaterThan(0.95 - 3.3 * Math.sqrt((0.95 * 0.05) / replicates));
    expect(coverage).toBeLessThanOrEqual(1);
  };

  it("the effects of a draw are those of its whole study", () => {
    const { tables, plan: closed } = studyOfDraw(1000);
    expect(draws[0]).toEqual(answer({ tables, accounts: [], queries: [] }, closed).effects);
  });

  it("grade for grade, the share back by 13 weeks differs as in the truth", () => {
    const recovery = recoveryOf(draws, {
      find: ({ id }) => id === "landmark_difference:ring-tape:day-91:adjusted",
      truthOf: (effect) =>
        overUsedGrades(
          effect,
          (contrast) => contrast.landmark_differences.find(({ day }) => day === 91)!.difference.value,
        ),
    });
    within(recovery);
    covers(recovery);
  });

  it("grade for grade, the restricted mean differs as in the truth", () => {
    const recovery = recoveryOf(draws, {
      find: ({ id }) => id === "restricted_mean_difference:ring-tape:day-182:adjusted",
      truthOf: (effect) =>
        overUsedGrades(effect, (contrast) => contrast.restricted_mean_difference_days.value),
    });
    within(recovery);
    covers(recovery);
  });

  it("within grades, the hazard ratio is the scenario's own", () => {
    const recovery = recoveryOf(draws, {
      find: ({ id }) => id === "hazard_ratio:ring-tape:adjusted",
      truthOf: () => truth.conditional_hazard_ratio.ring,
    });
    within(recovery);
    covers(recovery);
  });

  it("the crude restricted mean is led astray by grade just as the truth says, and away from the fair one", () => {
    const recovery = recoveryOf(draws, {
      find: ({ id }) => id === "restricted_mean_difference:ring-tape:day-182:crude",
      truthOf: () => truth.crude!.restricted_mean_difference_days.value,
    });
    within(recovery);
    expect(truth.crude!.restricted_mean_difference_days.value).toBeGreaterThan(0);
    expect(truth.standardised!.restricted_mean_difference_days.value).toBeLessThan(0);
  });

  it("the change of distance differs as in the scenario but for its cut-off readings", () => {
    const recovery = recoveryOf(draws, {
      find: ({ id }) => id === "distance_change_difference:ring-tape:adjusted",
      truthOf: () => truth.distance_change_difference_mm,
    });
    // the scenario keeps readings above 0.3 mm and above the one at rest, which takes a little from a large fall
    expect(Math.abs(recovery.bias)).toBeLessThan(0.15 * Math.abs(truth.distance_change_difference_mm));
    expect(recovery.coverage).toBeGreaterThan(0.8);
  });
});
