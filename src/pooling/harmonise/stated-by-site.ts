import { isKeyedDefinition, plainDefinition } from "../../schema/definitions.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteDescription } from "../description/index.js";

type Stated = Harmonised["stated"][number];

/** What each site states of itself, column by column. */
export function statedBySite(descriptions: readonly SiteDescription[], deciding: string): Stated[] {
  const columns = descriptions[0]?.stated ?? [];
  return columns.map(({ field, definition, unit }) => {
    const sites = descriptions.map(({ site, stated }) => ({
      site,
      values: stated.find((one) => one.field === field)?.values ?? [],
    }));
    return {
      field,
      definition,
      unit,
      decides: field === deciding,
      verdict: verdictOf(sites),
      ask: sites.filter(({ values }) => values.length !== 1).map(({ site }) => site),
      sites,
    };
  });
}

function verdictOf(sites: Stated["sites"]): Stated["verdict"] {
  const stating = sites.filter(({ values }) => values.length > 0);
  if (stating.length === 0) return "not_stated";
  const texts = new Set(stating.flatMap(({ values }) => values.map(plainDefinition)));
  if (texts.size > 1) return [...texts].some(isKeyedDefinition) ? "not_in_words" : "differs";
  return stating.length < sites.length ? "some_not_stated" : "same";
}
