import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openStudy } from "../../../src/cli/study-input.js";
import {
  answer,
  type CurveResult,
  fewestRows,
  type Results,
  withoutSmallCells,
} from "../../../src/study/index.js";
import { folderWith } from "./run-command.js";

const k = 5;
const silent = { say: () => {}, notice: () => {}, progress: () => {} };

interface Patient {
  readonly site: string;
  readonly age: number;
  /** Days from the injury to the return; null for one that was not seen in 400 days. */
  readonly back: number | null;
}

const dayAfter = (days: number) =>
  new Date(Date.UTC(2024, 0, 1) + days * 86_400_000).toISOString().slice(0, 10);

/** A site of three beside two of twenty, all followed for 400 days, so that a share is a count over a count. */
function patients(seed: number): readonly Patient[] {
  let state = seed;
  const draw = (below: number) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * below);
  };
  return Array.from({ length: 43 }, (_, at) => ({
    site: at < 3 ? "small" : at < 23 ? "b" : "c",
    age: at < 3 ? 50 + draw(20) : 20 + draw(15),
    back: draw(6) === 0 ? null : 20 + draw(140),
  }));
}

const study = `study: awkward
title: Awkward
data: { single_sheet: sheet.csv }
compare: { by: site_id, groups: [small, b, c], reference: c, adjust_for: [] }
`;

const rowOf = ({ site, age, back }: Patient, at: number) =>
  [`P${at}`, site, "2024-01-01", "left", "ring", "A3", "2", age, "ring", "2024-01-01"]
    .concat(back === null ? "" : dayAfter(back), dayAfter(400))
    .join(",");

/** The results of a report, which small-cells.test.ts makes whole: to draw it takes nine tenths of the time. */
async function toldOf(rows: readonly Patient[], choice: "written" | "leave-out"): Promise<Results> {
  const sheet = `person,site,injury_date,hand,finger,pulleys,grade,age,treatment,treatment_start,full,last_contact\n${rows.map(rowOf).join("\n")}\n`;
  const folder = folderWith({ "study.yaml": study, "sheet.csv": sheet });
  const { read, plan } = await openStudy(join(folder, "study.yaml"), silent);
  const exact = answer(read, plan, { smallestCell: k });
  return choice === "written" ? exact : withoutSmallCells(exact, fewestRows(read.tables, k));
}

/** Limits of a share back without censoring on the log-minus-log scale (Kalbfleisch & Prentice 1980, from memory). */
function limitsOf(events: number, n: number): readonly [number, number] {
  const left = 1 - events / n;
  const width = (1.959964 * Math.sqrt((left * (1 - left)) / n)) / (left * Math.log(left));
  return [1 - left ** Math.exp(width), 1 - left ** Math.exp(-width)];
}

/** How far a figure may be from what is told: as far as its neighbours among the steps that the figures show. */
function stepOf(points: CurveResult["points"]): number {
  const told = points.flatMap(({ returned, returned_lower, returned_upper }) => [
    returned,
    returned_lower ?? 0,
    returned_upper ?? 0,
  ]);
  const isOn = (step: number) =>
    told.every((share) => Math.abs(share / step - Math.round(share / step)) < 1e-6);
  return [0.2, 0.1, 0.05, 0.02, 0.01].find(isOn) ?? 1e-6;
}

/** Injuries back by each told day, for each size of the group with which every figure of the curve agrees. */
function countsOf(curve: CurveResult): ReadonlyMap<number, ReadonlyMap<number, readonly number[]>> {
  const step = stepOf(curve.points) + 1e-9;
  const fits = (told: CurveResult["points"][number], n: number) =>
    Array.from({ length: n + 1 }, (_, events) => events).filter((events) => {
      if (Math.abs(events / n - told.returned) > step / 2) return false;
      if (told.returned_lower === null || told.returned_upper === null) return true;
      const [lower, upper] = limitsOf(events, n);
      return (
        Number.isNaN(lower) ||
        (Math.abs(lower - told.returned_lower) < step && Math.abs(upper - told.returned_upper) < step)
      );
    });
  const near = Number(curve.n);
  const sizes = Array.from({ length: 2 * k + 1 }, (_, at) => near - k + at);
  return new Map(
    sizes
      .map((n) => [n, new Map(curve.points.slice(1).map((told) => [told.day, fits(told, n)]))] as const)
      .filter(([, byDay]) => [...byDay.values()].every(({ length }) => length > 0)),
  );
}

/** How many of the site that is left out may have been back by a day: the whole less the other two. */
function hiddenBackBy(results: Results, day: number): ReadonlySet<number> {
  const curveOf = (id: string) =>
    results.curves.flatMap(({ curves }) => curves).find((one) => one.id === id)!;
  const [all, b, c] = ["all:all injuries", "compared:b", "compared:c"].map((id) => countsOf(curveOf(id)));
  const found = new Set<number>();
  for (const [n, ofAll] of all!)
    for (const [nb, ofB] of b!)
      for (const [nc, ofC] of c!) {
        const hidden = n - nb - nc;
        if (hidden < 1 || hidden >= k) continue;
        for (const whole of ofAll.get(day) ?? [])
          for (const one of ofB.get(day) ?? [])
            for (const other of ofC.get(day) ?? []) {
              const left = whole - one - other;
              if (left >= 0 && left <= hidden) found.add(left);
            }
      }
  return found;
}

/** Days told in all three curves. */
function commonDays(results: Results): readonly number[] {
  const curves = results.curves.flatMap(({ curves: all }) => all);
  const days = ["all:all injuries", "compared:b", "compared:c"].map(
    (id) =>
      new Set(
        curves
          .find((one) => one.id === id)!
          .points.slice(1)
          .map(({ day }) => day),
      ),
  );
  return [...days[0]!].filter((day) => days.every((each) => each.has(day)));
}

describe("an attacker who subtracts the groups that are told from the whole", () => {
  it("wins the returns of a group of three from a report with every digit", async () => {
    const rows = patients(1);
    const exact = await toldOf(rows, "written");
    const exactly: Results = {
      ...exact,
      curves: exact.curves.map((family) => ({
        ...family,
        curves: family.curves.map((curve) => ({
          ...curve,
          points: [0, 91].map((day) => ({ ...curve.points.findLast((point) => point.day <= day)!, day })),
        })),
      })),
    };
    const back = rows.filter((row) => row.site === "small" && row.back !== null && row.back <= 91).length;
    expect([...hiddenBackBy(exactly, 91)]).toEqual([back]);
  });

  it.each([1, 2, 3, 4])("wins nothing without small cells: cohort %i", async (seed) => {
    const rows = patients(seed);
    const results = await toldOf(rows, "leave-out");
    // days on which somebody is back in the whole: before that nobody is in a part
    const all = results.curves[0]!.curves[0]!;
    const days = commonDays(results).filter(
      (day) => all.points.find((point) => point.day === day)!.returned > 0,
    );
    expect(days.length).toBeGreaterThan(0);
    for (const day of days) expect(hiddenBackBy(results, day).size, `day ${day}`).toBeGreaterThanOrEqual(3);
  });

  it.each([1, 2])(
    "wins no mean of the group of three, and no figure of a test it is in: cohort %i",
    async (seed) => {
      const rows = patients(seed);
      const results = await toldOf(rows, "leave-out");
      const age = results.cohort.rows.find(({ variable }) => variable === "age_at_injury")!;
      const [, b, c] = age.groups;
      // half of the last digit either way in the whole and in both groups, of 43 and twice 20, over three
      const step = 10 ** (Math.floor(Math.log10(age.overall.mean!)) - 1);
      expect([age.overall, b!, c!].every(({ mean }) => mean! % step === 0)).toBe(true);
      expect((0.5 * step * (43 + 20 + 20)) / 3).toBeGreaterThan(10);
      // a quartile of twenty lies between two people who can be told apart
      for (const cell of [b!, c!])
        expect([cell.lower_quartile, cell.upper_quartile]).toEqual(
          cell.n === 20 ? [expect.anything(), expect.anything()] : [null, null],
        );
      for (const { groups, p, statistic } of results.tests)
        if (groups.some(({ label }) => label === "small")) expect([p, statistic]).toEqual([null, null]);
      expect(results.effects.every(({ standard_error }) => standard_error === null)).toBe(true);
    },
  );
});

it.each([1, 2])("fewer digits turn no difference into none, nor none into one: cohort %i", async (seed) => {
  const rows = patients(seed);
  const [exact, told] = [await toldOf(rows, "written"), await toldOf(rows, "leave-out")];
  const holdsNone = ({ estimate: { lower, upper }, unit }: Results["effects"][number]) =>
    (unit === "ratio" ? 1 : 0) >= lower! && (unit === "ratio" ? 1 : 0) <= upper!;
  const shown = told.effects.filter(({ estimate }) => estimate.lower !== null && estimate.upper !== null);
  expect(shown.length).toBeGreaterThan(1);
  for (const effect of shown)
    expect(holdsNone(effect), effect.id).toBe(holdsNone(exact.effects.find(({ id }) => id === effect.id)!));
});
