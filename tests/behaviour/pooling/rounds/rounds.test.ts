import { describe, expect, it } from "vitest";
import { type FitFile, proposePoint, readRoundFile } from "../../../../src/pooling/rounds/index.js";
import { siteRows } from "../../../../src/pooling/rounds/site-rows.js";
import { clusteredHazardRatios } from "../../../../src/statistics/hazards/index.js";
import { tCritical, tTwoSided } from "../../../../src/statistics/shared/distributions.js";
import { acceleratedModel } from "../../../../src/statistics/survival/accelerated/index.js";
import { columnsOf } from "../../../../src/study/columns.js";
import type { Plan } from "../../../../src/study/index.js";
import { spanColumnsOf } from "../../../../src/study/spans/span-columns.js";
import { drawnPlan, drawnSites } from "../drawn-sites.js";
import { answersOf, driven, named, sha256 } from "./driven.js";

const plan = drawnPlan((read) => ({
  ...read,
  question: { ...read.question, inexact_returns: "on_one_day" },
  compare: { ...read.compare, adjust_for: ["grade", "age_at_injury"] },
}));
const sites = drawnSites({ seed: 7, injuries: 260 }, plan);

/** The rows of all sites in one list, people kept apart by site. */
function together(asked: Plan) {
  const rows = sites.flatMap(({ site, tables }) => {
    const { records, groups } = siteRows(tables, asked);
    return records.map((record, i) => ({ site, record, group: groups[i]! }));
  });
  const people = new Map<string, number>();
  const clusters = rows.map(({ site, record }) => {
    const key = `${site} ${record.person}`;
    people.set(key, people.get(key) ?? people.size);
    return people.get(key)!;
  });
  return { rows, clusters, records: rows.map(({ record }) => record) };
}

function expectClose(found: number | null, wanted: number | null | undefined): void {
  expect(found).not.toBeNull();
  expect(Math.abs(found! - wanted!)).toBeLessThanOrEqual(1e-8 * Math.max(1e-3, Math.abs(wanted!)));
}

const parameter = (fit: FitFile, name: string) => fit.parameters.find((one) => one.name === name)!;

describe("a hazards regression over rounds is that of all rows together", () => {
  const { rows, clusters, records } = together(plan);
  const keys = rows.map(({ site, record }) => `${site} ${record.covariates.grade}`);
  const codes = [...new Set(keys)];
  const { times, events, entries } = columnsOf(records, { clustered: true }).timeToEvent;
  const columns = {
    times,
    events,
    ...(entries && { entries }),
    clusters,
    strata: keys.map((key) => codes.indexOf(key)),
    covariates: {
      names: ["ring", "age"],
      columns: [
        rows.map(({ group }) => Number(group === "ring")),
        records.map(({ covariates }) => covariates.age_at_injury!),
      ],
    },
  };

  it.each(["efron", "breslow"] as const)("%s ties, clustered variance included", (ties) => {
    const { fit, points } = driven(sites, plan, { fit: "hazards", ties });
    const { fit: wanted, df, correction, hazardRatios } = clusteredHazardRatios(columns, { ties });
    expect(correction).toBe("deletion");
    expect(fit.few_people).toEqual({ correction, degrees_of_freedom: df });
    expect(fit).toMatchObject({ converged: true, events: wanted.events });
    expect(fit.people).toBe(new Set(clusters).size);
    expect(fit.people).toBeLessThan(records.length);
    ["ring beside tape", "one more of age_at_injury"].forEach((name, j) => {
      const found = parameter(fit, name);
      expectClose(found.coefficient, wanted.coefficients[j]);
      expectClose(found.standard_error, wanted.standardErrors[j]);
      expectClose(found.clustered_standard_error, hazardRatios[j]!.standardError);
      expectClose(found.lower, hazardRatios[j]!.lower);
      expectClose(found.upper, hazardRatios[j]!.upper);
      expectClose(found.p, hazardRatios[j]!.p);
    });
    expectClose(fit.log_likelihood, wanted.logLikelihood);
    // a handful of files to send, not dozens
    expect(points.length).toBeLessThanOrEqual(7);
  });
});

describe("an accelerated fit over rounds is that of all rows together", () => {
  const asked: Plan = {
    ...plan,
    question: { ...plan.question, inexact_returns: "as_spans" },
    compare: { ...plan.compare, adjust_for: ["age_at_injury"] },
  };
  const { rows, clusters, records } = together(asked);
  const { ends: _, ...spans } = spanColumnsOf(records, { shareBack: "if_no_competing_end" });
  const names = sites.map(({ site }) => site).sort();
  const columns = {
    ...spans,
    clusters,
    covariates: {
      names: ["ring", "age", ...names.slice(1)],
      columns: [
        rows.map(({ group }) => Number(group === "ring")),
        records.map(({ covariates }) => covariates.age_at_injury!),
        ...names.slice(1).map((name) => rows.map(({ site }) => Number(site === name))),
      ],
    },
  };

  it.each(["weibull", "exponential", "log-normal", "log-logistic"] as const)("%s law", (law) => {
    const { fit } = driven(sites, asked, { fit: "accelerated", law });
    const wanted = acceleratedModel(columns, { law, tolerance: 1e-12 });
    expect(wanted.rows.interval).toBeGreaterThan(20);
    expect(fit.converged).toBe(true);
    const found = ["ring beside tape", "one more of age_at_injury"].map((name) => parameter(fit, name));
    // as the row-level fit of returns between visits: people over people less parameters
    const people = new Set(clusters).size;
    const df = people - wanted.parameters;
    expect(fit.few_people).toEqual({ correction: "parameters", degrees_of_freedom: df });
    found.forEach((one, j) => {
      expectClose(one.coefficient, wanted.coefficients[j]);
      expectClose(one.standard_error, wanted.standardErrors[j]);
      const error = Math.sqrt((wanted.robustCovariance![j + 1]![j + 1]! * people) / df);
      expectClose(one.clustered_standard_error, error);
      expectClose(one.lower, Math.exp(wanted.coefficients[j]! - tCritical(0.95, df) * error));
      expectClose(one.p, tTwoSided(wanted.coefficients[j]! / error, df));
    });
    names.forEach((name, j) => {
      const own = parameter(fit, `intercept of ${name}`).coefficient!;
      expectClose(own, wanted.intercept! + (j === 0 ? 0 : wanted.coefficients[j + 1]!));
    });
    expectClose(Math.exp(parameter(fit, "log of the scale").coefficient!), wanted.scale);
    expectClose(fit.log_likelihood, wanted.logLikelihood);
  });

  it("files with many levels come back from their text as they were", () => {
    const adjusted = {
      ...asked,
      compare: { ...asked.compare, adjust_for: ["grade", "age_at_injury"] },
    } as Plan;
    const { points, answers } = driven(sites, adjusted, { fit: "accelerated", law: "log-normal" });
    for (const content of [...points, ...answers.flat()])
      expect(readRoundFile({ file: "it.json", text: JSON.stringify(content) }, sha256).content).toEqual(
        content,
      );
  });
});

describe("rounds can be taken up again, and tell what was altered", () => {
  const { points, answers, fit } = driven(sites, plan, { fit: "hazards", ties: "efron" });
  const fileOf = (content: object) => ({ file: "it.json", text: JSON.stringify(content) });

  it("the same files give the same bytes, in whatever order, and twice the same answer is one", () => {
    points.slice(1).forEach((point, i) => {
      const own = answers[i]!.map(named);
      expect(proposePoint(named(points[i]!), [...own].reverse(), sha256)).toEqual(point);
      expect(proposePoint(named(points[i]!), [...own, own[0]!], sha256)).toEqual(point);
    });
    expect(proposePoint(named(points.at(-1)!), answers.at(-1)!.map(named), sha256)).toEqual(fit);
    expect(answersOf(points[1]!, sites, plan)).toEqual(answers[1]);
  });

  it("a file comes back from its text as it was", () => {
    for (const content of [...points, ...answers.flat()])
      expect(readRoundFile(fileOf(content), sha256).content).toEqual(content);
  });

  it("refuses what was altered, whatever it was", () => {
    const [point, answer] = [points[1]!, answers[1]![0]!];
    for (const altered of [
      { ...point, shared: point.shared.map((value) => value + 1e-9) },
      { ...point, asks: "squares" },
      { ...answer, people: answer.people + 1 },
      { ...answer, log_likelihood: -1 },
      { ...answer, site: "another" },
    ])
      expect(() => readRoundFile(fileOf(altered), sha256)).toThrow(/it\.json, at sha256: .*altered/);
  });

  it("refuses an answer of an earlier round", () => {
    const replayed = [answers[0]![0]!, ...answers[1]!.slice(1)].map(named);
    expect(() => proposePoint(named(points[1]!), replayed, sha256)).toThrow(/at round: this answers round 0/);
  });

  it("refuses an answer to another point of the same round", () => {
    const other = driven(sites, plan, { fit: "hazards", ties: "breslow" });
    const mixed = [other.answers[1]![0]!, ...answers[1]!.slice(1)].map(named);
    expect(() => proposePoint(named(points[1]!), mixed, sha256)).toThrow(/at answers: this answers another/);
  });

  it("names the sites that have not answered", () => {
    const some = answers[1]!.slice(1).map(named);
    expect(() => proposePoint(named(points[1]!), some, sha256)).toThrow(
      `have not answered this point: ${answers[1]![0]!.site}.`,
    );
  });

  it("finds a site whose data changed between rounds", () => {
    const [first, ...others] = sites;
    const injuries = first!.tables.injuries.slice(1);
    const changed = [{ ...first!, tables: { ...first!.tables, injuries } }, ...others];
    expect(() => answersOf(points[1]!, changed, plan)).toThrow(/not those of the first round/);
    // also where the site does not notice, because it takes the files of the first round for its own
    const anew = answersOf(points[0]!, changed, plan)[0]!;
    const { sha256: _, ...rest } = { ...answers[1]![0]!, rows: anew.rows };
    const forged = { ...rest, sha256: "0".repeat(64) };
    expect(() =>
      proposePoint(named(points[1]!), [forged, ...answers[1]!.slice(1)].map(named), sha256),
    ).toThrow(/at rows: the rows of/);
  });

  it("names what differs between the study files", () => {
    const other: Plan = {
      ...plan,
      compare: { ...plan.compare, reference: "ring" },
      question: { ...plan.question, clock: "first_visit" },
    };
    expect(() => answersOf(points[0]!, sites, other)).toThrow(
      'asks something else: compare.reference is "ring", and "tape" in the point file; question.clock is',
    );
  });

  it("lets a site with too few people be silent", () => {
    const few = drawnSites({ seed: 7, injuries: 12 }, plan);
    expect(() => answersOf(points[0]!, few, plan)).toThrow(/it takes 7, or the sums could tell/);
  });

  it("lets no point make a single person count for all", () => {
    const far = { ...points[0]!, shared: [0, 3] };
    expect(() => answersOf(far, sites, plan)).toThrow(/more than a million times another/);
  });
});

it("a group in which nobody returned has no finite ratio, and is told so", () => {
  const never = sites.map((site) => {
    const { records, groups } = siteRows(site.tables, plan);
    const back = records.filter(({ end }, i) => groups[i] === "ring" && end === "milestone");
    const ids = new Set(back.map(({ injury }) => injury));
    const injuries = site.tables.injuries.filter(({ values }) => !ids.has(values.injury_id));
    return { ...site, tables: { ...site.tables, injuries } };
  });
  const alone: Plan = { ...plan, compare: { ...plan.compare, adjust_for: [] } };
  const { fit, points } = driven(never, alone, { fit: "hazards", ties: "efron" });
  expect(points.length).toBeLessThan(16);
  expect(fit.parameters[0]).toMatchObject({ ratio: null, reason: "monotone-likelihood" });
});
