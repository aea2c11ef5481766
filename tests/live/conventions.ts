import type { Figures } from "./ours.js";

/**
 * Where the two programs differ on purpose. Each was looked into; what is not explained by one of these is a failure.
 *
 * - no-width: without a variance (before the first event, with the curve at 0, with all rows in one cluster) we give no limits
 *   and no error, nor limits of a quantile that the curve comes to there; the reference repeats the estimate as both limits, with error 0
 * - nothing-to-test: without anything to compare (no event, nobody else at risk) we give no statistic and no error, the reference 0 or 1e7
 * - no-maximum: where the likelihood rises for ever we give no coefficient, no error and no Wald test, the reference
 *   those of the step at which it stopped, and the other coefficients as they were then; of two log-likelihoods the
 *   higher is nearer to the limit, so ours may be higher but not lower
 * - above-certainty: of unweighted rows the likelihood is a product of shares of risk sets, so that its logarithm is never above 0; the
 *   reference's is, by rounding, where its coefficients are large and rows leave its running sums
 * - short-of-maximum: the reference itself warns that it ran out of iterations, its log-likelihood is the lower one, our first derivative is 0,
 *   and asked again without the collinear covariates the reference comes to our log-likelihood; it happens with late entry, where its
 *   steps are halved until they stop
 * - cancelled-sums: clustered errors of a regression far smaller than the largest of them, since sums over clusters cancel: the reference keeps
 *   fewer digits; on a set looked into, exact fractions agree with ours (tests/reference/statistics/regression/cancelled-sums.test.ts)
 */
export type Convention =
  | "no-width"
  | "nothing-to-test"
  | "no-maximum"
  | "above-certainty"
  | "short-of-maximum"
  | "cancelled-sums";

export const conventionsInWords: Readonly<Record<Convention, string>> = {
  "no-width": "no variance: we give no limits, the reference gives the estimate as both limits",
  "nothing-to-test": "nothing to compare: we give no statistic and no error, the reference 0 or 1e7",
  "no-maximum":
    "the likelihood rises for ever: we give no coefficient and no Wald test, the reference its last step; our log-likelihood is never the lower one",
  "above-certainty": "the reference's log-likelihood of unweighted rows is above 0, which no likelihood is",
  "short-of-maximum":
    "the reference warns that it ran out of iterations; without the collinear covariates it comes to our log-likelihood",
  "cancelled-sums":
    "a clustered error less than a hundredth of the largest, its sums cancel: the two agree to 1e-7, exact fractions with ours",
};

interface Pair {
  readonly figure: string;
  readonly ours: number | null;
  readonly theirs: number | null;
  readonly all: { readonly ours: Figures; readonly theirs: Figures };
}

const nearlyNone = 1e-12;
/** A standard error this large means that there is no information at all. */
const withoutInformation = 1e6;

/** Whether the reference's interval is its estimate, once or twice. */
function withoutWidth({ figure, theirs, all }: Pair): boolean {
  if (figure.startsWith("standardError")) return theirs! < nearlyNone;
  if (figure.startsWith("quantile")) return all.ours.get(`withoutVariance:${figure}`) === 1;
  const other = figure.startsWith("lower")
    ? figure.replace("lower", "upper")
    : figure.replace("upper", "lower");
  const opposite = all.theirs.get(other);
  return other !== figure && opposite != null && Math.abs(theirs! - opposite) < nearlyNone;
}

/**
 * Whether the reference says itself that it ran out of iterations, below our log-likelihood, where our first derivative has vanished and it comes
 * to our log-likelihood when it is asked again.
 */
function stoppedShort({ ours, theirs }: Pair["all"]): boolean {
  const our = ours.get("logLikelihood");
  const their = theirs.get("logLikelihood");
  const again = theirs.get("logLikelihoodAgain");
  if (our == null || their == null || again == null) return false;
  const atMaximum = ours.get("converged") === 1 && (ours.get("gradient") ?? 1) < 1e-8;
  const ranOut = theirs.get("ranOut") === 1 && our - their > 1e-7 * Math.abs(our);
  return atMaximum && ranOut && Math.abs(our - again) < 1e-9 * Math.abs(our);
}

/** Whether a clustered error of a regression is what little is left of sums that cancel, and agrees as far as that allows. */
function isLeftOver({ figure, ours, theirs, all }: Pair): boolean {
  if (!figure.startsWith("standardErrorClustered") || ours === null || theirs === null) return false;
  const errors = [...all.ours].flatMap(([name, value]) =>
    name.startsWith("standardErrorClustered") && value !== null ? [value] : [],
  );
  return ours < Math.max(...errors) / 100 && Math.abs(ours - theirs) < 1e-7 * ours;
}

/** The convention that explains a difference, or null. */
export function conventionOf(pair: Pair): Convention | null {
  const { figure, ours, theirs, all } = pair;
  const rises = all.ours.get("rises") === 1;
  if (rises && figure === "logLikelihood" && ours !== null && theirs !== null && ours > theirs - 1e-6)
    return "no-maximum";
  if (figure === "logLikelihood" && theirs !== null && theirs > 0 && all.ours.get("weighted") === 0)
    return "above-certainty";
  const ofTheEnd = /^(coefficient|standardError|robustStandardError|wald|robustWald)/.test(figure);
  if (rises && ofTheEnd) return "no-maximum";
  if ((ofTheEnd || figure === "logLikelihood") && stoppedShort(all)) return "short-of-maximum";
  if (isLeftOver(pair)) return "cancelled-sums";
  if (ours !== null || theirs === null) return null;
  if (
    /^(chiSquare|score|wald|robustWald|coefficient|robustStandardError)/.test(figure) &&
    theirs < nearlyNone
  )
    return "nothing-to-test";
  if (figure.startsWith("standardError") && theirs > withoutInformation) return "nothing-to-test";
  return withoutWidth(pair) ? "no-width" : null;
}
