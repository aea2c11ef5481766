import { describe, expect, it } from "vitest";
import { dateEvidence } from "../../../src/schema/cells/dates/date-evidence.js";
import { elapsedDays, periodAfter } from "../../../src/schema/cells/dates/elapsed-time.js";
import { monthNamed } from "../../../src/schema/cells/dates/month-names.js";
import { writtenDateReader } from "../../../src/schema/cells/dates/read-written-date.js";
import type { DateForms } from "../../../src/schema/cells/dates/year-text.js";

const forms: DateForms = { order: "undecided", twoDigitYearsUntil: null, epoch: null };
const dayFirst: DateForms = { order: "day-first", twoDigitYearsUntil: 40, epoch: 1900 };
const monthFirst: DateForms = { ...dayFirst, order: "month-first" };
const textOf = (cell: string, known: DateForms): string => {
  const reading = writtenDateReader(known)(cell);
  return "problem" in reading ? reading.problem : String(reading.value);
};

describe("dates however they are written", () => {
  it.each([
    ["2024-03-04", "2024-03-04"],
    ["2024-3-4", "2024-03-04"],
    ["2024/03/04", "2024-03-04"],
    ["2024.03.04", "2024-03-04"],
    ["20240304", "2024-03-04"],
    ["2024-03-04T14:30", "2024-03-04"],
    ["2024-03-04 00:00:00", "2024-03-04"],
    ["04/04/2024", "2024-04-04"],
    ["4 March 2024", "2024-03-04"],
    ["March 4, 2024", "2024-03-04"],
    ["4th of March 2024", "2024-03-04"],
    ["4. März 2024", "2024-03-04"],
    ["4.März 2024", "2024-03-04"],
    ["4-Mar-2024", "2024-03-04"],
    ["1er août 2024", "2024-08-01"],
    ["4 de marzo de 2024", "2024-03-04"],
    ["4 giugno 2024", "2024-06-04"],
    ["Mon, 4 March 2024", "2024-03-04"],
    ["maandag 4 maart 2024", "2024-03-04"],
    ["4 mrt 2024", "2024-03-04"],
    ["poniedziałek, 4 marca 2024 r.", "2024-03-04"],
    ["4 października 2024", "2024-10-04"],
    ["LISTOPAD 2024", "2024-11"],
    ["medio maart 2024", "2024-03"],
    ["pod koniec czerwca 2024 r.", "2024-06"],
    ["tussen 4 maart 2024 en 10 maart 2024", "2024-03-04/2024-03-10"],
    ["tydz. 12 2024", "2024-W12"],
    ["okt 2024", "2024-10"],
    ["2024-03", "2024-03"],
    ["03/2024", "2024-03"],
    ["3.2024", "2024-03"],
    ["March 2024", "2024-03"],
    ["Mär 2024", "2024-03"],
    ["févr. 2024", "2024-02"],
    ["mid March 2024", "2024-03"],
    ["early Mar 2024", "2024-03"],
    ["Ende Juni 2024", "2024-06"],
    ["ca. Juni 2024", "2024-06"],
    ["KW 12 2024", "2024-W12"],
    ["KW12/2024", "2024-W12"],
    ["12. KW 2024", "2024-W12"],
    ["week 12 2024", "2024-W12"],
    ["2024-W12", "2024-W12"],
    ["2024 KW 12", "2024-W12"],
    ["2024-03-01/2024-03-10", "2024-03-01/2024-03-10"],
    ["between 4 March 2024 and 10 March 2024", "2024-03-04/2024-03-10"],
    ["4.4.2024 – 5.5.2024", "2024-04-04/2024-05-05"],
  ])("%s is %s, whatever the order", (cell, text) => {
    for (const known of [forms, dayFirst, monthFirst]) expect(textOf(cell, known)).toBe(text);
  });

  it.each([
    ["03/04/2024", "2024-04-03", "2024-03-04"],
    ["3.4.2024", "2024-04-03", "2024-03-04"],
    ["3. 4. 2024", "2024-04-03", "2024-03-04"],
    ["3-4-24", "2024-04-03", "2024-03-04"],
    ["03.04.24", "2024-04-03", "2024-03-04"],
    ["3.4.'24", "2024-04-03", "2024-03-04"],
    ["03042024", "2024-04-03", "2024-03-04"],
    ["13/04/2024", "2024-04-13", "date-impossible"],
    ["04/13/2024", "date-impossible", "2024-04-13"],
    ["03/04/2024 14:30", "2024-04-03", "2024-03-04"],
    ["1.2.24 - 3.2.24", "2024-02-01/2024-02-03", "2024-01-02/2024-03-02"],
  ])("%s is %s with the day first and %s with the month first", (cell, day, month) => {
    expect(textOf(cell, dayFirst)).toBe(day);
    expect(textOf(cell, monthFirst)).toBe(month);
  });

  it.each([
    ["03/04/2024", "date-day-or-month-first"],
    ["13/04/2024", "date-day-or-month-first"],
    ["04.04.24", "date-two-digit-year"],
    ["4 March 24", "date-two-digit-year"],
    ["KW 12/24", "date-two-digit-year"],
    ["45385", "date-serial"],
  ])("%s is asked about (%s) where nothing is stated", (cell, code) => {
    expect(textOf(cell, forms)).toBe(code);
  });

  it.each([
    ["March 24", "date-month-only"],
    ["Mar-24", "date-month-only"],
    ["2024", "date-month-only"],
    ["12/24", "date-unreadable"],
    ["31.2.2024", "date-impossible"],
    ["29 Feb 2023", "date-impossible"],
    ["KW 53 2024", "date-impossible"],
    ["KW 12", "date-unreadable"],
    ["about 4.3.2024", "date-unreadable"],
    ["4 jui 2024", "date-unreadable"],
    ["4.3.", "date-unreadable"],
    ["4.3.1824", "date-year-doubtful"],
    ["1900-02-29", "date-impossible"],
    ["2024-03-10 - 2024-03-01", "span-inside-out"],
    ["spring", "date-unreadable"],
    ["x".repeat(100_000), "date-unreadable"],
  ])("%s is asked about (%s) whatever is stated", (cell, code) => {
    expect(textOf(cell, dayFirst)).toBe(code);
  });

  it("years of two digits go by the stated last year of this century", () => {
    const until = (twoDigitYearsUntil: number) => ({ ...dayFirst, twoDigitYearsUntil });
    expect(textOf("4.3.25", until(25))).toBe("2025-03-04");
    expect(textOf("4.3.99", until(25))).toBe("1999-03-04");
    expect(textOf("4.3.26", until(25))).toBe("date-year-doubtful");
    expect(textOf("March '24", until(25))).toBe("2024-03");
  });

  it("day numbers count from the stated year", () => {
    expect(textOf("45385", { ...forms, epoch: 1900 })).toBe("2024-04-03");
    expect(textOf("43923", { ...forms, epoch: 1904 })).toBe("2024-04-03");
    expect(textOf("45385.75", { ...forms, epoch: 1900 })).toBe("2024-04-03");
    expect(textOf("10000", { ...forms, epoch: 1900 })).toBe("date-year-doubtful");
  });
});

describe("months by name", () => {
  it.each([
    ["Jan", 1],
    ["Jänner", 1],
    ["ene.", 1],
    ["gen", 1],
    ["Mrz", 3],
    ["mrt", 3],
    ["mei", 5],
    ["lip.", 7],
    ["wrzesień", 9],
    ["paź", 10],
    ["abr", 4],
    ["mag", 5],
    ["juin", 6],
    ["juil.", 7],
    ["ago", 8],
    ["AOÛT", 8],
    ["sett", 9],
    ["ottobre", 10],
    ["Okt.", 10],
    ["dic", 12],
    ["déc", 12],
    ["Dez", 12],
  ])("%s is month %d", (name, month) => {
    expect(monthNamed(name)).toBe(month);
  });

  it.each(["jui", "ma", "week", "", "maybe", "mayday"])("%j is none", (name) => {
    expect(monthNamed(name)).toBeNull();
  });
});

describe("what a column says about its dates", () => {
  it.each([
    ["day-first", ["03/04/2024", "13/04/2024", ""]],
    ["month-first", ["03/04/2024", "04/13/2024"]],
    ["contradictory", ["13/04/2024", "04/13/2024"]],
    ["undecided", ["03/04/2024", "05/06/2024"]],
    ["not-needed", ["04/04/2024", "2024-03-05", "4 March 2024"]],
    ["day-first", ["Mo 13.4.24", "3.4.24"]],
    ["contradictory", ["24-03-04", "24-03-19", "24-05-28", "23-11-02"]],
    ["day-first", ["04-03-24", "19-03-24", "28-05-24", "02-11-23"]],
    ["not-needed", ["P1", "2.4", "32/13/2024"]],
  ])("%s: %j", (order, cells) => {
    expect(dateEvidence(cells).order).toBe(order);
  });

  it("counts what needs to be stated, with an example", () => {
    const {
      twoDigitYears,
      serials,
      dayFirst: first,
      either,
    } = dateEvidence(["13.4.24", "3.4.24", "45385", "5.6.2024"]);
    expect(twoDigitYears).toEqual({ count: 2, first: "13.4.24" });
    expect(serials).toEqual({ count: 1, first: "45385" });
    expect(first).toEqual({ count: 1, first: "13.4.24" });
    expect(either).toEqual({ count: 2, first: "3.4.24" });
  });
});

describe("times since the injury", () => {
  it.each([
    ["approx. 8 wks", 53, 59],
    ["8 weeks", 53, 59],
    ["ca. 8 Wochen", 53, 59],
    ["8-10 weeks", 53, 73],
    ["56 days", 56, 56],
    ["3 months", 76, 107],
    ["3 Monate", 76, 107],
    ["2,5 mois", 61, 92],
    ["8 wks post injury", 53, 59],
    ["na 8 weken", 53, 59],
    ["8 t/m 10 wkn", 53, 73],
    ["po 8 tyg.", 53, 59],
    ["około 8 tygodni", 53, 59],
    ["8 do 10 tygodni", 53, 73],
    ["10 dni", 10, 10],
  ])("%s is %d to %d days", (cell, least, most) => {
    expect(elapsedDays(cell)).toEqual({ least, most });
  });

  it.each(["8", "wks", "10-8 weeks", "8 apples", "a while"])("%s is none", (cell) => {
    expect(elapsedDays(cell)).toBeNull();
  });

  it("counts from the injury, as wide as that is known", () => {
    expect(periodAfter("2024-03-04", "8 wks")).toEqual({ value: "2024-04-26/2024-05-02" });
    expect(periodAfter("2024-03-04", "56 days")).toEqual({ value: "2024-04-29" });
    expect(periodAfter("2024-W10", "56 days")).toEqual({ value: "2024-04-29/2024-05-05" });
    expect(periodAfter("unknown", "8 wks")).toEqual({ problem: "date-unreadable", facts: {} });
  });
});
