import { wholeDays } from "../../cohort/whole-days.js";
import { competingEnds, grades } from "../../schema/terms.js";
import { harmonise } from "../harmonise/index.js";
import { type ReadSummary, summariesText } from "../summary/read-summaries.js";
import type { SiteSummary, SummaryComparison, SummaryFigure, SummaryGroup } from "../summary/site-summary.js";
import { cautionsOf } from "./cautions.js";
import { explainedBy } from "./explained.js";
import { withFirstPage } from "./main-answers.js";
import { refuseOtherMeanings } from "./other-meanings.js";
import { type OfSite, poolFigures } from "./pool-figures.js";
import { poolRiskSets } from "./pool-risk-sets.js";
import {
  type PooledAnswer,
  type PooledReason,
  type PooledResults,
  pooledFormat,
  pooledResultsSchema,
} from "./pooled-results.js";
import { unitedSites } from "./unite.js";

export interface PoolingOptions {
  /** Version of the toolkit. */
  readonly version: string;
  readonly sha256: (text: string) => string;
}

/**
 * Any set of sites' summaries as pooled results: the same bytes in whatever order and by whatever steps they were merged.
 *
 * @param read summaries and the files that they came in
 * @throws SummaryError where a site is there with two contents, where sites were not asked the same, or mean different things by the return
 *   and the study file does not let these be counted together
 */
export function poolSummaries(
  read: readonly ReadSummary[],
  { version, sha256 }: PoolingOptions,
): PooledResults {
  const sites = unitedSites(read);
  const { agreed } = sites[0]!;
  const harmonised = harmonise(
    sites.map(({ description }) => description),
    agreed.file,
  );
  refuseOtherMeanings(harmonised, agreed.file);
  const answers = withFirstPage(answersOf(sites));
  return pooledResultsSchema.parse({
    format: pooledFormat,
    toolkit_version: version,
    agreed,
    sites: sites.map((summary) => {
      const all = summary.groups.find(({ family }) => family === "all");
      return {
        site: summary.site,
        summary_sha256: sha256(summariesText([summary])),
        toolkit_version: summary.toolkit_version,
        n: all?.n ?? null,
        persons: all?.persons ?? null,
        events: all?.events ?? null,
        small_cells: summary.small_cells,
        held_back: summary.held_back,
        quality: summary.quality,
      };
    }),
    harmonised,
    cautions: cautionsOf(sites, { harmonised, answers }),
    answers,
    risk_sets: poolRiskSets(sites),
    explained: explainedBy(sites, {
      answers: answers.filter(({ first_page }) => first_page),
      level: agreed.file.confidence_level,
    }),
  } satisfies PooledResults);
}

/** Every figure of every group and comparison that at least one site tells of, in the order of the study file. */
function answersOf(sites: readonly SiteSummary[]): OneAnswer[] {
  const { compare } = sites[0]!.agreed.file;
  const labels = (family: SummaryGroup["family"], order: readonly string[]) => {
    const found = new Set(
      sites.flatMap(({ groups }) => groups.filter((one) => one.family === family).map(({ label }) => label)),
    );
    return [
      ...order.filter((label) => found.has(label)),
      ...[...found].filter((one) => !order.includes(one)).sort(),
    ];
  };
  const groups = [
    ...labels("all", []).map((label) => ["all", label] as const),
    ...labels("grade", grades).map((label) => ["grade", label] as const),
    ...labels("compared", compare.groups).map((label) => ["compared", label] as const),
  ];
  const others = compare.groups.filter((label) => label !== compare.reference);
  return [
    ...groups.flatMap(([family, label]) => groupAnswers(sites, { family, label })),
    ...others.flatMap((compared) =>
      [false, true].flatMap((adjusted) => comparisonAnswers(sites, { compared, adjusted })),
    ),
  ];
}

/** Before it is known which are on the first page. */
type OneAnswer = Omit<PooledAnswer, "first_page">;

type Place = Pick<PooledAnswer, "measure" | "week" | "day" | "main">;

function placesOf({
  landmarks_weeks,
  main_landmark_weeks,
  horizon_weeks,
}: SiteSummary["agreed"]["file"]): Place[] {
  return [
    ...landmarks_weeks.map(
      (week): Place => ({
        measure: "share_back",
        week,
        day: wholeDays(week),
        main: week === main_landmark_weeks,
      }),
    ),
    { measure: "mean_days", week: null, day: wholeDays(horizon_weeks), main: true },
  ];
}

/** Shares lie below 1, mean days below the horizon; a difference of two between that and its negative. */
function boundsOf({ measure, day }: Place, least: 0 | -1): readonly [number, number] {
  const most = measure === "mean_days" ? day : 1;
  return [least === 0 ? 0 : -most, most];
}

const noGroup = { family: null, label: null } as const;
const noComparison = { compared: null, reference: null, adjusted_for: [] as string[] } as const;

function groupAnswers(
  sites: readonly SiteSummary[],
  { family, label }: { readonly family: SummaryGroup["family"]; readonly label: string },
): OneAnswer[] {
  const { file } = sites[0]!.agreed;
  const level = file.confidence_level;
  const found = sites.map((summary) => ({
    summary,
    group: summary.groups.find((one) => one.family === family && one.label === label),
  }));
  const common = { ...noComparison, adjusted_for: [], of: "group" as const, family, label };
  const places = placesOf(file);
  const shares = places.map((place, i): OneAnswer => {
    const of = found.map(({ summary, group }) =>
      ofSite(summary, {
        part: group,
        figure: group?.figures[i],
        missing: whyNoGroup(summary, { family, label }),
      }),
    );
    const scale = place.measure === "mean_days" ? "days" : "logit";
    const id = [family, label, place.measure, place.week ?? "horizon"].join(":");
    return {
      id,
      ...common,
      end: null,
      ...place,
      ...poolFigures(of, { scale, level, bounds: boundsOf(place, 0), leaveOut: place.main }),
    };
  });
  const ends = competingEnds.filter((end) =>
    found.some(({ group }) => group?.other_ends.some((one) => one.end === end)),
  );
  const ofEnds = ends.flatMap((end) =>
    places
      .filter(({ measure }) => measure === "share_back")
      .map((place, i): OneAnswer => {
        const of = found.map(({ summary, group }) => {
          const own = group?.other_ends.find((one) => one.end === end);
          const part = group && own ? { ...group, path: "days" as const, events: own.events } : group;
          const kept = summary.held_back.find(
            (one) => one.end === end && one.family === family && one.label === label,
          );
          const missing = kept?.reason ?? (group === undefined ? "not-in-summary" : "no-events");
          return ofSite(summary, { part, figure: own?.figures[i], missing });
        });
        const id = [family, label, "other_end", end, place.week].join(":");
        const pooled = poolFigures(of, { scale: "logit", level, bounds: [0, 1], leaveOut: false });
        return { id, ...common, end, ...place, measure: "other_end", ...pooled };
      }),
  );
  return [...shares, ...ofEnds];
}

function comparisonAnswers(
  sites: readonly SiteSummary[],
  { compared, adjusted }: { readonly compared: string; readonly adjusted: boolean },
): OneAnswer[] {
  const { file } = sites[0]!.agreed;
  const { reference } = file.compare;
  const found = sites.map((summary) => ({
    summary,
    one: summary.comparisons.find(
      (each) => each.compared === compared && each.adjusted_for.length > 0 === adjusted,
    ),
  }));
  const held = found.find(({ one }) => one !== undefined)?.one?.adjusted_for;
  if (held === undefined) return [];
  const common = {
    ...noGroup,
    of: "comparison" as const,
    compared,
    reference,
    adjusted_for: held,
    end: null,
  };
  return placesOf(file).map((place, i): OneAnswer => {
    const of = found.map(({ summary, one }) =>
      ofSite(summary, {
        part: one && {
          path: one.path,
          n: bothOf(one.n),
          persons: bothOf(one.persons),
          events: bothOf(one.events),
        },
        figure: one?.figures[i],
        missing:
          summary.held_back.find(
            (each) => each.compared === compared && each.adjusted_for.length > 0 === adjusted,
          )?.reason ?? "not-in-summary",
      }),
    );
    const scale = place.measure === "mean_days" ? "days" : "share";
    const how = adjusted ? "like-for-like" : "as-they-are";
    const id = [compared, reference, how, place.measure, place.week ?? "horizon"].join(":");
    return {
      id,
      ...common,
      ...place,
      ...poolFigures(of, {
        scale,
        level: file.confidence_level,
        bounds: boundsOf(place, -1),
        leaveOut: place.main,
      }),
    };
  });
}

function bothOf({ compared, reference }: SummaryComparison["n"]): OfSite["n"] {
  return typeof compared === "number" && typeof reference === "number" ? compared + reference : "[left out]";
}

interface PartOfSite {
  readonly part: Pick<OfSite, "path" | "n" | "persons" | "events"> | undefined;
  readonly figure: SummaryFigure | undefined;
  readonly missing: PooledReason;
}

const ofSite = ({ site, small_cells }: SiteSummary, { part, figure, missing }: PartOfSite): OfSite => ({
  site,
  rounds: small_cells.choice === "leave-out",
  path: part?.path ?? null,
  figure: figure ?? null,
  missing: figure === undefined ? missing : null,
  n: part?.n ?? null,
  persons: part?.persons ?? null,
  events: part?.events ?? null,
});

/** Whether the site has no such group, or keeps it back. */
const whyNoGroup = (
  { held_back }: SiteSummary,
  { family, label }: { readonly family: string; readonly label: string },
): PooledReason =>
  held_back.find((one) => one.of === "group" && one.family === family && one.label === label)?.reason ??
  "no-rows";
