import type { ExactEffect } from "./exact-results.js";
import { type EffectMethod, type MeasureKey, measures } from "./measures/index.js";
import type { Adjusted, Estimated, Measure } from "./measures/measure.js";
import { countsOf, type Pair } from "./pairs.js";
import type { Specification } from "./specification.js";

/** Every effect of each group against the reference: measures of one basis together, crude beside adjusted. */
export function effectsOf(pairs: readonly Pair[], specification: Specification): ExactEffect[] {
  const bases = [...new Set(measures.map(({ basis }) => basis))];
  return pairs.flatMap((pair) =>
    bases.flatMap((basis) => {
      const found = measures
        .filter((measure) => measure.basis === basis)
        .map((measure) => ({ measure, ...measure.estimate(pair, specification) }));
      return (["crude", "adjusted"] as const).flatMap((kind) =>
        found.flatMap(({ measure, ...estimates }) =>
          estimates[kind].map((own) => effectOf({ pair, measure, own }, specification)),
        ),
      );
    }),
  );
}

interface Found {
  readonly pair: Pair;
  readonly measure: Measure<MeasureKey, EffectMethod>;
  readonly own: Estimated<EffectMethod> | Adjusted<EffectMethod>;
}

/** One effect, with an id that is the same in every run of the same study. */
function effectOf({ pair, measure, own }: Found, { level }: Pick<Specification, "level">): ExactEffect {
  const { at_day = null, strata_used = [], left_out = [], sides, ...figure } = own;
  const adjusted_for = "adjusted_for" in own ? own.adjusted_for : [];
  const both = sides ?? { compared: pair.compared.records, reference: pair.reference.records };
  const compared = pair.compared.label;
  const reference = pair.reference.label;
  const place = at_day === null ? "" : `:day-${at_day}`;
  const adjusted = adjusted_for.length > 0 ? "adjusted" : "crude";
  return {
    id: `${measure.key}:${compared}-${reference}${place}:${adjusted}`,
    measure: measure.key,
    unit: measure.unit,
    compared,
    reference,
    level,
    clustered: pair.clustered,
    ...countsOf(both, { day: at_day, inSpans: pair.spans !== null }),
    ...figure,
    at_day,
    adjusted_for: [...adjusted_for],
    strata_used: [...strata_used],
    left_out: [...left_out],
  };
}
