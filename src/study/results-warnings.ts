import { z } from "zod";

/** What the report warns of, as a code and the facts its sentence needs. */
export const warning = z.strictObject({
  code: z.enum([
    "horizon-beyond-follow-up",
    "few-events",
    "proportionality-doubtful",
    "curve-falls-early",
    "competing-ends-present",
    "overlap-lacking",
    "completeness-low",
    "lost-unequally",
    "heaped-dates",
    "inexact-dates",
    "estimated-from-spans",
    "unlike-schedules",
    "several-injuries-a-person",
    "person-ids-at-several-sites",
    "covariates-missing",
    "distances-missing",
    "delayed-entry-by-treatment",
    "definitions-differ",
    "treatment-starts-assumed",
    "first-visits-late",
    "not-randomised",
    "small-counts",
    "rows-set-aside",
    "numeric-adjustment-in-ratio-only",
    "imbalance-not-held",
    "queries-open",
  ]),
  facts: z.record(z.string(), z.union([z.string(), z.number()])),
  could_move: z
    .strictObject({
      points: z
        .number()
        .describe(
          "Size of the change in the share back, or in the difference, at the main landmark; for ids-shared, in an end of its interval",
        ),
      how: z.enum([
        "worst-and-best-case",
        "other-share-back",
        "earliest-and-latest-dates",
        "without-these-injuries",
        "without-those-queried",
        "crude-and-adjusted",
        "adjusted-for-it",
        "ids-shared",
        "set-aside-alike",
        "set-aside-opposed",
      ]),
    })
    .nullable()
    .describe(
      "How far it could move the main figure; null where that cannot be computed or small cells are left out",
    ),
});
export type Warning = z.infer<typeof warning>;
