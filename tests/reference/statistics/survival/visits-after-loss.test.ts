import { describe, expect, it } from "vitest";
import {
  incidenceAfterLoss,
  incidenceBetweenVisits,
} from "../../../../src/statistics/survival/between-visits/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const visits = referenceRows("visits", "visits.csv");
const isLost = (row: number) => row % 4 === 3 && visits[row]!.end !== "2";
const entries = numbers(visits, "entry");
/** Every fourth row, unless it has the other end, is lost after three fifths of its time, as in the script. */
const left = numbers(visits, "left").map((day, row) =>
  isLost(row) ? Math.max(entries[row]! + 1, Math.ceil(0.6 * day)) : day,
);
const ends = numbers(visits, "end").map((end, row) => (isLost(row) ? 0 : end));
const right = visits.map((row, at) => (isLost(at) || row.right === "" ? null : Number(row.right)));
const lost = visits.map((_, row) => Number(isLost(row)));
const grade = numbers(visits, "grade");
const common = { lost, groups: numbers(visits, "group"), covariates: { names: ["grade"], columns: [grade] } };
const finite = [0, 0.25, 1, 3];
const options = { time: 91, factors: finite, laws: ["log-normal"] as const };

/** Each end of the return alone, in its interval. */
const intervals = {
  ...common,
  left,
  right: right.map((day, row) => (ends[row] === 1 ? day : null)),
  ends: ends.map((end) => Number(end === 1)),
};
/** Every end on the last day of its interval, late entry, several injuries a person, losses counted within grades. */
const competing = {
  ...common,
  left: left.map((day, row) => right[row] ?? day),
  right,
  ends,
  entries,
  clusters: numbers(visits, "person"),
  cells: grade,
};

describe.each([
  ["intervals", intervals],
  ["competing_in_persons", competing],
] as const)(
  "shares from visits after loss, sums of integrals in R (survreg, numDeriv): %s",
  (id, columns) => {
    const found = incidenceAfterLoss(columns, options);
    const [against, group] = found.groups;
    const [difference] = found.differences;
    it.each(referenceCase("visits_after_loss", id).expected as Expected[])(
      "factor $factor",
      (expected: Expected) => {
        const at = finite.indexOf(expected.factor);
        const figures = [
          [at < 0 ? group!.all : group!.points[at]!, expected.group],
          [
            at < 0
              ? against!.none
              : (against!.points.find(({ factor }) => factor * expected.factor === 1) ?? null),
            expected.against,
          ],
        ] as const;
        for (const [figure, told] of figures) {
          if (figure === null) continue;
          expectClose(figure.estimate, told.share, { rel: 1e-5, what: "share" });
          expectClose(figure.standardError, told.se, { rel: 1e-3, what: "error" });
          expectAllClose([figure.lower, figure.upper], told.limits, { rel: 1e-3, what: "limits" });
        }
        const own = at < 0 ? difference!.highest : difference!.points[at]!;
        expectClose(own.estimate, expected.difference, { rel: 1e-4, what: "difference" });
        expectAllClose([own.lower, own.upper], expected.limits, { rel: 2e-3, abs: 1e-4, what: "limits" });
      },
    );
  },
);

it("where nothing is supposed they are the shares between visits", () => {
  const { lost: _, cells: __, ...followed } = competing;
  const { groups, differences } = incidenceBetweenVisits(followed, { times: [91], laws: ["log-normal"] });
  const found = incidenceAfterLoss(competing, { ...options, factors: [1] });
  found.groups.forEach(({ points: [own] }, at) => {
    for (const figure of ["estimate", "standardError", "lower", "upper"] as const)
      expectClose(own![figure], groups[at]!.shares[0]![figure], { rel: 1e-4, abs: 1e-5, what: figure });
  });
  for (const figure of ["estimate", "lower", "upper"] as const)
    expectClose(found.differences[0]!.points[0]![figure], differences[0]!.shares[0]![figure], {
      rel: 1e-4,
      what: figure,
    });
  expect(found.reason).toBeNull();
});
