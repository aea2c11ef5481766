import { describe, expect, it } from "vitest";
import type { ShareSettings } from "../../../src/privacy/index.js";
import { answer, type Results } from "../../../src/study/index.js";
import { committed, copyWith, readCopy } from "./cohorts.js";

/** The parts of the results that rest on times, ends, grades, treatments and distances. */
const numbersOf = ({ curves, tests, effects, distances, follow_up }: Results) => ({
  curves,
  tests,
  effects,
  distances,
  follow_up,
});

/** Every number of a result by its path. */
function* figures(value: unknown, path = ""): Iterable<readonly [string, unknown]> {
  if (value !== null && typeof value === "object") {
    for (const [key, inner] of Object.entries(value)) yield* figures(inner, `${path}/${key}`);
  } else yield [path, value];
}

const ways: readonly (readonly [string, Partial<ShareSettings>])[] = [
  ["day offsets", { dates: "offsets" }],
  ["shifted dates", { dates: "shifted" }],
];

describe.each([
  ["one clinic, linked tables", committed("one-clinic")],
  ["one clinic, single sheet", committed("one-clinic", "study-single-sheet.yaml")],
  ["three sites, closed on a day", committed("three-sites")],
])("a report on the copy: %s", (_, { plan, read }) => {
  const { closed_on: __, ...data } = plan.data;
  const original = answer(read, plan);

  it.each(ways)(
    "%s, rows in their order: curves, tests, differences and distances equal to the last digit",
    (___, way) => {
      const copy = copyWith(read, { ...way, order: "as-it-was", closedOn: plan.data.closed_on ?? null });
      const again = answer(readCopy(copy, plan), { ...plan, data });
      expect(numbersOf(again)).toEqual(numbersOf(original));
    },
  );

  it("every row that is used is in the copy, and used there", () => {
    const copy = copyWith(read);
    const again = readCopy(copy, plan);
    for (const name of ["injuries", "treatments", "imaging", "visits", "sites"] as const) {
      expect(again.tables[name].length, name).toBe(read.tables[name].length);
    }
    for (const { table, used, in_copy } of copy.disclosure.rows) expect(used, table).toBe(in_copy);
    expect(again.accounts.every(({ read: rows, used }) => rows === used)).toBe(true);
  });
});

describe("a report on the copy with its rows by name", () => {
  const { plan, read } = committed("one-clinic");
  const { closed_on: _, ...data } = plan.data;
  const copy = copyWith(read, { closedOn: plan.data.closed_on ?? null });
  const [original, again] = [answer(read, plan), answer(readCopy(copy, plan), { ...plan, data })];

  it("counts and shares at the landmarks are equal to the last digit", () => {
    const landmarks = ({ curves }: Results) =>
      curves
        .filter(({ family }) => family !== "standardised")
        .flatMap(({ family, curves: all }) =>
          all.map(({ label, n, events, landmarks: at }) => [
            family,
            label,
            n,
            events,
            at.map(({ returned }) => returned.value),
          ]),
        );
    expect(landmarks(again)).toEqual(landmarks(original));
  });

  it("all else is equal but for rounding, and for tests that deal the groups out at random", () => {
    const dealt = (results: Results) => results.tests.filter(({ method }) => method === "log_rank_permuted");
    for (const [place, test] of dealt(again).entries()) {
      // 2,000 deals and more: a standard error of at most 0.011
      expect(Math.abs((test.p ?? 0) - (dealt(original)[place]?.p ?? 0))).toBeLessThan(0.04);
    }
    const rest = (results: Results) =>
      new Map(
        figures(
          numbersOf({ ...results, tests: results.tests.filter((test) => !dealt(results).includes(test)) }),
        ),
      );
    const before = rest(original);
    for (const [path, value] of rest(again)) {
      const was = before.get(path);
      if (typeof value === "number" && typeof was === "number" && !Number.isInteger(was)) {
        expect(Math.abs(value - was), path).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(was)));
      } else expect(value, path).toEqual(was);
    }
  });
});
