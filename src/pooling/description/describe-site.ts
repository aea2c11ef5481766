import type { LinkedInjury, OutcomeRecord } from "../../cohort/record.js";
import type { SiteRow } from "../../schema/sites.js";
import { countsBy } from "../../study/account.js";
import { personsAmong } from "../../study/columns.js";
import { followUpOf } from "../../study/follow-up.js";
import { everybody } from "../../study/groups.js";
import { isLost } from "../../study/missing/lost.js";
import type { Plan } from "../../study/plan.js";
import { usualSmallestCell } from "../../study/small-cells/index.js";
import { specificationOf } from "../../study/specification.js";
import type { Analysed } from "./analysed.js";
import { describedFields } from "./described-fields.js";
import { imagingOf } from "./imaging.js";
import { returnsOf } from "./returns.js";
import { scheduleOf } from "./schedule.js";
import type { ExactDescription } from "./site-description.js";
import { statedOf } from "./stated.js";

/** The cohort of one site. */
export interface SiteCohort {
  /** The name by which the site is known among those that are pooled. */
  readonly site: string;
  /** Its rows of the sites table: what it states of itself. */
  readonly rows: readonly SiteRow[];
  /** Every injury that was used, with what is linked to it. */
  readonly linked: readonly LinkedInjury[];
  /** Those that answer the question. */
  readonly records: readonly OutcomeRecord[];
}

/**
 * What a site is, before anything that it found: what it states of itself, the fields that the question uses, how its people
 * were seen, how exactly its returns are known, and whom it lost. Nothing is guessed: what a site does not state is empty.
 *
 * @param cohort the site's injuries; of a site without any, every distribution is empty
 * @param plan the question, which decides what fields are described and up to which day loss counts
 * @returns every count at full precision; `withoutSmallCounts` makes of it what may leave the site
 */
export function describeSite(cohort: SiteCohort, plan: Plan): ExactDescription {
  const asked = specificationOf(plan);
  const specification = { ...asked, path: "days" as const };
  const { records } = cohort;
  const linkedOf = new Map(cohort.linked.map((linked) => [linked.injury.values.injury_id, linked]));
  const analysed = records.map((record): Analysed => ({ record, linked: linkedOf.get(record.injury)! }));
  const { completeness, median_days } = followUpOf(everybody(records, specification).groups[0]!, asked);
  const lost = records.filter((record) => isLost(record, asked)).length;
  return {
    site: cohort.site,
    injuries: cohort.linked.length,
    analysed: records.length,
    persons: personsAmong(records),
    stated: statedOf(cohort.rows),
    fields: describedFields(analysed, plan),
    imaging: imagingOf(analysed, asked.question),
    schedule: scheduleOf(analysed, asked.question),
    returns: returnsOf(records, asked),
    ends: countsBy(records, ({ end }) => end),
    loss: {
      horizon_days: asked.horizonDay,
      closing_day_known: asked.question.closedOn !== null,
      lost,
      share: records.length === 0 ? null : lost / records.length,
      completeness,
    },
    follow_up_days: median_days,
    small_cells: { choice: "written", smallest: usualSmallestCell },
  };
}
