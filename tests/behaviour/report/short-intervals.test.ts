import { describe, expect, it } from "vitest";
import type { EffectResult, Results } from "../../../src/study/results.js";
import { measuredShort } from "../../../src/words/measured-coverage.js";
import { measuredFor, shortIntervalWords, shownEffect } from "../../../src/words/short-intervals.js";
import { effectOf, found, resultsOf } from "./fixtures.js";

/** A study like the cohorts in which each person had one injury, in which some had two, or in which dates were rounded. */
function studyLike(cohort: (typeof measuredShort)[number]["cohort"]): Results {
  const results = resultsOf({});
  const { analysis } = results.accounting;
  const persons = cohort === "several" ? Number(analysis.analysed) - 1 : analysis.analysed;
  return {
    ...results,
    accounting: { ...results.accounting, analysis: { ...analysis, persons } },
    warnings: cohort === "rounded dates" ? [{ code: "inexact-dates", facts: {}, could_move: null }] : [],
  };
}

describe("notes on intervals that the coverage simulation found short", () => {
  it.each(measuredShort)("$figure, $cohort, $n injuries: $percent %", (measured) => {
    const results = studyLike(measured.cohort);
    const words = shortIntervalWords([measured], results).replaceAll("\u00a0", " ");
    expect(words).toContain(`${measured.figure} ${measured.percent} % with ${measured.n} injuries`);
    expect(words).toContain("Source: coverage simulation of this project.");
    // halfway to the next size nothing better is known
    const next = shortIntervalWords([{ ...measured, n: Math.ceil(measured.n * 1.4) }], results);
    expect(next.replaceAll("\u00a0", " ")).toBe(words);
  });

  it("nothing is said of a study with very many injuries, or of a figure without any", () => {
    for (const { figure, cohort } of measuredShort)
      for (const n of [0, 400, 100_000])
        expect(shortIntervalWords([{ figure, n }], studyLike(cohort))).toBe("");
  });

  it("fewer injuries than were simulated are taken as the fewest that were", () => {
    for (const measured of measuredShort.filter(({ n }) => n === 20))
      expect(measuredFor({ ...measured, n: 7 }, studyLike(measured.cohort))).toEqual(measured);
  });

  it("an effect is told by its measure, and by whether anything is held equal", () => {
    const effect: EffectResult = {
      ...effectOf({ measure: "landmark_difference", estimate: found(0.1, -0.1, 0.3) }),
      n: { compared: 30, reference: 12 },
    };
    expect(shownEffect(effect)).toEqual({ figure: "difference of shares, adjusted", n: 42 });
    expect(shownEffect({ ...effect, measure: "hazard_ratio", adjusted_for: [] }).figure).toBe(
      "hazard ratio, crude",
    );
  });
});
