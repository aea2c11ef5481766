import { jsonText } from "../schema/json-text.js";
import { yamlText } from "../schema/settings/yaml-text.js";
import { tableText } from "../schema/table-text.js";
import { drawCohort } from "./draw.js";
import type { SyntheticFile } from "./invent.js";
import type { Scenario } from "./scenario.js";
import { studyText } from "./study-file.js";
import { type Contrast, type TruthOptions, trueEffects } from "./truth.js";

/** What is true at one site of a consortium. */
interface TruthOfSite {
  readonly site: string;
  readonly injuries: number;
  /** Ring against tape within a grade, exact: the scenario's own. */
  readonly conditional_hazard_ratio: number;
  /** Ring less tape at the mix of grades of the site; null where no grade has both. */
  readonly standardised: Contrast | null;
  /** Without regard to grade: confounded. */
  readonly crude: Contrast | null;
}

/** What is true of a consortium; the form of its truth.json. */
export interface ConsortiumTruth {
  readonly format: "pulley-outcomes consortium truth 1";
  readonly synthetic: "SYNTHETIC: true effects of invented scenarios, no finding about patients";
  readonly draws_per_cell: number;
  readonly seed: number;
  readonly sites: readonly TruthOfSite[];
}

/** Tables of a site: what a study of returns needs; no imaging, to keep the folder small. */
const tablesOfSite = ["injuries", "treatments", "visits", "sites"] as const;

/** Fewer than for one cohort, since there are many sites: standard errors of shares at most 0.0036. */
const drawsOfSite = 20_000;

/**
 * Sites of which each is drawn from a scenario of its own: the tables and a study file of each in a folder, a study of all, and
 * the effects that are true at each.
 *
 * @param scenarios of one site each, by the name of its folder
 */
export function inventConsortium(
  scenarios: readonly { readonly folder: string; readonly scenario: Scenario }[],
  { draws = drawsOfSite, seed = 20_240_301, ...options }: TruthOptions = {},
): readonly SyntheticFile[] {
  const truth: ConsortiumTruth = {
    format: "pulley-outcomes consortium truth 1",
    synthetic: "SYNTHETIC: true effects of invented scenarios, no finding about patients",
    draws_per_cell: draws,
    seed,
    sites: scenarios.map(({ folder, scenario }) => {
      const { conditional_hazard_ratio, standardised, crude } = trueEffects(scenario, {
        ...options,
        draws,
        seed,
      });
      return {
        site: folder,
        injuries: scenario.injuries,
        conditional_hazard_ratio: conditional_hazard_ratio.ring,
        standardised,
        crude,
      };
    }),
  };
  return [
    ...scenarios.flatMap(({ folder, scenario }) =>
      filesOfSite(scenario).map((file) => ({ ...file, path: `${folder}/${file.path}` })),
    ),
    { path: "study.yaml", content: studyOfAll(scenarios.map(({ folder }) => folder)) },
    { path: "truth.json", content: jsonText(truth) },
  ];
}

function filesOfSite(scenario: Scenario): readonly SyntheticFile[] {
  const cohort = drawCohort(scenario);
  const data = Object.fromEntries(tablesOfSite.map((table) => [table, `synthetic-${table}.csv`]));
  return [
    ...tablesOfSite.map((table) => ({ path: data[table]!, content: tableText(table, cohort[table]) })),
    { path: "study.yaml", content: studyText({ scenario, closedOn: cohort.closedOn }, { data }) },
  ];
}

const studyOfAll = (
  folders: readonly string[],
): string => `# SYNTHETIC: twelve invented sites together. It shows how to use the toolkit and says nothing about patients.
# A key that is left out has its default. Each site reads its rows by its own study file.
${yamlText({
  study: "synthetic-consortium",
  title: "SYNTHETIC: the Quarrelmere consortium",
  synthetic: true,
  data: { from_sites: folders.map((site) => ({ site, study: `${site}/study.yaml` })) },
  question: { definitions: "may_differ" },
})}`;
