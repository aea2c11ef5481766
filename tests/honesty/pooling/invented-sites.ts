// How often pooled answers of the committed synthetic consortium hold what is true of it, over repeated draws of its own generator through the
// whole path: tables, reading, each site's summary with small cells left out, pooling. And what joined rows would have said.
// node tests/honesty/built/tests/honesty/pooling/invented-sites.js [--draws N] > tests/honesty/pooling/invented-sites.md
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { readCohort } from "../../../src/ingest/index.js";
import {
  type PooledAnswer,
  poolSummaries,
  type SiteSummary,
  summariesText,
  summariseSite,
} from "../../../src/pooling/index.js";
import { readSummaries } from "../../../src/pooling/summary/read-summaries.js";
import { exactComparisons } from "../../../src/pooling/summary/site-groups.js";
import { tableText } from "../../../src/schema/table-text.js";
import { normalCritical } from "../../../src/statistics/shared/distributions.js";
import { analysedOf } from "../../../src/study/analysed.js";
import { readPlan } from "../../../src/study/index.js";
import type { ConsortiumTruth } from "../../../src/synthetic/consortium.js";
import { drawCohort, readScenario, type Scenario } from "../../../src/synthetic/index.js";
import { studyText } from "../../../src/synthetic/study-file.js";
import { count, type Finding, type Tallies } from "../tally.js";

const folder = new URL("../../../../../synthetic-data/consortium/", import.meta.url);
const text = (name: string): string => readFileSync(new URL(name, folder), "utf8");
const sha256 = (content: string): string => createHash("sha256").update(content).digest("hex");

const truth: ConsortiumTruth = JSON.parse(text("truth.json"));
const scenarios = truth.sites.map(({ site }): Scenario => readScenario(site, text(`${site}/scenario.yaml`)));

const week = 13;
const tables = ["injuries", "treatments", "visits", "sites"] as const;
type Cohort = ReturnType<typeof drawCohort>;

/** Tables read as somebody would read them, and the study that asks about week 13 alone. */
function readOf(cohort: Pick<Cohort, (typeof tables)[number] | "closedOn">, scenario: Scenario) {
  const data = Object.fromEntries(tables.map((table) => [table, `${table}.csv`]));
  const study = readPlan("study.yaml", studyText({ scenario, closedOn: cohort.closedOn }, { data }));
  const plan = {
    ...study,
    landmarks_weeks: [week],
    question: { ...study.question, definitions: "may_differ" as const },
  };
  const read = readCohort(
    tables.map((table) => ({
      table,
      file: `${table}.csv`,
      bytes: Buffer.from(tableText(table, cohort[table] as never)),
    })),
    {
      closedOn: plan.data.closed_on ?? null,
      thresholdMm: plan.distance.threshold_mm,
      personIds: plan.data.person_ids,
    },
  );
  return { read, plan };
}

const smallCells = { choice: "leave-out", smallest: 5 } as const;
const summaryOf = (cohort: Cohort, scenario: Scenario): SiteSummary =>
  summariseSite(readOf(cohort, scenario), { smallCells, version: "0", sha256 });

const pooled = (summaries: readonly SiteSummary[]) =>
  poolSummaries(
    summaries.flatMap((summary) =>
      readSummaries({ file: summary.site, text: summariesText([summary]) }, { sha256 }),
    ),
    { version: "0", sha256 },
  ).answers;

/** All rows as if of the first site: one closing day, one definition, people and injuries kept apart. */
function joined(cohorts: readonly Cohort[]): Cohort {
  const [first] = cohorts;
  const site = first!.sites[0]!.site_id;
  const apart = <Row extends object>(rows: readonly Row[], at: number): Row[] =>
    rows.map((row) => ({
      ...row,
      ...("site_id" in row && { site_id: site }),
      ...("person_id" in row && { person_id: `${at}-${row.person_id}` }),
      ...("injury_id" in row && { injury_id: `${at}-${row.injury_id}` }),
    }));
  return {
    ...first!,
    closedOn: cohorts
      .map(({ closedOn }) => closedOn)
      .sort()
      .at(-1)!,
    injuries: cohorts.flatMap(({ injuries }, at) => apart(injuries, at)),
    treatments: cohorts.flatMap(({ treatments }, at) => apart(treatments, at)),
    visits: cohorts.flatMap(({ visits }, at) => apart(visits, at)),
  };
}

/** What is asked: ring less tape at week 13 in points, and in days up to the horizon; as the groups are, and within grades. */
const asked = [
  { name: "share by week 13", place: "share_back:13", at: 0 },
  { name: "mean days", place: "mean_days:horizon", at: 1 },
] as const;
const ways = [
  { name: "as they are", how: "as-they-are", contrast: "crude" },
  { name: "within grades", how: "like-for-like", contrast: "standardised" },
] as const;

type Site = ConsortiumTruth["sites"][number];

function trueAt(
  site: Site,
  { contrast }: (typeof ways)[number],
  { place }: (typeof asked)[number],
): number | null {
  const found = site[contrast];
  if (found === null) return null;
  return place === "mean_days:horizon"
    ? (found.restricted_mean_difference_days.value ?? null)
    : (found.landmark_differences.find((one) => one.week === week)!.difference.value ?? null);
}

const answerOf = (answers: readonly PooledAnswer[], how: string, place: string): PooledAnswer | undefined =>
  answers.find(({ id }) => id === `ring:tape:${how}:${place}`);

interface Limits {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}
type Comparisons = ReturnType<typeof exactComparisons>;

const nowhere: Limits = { value: null, lower: null, upper: null };

function replicate(draw: number): Finding[] {
  const cohorts = scenarios.map((scenario, at) => drawCohort(scenario, { seed: 1_000 * draw + at }));
  const summaries = cohorts.map((cohort, at) => summaryOf(cohort, scenarios[at]!));
  const answers = pooled(summaries);
  const gone = draw % scenarios.length;
  const others = pooled(summaries.filter((_, at) => at !== gone));
  const naive = readOf(joined(cohorts), scenarios[0]!);
  const comparisons = exactComparisons(analysedOf(naive.read, naive.plan));
  return ways.flatMap((way) =>
    asked.flatMap((one) => {
      const label = `${one.name}, ${way.name}`;
      const truths = truth.sites.map((site) => trueAt(site, way, one));
      const known = truths.filter((value) => value !== null);
      const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
      const found = answerOf(answers, way.how, one.place);
      const finding = (name: string, of: number, at: Limits | undefined): Finding => ({
        kind: "interval",
        name: `${label}: ${name}`,
        truth: of,
        value: (at ?? nowhere).value,
        lower: (at ?? nowhere).lower,
        upper: (at ?? nowhere).upper,
      });
      const without = answerOf(others, way.how, one.place);
      const further = without && { ...without.random.prediction, value: without.random.value };
      return [
        finding("pooled, random effects", mean, found?.random),
        finding("pooled, common effect", mean, found?.common),
        ...(truths[gone] === null
          ? []
          : [finding("a further site, from the eleven others", truths[gone]!, further)]),
        ...truths.flatMap((own, at) => {
          const site = found?.sites.find((each) => each.site === summaries[at]!.site);
          return own === null || site === undefined || site.value === null
            ? []
            : [finding("each site's own", own, site)];
        }),
        finding(
          "rows joined as of one site",
          mean,
          joinedInterval(comparisons, way.how === "like-for-like", one.at),
        ),
      ];
    }),
  );
}

/** The difference of joined rows with its normal limits, as if they were of one site. */
function joinedInterval(comparisons: Comparisons, adjusted: boolean, place: 0 | 1): Limits | undefined {
  const comparison = comparisons.find(
    ({ compared, adjustedFor }) => compared === "ring" && adjustedFor.length > 0 === adjusted,
  );
  const figure = comparison?.set.figures[place];
  if (figure === undefined || figure.value === null || figure.standardError === null) return undefined;
  const half = normalCritical(0.95) * figure.standardError;
  return { value: figure.value, lower: figure.value - half, upper: figure.value + half };
}

const { values } = parseArgs({ options: { draws: { type: "string", default: "44" } } });
const draws = Number(values.draws);
const tallies: Tallies = {};
for (let draw = 1; draw <= draws; draw++) {
  count(tallies, replicate(draw));
  if (draw % 10 === 0) process.stderr.write(`${draw}\n`);
}
const rows = Object.entries(tallies).map(([name, { replicates, given, hits, errors, width }]) => {
  const times = name.startsWith("mean days") ? 1 : 100;
  const shown = (value: number) => (times * value).toFixed(1).replace("-", "\u2212");
  if (given === 0) return `| ${name} | 0 of ${replicates} | | | |`;
  const share = hits / given;
  const coverage = `${(100 * share).toFixed(1)} ± ${(100 * Math.sqrt((share * (1 - share)) / given)).toFixed(1)}`;
  return `| ${name} | ${given} of ${replicates} | ${coverage} | ${shown(errors / given)} | ${shown(width / given)} |`;
});
const sizes = truth.sites.map(({ injuries }) => injuries).join(", ");
process.stdout.write(`# The synthetic consortium drawn again and again

${draws} draws of the committed scenarios (\`synthetic-data/consortium\`; SYNTHETIC), by \`invented-sites.ts\`: twelve sites of ${sizes} injuries whose case mix, schedules, definitions and effects differ,
each through its tables, its reading and its summary without small cells, then pooled. What is asked is ring less tape. Truth: of a site its own (\`truth.json\`); of a pooled answer and of joined rows the mean of
the sites' truths, each counting once; of a further site that of one left out in turn, from the pooled answer of the others. The twelve sites and their effects stay the same in every draw, so that the table
says how well the answers hold for these sites, not for sites drawn anew (\`results.md\` does).

| interval of 95 % | given | coverage in per cent with its Monte Carlo error | bias | mean width |
| --- | --- | --- | --- | --- |
${rows.join("\n")}

Bias and width in percentage points of shares, and in days.
`);
