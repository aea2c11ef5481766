/** Scale on which a pointwise interval of a share is symmetric. */
export const intervalScales = ["log-log", "plain", "log", "logit", "arcsine"] as const;
export type IntervalScale = (typeof intervalScales)[number];

/** A share with the standard error of its logarithm. */
export interface ShareWithError {
  readonly share: number;
  readonly errorOfLog: number;
}

type Limits = readonly [lower: number, upper: number];
/** Puts the limits into the first two places of an array, which a curve uses again for each of its times. */
type Form = (point: ShareWithError, z: number, limits: Float64Array) => void;

const expit = (x: number): number => 1 / (1 + Math.exp(-x));

/** s is the standard error of log S; each form is the delta method on its scale. */
const forms: Record<IntervalScale, Form> = {
  plain: ({ share, errorOfLog }, z, limits) => {
    limits[0] = Math.max(0, share - z * share * errorOfLog);
    limits[1] = Math.min(1, share + z * share * errorOfLog);
  },
  log: ({ share, errorOfLog }, z, limits) => {
    limits[0] = share * Math.exp(-z * errorOfLog);
    limits[1] = Math.min(1, share * Math.exp(z * errorOfLog));
  },
  "log-log": ({ share, errorOfLog }, z, limits) => {
    const log = Math.log(share);
    const power = Math.exp((-z * errorOfLog) / log);
    limits[0] = Math.exp(log * power);
    limits[1] = Math.exp(log / power);
  },
  logit: ({ share, errorOfLog }, z, limits) => {
    const middle = Math.log(share / (1 - share));
    const half = (z * errorOfLog) / (1 - share);
    limits[0] = expit(middle - half);
    limits[1] = expit(middle + half);
  },
  arcsine: ({ share, errorOfLog }, z, limits) => {
    const middle = Math.asin(Math.sqrt(share));
    const half = z * 0.5 * errorOfLog * Math.sqrt(share / (1 - share));
    limits[0] = Math.sin(Math.max(0, middle - half)) ** 2;
    limits[1] = Math.sin(Math.min(Math.PI / 2, middle + half)) ** 2;
  },
};

interface HowWide {
  readonly scale: IntervalScale;
  readonly z: number;
}

const hasLimits = ({ share, errorOfLog }: ShareWithError): boolean =>
  share > 0 && share < 1 && Number.isFinite(errorOfLog) && errorOfLog !== 0;

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
export function limitsOfShare(point: ShareWithError, { scale, z }: HowWide): Limits | null {
  if (!hasLimits(point)) return null;
  const limits = new Float64Array(2);
  forms[scale](point, z, limits);
  return [limits[0]!, limits[1]!];
}

/** The same at each time of a curve. */
export function limitsOfCurve(
  curve: { readonly shares: ArrayLike<number>; readonly errorsOfLog: ArrayLike<number> },
  { scale, z }: HowWide,
): { readonly lower: (number | null)[]; readonly upper: (number | null)[] } {
  const { shares, errorsOfLog } = curve;
  const form = forms[scale];
  const limits = new Float64Array(2);
  const lower = new Array<number | null>(shares.length);
  const upper = new Array<number | null>(shares.length);
  const point = { share: Number.NaN, errorOfLog: Number.NaN };
  let below: number | null = null;
  let above: number | null = null;
  for (let i = 0; i < shares.length; i++) {
    const share = shares[i]!;
    const errorOfLog = errorsOfLog[i]!;
    // most often nothing has changed where nobody had the event
    if (share !== point.share || errorOfLog !== point.errorOfLog) {
      point.share = share;
      point.errorOfLog = errorOfLog;
      const known = hasLimits(point);
      if (known) form(point, z, limits);
      below = known ? limits[0]! : null;
      above = known ? limits[1]! : null;
    }
    lower[i] = below;
    upper[i] = above;
  }
  return { lower, upper };
}
