import { describe, expect, it } from "vitest";
import { type SiteSummary, summariseSite } from "../../../src/pooling/index.js";
import { answer } from "../../../src/study/index.js";
import { readOf, sha256, smallCells } from "../../behaviour/pooling/hand-site.js";
import { injury, on, treated } from "../../behaviour/study/hand-made.js";
import { expectClose } from "../statistics/reference-data.js";

const rel = 1e-9;
const days = [30, 50, 60, 80, 100, 140, 150, 200];
/** Two weeks of landmarks: days 63 and 91; horizon day 182. */
const asked = { landmarks_weeks: [9, 13], main_landmark_weeks: 13, horizon_weeks: 26 };
const back = (id: string, day: number, change = {}) =>
  injury(id, { full_climbing_date: on(day), last_contact_date: on(day + 30), ...change });
const summaryOf = (rows: readonly Record<string, string>[]): SiteSummary => {
  const input = readOf(
    { injuries: rows, treatments: rows.map(({ injury_id }) => treated(injury_id!, "ring")) },
    asked,
  );
  return summariseSite(input, {
    site: "a",
    smallCells: { choice: "written", smallest: 5 },
    version: "0",
    sha256,
  });
};
const allOf = ({ groups }: SiteSummary) => groups.find(({ family }) => family === "all")!;

describe("the variance matrix of a site's figures, by hand", () => {
  const n = days.length;
  const shares = [63, 91].map((day) => days.filter((own) => own <= day).length / n);
  const { figures, variance } = allOf(summaryOf(days.map((day, i) => back(`i${i}`, day))));

  it("without losses: shares of a multinomial, on the empirical logit", () => {
    const [p, q] = shares as [number, number];
    shares.forEach((share, i) => {
      expectClose(figures[i]!.value, share, { rel, what: "share" });
      expectClose(figures[i]!.standard_error, Math.sqrt((share * (1 - share)) / n), { rel, what: "error" });
      const [x, rest] = [n * share + 0.5, n * (1 - share) + 0.5];
      expectClose(figures[i]!.estimate, Math.log(x / rest), { rel, what: "logit" });
      expectClose(figures[i]!.variance, 1 / x + 1 / rest, { rel, what: "variance" });
    });
    // covariance p (1 - q) / n of two shares of a multinomial, as a correlation
    const correlation = Math.sqrt((p * (1 - q)) / (q * (1 - p)));
    const found = variance[0]![1]! / Math.sqrt(variance[0]![0]! * variance[1]![1]!);
    expectClose(found, correlation, { rel, what: "correlation" });
  });

  it("without losses: the mean days up to the horizon, with n - 1", () => {
    const cut = days.map((day) => Math.min(day, 182));
    const mean = cut.reduce((sum, day) => sum + day, 0) / n;
    const squares = cut.reduce((sum, day) => sum + (day - mean) ** 2, 0);
    expectClose(figures[2]!.value, mean, { rel, what: "mean" });
    expectClose(figures[2]!.standard_error, Math.sqrt(squares) / n, { rel, what: "error" });
    expectClose(figures[2]!.variance, squares / n / (n - 1), { rel, what: "variance" });
    // covariance of the share back by day 63 with the mean: sum of products over n squared
    const product = days.reduce(
      (sum, day, i) => sum + (Number(day <= 63) - shares[0]!) * (cut[i]! - mean),
      0,
    );
    const correlation = product / n / n / (figures[0]!.standard_error! * figures[2]!.standard_error!);
    const found = variance[0]![2]! / Math.sqrt(variance[0]![0]! * variance[2]![2]!);
    expectClose(found, correlation, { rel, what: "correlation" });
  });

  it("injuries of one person are summed before they are squared", () => {
    const rows = days.map((day, i) =>
      back(`i${i}`, day, { person_id: `p${Math.floor(i / 2)}`, finger: i % 2 === 0 ? "ring" : "middle" }),
    );
    const found = allOf(summaryOf(rows));
    const sums = [0, 2, 4, 6].map((first) =>
      [first, first + 1].reduce((sum, i) => sum + Number(days[i]! <= 63) - shares[0]!, 0),
    );
    const clustered = sums.reduce((sum, one) => sum + one * one, 0) / n / n;
    expectClose(found.figures[0]!.standard_error, Math.sqrt(clustered), { rel, what: "error" });
    expect(found.persons).toBe(4);
  });

  it("with losses: the error on the diagonal is that of the site's own report", () => {
    const rows = days.map((day, i) =>
      i % 3 === 2
        ? injury(`i${i}`, { full_climbing_date: "", last_contact_date: on(day) })
        : back(`i${i}`, day),
    );
    const input = readOf(
      { injuries: rows, treatments: rows.map(({ injury_id }) => treated(injury_id!, "ring")) },
      asked,
    );
    const own = answer(input.read, input.plan).curves.find(({ family }) => family === "all")!.curves[0]!;
    const found = allOf(summaryOf(rows));
    const at = own.points.filter(({ day }) => day <= 63).at(-1)!;
    expectClose(found.figures[0]!.value, at.returned, { rel, what: "share" });
    expectClose(found.figures[0]!.standard_error, at.standard_error!, { rel, what: "error" });
  });

  it("everybody back: half an injury is added, so that the site has a part", () => {
    const found = allOf(summaryOf(days.map((_, i) => back(`i${i}`, 40 + i))));
    expectClose(found.figures[0]!.estimate, Math.log((n + 0.5) / 0.5), { rel, what: "logit" });
    expectClose(found.figures[0]!.variance, 1 / (n + 0.5) + 2, { rel, what: "variance" });
    expect(smallCells.smallest).toBe(5);
  });
});
