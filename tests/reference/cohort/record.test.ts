import { describe, expect, it } from "vitest";
import { deriveRecord, type OutcomeRecord, type Question } from "../../../src/cohort/index.js";
import { type History, linkedOf, questionOf } from "./history.js";

const recordOf = (history: History, asked: Partial<Question> = {}): OutcomeRecord => {
  const derived = deriveRecord(linkedOf(history), questionOf(asked));
  if ("excluded" in derived) throw new Error(`expected a record, found ${derived.excluded}`);
  return derived;
};

describe("entry, by hand", () => {
  const seen = { injury: { first_visit_date: "2024-03-08" } };
  it.each([
    { name: "at the clock: -1", history: seen, asked: {}, entry: -1 },
    {
      name: "at the first visit, 03-04 to 03-08: 4",
      history: seen,
      asked: { entry: "first_visit" },
      entry: 4,
    },
    {
      name: "clock and entry at the first visit: 0",
      history: seen,
      asked: { entry: "first_visit", clock: "first_visit" },
      entry: 0,
    },
    {
      name: "treatment from 03-10, seen two days before: from the start, -1",
      history: { ...seen, treatments: [{}] },
      asked: { entry: "first_visit", clock: "treatment_start" },
      entry: -1,
    },
  ] as const)("$name", ({ history, asked, entry }) => {
    expect(recordOf(history, asked).entry).toBe(entry);
  });
});

describe("clock, by hand", () => {
  const history = {
    injury: { first_visit_date: "2024-03-08", full_climbing_date: "2024-06-03" },
    treatments: [
      { treatment: "rest", start_date: "2024-03-05" },
      { treatment: "ring", start_date: "2024-03-10" },
    ],
  } as const;
  it.each([
    { clock: "injury", start: "2024-03-04", time: 91 },
    { clock: "first_visit", start: "2024-03-08", time: 87 },
    { clock: "treatment_start", start: "2024-03-10", time: 85 },
  ] as const)("$clock: day 0 is $start, 06-03 is day $time", ({ clock, start, time }) => {
    expect(recordOf(history, { clock })).toMatchObject({ clockStart: start, time });
  });
});

describe("treatment, by hand", () => {
  it("the first of interest is the ring on day 6, not the rest of day 1 nor the tape of day 20", () => {
    const record = recordOf({
      treatments: [
        { treatment: "tape", kind: "h_tape", start_date: "2024-03-24" },
        {
          treatment: "ring",
          kind: "thermoplastic_ring",
          start_date: "2024-03-10",
          end_date: "2024-05-05",
        },
        { treatment: "rest", start_date: "2024-03-05", end_date: "2024-03-10" },
      ],
    });
    expect(record).toMatchObject({ firstTreatment: "ring", firstTreatmentDay: 6 });
    expect(record.episodes).toEqual([
      { treatment: "rest", kind: null, from: 1, to: 6 },
      { treatment: "ring", kind: "thermoplastic_ring", from: 6, to: 62 },
      { treatment: "tape", kind: "h_tape", from: 20, to: null },
    ]);
  });

  it.each([
    { name: "two different on one day: several", treatments: ["tape", "ring"], first: "several", day: 6 },
    { name: "one treatment twice on one day: itself", treatments: ["ring", "ring"], first: "ring", day: 6 },
    { name: "with background on the same day: itself", treatments: ["rest", "ring"], first: "ring", day: 6 },
    { name: "background only: none", treatments: ["rest", "rehabilitation"], first: null, day: null },
    { name: "none at all: none", treatments: [], first: null, day: null },
  ] as const)("$name", ({ treatments, first, day }) => {
    expect(recordOf({ treatments: treatments.map((treatment) => ({ treatment })) })).toMatchObject({
      firstTreatment: first,
      firstTreatmentDay: day,
    });
  });

  it.each([
    { name: "the one treatment", treatments: [{ start_date: null }], first: "ring", day: null },
    {
      name: "one treatment twice, one start missing: which began first is not known",
      treatments: [{ start_date: null }, {}],
      first: "ring",
      day: null,
    },
    {
      name: "two treatments and no places: which came first is not known",
      treatments: [{ start_date: null }, { treatment: "tape" }],
      first: "order_not_known",
      day: null,
    },
    {
      name: "two treatments in places, the second without a start",
      treatments: [
        { treatment: "tape", order: 1 },
        { start_date: null, order: 2 },
      ],
      first: "tape",
      day: 6,
    },
    {
      name: "two treatments in places, the first without a start",
      treatments: [
        { treatment: "tape", order: 2 },
        { start_date: null, order: 1 },
      ],
      first: "ring",
      day: null,
    },
    {
      name: "a second treatment and no word on the first",
      treatments: [{ order: 2 }],
      first: "order_not_known",
      day: null,
    },
    {
      name: "a second treatment after rest, which is background",
      treatments: [{ treatment: "rest", start_date: null, order: 1 }, { order: 2 }],
      first: "ring",
      day: 6,
    },
  ] as const)("a start that is not recorded: $name", ({ treatments, first, day }) => {
    expect(recordOf({ treatments }, { competingEnds: [] })).toMatchObject({
      firstTreatment: first,
      firstTreatmentDay: day,
      isTreatmentStartAssumed: false,
    });
  });

  it("where the question says so, the first starts with the injury, and it is said", () => {
    const record = recordOf(
      { treatments: [{ start_date: null }], injury: { first_visit_date: "2024-03-08" } },
      { clock: "first_visit", treatmentWithoutStart: "from_injury" },
    );
    expect(record).toMatchObject({
      firstTreatment: "ring",
      firstTreatmentDay: -4,
      isTreatmentStartAssumed: true,
    });
  });

  it("an episode that ended after the close was going on at it; one that began after it is not told", () => {
    const record = recordOf(
      {
        treatments: [
          { start_date: "2024-03-10", end_date: "2024-05-05" },
          { treatment: "tape", start_date: "2024-05-05" },
        ],
      },
      { closedOn: "2024-04-30" },
    );
    expect(record.episodes).toEqual([{ treatment: "ring", kind: null, from: 6, to: null }]);
  });

  it("treated before the first visit: the day is negative, 03-06 is two days before 03-08", () => {
    const record = recordOf(
      {
        injury: { first_visit_date: "2024-03-08" },
        treatments: [{ treatment: "tape", start_date: "2024-03-06" }],
      },
      { clock: "first_visit" },
    );
    expect(record).toMatchObject({ firstTreatment: "tape", firstTreatmentDay: -2 });
  });
});

describe("distances, by hand", () => {
  it("baseline (3.2 + 3.6) / 2 = 3.4 on day 4, follow-up 1.5 on day 91, the scan between is not used", () => {
    const { distances } = recordOf({
      imaging: [
        { distance_mm: 1.5, date: "2024-06-03" },
        { distance_mm: 3.2 },
        { distance_mm: 2.8, date: "2024-04-15" },
        { distance_mm: 3.6 },
      ],
    });
    expect(distances).toEqual([
      {
        pulley: "A2",
        position: "loaded",
        baselineMm: expect.closeTo(3.4, 12),
        baselineDay: 4,
        followUpMm: 1.5,
        followUpDay: 91,
      },
    ]);
  });

  it("readings on one day only: no follow-up", () => {
    expect(recordOf({ imaging: [{}, { rater: "r2" }] }).distances).toEqual([
      {
        pulley: "A2",
        position: "loaded",
        baselineMm: 3.4,
        baselineDay: 4,
        followUpMm: null,
        followUpDay: null,
      },
    ]);
  });

  it.each([
    { name: "the other hand", reading: { side: "other" } },
    { name: "with tape on", reading: { taped: "yes" } },
    { name: "a lower bound", reading: { bound: "above" } },
    { name: "an upper bound", reading: { bound: "below" } },
  ] as const)("left out: $name", ({ reading }) => {
    expect(recordOf({ imaging: [reading] }).distances).toEqual([]);
  });

  it("blank side, tape and bound are read as injured, untaped, exact", () => {
    const filled = recordOf({ imaging: [{ side: "injured", taped: "no", bound: "exact" }] });
    expect(recordOf({ imaging: [{}] }).distances).toEqual(filled.distances);
  });

  it("pulleys and positions apart, in the order of the vocabularies", () => {
    const { distances } = recordOf({
      imaging: [{ pulley: "A4" }, { position: "loaded" }, { position: "rest", distance_mm: 1 }],
    });
    expect(distances.map(({ pulley, position }) => `${pulley} ${position}`)).toEqual([
      "A2 rest",
      "A2 loaded",
      "A4 loaded",
    ]);
  });

  it("a reading after the close is not told", () => {
    const imaging = [{}, { date: "2024-06-03", distance_mm: 1.5 }];
    expect(recordOf({ imaging }, { closedOn: "2024-05-31" }).distances[0]).toMatchObject({
      followUpMm: null,
    });
  });
});

it("the day of the close itself still counts: first visit, treatment, its end and a reading on day 91", () => {
  const closedOn = "2024-06-03";
  const record = recordOf(
    {
      injury: { first_visit_date: closedOn },
      treatments: [
        { start_date: "2024-03-10", end_date: closedOn },
        { treatment: "tape", start_date: closedOn },
      ],
      imaging: [{}, { date: closedOn, distance_mm: 1.5 }],
    },
    { closedOn },
  );
  expect(record.covariates.delay_days).toBe(91);
  expect(record.episodes.map(({ from, to }) => [from, to])).toEqual([
    [6, 91],
    [91, null],
  ]);
  expect(record.distances[0]).toMatchObject({ followUpMm: 1.5, followUpDay: 91 });
});

describe("covariates", () => {
  it("unknown and not stated are not recorded; delay 03-04 to 03-08 is 4 days", () => {
    const { grade, covariates } = recordOf({
      injury: {
        grade: "unknown",
        sex: "not_stated",
        onset: "unknown",
        first_visit_date: "2024-03-08",
        age_at_injury: 29,
      },
    });
    expect(grade).toBe("unknown");
    expect(covariates).toEqual({
      grade: null,
      sex: null,
      finger: "ring",
      hand: "left",
      site_id: "site-a",
      bowstringing: null,
      onset: null,
      age_at_injury: 29,
      years_climbing: null,
      delay_days: 4,
      distance_loaded_first: null,
    });
  });

  it("the first loaded distance is that of the first injured pulley", () => {
    const { covariates } = recordOf({
      injury: { pulleys: ["A3", "A2"] },
      imaging: [
        { pulley: "A2", distance_mm: 4 },
        { pulley: "A3", distance_mm: 2.5 },
        { pulley: "A3", position: "rest" },
      ],
    });
    expect(covariates.distance_loaded_first).toBe(2.5);
  });

  it("an injury dated to the month after its first visit has no known delay", () => {
    const injury = {
      injury_date: "2024-03-15",
      injury_date_precision: "month",
      first_visit_date: "2024-03-08",
    } as const;
    expect(recordOf({ injury }).covariates.delay_days).toBeNull();
  });
});
