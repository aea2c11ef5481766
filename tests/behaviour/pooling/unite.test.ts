import { describe, expect, it } from "vitest";
import {
  agreedFingerprint,
  poolSummaries,
  readSummaries,
  type SiteSummary,
  SummaryError,
  summariesText,
  unitedSites,
} from "../../../src/pooling/index.js";
import { sha256, threeSummaries } from "./three-sites.js";

const read = (summaries: readonly SiteSummary[]) =>
  summaries.map((summary, i) => ({ file: `${i + 1}.json`, summary }));
const pooled = (summaries: readonly SiteSummary[]) =>
  poolSummaries(read(summaries), { version: "0.1.0", sha256 });
const [a, b, c] = [0, 1, 2].map((i) => () => threeSummaries()[i]!) as [
  () => SiteSummary,
  () => SiteSummary,
  () => SiteSummary,
];
const asked = (summary: SiteSummary, change: Partial<SiteSummary["agreed"]["file"]>): SiteSummary => {
  const file = { ...summary.agreed.file, ...change };
  return { ...summary, agreed: { file, sha256: agreedFingerprint(file, sha256) } };
};
const back = (text: string) => readSummaries({ file: "x.json", text }, { sha256 });
const spoilt = (change: (value: SiteSummary) => unknown) =>
  JSON.stringify(change(JSON.parse(summariesText([a()])) as SiteSummary));

describe("summaries that are pooled", () => {
  it("are the same text when they are read and written again", () => {
    for (const summary of threeSummaries()) {
      const text = summariesText([summary]);
      expect(summariesText(back(text).map((one) => one.summary))).toBe(text);
    }
  });

  it("the same site twice is one, and with other content is refused, both files named", () => {
    expect(unitedSites(read([a(), b(), a()]))).toHaveLength(2);
    const later = { ...a(), toolkit_version: "9" };
    expect(() => pooled([a(), b(), later])).toThrow(
      /The site "site-a" is there twice, and not the same: in 1\.json and in 3\.json \(they differ in "toolkit_version"\)/,
    );
  });

  it("sites that were not asked the same are refused, key by key", () => {
    const other = asked(asked(b(), { horizon_weeks: 52 }), { confidence_level: 0.9 });
    const attempt = () => pooled([a(), other]);
    expect(attempt).toThrow(SummaryError);
    expect(attempt).toThrow(/confidence_level: 0\.95 at "site-a", 0\.9 at "site-b"/);
    expect(attempt).toThrow(/horizon_weeks: 26 at "site-a", 52 at "site-b"/);
  });

  it("synthetic and real data are never pooled", () => {
    expect(() => pooled([a(), asked(b(), { synthetic: false })])).toThrow(
      /synthetic: true at "site-a", false/,
    );
  });

  it("other meanings of the return are refused unless the study file lets them be counted together", () => {
    const { question } = a().agreed.file;
    const strict = threeSummaries().map((one) =>
      asked(one, { question: { ...question, definitions: "must_agree" } }),
    );
    expect(() => pooled(strict)).toThrow(
      /do not mean the same by the return[\s\S]*site-b: "all holds but no dynamic/,
    );
    expect(pooled([strict[0]!, strict[2]!]).answers.length).toBeGreaterThan(10);
    expect(pooled(threeSummaries()).cautions.map(({ code }) => code)).toContain("definitions-differ");
  });

  it("versions that differ are named", () => {
    const codes = pooled([{ ...a(), toolkit_version: "0.0.9" }, c()]).cautions;
    expect(codes).toContainEqual({ code: "versions-differ", sites: ["site-a", "site-c"] });
  });

  it("one site is not called pooled", () => {
    const [first] = pooled([a()]).answers;
    expect(first!.random).toMatchObject({ lower: null, upper: null, reason: "too-few-sites" });
    expect(first!.without).toEqual([]);
  });
});

describe("files that are no summaries of this toolkit", () => {
  it.each([
    ["no JSON", "{", /x\.json.*this is not JSON/],
    ["something else", "[1, 2]", /x\.json: this is not a summary of a site/],
    [
      "a later version",
      '{"format": "pulley-outcomes site summary 2"}',
      /"pulley-outcomes site summary 2", and this version reads/,
    ],
    ["a key too many", spoilt((one) => ({ ...one, patient: "x" })), /"patient": is not a key of a summary/],
    [
      "the agreed part changed",
      spoilt((one) => ({ ...one, agreed: { ...one.agreed, file: { ...one.agreed.file, seedless: 1 } } })),
      /"agreed\.file\.seedless"/,
    ],
    [
      "the agreed part changed to another that is legal",
      spoilt((one) => ({
        ...one,
        agreed: { ...one.agreed, file: { ...one.agreed.file, horizon_weeks: 30 } },
      })),
      /"agreed\.sha256": is not the fingerprint/,
    ],
    [
      "an estimate without its variance",
      spoilt((one) => ({
        ...one,
        groups: one.groups.map((group) => ({
          ...group,
          figures: group.figures.map((each) => ({ ...each, variance: null })),
        })),
      })),
      /"groups\.0\.figures\.0": holds an estimate without its variance/,
    ],
    [
      "a covariance too large",
      spoilt((one) => ({
        ...one,
        groups: one.groups.map((group) => ({
          ...group,
          variance: group.variance.map((row) => row.map((value) => (value === null ? null : value + 9))),
        })),
      })),
      /"groups\.0\.variance\.0\.0": cannot be the covariance/,
    ],
    [
      "a share above 1",
      spoilt((one) => ({
        ...one,
        groups: one.groups.map((group) => ({
          ...group,
          figures: group.figures.map((each) => ({ ...each, value: 1.5 })),
        })),
      })),
      /"groups\.0\.figures\.0\.value": is no share/,
    ],
    [
      "a group twice",
      spoilt((one) => ({ ...one, groups: [...one.groups, ...one.groups] })),
      /is there twice/,
    ],
    ["a number without limit", summariesOfInfinity(), /cannot be used/],
  ])("%s: named with file and place", (_, text, words) => {
    expect(() => back(text)).toThrow(SummaryError);
    expect(() => back(text)).toThrow(words);
  });
});

/** JSON may hold a number that no computer can. */
function summariesOfInfinity(): string {
  return summariesText([a()]).replace(/"estimate": -?\d[\d.e-]*/, '"estimate": 1e999');
}
