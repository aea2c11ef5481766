import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  closingWindows,
  defaultSettings,
  disclosedTables,
  keyedNames,
  type ShareSettings,
  shiftRanges,
  timelinesOf,
} from "../../../src/privacy/index.js";
import {
  type CohortTables,
  dateOfDay,
  dayNumber,
  type InjuryRow,
  type VisitRow,
} from "../../../src/schema/index.js";

const key = Uint8Array.from({ length: 32 }, (_, place) => place);
const names = keyedNames(key);
const precision = fc.constantFrom("day", "week", "month", null);
const day = fc.integer({ min: dayNumber("2020-01-01"), max: dayNumber("2023-12-31") });

/** Injuries of a few persons at two sites with a return each, dated to the day, week or month, and a visit. */
const cohort = fc.array(
  fc.record({
    person: fc.constantFrom<string>("A", "B", "C", "D", "E", "F"),
    day,
    to: precision,
    later: fc.integer({ min: 0, max: 500 }),
    back: precision,
    seen: fc.integer({ min: 0, max: 500 }),
  }),
  { minLength: 1, maxLength: 12 },
);
type Drawn = (typeof cohort extends fc.Arbitrary<infer T> ? T : never)[number];

function tablesOf(rows: readonly Drawn[]): CohortTables {
  const injuries = rows.map(({ person, day: at, to, later, back, seen }, place) => ({
    file: "injuries.csv",
    row: place + 2,
    values: {
      injury_id: String(place),
      person_id: person,
      site_id: person < "D" ? "one" : "other",
      injury_date: dateOfDay(at),
      injury_date_precision: to,
      first_visit_date: null,
      full_climbing_date: dateOfDay(at + later),
      full_climbing_precision: back,
      full_climbing_not_before: null,
      full_climbing_not_after: null,
      easy_climbing_date: null,
      easy_climbing_precision: null,
      easy_climbing_not_before: null,
      easy_climbing_not_after: null,
      previous_level_date: null,
      previous_level_precision: null,
      previous_level_not_before: null,
      previous_level_not_after: null,
      new_rupture_date: null,
      gave_up_date: null,
      last_contact_date: dateOfDay(at + Math.max(later, seen)),
      end_status: "completed",
    } as unknown as InjuryRow,
  }));
  const visits = rows.map(({ day: at, seen }, place) => ({
    file: "visits.csv",
    row: place + 2,
    values: { injury_id: String(place), date: dateOfDay(at + seen) } as unknown as VisitRow,
  }));
  return { injuries, treatments: [], imaging: [], visits, sites: [], personIds: "per_site" };
}

const settingsOf = fc.record({
  dates: fc.constantFrom("offsets", "shifted"),
  closingWindow: fc.constantFrom(...closingWindows),
  shiftDays: fc.constantFrom(...shiftRanges),
}) as fc.Arbitrary<Pick<ShareSettings, "dates" | "closingWindow" | "shiftDays">>;

/** Told rows beside the rows they came from, by injury. */
const besides = (before: CohortTables, after: CohortTables) =>
  after.injuries.map(({ values }) => ({
    told: values,
    was: before.injuries.find((row) => row.values.injury_id === values.injury_id)!.values,
  }));

describe("the days of a copy", () => {
  it("nothing lies after the last day of a record but for three days of a contact, and each is a whole window wide", () => {
    fc.assert(
      fc.property(cohort, settingsOf, (rows, some) => {
        const settings = { ...defaultSettings, ...some };
        const before = tablesOf(rows);
        const { tables, ends } = disclosedTables(before, { settings, names });
        for (const { person, lastSeen, firstInjury } of timelinesOf(tables)) {
          const end = ends.get(person)!;
          expect(end.drawnBack).toBeGreaterThanOrEqual(0);
          expect(end.drawnBack).toBeLessThan(settings.closingWindow);
          // a day of injury known to the month is drawn anew within its month
          const own = rows.filter((row) => JSON.parse(person)[1] === row.person);
          const slack = own.some(({ to }) => to === "month") ? 34 : 3;
          expect(lastSeen).toBeLessThanOrEqual(end.day + slack);
          expect(lastSeen - firstInjury).toBeLessThanOrEqual(
            Math.max(0, end.daysOfSite - settings.closingWindow + 1) + 2 * slack,
          );
        }
      }),
      { seed: 2024, numRuns: 150 },
    );
  });

  it("returns stay to the day, or lie within the days that are told of them", () => {
    fc.assert(
      fc.property(cohort, settingsOf, (rows, some) => {
        const before = tablesOf(rows);
        const { tables } = disclosedTables(before, { settings: { ...defaultSettings, ...some }, names });
        for (const { was, told } of besides(before, tables)) {
          const real = dayNumber(was.full_climbing_date!);
          if (told.full_climbing_date !== null) {
            const slack = told.full_climbing_precision === "week" ? 3 : 0;
            expect(Math.abs(dayNumber(told.full_climbing_date) - real)).toBeLessThanOrEqual(slack);
          } else if (told.full_climbing_not_after !== null) {
            // bounds are contacts, which may be told three days away
            expect(dayNumber(told.full_climbing_not_after)).toBeGreaterThanOrEqual(real - 18);
            if (told.full_climbing_not_before !== null)
              expect(dayNumber(told.full_climbing_not_before)).toBeLessThanOrEqual(real + 16);
          }
          expect(told.full_climbing_precision).not.toBe("month");
        }
      }),
      { seed: 2024, numRuns: 150 },
    );
  });

  it("what was in order stays in order: injury, visits, last contact", () => {
    fc.assert(
      fc.property(cohort, settingsOf, (rows, some) => {
        const { tables } = disclosedTables(tablesOf(rows), {
          settings: { ...defaultSettings, ...some },
          names,
        });
        for (const { values } of tables.injuries) {
          if (values.injury_date_precision === "month") continue;
          expect(values.last_contact_date >= values.injury_date).toBe(true);
          for (const visit of tables.visits.filter((row) => row.values.injury_id === values.injury_id)) {
            expect(visit.values.date >= values.injury_date).toBe(true);
            expect(visit.values.date <= values.last_contact_date).toBe(true);
          }
        }
      }),
      { seed: 2024, numRuns: 150 },
    );
  });

  it("offsets begin on 1 January 2000, on the 16th where the month alone is known; shifted days are never the real ones", () => {
    fc.assert(
      fc.property(cohort, settingsOf, (rows, some) => {
        const settings = { ...defaultSettings, ...some };
        const { tables, calendars } = disclosedTables(tablesOf(rows), { settings, names });
        for (const { person, firstInjury, firstPrecision } of timelinesOf(tables)) {
          const move = calendars.get(person)!;
          if (settings.dates === "offsets") {
            expect(dateOfDay(firstInjury + move)).toBe(
              firstPrecision === "month" ? "2000-01-16" : "2000-01-01",
            );
          } else {
            expect(move).not.toBe(0);
            expect(Math.abs(move)).toBeLessThan(settings.shiftDays + settings.closingWindow);
          }
        }
      }),
      { seed: 2024, numRuns: 150 },
    );
  });
});

it("draws of several windows and ranges differ by whole windows, so that several copies tell no more than one", () => {
  const rows = Array.from(
    { length: 200 },
    (_, place) =>
      ({ person: `p${place}`, day: 18_400 + place, to: null, later: 5, back: null, seen: 9 }) as Drawn,
  );
  const drawn = closingWindows.map((closingWindow) =>
    disclosedTables(tablesOf(rows), { settings: { ...defaultSettings, closingWindow }, names }),
  );
  for (const { person } of timelinesOf(tablesOf(rows))) {
    const back = drawn.map(({ ends }) => ends.get(person)!.drawnBack);
    for (const days of back) expect((days - back[0]!) % closingWindows[0]).toBe(0);
  }
  // 200 draws from 28 days: each expected about seven times, a day without any once in a thousand
  const first = [...drawn[0]!.ends.values()].map(({ drawnBack }) => drawnBack);
  expect(new Set(first).size).toBeGreaterThan(24);
});
