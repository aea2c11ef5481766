import { describe, expect, it } from "vitest";
import { describeSite, siteCohort } from "../../../src/pooling/description/index.js";
import { harmonise } from "../../../src/pooling/harmonise/index.js";
import { type Harmonised, harmonised } from "../../../src/study/results-harmonised.js";
import { injury, on, type Row, readByHand } from "../study/hand-made.js";

interface Site {
  readonly change?: Row;
  readonly stated?: Row;
  /** Days from one visit to the next. */
  readonly every?: number;
  /** Of ten injuries, last seen after 20 days without a return. */
  readonly lost?: number;
}

const injuries = ({ change = {}, lost = 0 }: Site): Row[] =>
  Array.from({ length: 10 }, (_, i) =>
    injury(String(i), {
      ...(i < lost
        ? { full_climbing_date: "", last_contact_date: on(20) }
        : { full_climbing_date: on(70 + i) }),
      ...change,
    }),
  );

function besideOneAnother(sites: Readonly<Record<string, Site>>): Harmonised {
  let plan: ReturnType<typeof readByHand>["plan"] | undefined;
  const descriptions = Object.entries(sites).map(([site, given]) => {
    const opened = readByHand({
      injuries: injuries(given),
      ...(given.every && {
        visits: Array.from({ length: 10 }, (_, i) =>
          [1, 2, 3].map((visit) => ({ injury_id: String(i), date: on(given.every! * visit) })),
        ).flat(),
      }),
      ...(given.stated && { sites: [{ site_id: "a", ...given.stated }] }),
    });
    plan = opened.plan;
    return describeSite(siteCohort(opened.read.tables, { site, plan }), plan);
  });
  return harmonised.parse(harmonise(descriptions, plan!));
}
const statedOf = (found: Harmonised, name = "definition_full") =>
  found.stated.find(({ field }) => field === name)!;
const fieldOf = (found: Harmonised, name: string) => found.fields.find(({ field }) => field === name)!;

describe("several sites beside one another", () => {
  it("definitions agree whatever their letter case and punctuation", () => {
    const found = besideOneAnother({
      north: { stated: { definition_full: "All grips, no planned restriction." } },
      south: { stated: { definition_full: "all grips - no planned restriction" } },
    });
    expect(statedOf(found)).toMatchObject({ verdict: "same", decides: true, ask: [] });
    expect(statedOf(found, "definition_easy")).toMatchObject({ verdict: "not_stated", decides: false });
  });

  it("definitions that differ are told apart", () => {
    const found = besideOneAnother({
      north: { stated: { definition_full: "all grips" } },
      south: { stated: { definition_full: "the old project" } },
    });
    expect(statedOf(found).verdict).toBe("differs");
  });

  it("a site that does not state its definition is asked, not guessed", () => {
    const found = besideOneAnother({ north: { stated: { definition_full: "all grips" } }, south: {} });
    expect(statedOf(found)).toMatchObject({ verdict: "some_not_stated", ask: ["south"] });
  });

  it("keyed names of shared copies that differ may be another key: they are not called unlike", () => {
    const name = (digit: string) => `d${digit.repeat(24)}`;
    const found = besideOneAnother({
      north: { stated: { definition_full: name("a") } },
      south: { stated: { definition_full: name("b") } },
    });
    expect(statedOf(found).verdict).toBe("not_in_words");
  });

  it("a field that a site never records is not pooled with it", () => {
    const found = besideOneAnother({ north: {}, south: { change: { sex: "" } } });
    expect(fieldOf(found, "sex")).toMatchObject({ verdict: "not_everywhere", without: ["south"] });
    expect(fieldOf(found, "sex").sites.map(({ known, share }) => [known, share])).toEqual([
      [10, 1],
      [0, 0],
    ]);
  });

  it("a grade 4 without a or b is coarser than what others tell apart", () => {
    const found = besideOneAnother({
      north: { change: { grade: "4a" } },
      south: { change: { grade: "4_undivided" } },
    });
    expect(fieldOf(found, "grade")).toMatchObject({ verdict: "coarser_somewhere", without: ["south"] });
    const alike = besideOneAnother({
      north: { change: { grade: "4_undivided" } },
      south: { change: { grade: "4_undivided" } },
    });
    expect(fieldOf(alike, "grade")).toMatchObject({ verdict: "everywhere", without: [] });
  });

  it.each([
    { north: 28, south: 42, verdict: "alike", because: [] },
    { north: 28, south: 43, verdict: "unlike", because: ["days_between"] },
  ])("visits every $north and every $south days are $verdict", ({ north, south, verdict, because }) => {
    const found = besideOneAnother({ north: { every: north }, south: { every: south } });
    expect(found.schedules).toMatchObject({ verdict, because });
  });

  it.each([
    { lost: 1, verdict: "alike" },
    { lost: 3, verdict: "unlike" },
  ])("none of 10 lost beside $lost of 10 is $verdict", ({ lost, verdict }) => {
    const found = besideOneAnother({ north: {}, south: { lost } });
    expect(found.losses).toMatchObject({ verdict, lowest: 0, highest: lost / 10 });
  });

  it("refuses two sites of one name", () => {
    const { read, plan } = readByHand({ injuries: injuries({}) });
    const one = describeSite(siteCohort(read.tables, { site: "north", plan }), plan);
    expect(() => harmonise([one, one], plan)).toThrow('Two descriptions are of the site "north"');
  });
});
