import fc from "fast-check";
import { expect, it } from "vitest";
import { calendarSpan } from "../../../src/cohort/calendar-span.js";
import { calendarsOf, defaultSettings, keyedNames } from "../../../src/privacy/index.js";
import { type CohortTables, dateOfDay, dayNumber, type InjuryRow } from "../../../src/schema/index.js";

const key = Uint8Array.from({ length: 32 }, (_, place) => place);
const precision = fc.constantFrom("day", "week", "month", null);
const day = fc.integer({ min: dayNumber("1995-01-01"), max: dayNumber("2030-12-31") });

/** Injuries of three persons with a return each, dated to the day, week or month. */
const cohort = fc.array(
  fc.record({
    person: fc.constantFrom<string>("A", "B", "C"),
    day,
    to: precision,
    later: fc.integer({ min: 0, max: 900 }),
    back: precision,
  }),
  { minLength: 1, maxLength: 8 },
);
type Drawn = (typeof cohort extends fc.Arbitrary<infer T> ? T : never)[number];

const tablesOf = (rows: readonly Drawn[]): CohortTables => {
  const injuries = rows.map(({ person, day: at, to, later, back }, place) => ({
    file: "injuries.csv",
    row: place + 2,
    values: {
      injury_id: String(place),
      person_id: person,
      site_id: null,
      injury_date: dateOfDay(at),
      injury_date_precision: to,
      full_climbing_date: dateOfDay(at + later),
      full_climbing_precision: back,
      easy_climbing_date: null,
      previous_level_date: null,
      last_contact_date: dateOfDay(at + later),
    } as unknown as InjuryRow,
  }));
  return { injuries, treatments: [], imaging: [], visits: [], sites: [] };
};

it.each(["offsets", "shifted"] as const)(
  "%s: one move a person, days in order, months as long as before",
  (dates) => {
    fc.assert(
      fc.property(cohort, fc.integer({ min: 14, max: 3650 }), (rows, shiftDays) => {
        const tables = tablesOf(rows);
        const settings = { ...defaultSettings, dates, shiftDays };
        const moves = calendarsOf(tables, { settings, names: keyedNames(key) });
        expect(moves.size).toBe(new Set(rows.map(({ person }) => person)).size);
        for (const { values } of tables.injuries) {
          const move = moves.get(JSON.stringify([null, values.person_id]))!;
          const moved = (date: string) => dateOfDay(dayNumber(date) + move);
          for (const [date, to] of [
            [values.injury_date, values.injury_date_precision],
            [values.full_climbing_date!, values.full_climbing_precision],
          ] as const) {
            const [before, after] = [calendarSpan(date, to), calendarSpan(moved(date), to)];
            expect(after).toEqual({ first: before.first + move, last: before.last + move });
          }
          if (dates === "shifted") expect(move).not.toBe(0);
        }
        for (const [person, move] of moves) {
          const own = rows.filter((row) => JSON.stringify([null, row.person]) === person);
          const first = dateOfDay(Math.min(...own.map((row) => row.day)) + move);
          const byDay = own.every(({ to, back }) => to !== "month" && back !== "month");
          if (dates === "offsets" && byDay) expect(first).toBe("2000-01-01");
          if (dates === "shifted" && byDay) expect(Math.abs(move)).toBeLessThanOrEqual(shiftDays);
          if (dates === "offsets") expect(first >= "2000-01-01" && first < "2004-01-02").toBe(true);
        }
      }),
      { seed: 2024, numRuns: 60 },
    );
  },
);

it("shifted: every person has a move of their own, spread over both directions", () => {
  const rows = Array.from(
    { length: 400 },
    (_, place) =>
      ({ person: `p${place}`, day: dayNumber("2020-05-05"), to: null, later: 5, back: null }) as Drawn,
  );
  const moves = [
    ...calendarsOf(tablesOf(rows), {
      settings: { ...defaultSettings, dates: "shifted" },
      names: keyedNames(key),
    }).values(),
  ];
  expect(new Set(moves).size).toBeGreaterThan(200);
  // 400 fair draws: 200 forwards with a standard deviation of 10
  expect(Math.abs(moves.filter((move) => move > 0).length - 200)).toBeLessThan(50);
  expect(Math.max(...moves.map(Math.abs))).toBeLessThanOrEqual(364);
});
