import { describe, expect, it } from "vitest";
import { toColumns } from "../../../../src/cohort/columns.js";
import type { OutcomeRecord } from "../../../../src/cohort/record.js";
import {
  type Beside,
  poolTables,
  type RiskSets,
  riskSetsOf,
  riskSetsSchema,
} from "../../../../src/pooling/tables/index.js";
import { hazardsRegression, incidenceCurve, logRank, shareAt } from "../../../../src/statistics/index.js";
import { binnedRows } from "../../../../src/statistics/pooling/tables/index.js";
import type { Members } from "../../../../src/study/groups.js";
import { strataOf } from "../../../../src/study/strata.js";
import { type DrawnSite, drawnPlan, drawnSites } from "../drawn-sites.js";

const all = { binDays: 7, smallestCell: 1, coarser: false };

function tableOf({ site, groups, asked }: DrawnSite, how = all) {
  const made = riskSetsOf(groups, { ...how, asked });
  if (!made.leaves) throw new Error(`no table of ${site}: ${made.reason}`);
  return { site, file: `${site}.json`, risk_sets: made.table };
}

const sites = drawnSites({ seed: 11, injuries: 400 });
const { asked: of } = sites[0]!;
const asked = {
  groups: of.comparison.labels,
  reference: of.comparison.reference,
  shareBack: of.shareBack,
  level: of.level,
  ties: "efron" as const,
};

/** All rows of all sites in weekly bins, each grade of each site a stratum, as columns of the row-level functions. */
function rowsTogether() {
  const rows = sites.flatMap(({ site, groups }) =>
    groups.flatMap(({ label, records }) => records.map((record) => ({ site, label, record }))),
  );
  const records = rows.map(({ record }) => record);
  const labels = strataOf(records, ["grade"]);
  const keys = rows.map(({ site }, i) => `${site} ${labels.codes[i]}`);
  const names = [...new Set(keys)];
  const { times, causes, entries } = toColumns(records);
  const last = times.reduce((most, time) => Math.max(most, time), 0);
  const ends = Array.from({ length: Math.ceil(last / 7) }, (_, i) => 7 * (i + 1));
  return {
    ...binnedRows({ times, causes, entries }, { ends }),
    groups: rows.map(({ label }) => Number(label === "ring")),
    strata: keys.map((key) => names.indexOf(key)),
  };
}

describe("the tables of three sites give what their rows give", () => {
  const { groups, strata, causes, ...rest } = rowsTogether();
  const events = Array.from(causes, (cause) => Number(cause === 1));
  const pooled = poolTables(
    sites.map((site) => tableOf(site)),
    asked,
  );

  it.each(["efron", "breslow"] as const)("hazard ratio within grades and sites, %s ties", (ties) => {
    const covariates = { names: ["ring"], columns: [groups] };
    const fit = hazardsRegression({ ...rest, events, strata, covariates }, { ties });
    const [found] = poolTables(
      sites.map((site) => tableOf(site)),
      { ...asked, ties },
    ).hazard_ratios;
    expect(found).toMatchObject({ compared: "ring", reference: "tape", reason: null });
    const wanted = fit.hazardRatios[0]!;
    expect(found!.estimate! / wanted.estimate!).toBeCloseTo(1, 9);
    expect(found!.lower! / wanted.lower!).toBeCloseTo(1, 9);
    expect(found!.upper! / wanted.upper!).toBeCloseTo(1, 9);
    expect(found!.standard_error! / fit.standardErrors[0]!).toBeCloseTo(1, 9);
  });

  it("log-rank test within grades and sites", () => {
    const test = logRank({ ...rest, events, strata, groups });
    expect(pooled.log_rank.chi_square! / test.chiSquare!).toBeCloseTo(1, 10);
    expect(pooled.log_rank.p! / test.p!).toBeCloseTo(1, 9);
  });

  it("cumulative incidence of the sites together, at the end of every week", () => {
    for (const [code, label] of [
      [1, "ring"],
      [0, "tape"],
    ] as const) {
      const own = groups.flatMap((group, row) => (group === code ? [row] : []));
      const pick = (values: ArrayLike<number>) => own.map((row) => values[row]!);
      const curve = incidenceCurve({
        times: pick(rest.times),
        causes: pick(causes),
        entries: pick(rest.entries!),
      });
      const found = pooled.curves.groups.find(({ group }) => group === label)!;
      expect(pooled.curves.answers).toBe("share_of_people");
      expect(found.points.length).toBeGreaterThan(20);
      for (const point of found.points) {
        const wanted = shareAt(curve, point.day);
        expect(point.at_risk).toBe(wanted.atRisk);
        for (const [one, other] of [
          [point.returned, wanted.returned],
          [point.lower, wanted.returnedLower],
          [point.upper, wanted.returnedUpper],
        ] as const) {
          if (other === null) expect(one).toBeNull();
          else expect(one).toBeCloseTo(other, 10);
        }
      }
    }
  });

  it("says that its intervals take every injury on its own, and counts", () => {
    expect(pooled.intervals_take).toBe("every injury on its own");
    expect(pooled.injuries).toBe(groups.length);
    expect(pooled.events).toBe(events.reduce((sum, event) => sum + event, 0));
    expect(pooled.sites.map(({ site }) => site)).toEqual(sites.map(({ site }) => site).sort());
  });

  it("whatever the order of the sites", () => {
    const turned = poolTables(
      [...sites].reverse().map((site) => tableOf(site)),
      asked,
    );
    expect(turned).toEqual(pooled);
  });
});

describe("what leaves a site", () => {
  it("is a table that its schema takes and that JSON keeps", () => {
    for (const site of sites) {
      const { risk_sets } = tableOf(site);
      expect(riskSetsSchema.parse(JSON.parse(JSON.stringify(risk_sets)))).toEqual(risk_sets);
    }
  });

  it("is nothing where every weekly count is of few people, unless coarser bins are asked for", () => {
    const site = sites[0]!;
    const made = riskSetsOf(site.groups, { ...all, smallestCell: 5, asked: site.asked });
    expect(made).toMatchObject({ leaves: false, reason: "small-bins" });
  });

  it("is nothing of six injuries", () => {
    const few = drawnSites({ seed: 2, injuries: 18 });
    for (const site of few) {
      const how = { ...all, smallestCell: 5, coarser: true };
      expect(riskSetsOf(site.groups, { ...how, asked: site.asked }).leaves).toBe(false);
    }
  });

  it("is nothing where returns are known only between visits", () => {
    const { groups, asked: days } = sites[0]!;
    expect(riskSetsOf(groups, { ...all, asked: { ...days, path: "spans" } })).toMatchObject({
      leaves: false,
      reason: "between-visits",
    });
  });

  it("without strata and in coarser bins: no count of fewer than five people but none", () => {
    const plan = drawnPlan((read) => ({
      ...read,
      compare: { ...read.compare, adjust_for: [] },
      // a few late entries in a week would join many weeks
      question: { ...read.question, clock: "treatment_start" },
    }));
    const large = drawnSites({ seed: 5, injuries: 900 }, plan);
    for (const site of large) {
      const { risk_sets } = tableOf(site, { binDays: 7, smallestCell: 5, coarser: true });
      expect(risk_sets.bin_ends.length).toBeGreaterThanOrEqual(3);
      for (const cell of risk_sets.cells)
        for (const counts of [cell.entered, cell.censored, ...Object.values(cell.ended)])
          for (const count of counts) expect(count === 0 || count >= 5).toBe(true);
    }
    const pooled = poolTables(
      large.map((site) => tableOf(site, { binDays: 7, smallestCell: 5, coarser: true })),
      asked,
    );
    expect(pooled.hazard_ratios[0]!.estimate).toBeGreaterThan(0);
    // curves only where every site has the end of a bin
    for (const end of pooled.bin_ends) expect(end % 7).toBe(0);
  });
});

describe("what stays because of what else leaves", () => {
  const plan = drawnPlan((read) => ({
    ...read,
    compare: { ...read.compare, adjust_for: [] },
    question: { ...read.question, clock: "treatment_start" },
  }));
  const [site] = drawnSites({ seed: 5, injuries: 900 }, plan);
  const how = { binDays: 7, smallestCell: 5, coarser: true, asked: site!.asked };
  const people = (records: readonly { readonly injury: string; readonly person: string }[]) =>
    new Map(records.map(({ injury, person }) => [injury, person]));
  const everybody = people(site!.groups.flatMap(({ records }) => records));
  const cellsWith = (beside: Beside) => {
    const made = riskSetsOf(site!.groups, { ...how, beside });
    return made.leaves ? made.table.cells.map(({ group }) => group) : made.reason;
  };
  const more = (n: number) =>
    new Map([...everybody, ...Array.from({ length: n }, (_, i) => [`other ${i}`, `person ${i}`] as const)]);

  /** Two groups: each week eight returns, in the second three that gave up and three new ruptures as well. */
  const withFewEnds = (): Members[] =>
    ["ring", "tape"].map((label) => {
      const record = (time: number, end: OutcomeRecord["end"]) => (_: unknown, i: number) => {
        const id = `${label} ${end} ${time} ${i}`;
        return { injury: id, person: id, time, entry: -1, end } as OutcomeRecord;
      };
      const some = (n: number, of: ReturnType<typeof record>) => Array.from({ length: n }, of);
      return {
        label,
        records: [
          ...[4, 11, 18, 25].flatMap((day) => some(8, record(day, "milestone"))),
          ...some(3, record(10, "gave_up")),
          ...some(3, record(10, "new_rupture")),
          ...some(6, record(28, "censored")),
        ],
      };
    });

  it("nothing, where all that is told of is in the table", () => {
    expect(cellsWith({ groups: [everybody], endsWouldReveal: false })).toEqual(["ring", "tape"]);
  });

  it("both groups, where a few people would be found as all that is told less the table", () => {
    expect(cellsWith({ groups: [more(3)], endsWouldReveal: false })).toBe("small-cells");
    expect(cellsWith({ groups: [more(9)], endsWouldReveal: false })).toBe("small-cells");
    expect(cellsWith({ groups: [more(10)], endsWouldReveal: false })).toEqual(["ring", "tape"]);
  });

  it("several injuries of one person are one person", () => {
    const other = [...everybody, ...Array.from({ length: 30 }, (_, i) => [`other ${i}`, "one"] as const)];
    expect(cellsWith({ groups: [new Map(other)], endsWouldReveal: false })).toBe("small-cells");
  });

  it("ends told as one, where a few would be found from them less those that are told", () => {
    const made = (endsWouldReveal: boolean) => {
      const found = riskSetsOf(withFewEnds(), { ...how, beside: { groups: [], endsWouldReveal } });
      return found.leaves ? found.table.ends_told : found.reason;
    };
    expect(made(false)).toBe("as_one");
    expect(made(true)).not.toBe("as_one");
  });

  it("a group of too few people for two counts, which would tell what became of each", () => {
    const few = site!.groups.map(({ label, records }, i) => ({
      label,
      records: i === 0 ? records.slice(0, 9) : records,
    }));
    const made = riskSetsOf(few, how);
    expect(made.leaves && made.table.cells.some(({ group }) => group === few[0]!.label)).toBe(false);
  });
});

describe("a table that was altered", () => {
  const broken = (change: (table: RiskSets) => unknown) => {
    const tables = sites.map((site) => tableOf(site));
    const table = structuredClone(tables[1]!);
    change(table.risk_sets);
    return () => poolTables([tables[0]!, table], asked);
  };
  const file = `${sites[1]!.site}.json`;

  it.each([
    ["a count moved", (table: RiskSets) => table.cells[0]!.entered.splice(0, 1, 3), "risk_sets.cells.0"],
    [
      "an unknown group",
      (table: RiskSets) => Object.assign(table.cells[1]!, { group: "cast" }),
      "risk_sets.cells.1.group",
    ],
    ["a day between bins", (table: RiskSets) => table.cells[0]!.day.splice(1, 1, 8), "cells.0.day.1"],
    ["columns of unlike length", (table: RiskSets) => table.cells[0]!.censored.pop(), "risk_sets.cells.0"],
  ])("%s is refused with file and place", (_, change, place) => {
    const [first, second] = [broken(change), broken(change)];
    expect(first).toThrow(file);
    expect(second).toThrow(place);
  });
});
