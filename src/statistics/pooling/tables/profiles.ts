import { indexOfCodes } from "../../shared/codes.js";
import type { Covariates } from "../../shared/covariates.js";

/** What lines or rows are told apart by. */
export interface Keys {
  readonly times: ArrayLike<number>;
  readonly groups?: ArrayLike<number>;
  readonly strata?: ArrayLike<number>;
  readonly covariates?: Covariates;
}

/** Lines by what they share: numbered in the order of stratum, group and covariates. */
export interface Profiles {
  readonly count: number;
  /** Profile of each line. */
  readonly of: Int32Array;
  /** A line of each profile. */
  readonly example: Int32Array;
}

/** Different values, ascending, and the place of each among them. */
function placesAmong(values: ArrayLike<number>): { readonly count: number; readonly index: Int32Array } {
  const sorted = [...new Set(Array.from(values))].sort((a, b) => a - b);
  const place = new Map(sorted.map((value, i) => [value, i]));
  return { count: sorted.length, index: Int32Array.from(values, (value) => place.get(value)!) };
}

/** Numbers of pairs (profile so far, value), ascending and without gaps. */
function refined(so: { readonly count: number; readonly of: Int32Array }, values: ArrayLike<number>) {
  const { count, index } = placesAmong(values);
  if (count <= 1) return so;
  const pairs = new Float64Array(index.length);
  for (let i = 0; i < pairs.length; i++) pairs[i] = so.of[i]! * count + index[i]!;
  const { codes, index: of } = indexOfCodes(pairs);
  return { count: codes.length, of };
}

/** Lines that share stratum, group and all covariates have one profile. */
export function profilesOf({ times, groups, strata, covariates }: Keys): Profiles {
  let found: Pick<Profiles, "count" | "of"> = {
    count: times.length > 0 ? 1 : 0,
    of: new Int32Array(times.length),
  };
  for (const values of [strata, groups, ...(covariates?.columns ?? [])])
    if (values !== undefined) found = refined(found, values);
  const example = new Int32Array(found.count).fill(-1);
  for (let line = 0; line < found.of.length; line++)
    if (example[found.of[line]!] === -1) example[found.of[line]!] = line;
  return { ...found, example };
}
