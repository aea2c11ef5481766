import * as fc from "fast-check";
import { describe, test } from "vitest";
import { cumulativeIncidence, productLimit } from "../../../src/statistics/index.js";
import {
  type StateRows,
  stateAt,
  stateProbabilities,
  timeInStates,
} from "../../../src/statistics/states/index.js";
import { allNear, cohort, columns, near, row, settings } from "./cohorts.js";

const ended = fc.record({
  row,
  cause: fc.integer({ min: 0, max: 2 }),
  person: fc.integer({ min: 0, max: 9 }),
  late: fc.integer({ min: 1, max: 20 }),
});
const endings = fc.array(ended, { minLength: 1, maxLength: 40 });

/** What a subject did: stays of some days, each ending in a state, back and forth among three; the last may end without a move. */
const history = fc.record({
  entry: fc.integer({ min: 0, max: 8 }),
  first: fc.integer({ min: 0, max: 2 }),
  stays: fc.array(
    fc.record({
      days: fc.integer({ min: 1, max: 9 }),
      gap: fc.constantFrom<number>(0, 0, 0, 2),
      to: fc.integer({ min: 0, max: 3 }),
    }),
    { minLength: 1, maxLength: 5 },
  ),
  person: fc.integer({ min: 0, max: 6 }),
});
type History = typeof history extends fc.Arbitrary<infer Of> ? Of : never;
const histories = fc.array(history, { minLength: 1, maxLength: 25 });

function rowsOf(all: readonly History[], clusters = false): StateRows {
  const rows = all.flatMap(({ entry, first, stays, person }, subject) => {
    let [time, state] = [entry, first];
    const own = [];
    for (const { days, gap, to } of stays) {
      // state 3 is left by nobody
      if (state === 3) break;
      own.push({ subject, person, entry: time, time: time + days, from: state, to });
      [time, state] = [time + days + gap, to];
    }
    return own;
  });
  return {
    subjects: rows.map(({ subject }) => subject),
    entries: rows.map(({ entry }) => entry),
    times: rows.map(({ time }) => time),
    from: rows.map(({ from }) => from),
    to: rows.map(({ to }) => to),
    ...(clusters && { clusters: rows.map(({ person }) => person) }),
  };
}

const days = [...Array(40).keys()];

describe("states over time", () => {
  test("with two states it is the product-limit curve with its robust error, clusters and late entry included", () => {
    fc.assert(
      fc.property(
        cohort,
        fc.array(fc.integer({ min: 0, max: 8 }), { minLength: 40, maxLength: 40 }),
        (rows, persons) => {
          const shared = {
            clusters: rows.map((_, at) => persons[at]!),
            entries: rows.map(({ time }) => ((time % 7) - 2 < time ? (time % 7) - 2 : -1)),
          };
          const { times, events } = columns(rows);
          const found = stateProbabilities(
            { ...shared, times, from: rows.map(() => 0), to: events, subjects: rows.map((_, at) => at) },
            { scale: "log-log" },
          );
          const curve = productLimit({ ...shared, times, events }, { variance: "robust" });
          const [own] = found.states;
          return (
            allNear(own!.share, curve.notYet) &&
            curve.standardError.every(
              (error, at) => error === null || near(own!.standardError[at], error, 1e-8),
            ) &&
            curve.lower.every((lower, at) => lower === null || near(own!.lower[at], lower, 1e-8)) &&
            allNear(own!.atRisk, curve.atRisk)
          );
        },
      ),
      settings,
    );
  });

  test("with one state that is left for several it is the cumulative incidence with its robust error", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const shared = {
          times: rows.map((one) => one.row.time),
          entries: rows.map((one) => Math.max(-1, one.row.time - one.late - 1)),
          clusters: rows.map((one) => one.person),
        };
        const causes = rows.map((one) => one.cause);
        const found = stateProbabilities(
          { ...shared, from: rows.map(() => 0), to: causes, subjects: rows.map((_, at) => at) },
          { scale: "log-log" },
        );
        const incidence = cumulativeIncidence({ ...shared, causes });
        return incidence.causes.every(({ cause, incidence: shares, standardError, lower, upper }) => {
          const own = found.states.find(({ state }) => state === cause)!;
          return (
            allNear(own.share, shares) &&
            allNear(own.standardError, standardError, 1e-7) &&
            allNear(own.lower, lower, 1e-7) &&
            allNear(own.upper, upper, 1e-7)
          );
        });
      }),
      settings,
    );
  });

  test("shares add up to 1 at every time and lie within 0 to 1 and within their limits; mean times add up to the horizon", () => {
    fc.assert(
      fc.property(histories, fc.integer({ min: 1, max: 40 }), (all, horizon) => {
        const rows = rowsOf(all, true);
        const found = stateProbabilities(rows);
        const adds = found.times.every((_, at) =>
          near(
            found.states.reduce((sum, { share }) => sum + share[at]!, 0),
            1,
          ),
        );
        const within = found.states.every(({ share, lower, upper }) =>
          share.every((one, at) => {
            const [low, high] = [lower[at], upper[at]];
            if (low == null || high == null) return one >= 0 && one <= 1;
            return 0 <= low && low <= one + 1e-12 && one <= high + 1e-12 && high <= 1;
          }),
        );
        const means = timeInStates(rows, { horizon }).states;
        const limited = means.every(
          ({ lower, upper, estimate }) =>
            lower === null ||
            upper === null ||
            (0 <= lower && lower <= estimate && estimate <= upper && upper <= horizon),
        );
        return (
          adds &&
          within &&
          limited &&
          near(
            means.reduce((sum, one) => sum + one.estimate, 0),
            horizon,
          )
        );
      }),
      settings,
    );
  });

  test("without censoring or late entry a share is that of the subjects who are there", () => {
    const path = fc.array(
      fc.record({ days: fc.integer({ min: 1, max: 9 }), to: fc.integer({ min: 0, max: 2 }) }),
      { minLength: 3, maxLength: 3 },
    );
    fc.assert(
      fc.property(fc.array(path, { minLength: 1, maxLength: 20 }), (all) => {
        const whole = all.map((stays, person) => ({
          entry: -1,
          first: 0,
          person,
          // followed to day 60 and gone then
          stays: [...stays.map((stay) => ({ ...stay, gap: 0 })), { days: 60, gap: 0, to: 3 }],
        }));
        const rows = rowsOf(whole);
        const found = stateProbabilities(rows, { initial: [1] });
        return days.every((time) => {
          const there = all.map((stays) => {
            let [now, state] = [-1, 0];
            for (const { days: length, to } of stays) {
              now += length;
              if (now <= time) state = to;
            }
            return state;
          });
          return [0, 1, 2].every((state) => {
            const share = there.filter((one) => one === state).length / all.length;
            const at = stateAt(found, { time, state });
            return (
              near(at.share, share) &&
              near(at.standardError, Math.sqrt((share * (1 - share)) / all.length), 1e-8)
            );
          });
        });
      }),
      settings,
    );
  });

  test("the order of rows is immaterial; every history twice in one cluster changes no error; a stay cut in two changes nothing", () => {
    fc.assert(
      fc.property(histories, (all) => {
        const one = stateProbabilities(rowsOf(all));
        // shares at the start are those at the first move: without any they are those at the first time, which a cut makes another
        fc.pre(one.states.some(({ entered }) => entered.some((count) => count > 0)));
        const { subjects, entries, times, from, to } = rowsOf(all);
        const back = <Value>(values: ArrayLike<Value>): Value[] => Array.from(values).reverse();
        const turned = stateProbabilities({
          subjects: back(subjects),
          entries: back(entries!),
          times: back(times),
          from: back(from),
          to: back(to),
        });
        const rows = rowsOf([...all, ...all]);
        const twice = stateProbabilities({
          ...rows,
          clusters: Array.from(rows.subjects, (subject) => subject % all.length),
        });
        const cut = stateProbabilities({
          subjects: [...Array.from(subjects), ...Array.from(subjects)],
          entries: [...Array.from(entries!), ...Array.from(times, (time) => time - 0.5)],
          times: [...Array.from(times, (time) => time - 0.5), ...Array.from(times)],
          from: [...Array.from(from), ...Array.from(from)],
          to: [...Array.from(from), ...Array.from(to)],
        });
        return [turned, twice, cut].every((other) =>
          one.states.every(({ state }) =>
            days.every((time) => {
              const [a, b] = [stateAt(one, { time, state }), stateAt(other, { time, state })];
              return near(a.share, b.share) && near(a.standardError, b.standardError, 1e-7);
            }),
          ),
        );
      }),
      { ...settings, numRuns: 60 },
    );
  });
});
