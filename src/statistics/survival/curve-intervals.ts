/** Scale on which a pointwise interval of a share is symmetric. */
export type IntervalScale = "log-log" | "plain" | "log" | "logit" | "arcsine";

/** A share with the standard error of its logarithm. */
export interface ShareWithError {
  readonly share: number;
  readonly errorOfLog: number;
}

type Limits = readonly [lower: number, upper: number];
type Form = (point: ShareWithError, z: number) => Limits;

const expit = (x: number): number => 1 / (1 + Math.exp(-x));

/** s is the standard error of log S; each form is the delta method on its scale. */
const forms: Record<IntervalScale, Form> = {
  plain: ({ share, errorOfLog }, z) => [
    Math.max(0, share - z * share * errorOfLog),
    Math.min(1, share + z * share * errorOfLog),
  ],
  log: ({ share, errorOfLog }, z) => [
    share * Math.exp(-z * errorOfLog),
    Math.min(1, share * Math.exp(z * errorOfLog)),
  ],
  "log-log": ({ share, errorOfLog }, z) => {
    const half = (z * errorOfLog) / Math.log(share);
    return [share ** Math.exp(-half), share ** Math.exp(half)];
  },
  logit: ({ share, errorOfLog }, z) => {
    const middle = Math.log(share / (1 - share));
    const half = (z * errorOfLog) / (1 - share);
    return [expit(middle - half), expit(middle + half)];
  },
  arcsine: ({ share, errorOfLog }, z) => {
    const middle = Math.asin(Math.sqrt(share));
    const half = z * 0.5 * errorOfLog * Math.sqrt(share / (1 - share));
    return [Math.sin(Math.max(0, middle - half)) ** 2, Math.sin(Math.min(Math.PI / 2, middle + half)) ** 2];
  },
};

/**
 * Pointwise limits of a share S, from s, the standard error of log S.
 *
 * plain: S -+ z S s, cut to [0, 1]; log: S exp(-+ z s), cut at 1; log-log: S^exp(-+ z s / log S);
 * logit: on log(S / (1 - S)) with s / (1 - S); arcsine: on asin(sqrt S) with s/2 sqrt(S / (1 - S)).
 * None where S is 0 or 1: before the first event and after the last the formulas have no value.
 *
 * @source Kalbfleisch & Prentice 1980, The Statistical Analysis of Failure Time Data (log-log);
 *   Borgan & Liestol 1990, Scand J Stat 17:35 (log, arcsine)
 */
export function limitsOfShare(
  point: ShareWithError,
  options: { readonly scale: IntervalScale; readonly z: number },
): Limits | null {
  const { share, errorOfLog } = point;
  if (!(share > 0 && share < 1) || !Number.isFinite(errorOfLog) || errorOfLog === 0) return null;
  return forms[options.scale](point, options.z);
}
