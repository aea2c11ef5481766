import type { ExactCurve } from "../../../src/study/exact-results.js";
import type { EffectResult } from "../../../src/study/index.js";
import type { Finding } from "../tally.js";
import type { Drawn } from "./draw-study.js";

type Printed = {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
};

/** A printed estimate beside the truth it should hold. */
export const printed = (name: string, found: Printed, truth: number): Finding => ({
  kind: "interval",
  name,
  truth,
  value: found.value,
  lower: found.lower,
  upper: found.upper,
});

const none: Printed = { value: null, lower: null, upper: null };

export function curveOf(drawn: Drawn, family: ExactCurve["family"], label?: string): ExactCurve {
  const curves = drawn.curves().find((one) => one.family === family)!.curves;
  return label === undefined ? curves[0]! : curves.find((curve) => curve.label === label)!;
}

/** The effect of a measure, crude or adjusted, at a day where it has several. */
export function effectOf(
  drawn: Drawn,
  asked: { readonly measure: EffectResult["measure"]; readonly adjusted: boolean; readonly day?: number },
): EffectResult | undefined {
  return drawn
    .effects()
    .find(
      ({ measure, adjusted_for, at_day }) =>
        measure === asked.measure &&
        adjusted_for.length > 0 === asked.adjusted &&
        (asked.day === undefined || at_day === asked.day),
    );
}

export const effectFinding = (name: string, effect: EffectResult | undefined, truth: number): Finding =>
  printed(name, effect?.estimate ?? none, truth);

export const testFinding = (name: string, p: number | null | undefined): Finding => ({
  kind: "test",
  name,
  p: p ?? null,
});
