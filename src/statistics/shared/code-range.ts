/** A table from one code to another pays while it is not much longer than the rows are many. */
const tableFactor = 4;

/** The lowest of whole-number codes, and how many places a table needs that holds all; null where they lie too far apart for one. */
export function codeRange(codes: Float64Array): { readonly low: number; readonly range: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row]!;
    if (code < low) low = code;
    if (code > high) high = code;
  }
  if (codes.length === 0) return { low: 0, range: 0 };
  return high - low <= tableFactor * codes.length + 1024 ? { low, range: high - low + 1 } : null;
}
