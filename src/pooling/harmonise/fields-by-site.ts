import type { Harmonised } from "../../study/results-harmonised.js";
import type { Count } from "../../study/results-parts.js";
import type { DescribedField, SiteDescription } from "../description/index.js";

type Field = Harmonised["fields"][number];

/** A word that holds what others tell apart: a site that uses it cannot be set beside them in these. */
const coarser: Readonly<Record<string, { readonly word: string; readonly of: readonly string[] }>> = {
  grade: { word: "4_undivided", of: ["4a", "4b"] },
};

/** Every field that a description holds, over the sites, in the order in which it first comes. */
export function fieldsBySite(descriptions: readonly SiteDescription[]): Field[] {
  const names = [...new Set(descriptions.flatMap(({ fields }) => fields.map(({ field }) => field)))];
  return names.map((name) => fieldOf(name, descriptions));
}

function fieldOf(name: string, descriptions: readonly SiteDescription[]): Field {
  const own = descriptions.map(({ site, analysed, fields }) => ({
    site,
    analysed,
    described: fields.find(({ field }) => field === name),
  }));
  const {
    counts: _c,
    numbers: _n,
    n: _,
    known: _k,
    ...about
  } = own.find(({ described }) => described)!.described!;
  const missing = own.filter(({ described }) => isNeverRecorded(described)).map(({ site }) => site);
  const undivided = own.filter(({ described }) => isCoarser(described)).map(({ site }) => site);
  const divided = own.some(({ described }) => isDivided(described));
  return {
    ...about,
    verdict:
      missing.length === own.length
        ? "nowhere"
        : missing.length > 0
          ? "not_everywhere"
          : undivided.length > 0 && divided
            ? "coarser_somewhere"
            : "everywhere",
    without: [...new Set([...missing, ...(divided ? undivided : [])])],
    sites: own.map(({ site, analysed, described }) => ({
      site,
      n: described?.n ?? analysed,
      known: described?.known ?? 0,
      share: shareOf(described?.known ?? 0, described?.n ?? analysed),
      counts: described?.counts ?? null,
      numbers: described?.numbers ?? null,
    })),
  };
}

const shareOf = (known: Count, n: Count): number | null =>
  typeof known === "number" && typeof n === "number" && n > 0 ? known / n : null;

/** A blank that says something is no gap: a return that was not reached has no date. */
const isNeverRecorded = (described: DescribedField | undefined): boolean =>
  described === undefined || (described.blank_says === null && described.n !== 0 && described.known === 0);

const holds = (described: DescribedField | undefined, word: string): boolean =>
  (described?.counts ?? []).some(({ code, n }) => code === word && n !== 0);

const isCoarser = (described: DescribedField | undefined): boolean =>
  described !== undefined && holds(described, coarser[described.field]?.word ?? "");

const isDivided = (described: DescribedField | undefined): boolean =>
  described !== undefined && (coarser[described.field]?.of ?? []).some((word) => holds(described, word));
