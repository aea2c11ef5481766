import { describe, expect, it } from "vitest";
import { foldVisits, readCohort } from "../../../src/ingest/index.js";
import { defaultSettings, shareCohort } from "../../../src/privacy/index.js";
import { answer, planSchema } from "../../../src/study/index.js";
import { injuryOf, tablesOf } from "../../reference/cohort/history.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

/** Six ids at each of two sites; of each id both injuries end alike. Three ids are ringed, three taped. */
const ids = ["P1", "P2", "P3", "P4", "P5", "P6"];
const backLate = new Set(["P3", "P5", "P6"]);
const injuries = ["a", "b"].flatMap((site) =>
  ids.map((id) =>
    injury(`${site}-${id}`, {
      person_id: id,
      site_id: site,
      injury_date: on(site === "a" ? 0 : 40),
      full_climbing_date: on((site === "a" ? 0 : 40) + (backLate.has(id) ? 150 : 60)),
    }),
  ),
);
const treatments = injuries.map(
  (one): Row => ({
    ...treated(one.injury_id!, ["P1", "P2", "P3"].includes(one.person_id!) ? "ring" : "tape"),
    start_date: one.injury_date!,
  }),
);

const stated = (person_ids: "per_site" | "shared" | undefined) =>
  resultsOf(injuries, treatments, {
    compare: { adjust_for: [], smallest_group: 2 },
    data: {
      injuries: "injuries.csv",
      treatments: "treatments.csv",
      closed_on: "2025-06-30",
      ...(person_ids && { person_ids }),
    },
  });
const mainDifference = ({ effects }: ReturnType<typeof stated>) =>
  effects.find(({ measure, main }) => measure === "landmark_difference" && main)!;

describe("the same person ids at two sites, counted by hand", () => {
  const open = stated(undefined);
  const shared = stated("shared");
  const perSite = stated("per_site");

  it("are two people each until the study file says otherwise, with a warning", () => {
    expect(open.accounting.analysis).toMatchObject({
      analysed: 12,
      persons: 12,
      ids_at_several_sites: { ids: 6, persons: 12, injuries: 12 },
    });
    const warning = open.warnings.find(({ code }) => code === "person-ids-at-several-sites");
    expect(warning?.facts).toEqual({ ids: 6, persons: 12, injuries: 12 });
    expect(open.queries.filter(({ code }) => code === "person-ids-at-several-sites")).toHaveLength(1);
  });

  it("are one person each where they are shared, and nothing is left to ask", () => {
    expect(shared.accounting.analysis).toMatchObject({
      analysed: 12,
      persons: 6,
      ids_at_several_sites: { ids: 6, persons: 6, injuries: 12 },
    });
    for (const { warnings, queries } of [shared, perSite]) {
      const codes = [...warnings, ...queries].map(({ code }) => code);
      expect(codes).not.toContain("person-ids-at-several-sites");
    }
    expect(perSite.accounting.analysis.persons).toBe(12);
  });

  it("the standard error is that of people: p(1 - p)/n of each group with n = 3 people in place of 6 injuries", () => {
    // two of three back by 13 weeks with the ring, one of three with tape
    expect(mainDifference(open).standard_error).toBeCloseTo(Math.sqrt((2 * 2) / 9 / 6), 12);
    expect(mainDifference(shared).standard_error).toBeCloseTo(Math.sqrt((2 * 2) / 9 / 3), 12);
    expect(mainDifference(perSite)).toEqual(mainDifference(open));
  });

  it("the warning says by how much an end of the interval would move", () => {
    const { lower, upper } = mainDifference(open).estimate;
    const other = mainDifference(shared).estimate;
    const points = Math.max(Math.abs(lower! - other.lower!), Math.abs(upper! - other.upper!));
    const warning = open.warnings.find(({ code }) => code === "person-ids-at-several-sites");
    expect(warning?.could_move).toEqual({ points, how: "ids-shared" });
  });

  it("an injury without a site is of another place than one with a site", () => {
    const { accounting } = resultsOf(
      [injury("1", { person_id: "P1" }), injury("2", { person_id: "P1", site_id: "" })],
      [treated("1", "ring")],
    );
    expect(accounting.analysis.ids_at_several_sites).toEqual({ ids: 1, persons: 2, injuries: 2 });
  });

  it("ids of one site only are nothing to speak of", () => {
    const two = [injury("1", { person_id: "P1" }), injury("2", { person_id: "P2", site_id: "b" })];
    expect(resultsOf(two, [treated("1", "ring")]).accounting.analysis).not.toHaveProperty(
      "ids_at_several_sites",
    );
  });
});

describe("one sheet of two sites", () => {
  const twoSites = (personIds: "per_site" | "shared") => {
    const text =
      "person,site,injury_date,hand,finger,pulleys,grade,last_contact\n" +
      "P1,a,2024-03-04,left,ring,A2,2,2024-11-18\n" +
      "P1,b,2024-03-04,left,ring,A2,2,2024-11-18\n" +
      "P2,a,2024-03-04,left,ring,A2,2,2024-11-18\n";
    const bytes = new TextEncoder().encode(text);
    return readCohort([{ table: "single_sheet", file: "sheet.csv", bytes }], {
      closedOn: null,
      thresholdMm: 2,
      personIds,
    });
  };

  it("the same finger on the same day is twice the same injury only where ids are shared", () => {
    expect(twoSites("per_site").accounts[0]).toMatchObject({ read: 3, used: 3 });
    const shared = twoSites("shared");
    expect(shared.accounts[0]).toMatchObject({ read: 3, used: 1 });
    expect(shared.accounts[0]!.setAside.map(({ row, query }) => [row, query.code])).toEqual([
      [2, "injury-twice"],
      [3, "injury-twice"],
    ]);
  });

  it("visits at two sites are of one injury only where ids are shared", () => {
    const visit = (row: number, site: string) => ({
      file: "sheet.csv",
      row,
      cells: { person: "P1", site, injury_date: "2024-03-04", hand: "left", finger: "ring" },
    });
    const rows = [visit(2, "a"), visit(3, "b")];
    expect(foldVisits(rows, "per_site")).toHaveLength(2);
    expect(foldVisits(rows, "shared")).toHaveLength(1);
  });

  it("an analysis that means something else by an id than the reading did is refused", () => {
    const plan = planSchema.parse({
      study: "a",
      title: "A",
      data: { single_sheet: "sheet.csv", person_ids: "shared" },
    });
    expect(() => answer(twoSites("per_site"), plan)).toThrow("person_ids: shared");
  });
});

describe("a shared copy", () => {
  it("gives a person of shared ids one name at both sites", () => {
    const copyOf = (personIds: "per_site" | "shared") => {
      const rows = [
        injuryOf({ injury_id: "1", person_id: "P1", site_id: "a" }),
        injuryOf({ injury_id: "2", person_id: "P1", site_id: "b", injury_date: "2024-03-24" }),
      ];
      const { tables } = shareCohort(tablesOf({ injuries: rows, personIds }), {
        key: Uint8Array.from({ length: 32 }, (_, i) => (i * 37 + 11) % 251),
        settings: { ...defaultSettings, dates: "as-they-are" },
      });
      return new Set(tables.find(({ table }) => table === "injuries")!.rows.map(({ person_id }) => person_id))
        .size;
    };
    expect([copyOf("per_site"), copyOf("shared")]).toEqual([2, 1]);
  });
});
