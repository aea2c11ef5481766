import { describe, expect, it } from "vitest";
import { deriveRecord, type Question } from "../../../src/cohort/index.js";
import { linkedOf, questionOf } from "../../reference/cohort/history.js";

/** Only what a row must hold: nobody recorded a visit, a treatment or a scan. */
const blank = linkedOf({});

describe("an injury with every optional field blank", () => {
  it("is a censored record, not a missing one", () => {
    expect(deriveRecord(blank, questionOf())).toEqual({
      injury: "P09-1",
      person: "site-a/P09",
      site: "site-a",
      row: 2,
      clockStart: "2024-03-04",
      milestone: { left: 259, right: null, known: "not_reached" },
      entry: -1,
      time: 259,
      end: "censored",
      after: null,
      ruptureWithinReturn: false,
      span: { left: 259, right: null },
      complications: null,
      grade: "3",
      firstTreatment: null,
      earlier: { treatments: [], isNotKnown: false },
      otherTreatment: null,
      firstTreatmentDay: null,
      isTreatmentStartAssumed: false,
      episodes: [],
      distances: [],
      covariates: {
        grade: "3",
        sex: null,
        finger: "ring",
        hand: "left",
        site_id: "site-a",
        bowstringing: null,
        onset: null,
        age_at_injury: null,
        years_climbing: null,
        delay_days: null,
        distance_loaded_first: null,
      },
    });
  });

  it.each<{ name: string; asked: Partial<Question>; excluded: string }>([
    { name: "clock at the first visit", asked: { clock: "first_visit" }, excluded: "no-first-visit" },
    { name: "entry at the first visit", asked: { entry: "first_visit" }, excluded: "no-first-visit" },
    {
      name: "clock at treatment",
      asked: { clock: "treatment_start" },
      excluded: "no-treatment-to-start-the-clock",
    },
  ])("is set out of the analysis for a $name, with the reason", ({ asked, excluded }) => {
    expect(deriveRecord(blank, questionOf(asked))).toMatchObject({ excluded });
  });

  it("gives the same record beside rows in which nothing but the day is filled in", () => {
    const rows = { visits: [{}], imaging: [{ side: "other" as const }] };
    expect(deriveRecord(linkedOf(rows), questionOf())).toEqual(deriveRecord(blank, questionOf()));
  });

  it("seen only on the day of the injury: censored on day 0, at risk on that day alone", () => {
    const sameDay = linkedOf({ injury: { last_contact_date: "2024-03-04" } });
    expect(deriveRecord(sameDay, questionOf())).toMatchObject({ time: 0, entry: -1, end: "censored" });
  });
});
