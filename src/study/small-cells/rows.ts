import type { ExactResults } from "../exact-results.js";
import type { Results } from "../results.js";
import { type Counting, shareOf } from "./counting.js";
import { describedWithout } from "./described.js";
import type { Fewest } from "./fewest.js";

/** Where every row went, queries and answers: counts without small ones, and no row by its number. */
export function accountWithout(
  { accounting, queries, answers }: Pick<ExactResults, "accounting" | "queries" | "answers">,
  { counting, fewest }: { readonly counting: Counting; readonly fewest: Fewest },
): Pick<Results, "accounting" | "queries" | "answers"> {
  const { told, part } = counting;
  const each = <Code extends string>(items: readonly { readonly code: Code; readonly n: number }[]) =>
    items.map(({ code, n }) => ({ code, n: told(n) }));
  const { analysis, comparison } = accounting;
  const several = analysis.ids_at_several_sites;
  return {
    accounting: {
      tables: accounting.tables.map(({ reasons, folded, rows_of_file, not_used, ...account }) => {
        const least = fewest.rows[account.table];
        return {
          ...account,
          read: told(account.read, least),
          used: told(account.used, least),
          set_aside: told(account.set_aside, least),
          reasons: reasons.map(({ code, n }) => ({ code, n: told(n, least), rows: [] })),
          ...(folded && {
            folded: {
              injuries: told(folded.injuries, least),
              further_visits: told(folded.further_visits, least),
              visits_not_used: told(folded.visits_not_used, least),
              cells_from_other_rows: told(folded.cells_from_other_rows, least),
            },
          }),
          ...(rows_of_file !== undefined && { rows_of_file: told(rows_of_file, least) }),
          // columns are no people; their filled cells may be
          ...(not_used && {
            not_used: { columns: not_used.columns, filled_cells: told(not_used.filled_cells, least) },
          }),
        };
      }),
      analysis: {
        injuries: told(analysis.injuries),
        analysed: told(analysis.analysed),
        persons: part(analysis.persons, analysis.analysed),
        ...(several && {
          ids_at_several_sites: {
            ids: part(several.ids, several.injuries),
            persons: part(several.persons, several.injuries),
            injuries: told(several.injuries),
          },
        }),
        excluded: each(analysis.excluded),
      },
      comparison: {
        analysed: told(comparison.analysed),
        compared: told(comparison.compared),
        left_out: each(comparison.left_out),
      },
    },
    queries: queries.map((group) => ({ ...group, n: told(group.n), rows: [] })),
    answers: answers === null ? null : answersWithout(answers, counting),
  };
}

function answersWithout(
  { file, used, not_used, ...lines }: NonNullable<ExactResults["answers"]>,
  { told }: Counting,
): NonNullable<Results["answers"]> {
  return {
    file,
    read: told(lines.read),
    blank: told(lines.blank),
    used: {
      stands: told(used.stands),
      change: told(used.change),
      "leave-out": told(used["leave-out"]),
    },
    repeated: told(lines.repeated),
    not_used: {
      stale: told(not_used.stale),
      contradictory: told(not_used.contradictory),
      unreadable: told(not_used.unreadable),
    },
    cells_changed: told(lines.cells_changed),
    rows_left_out: told(lines.rows_left_out),
  };
}

/** How people were followed, with the median to the week. */
export function followUpWithout(
  follow_up: ExactResults["follow_up"],
  { told, part, rounded, roundedEstimate }: Counting,
): Results["follow_up"] {
  const { n, milestones, whole_weeks } = follow_up;
  const each = (items: ExactResults["follow_up"]["known"]) =>
    items.map(({ code, n: times }) => ({ code, n: part(times, n) }));
  return {
    n: told(n),
    milestones: part(milestones, n),
    competing: each(follow_up.competing),
    censored: part(follow_up.censored, n),
    median_days: roundedEstimate(follow_up.median_days, "week"),
    // the first, the last, the shortest and the longest are single people
    recruited: null,
    person_months: rounded(follow_up.person_months, "other"),
    not_back_days: null,
    completeness: rounded(follow_up.completeness, { shareOf: n }),
    known: each(follow_up.known),
    whole_weeks: {
      milestones: part(whole_weeks.milestones, n),
      on_whole_weeks: part(whole_weeks.on_whole_weeks, whole_weeks.milestones),
    },
  };
}

/** How exactly returns are known; the readings beside each other would tell of the few whose day is not known. */
export function knownWithout(
  known: ExactResults["known_returns"],
  { told, part, rounded, isEnough, isEnoughFor }: Counting,
): Results["known_returns"] {
  return {
    ...known,
    groups: known.groups.map((group) => {
      const { n, to_the_day, narrow, wide } = group;
      const share = shareOf(part(wide, n), told(n));
      return {
        ...group,
        n: told(n),
        to_the_day: part(to_the_day, n),
        narrow: part(narrow, n),
        wide: part(wide, n),
        wide_share: share,
        mean_wide_days: share !== null && isEnough(wide) ? rounded(group.mean_wide_days, "other") : null,
        median_days: isEnoughFor("median", n) ? rounded(group.median_days, "week") : null,
        // the widest is that of a single injury
        largest_days: null,
      };
    }),
    comparison: {
      ...known.comparison,
      statistic: rounded(known.comparison.statistic, "other"),
      p: rounded(known.comparison.p, "other"),
    },
    most_open: null,
    most_moved: null,
    readings: [],
  };
}

/** What is not recorded; patterns of few injuries go to the others. */
export function missingWithout(missing: ExactResults["missing"], counting: Counting): Results["missing"] {
  const { told, part, isEnough } = counting;
  const withShare = (gaps: number, of: number) => {
    const n = part(gaps, of);
    return { n, share: shareOf(n, told(of)) };
  };
  const shown = missing.patterns.filter(({ n }) => isEnough(n));
  const hidden = missing.patterns.filter(({ n }) => !isEnough(n));
  counting.note(hidden.length);
  return {
    ...missing,
    n: told(missing.n),
    fields: missing.fields.map((field) => {
      const { n, share } = withShare(field.missing, missing.n);
      return { ...field, blank: told(field.blank), unknown: told(field.unknown), missing: n, share };
    }),
    complete: part(missing.complete, missing.n),
    groupings: missing.groupings.map(({ by, groups }) => ({
      by,
      groups: groups.map(({ label, n, missing: gaps }) => ({
        label,
        n: told(n),
        missing: gaps.map((gap) => withShare(gap.n, n)),
      })),
    })),
    patterns: shown.map(({ fields, n }) => ({ fields, n: told(n) })),
    other_patterns: {
      patterns: missing.other_patterns.patterns + hidden.length,
      n: told(hidden.reduce((sum, { n }) => sum + n, missing.other_patterns.n)),
    },
  };
}

/** Who was lost; the lost are compared with those who stayed only where both are enough. */
export function lostWithout(lost: ExactResults["lost"], counting: Counting): Results["lost"] {
  const { told, part, isEnough, rounded } = counting;
  const group = <One extends { n: number; lost: number; completeness: number | null }>(one: One) => {
    const n = told(one.n);
    const count = part(one.lost, one.n);
    const completeness = isEnough(one.n) ? rounded(one.completeness, { shareOf: one.n }) : null;
    return { ...one, n, lost: count, share: shareOf(count, n), completeness };
  };
  return {
    ...lost,
    ...group({ n: lost.n, lost: lost.lost, completeness: lost.completeness }),
    groupings: lost.groupings.map(({ by, groups }) => ({ by, groups: groups.map(group) })),
    compared: lost.compared.map((one) => {
      const counts = { ...one, lost: told(one.lost), stayed: told(one.stayed) };
      if (isEnough(one.lost) && isEnough(one.stayed)) {
        return { ...counts, rows: describedWithout(one.rows, counting) };
      }
      return { ...counts, rows: [], reason: one.reason ?? "small-cell" };
    }),
  };
}
