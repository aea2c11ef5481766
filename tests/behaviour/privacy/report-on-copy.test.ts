import { describe, expect, it } from "vitest";
import { deriveRecord, linkTables, type OutcomeRecord } from "../../../src/cohort/index.js";
import {
  defaultSettings,
  keyedNames,
  recordEndsOf,
  type ShareSettings,
  timelinesOf,
} from "../../../src/privacy/index.js";
import { dateOfDay } from "../../../src/schema/index.js";
import { milestones } from "../../../src/schema/terms.js";
import { answer, type ExactResults } from "../../../src/study/index.js";
import { questionOf } from "../../../src/study/question-of.js";
import { committed, copyWith, openKey, readCopy } from "./cohorts.js";

const ways: readonly (readonly [string, Partial<ShareSettings>])[] = [
  ["day offsets", { dates: "offsets" }],
  ["shifted dates", { dates: "shifted" }],
];

/** What the curves, tests and effects of a report rest on. */
const timesOf = ({
  time,
  end,
  milestone,
  entry,
  grade,
  firstTreatmentDay,
  episodes,
  distances,
}: OutcomeRecord) => ({
  time,
  end,
  milestone,
  entry,
  grade,
  firstTreatmentDay,
  episodes,
  distances,
});

describe.each([
  ["one clinic, linked tables", committed("one-clinic")],
  ["one clinic, single sheet", committed("one-clinic", "study-single-sheet.yaml")],
  ["three sites, closed on a day", committed("three-sites")],
])("a report on the copy: %s", (_, { plan, read }) => {
  const closedOn = plan.data.closed_on ?? null;
  const names = keyedNames(openKey);
  const ends = recordEndsOf(timelinesOf(read.tables), { settings: { ...defaultSettings, closedOn }, names });
  const question = questionOf(plan);

  describe.each(ways)("%s", (__, way) => {
    const copy = copyWith(read, { ...way, order: "as-it-was", closedOn });
    const again = new Map(
      linkTables(readCopy(copy, plan).tables).map((linked) => [linked.injury.values.injury_id, linked]),
    );
    const pairs = linkTables(read.tables).map((linked) => {
      const { values } = linked.injury;
      const end = ends.get(JSON.stringify([values.site_id, values.person_id]))!;
      const shared = again.get(names.nameOf("injury", [values.injury_id]))!;
      const hasMonth = milestones.some((milestone) => values[`${milestone}_precision`] === "month");
      return {
        end,
        hasMonth,
        // the record of the clinic, closed on the last day of this person: by the engine that reports
        original: deriveRecord(linked, { ...question, closedOn: dateOfDay(end.day) }),
        copied: deriveRecord(shared, { ...question, closedOn: null }),
      };
    });

    it("every record is that of the clinic, closed on the person's last day: to the day, but near the close and for months", () => {
      const exact = pairs.filter(({ end, hasMonth }) => !end.toTheWeek && !hasMonth);
      expect(exact.length).toBeGreaterThan(0.9 * pairs.length);
      for (const { original, copied } of exact) {
        if ("excluded" in original) expect(copied).toMatchObject({ excluded: original.excluded });
        else expect(timesOf(copied as OutcomeRecord)).toEqual(timesOf(original));
      }
    });

    it("near the close times differ by three days at most, and by the half of a month where the month is known", () => {
      for (const { original, copied, hasMonth, end } of pairs) {
        if ("excluded" in original || "excluded" in copied) continue;
        expect(copied.end).toBe(original.end);
        const most = (hasMonth ? 16 : 0) + (end.toTheWeek ? 3 : 0);
        expect(Math.abs(copied.time - original.time)).toBeLessThanOrEqual(most);
      }
    });
  });

  it("every row that is in the copy is used there, and the others are counted", () => {
    const copy = copyWith(read, { closedOn });
    const again = readCopy(copy, plan);
    for (const { table, used, in_copy } of copy.disclosure.rows) {
      expect(used, table).toBe(read.tables[table].length);
      expect(again.tables[table].length, table).toBe(in_copy);
    }
    expect(again.accounts.every(({ read: rows, used }) => rows === used)).toBe(true);
  });

  it("shares back at the landmarks differ by less than two in a hundred from those of the clinic's own report, in a group by one return more", () => {
    const { closed_on: __, ...data } = plan.data;
    const original = answer(read, plan);
    const copied = answer(readCopy(copyWith(read, { closedOn }), plan), { ...plan, data });
    const shares = ({ curves }: ExactResults) =>
      curves.flatMap(({ family, curves: all }) =>
        all.flatMap(({ label, landmarks, n }) =>
          landmarks.map(({ day, returned }) => ({
            // a definition is called by its number and its sites, which have other names in the copy
            what: `${family}, ${family === "definition" ? label.replace(/ \(.*$/, "") : label}, day ${day}`,
            share: returned.value,
            // a return known to the month may fall on the other side of a landmark
            most: 0.02 + (family === "all" ? 0 : 1 / n),
          })),
        ),
      );
    const again = new Map(shares(copied).map(({ what, share }) => [what, share]));
    for (const { what, share, most } of shares(original)) {
      if (share !== null) expect(Math.abs((again.get(what) ?? 9) - share), what).toBeLessThan(most);
    }
  });
});
