import { estimandOfEffect, estimandOfFamily } from "../../study/index.js";
import type { EffectResult, Results } from "../../study/results.js";
import { curvesTold } from "./story.js";

/** Ids of the estimands that the sentences of a paragraph speak of. */
export type FiguresOf = readonly string[];

/** Of the shares and times of the groups as they are. */
export const ofShares = (results: Results): FiguresOf => {
  const family = curvesTold(results)[0]?.curve.family;
  return family === undefined ? [] : [`curves:${family}`];
};

/** Of the curves like for like. */
export const ofAdjustedCurves = ({ curves }: Results): FiguresOf =>
  curves.filter(({ family }) => family === "standardised").map(estimandOfFamily);

const told: ReadonlySet<EffectResult["measure"]> = new Set([
  "landmark_difference",
  "restricted_mean_difference",
] as const);

/** Of the differences that are told: adjusted where something is adjusted for, then crude. */
export const ofDifferences = ({ effects }: { readonly effects: readonly EffectResult[] }): FiguresOf =>
  effects
    .filter(({ measure, main }) => main && told.has(measure))
    .toSorted((one, other) => other.adjusted_for.length - one.adjusted_for.length)
    .map(estimandOfEffect);

/** Of the main difference of each pair: adjusted where it could be. */
export function ofMainDifferences({ effects }: Results): FiguresOf {
  const main = effects.filter((effect) => effect.measure === "landmark_difference" && effect.main);
  const isAdjusted = (effect: EffectResult) =>
    effect.adjusted_for.length > 0 && effect.estimate.value !== null;
  const isTold = (effect: EffectResult) =>
    isAdjusted(effect) || !main.some((other) => other.compared === effect.compared && isAdjusted(other));
  return main.filter(isTold).map(estimandOfEffect);
}

/** Of the differences within each definition of the return. */
export const ofDifferencesWithin = ({ definitions }: Results): FiguresOf =>
  ofDifferences({ effects: definitions?.rows.flatMap(({ effects }) => effects) ?? [] });

/** Of what came after the return. */
export const ofAfter: FiguresOf = ["after:all", "after:definition", "after:compared"];
