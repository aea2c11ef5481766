import { describe, expect, it } from "vitest";
import { dateOfDay, dayNumber } from "../../../src/schema/index.js";
import { copyWith, reading } from "./cohorts.js";

const first = dayNumber("2021-01-04");
const close = dayNumber("2024-06-27");

const weekday = (day: number) => (((day + 4) % 7) + 7) % 7;
const isTuesday = (day: number) => weekday(day) === 2;
const isFirstTuesday = (day: number) => isTuesday(day) && Number(dateOfDay(day).slice(8)) <= 7;

/** The next day on which the clinic is open. */
function next(day: number, isOpen: (day: number) => boolean): number {
  let at = day;
  while (!isOpen(at)) at += 1;
  return at;
}

/** Sixty people hurt at even intervals, seen nine times on days on which the clinic is open. */
function cohort(isOpen: (day: number) => boolean) {
  const people = Array.from({ length: 60 }, (_, at) => {
    const day = first + 14 * at;
    const visits: number[] = [];
    for (let from = day + 1; visits.length < 9 && from <= close; from = visits.at(-1)! + 20)
      visits.push(next(from, isOpen));
    return { id: `P${at}`, day, visits };
  });
  const injuries = people.map(({ id, day, visits }) =>
    [`${id}-1`, id, "a", dateOfDay(day), "left", "ring", "2", "A2", dateOfDay(visits.at(-1)!), "lost"].join(
      ",",
    ),
  );
  const visits = people.flatMap((person) =>
    person.visits.map((day) => [`${person.id}-1`, dateOfDay(day), "no"].join(",")),
  );
  const sheet = (table: "injuries" | "visits", header: string, lines: readonly string[]) => ({
    table,
    file: `${table}.csv`,
    bytes: new TextEncoder().encode(`${[header, ...lines].join("\n")}\n`),
  });
  const plan = { data: { closed_on: dateOfDay(close) }, distance: { threshold_mm: 2 } };
  const read = reading(
    [
      sheet(
        "injuries",
        "injury_id,person_id,site_id,injury_date,hand,finger,grade,pulleys,last_contact_date,end_status",
        injuries,
      ),
      sheet("visits", "injury_id,date,full_climbing", visits),
    ],
    plan as unknown as Parameters<typeof reading>[1],
  );
  return { people, read };
}

/** How many days of the injury put all visits on days on which the clinic is open, for somebody who knows those days. */
function daysThatFit(
  { day, visits }: { readonly day: number; readonly visits: readonly number[] },
  isOpen: (day: number) => boolean,
): number {
  const after = visits.map((visit) => visit - day);
  const last = close - after.at(-1)!;
  return Array.from({ length: last - first + 1 }, (_, at) => first + at).filter((from) =>
    after.every((days) => isOpen(from + days)),
  ).length;
}

describe("a clinic with fixed days", () => {
  it("on the first Tuesday of each month: the copy says for how many the pattern of visits tells the day", () => {
    const { people, read } = cohort(isFirstTuesday);
    const { injury_days } = copyWith(read, { closedOn: dateOfDay(close) }).disclosure;
    const fewest = Math.min(...people.map((person) => daysThatFit(person, isFirstTuesday)));
    expect(fewest).toBeLessThan(4);
    expect(injury_days.fewest).toBeLessThanOrEqual(fewest);
    const few = people.filter((person) => daysThatFit(person, isFirstTuesday) < 28).length;
    const said = injury_days.people.slice(0, 2).reduce((sum, { people: n }) => sum + n, 0);
    expect(said).toBeGreaterThan(0.9 * few);
  });

  it("on Tuesdays: a whole window stays possible, and is said to", () => {
    const { people, read } = cohort(isTuesday);
    const { injury_days } = copyWith(read, { closedOn: dateOfDay(close) }).disclosure;
    expect(Math.min(...people.map((person) => daysThatFit(person, isTuesday)))).toBeGreaterThanOrEqual(28);
    expect(injury_days.fewest).toBeGreaterThanOrEqual(28);
  });
});
