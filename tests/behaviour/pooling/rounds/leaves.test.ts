import { describe, expect, it } from "vitest";
import { checkReturns } from "../../../../src/pooling/rounds/check-sums.js";
import {
  answerPoint,
  type FitFile,
  firstPoint,
  type PointFile,
  proposePoint,
} from "../../../../src/pooling/rounds/index.js";
import { siteRows } from "../../../../src/pooling/rounds/site-rows.js";
import { clusteredHazardRatios } from "../../../../src/statistics/hazards/index.js";
import { columnsOf } from "../../../../src/study/columns.js";
import { type DrawnSite, drawnPlan, drawnSites } from "../drawn-sites.js";
import { answersOf, driven, named, sha256, smallestCell } from "./driven.js";

const plan = drawnPlan((read) => ({
  ...read,
  question: { ...read.question, inexact_returns: "on_one_day" },
  compare: { ...read.compare, adjust_for: ["age_at_injury"] },
}));
const sites = drawnSites({ seed: 7, injuries: 260 }, plan);
const kind = { fit: "hazards", ties: "efron" } as const;
const first = firstPoint(plan, { kind, smallestCell, sha256 });

/** The site without the injuries for which the test holds, of those that its fit has. */
function without(site: DrawnSite, isGone: (row: { group: string; back: boolean; nth: number }) => boolean) {
  const { records, groups } = siteRows(site.tables, plan);
  const seen = new Map<string, number>();
  const gone = new Set(
    records.flatMap(({ injury, end }, i) => {
      const [group, back] = [groups[i]!, end === "milestone"];
      const nth = seen.get(`${group} ${back}`) ?? 0;
      seen.set(`${group} ${back}`, nth + 1);
      return isGone({ group, back, nth }) ? [injury] : [];
    }),
  );
  const injuries = site.tables.injuries.filter(({ values }) => !gone.has(values.injury_id));
  return { ...site, tables: { ...site.tables, injuries } };
}

const answered = ({ site, tables }: DrawnSite, own: object = {}, point: PointFile = first) =>
  answerPoint(named(point), { site, tables, plan, ...own }, sha256);

const isSmall = (count: number): boolean => count > 0 && count < smallestCell;

describe("no answer tells a count of fewer people than the smallest cell", () => {
  it.each(sites.map((site) => [site.site, site] as const))("%s, however few are not back", (_, site) => {
    for (let left = 0; left < 8; left++) {
      const fewer = without(site, ({ back, nth }) => !back && nth >= left);
      const { records } = siteRows(fewer.tables, plan);
      const back = records.filter(({ end }) => end === "milestone").length;
      const { n, events, people } = answered(fewer);
      expect(events).toBe(isSmall(records.length - back) ? null : back);
      expect(n).toBe(isSmall(records.length - people) ? null : records.length);
      for (const count of [people, events ?? 0, n === null ? 0 : n - people])
        expect(isSmall(count)).toBe(false);
      if (n !== null && events !== null) expect(isSmall(n - events)).toBe(false);
    }
  });

  it("refuses where few have returned, or nobody", () => {
    const few = without(
      sites[0]!,
      ({ back, group, nth }) => back && (group === "ring" ? nth >= 3 : nth >= 1),
    );
    expect(() => answered(few)).toThrow(/4 returns for the fit; with a smallest cell of 5 it takes 5/);
    const site = { n: 30, events: 0, people: 30, smallest: smallestCell, model: first.model };
    expect(() => checkReturns("p.json", site)).toThrow(/nobody has returned at this site/);
  });

  it("refuses where all of a small site have returned", () => {
    const small = without(sites[0]!, ({ back, group, nth }) => group !== "ring" || !back || nth >= 8);
    expect(() => answered(small)).toThrow(/all have returned among the 8 people of this site/);
  });

  it("takes the site's own smallest cell where that is the larger one", () => {
    expect(() => answered(sites[0]!, { smallestCell: 500 })).toThrow(/a smallest cell of 500 it takes 502/);
    expect(answered(sites[0]!, { smallestCell: 1 })).toEqual(answered(sites[0]!));
  });
});

it("a group of few people at a site is left out there, and the fit is that of the other rows", () => {
  const [one, ...others] = sites;
  const few = without(one!, ({ group, nth }) => group === "ring" && nth >= 2);
  const rows = siteRows(few.tables, plan);
  const ringed = rows.groups.filter((group) => group === "ring").length;
  expect(isSmall(ringed)).toBe(true);
  const { fit, answers } = driven([few, ...others], plan, kind);
  const own = answers[0]!.find(({ site }) => site === one!.site)!;
  expect(own.left_out).toBeNull();
  // all rows together, but for those of the small group
  const all = [few, ...others].flatMap(({ site, tables }, place) => {
    const { records, groups } = siteRows(tables, plan);
    return records.flatMap((record, i) =>
      place === 0 && groups[i] === "ring"
        ? []
        : [{ place, key: `${site} ${record.person}`, record, group: groups[i]! }],
    );
  });
  const keys = [...new Set(all.map(({ key }) => key))];
  const records = all.map(({ record }) => record);
  const { times, events, entries } = columnsOf(records, { clustered: true }).timeToEvent;
  const { hazardRatios } = clusteredHazardRatios({
    times,
    events,
    ...(entries && { entries }),
    clusters: all.map(({ key }) => keys.indexOf(key)),
    strata: all.map(({ place }) => place),
    covariates: {
      names: ["ring", "age"],
      columns: [
        all.map(({ group }) => Number(group === "ring")),
        records.map(({ covariates }) => covariates.age_at_injury!),
      ],
    },
  });
  fit.parameters.forEach(({ ratio, lower }, j) => {
    expect(ratio).toBeCloseTo(hazardRatios[j]!.estimate!, 9);
    expect(lower).toBeCloseTo(hazardRatios[j]!.lower!, 8);
  });
  expect(fit.people).toBe(keys.length);
});

describe("the last round asks about deletions, and a site holds the sums of all against its own", () => {
  const { points, answers, fit } = driven(sites, plan, kind);
  const last = points.at(-1)!;
  const { maximum } = last;

  it.each([
    [
      "an information that is less than the site's own",
      {
        ...maximum!,
        information: [
          [1, 0],
          [0, 1],
        ],
      },
    ],
    ["a score that is no maximum's", { ...maximum!, score: [3, 3] }],
    ["one that is not symmetric in size", { ...maximum!, information: [[1]] }],
    ["parameters that are not there", { ...maximum!, free: [0, 7] }],
    ["no parameters", { ...maximum!, free: [] }],
  ])("refuses %s", (_, forged) => {
    expect(() => answersOf({ ...last, maximum: forged }, sites, plan)).toThrow(
      /at maximum: the sums of all sites do not go with/,
    );
  });

  it("says how many numbers left each site: those of its answers that it had not sent before", () => {
    const own = answers.map((round) => round[0]!);
    const half = (matrix: readonly (readonly number[])[] | null) =>
      matrix === null ? 0 : (matrix.length * (matrix.length + 1)) / 2;
    const seen = new Set<string>();
    const numbers = own.reduce((sum, { log_likelihood, score, information, squares, deletions }) => {
      const repeated = seen.has(String(log_likelihood));
      seen.add(String(log_likelihood));
      const sums = repeated ? 0 : 1 + score.length + half(information) + half(squares);
      return sum + sums + half(deletions);
    }, 0);
    expect(fit.revealed).toEqual({ answers: points.length, numbers });
  });

  it("takes the factor of people where a site has too many rows to go through", () => {
    const [one, ...others] = answers.at(-1)!.map(named);
    const silent = { ...one!, content: { ...one!.content, deletions: null } };
    const found = proposePoint(named(last), [silent, ...others], sha256) as FitFile;
    expect(found.few_people).toEqual({ correction: "people", degrees_of_freedom: fit.people - 1 });
    // in large samples the two are alike
    found.parameters.forEach(({ clustered_standard_error: error }, j) => {
      expect(error! / fit.parameters[j]!.clustered_standard_error!).toBeCloseTo(1, 1);
    });
  });
});
