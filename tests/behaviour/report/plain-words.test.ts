import { describe, expect, it } from "vitest";
import { plainWords } from "../../../src/report/index.js";
import type { Estimate, ReasonCode, Results } from "../../../src/study/results.js";
import { smallCell } from "../../../src/study/results-parts.js";
import { reasons } from "../../../src/words/index.js";
import { curveOf, effectOf, found, missing, planOf, resultsOf } from "./fixtures.js";

const sentencesOf = (results: Results): string[] =>
  plainWords(results)
    .flat()
    .map((sentence) => sentence.replaceAll("\u00a0", " "));
const text = (results: Results): string => sentencesOf(results).join(" ");

const withMain = (main: Estimate, n = 24): Results =>
  resultsOf({
    curves: [
      {
        family: "compared",
        entry: "clock",
        held_equal: [],
        strata_used: [],
        model: null,
        curves: [
          curveOf({ label: "ring", n, main }),
          curveOf({ label: "tape", n: 31, main: found(0.48, 0.33, 0.66) }),
        ],
      },
    ],
  });
/** So many injuries that nothing is known against their intervals. */
const many = { compared: 424, reference: 431 };
const withDifference = (estimate: Estimate, crude: Estimate | null = null): Results =>
  resultsOf({
    effects: [
      { ...effectOf({ measure: "landmark_difference", estimate }), n: many },
      ...(crude === null
        ? []
        : [{ ...effectOf({ measure: "landmark_difference", estimate: crude, adjusted_for: [] }), n: many }]),
    ],
  });

describe("the share back", () => {
  it.each([
    [
      "with its interval and count",
      found(0.62, 0.48, 0.76),
      "Of the 24 injuries first treated with a ring, an estimated 62 % were back to full climbing by 13 weeks (95 % confidence interval 48 to 76 %).",
    ],
    [
      "nobody back",
      { value: 0, lower: null, upper: null, reason: "no-events" } as const,
      "Of the 24 injuries first treated with a ring, none were observed back to full climbing by 13 weeks (no interval: no return observed).",
    ],
    [
      "all back",
      { value: 1, lower: null, upper: null, reason: "all-returned" } as const,
      "an estimated 100 % were back to full climbing by 13 weeks (no interval: all still followed had returned).",
    ],
    [
      "followed too briefly",
      missing("beyond-follow-up"),
      "For the 24 injuries first treated with a ring, the share back by 13 weeks cannot be given: follow-up ends earlier.",
    ],
  ])("%s", (_name, main, sentence) => {
    expect(text(withMain(main))).toContain(sentence);
  });

  it("one injury: no share", () => {
    expect(text(withMain(found(1), 1))).toContain(
      "There is only 1 injury first treated with a ring, and one injury says nothing about a group.",
    );
  });

  it("an empty group leaves the other groups uncompared: everybody is told instead", () => {
    const results = withMain(missing("no-rows"), 0);
    const all = curveOf({ family: "all", label: "all injuries", n: 61, main: found(0.55, 0.44, 0.67) });
    const alone = {
      ...results,
      curves: [
        {
          family: "all" as const,
          entry: "clock" as const,
          held_equal: [],
          strata_used: [],
          model: null,
          curves: [all],
        },
        ...results.curves,
      ],
    };
    expect(text(alone)).toContain("Of the 61 injuries counted here, an estimated 55 % were back");
    expect(text(alone)).toContain("nothing is compared");
  });
});

describe("the difference", () => {
  it.each([
    [
      "the interval includes none",
      found(0.14, -0.04, 0.32),
      "Grade for grade, 14 percentage points more were back by 13 weeks with a ring than with tape (95 % confidence interval 4 fewer to 32 more), which these data cannot tell from no difference.",
    ],
    [
      "the interval excludes none, above",
      found(0.2, 0.05, 0.35),
      "Grade for grade, 20 percentage points more were back by 13 weeks with a ring than with tape (95 % confidence interval 5 more to 35 more), a difference associated with the first treatment but not shown to be caused by it.",
    ],
    [
      "the interval excludes none, below",
      found(-0.2, -0.35, -0.05),
      "20 percentage points fewer were back by 13 weeks with a ring than with tape (95 % confidence interval 35 fewer to 5 fewer), a difference associated with",
    ],
    [
      "a limit that only just excludes none is not written as 0",
      found(0.2, 0.002, 0.35),
      "(95 % confidence interval 0.2 more to 35 more), a difference associated with",
    ],
    [
      "a limit at none is no exclusion",
      found(0.2, 0, 0.4),
      "(95 % confidence interval 0 to 40 more), which these data cannot tell from no difference.",
    ],
    ["one percentage point", found(0.01, -0.1, 0.12), "1 percentage point more were back"],
    [
      "exactly none",
      found(0, -0.1, 0.1),
      "the share back by 13 weeks was the same with a ring as with tape (95 % confidence interval 10 fewer to 10 more), which these data cannot tell from no difference.",
    ],
    [
      "without an interval",
      { value: 0.5, lower: null, upper: null, reason: "no-variance" } as const,
      "(no interval: the values do not vary), which these data cannot tell from no difference.",
    ],
  ])("%s", (_name, estimate, sentence) => {
    expect(text(withDifference(estimate))).toContain(sentence);
  });

  it.each(Object.keys(reasons) as ReasonCode[])("no figure, because of %s: the reason in words", (reason) => {
    const words = text(withDifference(missing(reason)));
    expect(words).toContain(
      `A difference in the share back between injuries first treated with a ring and first treated with tape, grade for grade, cannot be given: ${reasons[reason]}.`,
    );
    expect(words).not.toMatch(/null|NaN|undefined/);
  });

  it("no adjusted figure: the crude one, with what it may come from", () => {
    const words = text(withDifference(missing("no-overlap"), found(0.05, -0.16, 0.26)));
    expect(words).toContain(
      "Without adjustment, 5 percentage points more were back by 13 weeks with a ring than with tape (95 % confidence interval 16 fewer to 26 more), which these data cannot tell from no difference; it may come from grade as well as from the first treatment.",
    );
  });

  it("the crude figure points the other way: said, with what the groups are not alike in", () => {
    expect(text(withDifference(found(0.12, -0.1, 0.34), found(-0.06, -0.32, 0.2)))).toContain(
      "cannot tell from no difference. Without adjustment for grade it is 6 percentage points fewer: the groups differ in grade.",
    );
    expect(text(withDifference(found(0.12, -0.1, 0.34), found(0.06, -0.2, 0.32)))).not.toContain(
      "the groups differ",
    );
  });

  it("strata that cannot be compared: on which strata and how many injuries the figure rests", () => {
    const left_out = [{ stratum: "grade 1", n: 2, reason: "too-few-rows" as const }];
    const said = (strata_used: string[]): string => {
      const estimate = found(0.12, -0.1, 0.34);
      const effect = effectOf({ measure: "landmark_difference", estimate, left_out, strata_used });
      return text(resultsOf({ effects: [effect] }));
    };
    expect(said(["grade 2", "grade 3"])).toContain(
      "Grade for grade, in grade 2 and grade 3 alone (24 and 31 injuries), 12 percentage points more were back",
    );
    expect(said(["a", "b", "c", "d", "e"])).toContain(
      "Grade for grade, in the 24 and 31 injuries for which that is possible, 12 percentage points more were back",
    );
  });

  it("mean time, in whole days and the right way round", () => {
    const effects = [
      {
        ...effectOf({ measure: "restricted_mean_difference", estimate: found(-9.04, -22.1, 4.02) }),
        n: many,
      },
    ];
    expect(text(resultsOf({ effects }))).toContain(
      "the mean time to return, counted up to 26 weeks, was 9 days shorter with a ring than with tape (95 % confidence interval 22 shorter to 4 longer), which these data cannot tell from no difference.",
    );
  });

  it("an interval that the coverage simulation found short at this number of injuries", () => {
    const effect = effectOf({ measure: "landmark_difference", estimate: found(0.14, -0.04, 0.32) });
    const short = { ...effect, n: { compared: 20, reference: 22 } };
    expect(text(resultsOf({ effects: [short] }))).toContain(
      "(95 % confidence interval 4 fewer to 32 more; the interval may be too narrow with so few injuries), which these data cannot tell from no difference.",
    );
  });

  it("groups that are not treatments have words of their own", () => {
    const plan = planOf({
      compare: { by: "grade", groups: ["3", "2"], reference: "2", adjust_for: ["sex"] },
    });
    const effects = [
      effectOf({
        measure: "landmark_difference",
        compared: "3",
        reference: "2",
        adjusted_for: ["sex"],
        estimate: found(-0.3, -0.5, -0.1),
      }),
    ];
    expect(text(resultsOf({ plan, effects }))).toContain(
      "Adjusted for sex, 30 percentage points fewer were back by 13 weeks in grade 3 than in grade 2",
    );
  });
});

describe("half back", () => {
  const withHalf = (half: Estimate) =>
    resultsOf({
      curves: [
        {
          family: "compared",
          entry: "clock",
          held_equal: [],
          strata_used: [],
          model: null,
          curves: [
            curveOf({ label: "ring", n: 24, main: found(0.62, 0.48, 0.76) }),
            curveOf({ label: "tape", n: 31, main: found(0.48, 0.33, 0.66), half }),
          ],
        },
      ],
    });
  it.each([
    [
      found(94, 80, 112),
      "Half were back by 11.4 weeks (80 days, 95 % confidence interval 63 to 101 days) with a ring and by 13.4 weeks (94 days, 95 % confidence interval 80 to 112 days) with tape.",
    ],
    [
      { value: 94, lower: 80, upper: null, reason: "not-reached" } as const,
      "by 13.4 weeks (94 days, 95 % confidence interval from 80 days, no upper limit) with tape.",
    ],
    [
      missing("not-reached"),
      "With tape, half were not back by the last day of follow-up (30 weeks (210 days)).",
    ],
    [
      missing("not-converged"),
      "With tape, the time by which half were back cannot be given: the calculation did not converge.",
    ],
  ])("%o", (half, sentence) => {
    expect(text(withHalf(half))).toContain(sentence);
  });

  it("is told grade for grade first where the curves are adjusted", () => {
    const [crude] = withHalf(found(94, 80, 112)).curves;
    const adjusted = {
      ...crude!,
      family: "standardised" as const,
      held_equal: ["grade"],
      strata_used: ["grade 2"],
      curves: [
        curveOf({ label: "ring", n: 20, main: found(0.81, 0.64, 0.92), half: found(55, 42, 79) }),
        curveOf({ label: "tape", n: 25, main: found(0.68, 0.49, 0.83), half: found(77, 61, 103) }),
      ],
    };
    expect(text(resultsOf({ curves: [crude!, adjusted] }))).toContain(
      "Grade for grade, half were back by 7.9 weeks (55 days, 95 % confidence interval 42 to 79 days) with a ring and by 11 weeks (77 days, 95 % confidence interval 61 to 103 days) with tape. Without adjustment, half were back by 11.4 weeks",
    );
  });
});

describe("what is not held equal", () => {
  const apart = (adjust_for: Results["plan"]["compare"]["adjust_for"], age = -0.214): string => {
    const { cohort, plan } = resultsOf();
    return text(
      resultsOf({
        plan: { ...plan, compare: { ...plan.compare, adjust_for } },
        cohort: {
          ...cohort,
          rows: cohort.rows.map((row) =>
            row.variable === "age_at_injury" ? { ...row, standardised_differences: [age, null] } : row,
          ),
        },
      }),
    );
  };

  it("is said by name and size, the largest first", () => {
    expect(apart([])).toContain(
      "differed at the start in what no figure of the return is adjusted for (standardised difference in brackets): grade (0.31) and age at injury (0.21).",
    );
    expect(apart([], -0.9)).toContain("age at injury (0.90) and grade (0.31).");
  });

  it("is not what is adjusted for, nor what hardly differs", () => {
    expect(apart(["grade"])).toContain("(standardised difference in brackets): age at injury (0.21).");
    expect(apart(["grade"], 0.05)).not.toContain("differed at the start");
  });
});

describe("the whole answer", () => {
  it("has 3 to 14 sentences, the last of which says what the data can't", () => {
    const sentences = sentencesOf(resultsOf());
    expect(sentences.length).toBeGreaterThanOrEqual(3);
    expect(sentences.length).toBeLessThanOrEqual(14);
    expect(sentences.at(-1)).toBe(
      "Treatments were chosen, not allocated at random: these numbers cannot show what caused a difference, and they cannot say when one finger is ready.",
    );
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });

  it("says how everybody's follow-up ended", () => {
    expect(text(resultsOf())).toContain(
      "By the end of follow-up, of all 61, 48 were observed to return, 10 were not back at the last contact, 2 gave up climbing and 1 had a new rupture of the finger.",
    );
  });

  it.each([
    [{ n: 50, milestones: 50, censored: 0, competing: [] }, "All 50 were observed to return."],
    [{ n: 1, milestones: 1, censored: 0, competing: [] }, "It was observed to return."],
    [{ n: 1, milestones: 0, censored: 1, competing: [] }, "It was not back at the last contact."],
    [
      { n: 1, milestones: 0, censored: 0, competing: [{ code: "gave_up", n: 1 }] },
      "The person gave up climbing.",
    ],
    [
      { n: 9, milestones: 1, censored: 8, competing: [] },
      "By the end of follow-up, of all 9, 1 was observed to return and 8 were not back at the last contact.",
    ],
    [
      { n: 9, milestones: 0, censored: 8, competing: [{ code: "died", n: 1 }] },
      "By the end of follow-up, of all 9, none were observed to return, 8 were not back at the last contact and 1 died.",
    ],
  ])("%o", (ends, sentence) => {
    const { follow_up } = resultsOf();
    expect(sentencesOf(resultsOf({ follow_up: { ...follow_up, ...ends } }))).toContain(sentence);
  });

  it("counts that are left out are said in words", () => {
    const base = resultsOf();
    const analysis = { ...base.accounting.analysis, persons: smallCell } as const;
    const follow_up: (typeof base)["follow_up"] = {
      ...base.follow_up,
      n: 60,
      milestones: smallCell,
      censored: 15,
      competing: [{ code: "died", n: smallCell }],
    };
    const told = text(resultsOf({ accounting: { ...base.accounting, analysis }, follow_up }));
    expect(told).toContain("pulley injuries in people whose number is left out; back means");
    expect(told).toContain(
      "By the end of follow-up, of all 60, 15 were not back at the last contact. How many were observed to return and died is left out.",
    );
    expect(told).not.toContain(smallCell);
  });

  it("nobody analysed: one sentence and no figure", () => {
    const base = resultsOf();
    const analysis = {
      injuries: 2,
      analysed: 0,
      persons: 0,
      excluded: [{ code: "no-follow-up" as const, n: 2 }],
    };
    const none = resultsOf({
      plan: planOf({ synthetic: false }),
      accounting: { ...base.accounting, analysis, comparison: { analysed: 0, compared: 0, left_out: [] } },
    });
    expect(sentencesOf(none)).toEqual(["No injury in these data can answer the question."]);
  });

  it("one person, one injury: the singular", () => {
    const base = resultsOf();
    const one = resultsOf({
      accounting: {
        ...base.accounting,
        analysis: { injuries: 1, analysed: 1, persons: 1, excluded: [] },
        comparison: { analysed: 1, compared: 1, left_out: [] },
      },
    });
    expect(text(one)).toContain("This report follows 1 pulley injury in 1 person;");
  });
});
