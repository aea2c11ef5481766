import { describe, expect, it } from "vitest";
import { linkTables } from "../../../src/cohort/index.js";
import { personKey } from "../../../src/schema/index.js";
import { sharedKey } from "../../../src/schema/person-key.js";
import { siteRow } from "../../../src/schema/sites.js";
import { injuryOf, readingOf, tablesOf, treatmentOf, visitOf } from "./history.js";

const siteOf = (site_id: string) => ({
  ...(Object.fromEntries(Object.keys(siteRow.shape).map((field) => [field, null])) as never as ReturnType<
    typeof siteRow.parse
  >),
  site_id,
});

describe("linkTables", () => {
  it("puts rows beside their injury, in order of date and then of row", () => {
    const [first, second] = linkTables(
      tablesOf({
        injuries: [injuryOf({ injury_id: "a" }), injuryOf({ injury_id: "b" })],
        visits: [
          visitOf({ injury_id: "b", date: "2024-05-01" }),
          visitOf({ injury_id: "a", date: "2024-05-01" }),
          visitOf({ injury_id: "b", date: "2024-04-01" }),
          visitOf({ injury_id: "b", date: "2024-05-01" }),
        ],
        treatments: [treatmentOf({ injury_id: "a" })],
        imaging: [readingOf({ injury_id: "b" })],
      }),
    );
    expect(first!.visits.map(({ row }) => row)).toEqual([3]);
    expect(second!.visits.map(({ row }) => row)).toEqual([4, 2, 5]);
    expect([first!.treatments.length, first!.imaging.length]).toEqual([1, 0]);
    expect([second!.treatments.length, second!.imaging.length]).toEqual([0, 1]);
  });

  it("finds the site; none where it is blank or not in the sites table", () => {
    const injuries = ["site-a", null, "site-z"].map((site_id, index) =>
      injuryOf({ injury_id: `i${index}`, site_id }),
    );
    const linked = linkTables(tablesOf({ injuries, sites: [siteOf("site-a")] }));
    expect(linked.map(({ site }) => site?.site_id ?? null)).toEqual(["site-a", null, null]);
  });

  it("links a row without an injury to nothing", () => {
    const linked = linkTables(
      tablesOf({ injuries: [injuryOf()], visits: [visitOf({ injury_id: "elsewhere" })] }),
    );
    expect(linked.map(({ visits }) => visits.length)).toEqual([0]);
  });

  it("has nothing to link in empty tables", () => {
    expect(linkTables(tablesOf({ injuries: [] }))).toEqual([]);
  });

  it("refuses an injury that stands twice, naming both rows", () => {
    expect(() => linkTables(tablesOf({ injuries: [injuryOf(), injuryOf()] }))).toThrow(
      'injuries.csv, row 3, column "injury_id": "P09-1" already names the injury of row 2',
    );
  });

  it.each(["__proto__", "constructor", "toString"])("takes %s for an id like any other", (injury_id) => {
    const tables = tablesOf({ injuries: [injuryOf({ injury_id })], visits: [visitOf({ injury_id })] });
    expect(linkTables(tables)[0]!.visits).toHaveLength(1);
  });
});

describe("personKey", () => {
  it("keeps persons of two sites apart that share an id", () => {
    const keys = ["site-a", "site-b", null].map((site_id) =>
      personKey({ site_id, person_id: "P09" }, "per_site"),
    );
    expect(keys).toEqual(["site-a/P09", "site-b/P09", "/P09"]);
  });

  it("makes one person of an id that sites share", () => {
    const keys = ["site-a", "site-b", null].map((site_id) =>
      personKey({ site_id, person_id: "P09" }, "shared"),
    );
    expect(new Set(keys)).toEqual(new Set([sharedKey("site-a/P09")]));
  });

  it("keeps apart ids that would join to one text", () => {
    const pairs = [
      { site_id: "a", person_id: "b/c" },
      { site_id: "a/b", person_id: "c" },
      { site_id: "a", person_id: "b%2Fc" },
    ];
    expect(new Set(pairs.map((pair) => personKey(pair, "per_site"))).size).toBe(3);
  });
});
