import type { OutcomeRecord } from "../cohort/record.js";
import type { CohortTables } from "../schema/cohort-tables.js";
import { definitionColumns, plainDefinition } from "../schema/definitions.js";
import { effectsOf } from "./effects.js";
import type { ExactEffect, ExactResults } from "./exact-results.js";
import { type Grouping, groupingOf, type Settled } from "./groups.js";
import { measureOf } from "./measures/index.js";
import { pairsOf } from "./pairs.js";
import { cellOf } from "./within.js";

/** Injuries of the sites that mean the same by the milestone. */
interface Defined {
  readonly definition: string | null;
  readonly sites: readonly string[];
  readonly records: readonly OutcomeRecord[];
}

/** The sites that mean the same, as curves and beside one another. */
export interface ByDefinition {
  readonly grouping: Grouping;
  readonly told: NonNullable<ExactResults["definitions"]>;
}

/**
 * The analysed injuries by what their sites mean by the milestone, the compared groups within each meaning.
 *
 * @param given records: every analysed injury; compared: the groups that are compared; sites: the table of the sites
 * @returns null where the sites mean the same, or fewer than two have analysed injuries: then nothing is to be kept apart
 */
export function byDefinition(
  {
    records,
    compared,
    sites,
  }: {
    readonly records: readonly OutcomeRecord[];
    readonly compared: Grouping;
    readonly sites: CohortTables["sites"];
  },
  specification: Settled,
): ByDefinition | null {
  const found = definedIn(records, { sites, specification });
  if (found.length < 2) return null;
  const { question, definitionsMayDiffer } = specification;
  const named = found.map((each, i) => ({ ...each, label: labelOf(each, i) }));
  return {
    grouping: groupingOf(
      { family: "definition", entry: question.entry, members: named, leftOut: [] },
      specification,
    ),
    told: {
      pooled: definitionsMayDiffer,
      rows: named.map(({ label, definition, sites: own, records: theirs }) => ({
        label,
        definition,
        sites: [...own],
        n: theirs.length,
        ...groupsAmong(theirs, { compared, specification }),
      })),
    },
  };
}

/** The compared groups among some injuries alone. */
function groupsAmong(
  records: readonly OutcomeRecord[],
  { compared, specification }: { readonly compared: Grouping; readonly specification: Settled },
): Pick<NonNullable<ExactResults["definitions"]>["rows"][number], "cells" | "effects"> {
  const { comparison, landmarks, level } = specification;
  const { day } = landmarks.find(({ isMain }) => isMain)!;
  const injuries = new Set(records.map(({ injury }) => injury));
  const members = compared.groups.map(({ label, records: all }) => ({
    label,
    records: all.filter(({ injury }) => injuries.has(injury)),
  }));
  const grouping = groupingOf({ ...compared, members }, specification);
  return {
    cells: grouping.groups.map((group) => cellOf(group, { day, smallest: comparison.smallestGroup, level })),
    effects: returnEffects(effectsOf(pairsOf(grouping, specification), specification)),
  };
}

/** Effects on the return: what is measured in mm means the same at every site. */
const returnEffects = (effects: readonly ExactEffect[]): ExactEffect[] =>
  effects.filter(({ measure }) => measureOf(measure).outcome === "return");

/** The injuries by meaning, those of most injuries first, those of sites that state none last; one where fewer than two sites have any. */
function definedIn(
  records: readonly OutcomeRecord[],
  {
    sites,
    specification,
  }: { readonly sites: CohortTables["sites"]; readonly specification: Pick<Settled, "question"> },
): readonly Defined[] {
  const ofSite = new Map<string | null, OutcomeRecord[]>();
  for (const record of records) {
    const own = ofSite.get(record.site);
    if (own === undefined) ofSite.set(record.site, [record]);
    else own.push(record);
  }
  if ([...ofSite.keys()].filter((site) => site !== null).length < 2) return [];
  const column = definitionColumns[specification.question.milestone];
  const texts = new Map(sites.map(({ values }) => [values.site_id, values[column]]));
  const groups = new Map<string, { definition: string | null; sites: string[]; records: OutcomeRecord[] }>();
  for (const site of [...ofSite.keys()].sort(inOrder)) {
    const text = site === null ? null : (texts.get(site) ?? null);
    const plain = text === null ? "" : plainDefinition(text);
    const group = groups.get(plain) ?? { definition: plain === "" ? null : text, sites: [], records: [] };
    groups.set(plain, group);
    if (site !== null) group.sites.push(site);
    group.records.push(...ofSite.get(site)!);
  }
  return [...groups.values()].sort(
    (one, other) =>
      Number(one.definition === null) - Number(other.definition === null) ||
      other.records.length - one.records.length,
  );
}

/** By name; injuries without a site last. */
const inOrder = (one: string | null, other: string | null): number => {
  if (one === null || other === null) return Number(one === null) - Number(other === null);
  return one < other ? -1 : 1;
};

/** So many letters of sites' names fit the legend of a figure beside the number. */
const lettersOfSites = 24;

function labelOf({ definition, sites }: Defined, place: number): string {
  const name = definition === null ? "not stated" : `definition ${place + 1}`;
  const list = sites.join(", ");
  if (list === "") return name;
  return `${name} (${list.length <= lettersOfSites ? list : `${sites.length} sites`})`;
}
