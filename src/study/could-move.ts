import type { OutcomeRecord } from "../cohort/record.js";
import { groupFields } from "../schema/covariates.js";
import { labelOf } from "../schema/labels.js";
import { incidenceCurve, shareAt, standardisedCurves } from "../statistics/index.js";
import { columnsOf, countedFor } from "./columns.js";
import type { ExactResults } from "./exact-results.js";
import type { Grouping } from "./groups.js";
import { movedByShared } from "./ids-at-several-sites.js";
import { pairRowsOf, recordedRows } from "./pair-rows.js";
import type { ShareBack } from "./plan.js";
import type { Queried } from "./queried.js";
import type { Warning } from "./results.js";
import { movedBySetAside } from "./set-aside-moves.js";
import type { Specification } from "./specification.js";
import type { StratumAdjuster } from "./strata.js";

type SoFar = Omit<ExactResults, "warnings" | "small_cells">;
type Move = Warning["could_move"];
type Found = Omit<Warning, "could_move">;

interface Given {
  readonly results: SoFar;
  readonly all: Grouping;
  readonly compared: Grouping;
  readonly specification: Specification;
  readonly queried: Queried;
}

/**
 * How far what is warned of could move the main figure: the difference in the share back by the main landmark, or the share of everybody where
 * nothing is compared. Null where that cannot be computed.
 */
export function couldMove({ code, facts }: Found, given: Given): Move {
  switch (code) {
    case "lost-unequally":
    case "completeness-low":
      return moved("worst-and-best-case", byLoss(given.results));
    case "competing-ends-present":
      return moved("other-share-back", byOtherShare(given));
    case "inexact-dates":
      return moved("earliest-and-latest-dates", byDates(given));
    case "covariates-missing":
      return moved("without-these-injuries", byMissing(String(facts.field), given));
    case "queries-open":
      return moved("without-those-queried", byQueries(given));
    case "overlap-lacking":
      return moved("crude-and-adjusted", byAdjustment(facts, given.results));
    case "imbalance-not-held":
      return moved("adjusted-for-it", byHolding(facts, given));
    case "person-ids-at-several-sites":
      return moved(
        "ids-shared",
        movedByShared(given, { ...given.specification, path: given.results.known_returns.path }),
      );
    case "rows-set-aside":
      return movedBySetAside(given.results, given.specification);
    default:
      return null;
  }
}

const moved = (how: NonNullable<Move>["how"], points: number | null): Move =>
  points === null ? null : { points, how };

/** The largest of the amounts that are known. */
function largest(amounts: readonly (number | null)[]): number | null {
  const known = amounts.filter((amount) => amount !== null).map(Math.abs);
  return known.length === 0 ? null : Math.max(...known);
}

const less = (a: number | null | undefined, b: number | null | undefined): number | null =>
  a == null || b == null ? null : a - b;

/** Of each pair the difference like for like where there is one, else as the groups are; of everybody where nothing is compared. */
function byLoss({ loss_bounds }: SoFar): number | null {
  if (loss_bounds === null) return null;
  const { differences, shares } = loss_bounds;
  const held = differences.filter(
    ({ adjusted_for, as_followed }) => adjusted_for.length > 0 && as_followed.value !== null,
  );
  const main = held.length > 0 ? held : differences;
  if (main.length > 0)
    return largest(
      main.flatMap(({ lowest, as_followed, highest }) => [
        less(highest.value, as_followed.value),
        less(lowest.value, as_followed.value),
      ]),
    );
  return largest(
    shares
      .filter(({ family }) => family === "all")
      .flatMap(({ none_back, as_followed, all_back }) => [
        less(all_back.value, as_followed.value),
        less(none_back.value, as_followed.value),
      ]),
  );
}

/** The share back by the main landmark of some records; null where it is not known. */
function shareOf(
  records: readonly OutcomeRecord[],
  { landmarks, shareBack }: Pick<Specification, "landmarks"> & { readonly shareBack: ShareBack },
): number | null {
  const day = landmarks.find(({ isMain }) => isMain)?.day;
  if (day === undefined || records.length === 0) return null;
  return shareAt(incidenceCurve(countedFor(columnsOf(records, { clustered: false }), shareBack)), day)
    .returned;
}

/** A share read of some records. */
type Read = (records: readonly OutcomeRecord[]) => number | null;

/** The main figures with other records, or another reading of a share: differences of the groups as they are, or the share of everybody. */
function figuresOf(
  { all, compared, specification }: Given,
  read: { readonly compared: Read; readonly reference?: Read },
): (number | null)[] {
  const { labels, reference } = specification.comparison;
  const recordsOf = (label: string): readonly OutcomeRecord[] =>
    compared.groups.find((group) => group.label === label)?.records ?? [];
  const pairs = labels.filter((label) => label !== reference && recordsOf(label).length > 0);
  if (pairs.length === 0 || recordsOf(reference).length === 0)
    return all.groups.map(({ records }) => read.compared(records));
  const ofReference = (read.reference ?? read.compared)(recordsOf(reference));
  return pairs.map((label) => less(read.compared(recordsOf(label)), ofReference));
}

const apart = (one: readonly (number | null)[], other: readonly (number | null)[]): number | null =>
  largest(one.map((value, i) => less(value, other[i])));

function asItIs(given: Given): (number | null)[] {
  return figuresOf(given, { compared: (records) => shareOf(records, given.specification) });
}

function byOtherShare(given: Given): number | null {
  const { specification } = given;
  const shareBack = specification.shareBack === "of_everyone" ? "if_no_competing_end" : "of_everyone";
  const other = figuresOf(given, {
    compared: (records) => shareOf(records, { ...specification, shareBack }),
  });
  return apart(other, asItIs(given));
}

/** Every inexact return on its first possible day in one group and on its last in the other, and the other way about. */
function byDates(given: Given): number | null {
  const read =
    (which: "first" | "last"): Read =>
    (records) =>
      shareOf(
        records.map((record) => onDay(record, which)),
        given.specification,
      );
  const [first, last] = [read("first"), read("last")];
  const figures = asItIs(given);
  return largest([
    apart(figuresOf(given, { compared: first, reference: last }), figures),
    apart(figuresOf(given, { compared: last, reference: first }), figures),
  ]);
}

function onDay(record: OutcomeRecord, which: "first" | "last"): OutcomeRecord {
  const { end, milestone, entry } = record;
  if (end !== "milestone" || milestone.right === null) return record;
  const time = which === "first" ? milestone.left + 1 : milestone.right;
  return { ...record, time: Math.max(time, entry + 1, 0) };
}

/** Without the injuries in which a field was not recorded. */
function byMissing(field: string, given: Given): number | null {
  const { adjustFor } = given.specification.comparison;
  const code = adjustFor.find((one) => labelOf(one) === field);
  if (code === undefined) return null;
  const without = figuresOf(given, {
    compared: (records) =>
      shareOf(
        records.filter(({ covariates }) => covariates[code] !== null),
        given.specification,
      ),
  });
  return apart(without, asItIs(given));
}

/** Without the injuries asked about: all of them, or those of one kind of query. */
function byQueries(given: Given): number | null {
  const { injuries, byCode } = given.queried;
  const whole = new Map<readonly OutcomeRecord[], number | null>();
  const figures = figuresOf(given, {
    compared: (records) => {
      const share = shareOf(records, given.specification);
      whole.set(records, share);
      return share;
    },
  });
  const without =
    (queried: ReadonlySet<string>): Read =>
    (records) => {
      const left = records.filter(({ injury }) => !queried.has(injury));
      // most kinds of query ask about few injuries, and about none of some groups
      return left.length === records.length ? whole.get(records)! : shareOf(left, given.specification);
    };
  const kinds = byCode.size === 1 ? [] : [...byCode.values()];
  return largest(
    [injuries, ...kinds].map((queried) => apart(figuresOf(given, { compared: without(queried) }), figures)),
  );
}

/** The main difference of a pair, adjusted and crude. */
function mainOf({ effects }: SoFar, { compared, reference }: Warning["facts"]) {
  const own = effects.filter(
    (effect) =>
      effect.measure === "landmark_difference" &&
      effect.main &&
      effect.compared === compared &&
      effect.reference === reference,
  );
  const crude = own.find(({ adjusted_for }) => adjusted_for.length === 0)?.estimate.value ?? null;
  const adjusted = own.find(({ adjusted_for }) => adjusted_for.length > 0)?.estimate.value ?? null;
  return { crude, adjusted };
}

function byAdjustment(facts: Warning["facts"], results: SoFar): number | null {
  const { crude, adjusted } = mainOf(results, facts);
  return largest([less(adjusted, crude)]);
}

/** The main difference with a field held equal as well, as far as strata allow. */
function byHolding(facts: Warning["facts"], { results, compared, specification }: Given): number | null {
  const { comparison, landmarks, shareBack } = specification;
  const day = landmarks.find(({ isMain }) => isMain)?.day;
  const groups = [facts.compared, facts.reference].map((name) =>
    compared.groups.find(({ label }) => label === name),
  );
  const field = groupFields.find((one) => labelOf(one) === facts.field);
  if (day === undefined || field === undefined || groups.some((group) => group === undefined)) return null;
  const fields: StratumAdjuster[] = [...comparison.strata, field];
  const rows = pairRowsOf({ compared: groups[0]!, reference: groups[1]! }, { clustered: false, fields });
  const { records, isCompared, columns, strata } = recordedRows(rows, { strata: fields, numbers: [] }).rows;
  if (records.length === 0) return null;
  const { shares } = standardisedCurves(
    { ...countedFor(columns, shareBack), groups: isCompared, strata: strata!.codes },
    { times: [day], horizon: day, smallest: comparison.smallestGroup },
  );
  const { crude, adjusted } = mainOf(results, facts);
  return largest([less(shares?.[0]?.difference.difference, adjusted ?? crude)]);
}
