import { describe, expect, it } from "vitest";
import {
  complicationAfter,
  deriveCohort,
  deriveRecord,
  linkTables,
  type OutcomeRecord,
  type Question,
  statesOf,
  timeAfterReturn,
  toColumns,
} from "../../../src/cohort/index.js";
import { dateOfDay, dayNumber } from "../../../src/schema/dates.js";
import { cumulativeIncidence, incidenceAt } from "../../../src/statistics/index.js";
import { eventRate } from "../../../src/statistics/rates/index.js";
import { stateAt, stateProbabilities } from "../../../src/statistics/states/index.js";
import { type History, injuryOf, linkedOf, questionOf, tablesOf } from "./history.js";

const recordOf = (history: History, asked: Partial<Question> = {}): OutcomeRecord => {
  const derived = deriveRecord(linkedOf(history), questionOf(asked));
  if ("excluded" in derived) throw new Error(`expected a record, found ${derived.excluded}`);
  return derived;
};
/** Injured on 2024-03-04 = day 0, back on 06-03 = day 91, last contact 11-18 = day 259. */
const back = { full_climbing_date: "2024-06-03" } as const;
const nothing = { newRupture: null, surgery: null, gaveUp: null, died: null, level: null };

describe("what came after the return, by hand", () => {
  it("nothing: followed to the last contact, day 259", () => {
    expect(recordOf({ injury: back })).toMatchObject({
      time: 91,
      end: "milestone",
      after: { ...nothing, followedUntil: 259 },
      ruptureWithinReturn: false,
    });
  });

  it.each([
    { name: "not back", injury: {}, end: "censored" },
    {
      name: "ruptured again before any return",
      injury: { new_rupture_date: "2024-05-06" },
      end: "new_rupture",
    },
    {
      name: "ruptured again on day 63, back on day 91: the rupture is the end",
      injury: { ...back, new_rupture_date: "2024-05-06" },
      end: "new_rupture",
    },
  ] as const)("$name: nothing came after a return", ({ injury, end }) => {
    expect(recordOf({ injury })).toMatchObject({ end, after: null });
  });

  it("a rupture before the return that the question does not name is neither an end nor a new rupture after it", () => {
    const record = recordOf(
      { injury: { ...back, new_rupture_date: "2024-05-06" } },
      { competingEnds: ["died"] },
    );
    expect(record).toMatchObject({ end: "milestone", after: { newRupture: null } });
  });

  it.each([
    { name: "day 180 after a return on day 91", date: "2024-08-31", day: 180 },
    { name: "on the day of the return", date: "2024-06-03", day: 91 },
  ])("ruptured again $name", ({ date, day }) => {
    for (const competingEnds of [["new_rupture"], []] as const)
      expect(
        recordOf({ injury: { ...back, new_rupture_date: date } }, { competingEnds }).after,
      ).toMatchObject({ newRupture: day, followedUntil: 259 });
  });

  it("a new rupture after the last contact was known of: followed until it", () => {
    const injury = { ...back, last_contact_date: "2024-06-03", new_rupture_date: "2024-07-01" };
    expect(recordOf({ injury }).after).toMatchObject({ newRupture: 119, followedUntil: 119 });
  });

  it("closed on 2024-08-30: the rupture of the next day and the contacts later are not told", () => {
    const injury = { ...back, new_rupture_date: "2024-08-31" };
    expect(recordOf({ injury }, { closedOn: "2024-08-30" }).after).toEqual({
      ...nothing,
      followedUntil: 179,
    });
  });

  it("the return known to the month, day 89 to 118, a rupture on day 100: the stand-in day 103 comes later", () => {
    const injury = { ...back, full_climbing_precision: "month", new_rupture_date: "2024-06-12" } as const;
    expect(recordOf({ injury })).toMatchObject({ end: "new_rupture", ruptureWithinReturn: true });
    expect(recordOf({ injury }, { inexactDates: "earliest" })).toMatchObject({
      end: "milestone",
      after: { newRupture: 100 },
      ruptureWithinReturn: true,
    });
  });

  it("operated before the return and after it: the one after it", () => {
    const treatments = [
      { treatment: "surgery", start_date: "2024-03-20" },
      { treatment: "surgery", start_date: "2024-09-02" },
    ] as const;
    expect(recordOf({ injury: back, treatments }).after).toMatchObject({ surgery: 182, newRupture: null });
  });

  it("given up after the return, where the question names that", () => {
    const injury = { ...back, gave_up_date: "2024-07-01" };
    expect(recordOf({ injury }).after).toMatchObject({ gaveUp: 119 });
    expect(recordOf({ injury }, { competingEnds: [] }).after).toMatchObject({ gaveUp: null });
  });

  it("a visit after the last contact counts as followed", () => {
    const injury = { ...back, last_contact_date: "2024-06-03" };
    expect(recordOf({ injury, visits: [{ date: "2024-07-01" }] }).after).toMatchObject({
      followedUntil: 119,
    });
  });

  it.each([
    { level_after: "6c+", level: "below" },
    { level_after: "7a", level: "same" },
    { level_after: "7b", level: "above" },
    { level_after: "5.12a", level: null },
    { level_after: null, level: "below" },
  ] as const)(
    "7a before, $level_after at the last contact, 6b at a visit: $level",
    ({ level_after, level }) => {
      const injury = { ...back, level_scale: "french", level_before: "7a", level_after } as const;
      const visits = [
        { date: "2024-05-06", level_now: "5a" },
        { date: "2024-08-05", level_now: "6b" },
      ];
      expect(recordOf({ injury, visits }).after?.level).toBe(level);
    },
  );

  it("a level at a last contact after the close is not known", () => {
    const injury = { ...back, level_scale: "french", level_before: "7a", level_after: "7a" } as const;
    expect(recordOf({ injury }, { closedOn: "2024-10-01" }).after?.level).toBeNull();
  });
});

describe("complications, by hand", () => {
  const treatments = [{ treatment: "ring", start_date: "2024-03-10" }] as const;
  const visits = [
    { date: "2024-03-08", complication: "tenosynovitis" },
    { date: "2024-04-15", complication: "skin_pressure" },
    { date: "2024-05-06", complication: "tenosynovitis" },
    { date: "2024-07-01", complication: "none" },
    { date: "2024-08-05" },
  ] as const;

  it("each kind with its first day, and the last day on which anybody looked", () => {
    expect(recordOf({ treatments, visits }).complications).toEqual({
      found: [
        { complication: "tenosynovitis", day: 4 },
        { complication: "skin_pressure", day: 42 },
      ],
      lastAsked: 119,
    });
  });

  it.each([
    { name: "ring of day 6, skin on day 42", after: 6, found: true },
    { name: "after day 42: what was there on day 4 is not new", after: 42, found: false },
    { name: "after day 119 nobody looked", after: 119, found: null },
  ])("$name", ({ after, found }) => {
    expect(complicationAfter(recordOf({ treatments, visits }), after)).toBe(found);
  });

  it("no visit says anything: not known; nothing is told of visits after the close", () => {
    expect(recordOf({ visits: [{ date: "2024-04-15" }] }).complications).toBeNull();
    expect(recordOf({ visits }, { closedOn: "2024-03-31" }).complications).toEqual({
      found: [{ complication: "tenosynovitis", day: 4 }],
      lastAsked: 4,
    });
  });
});

describe("a sheet of 40: 30 back on day 91, 10 of them ruptured again on days 100, 110 ... 190", () => {
  const injury = dayNumber("2024-03-04");
  const injuries = Array.from({ length: 40 }, (_, i) =>
    injuryOf({
      injury_id: `P${i}-1`,
      // two fingers of one person each
      person_id: `P${Math.floor(i / 2)}`,
      ...(i < 30 ? back : {}),
      ...(i < 10 ? { new_rupture_date: dateOfDay(injury + 100 + 10 * i) } : {}),
      ...(i >= 35 ? { gave_up_date: dateOfDay(injury + 60) } : {}),
      last_contact_date: dateOfDay(injury + (i < 10 ? 100 + 10 * i : i >= 35 ? 60 : 259)),
    }),
  );
  const { records } = deriveCohort(linkTables(tablesOf({ injuries })), questionOf());
  const columns = statesOf(records);

  it("10 of 30 ruptured again: two stays of each that came back, one of each other", () => {
    expect(records.filter(({ after }) => after !== null)).toHaveLength(30);
    expect(records.filter(({ after }) => after?.newRupture != null)).toHaveLength(10);
    expect(columns.times).toHaveLength(70);
    const moves = (from: number, to: number) =>
      columns.from.reduce((sum, one, row) => sum + (one === from && columns.to[row] === to ? 1 : 0), 0);
    expect([moves(0, 1), moves(1, 2), moves(1, 1), moves(0, 3), moves(0, 0)]).toEqual([30, 10, 20, 5, 5]);
  });

  it("shares of day 259: 5 of 40 not yet, 20 back, 10 ruptured again, 5 given up, as nobody was lost before", () => {
    const curve = stateProbabilities(columns, { absorbing: [2, 3, 4] });
    expect(curve).toMatchObject({ n: 40, units: 20 });
    const shares = [0, 1, 2, 3].map((state) => stateAt(curve, { time: 259, state }).share);
    [5 / 40, 20 / 40, 10 / 40, 5 / 40].forEach((share, state) => {
      expect(shares[state]).toBeCloseTo(share, 12);
    });
    expect(stateAt(curve, { time: 140, state: 2 })).toMatchObject({
      entered: 5,
      left: 0,
      followed: 30 + 5 - 4,
    });
  });

  it("back, ruptured again and ended after the return add up to the cumulative incidence of the return", () => {
    const { times, causes } = toColumns(records);
    const curve = stateProbabilities(columns, { absorbing: [2, 3, 4] });
    const incidence = cumulativeIncidence({ times, causes });
    for (const time of [0, 60, 90, 91, 120, 200, 259]) {
      const ever = [1, 2, 4].reduce((sum, state) => sum + stateAt(curve, { time, state }).share!, 0);
      expect(ever).toBeCloseTo(incidenceAt(incidence, { time, cause: 1 }).incidence!, 12);
    }
  });

  it("10 new ruptures in 10 x 54 + 20 x 168 days after the return", () => {
    const time = timeAfterReturn(records);
    const sum = (values: ArrayLike<number>) => Array.from(values).reduce((total, value) => total + value, 0);
    const [events, personTime] = [sum(time.newRuptures), sum(time.daysToRupture)];
    expect([time.records.length, events, personTime]).toEqual([30, 10, 10 * 54 + 20 * 168]);
    expect(eventRate({ events, personTime }).estimate).toBeCloseTo(10 / 3900, 15);
    expect(sum(time.surgeries)).toBe(0);
    expect(Array.from(time.clusters.slice(0, 4))).toEqual([0, 0, 1, 1]);
  });

  it("ruptured again on the day of the return: a move straight from not yet, and no stay of no day", () => {
    const record = recordOf({ injury: { ...back, new_rupture_date: "2024-06-03" } });
    const one = statesOf([record]);
    expect([Array.from(one.from), Array.from(one.to), Array.from(one.times)]).toEqual([[0], [2], [91]]);
    expect(timeAfterReturn([record])).toMatchObject({
      newRuptures: Uint8Array.of(1),
      daysToRupture: Float64Array.of(0),
    });
  });

  it("given up after the return: state 4; a rupture later than that is told and not counted", () => {
    const injuryWith = { ...back, gave_up_date: "2024-07-01", new_rupture_date: "2024-08-31" };
    const record = recordOf({ injury: injuryWith });
    expect(Array.from(statesOf([record]).to)).toEqual([1, 4]);
    expect(timeAfterReturn([record])).toMatchObject({
      newRuptures: Uint8Array.of(0),
      daysToRupture: Float64Array.of(28),
    });
  });
});
