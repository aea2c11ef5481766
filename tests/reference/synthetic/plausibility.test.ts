import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { daysBetween } from "../../../src/schema/dates.js";
import type { InjuryRow } from "../../../src/schema/injuries.js";
import { productLimit, shareAt } from "../../../src/statistics/index.js";
import { drawCohort, readScenario, type SyntheticCohort } from "../../../src/synthetic/index.js";

const folders = ["one-clinic", "registry", "three-sites", "dirty-sheet"] as const;

/** A large cohort of a committed scenario: its shares are those of the scenario, chance aside. */
function largeCohort(folder: string): SyntheticCohort {
  const url = new URL(`../../../synthetic-data/${folder}/scenario.yaml`, import.meta.url);
  const scenario = readScenario(folder, readFileSync(url, "utf8"));
  return drawCohort({ ...scenario, injuries: 6000 });
}

const share = <T>(rows: readonly T[], is: (row: T) => boolean): number =>
  rows.filter(is).length / rows.length;
const median = (days: readonly number[]): number => [...days].sort((a, b) => a - b)[days.length >> 1]!;
const dated = (row: InjuryRow, milestone: "full_climbing" | "previous_level"): string | null =>
  row[`${milestone}_date`] ?? row[`${milestone}_not_after`];
const tears = (rows: readonly InjuryRow[]) => rows.filter(({ grade }) => grade !== "1");

describe.each(folders)("scenario of %s: plausible beside published series", (folder) => {
  const cohort = largeCohort(folder);
  const { injuries } = cohort;
  const first = new Map<string, string>();
  for (const { injury_id, treatment } of cohort.treatments)
    if (["tape", "ring", "surgery"].includes(treatment) && !first.has(injury_id))
      first.set(injury_id, treatment);

  it("ring before middle before other fingers, order in Iruretagoiena et al. 2020, Diagnostics 10:206", () => {
    const of = (finger: string) => share(injuries, (row) => row.finger === finger);
    expect(of("ring")).toBeGreaterThan(of("middle"));
    expect(of("middle")).toBeGreaterThan(of("index") + of("little"));
  });

  it("single ruptures: A2 before A4 (order in Iruretagoiena et al. 2020) before A3 (order in Klauser et al. 2002, Radiology 222:755)", () => {
    const single = tears(injuries).filter(({ pulleys }) => pulleys.length === 1);
    const of = (pulley: string) => share(single, ({ pulleys }) => pulleys[0] === pulley);
    expect(of("A2")).toBeGreaterThan(of("A4"));
    expect(of("A4")).toBeGreaterThan(of("A3"));
  });

  it("several pulleys in 7 to 28 % of tears: 95 % interval of 7 of 47, Klauser et al. 2002, Radiology 222:755", () => {
    const several = share(tears(injuries), ({ pulleys }) => pulleys.length > 1);
    expect(several).toBeGreaterThan(0.07);
    expect(several).toBeLessThan(0.28);
  });

  it("loaded A2 distances: intact below partial below complete, medians 0.95, 2.1 to 3.1, 3.7 mm in Iruretagoiena et al. 2023, Front Bioeng Biotechnol 11:1123857", () => {
    const grades = new Map(injuries.map(({ injury_id, grade }) => [injury_id, grade]));
    const of = (grade: string) =>
      median(
        cohort.imaging
          .filter((r) => r.pulley === "A2" && r.position === "loaded" && grades.get(r.injury_id) === grade)
          .filter((r, index, all) => all[index - 1]?.injury_id !== r.injury_id)
          .map(({ distance_mm }) => distance_mm),
      );
    expect(of("1")).toBeLessThan(1.5);
    expect(of("2")).toBeGreaterThan(1.78);
    expect(of("2")).toBeLessThan(3.28);
    expect(of("3")).toBeGreaterThan(3);
    expect(of("3")).toBeLessThan(4.76);
    expect(of("4b")).toBeLessThan(5.1 + 1.5); // complete A2, mean 5.1 (SD 1.5): Klauser et al. 1999, Am J Sports Med 27:733
  });

  it("men 60 to 90 %: 87 % in the series of Artiaco et al. 2023, J Hand Microsurg 15:247, today likely less (design choice)", () => {
    const men = share(injuries, ({ sex }) => sex === "male");
    expect(men).toBeGreaterThan(0.6);
    expect(men).toBeLessThan(0.9);
  });

  it("medians to full climbing in the order of the grades, common practice, no source", () => {
    const medians = ["1", "2", "3", "4a", "4b"].map((grade) =>
      median(
        injuries
          .filter((row) => row.grade === grade && dated(row, "full_climbing") !== null)
          .map((row) => daysBetween(row.injury_date, dated(row, "full_climbing")!)),
      ),
    );
    expect(medians).toEqual([...medians].sort((a, b) => a - b));
    expect(new Set(medians).size).toBe(5);
  });

  it("back at the previous level by 12 months, conservative, grades 1 to 3: 65 to 95 %, design choice", () => {
    const conservative = injuries.filter(
      (row) => ["1", "2", "3"].includes(row.grade) && first.get(row.injury_id) !== "surgery",
    );
    const columns = conservative.map((row) => {
      const date = dated(row, "previous_level");
      return {
        time: daysBetween(row.injury_date, date ?? row.last_contact_date),
        event: date === null ? 0 : 1,
      };
    });
    const curve = productLimit({
      times: columns.map(({ time }) => time),
      events: columns.map(({ event }) => event),
    });
    const back = shareAt(curve, 365).returned!;
    expect(back).toBeGreaterThan(0.65);
    expect(back).toBeLessThan(0.95);
  });

  it("surgery only in grades 3 to 4b, and its crude return later than that of tape and ring: confounding shows, design choice", () => {
    const operated = injuries.filter(({ injury_id }) => first.get(injury_id) === "surgery");
    expect(new Set(operated.map(({ grade }) => grade))).toEqual(new Set(["3", "4a", "4b"]));
    const days = (treatment: string) =>
      injuries
        .filter((row) => first.get(row.injury_id) === treatment && dated(row, "full_climbing") !== null)
        .map((row) => daysBetween(row.injury_date, dated(row, "full_climbing")!));
    expect(median(days("surgery"))).toBeGreaterThan(median(days("ring")));
    expect(median(days("ring"))).toBeGreaterThan(median(days("tape")));
  });

  it("persons with two injured fingers 3 to 8 %, design choice", () => {
    const persons = new Map<string, number>();
    for (const { person_id } of injuries) persons.set(person_id, (persons.get(person_id) ?? 0) + 1);
    const twice = share([...persons.values()], (count) => count > 1);
    expect(twice).toBeGreaterThan(0.03);
    expect(twice).toBeLessThan(0.08);
  });
});
