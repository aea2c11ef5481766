import { describe, expect, it } from "vitest";
import { escapeText } from "../../../../src/report/escape.js";
import { fewestInjuries, talkChoices, talkOver } from "../../../../src/report/talk/index.js";
import type { PlanAsWritten, Results } from "../../../../src/study/index.js";
import { syntheticLine } from "../../../../src/words/index.js";
import { injury, on, type Row, resultsOf, resultsOfTables, treated } from "../../study/hand-made.js";
import { sha256 } from "../fixtures.js";

const made = { version: "1.2.3", fontCss: "", sha256 };
const pageOf = async (results: Results, name = "all injuries"): Promise<string> => {
  const talk = await talkOver(results, { ...made, name });
  if (!talk.made) throw new Error(talk.why);
  return talk.page;
};
const refused = async (results: Results, name = "all injuries") => {
  const talk = await talkOver(results, { ...made, name });
  if (talk.made) throw new Error("a page was made");
  return talk;
};
/** What a reader hears, without the markup. */
const heard = (page: string) =>
  page
    .replace(/<style>[\s\S]*?<\/style>|<svg[\s\S]*?<\/svg>/g, "")
    .replace(/<[^>]+>/g, " ")
    .replaceAll("&#39;", "'")
    .replace(/\s+/g, " ");

/** So many injuries whose returns come at these days, each so many times. */
const cohort = (
  returns: Readonly<Record<number, number>>,
  { change = {}, treatment = "ring", id = "" }: { change?: Row; treatment?: string; id?: string } = {},
) => {
  const injuries = Object.entries(returns).flatMap(([day, times]) =>
    Array.from({ length: times }, (_, i) =>
      injury(`${id}${day}-${i}`, { full_climbing_date: on(Number(day)), ...change }),
    ),
  );
  return { injuries, treatments: injuries.map(({ injury_id }) => treated(injury_id!, treatment)) };
};

// 40 injuries, nobody lost: 5 back by week 6, 15 by week 10, 25 by week 13, all by week 26
const fortyDays = { 40: 5, 60: 10, 80: 10, 150: 15 };
const written: Partial<PlanAsWritten> = {
  landmarks_weeks: [6, 10, 13, 26],
  compare: { adjust_for: [], smallest_group: 5 },
};
const forty = (plan: Partial<PlanAsWritten> = {}) => {
  const { injuries, treatments } = cohort(fortyDays);
  return resultsOf(injuries, treatments, { ...written, ...plan });
};

describe("a page to talk over", () => {
  it("shows, of twenty, how many were back by each week, as counted by hand", async () => {
    const page = await pageOf(forty());
    // 5, 15, 25 and 40 of 40 are 2.5, 7.5, 12.5 and 20 of 20, half a dot counted up
    const rows = [
      ...page.matchAll(
        /<th scope="row" role="rowheader">By (\d+) weeks<\/th>[\s\S]*?<strong>([^<]*)<\/strong>/g,
      ),
    ];
    expect(rows.map(([, week, words]) => `${week}: ${words}`)).toEqual([
      "6: about 3 of 20",
      "10: about 8 of 20",
      "13: about 13 of 20",
      "26: all 20",
    ]);
    const dark = [...page.matchAll(/<svg class="dots"[\s\S]*?<\/svg>/g)].map(
      ([svg]) => svg.match(/class="dot back/g)?.length ?? 0,
    );
    expect(dark).toEqual([3, 8, 13, 20]);
  });

  it("gives the range of the results, rounded outwards to whole dots", async () => {
    const results = forty();
    const page = heard(await pageOf(results));
    const all = results.curves.find(({ family }) => family === "all")!.curves[0]!;
    for (const { returned } of all.landmarks) {
      const [from, to] = [Math.floor(20 * returned.lower! + 1e-9), Math.ceil(20 * returned.upper! - 1e-9)];
      expect(page).toContain(`between ${from} and ${to}`);
    }
  });

  it("says of whom it speaks, what back means, what it cannot say, and the cautions", async () => {
    const page = heard(await pageOf(forty()));
    expect(page).toContain("Of 20 climbers like you, how many were back to full climbing?");
    expect(page).toContain(
      "“Like you” means here: a climber with a finger pulley injury. Grade, treatment, finger, age, sex and how hard people climbed are mixed.",
    );
    expect(page).toContain("Counted: 40 injuries in 40 people, injured in March 2024.");
    expect(page).toContain(
      "“Back to full climbing” means that climbing was unrestricted, all grips included.",
    );
    expect(page).toContain("no dot is you");
    expect(page).toContain("General information about a group of past patients, not advice for one finger.");
    expect(page).toContain("A licensed clinician who has examined the hand decides.");
    expect(page).toContain("Local codes, ethics approval and data-protection rules prevail.");
  });

  it("says what a group and the study file have in common, and what is mixed", async () => {
    const { injuries, treatments } = cohort(fortyDays, { change: { grade: "3" } });
    const asked = { ...written, who: { fingers: ["ring"], age: { from: 16, to: 40 } } } as const;
    const page = heard(await pageOf(resultsOf(injuries, treatments, asked as never), "Grade 3, RING"));
    expect(page).toContain(
      "a climber with a finger pulley injury of grade 3, first treated with a ring, of the ring finger, at the age of 16 to 40. Sex and how hard people climbed are mixed.",
    );
    expect(page).toContain("Do not compare this page with that of another treatment.");
  });

  it("writes no count of few people, since it leaves the clinic", async () => {
    const { injuries, treatments } = cohort(fortyDays);
    const fates = injuries.map((row, i) =>
      i < 3
        ? { ...row, full_climbing_date: "", gave_up_date: on(100), end_status: "gave_up" }
        : i < 10
          ? { ...row, new_rupture_date: on(200) }
          : row,
    );
    const page = heard(await pageOf(resultsOf(fates, treatments, written)));
    expect(page).toContain("Gave up climbing at most 2 of 20 fewer than 5 of 40");
    // 7 of the 37 that were back are 3.8 of 20
    expect(page).toContain("Tore a pulley again about 4 of 20 7 of 37");
    expect(page).not.toContain("3 of 40");
  });

  it("stands alone: no script, no address, a policy that names its one style, every text from data escaped", async () => {
    const title = "</title><script>alert(1)</script>";
    const page = await pageOf(forty({ title, synthetic: true }));
    expect(page).not.toMatch(/<script|<[^>]*\s(?:style|on[a-z]+)=|https?:|<link|<iframe/i);
    expect(page).toContain(escapeText(title));
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)![1]!;
    expect(page).toContain(`style-src 'sha256-${Buffer.from(sha256(style), "hex").toString("base64")}'`);
    expect(page).toContain(syntheticLine);
  });

  it("has one heading of the first rank, tables with heads, and ids that are there once", async () => {
    const page = await pageOf(forty());
    expect(page.match(/<h1>/g)).toHaveLength(1);
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [row] of page.matchAll(/<tr[^>]*>[\s\S]*?<\/tr>/g)) expect(row).toContain("<th scope=");
  });

  it("is the same for the same results, whatever the case in which the group is typed", async () => {
    const results = forty();
    expect(await pageOf(results, "ALL  injuries")).toBe(await pageOf(structuredClone(results)));
  });
});

describe("no page is made", () => {
  const few = (n: number) => {
    const { injuries, treatments } = cohort({ 40: n });
    return resultsOf(injuries, treatments, written);
  };

  it(`for fewer than ${fewestInjuries} injuries`, async () => {
    expect((await refused(few(19))).why).toContain(
      "There are 19 injuries in the group “all injuries”, and a page needs 20",
    );
    expect(await pageOf(few(20))).toContain("20 injuries in 20 people");
  });

  it(`for fewer than ${fewestInjuries} people, however many injuries they have`, async () => {
    const { injuries, treatments } = cohort(fortyDays);
    const fingers = ["index", "middle", "ring", "little"];
    const shared = injuries.map((row, i) => ({
      ...row,
      person_id: `person ${Math.floor(i / 4)}`,
      finger: fingers[i % 4]!,
    }));
    expect((await refused(resultsOf(shared, treatments, written))).why).toContain(
      "The 40 injuries in the group “all injuries” are of 10 people, and a page needs 20",
    );
  });

  it("and the message says what a page can be about", async () => {
    const [many, rare] = [cohort(fortyDays), cohort({ 50: 3 }, { change: { grade: "4a" }, id: "rare" })];
    const results = resultsOf(
      [...many.injuries, ...rare.injuries],
      [...many.treatments, ...rare.treatments],
      written,
    );
    const { why, instead } = await refused(results, "grade 4a");
    expect(why).toContain("There are 3 injuries in the group “grade 4a”");
    expect(instead).toContain("A page can be about “all injuries”, “grade 2”, “ring” or “grade 2, ring”.");
    expect((await refused(results, "grade 7")).why).toBe("The study has no group “grade 7”.");
    expect(talkChoices(results).map(({ name, whyNot }) => [name, whyNot?.code ?? null])).toEqual([
      ["all injuries", null],
      ["grade 2", null],
      ["grade 4a", "too-few"],
      ["ring", null],
      ["grade 2, ring", null],
      ["grade 4a, ring", "too-few"],
    ]);
  });

  it("where back would not be what a climber hears: a supposition, giving up not counted", async () => {
    const supposed = forty({ question: { share_back: "if_no_competing_end" } });
    expect((await refused(supposed)).instead).toContain("share_back: of_everyone");
    const uncounted = forty({ question: { competing_ends: ["new_rupture"] } });
    expect((await refused(uncounted)).instead).toContain("gave_up");
  });

  it("where sites mean different things by it; where the study file lets them, the page says so", async () => {
    const { injuries, treatments } = cohort(fortyDays);
    const sites = [
      { site_id: "a", definition_full: "all grips, outdoors" },
      { site_id: "b", definition_full: "first session on a board" },
    ];
    const placed = injuries.map((row, i) => ({ ...row, site_id: i % 2 === 0 ? "a" : "b" }));
    const results = (definitions: "must_agree" | "may_differ") =>
      resultsOfTables({ injuries: placed, treatments, sites }, { ...written, question: { definitions } });
    expect((await refused(results("must_agree"))).why).toContain(
      "The sites do not mean the same by full climbing",
    );
    expect(heard(await pageOf(results("may_differ")))).toContain("the clinics do not all mean the same");
  });

  it("where the follow-up reaches no landmark; a week that it does not reach is said to be unknown", async () => {
    const { injuries, treatments } = cohort(fortyDays);
    const seen = (day: number) =>
      injuries.map((row, i) => ({
        ...row,
        full_climbing_date: i < 10 ? on(30) : "",
        last_contact_date: on(day),
      }));
    const short = { ...written, data: { injuries: "i.csv", treatments: "t.csv", closed_on: on(60) } };
    const page = heard(await pageOf(resultsOf(seen(60), treatments, short)));
    expect(page).toContain("By 6 weeks about 5 of 20");
    expect(page).toContain("By 26 weeks cannot be said: follow-up ends earlier");
    const none = { ...short, landmarks_weeks: [26], main_landmark_weeks: 26 };
    expect((await refused(resultsOf(seen(60), treatments, none))).why).toContain("follow-up ends earlier");
  });

  it("where small cells are left out and too few may be behind a rounded number", async () => {
    const results = few(23);
    const rounded = (n: number): Results => ({
      ...results,
      small_cells: { ...results.small_cells, choice: "leave-out", smallest: 5 },
      curves: results.curves.map((family) => ({
        ...family,
        curves: family.curves.map((curve) => ({ ...curve, n })),
      })),
    });
    expect((await refused(rounded(20))).why).toContain("There are about 20 injuries");
    const page = heard(await pageOf(rounded(25)));
    expect(page).toContain("Counted: about 25 injuries (numbers are rounded to multiples of 5).");
    // what is rounded has no difference
    expect(page).not.toContain("Not back when last seen");
  });
});
