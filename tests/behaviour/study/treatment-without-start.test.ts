import { describe, expect, it } from "vitest";
import { injury, on, resultsOf, treated } from "./hand-made.js";

/** Twelve fingers, all back after 13 weeks: four ringed and four taped, of which a start is missing; the others otherwise treated. */
const injuries = Array.from({ length: 12 }, (_, i) => injury(String(i + 1)));
const treatments = [
  treated("1", "ring"),
  treated("2", "ring"),
  treated("3", "ring"),
  { ...treated("4", "ring"), start_date: "" },
  treated("5", "tape"),
  treated("6", "tape"),
  treated("7", "tape"),
  { ...treated("8", "tape"), start_date: "" },
  treated("9", "rest"),
  { ...treated("10", "rehabilitation"), start_date: "" },
  treated("11", "other"),
];

describe("treatments without a start, counted by hand", () => {
  const results = resultsOf(injuries, treatments);

  it("stay for everybody and by grade, and are left out of the comparison with their reason", () => {
    expect(results.accounting.tables[1]).toMatchObject({ read: 11, used: 11, set_aside: 0 });
    expect(results.curves.map(({ family, curves }) => [family, curves.map(({ n }) => n)])).toEqual([
      ["all", [12]],
      ["grade", [12]],
      ["compared", [3, 3]],
      ["standardised", [3, 3]],
    ]);
    expect(results.accounting.comparison).toEqual({
      analysed: 12,
      compared: 6,
      left_out: [
        { code: "not-compared: other", n: 1 },
        { code: "not-compared: rehabilitation", n: 1 },
        { code: "not-compared: rest", n: 1 },
        { code: "not-recorded", n: 1 },
        { code: "treatment-without-start", n: 2 },
      ],
    });
  });

  it("other treatments stand by their names, also where values are missing", () => {
    const byTreatment = results.missing.groupings.find(({ by }) => by === "first_treatment");
    expect(byTreatment?.groups.map(({ label, n }) => [label, n])).toEqual([
      ["ring", 4],
      ["tape", 4],
      ["other", 1],
      ["rehabilitation", 1],
      ["rest", 1],
      ["not_recorded", 1],
    ]);
  });

  it("are taken to start with the injury only where the study file says so, with a warning", () => {
    const taken = resultsOf(injuries, treatments, { question: { treatment_without_start: "from_injury" } });
    expect(taken.accounting.comparison).toMatchObject({ compared: 8 });
    expect(taken.warnings).toContainEqual({
      code: "treatment-starts-assumed",
      facts: { n: 2, of: 12 },
      could_move: null,
    });
    expect(results.warnings.map(({ code }) => code)).not.toContain("treatment-starts-assumed");
  });

  it("a return before the true start cannot be told, so nobody without a start is at risk in a comparison", () => {
    const early = injury("4", { full_climbing_date: on(3) });
    const { accounting } = resultsOf([...injuries.slice(0, 3), early, ...injuries.slice(4)], treatments);
    expect(accounting.comparison.left_out).toContainEqual({ code: "treatment-without-start", n: 2 });
  });
});
