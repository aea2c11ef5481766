import { readFileSync } from "node:fs";
import { deriveCohort, linkTables } from "../../../src/cohort/index.js";
import type { CohortTables } from "../../../src/schema/cohort-tables.js";
import { type Generator, seededGenerator } from "../../../src/statistics/shared/random.js";
import { compared, type Members } from "../../../src/study/groups.js";
import { readPlan, specificationOf } from "../../../src/study/index.js";
import { modelled } from "../../../src/study/spans/model.js";
import { drawCohort, readScenario } from "../../../src/synthetic/index.js";

/** A site whose returns are known between visits, with what is asked of it. */
export interface SiteInSpans {
  readonly members: readonly Members[];
  readonly people: number;
  readonly asked: ReturnType<typeof specificationOf>;
}

const folder = "synthetic-data/three-sites";

/** SYNTHETIC: the hand clinic of the three sites, with gaps of months between visits, and people with several injuries. */
export function siteInSpans(injuries: number, seed: number): SiteInSpans {
  const scenario = readScenario("scenario.yaml", readFileSync(`${folder}/scenario.yaml`, "utf8"));
  const plan = readPlan("study.yaml", readFileSync(`${folder}/study.yaml`, "utf8"));
  const cohort = drawCohort({ ...scenario, injuries, sites: scenario.sites.slice(1, 2) }, { seed });
  const typed = <Row>(rows: readonly Row[]) =>
    rows.map((values, at) => ({ file: "drawn", row: at + 2, values }));
  const tables: CohortTables = {
    injuries: typed(cohort.injuries),
    treatments: typed(cohort.treatments),
    imaging: typed(cohort.imaging),
    visits: typed(cohort.visits),
    sites: typed(cohort.sites),
    personIds: "per_site",
  };
  const asked = specificationOf({ ...plan, data: { ...plan.data, closed_on: cohort.closedOn } });
  const { records } = deriveCohort(linkTables(tables), asked.question);
  const { groups } = compared(records, { ...asked, path: "days" });
  const members = groups.map(({ label, records: own }) => ({ label, records: own }));
  return { members, asked, people: new Set(records.map(({ person }) => person)).size };
}

/** Figures of a site by the model of spans, with the variance matrix that leaves in its summary. */
export interface FiguresInSpans {
  readonly names: readonly string[];
  readonly values: readonly number[];
  readonly variances: readonly (readonly number[])[];
}

/** Shares and mean days of each group, then their differences; null where the model has none. */
export function figuresInSpans(
  members: readonly Members[],
  asked: SiteInSpans["asked"],
): { readonly model: string; readonly sets: readonly FiguresInSpans[] } | null {
  const found = modelled(members, { ...asked, clustered: true });
  const joint = found.joint(asked.landmarks.map(({ day }) => day));
  if (joint === null) return null;
  const places = [...asked.landmarks.map(({ week }) => `back by week ${week}`), "mean days"];
  const sets = [
    ...members.map(({ label }, i) => ({ of: label, ...joint.group(i) })),
    {
      of: `${members[0]!.label} less ${members[1]!.label}`,
      ...joint.difference(0, 1),
    },
  ];
  return {
    model: `${found.model.form} ${found.model.law}`,
    sets: sets.map(({ of, values, variances }) => ({
      names: places.map((place) => `${of}, ${place}`),
      values: [...values],
      variances: variances.map((row) => [...row]),
    })),
  };
}

/** People drawn again, each with all injuries, as people of their own. */
function drawnAgain(members: readonly Members[], draw: Generator): readonly Members[] {
  const people = [...new Set(members.flatMap(({ records }) => records.map(({ person }) => person)))];
  const times = new Map<string, number>();
  for (let i = 0; i < people.length; i++) {
    const person = people[draw.integer(people.length)]!;
    times.set(person, (times.get(person) ?? 0) + 1);
  }
  return members.map(({ label, records }) => ({
    label,
    records: records.flatMap((record) =>
      Array.from({ length: times.get(record.person) ?? 0 }, (_, copy) => ({
        ...record,
        injury: `${record.injury} ${copy}`,
        person: `${record.person} ${copy}`,
      })),
    ),
  }));
}

type Covariances = readonly (readonly (readonly number[])[])[];

/** Covariance of the figures over draws of people, in the order of the figures: over all draws, and over those to which the same model was chosen. */
export function bootstrapped(
  { members, asked }: SiteInSpans,
  { draws, seed, model }: { readonly draws: number; readonly seed: number; readonly model: string },
): { readonly all: Covariances; readonly alike: Covariances; readonly drawsAlike: number } {
  const found = Array.from({ length: draws }, (_, stream) =>
    figuresInSpans(drawnAgain(members, seededGenerator(seed, stream)), asked),
  ).filter((one) => one !== null);
  const alike = found.filter((one) => one.model === model);
  const over = (some: typeof found): Covariances =>
    some[0]!.sets.map((_, set) => covarianceOf(some.map(({ sets }) => sets[set]!.values)));
  return { all: over(found), alike: over(alike), drawsAlike: alike.length };
}

function covarianceOf(rows: readonly (readonly number[])[]): number[][] {
  const means = rows[0]!.map((_, j) => rows.reduce((sum, row) => sum + row[j]!, 0) / rows.length);
  return means.map((one, i) =>
    means.map(
      (other, j) =>
        rows.reduce((sum, row) => sum + (row[i]! - one) * (row[j]! - other), 0) / (rows.length - 1),
    ),
  );
}
