import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { readPlan } from "../../../src/study/read-plan.js";
import { besideSealed, isWhole, sealedPlanSchema, sealPlan } from "../../../src/study/sealed/sealed-plan.js";

const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
const planOf = (more = "", data = "data: { single_sheet: sheet.csv }"): ReturnType<typeof readPlan> =>
  readPlan(
    "study.yaml",
    `study: finger-study\ntitle: How long\n${data}\ncompare: { by: first_treatment, groups: [ring, tape], reference: tape }\n${more}`,
  );
const on = "2026-01-05";

describe("a sealed plan", () => {
  const seal = sealPlan(planOf(), { on, sha256 });

  it("has the form of its schema, every default filled in, and is whole", () => {
    expect(sealedPlanSchema.parse(JSON.parse(JSON.stringify(seal)))).toEqual(seal);
    expect(seal.asked).toMatchObject({ main_landmark_weeks: 13, question: { milestone: "full_climbing" } });
    expect(isWhole(seal, sha256)).toBe(true);
  });

  it.each([
    { ...seal, sealed_on: "2025-01-05" },
    { ...seal, study: "another" },
    { ...seal, asked: { ...seal.asked, horizon_weeks: 27 } },
    { ...seal, asked: { ...seal.asked, seed: 2 } },
  ])("is not whole when a day, a name or anything that is asked is another", (altered) => {
    expect(isWhole(altered, sha256)).toBe(false);
  });

  it("has the same fingerprint however the study file is laid out, and whatever it is called", () => {
    const other = planOf("main_landmark_weeks: 13\n# a remark", "data:\n  single_sheet: other.csv");
    expect(sealPlan({ ...other, title: "Another title" }, { on, sha256 })).toEqual(seal);
    expect(sealPlan(other, { on: "2026-01-06", sha256 }).sha256).not.toBe(seal.sha256);
  });

  it("finds the same asked, and key by key what is not", () => {
    expect(besideSealed(planOf(), seal)).toEqual({ on, sha256: seal.sha256, changed: [] });
    const later = planOf(
      'main_landmark_weeks: 10\nquestion: { milestone: easy_climbing }\nwho: { grades: ["2"] }',
    );
    expect(besideSealed(later, seal).changed).toEqual([
      { key: "main_landmark_weeks", sealed: "13", now: "10" },
      { key: "question.milestone", sealed: '"full_climbing"', now: '"easy_climbing"' },
      { key: "who.grades", sealed: null, now: '["2"]' },
    ]);
  });

  it("does not count as a change what follows from naming several sites", () => {
    const sites = planOf(
      "",
      "data: { from_sites: [{ site: a, folder: a/copy }, { site: b, folder: b/copy }] }",
    );
    const before = sealPlan(sites, { on, sha256 });
    const compare = { ...sites.compare, adjust_for: [...sites.compare.adjust_for, "site_id" as const] };
    expect(besideSealed({ ...sites, synthetic: true, compare }, before).changed).toEqual([]);
  });
});
