import type { VisitDifference } from "../../statistics/survival/between-visits/index.js";
import { missing } from "../estimates.js";
import type { Adjusted, Estimated } from "../measures/measure.js";
import type { Estimate } from "../results-parts.js";
import { estimateOfVisits, type ModelledDifference } from "./model.js";
import type { AdjustedSpans, SpansOfPair } from "./pair.js";

/** Reads one figure off a difference. */
type Read = (difference: ModelledDifference) => VisitDifference;

interface Found {
  readonly estimate: Estimate;
  readonly standard_error: number | null;
  readonly p: number | null;
}

function figureOf(difference: SpansOfPair["crude"], read: Read): Found {
  if (typeof difference === "string") return { estimate: missing(difference), standard_error: null, p: null };
  const figure = read(difference);
  return { estimate: estimateOfVisits(figure), standard_error: figure.standardError, p: figure.p };
}

/** A difference of the groups as they are, under the model of spans. */
export const crudeFromSpans = (
  { crude }: SpansOfPair,
  read: Read,
): Omit<Estimated<"accelerated_model">, "main"> => ({
  method: "accelerated_model",
  ...figureOf(crude, read),
});

/** A difference with what the study holds equal set alike, under the model of spans. */
export const adjustedFromSpans = (
  { model, fields, strata, leftOut, records }: AdjustedSpans,
  read: Read,
): Omit<Adjusted<"accelerated_model_standardised">, "main"> => ({
  method: "accelerated_model_standardised",
  adjusted_for: fields,
  strata_used: strata,
  left_out: leftOut,
  sides: records,
  ...(records.compared.length + records.reference.length === 0
    ? figureOf("no-overlap", read)
    : figureOf(model.difference(0, 1), read)),
});
