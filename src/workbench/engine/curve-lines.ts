import type { CurveView } from "./tasks.js";

/** Where fewer than this are at risk a curve is drawn thinner. */
export const fewAtRisk = 5;

type At = CurveView["steps"][number];

/** What a curve says of a day. */
export interface Said {
  readonly back: number;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Followed on that day: the fewest and the most, where people joined since the last step. */
  readonly followed: readonly [number, number];
}

/** What a curve says of a day; null where nobody was followed until then. */
export function saidOn({ steps, knownUntil }: CurveView, day: number): Said | null {
  const place = steps.findLastIndex((step) => step.day <= day);
  const at = steps[place];
  if (at === undefined || (knownUntil !== null && day > knownUntil)) return null;
  const next = steps[place + 1];
  const followed: Said["followed"] =
    at.day === day ? [at.atRisk, at.atRisk] : [at.goingOn, Math.max(at.goingOn, next?.atRisk ?? 0)];
  return { ...at, followed };
}

export const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** A share with its limits, and of how many it speaks. */
export function shareWords({ back, lower, upper, followed: [fewest, most] }: Said): {
  readonly share: string;
  readonly followed: string;
} {
  const limits = lower === null || upper === null ? "" : ` (${percent(lower)} to ${percent(upper)})`;
  return {
    share: `${percent(back)}${limits}`,
    followed: fewest === most ? String(fewest) : `${fewest} to ${most}`,
  };
}

/** What each curve says of a day, in sentences. */
export function sentences(curves: readonly CurveView[], day: number): readonly string[] {
  const week = day % 7 === 0 ? `week ${day / 7}` : `week ${(day / 7).toFixed(1)}`;
  return [
    `By ${week} (day ${day}):`,
    ...curves.map((curve) => {
      const said = saidOn(curve, day);
      if (said === null)
        return curve.knownUntil === null
          ? `${curve.label}: not known.`
          : `${curve.label}: not known, since nobody was followed beyond day ${curve.knownUntil}.`;
      const { share, followed } = shareWords(said);
      return `${curve.label}: ${share} back, ${followed} of ${curve.n} followed and not yet back.`;
    }),
  ];
}

/** Stretches of a curve with many and with few at risk, in turn: first and last step of each. */
export function pieces(
  steps: readonly At[],
): readonly { readonly from: number; readonly to: number; readonly isFew: boolean }[] {
  const found: { from: number; to: number; isFew: boolean }[] = [];
  for (const [i, { atRisk }] of steps.entries()) {
    const isFew = atRisk < fewAtRisk;
    const last = found.at(-1);
    if (last?.isFew === isFew) last.to = i;
    else found.push({ from: i, to: i, isFew });
  }
  return found;
}

/** The steps of a curve up to a day, and on to that day where it is known so far. */
export function stepsUntil({ steps, knownUntil }: CurveView, until: number): readonly At[] {
  const before = steps.filter(({ day }) => day <= until);
  const last = before.at(-1);
  if (last === undefined || last.day === until || (knownUntil !== null && knownUntil < until)) return before;
  const next = steps[before.length];
  return [...before, { ...last, day: until, atRisk: next?.atRisk ?? last.goingOn }];
}

/** Where days and shares lie in the figure. */
export interface Scales {
  readonly xOf: (day: number) => number;
  readonly yOf: (share: number) => number;
}

/** A stretch as a line: from where the one before it ended. */
export function lineOf(
  steps: readonly At[],
  { from, to, xOf, yOf }: Scales & { readonly from: number; readonly to: number },
): string {
  return steps
    .slice(Math.max(0, from - 1), to + 1)
    .map(({ day, back }, i) => (i === 0 ? `M${xOf(day)},${yOf(back)}` : `H${xOf(day)}V${yOf(back)}`))
    .join("");
}

/** The intervals of a curve as an area. */
export function bandOf(steps: readonly At[], { xOf, yOf }: Scales): string {
  const known = steps.filter((step) => step.lower !== null && step.upper !== null);
  if (known.length < 2) return "";
  const side = (of: (step: At) => number): readonly string[] =>
    known.flatMap((step, i) => {
      const corner = `${xOf(step.day)},${yOf(of(step))}`;
      return i === 0 ? [corner] : [`${xOf(step.day)},${yOf(of(known[i - 1]!))}`, corner];
    });
  const there = side((step) => step.upper!);
  const back = [...side((step) => step.lower!)].reverse();
  return `M${[...there, ...back].join("L")}Z`;
}
