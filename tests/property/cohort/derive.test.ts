import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  deriveCohort,
  deriveRecord,
  type InexactDates,
  type LinkedInjury,
  linkTables,
  type OutcomeRecord,
  type Question,
  singleDay,
  statesOf,
} from "../../../src/cohort/index.js";
import { dateOfDay, dayNumber } from "../../../src/schema/dates.js";
import { stateProbabilities } from "../../../src/statistics/states/index.js";
import { tablesOf } from "../../reference/cohort/history.js";
import { anyQuestion, type Rows, rowsOf } from "./histories.js";

const seeded = { seed: 2024, numRuns: 400 };

const linkOne = ({ injury, ...children }: Rows): LinkedInjury =>
  linkTables(tablesOf({ injuries: [injury], ...children }))[0]!;
const derive = (rows: Rows, question: Question) => deriveRecord(linkOne(rows), question);

/** Histories and questions with the record they give, drawn once for all laws of a record. */
const recordsDrawn = fc
  .sample(fc.tuple(rowsOf(), anyQuestion), { seed: seeded.seed, numRuns: 1500 })
  .flatMap(([rows, question]) => {
    const derived = derive(rows, question);
    return "excluded" in derived ? [] : [{ derived: deepFrozen(derived), question, rows }];
  });

/** Runs a law over the records alone, and fails when hardly any history gave one of each end. */
function forRecords(law: (record: OutcomeRecord, question: Question, rows: Rows) => void): void {
  const records = { milestone: 0, censored: 0, competing: 0 };
  for (const { derived, question, rows } of recordsDrawn) {
    const { end } = derived;
    records[end === "milestone" || end === "censored" ? end : "competing"] += 1;
    try {
      law(derived, question, rows);
    } catch (broken) {
      throw new Error(`broken by ${JSON.stringify({ rows, question, derived })}`, { cause: broken });
    }
  }
  expect(Math.min(...Object.values(records)), JSON.stringify(records)).toBeGreaterThan(30);
}

describe("laws of a derived record", () => {
  it("left < right, both whole, left never below -1", () => {
    forRecords(({ milestone: { left, right } }) => {
      expect(Number.isInteger(left)).toBe(true);
      expect(left).toBeGreaterThanOrEqual(-1);
      if (right !== null) {
        expect(Number.isInteger(right)).toBe(true);
        expect(left).toBeLessThan(right);
      }
    });
  });

  it("time is a whole day, not before day 0, after the entry", () => {
    forRecords(({ time, entry }) => {
      expect(Number.isInteger(time)).toBe(true);
      expect(time).toBeGreaterThanOrEqual(0);
      expect(time).toBeGreaterThan(entry);
      expect(entry).toBeGreaterThanOrEqual(-1);
    });
  });

  it("what came after the return is told exactly where there was one, and lies between it and the end of follow-up and the close", () => {
    let events = 0;
    forRecords(({ end, time, after }, { closedOn }, { injury }) => {
      expect(after === null).toBe(end !== "milestone");
      if (after === null) return;
      const { newRupture, surgery, gaveUp, died, followedUntil } = after;
      const days = [newRupture, surgery, gaveUp, died].filter((day) => day !== null);
      events += days.length;
      for (const day of [...days, followedUntil]) expect(Number.isInteger(day)).toBe(true);
      for (const day of days) {
        expect(day).toBeGreaterThanOrEqual(time);
        expect(day).toBeLessThanOrEqual(followedUntil);
      }
      if (newRupture !== null && closedOn !== null) expect(injury.new_rupture_date! <= closedOn).toBe(true);
    });
    expect(events).toBeGreaterThan(50);
  });

  it("the stays of any record follow each other from its entry on, and the statistics take them", () => {
    forRecords((record) => {
      const { entries, times, from, to } = statesOf([record]);
      expect(entries[0]).toBe(record.entry);
      expect(times[0]).toBe(record.time);
      for (let row = 1; row < times.length; row++) {
        expect(entries[row]).toBe(times[row - 1]);
        expect(from[row]).toBe(to[row - 1]);
      }
      const { states } = stateProbabilities(statesOf([record]));
      expect(states.reduce((sum, { share }) => sum + share.at(-1)!, 0)).toBeCloseTo(1, 12);
    });
  });

  it("a right end is told exactly where the record ends with the milestone, and holds its time", () => {
    forRecords(({ milestone: { left, right, known }, time, end }) => {
      expect(right !== null).toBe(end === "milestone");
      expect(known === "not_reached").toBe(end !== "milestone");
      if (right === null) expect(left).toBeLessThanOrEqual(time);
      else expect(left < time && time <= right).toBe(true);
    });
  });

  it("only an end that was asked about is told", () => {
    forRecords(({ end }, { competingEnds }) => {
      expect(["milestone", "censored", ...competingEnds]).toContain(end);
    });
  });

  it("nothing is told about the time after the close, day 0 being exact", () => {
    forRecords(({ time, clockStart, episodes, distances }, question, { injury }) => {
      if (question.closedOn === null) return;
      if (question.clock === "injury" && injury.injury_date_precision !== null) return;
      const close = dayNumber(question.closedOn) - dayNumber(clockStart);
      const days = [
        time,
        ...episodes.flatMap(({ from, to }) => [from, to ?? from]),
        ...distances.flatMap(({ baselineDay, followUpDay }) => [baselineDay, followUpDay ?? baselineDay]),
      ];
      expect(Math.max(...days)).toBeLessThanOrEqual(close);
    });
  });

  it("earliest <= midpoint <= latest, all of them in the interval", () => {
    const interval = fc.record({
      left: fc.integer({ min: -1, max: 4000 }),
      length: fc.integer({ min: 1, max: 800 }),
    });
    fc.assert(
      fc.property(interval, ({ left, length }) => {
        const [earliest, midpoint, latest] = (["earliest", "midpoint", "latest"] as const).map((rule) =>
          singleDay({ left, right: left + length }, rule),
        ) as [number, number, number];
        expect(left < earliest && earliest <= midpoint && midpoint <= latest).toBe(true);
        expect(latest).toBe(left + length);
      }),
      seeded,
    );
  });

  it("a later rule for inexact dates never makes a record end earlier, where nothing competes", () => {
    let reached = 0;
    fc.assert(
      fc.property(rowsOf(), anyQuestion, (rows, question) => {
        const under = (inexactDates: InexactDates) =>
          derive(rows, { ...question, inexactDates, entry: "clock", competingEnds: [] });
        const [earliest, midpoint, latest] = [under("earliest"), under("midpoint"), under("latest")];
        if ("excluded" in earliest || "excluded" in midpoint || "excluded" in latest) return;
        if (earliest.end === "milestone") reached += 1;
        expect(earliest.time <= midpoint.time && midpoint.time <= latest.time).toBe(true);
      }),
      seeded,
    );
    expect(reached).toBeGreaterThan(50);
  });
});

describe("laws of a derivation", () => {
  it("shifting all dates by k days changes nothing but the day 0 (no date known to the month)", () => {
    fc.assert(
      fc.property(
        rowsOf(["day", "week"]),
        anyQuestion,
        fc.integer({ min: -5000, max: 5000 }),
        (rows, question, k) => {
          const later = derive(shifted(rows, k), shifted(question, k));
          const { clockStart, ...same } = derive(rows, question) as OutcomeRecord;
          expect(later).toEqual(
            clockStart === undefined ? same : { ...same, clockStart: dateOfDay(dayNumber(clockStart) + k) },
          );
        },
      ),
      seeded,
    );
  });

  it("the order of the child rows is immaterial", () => {
    const shuffled = rowsOf().chain((rows) =>
      fc.record({
        rows: fc.constant(rows),
        mixed: fc.record({
          injury: fc.constant(rows.injury),
          treatments: orderOf(rows.treatments),
          imaging: orderOf(rows.imaging),
          visits: orderOf(rows.visits),
        }),
      }),
    );
    fc.assert(
      fc.property(shuffled, anyQuestion, ({ rows, mixed }, question) => {
        expect(inNoOrder(derive(mixed, question))).toEqual(inNoOrder(derive(rows, question)));
      }),
      seeded,
    );
  });

  it("every linked injury lands in exactly one list, in the order of its table", () => {
    const cohort = fc.array(rowsOf(), { maxLength: 8 });
    fc.assert(
      fc.property(cohort, anyQuestion, (histories, question) => {
        const linked = linkMany(histories);
        const { records, excluded } = deriveCohort(linked, question);
        const rows = linked.map(({ injury }) => injury.row);
        const told = [...records, ...excluded].map(({ row }) => row);
        expect(told.toSorted((a, b) => a - b)).toEqual(rows);
        for (const list of [records, excluded]) {
          expect(list.map(({ row }) => row)).toEqual(list.map(({ row }) => row).toSorted((a, b) => a - b));
        }
      }),
      { ...seeded, numRuns: 100 },
    );
  });

  it("an injury gives the same record alone and beside others", () => {
    fc.assert(
      fc.property(fc.array(rowsOf(), { minLength: 1, maxLength: 5 }), anyQuestion, (histories, question) => {
        const linked = linkMany(histories);
        const { records, excluded } = deriveCohort(linked, question);
        const alone = linked.map((injury) => deriveRecord(injury, question));
        expect(alone.filter((each) => !("excluded" in each))).toEqual(records);
        expect(alone.filter((each) => "excluded" in each)).toEqual(excluded);
      }),
      { ...seeded, numRuns: 100 },
    );
  });

  it("leaves its input alone", () => {
    fc.assert(
      fc.property(rowsOf(), anyQuestion, (rows, question) => {
        const before = structuredClone({ rows, question });
        derive(deepFrozen(rows), deepFrozen(question));
        expect({ rows, question }).toEqual(before);
      }),
      { ...seeded, numRuns: 100 },
    );
  });
});

/** The same rows or question with every date in it moved by k days. */
function shifted<T>(value: T, k: number): T {
  if (typeof value === "string" && /^\d{4}-\d{2}-\d{2}$/.test(value)) {
    return dateOfDay(dayNumber(value) + k) as T;
  }
  if (Array.isArray(value)) return value.map((each) => shifted(each, k)) as T;
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, shifted(each, k)])) as T;
}

const orderOf = <T>(rows: readonly T[]) =>
  fc.shuffledSubarray([...rows], { minLength: rows.length, maxLength: rows.length });

/** Episodes that begin on one day are listed in the order of their rows, which carries no meaning. */
const inNoOrder = (derived: ReturnType<typeof derive>) =>
  "excluded" in derived ? derived : { ...derived, episodes: new Set(derived.episodes) };

function linkMany(histories: readonly Rows[]): readonly LinkedInjury[] {
  const named = histories.map((rows, index) => {
    const name = <Row extends object>(row: Row): Row => ({ ...row, injury_id: `i${index}` });
    return {
      injury: name(rows.injury),
      treatments: rows.treatments.map(name),
      imaging: rows.imaging.map(name),
      visits: rows.visits.map(name),
    };
  });
  return linkTables(
    tablesOf({
      injuries: named.map(({ injury }) => injury),
      treatments: named.flatMap(({ treatments }) => treatments),
      imaging: named.flatMap(({ imaging }) => imaging),
      visits: named.flatMap(({ visits }) => visits),
    }),
  );
}

function deepFrozen<T>(value: T): T {
  if (value !== null && typeof value === "object") Object.values(value).forEach(deepFrozen);
  return Object.freeze(value);
}
