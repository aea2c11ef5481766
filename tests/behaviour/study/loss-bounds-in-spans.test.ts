import { describe, expect, it } from "vitest";
import { lossSentences } from "../../../src/report/plain/loss.js";
import { seededGenerator } from "../../../src/statistics/index.js";
import { lossUnderModel } from "../../../src/words/after-loss.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

/** Seen on these days, and back between two of them. */
const visits = [0, 42, 63, 84, 112, 140, 182];
const backBetween = (id: string, day: number): Row => {
  const after = visits.findIndex((visit) => visit >= day);
  return injury(id, {
    full_climbing_date: "",
    ...(after > 1 ? { full_climbing_not_before: on(visits[after - 1]!) } : {}),
    full_climbing_not_after: on(visits[after]!),
    last_contact_date: on(visits[after]!),
  });
};
const backOn = (id: string, day: number): Row =>
  injury(id, { full_climbing_date: on(day), last_contact_date: on(day) });
const lostOn = (id: string, day: number): Row =>
  injury(id, { full_climbing_date: "", last_contact_date: on(day) });
const followed = (id: string): Row => injury(id, { full_climbing_date: "", last_contact_date: "2025-06-30" });

/** Days of return at equal steps of a log-normal law, as if drawn: the middle is the median. */
const days = (n: number, { median, spread }: { readonly median: number; readonly spread: number }) =>
  Array.from({ length: n }, (_, i) => {
    const p = (i + 0.5) / n;
    // logistic steps stand for normal ones: 1.702 of theirs are one of these
    return Math.max(1, Math.round(median * Math.exp((spread * Math.log(p / (1 - p))) / 1.702)));
  });

const resultsFor = (
  rows: readonly Row[],
  {
    adjust_for = [],
    ...question
  }: { adjust_for?: ("sex" | "grade")[]; inexact_returns?: "as_spans" | "on_one_day" } = {},
) =>
  resultsOf(
    rows,
    rows.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[0]!)),
    {
      question: { clock: "treatment_start", inexact_returns: "as_spans", ...question },
      compare: { adjust_for, smallest_group: 2 },
      landmarks_weeks: [13],
    },
  );

const clinic = [
  ...days(24, { median: 70, spread: 0.5 }).map((day, i) => backBetween(`ring-${i}`, Math.min(day, 180))),
  ...days(24, { median: 90, spread: 0.5 }).map((day, i) => backBetween(`tape-${i}`, Math.min(day, 180))),
  ...[1, 2].map((n) => followed(`ring-x${n}`)),
  ...[1, 2].map((n) => followed(`tape-x${n}`)),
];

describe("bounds of loss where returns are known only between visits", () => {
  /* Six of 32 lost on the day on which they are first seen at risk: of what is known of a share F of those followed, 26/32 F and 26/32 F + 6/32 remain. */
  it("lost at once: F (1 - l) if none of them is back, F (1 - l) + l if all are, l the share lost", () => {
    const atOnce = Array.from({ length: 6 }, (_, n) => lostOn(`ring-y${n}`, 2));
    const ring = resultsFor([...clinic, ...atOnce]).loss_bounds!.shares.find(
      ({ label }) => label === "ring",
    )!;
    const { lost, n, none_back, as_followed, all_back } = ring;
    expect([lost, n]).toEqual([6, 32]);
    // a day passes between treatment and loss, on which the law has next to nobody back
    expect(none_back.value!).toBeCloseTo((26 / 32) * as_followed.value!, 6);
    expect(all_back.value!).toBeCloseTo((26 / 32) * as_followed.value! + 6 / 32, 6);
  });

  it("lost on the eve of the landmark: as followed and none back are nearly one; all back is higher by their share", () => {
    const eve = Array.from({ length: 4 }, (_, n) => lostOn(`ring-y${n}`, 90));
    const ring = resultsFor([...clinic, ...eve]).loss_bounds!.shares.find(({ label }) => label === "ring")!;
    expect(ring.lost).toBe(4);
    expect(ring.as_followed.value! - ring.none_back.value!).toBeLessThan(0.01);
    expect(ring.all_back.value! - ring.none_back.value!).toBeCloseTo(4 / 30, 1);
  });

  it("nobody lost: the bounds are the estimate, and nothing could change it", () => {
    const results = resultsFor(clinic);
    for (const { none_back, as_followed, all_back, line } of results.loss_bounds!.shares) {
      expect(none_back.value).toBeCloseTo(as_followed.value!, 5);
      expect(all_back.value).toBeCloseTo(as_followed.value!, 5);
      expect(line).toBeNull();
    }
    expect(lossSentences(results)[0]).toMatch(/^Nobody that the difference between .* was lost to follow-up/);
  });

  it("as estimated they are the figures of the report, crude and like for like", () => {
    const mixed = clinic.map((row, i) => ({ ...row, sex: i % 3 === 0 ? "male" : "female" }));
    const lost = ["ring", "ring", "tape"].map((group, n) => lostOn(`${group}-y${n}`, 30));
    const { loss_bounds, effects, curves } = resultsFor([...mixed, ...lost], { adjust_for: ["sex"] });
    expect(loss_bounds!.differences.map(({ adjusted_for }) => adjusted_for)).toEqual([[], ["sex"]]);
    for (const one of loss_bounds!.differences) {
      const effect = effects.find(
        ({ measure, main, adjusted_for }) =>
          measure === "landmark_difference" && main && adjusted_for.length === one.adjusted_for.length,
      )!;
      expect(one.as_followed).toEqual(effect.estimate);
      expect(one.lowest.value!).toBeLessThan(one.as_followed.value!);
      expect(one.highest.value!).toBeGreaterThan(one.as_followed.value!);
    }
    const told = curves.find(({ family }) => family === "compared")!.curves[0]!;
    const share = loss_bounds!.shares.find(({ label }) => label === told.label)!;
    expect(share.as_followed).toEqual(told.landmarks[0]!.returned);
  });

  it("a group in which nobody returned has bounds by days, and a difference with it none, with the reason", () => {
    const none = clinic.map((row, i) => (row.injury_id!.startsWith("tape") ? followed(`tape-${i}`) : row));
    const results = resultsFor([...none, lostOn("tape-y", 40)]);
    const tape = results.loss_bounds!.shares.find(({ label }) => label === "tape")!;
    expect([tape.none_back.value, tape.as_followed.value]).toEqual([0, 0]);
    expect(tape.all_back.value).toBeCloseTo(1 / tape.n, 10);
    expect(results.loss_bounds!.differences[0]!.lowest.reason).toBe("no-events");
    expect(lossSentences(results)[0]).toMatch(/^How far loss could move the difference .* cannot be given: /);
  });
});

describe("a difference that loss could undo", () => {
  const far = [
    ...days(40, { median: 55, spread: 0.4 }).map((day, i) => backBetween(`ring-${i}`, Math.min(day, 180))),
    ...days(40, { median: 100, spread: 0.4 }).map((day, i) => backBetween(`tape-${i}`, Math.min(day, 180))),
    ...Array.from({ length: 16 }, (_, n) => lostOn(`ring-y${n}`, 10 + n)),
    ...Array.from({ length: 16 }, (_, n) => lostOn(`tape-y${n}`, 10 + n)),
  ];
  const results = resultsFor(far);
  const [one] = results.loss_bounds!.differences;

  it("the factor is where the lower limit comes to 0, and is told with its inverse", () => {
    const { from, to, factor } = one!.tipping!;
    expect([from, to]).toEqual(["above", "across"]);
    const lowers = (side: (at: number) => boolean) =>
      one!.points.filter((point) => side(point.factor)).map(({ figure }) => figure.lower!);
    expect(Math.min(...lowers((at) => at > factor!))).toBeGreaterThan(0);
    expect(Math.max(-1, ...lowers((at) => at < factor!))).toBeLessThan(0);
    expect(lossSentences(results)[0]!.replace(/\s/g, " ")).toMatch(
      /^Before 13 weeks, 16 injuries with a ring and 16 with tape were lost to follow-up: whatever became of them, .* The interval would come to include no difference if, from their loss on, those lost with a ring returned at 0\.\d+ times and those lost with tape at \d+(\.\d+)? times the rate of those still followed\.$/,
    );
  });

  it("the report says that the model stays as it was fitted, and warns with the size", () => {
    expect(lossUnderModel(results)).toMatch(/^The model of the returns stays as it was fitted/);
    const warning = results.warnings.find(({ code }) => code === "completeness-low")!;
    const { lowest, as_followed, highest } = one!;
    expect(warning.could_move).toEqual({
      how: "worst-and-best-case",
      points: Math.max(as_followed.value! - lowest.value!, highest.value! - as_followed.value!),
    });
  });
});

/* A law and a step curve of the same days lie apart by less than a standard error of a share (about 0.07 here). */
it("where every return is known to the day both paths agree about what loss could do, within 4 points", () => {
  const { uniform } = seededGenerator(5, 1);
  const lostAt = () => 5 + Math.floor(80 * uniform());
  const exact = (["ring", "tape"] as const).flatMap((group, at) => [
    ...days(40, { median: 65 + 25 * at, spread: 0.5 }).map((day, i) => backOn(`${group}-${i}`, day)),
    ...Array.from({ length: 10 + 4 * at }, (_, n) => lostOn(`${group}-y${n}`, lostAt())),
  ]);
  const [inSpans, onDays] = (["as_spans", "on_one_day"] as const).map((inexact_returns) =>
    resultsFor(exact, { inexact_returns }),
  );
  expect([inSpans!.known_returns.path, onDays!.known_returns.path]).toEqual(["spans", "days"]);
  inSpans!.loss_bounds!.shares.forEach((share, at) => {
    const other = onDays!.loss_bounds!.shares[at]!;
    expect(share.lost).toBe(other.lost);
    for (const figure of ["none_back", "as_followed", "all_back"] as const)
      expect(Math.abs(share[figure].value! - other[figure].value!)).toBeLessThan(0.04);
  });
  const [one, other] = [inSpans!, onDays!].map(({ loss_bounds }) => loss_bounds!.differences[0]!);
  expect(one!.lost).toEqual(other!.lost);
  for (const figure of ["lowest", "highest"] as const)
    expect(Math.abs(one![figure].value! - other![figure].value!)).toBeLessThan(0.06);
});
