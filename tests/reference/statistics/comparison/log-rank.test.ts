import { describe, expect, it } from "vitest";
import {
  type GroupedTimes,
  logRank,
  logRankTrend,
  type TimeWeight,
} from "../../../../src/statistics/index.js";
import {
  codes,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const freireich = referenceRows("logrank", "freireich.csv");
const lung = referenceRows("logrank", "lung.csv");
const lungComplete = lung.filter((row) => row.ecog !== "" && row.inst !== "");
const bmt = referenceRows("logrank", "bmt.csv");
const larynx = referenceRows("logrank", "larynx.csv");
const veteran = referenceRows("logrank", "veteran.csv");
const cells = ["adeno", "large", "smallcell", "squamous"];

const days = (rows: typeof lung) => ({ times: numbers(rows, "time"), events: numbers(rows, "status") });

const cases: { source: string; id: string; columns: GroupedTimes }[] = [
  {
    source: "remission trial, Freireich et al. 1963, Blood 21:699",
    id: "freireich",
    columns: {
      times: numbers(freireich, "weeks"),
      events: numbers(freireich, "relapse"),
      groups: codes(freireich, "group", ["placebo", "6-MP"]),
    },
  },
  {
    source: "advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601",
    id: "lung_sex",
    columns: { ...days(lung), groups: numbers(lung, "sex") },
  },
  {
    source: "the same within performance status",
    id: "lung_sex_strata_ecog",
    columns: {
      ...days(lungComplete),
      groups: numbers(lungComplete, "sex"),
      strata: numbers(lungComplete, "ecog"),
    },
  },
  {
    source: "the same within 18 institutions",
    id: "lung_sex_strata_inst",
    columns: {
      ...days(lungComplete),
      groups: numbers(lungComplete, "sex"),
      strata: numbers(lungComplete, "inst"),
    },
  },
  {
    source: "bone marrow transplant, Klein & Moeschberger 2003, section 7.3",
    id: "bmt_3_groups",
    columns: {
      times: numbers(bmt, "t_dfs"),
      events: numbers(bmt, "dfs_event"),
      groups: codes(bmt, "group", ["ALL", "AML-low", "AML-high"]),
    },
  },
  {
    source: "larynx cancer by stage, Kardaun 1983, Stat Neerl 37:103",
    id: "larynx_stage_trend",
    columns: {
      times: numbers(larynx, "time"),
      events: numbers(larynx, "death"),
      groups: numbers(larynx, "stage"),
    },
  },
  {
    source: "veterans' lung cancer within cell type, Kalbfleisch & Prentice 1980",
    id: "veteran_trt_strata_celltype",
    columns: { ...days(veteran), groups: numbers(veteran, "trt"), strata: codes(veteran, "celltype", cells) },
  },
  {
    source: "veterans' lung cancer by cell type, Kalbfleisch & Prentice 1980",
    id: "veteran_celltype",
    columns: { ...days(veteran), groups: codes(veteran, "celltype", cells) },
  },
];

const weights: Record<string, TimeWeight> = {
  logrank: "equal",
  peto_rho1: { rho: 1 },
  "rho_0.5": { rho: 0.5 },
  gehan: "at-risk",
  tarone_ware: "root-at-risk",
  rho0_gamma1: { rho: 0, gamma: 1 },
  rho1_gamma1: { rho: 1, gamma: 1 },
  "rho0.5_gamma0.5": { rho: 0.5, gamma: 0.5 },
};

describe("log-rank family against R package survival 3.5.3 and the formulas written out", () => {
  describe.each(cases)("$source", ({ id, columns }) => {
    const { expected } = referenceCase("logrank", id);
    it.each(Object.entries(weights))("weights %s", (name, weight) => {
      const wanted = expected[name];
      const found = logRank(columns, { weight });
      expectAllClose(found.n, wanted.n, { rel, what: "n" });
      expectAllClose(found.observed, wanted.observed, { rel, what: "observed" });
      expectAllClose(found.expected, wanted.expected, { rel, what: "expected" });
      expectAllClose(found.variance.flat(), wanted.variance.flat(), { rel, abs: 1e-10, what: "variance" });
      expectClose(found.chiSquare, wanted.chisq, { rel, what: "chi-square" });
      expect(found.df).toBe(wanted.df);
      expectClose(found.p, wanted.p, { rel, what: "p" });
      if (wanted.z !== undefined) expectClose(found.z, wanted.z, { rel, what: "z" });
      if (wanted.trend === undefined) return;
      const trend = logRankTrend(columns, { weight, scores: wanted.trend.scores });
      expectClose(trend.z, wanted.trend.z, { rel, what: "z for trend" });
      expectClose(trend.p, wanted.trend.p, { rel, what: "p for trend" });
    });
  });

  it("remission trial, as printed: expected 19.3 and 10.7, chi-square 16.79 (textbook reanalyses, from memory)", () => {
    const found = logRank(cases[0]!.columns!);
    expect(found.expected.map((value) => value.toFixed(1))).toEqual(["10.7", "19.3"]);
    expect(found.chiSquare?.toFixed(2)).toBe("16.79");
  });
});
