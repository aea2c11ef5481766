import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/report/index.js";
import { type Results, reasons, type Warning } from "../../../src/study/results.js";
import { doubtfulBelow, fewEvents } from "../../../src/study/warnings.js";
import { completeEnough, lostApart } from "../../../src/study/warnings-of-follow-up.js";
import { intervalWords, valueWords } from "../../../src/words/estimates.js";
import { groupWords } from "../../../src/words/group-phrases.js";
import { reasons as reasonsInWords, sayFacts, warningWords } from "../../../src/words/index.js";
import { reportingItems } from "../../../src/words/reporting-items.js";
import { found, missing, resultsOf } from "./fixtures.js";

describe("warnings", () => {
  it.each([
    [
      { code: "completeness-low", facts: { share: 0.871, horizon_days: 182 } },
      "87 % of the possible time up to 26 weeks (182 days) was observed",
    ],
    [
      {
        code: "lost-unequally",
        facts: {
          group: "ring",
          lost: 9,
          n: 30,
          share: 0.3,
          other: "tape",
          other_lost: 2,
          other_n: 40,
          other_share: 0.05,
        },
      },
      "ring: 9 of 30 lost (30 %); tape: 2 of 40 (5 %)",
    ],
    [{ code: "few-events", facts: { group: "ring", n: 12, events: 4 } }, "ring: returns observed in 4 of 12"],
    [
      {
        code: "horizon-beyond-follow-up",
        facts: { family: "grade", group: "4b", last_day: 120, horizon_days: 182 },
      },
      "grade 4b: last observed after 17.1 weeks (120 days), horizon 26 weeks (182 days)",
    ],
    [{ code: "curve-falls-early", facts: { family: "compared", group: "surgery" } }, "surgery"],
    [{ code: "proportionality-doubtful", facts: { group: "ring", p: 0.0000001 } }, "ring: p < 0.001"],
    [
      { code: "heaped-dates", facts: { n: 12, of: 31 } },
      "12 of 31 returns dated to the day fall on a whole week; one in seven would by chance",
    ],
    [
      { code: "inexact-dates", facts: { n: 17, of: 48, rule: "midpoint" } },
      "17 of 48 returns, each placed on the middle of the span in which it lies",
    ],
    [
      { code: "covariates-missing", facts: { field: "grade", n: 2, of: 61 } },
      "grade: not recorded in 2 of 61 injuries",
    ],
    [
      { code: "distances-missing", facts: { n: 23, of: 61 } },
      "23 of 61 injuries lack the first or the last reading",
    ],
    [
      {
        code: "overlap-lacking",
        facts: { compared: "ring", reference: "tape", strata: "grade 4b", left_out: 3, used: 52 },
      },
      "ring compared with tape: left out grade 4b, with 3 injuries; 52 are used",
    ],
    [{ code: "several-injuries-a-person", facts: { persons: 57, injuries: 61 } }, "61 injuries in 57 people"],
    [{ code: "not-randomised", facts: {} }, ""],
  ] satisfies [Pick<Warning, "code" | "facts">, string][])("$code", (warning, words) => {
    expect(sayFacts(warning, "first_treatment").replaceAll("\u00a0", " ")).toBe(words);
  });

  it.each(Object.keys(warningWords) as Warning["code"][])(
    "%s has a heading, a meaning and what it rests on, and bears having no facts",
    (code) => {
      expect(warningWords[code].heading).toMatch(/^[A-Z].*[^.]$/);
      expect(warningWords[code].meaning).toMatch(/^[A-Z].*\.$/s);
      // to follow "Threshold:"
      expect(warningWords[code].threshold ?? "none").toMatch(/^[a-z0-9].*[^.]$/);
      expect(sayFacts({ code, facts: {} }, "first_treatment")).not.toMatch(/undefined|NaN/);
    },
  );
});

describe("thresholds of warnings", () => {
  it.each([
    ["few-events", `fewer than ${fewEvents} returns`],
    ["completeness-low", `less than ${100 * completeEnough} % of the possible time`],
    ["lost-unequally", `${100 * lostApart} percentage points apart`],
    ["proportionality-doubtful", `p below ${doubtfulBelow}`],
  ] as const)("%s: as the study applies it", (code, words) => {
    expect(warningWords[code].threshold).toContain(words);
  });
});

describe("figures that are missing", () => {
  it.each(reasons)("%s: in words, not as a code", (reason) => {
    expect(valueWords(missing(reason), "share")).toBe(reasonsInWords[reason]);
    expect(reasonsInWords[reason]).not.toMatch(/-[a-z]+-|null/);
  });
  it.each([
    [found(0.62, 0.48, 0.76), "48 to 76 %"],
    [
      { value: 0.62, lower: 0.48, upper: null, reason: "not-reached" } as const,
      "from 48 %; upper limit: not reached during follow-up",
    ],
    [
      { value: 0.62, lower: null, upper: 0.76, reason: "not-reached" } as const,
      "up to 76 %; lower limit: not reached during follow-up",
    ],
    [
      { value: 1, lower: null, upper: null, reason: "all-returned" } as const,
      "no interval: all still followed had returned",
    ],
    [missing("no-rows"), ""],
  ])("%o: %s", (estimate, words) => {
    expect(intervalWords(estimate, "share").replaceAll("\u00a0", " ")).toBe(words);
  });
});

describe("groups in words", () => {
  it.each([
    ["first_treatment", "ring", "first treated with a ring", "with a ring"],
    ["first_treatment", "crystal", "in the group \u201ccrystal\u201d", "in the group \u201ccrystal\u201d"],
    ["grade", "4a", "of grade 4a", "in grade 4a"],
    ["grade", "4_undivided", "of grade 4, a or b not recorded", "in grade 4, a or b not recorded"],
    ["finger", "ring", "of the ring finger", "in the ring finger"],
    ["finger", "thumb", "of the thumb", "in the thumb"],
    ["hand", "left", "of the left hand", "in the left hand"],
    ["sex", "not_stated", "in climbers whose sex is not stated", "in climbers whose sex is not stated"],
    ["site_id", "site-a", "at the site \u201csite-a\u201d", "at the site \u201csite-a\u201d"],
    [
      "bowstringing",
      "imaging only",
      "with bowstringing on imaging only",
      "with bowstringing on imaging only",
    ],
    ["onset", "pop", "after a sudden onset with a pop", "after a sudden onset with a pop"],
  ])("%s %s", (by, label, of, among) => {
    expect(groupWords({ by, label })).toEqual({ of, among });
  });
});

describe("the checklist", () => {
  // items for cohort studies, from memory of the statement's own list
  const parts =
    "1a 1b 2 3 4 5 6a 6b 7 8 9 10 11 12a 12b 12c 12d 12e 13a 13b 13c 14a 14b 14c 15 16a 16b 16c 17 18 19 20 21 22";

  it("has the 22 items of STROBE with their parts (von Elm and others 2007, Lancet 370:1453), none left to nobody", () => {
    expect(reportingItems.map(({ number }) => number).join(" ")).toBe(parts);
    for (const { number, places, byYou } of reportingItems)
      expect(places.length + (byYou === null ? 0 : 1), number).toBeGreaterThan(0);
    // what no software can know: title, background, size, reach, funding
    for (const number of ["1a", "2", "10", "21", "22"]) {
      const item = reportingItems.find((one) => one.number === number)!;
      expect(item.places, number).toEqual([]);
      expect(item.byYou, number).not.toBeNull();
    }
  });

  const rowsOf = (changes: Partial<Results>) => {
    const page = sectionsOf({ results: resultsOf(changes), figures: [], version: "" });
    const { markup } = page.find(({ id }) => id === "checklist")!.body;
    const ids = new Set(page.map(({ id }) => id as string));
    return new Map(
      [...markup.matchAll(/<tr><th[^>]*>(\d+[a-e]?)<\/th>([\s\S]*?)<\/tr>/g)].map(([, number, cells]) => [
        number!,
        {
          text: cells!.replace(/<[^>]+>/g, "|"),
          dangling: [...cells!.matchAll(/href="#([^"]+)"/g)]
            .map(([, id]) => id!)
            .filter((id) => !ids.has(id)),
        },
      ]),
    );
  };

  it("names only sections that are there and answer, with what stands there", () => {
    const rows = rowsOf({});
    expect([...rows.values()].flatMap(({ dangling }) => dangling)).toEqual([]);
    expect(rows.get("5")!.text).toContain("months of recruitment 2021-03 to 2023-10");
    expect(rows.get("14c")!.text).toContain("person-months, 12 to 210 days for those not back");
    expect(rows.get("16a")!.text).toContain("adjusted for grade");
    expect(rows.get("22")!.text).toContain("Not answered by this report: the author must add it.");
  });

  it("what was fixed beforehand is the author's to say, unless the plan was sealed", () => {
    expect(rowsOf({}).get("3")!.text).toContain("Not answered by this report");
    const sealed = { on: "2026-01-05", sha256: "0".repeat(64), changed: [] };
    expect(rowsOf({ sealed }).get("3")!.text).toContain("(sealed on 2026-01-05, unchanged)");
    const changed = [{ key: "horizon_weeks", sealed: "26", now: "30" }];
    expect(rowsOf({ sealed: { ...sealed, changed } }).get("3")!.text).toContain("1 key changed since");
  });

  it("an item whose answer is left out is the author's", () => {
    const { follow_up } = resultsOf();
    const rows = rowsOf({
      follow_up: { ...follow_up, recruited: null },
      distances: null,
      within: null,
      target_trial: null,
    });
    expect([...rows.values()].flatMap(({ dangling }) => dangling)).toEqual([]);
    for (const number of ["5", "11", "12b"])
      expect(rows.get(number)!.text, number).toContain("Not answered by this report");
    expect(rows.get("6a")!.text).toContain("who was left out");
  });
});
