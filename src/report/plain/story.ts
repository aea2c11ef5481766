import type { CurveFamily, CurveResult, EffectResult, Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { isKeptApart, wordsOfDefinition } from "../../words/definitions.js";
import { type GroupWords, groupWords } from "../../words/group-phrases.js";

/**
 * The curves that the plain words speak of: the compared groups; everybody, where fewer than two can be compared; each
 * definition of the return, where sites mean different things by it.
 */
export interface Told {
  readonly curve: CurveResult;
  readonly words: GroupWords;
  /** From when on its injuries are at risk. */
  readonly entry: CurveFamily["entry"];
}

const everybody: GroupWords = { of: "counted here", among: "among all" };

export function curvesTold(results: Results): readonly Told[] {
  const { curves, plan } = results;
  const told = (family: CurveFamily["family"], wordsOf: (curve: CurveResult) => GroupWords) => {
    const found = curves.find((one) => one.family === family);
    return (found?.curves ?? []).map((curve) => ({ curve, entry: found!.entry, words: wordsOf(curve) }));
  };
  if (isKeptApart(results)) return told("definition", ({ label }) => wordsOfDefinition(label, results));
  const compared = told("compared", ({ label }) => groupWords({ by: plan.compare.by, label }));
  return compared.filter(({ curve: { n } }) => isSome(n)).length > 1
    ? compared
    : told("all", () => everybody);
}

/** The curves of each comparison with something held equal between its groups, and what that is. */
export const adjustedCurvesTold = ({ curves, plan }: Results) =>
  curves
    .filter(({ family }) => family === "standardised")
    .map((family) => ({
      heldEqual: family.held_equal,
      told: family.curves.map(
        (curve): Told => ({
          curve,
          entry: family.entry,
          words: groupWords({ by: plan.compare.by, label: curve.label }),
        }),
      ),
    }));

/** A main effect of one measure for each comparison: the adjusted one, and the crude one beside it. */
export interface EffectPair {
  readonly compared: GroupWords;
  readonly reference: GroupWords;
  readonly adjusted: EffectResult | null;
  readonly crude: EffectResult | null;
}

export function mainEffects(
  { effects, plan }: Results,
  measure: EffectResult["measure"],
): readonly EffectPair[] {
  const main = effects.filter((effect) => effect.main && effect.measure === measure);
  const pairs = [
    ...new Map(main.map((effect) => [`${effect.compared}\n${effect.reference}`, effect])).values(),
  ];
  return pairs.map(({ compared, reference }) => {
    const same = main.filter((effect) => effect.compared === compared && effect.reference === reference);
    return {
      compared: groupWords({ by: plan.compare.by, label: compared }),
      reference: groupWords({ by: plan.compare.by, label: reference }),
      adjusted: same.find(({ adjusted_for }) => adjusted_for.length > 0) ?? null,
      crude: same.find(({ adjusted_for }) => adjusted_for.length === 0) ?? null,
    };
  });
}
