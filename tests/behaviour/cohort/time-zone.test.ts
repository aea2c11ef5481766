import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { deriveRecord, linkTables } from "../../../src/cohort/index.js";
import { anyQuestion, rowsOf } from "../../property/cohort/histories.js";
import { linkedOf, questionOf, tablesOf } from "../../reference/cohort/history.js";

/** Zones with summer time north and south, half hours, a change at midnight, and both ends of the date line. */
const zones = [
  "UTC",
  "Europe/Berlin",
  "America/Santiago",
  "Australia/Lord_Howe",
  "Asia/Beirut",
  "Pacific/Kiritimati",
  "Pacific/Pago_Pago",
];

const zoneOfTheRun = process.env.TZ;
afterAll(() => {
  if (zoneOfTheRun === undefined) delete process.env.TZ;
  else process.env.TZ = zoneOfTheRun;
});

/** What a derivation gives in every zone, by zone. */
const everywhere = <T>(derive: () => T): readonly T[] =>
  zones.map((zone) => {
    process.env.TZ = zone;
    return derive();
  });

describe("the time zone of the machine", () => {
  it("really changes in this test: noon of a July day lies at seven different offsets", () => {
    const offsets = everywhere(() => new Date(2024, 6, 1, 12).getTimezoneOffset());
    expect(new Set(offsets).size).toBe(zones.length);
  });

  it.each([
    { from: "2024-03-30", to: "2024-04-01", days: 2 },
    { from: "2024-10-26", to: "2024-10-28", days: 2 },
    { from: "2024-04-06", to: "2024-04-08", days: 2 },
    { from: "2024-02-28", to: "2024-03-01", days: 2 },
    { from: "2023-12-31", to: "2024-12-31", days: 366 },
  ])("is immaterial across a clock change or a year's end: $from to $to is $days days", (worked) => {
    const linked = linkedOf({
      injury: { injury_date: worked.from, full_climbing_date: worked.to, last_contact_date: worked.to },
    });
    const times = everywhere(() => deriveRecord(linked, questionOf()));
    for (const derived of times)
      expect(derived).toMatchObject({ time: worked.days, clockStart: worked.from });
  });

  it("is immaterial to any history", () => {
    fc.assert(
      fc.property(rowsOf(), anyQuestion, ({ injury, ...children }, question) => {
        const tables = tablesOf({ injuries: [injury], ...children });
        const [first, ...others] = everywhere(() => deriveRecord(linkTables(tables)[0]!, question));
        for (const other of others) expect(other).toEqual(first);
      }),
      { seed: 2024, numRuns: 60 },
    );
  });
});
