import type { OutcomeRecord } from "../cohort/record.js";
import {
  type DifferenceSupposed,
  differenceAfterLoss,
  type LossInGroups,
  type ShareSupposed,
  shareAfterLoss,
  type Tipping,
  widestFactor,
} from "../statistics/survival/after-loss/index.js";
import { countedFor } from "./columns.js";
import { estimateOf } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import { possibleDays } from "./follow-up.js";
import type { Group, Grouping } from "./groups.js";
import { type PairRows, recordedRows } from "./pair-rows.js";
import type { Pair } from "./pairs.js";
import type { Specification } from "./specification.js";

type LossBounds = NonNullable<ExactResults["loss_bounds"]>;
type ShareRow = LossBounds["shares"][number];
type DifferenceRow = LossBounds["differences"][number];

/** Factors of the figure: each with its inverse. */
const factors = [1 / 8, 1 / 6, 1 / 5, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 4 / 5, 1, 5 / 4, 3 / 2, 2, 3, 4, 5, 6, 8];

/** A share crosses it where more are back than not. */
const line = 0.5;

type Asked = Pick<
  Specification,
  "landmarks" | "comparison" | "horizonDay" | "level" | "shareBack" | "question"
>;
type AskedOnDay = Asked & { readonly day: number };

/**
 * The share back at the main landmark in each group, and each main difference, if those lost before it were unlike those followed: the worst and the best
 * case, and by what factor their hazard of return would have to differ for the answer to change. Null where the study reads no share at its main landmark.
 */
export function lossBoundsOf(
  {
    all,
    compared,
    pairs,
  }: { readonly all: Grouping; readonly compared: Grouping; readonly pairs: readonly Pair[] },
  asked: Asked,
): ExactResults["loss_bounds"] {
  const main = asked.landmarks.find(({ isMain }) => isMain);
  if (main === undefined) return null;
  const { week, day } = main;
  const onDay = { ...asked, day };
  const sharesOf = (family: ShareRow["family"], { groups }: Grouping) =>
    groups.map((group): ShareRow => ({ family, ...shareOf(group, onDay) }));
  return {
    week,
    day,
    line,
    widest_factor: widestFactor,
    shares: [...sharesOf("all", all), ...sharesOf("compared", compared)],
    differences: pairs.flatMap((pair) => differencesOf(pair, onDay)),
  };
}

/** Lost before a day, and before the data were closed: what became of them by then is not known. */
const lostBefore = (
  records: readonly OutcomeRecord[],
  { day: horizonDay, question }: AskedOnDay,
): Uint8Array =>
  Uint8Array.from(records, (record) =>
    record.end === "censored" && record.time < possibleDays(record, { horizonDay, question }) ? 1 : 0,
  );

function shareOf({ label, records, columns }: Group, asked: AskedOnDay): Omit<ShareRow, "family"> {
  const { day: time, level, shareBack } = asked;
  const found = shareAfterLoss(
    { ...countedFor(columns, shareBack), lost: lostBefore(records, asked) },
    { time, factors: [...factors], line, level },
  );
  const points = found.points.map(({ factor, ...share }) => ({ factor, figure: shareFigure(share) }));
  return {
    label,
    n: records.length,
    lost: found.lost,
    none_back: shareFigure(found.none),
    as_followed: asFollowed(points),
    all_back: shareFigure(found.all),
    points,
    line: tippingOf(found.crossing),
  };
}

const shareFigure = ({ returned: value, ...limits }: ShareSupposed) => estimateOf({ value, ...limits });
const differenceFigure = ({ difference: value, ...limits }: DifferenceSupposed) =>
  estimateOf({ value, ...limits });
const asFollowed = <Figure>(
  points: readonly { readonly factor: number; readonly figure: Figure }[],
): Figure => points.find(({ factor }) => factor === 1)!.figure;

/** A difference as the groups are, and like for like where something is held equal. */
function differencesOf(pair: Pair, asked: AskedOnDay): DifferenceRow[] {
  const { strata: fields, smallestGroup: smallest } = asked.comparison;
  const crude = differenceIn(pair, { rows: pair, held: [], options: {} }, asked);
  if (pair.standardised === null) return [crude];
  const { rows } = recordedRows(pair, { strata: fields, numbers: [] });
  const options = { horizon: asked.horizonDay, smallest };
  return [crude, differenceIn(pair, { rows, held: fields, options }, asked)];
}

interface Held {
  readonly rows: PairRows;
  /** Fields held equal. */
  readonly held: readonly string[];
  readonly options: { readonly horizon?: number; readonly smallest?: number };
}

function differenceIn(
  { compared, reference }: Pair,
  { rows, held, options }: Held,
  asked: AskedOnDay,
): DifferenceRow {
  const { day: time, level, shareBack } = asked;
  const columns: LossInGroups = {
    ...countedFor(rows.columns, shareBack),
    lost: lostBefore(rows.records, asked),
    groups: rows.isCompared,
  };
  const found = differenceAfterLoss(
    held.length === 0 ? columns : { ...columns, strata: rows.strata!.codes },
    { ...options, time, factors: [...factors], level },
  );
  const points = found.points.map(({ factor, ...difference }) => ({
    factor,
    figure: differenceFigure(difference),
  }));
  return {
    compared: compared.label,
    reference: reference.label,
    adjusted_for: [...held],
    lost: { compared: found.lost[1], reference: found.lost[0] },
    lowest: differenceFigure(found.lowest),
    as_followed: asFollowed(points),
    highest: differenceFigure(found.highest),
    points,
    tipping: tippingOf(found.tipping),
  };
}

const sides = { "-1": "below", "0": "across", "1": "above" } as const;

function tippingOf(found: Tipping | null): DifferenceRow["tipping"] {
  if (found === null) return null;
  const { from, to, factor, holdsAtBounds } = found;
  return { from: sides[from], to: to === null ? null : sides[to], factor, holds_at_bounds: holdsAtBounds };
}
