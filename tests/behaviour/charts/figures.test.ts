import { describe, expect, it } from "vitest";
import type { Figure } from "../../../src/charts/index.js";
import {
  afterReturnFigure,
  forestFigure,
  otherEndsFigure,
  pairedDistancesFigure,
  returnCurveFigure,
  themes,
} from "../../../src/charts/index.js";
import { renderSvg } from "../../../src/report/render-svg.js";
import type { EffectResult } from "../../../src/study/results.js";
import { groupsAfterReturn } from "../../../src/words/figures/after-return.js";
import { familyWithOtherEnds } from "../../../src/words/figures/other-ends.js";
import { drawnTexts } from "../report-render/svg-texts.js";
import { awkwardFigures } from "./awkward-figures.js";
import { inventedDistances } from "./invented-cohort.js";
import { fiveGrades, inventedFamily, inventedPlan, threeTreatments } from "./invented-curves.js";
import { inventedEffect } from "./invented-effects.js";
import { inventedAfter, withOtherEnds } from "./invented-ends.js";

const plan = inventedPlan();
const textOf = async (figure: Figure): Promise<string> =>
  drawnTexts(await renderSvg(figure))
    .map(({ text }) => text)
    .join(" ")
    .replaceAll("\u00a0", " ");

describe("every figure", () => {
  it.each(Object.keys(awkwardFigures))(
    "%s: has a safe id, a question or name as title, a text alternative",
    (name) => {
      const figure = awkwardFigures[name]!(themes.screen);
      expect(figure.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(figure.title).toMatch(/\?$/);
      // the title stands before it wherever it is read
      expect(figure.description).not.toContain(figure.title);
      expect(figure.description.length).toBeGreaterThan(20);
      expect(figure.spec.description).toBe(`${figure.title} ${figure.description}`);
    },
  );

  it.each(Object.keys(awkwardFigures).filter((name) => name !== "real data"))(
    "%s: is marked SYNTHETIC DATA at its head, at its foot and in its text alternative",
    (name) => {
      const figure = awkwardFigures[name]!(themes.screen);
      expect(figure.synthetic).toBe(true);
      expect(figure.description).toContain("SYNTHETIC\u00a0DATA");
      const marks = JSON.stringify({ ...figure.spec, description: "" }).match(/SYNTHETIC.DATA/g) ?? [];
      expect(marks.length).toBeGreaterThanOrEqual(2);
    },
  );

  it("of real data carries no such mark", async () => {
    expect(await textOf(awkwardFigures["real data"]!(themes.screen))).not.toContain("SYNTHETIC");
  });
});

describe("return curves", () => {
  it("say that they speak of a group, how many there are, the level of the interval", async () => {
    const text = await textOf(
      returnCurveFigure(
        { family: threeTreatments, plan: inventedPlan({ confidence_level: 0.9 }) },
        themes.screen,
      ),
    );
    expect(text).toContain(
      "General information about a group of past patients, not advice for one finger. A licensed clinician",
    );
    expect(text).toContain("139 injuries, 117 returned during follow-up; shaded: 90 % confidence interval");
  });

  it("of grades show the usual windows, marked common practice, beside what was seen", async () => {
    const text = await textOf(returnCurveFigure({ family: fiveGrades, plan }, themes.screen));
    expect(text).toContain("pale: usual window, common practice");
    for (const words of [
      "usual 0 to 6",
      "usual 8 to 10",
      "usual 12 to 14",
      "usual 17 or longer",
      "usual 26 or longer",
    ])
      expect(text).toContain(words);
  });

  it("show no usual window for another milestone than unrestricted climbing", async () => {
    const easy = inventedPlan({ question: { milestone: "easy_climbing" } });
    expect(await textOf(returnCurveFigure({ family: fiveGrades, plan: easy }, themes.screen))).not.toContain(
      "usual",
    );
  });

  it("of a cohort of one grade have its window as a band; of a mixed one none", async () => {
    const data = { family: threeTreatments, plan };
    expect(await textOf(returnCurveFigure({ ...data, onlyGrade: "3" }, themes.screen))).toContain(
      "usual window of grade 3, common practice",
    );
    expect(await textOf(returnCurveFigure(data, themes.screen))).not.toContain("usual window");
  });

  it("say when the clock of the axis is not that of the windows", async () => {
    const shifted = inventedPlan({ question: { clock: "treatment_start" } });
    expect(await textOf(returnCurveFigure({ family: fiveGrades, plan: shifted }, themes.screen))).toContain(
      "Usual windows are counted from the injury; this axis begins at the start of the first treatment.",
    );
  });

  it("say in words when half were not back, and when there is nothing to draw", async () => {
    expect(await textOf(awkwardFigures["a group with nobody back"]!(themes.screen))).toContain(
      "no return observed",
    );
    expect(
      await textOf(returnCurveFigure({ family: inventedFamily("compared", []), plan }, themes.screen)),
    ).toContain("No injury in these data can answer the question.");
  });

  it("give each curve's n, events and half-way point in the text alternative", () => {
    const { description } = returnCurveFigure({ family: threeTreatments, plan }, themes.screen);
    expect(description).toContain(
      "ring: n = 64, 55 returned during follow-up; median, weeks: 14.1 (12.6 to 16.3); returned by week 13, per cent: follow-up ends earlier.",
    );
  });

  it("leave the results as they were", () => {
    const before = structuredClone(fiveGrades);
    returnCurveFigure({ family: fiveGrades, plan }, themes.slide);
    expect(fiveGrades).toEqual(before);
  });
});

describe("the forest says which side means what", () => {
  const sides = async (
    measure: EffectResult["measure"],
    value: number,
    others: readonly EffectResult[] = [],
  ) =>
    textOf(
      forestFigure(
        { plan, effects: [inventedEffect(measure, [value, value / 2, value * 2]), ...others] },
        themes.screen,
      ),
    );

  it.each([
    {
      measure: "landmark_difference",
      left: "tape sooner",
      right: "ring sooner",
      why: "more of the compared back is to the right",
    },
    {
      measure: "restricted_mean_difference",
      left: "tape sooner",
      right: "ring sooner",
      why: "fewer days are to the right",
    },
    {
      measure: "hazard_ratio",
      left: "tape sooner",
      right: "ring sooner",
      why: "a higher rate of return is to the right",
    },
    {
      measure: "distance_change_difference",
      left: "tape narrowed more",
      right: "ring narrowed more",
      why: "a smaller distance is to the right",
    },
  ] as const)("$measure: $why", async ({ measure, left, right }) => {
    const text = (await sides(measure, 1.4)).replaceAll("\u00a0", " ");
    expect(text).toContain(`\u25c4 ${left} ${right} \u25ba`);
  });

  it("against the reference where several groups are compared", async () => {
    const other = inventedEffect("hazard_ratio", [0.7, 0.5, 0.9], { compared: "surgery" });
    const text = (await sides("hazard_ratio", 1.4, [other])).replaceAll("\u00a0", " ");
    expect(text).toContain("\u25c4 later than tape sooner than tape \u25ba");
  });

  it("and why an estimate or a limit is missing, and what was adjusted for", async () => {
    const text = await textOf(
      awkwardFigures["two compared groups, limits missing and far off"]!(themes.screen),
    );
    for (const words of [
      "too few injuries",
      "1.40 (up to 3.10)",
      "1.40 (from 0.80)",
      "0.0 (no interval)",
      "0.02 (0.00 to 900.00)",
    ]) {
      expect(text).toContain(words);
    }
    expect(text).toContain("adjusted: for grade and sex");
    expect(text).toContain("adjusted: for first loaded tendon-phalanx distance");
  });
});

describe("paired distances", () => {
  it("are marked as showing single injuries, and hold neither ids nor dates", () => {
    const distances = inventedDistances([{ label: "ring", n: 8, drop: 1 }]);
    const figure = pairedDistancesFigure({ distances, plan }, themes.screen);
    expect(figure.individual).toBe(true);
    expect(JSON.stringify(figure.spec)).not.toMatch(/\d{4}-\d{2}-\d{2}|person|injury_id/);
  });

  it("say of a group without pairs that it has none", async () => {
    const distances = inventedDistances([
      { label: "ring", n: 3, drop: 1 },
      { label: "tape", n: 0, drop: 1 },
    ]);
    expect(await textOf(pairedDistancesFigure({ distances, plan }, themes.screen))).toContain(
      "no injury with two readings",
    );
  });
});

describe("other ends than a return", () => {
  const family = withOtherEnds(threeTreatments, { gave_up: [0.05, 0.21, 0], new_rupture: [0.1, 0.05] });

  it("stand each in a panel of its own below the return, with how many came to them", async () => {
    const two = { ...family, curves: family.curves.slice(1) };
    const text = await textOf(otherEndsFigure({ family: two, plan }, themes.screen));
    const places = [
      "share back to full climbing",
      "share that gave up climbing before being back (tape 3 of 58, surgery 0 of 17)",
      "share that had a new rupture of the finger before being back (tape 3 of 58, surgery 0 of 17)",
      "injuries at risk",
    ].map((words) => text.indexOf(words));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("are drawn to one scale that holds every limit", () => {
    const { spec } = otherEndsFigure({ family, plan }, themes.screen);
    const domains = [...JSON.stringify(spec).matchAll(/"domain":\[0,([\d.]+)\],"nice"/g)].map(([, top]) =>
      Number(top),
    );
    expect([...new Set(domains.filter((top) => top <= 1))]).toEqual([1, 0.4]);
  });

  it("are told in the text alternative, also of a group in which nobody came to one", () => {
    expect(otherEndsFigure({ family, plan }, themes.screen).description).toContain(
      "ring by week 13, per cent: 3 (1 to 5); tape by week 13, per cent: 11 (4 to 21); surgery nobody.",
    );
  });

  it("are drawn of the groups compared, else of everybody, and not where there is none", () => {
    const all = withOtherEnds(
      inventedFamily("all", [{ label: "all injuries", n: 9, from: 30, to: 90, censorEvery: 4 }]),
      { died: [0.1] },
    );
    expect(familyWithOtherEnds([all, threeTreatments])).toEqual([all]);
    expect(familyWithOtherEnds([all, family])).toEqual([family]);
    expect(familyWithOtherEnds([threeTreatments])).toEqual([]);
  });
});

describe("states after the return", () => {
  const groups = [inventedAfter("ring", 24, 6), inventedAfter("tape", 31, 0)];

  it("are stacked to one whole on every day", () => {
    const { spec } = afterReturnFigure({ groups, plan }, themes.screen);
    const values = [...JSON.stringify(spec).matchAll(/\{"day":(\d+),"from":([\d.e-]+),"to":([\d.e-]+)\}/g)];
    const tops = new Map<string, number>();
    for (const [, day, , to] of values) tops.set(day!, Math.max(tops.get(day!) ?? 0, Number(to)));
    expect([...tops.keys()]).toContain("260");
    for (const top of tops.values()) expect(top).toBeCloseTo(1, 12);
  });

  it("name what each area is, how many returns did not last, and the share at the main landmark", async () => {
    const text = await textOf(afterReturnFigure({ groups, plan }, themes.screen));
    for (const words of [
      "back, not ruptured again",
      "back, ruptured again since",
      "not yet back",
      "n = 24, 19 returned during follow-up, 6 of them ruptured again; back and not ruptured again at week 13: 50 % (20 to 80 %)",
      "followed: not yet back + back",
    ])
      expect(text).toContain(words);
  });

  it("are drawn only where a return did not last: of the groups compared, else of everybody", () => {
    const all = { ...inventedAfter("all injuries", 60, 6), family: "all" as const };
    const of = (...shown: (typeof groups)[number][]) =>
      groupsAfterReturn({ after_return: { groups: shown, order_not_recorded: 0 } }).map(({ label }) => label);
    expect(of(all, ...groups)).toEqual(["ring", "tape"]);
    expect(of(all, groups[1]!)).toEqual(["all injuries"]);
    expect(of({ ...all, ruptured_again: 0 }, groups[1]!)).toEqual([]);
    expect(groupsAfterReturn({ after_return: null })).toEqual([]);
  });
});
