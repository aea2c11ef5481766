import { describe, expect, it } from "vitest";
import { type PooledAnswer, type PooledResults, poolSummaries } from "../../../src/pooling/index.js";
import { answer } from "../../../src/study/index.js";
import { sha256, threeSitesRead, threeSummaries } from "../../behaviour/pooling/three-sites.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  referenceCase,
  referenceRows,
} from "../statistics/reference-data.js";

const topic = "pooling_summaries";
let made: PooledResults | null = null;
const pooled = (): PooledResults => {
  made ??= poolSummaries(
    threeSummaries().map((summary) => ({ file: `${summary.site}.json`, summary })),
    { version: "0.1.0", sha256 },
  );
  return made;
};

/** A figure on the scale of pooling as readers see it, within what it can be. */
function shown(estimate: number | null, { scale, day, of }: PooledAnswer): number | null {
  if (estimate === null) return null;
  if (scale === "logit") return 1 / (1 + Math.exp(-estimate));
  const most = scale === "days" ? day : 1;
  return Math.max(of === "group" ? 0 : -most, Math.min(most, estimate));
}

describe("summaries of three sites pooled, against metafor 3.8.1", () => {
  const { expected } = referenceCase(topic, "three_sites");
  const answers = expected.answers as Expected[];
  const rel = 1e-6;

  it("starts from the estimates that the reference was made from", () => {
    const rows = referenceRows(topic, "sites.csv");
    const ours = new Map(
      pooled().answers.flatMap(({ id, measure }) => (measure === "other_end" ? [] : [[id, true] as const])),
    );
    for (const { id, site, estimate, variance } of rows) {
      const summary = threeSummaries().find((one) => one.site === site)!;
      const figures = [
        ...summary.groups.flatMap((group) =>
          group.figures.map((figure) => ({
            id: [group.family, group.label, figure.measure, figure.week ?? "horizon"].join(":"),
            figure,
          })),
        ),
        ...summary.comparisons.flatMap((one) =>
          one.figures.map((figure) => ({
            id: [
              one.compared,
              one.reference,
              one.adjusted_for.length > 0 ? "like-for-like" : "as-they-are",
              figure.measure,
              figure.week ?? "horizon",
            ].join(":"),
            figure,
          })),
        ),
      ];
      const { figure } = figures.find((one) => one.id === id)!;
      expectClose(figure.estimate, Number(estimate), { rel: 1e-9, what: `${site} ${id}` });
      expectClose(figure.variance, Number(variance), { rel: 1e-9, what: `variance ${site} ${id}` });
      expect(ours.has(id!)).toBe(true);
    }
  });

  it.each(answers.map((wanted) => [wanted.id as string, wanted] as const))("%s", (id, wanted) => {
    const found = pooled().answers.find((one) => one.id === id)!;
    const { common, random, paule_mandel, heterogeneity } = found;
    expect(found.used).toBe(wanted.sites.length);
    const isShare = found.pooled_by === "counts";
    // of grade 1 all are back at every site, so that the counts give no interval
    expect(isShare).toBe(found.scale === "logit" && !(found.label === "1" && (found.week ?? 0) >= 8));
    const pooledByError = isShare
      ? ([[paule_mandel, wanted.PM]] as const)
      : ([
          [random, wanted.REML],
          [paule_mandel, wanted.PM],
        ] as const);
    if (!isShare) {
      expectClose(common.estimate, wanted.common.estimate, { rel, what: "common effect", abs: 1e-9 });
      expectClose(common.standard_error, wanted.common.se, { rel, what: "its error" });
    }
    for (const [ours, theirs] of pooledByError) {
      expectClose(ours.estimate, theirs.estimate, { rel, what: "random effects", abs: 1e-7 });
      expectClose(ours.standard_error, theirs.se, { rel, what: "its error" });
      expectClose(ours.spread.tau_squared.value, theirs.tau2, { rel: 1e-5, abs: 1e-7, what: "tau squared" });
      const wantedLimits = theirs.ci95.map((one: number) => shown(one, found));
      expectAllClose([ours.lower, ours.upper], wantedLimits, { rel: 1e-5, abs: 1e-6, what: "limits" });
    }
    expectClose(heterogeneity.q, wanted.q, { rel, abs: 1e-9, what: "Q" });
    expectClose(heterogeneity.p, wanted.q_p, { rel, abs: 1e-9, what: "p of Q" });
    expectClose(heterogeneity.i_squared.value, wanted.i2 / 100, { rel, abs: 1e-9, what: "I-squared" });
    if (wanted.without !== undefined && found.main && !isShare)
      expectAllClose(
        found.without.map(({ value }) => value),
        wanted.without.map((one: number) => shown(one, found)),
        { rel: 1e-5, abs: 1e-6, what: "without each site" },
      );
  });
});

describe("shares of three sites by their counts, against R 4.2.2, the likelihood summed on a grid", () => {
  const answers = (referenceCase(topic, "three_sites").expected.answers as Expected[]).filter(
    ({ counts }) => counts !== undefined,
  );

  it.each(answers.map(({ id, counts }) => [id as string, counts as Expected] as const))(
    "%s",
    (id, wanted) => {
      const { common, random, without } = pooled().answers.find((one) => one.id === id)!;
      expectClose(common.estimate, wanted.common.estimate, { rel: 1e-6, what: "all as one site" });
      expectClose(common.standard_error, wanted.common.se, { rel: 1e-6, what: "its error" });
      // the reference finds the top by value, and so tau to the root of what its value is good to
      expectClose(random.spread.tau, wanted.tau, { rel: 1e-5, abs: 1e-5, what: "tau" });
      expectClose(random.estimate, wanted.log_odds, { rel: 1e-5, abs: 1e-6, what: "log odds" });
      expectClose(random.standard_error, wanted.se, { rel: 1e-4, what: "error" });
      expectAllClose([random.lower, random.upper], wanted.ci95, { rel: 1e-4, what: "limits" });
      if (wanted.without !== null && without.length > 0)
        expectAllClose(
          without.map(({ value }) => value),
          wanted.without,
          { rel: 1e-4, what: "without each site" },
        );
    },
  );
});

describe("two stages beside one", () => {
  it("the common effect lies near the answer of all rows together, and its error too", () => {
    const { read, plan } = threeSitesRead();
    const rows = answer(read, plan);
    const curve = rows.curves.find(({ family }) => family === "all")!.curves[0]!;
    const share = pooled().answers.find(({ id }) => id === "all:all injuries:share_back:13")!;
    const oneStage = curve.landmarks.find(({ week }) => week === 13)!.returned;
    // at one site a model of spans speaks, and the rows together are placed on days: half an error apart at most
    const error = (oneStage.upper! - oneStage.lower!) / 4;
    expect(Math.abs(share.common.value! - oneStage.value!)).toBeLessThan(error / 2);
    const width = (share.common.upper! - share.common.lower!) / (oneStage.upper! - oneStage.lower!);
    expect(width).toBeGreaterThan(0.85);
    expect(width).toBeLessThan(1.15);
    const mean = pooled().answers.find(({ id }) => id === "all:all injuries:mean_days:horizon")!;
    const { days } = curve.restricted_mean;
    expect(Math.abs(mean.common.value! - days.value!)).toBeLessThan((days.upper! - days.lower!) / 4);
  });
});
