import { definitionColumns } from "../../schema/definitions.js";
import type { Plan } from "../../study/plan.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteDescription } from "../description/index.js";
import { fieldsBySite } from "./fields-by-site.js";
import { lossesOf } from "./losses.js";
import { schedulesOf } from "./schedules.js";
import { statedBySite } from "./stated-by-site.js";

/**
 * The descriptions of several sites beside one another, field by field: what agrees, what differs, what has to be asked, and
 * what cannot be pooled because a site does not record it. Nothing is averaged over meanings that differ.
 *
 * @param descriptions one a site, exact or without small counts; in this order they are told
 * @param plan the question, which says what definition decides
 * @throws Error where two descriptions bear one name
 */
export function harmonise(
  descriptions: readonly SiteDescription[],
  plan: Pick<Plan, "question">,
): Harmonised {
  const names = descriptions.map(({ site }) => site);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined)
    throw new Error(`Two descriptions are of the site "${twice}": name each site once.`);
  return {
    sites: descriptions.map(({ site, injuries, analysed, persons }) => ({
      site,
      injuries,
      analysed,
      persons,
    })),
    schedules: schedulesOf(descriptions),
    losses: lossesOf(descriptions),
    stated: statedBySite(descriptions, definitionColumns[plan.question.milestone]),
    fields: fieldsBySite(descriptions),
  };
}
