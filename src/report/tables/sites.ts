import type { EffectResult, Results } from "../../study/results.js";
import { effectColumns } from "./comparisons.js";
import { estimateColumns } from "./curves.js";
import { type FlatTable, flatTable, unfold } from "./reshape.js";

type OfSite = { readonly site: string };
type ChildOf<Child> = { readonly parent: OfSite; readonly child: Child };

/** What the sites mean and record, and each site's own answer; none where the study names no sites. */
export const siteTables = (results: Results): FlatTable[] => [
  ...harmonisedTables(results),
  ...answerTables(results),
];

function harmonisedTables({ harmonised }: Results): FlatTable[] {
  if (harmonised === null) return [];
  const { schedules, losses, stated, fields } = harmonised;
  return [
    flatTable("sites-schedules", {
      things: schedules.sites,
      columns: {
        site: ({ site }) => site,
        injuries_with_a_contact: ({ seen }) => seen,
        contacts_median: ({ contacts }) => contacts.median,
        days_between_contacts_median: ({ days_between }) => days_between.median,
        days_between_contacts_lower_quartile: ({ days_between }) => days_between.lower_quartile,
        days_between_contacts_upper_quartile: ({ days_between }) => days_between.upper_quartile,
        longest_gap_days_median: ({ longest_gap }) => longest_gap.median,
        returns: ({ returns }) => returns,
        span_of_return_days_median: ({ span_days }) => span_days.median,
        share_of_wide_spans: ({ wide_share }) => wide_share,
      },
    }),
    flatTable("sites-lost", {
      things: losses.sites,
      columns: {
        site: ({ site }) => site,
        injuries: ({ analysed }) => analysed,
        lost: ({ lost }) => lost,
        share_lost: ({ share }) => share,
        completeness: ({ completeness }) => completeness,
        closing_day_known: ({ closing_day_known }) => (closing_day_known ? "yes" : "no"),
      },
    }),
    flatTable("sites-stated", {
      things: unfold(stated, ({ sites }) => sites),
      columns: {
        column: ({ parent }) => parent.field,
        definition: ({ parent }) => parent.definition,
        unit: ({ parent }) => parent.unit,
        verdict: ({ parent }) => parent.verdict,
        site: ({ child }) => child.site,
        stated: ({ child }) => child.values.join("|"),
      },
    }),
    flatTable("sites-fields", {
      things: unfold(fields, ({ sites }) => sites),
      columns: {
        field: ({ parent }) => parent.field,
        table: ({ parent }) => parent.table,
        definition: ({ parent }) => parent.definition,
        unit: ({ parent }) => parent.unit,
        terms: ({ parent }) => parent.terms?.join("|") ?? null,
        verdict: ({ parent }) => parent.verdict,
        site: ({ child }) => child.site,
        injuries: ({ child }) => child.n,
        known: ({ child }) => child.known,
        share_known: ({ child }) => child.share,
        counts: ({ child }) => child.counts?.map(({ code, n }) => `${code}:${n}`).join("|") ?? null,
        mean: ({ child }) => child.numbers?.mean ?? null,
        standard_deviation: ({ child }) => child.numbers?.standard_deviation ?? null,
        median: ({ child }) => child.numbers?.median ?? null,
        lower_quartile: ({ child }) => child.numbers?.lower_quartile ?? null,
        upper_quartile: ({ child }) => child.numbers?.upper_quartile ?? null,
      },
    }),
  ];
}

function answerTables({ sites }: Results): FlatTable[] {
  if (sites === null) return [];
  const { answers, without, frailty } = sites;
  const ofEffects = Object.fromEntries(
    Object.entries(effectColumns).map(([name, cell]) => [
      name,
      ({ child }: ChildOf<EffectResult>) => cell(child),
    ]),
  );
  return [
    flatTable("sites-shares", {
      things: unfold(answers, ({ landmarks }) => landmarks),
      columns: {
        site: ({ parent }) => parent.site,
        injuries: ({ parent }) => parent.n,
        persons: ({ parent }) => parent.persons,
        returned_during_follow_up: ({ parent }) => parent.events,
        week: ({ child }) => child.week,
        day: ({ child }) => child.day,
        at_risk: ({ child }) => child.at_risk,
        ...estimateColumns<ChildOf<(typeof answers)[number]["landmarks"][number]>>(
          "returned",
          ({ child }) => child.returned,
        ),
      },
    }),
    flatTable("sites-mean-times", {
      things: answers,
      columns: {
        site: ({ site }) => site,
        injuries: ({ n }) => n,
        persons: ({ persons }) => persons,
        horizon_days: ({ restricted_mean }) => restricted_mean.horizon_days,
        ...estimateColumns<(typeof answers)[number]>(
          "mean_days",
          ({ restricted_mean }) => restricted_mean.days,
        ),
        standard_error: ({ restricted_mean }) => restricted_mean.standard_error,
      },
    }),
    flatTable("sites-effects", {
      things: unfold(answers, ({ effects }) => effects),
      columns: { site: ({ parent }: ChildOf<EffectResult>) => parent.site, ...ofEffects },
    }),
    flatTable("sites-effects-without", {
      things: unfold(without, ({ effects }) => effects),
      columns: { without_site: ({ parent }: ChildOf<EffectResult>) => parent.site, ...ofEffects },
    }),
    flatTable("sites-frailty", {
      things: frailty,
      columns: {
        compared: ({ compared }) => compared,
        reference: ({ reference }) => reference,
        held_equal: ({ held_equal }) => held_equal.join("|"),
        sites: ({ sites: n }) => n,
        injuries: ({ n }) => n,
        persons: ({ persons }) => persons,
        returned_during_follow_up: ({ events }) => events,
        ...estimateColumns<(typeof frailty)[number]>("hazard_ratio", ({ hazard_ratio }) => hazard_ratio),
        standard_error: ({ standard_error }) => standard_error,
        p: ({ p }) => p,
        ...estimateColumns<(typeof frailty)[number]>("variance", ({ variance }) => variance),
        no_frailty_p: ({ no_frailty }) => no_frailty.p,
      },
    }),
  ];
}
