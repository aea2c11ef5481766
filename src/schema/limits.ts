/** Letters of the longest name of a person, injury, event, site or rater. */
export const longestName = 120;

/** Between which the median of a column of tendon-phalanx distances lies, mm: the domain's plausible range. */
export const usualDistance = [0.8, 8] as const;
