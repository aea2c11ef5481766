/** The point of a curve at day 0, at which nobody is back and which has no interval. */
export const startOfCurve = <Counted>(counts: {
  readonly at_risk: Counted;
  readonly events: Counted;
  readonly censored: Counted;
  readonly competing: Counted;
}) => ({
  day: 0,
  ...counts,
  not_yet: 1,
  returned: 0,
  standard_error: 0,
  returned_lower: null,
  returned_upper: null,
});
