import type { OutcomeRecord } from "../../cohort/record.js";
import type { ExactEffect, ExactResults } from "../exact-results.js";
import { imbalanceOf } from "../imbalance.js";
import type { Specification } from "../specification.js";
import type { SoFar } from "../warn.js";

type Trial = NonNullable<ExactResults["target_trial"]>;
type Shortfall = Trial["falls_short"][number];
type Found = Omit<Shortfall, "part">;
type Counted = readonly { readonly code: string; readonly n: number }[];

interface Given {
  readonly results: Omit<SoFar, "target_trial" | "estimands">;
  readonly groups: Trial["groups"];
  readonly analysed: readonly OutcomeRecord[];
  readonly specification: Specification;
}

/** So many characteristics of a group are named, the largest differences first. */
const named = 3;

/** Where the data fall short of each part of the trial; nothing where they do not. */
export function fallsShort(given: Given): Shortfall[] {
  const parts: readonly (readonly [Shortfall["part"], readonly Found[]])[] = [
    ["eligible", eligible(given)],
    ["treatments", treated(given)],
    ["assignment", assigned(given)],
    ["day_0", counted(given)],
    ["outcome", reached(given)],
    ["follow_up", followed(given)],
    ["contrast", contrasted(given)],
    ["analysis", analysed(given)],
  ];
  return parts.flatMap(([part, found]) => found.map((one) => ({ part, ...one })));
}

const sum = (items: Counted): number => items.reduce((total, { n }) => total + n, 0);
/** A shortfall of so many injuries; none where there are none. */
const ofSome = (
  code: Shortfall["code"],
  { n, ...facts }: Found["facts"] & { readonly n: number },
): Found[] => (n > 0 ? [{ code, facts: { n, ...facts } }] : []);
const listOf = (items: Counted): string => items.map(({ code, n }) => `${code}=${n}`).join("|");

/** Criteria of which a field was not recorded: the injury may have met them. */
const notKnown: ReadonlySet<string> = new Set([
  "grade-not-known",
  "extent-not-known",
  "age-not-known",
  "first-visit-not-known",
]);
const notAsked: ReadonlySet<string> = new Set([
  "site-not-asked",
  "grade-not-asked",
  "pulley-not-asked",
  "extent-not-asked",
  "finger-not-asked",
  "age-not-asked",
  "first-visit-too-late",
]);

function eligible({ results: { accounting } }: Given): Found[] {
  const { excluded, injuries } = accounting.analysis;
  const rows = accounting.tables.filter(({ table }) => table === "injuries" || table === "single_sheet");
  const unknown = excluded.filter(({ code }) => notKnown.has(code));
  const unable = excluded.filter(({ code }) => !notKnown.has(code) && !notAsked.has(code));
  return [
    ...ofSome("set-aside", {
      n: rows.reduce((total, { set_aside }) => total + set_aside, 0),
      of: rows.reduce((total, { read }) => total + read, 0),
    }),
    ...ofSome("not-known-to-be-eligible", { n: sum(unknown), of: injuries, why: listOf(unknown) }),
    ...ofSome("cannot-answer", { n: sum(unable), of: injuries, why: listOf(unable) }),
  ];
}

/** Why no one treatment could be called the first. */
const notPlaced: ReadonlySet<string> = new Set([
  "two-first-treatments-on-one-day",
  "first-treatment-not-known",
  "first-treatment-not-read",
  "treatment-without-start",
]);

function treated({ groups, results: { accounting } }: Given): Found[] {
  const { analysed: of, left_out } = accounting.comparison;
  const unplaced = left_out.filter(({ code }) => notPlaced.has(code));
  return [
    ...groups.flatMap(({ label, n: all, had_another_before: n, before }) =>
      ofSome("had-another-before", { n, of: all, group: label, what: listOf(before) }),
    ),
    ...groups.flatMap(({ label, n: all, before_not_known: n }) =>
      ofSome("before-not-known", { n, of: all, group: label }),
    ),
    ...ofSome("not-placed", { n: sum(unplaced), of, why: listOf(unplaced) }),
  ];
}

/** The main differences of the share back, with something held equal or as the groups are. */
const mainDifferences = ({ effects }: Given["results"], kind: "crude" | "adjusted"): readonly ExactEffect[] =>
  effects.filter(
    ({ measure, main, adjusted_for }) =>
      measure === "landmark_difference" && main && adjusted_for.length > 0 === (kind === "adjusted"),
  );

function assigned({ results, specification: { comparison } }: Given): Found[] {
  const { adjustFor, reference } = comparison;
  const unlike = imbalanceOf(results.cohort, { adjustFor })
    .filter(({ fields }) => fields.length > 0)
    .map(({ label, fields }): Found => {
      const told = fields.slice(0, named).map(({ field, size }) => `${field}=${size.toFixed(2)}`);
      const facts = { group: label, reference, fields: told.join("|"), more: fields.length - told.length };
      return { code: "unlike-at-the-start", facts };
    });
  const how: Found =
    adjustFor.length === 0
      ? { code: "not-adjusted", facts: {} }
      : { code: "adjusted-only-for", facts: { fields: adjustFor.join("|") } };
  return [how, ...unlike];
}

function counted({ analysed, groups, results: { accounting } }: Given): Found[] {
  const { left_out } = accounting.comparison;
  const later = groups.reduce((total, { began_later }) => total + began_later, 0);
  const all = groups.reduce((total, { n }) => total + n, 0);
  const days = groups.flatMap(({ label, median_days, longest_days }) =>
    median_days === null || longest_days === null ? [] : [`${label}=${median_days}=${longest_days}`],
  );
  const before = left_out.filter(({ code }) => code === "milestone-before-treatment");
  return [
    ...ofSome("began-later", { n: later, of: all, days: days.join("|") }),
    ...ofSome("back-before-treatment", { n: sum(before), of: accounting.comparison.analysed }),
    ...ofSome("start-assumed", {
      n: analysed.filter(({ isTreatmentStartAssumed }) => isTreatmentStartAssumed).length,
      of: analysed.length,
    }),
  ];
}

function reached({ results: { definitions, follow_up, known_returns } }: Given): Found[] {
  const roughly = follow_up.known.filter(({ code }) => code !== "day" && code !== "not_reached");
  return [
    ...ofSome("dated-roughly", { n: sum(roughly), of: follow_up.milestones, path: known_returns.path }),
    ...(definitions === null
      ? []
      : ofSome("definitions-differ", {
          n: definitions.rows.length,
          pooled: definitions.pooled ? "yes" : "no",
        })),
  ];
}

function followed({
  groups,
  results: { follow_up },
  specification: { horizonDay: horizon_days },
}: Given): Found[] {
  return [
    ...groups.flatMap(({ label, n: of, lost: n }) => ofSome("lost", { n, of, group: label, horizon_days })),
    ...ofSome("other-ends", {
      n: sum(follow_up.competing),
      of: follow_up.n,
      what: listOf(follow_up.competing),
    }),
  ];
}

function contrasted({ groups, results }: Given): Found[] {
  const silent = mainDifferences(results, "crude").filter(({ estimate }) => estimate.value === null);
  return [
    ...groups.flatMap(({ label, n: all, went_on: n, later }) =>
      ofSome("went-on", { n, of: all, group: label, what: listOf(later) }),
    ),
    ...silent.map(
      ({ compared, reference, estimate }): Found => ({
        code: "no-figure",
        facts: { compared, reference, reason: estimate.reason ?? "not-computed" },
      }),
    ),
  ];
}

function analysed({ results }: Given): Found[] {
  return mainDifferences(results, "adjusted").flatMap((effect): Found[] => {
    const { compared, reference, left_out, n } = effect;
    const without = left_out.filter(({ reason }) => reason === "missing-covariate");
    const strata = left_out.filter(({ reason }) => reason !== "missing-covariate");
    const out = (items: typeof left_out) => ({
      n: items.reduce((total, one) => total + one.n, 0),
      of: n.compared + n.reference + left_out.reduce((total, one) => total + one.n, 0),
      compared,
      reference,
      what: items.map(({ stratum }) => stratum).join("|"),
    });
    return [...ofSome("field-not-recorded", out(without)), ...ofSome("strata-left-out", out(strata))];
  });
}
