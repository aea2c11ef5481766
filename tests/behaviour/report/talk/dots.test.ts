import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dotsInRow, dotsOf, isNarrowEnough } from "../../../../src/report/talk/dots.js";
import { dotsRow } from "../../../../src/report/talk/dots-row.js";
import { weeksShown } from "../../../../src/report/talk/weeks-shown.js";
import { found, missing } from "../fixtures.js";

describe("a share as dots of twenty", () => {
  it.each([
    // 0.58 of 20 is 11.6; 0.44 is 8.8 and 0.73 is 14.6: the range goes outwards to 8 and 15
    { share: [0.58, 0.44, 0.73], dots: { back: 12, from: 8, to: 15, nearly: null } },
    // 0.55 of 20 comes out as 11.000000000000002, which is 11 and not 12
    { share: [0.5, 0.35, 0.55], dots: { back: 10, from: 7, to: 11, nearly: null } },
    { share: [0.375, 0.2, 0.6], dots: { back: 8, from: 4, to: 12, nearly: null } },
    { share: [0, 0, 0.13], dots: { back: 0, from: 0, to: 3, nearly: null } },
    { share: [0.02, 0.001, 0.09], dots: { back: 0, from: 0, to: 2, nearly: "none" } },
    { share: [0.98, 0.9, 1], dots: { back: 20, from: 18, to: 20, nearly: "all" } },
    { share: [1, 0.9, 1], dots: { back: 20, from: 18, to: 20, nearly: null } },
  ])("$share, by hand", ({ share, dots }) => {
    expect(dotsOf(found(share[0]!, share[1], share[2]))).toEqual(dots);
  });

  it("are none without a share, or without both ends of its interval", () => {
    expect(dotsOf(missing("beyond-follow-up"))).toBeNull();
    expect(dotsOf({ ...found(0.5, 0.4, null), reason: "not-reached" })).toBeNull();
    expect(dotsOf({ ...found(0.5, null, 0.6), reason: "not-reached" })).toBeNull();
  });

  it("has a range that is never narrower than the interval and holds the estimate, whatever the share", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (a, b, c) => {
        const [lower, value, upper] = [a, b, c].sort((one, other) => one - other) as [number, number, number];
        const dots = dotsOf(found(value, lower, upper))!;
        const slack = 1e-9;
        expect(dots.from / dotsInRow).toBeLessThanOrEqual(lower + slack);
        expect(dots.to / dotsInRow).toBeGreaterThanOrEqual(upper - slack);
        expect(dots.from).toBeLessThanOrEqual(dots.back);
        expect(dots.to).toBeGreaterThanOrEqual(dots.back);
        expect(Math.abs(dots.back / dotsInRow - value)).toBeLessThanOrEqual(0.5 / dotsInRow + slack);
      }),
      { seed: 2024 },
    );
  });

  it("is drawn only where the range leaves at most half of the row open", () => {
    expect(isNarrowEnough(dotsOf(found(0.5, 0.25, 0.75))!)).toBe(true);
    expect(isNarrowEnough(dotsOf(found(0.5, 0.25, 0.76))!)).toBe(false);
  });
});

describe("the drawing of a row", () => {
  const kinds = (value: number, lower: number, upper: number) =>
    [...dotsRow(dotsOf(found(value, lower, upper))!).markup.matchAll(/class="dot ([a-z-]+)"/g)].map(
      ([, kind]) => kind,
    );

  it("has twenty dots: dark as estimated, striped in the range, empty beyond", () => {
    expect(kinds(0.58, 0.44, 0.73)).toEqual([
      ...Array(8).fill("back"),
      ...Array(4).fill("back-in-range"),
      ...Array(3).fill("not-in-range"),
      ...Array(5).fill("not"),
    ]);
  });

  it("gives stripes to every dot of the range and to no other, so that no colour is needed to see it", () => {
    const { markup } = dotsRow(dotsOf(found(0.58, 0.44, 0.73))!);
    expect(markup.match(/<path class="stripes/g)).toHaveLength(15 - 8);
    expect(markup).toContain('aria-hidden="true"');
  });
});

describe("the weeks of a page", () => {
  it.each([
    {
      what: "6, 10, 13 and 26 where the study reads them",
      weeks: [6, 8, 10, 13, 17, 26],
      main: 13,
      shown: [6, 10, 13, 26],
    },
    {
      what: "its main landmark beside them",
      weeks: [6, 8, 10, 13, 17, 26],
      main: 17,
      shown: [6, 10, 13, 17, 26],
    },
    { what: "its own where it lacks one of them", weeks: [26, 4, 12], main: 12, shown: [4, 12, 26] },
    { what: "a main landmark that it does not read is not shown", weeks: [4, 8], main: 13, shown: [4, 8] },
  ])("are $what", ({ weeks, main, shown }) => {
    expect(weeksShown(weeks, main)).toEqual(shown);
  });

  it("are six at most, with the first, the last and the main one, and each is read by the study", () => {
    const weeks = fc.uniqueArray(fc.integer({ min: 1, max: 520 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(weeks, fc.nat(), (read, at) => {
        const main = read[at % read.length]!;
        const shown = weeksShown(read, main);
        expect(shown.length).toBeLessThanOrEqual(6);
        for (const week of [main, Math.min(...read), Math.max(...read)]) expect(shown).toContain(week);
        expect(shown.every((week) => read.includes(week))).toBe(true);
        expect(new Set(shown).size).toBe(shown.length);
        expect(shown).toEqual([...shown].sort((one, other) => one - other));
      }),
      { seed: 2024 },
    );
  });
});
