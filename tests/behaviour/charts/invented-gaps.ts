import type { Results } from "../../../src/study/results.js";

const shares = { grip: 0.31, onset: 0.004, level_after: 0.6, distance_loaded_first: 1, grade: 0, sex: 0.02 };

/** SYNTHETIC gaps, invented for the tests of the drawings; their numbers stand for nothing. */
export function inventedGaps(treatments: readonly string[], sites: readonly string[]): Results["missing"] {
  const n = 250;
  const gaps = (size: number) =>
    Object.values(shares).map((share) => ({
      n: Math.round(share * size),
      share: Math.round(share * size) / size,
    }));
  const groups = (labels: readonly string[]) =>
    labels.map((label, at) => ({ label, n: 20 + at, missing: gaps(20 + at) }));
  return {
    n,
    fields: Object.keys(shares).map((field, place) => {
      const { n: missing, share } = gaps(n)[place]!;
      return {
        field,
        in_the_study: field === "grade" || field === "sex",
        blank: missing,
        unknown: 0,
        missing,
        share,
      };
    }),
    never_filled: ["height_cm", "body_mass_kg"],
    complete: 0,
    groupings: [
      { by: "first_treatment", groups: groups(treatments) },
      { by: "site_id", groups: groups(sites) },
    ].filter((grouping) => grouping.groups.length > 0),
    patterns: [],
    other_patterns: { patterns: 0, n: 0 },
  };
}
