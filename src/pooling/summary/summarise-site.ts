import type { ReadCohort } from "../../schema/cohort-tables.js";
import { analysedOf } from "../../study/analysed.js";
import type { Plan } from "../../study/plan.js";
import type { Count } from "../../study/results-parts.js";
import { type Counting, countingOf } from "../../study/small-cells/counting.js";
import { fewestRows } from "../../study/small-cells/index.js";
import { describeSite, withoutSmallCounts } from "../description/index.js";
import { agreedFingerprint, agreedPartOf } from "./agreed.js";
import type { JointFigureSet } from "./figures.js";
import { heldBack } from "./held-back.js";
import { qualityOf } from "./quality.js";
import { readOfSite } from "./read-of-site.js";
import { type ExactComparison, type ExactGroup, exactComparisons, exactGroups } from "./site-groups.js";
import {
  type SiteSummary,
  type SummaryComparison,
  type SummaryFigures,
  type SummaryGroup,
  siteSummarySchema,
  summaryFormat,
} from "./site-summary.js";
import { type RiskSetsAsked, tableOfSite } from "./table-of-site.js";
import { everything, type Release, releaseOf, type WithheldReason } from "./withheld.js";

export interface SummaryOptions {
  /** The site whose summary is made; may be left out where the tables name one site only. */
  readonly site?: string;
  readonly smallCells: SiteSummary["small_cells"];
  /** Asks for a risk-set table as well; left out: none. */
  readonly riskSets?: RiskSetsAsked;
  /** Version of the toolkit. */
  readonly version: string;
  readonly sha256: (text: string) => string;
}

/**
 * The summary of one site: what it is, its figures with their variance matrices, and what became of its rows. No row, date or id is in it.
 *
 * @param read typed tables with their row account
 * @param plan the agreed study file with the site's own data
 * @throws SiteError where the tables hold no injury of the site, or do not say which site they are of
 */
export function summariseSite(
  { read, plan }: { readonly read: ReadCohort; readonly plan: Plan },
  { site: named, smallCells, riskSets, version, sha256 }: SummaryOptions,
): SiteSummary {
  const own = readOfSite(read, { named, plan });
  const { site } = own;
  const analysed = analysedOf(own.read, own.plan);
  const groups = exactGroups(analysed);
  const comparisons = exactComparisons(analysed);
  const agreed = agreedPartOf(plan);
  const leavesOut = smallCells.choice === "leave-out";
  const fewest = fewestRows(own.read.tables, smallCells.smallest);
  const described = describeSite(
    { site, rows: own.rows, linked: analysed.linked, records: analysed.derived.records },
    own.plan,
  );
  const told: Told = {
    counting: leavesOut ? countingOf(fewest) : asCounted,
    release: leavesOut ? releaseOf(groups, smallCells.smallest) : everything,
    smallest: smallCells.smallest,
  };
  const summary: SiteSummary = {
    format: summaryFormat,
    toolkit_version: version,
    site,
    agreed: { sha256: agreedFingerprint(agreed, sha256), file: agreed },
    small_cells: smallCells,
    description: leavesOut
      ? withoutSmallCounts(described, fewest)
      : { ...described, small_cells: { ...smallCells } },
    groups: groups.flatMap((group) => groupTold(group, told)),
    comparisons: comparisons.flatMap((comparison) => comparisonTold(comparison, told)),
    held_back: heldBack({ groups, comparisons }, told.release),
    quality: qualityOf(own, { smallCells, fewest }),
    ...(riskSets && {
      risk_sets: tableOfSite(analysed, { groups, release: told.release, smallCells, riskSets }),
    }),
  };
  // in the order of the schema, so that what is read and written again has the same bytes
  return siteSummarySchema.parse(summary);
}

interface Told {
  readonly counting: Pick<Counting, "told" | "part">;
  readonly release: Release;
  readonly smallest: number;
}

const asCounted: Told["counting"] = { told: (n) => n, part: (n) => n };

function groupTold(group: ExactGroup, { counting, release, smallest }: Told): SummaryGroup[] {
  if (release.group(group) !== null) return [];
  const { family, label, entry, path, n, persons, events, set, otherEnds } = group;
  return [
    {
      family,
      label,
      entry,
      path,
      n: counting.told(n),
      persons: counting.told(persons, smallest),
      events: counting.part(events, n),
      ...figuresTold(set, (place) => release.figure(group, place)),
      other_ends: otherEnds
        .filter((end) => release.otherEnd(group, end) === null)
        .map(({ end, events: times, set: own }) => ({
          end,
          events: counting.part(times, n),
          ...figuresTold(own, () => null),
        })),
    },
  ];
}

function comparisonTold(
  comparison: ExactComparison,
  { counting, release, smallest }: Told,
): SummaryComparison[] {
  if (release.comparison(comparison) !== null) return [];
  const { compared, reference, adjustedFor, strata, path, n, persons, events, set } = comparison;
  const both = (told: (side: "compared" | "reference") => Count) => ({
    compared: told("compared"),
    reference: told("reference"),
  });
  return [
    {
      compared,
      reference,
      adjusted_for: [...adjustedFor],
      strata_used: [...strata],
      path,
      n: both((side) => counting.told(n[side])),
      persons: both((side) => counting.told(persons[side], smallest)),
      events: both((side) => counting.part(events[side], n[side])),
      ...figuresTold(set, (place) => release.difference(comparison, place)),
    },
  ];
}

function figuresTold(
  { figures, variance }: JointFigureSet,
  withheld: (place: number) => WithheldReason | null,
): SummaryFigures {
  const why = figures.map((_, place) => withheld(place));
  return {
    figures: figures.map(({ standardError, ...one }, place) => {
      const kept = why[place] === null || one.value === null;
      const none = { value: null, standard_error: null, estimate: null, variance: null };
      return kept ? { ...one, standard_error: standardError } : { ...one, ...none, reason: why[place]! };
    }),
    variance: variance.map((row, i) =>
      row.map((value, j) => (why[i] === null && why[j] === null ? value : null)),
    ),
  };
}
