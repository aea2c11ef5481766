import { describe, expect, it } from "vitest";
import { calendarsOf } from "../../../src/privacy/calendars.js";
import { defaultSettings, keyedNames } from "../../../src/privacy/index.js";
import { dayNumber } from "../../../src/schema/index.js";

const timeline = {
  person: "P1",
  site: "a",
  firstInjury: dayNumber("2024-03-04"),
  firstPrecision: "day",
  lastSeen: dayNumber("2024-11-18"),
} as const;
const end = {
  day: dayNumber("2024-12-01"),
  isAtClose: false,
  toTheWeek: false,
  daysOfSite: 700,
  isEarly: false,
};

/** The move of a person for whom the key draws the smallest numbers: fewest days, and earlier. */
function fewestDays(how: { readonly isEarly: boolean; readonly drawnBack: number }): number {
  const settings = { ...defaultSettings, dates: "shifted" as const, closingWindow: 28 } as const;
  const names = { ...keyedNames(Uint8Array.from({ length: 32 }, (_, place) => place)), numberOf: () => 0 };
  const ends = new Map([["P1", { ...end, ...how }]]);
  return calendarsOf([timeline], { settings, names, ends }).get("P1")!;
}

describe("shifted dates are never moved by so few days that the real day is told", () => {
  it("one day later at the least, whatever was drawn back added", () => {
    expect(fewestDays({ isEarly: true, drawnBack: 0 })).toBe(1);
    expect(fewestDays({ isEarly: true, drawnBack: 5 })).toBe(6);
  });

  it("earlier by a whole window at the least, of which at most all but one day was drawn back", () => {
    expect(fewestDays({ isEarly: false, drawnBack: 0 })).toBe(-28);
    expect(fewestDays({ isEarly: false, drawnBack: 27 })).toBe(-1);
  });
});
