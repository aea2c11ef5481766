import { describe, expect, it } from "vitest";
import {
  type StateRows,
  stateAt,
  stateContrast,
  stateProbabilities,
  timeInStates,
} from "../../../../src/statistics/states/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rowsOf = (rows: readonly Row[], clusters?: readonly number[]): StateRows => ({
  subjects: numbers(rows, "id"),
  entries: numbers(rows, "entry"),
  times: numbers(rows, "time"),
  from: numbers(rows, "from"),
  to: numbers(rows, "to"),
  ...(clusters && { clusters }),
});
const read = (file: string) => referenceRows("states", `${file}.csv`);
const [myeloid, gammopathy, bilirubin, ties] = ["myeloid", "gammopathy", "bilirubin", "ties"].map(read) as [
  Row[],
  Row[],
  Row[],
  Row[],
];
const everyThird = (rows: readonly Row[], size: number) =>
  numbers(rows, "id").map((id) => Math.floor(id / size));
const inGroup = (group: string) => rowsOf(myeloid.filter((row) => row.group === group));
const rel = 1e-9;

/** Time is months of age with a fraction: those of R's file are not the same bits after being read. */
const nearest = (times: readonly number[], time: number) =>
  times.find((one) => Math.abs(one - time) <= 1e-9 * Math.abs(time)) ?? time;

function expectCurves(columns: StateRows, expected: Expected): void {
  const found = stateProbabilities(columns);
  expect(found.states.map(({ state }) => state)).toEqual(expected.states);
  expect([found.n, found.units]).toEqual([expected.n, expected.units]);
  const means = timeInStates(columns, { horizon: expected.horizon });
  for (const [s, { state, initial, initialError }] of found.states.entries()) {
    const what = `state ${state}`;
    expectClose(initial, expected.initial[s], { rel, what: `${what}: share at the start` });
    expectClose(initialError, expected.initial_se[s], { rel, what: `${what}: its error` });
    const at = (expected.time as number[]).map((time) =>
      stateAt(found, { time: nearest(found.times, time), state }),
    );
    const of = `state_${state}`;
    expectAllClose(
      at.map(({ share }) => share),
      expected.share[of],
      { rel, what: `${what}: share` },
    );
    expectAllClose(
      at.map(({ standardError }) => standardError),
      expected.se[of],
      { rel, what: `${what}: error` },
    );
    expect(
      at.map(({ atRisk }) => atRisk),
      `${what}: at risk`,
    ).toEqual(expected.at_risk[of]);
    const mean = means.states[s]!;
    expectClose(mean.estimate, expected.mean_time[s], { rel, what: `${what}: mean time` });
    expectClose(mean.standardError, expected.mean_time_se[s], { rel, what: `${what}: its error` });
  }
}

describe("states over time against R package survival 3.5.3", () => {
  it.each([
    ["leukaemia: response, transplant, relapse, death", "myeloid", rowsOf(myeloid)],
    ["the same, subjects in clusters", "myeloid_clusters", rowsOf(myeloid, everyThird(myeloid, 3))],
    ["gammopathy by age: illness and death, late entry", "gammopathy", rowsOf(gammopathy)],
    ["the same, subjects in clusters", "gammopathy_clusters", rowsOf(gammopathy, everyThird(gammopathy, 4))],
    ["bilirubin: back and forth, not all begin in one state", "bilirubin", rowsOf(bilirubin)],
    ["made up: illness and recovery, nearly all times tied", "ties", rowsOf(ties)],
    ["the same, subjects in persons", "ties_clusters", rowsOf(ties, numbers(ties, "person"))],
  ])("%s (%s)", (_, id, columns) => {
    expectCurves(columns, referenceCase("states", id).expected);
  });

  it.each(["0", "1"])("leukaemia, treatment %s", (group) => {
    expectCurves(inGroup(group), referenceCase("states", "myeloid_by_group").expected[`group_${group}`]);
  });

  it.each([
    ["plain", "plain"],
    ["log", "log"],
    ["log-log", "log-log"],
    ["logit", "logit"],
    ["arcsine", "arcsin"],
  ] as const)("limits on the %s scale", (scale, name) => {
    const found = stateProbabilities(rowsOf(myeloid), { scale });
    const { states, lower, upper } = referenceCase("states", "myeloid_limits").expected[name];
    for (const [i, time] of [100, 365, 730, 1500].entries())
      for (const [s, state] of (states as number[]).entries()) {
        const at = stateAt(found, { time, state });
        expectClose(at.lower, lower[i][s], { rel, what: `lower, state ${state}, day ${time}` });
        expectClose(at.upper, upper[i][s], { rel, what: `upper, state ${state}, day ${time}` });
      }
  });
});

describe("states over time, by hand", () => {
  // six fingers: 1 back on day 2 and followed to 8; 2 back on day 2, ruptured again on day 5; 3 back on day 4, ruptured on day 6;
  // 4 censored on day 3; 5 gave up on day 5; 6 back on day 7 and followed to 8
  const fingers: StateRows = {
    subjects: [1, 1, 2, 2, 3, 3, 4, 5, 6, 6],
    entries: [-1, 2, -1, 2, -1, 4, -1, -1, -1, 7],
    times: [2, 8, 2, 5, 4, 6, 3, 5, 7, 8],
    from: [0, 1, 0, 1, 0, 1, 0, 0, 0, 1],
    to: [1, 1, 1, 2, 1, 2, 0, 3, 1, 1],
  };
  const found = stateProbabilities(fingers);
  const shares = (state: number) => [2, 4, 5, 6, 7].map((time) => stateAt(found, { time, state }).share);

  it("not yet: 4/6, x 2/3, x 1/2, unchanged, 0", () => {
    expectAllClose(shares(0), [4 / 6, 4 / 9, 2 / 9, 2 / 9, 0], { rel: 1e-14, what: "not yet" });
  });

  it("back: 2/6, + 4/6/3, x 2/3 as one of three ruptures, x 1/2, + 2/9", () => {
    const [first, second] = [2 / 6, 2 / 6 + 4 / 18];
    const fifth = (second * 2) / 3;
    expectAllClose(shares(1), [first, second, fifth, fifth / 2, fifth / 2 + 2 / 9], {
      rel: 1e-14,
      what: "back",
    });
  });

  it("ruptured again: 0, 0, 5/9 x 1/3, + half of those back; given up 2/9 from day 5 on", () => {
    const back = 5 / 9;
    expectAllClose(shares(2), [0, 0, back / 3, back / 3 + back / 3, back / 3 + back / 3], {
      rel: 1e-14,
      what: "ruptured",
    });
    expectAllClose(shares(3), [0, 0, 2 / 9, 2 / 9, 2 / 9], { rel: 1e-14, what: "given up" });
  });

  it("counts: three at risk of a new rupture on day 5, two have had one by day 6; on day 8 all back are still followed", () => {
    expect(stateAt(found, { time: 5, state: 1 })).toMatchObject({
      atRisk: 3,
      entered: 3,
      left: 1,
      followed: 5,
    });
    expect(stateAt(found, { time: 6, state: 2 })).toMatchObject({ atRisk: 0, entered: 2, left: 0 });
    expect(stateAt(found, { time: 8, state: 1 }).notFollowed).toEqual([]);
    expect(stateAt(found, { time: 9, state: 1 })).toMatchObject({ share: null, reason: "beyond-follow-up" });
  });

  it("mean days within 7: not yet 2 + 2 x 4/6 + 4/9 + 2 x 2/9, all four together 7", () => {
    const { states } = timeInStates(fingers, { horizon: 7 });
    expectClose(states[0]!.estimate, 2 + 8 / 6 + 4 / 9 + 4 / 9, { rel: 1e-14, what: "not yet" });
    expectClose(
      states.reduce((sum, { estimate }) => sum + estimate, 0),
      7,
      { rel: 1e-14, what: "all" },
    );
  });

  it("error of the share back on day 2 is that of 2 of 6; its limits are Wilson's", () => {
    const at = stateAt(found, { time: 2, state: 1 });
    expectClose(at.standardError, Math.sqrt((2 * 4) / 216), { rel: 1e-14, what: "error" });
    // Wilson 1927, from the formula
    const z2 = 1.959963984540054 ** 2;
    const half = 1.959963984540054 * Math.sqrt(2 / 9 / 6 + z2 / 144);
    expectClose(at.lower, (1 / 3 + z2 / 12 - half) / (1 + z2 / 6), { rel: 1e-12, what: "lower" });
    expectClose(at.upper, (1 / 3 + z2 / 12 + half) / (1 + z2 / 6), { rel: 1e-12, what: "upper" });
  });

  it("nobody ruptured again by day 4, five followed: 0 with an upper limit z^2 / (5 + z^2)", () => {
    const z2 = 1.959963984540054 ** 2;
    const at = stateAt(found, { time: 4, state: 2 });
    expect(at).toMatchObject({ share: 0, standardError: 0, lower: 0, followed: 5, limitsReason: null });
    expectClose(at.upper, z2 / (5 + z2), { rel: 1e-12, what: "upper" });
    const onLog = stateProbabilities(fingers, { scale: "log" });
    expect(stateAt(onLog, { time: 4, state: 2 })).toMatchObject({ lower: null, limitsReason: "no-events" });
  });

  it("all have left not yet by day 7, four seen to go back and one to give up: 0, and not less than 5 tell", () => {
    const at = stateAt(found, { time: 8, state: 0 });
    expect(at).toMatchObject({ share: 0, left: 5, followed: 2, size: 5, lower: 0 });
    // followed on day 8 are two; by then two have ruptured and one has given up, whose state is known too
    expect(stateAt(found, { time: 8, state: 4 })).toMatchObject({ share: 0, size: 5 });
  });

  it("following ends with the return: the state back is named as not followed, its share stays", () => {
    const ended: StateRows = { subjects: [1, 2, 3], times: [2, 4, 9], from: [0, 0, 0], to: [1, 1, 0] };
    const absorbing = [2];
    const at = stateAt(stateProbabilities(ended, { absorbing }), { time: 5, state: 1 });
    expectClose(at.share, 2 / 3, { rel: 1e-14, what: "share" });
    expect(at.notFollowed).toEqual([1]);
    expect(stateAt(stateProbabilities(ended), { time: 5, state: 1 }).notFollowed).toEqual([]);
  });

  it("shares at the start as given: half back already", () => {
    const given = stateProbabilities(fingers, { initial: [0.5, 0.5] });
    expect(stateAt(given, { time: 0, state: 1 })).toMatchObject({ share: 0.5, standardError: 0 });
    expectClose(stateAt(given, { time: 2, state: 0 }).share, 2 / 6, { rel: 1e-14, what: "not yet" });
  });
});

describe("errors that are wanted until a time only", () => {
  const whole = stateProbabilities(inGroup("1"));
  const until = stateProbabilities(inGroup("1"), { errorsUntil: 365 });

  it.each([0, 100, 365])("day %i: all that is told of it is the same", (time) => {
    for (const state of [0, 1, 2, 3])
      expect(stateAt(until, { time, state })).toEqual(stateAt(whole, { time, state }));
  });

  it("later shares and counts are the same, later errors are refused", () => {
    expect(until.times).toEqual(whole.times);
    for (const [i, { share, atRisk, entered, standardError, lower, upper }] of until.states.entries()) {
      const { standardError: errors, ...other } = whole.states[i]!;
      expect({ share, atRisk, entered }).toEqual({
        share: other.share,
        atRisk: other.atRisk,
        entered: other.entered,
      });
      const known = whole.times.filter((time) => time <= 365).length;
      expect(standardError).toEqual(errors.slice(0, known));
      expect([lower, upper]).toEqual([other.lower.slice(0, known), other.upper.slice(0, known)]);
    }
    expect(() => stateAt(until, { time: 800, state: 1 })).toThrow(/time must be no later .*errorsUntil/);
  });
});

describe("difference of two groups", () => {
  it("limits are recovered from the score limits of the two (Zou & Donner 2008), whatever the state", () => {
    const curves = { a: stateProbabilities(inGroup("1")), b: stateProbabilities(inGroup("0")) };
    const [found] = stateContrast(curves, { state: 2, times: [365] });
    const { a, b, difference, lower, upper } = found!;
    expectClose(difference, a.share! - b.share!, { rel: 1e-14, what: "difference" });
    expectClose(lower, difference! - Math.hypot(a.share! - a.lower!, b.upper! - b.share!), {
      rel: 1e-12,
      what: "lower",
    });
    expectClose(upper, difference! + Math.hypot(a.upper! - a.share!, b.share! - b.lower!), {
      rel: 1e-12,
      what: "upper",
    });
  });
});
