import { causeOf } from "../../cohort/columns.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import { competingEnds } from "../../schema/terms.js";
import type { Covariates } from "../../statistics/index.js";
import { chosenAmong } from "../../statistics/survival/accelerated/accelerated-comparison.js";
import { type LossUnder, lossUnder } from "../../statistics/survival/between-visits/after-loss/loss-under.js";
import { incidenceUnder } from "../../statistics/survival/between-visits/incidence-between-visits.js";
import type {
  DifferenceBetweenVisits,
  GroupBetweenVisits,
  IncidenceBetweenVisits,
  VisitDifference,
  VisitFigure,
} from "../../statistics/survival/between-visits/index.js";
import { type JointFigures, jointUnder } from "../../statistics/survival/between-visits/joint-figures.js";
import { type VisitModels, visitModelsOf } from "../../statistics/survival/between-visits/visit-models.js";
import { columnsOf, personsAmong } from "../columns.js";
import { estimateOf, missing } from "../estimates.js";
import type { FamilyModel } from "../results-curves.js";
import type { Estimate, ReasonCode } from "../results-parts.js";
import type { Specification } from "../specification.js";
import { spanColumnsOf } from "./span-columns.js";
import { type TimeRatio, timeRatioOf } from "./time-ratio.js";

/** Records that are one group. */
interface Members {
  readonly records: readonly OutcomeRecord[];
}

/** One group's figures under the model, or why it has none. */
export type ModelledGroup = GroupBetweenVisits | ReasonCode;

/** What a model of the times to a return says of several groups. */
export interface Modelled {
  readonly model: Omit<FamilyModel, "time_ratios">;
  /** In the order of the groups. */
  readonly groups: readonly ModelledGroup[];
  /** One group less another, by their places. */
  readonly difference: (compared: number, reference: number) => ModelledDifference | ReasonCode;
  /** Of two groups, by their places; null where the model has no single ratio of times. */
  readonly timeRatio: (compared: number, reference: number) => TimeRatio | null;
  /** The same model if those lost were unlike those followed; null where nobody returned. */
  readonly afterLoss: (lost: Lost) => LossUnder | null;
  /** Shares by these days and the mean days, with their variance matrices, by the places of the groups; null where the model has no figures. */
  readonly joint: (days: readonly number[]) => JointFigures | null;
}

/** Who was lost, and what is supposed of them. */
interface Lost {
  readonly isLost: (record: OutcomeRecord) => boolean;
  /** Within what losses are counted besides the groups, one entry a record in the order of the groups; null for nothing. */
  readonly cells: readonly number[] | null;
  readonly day: number;
  readonly factors: readonly number[];
  readonly line: number;
}

export type ModelledDifference = Pick<DifferenceBetweenVisits, "shares" | "restrictedMean">;

export interface ModelOptions
  extends Pick<Specification, "landmarks" | "horizonDay" | "level" | "shareBack"> {
  readonly clustered: boolean;
  /** What groups are made alike in, one entry a record in the order of the groups. */
  readonly covariates?: Covariates;
}

/** Groups without a return have no time to it to be modelled, and stand aside. */
export function modelled(members: readonly Members[], options: ModelOptions): Modelled {
  const returned = members.map(({ records }) => records.some(({ end }) => end === "milestone"));
  const fit = fitOf(members, { ...options, returned });
  const fitted = fit?.fitted ?? null;
  const groups = members.map((_, i): ModelledGroup => {
    if (!returned[i]) return members[i]!.records.length === 0 ? "no-rows" : "no-events";
    return fitted?.reason ?? fitted?.groups.find(({ group }) => group === i) ?? "no-events";
  });
  return {
    model: modelTold(fitted),
    groups,
    difference: (compared, reference) => {
      const silent = [groups[compared], groups[reference]].find((one) => typeof one === "string");
      if (silent !== undefined) return silent;
      const found = (group: number, against: number) =>
        fitted?.differences.find((one) => one.group === group && one.against === against);
      const turned = found(reference, compared);
      return found(compared, reference) ?? (turned === undefined ? "one-group" : turnedRound(turned));
    },
    timeRatio: (compared, reference) => {
      const silent = [groups[compared], groups[reference]].some((one) => typeof one === "string");
      if (fitted === null || silent) return null;
      const kept = members.flatMap(({ records }, i) => (returned[i] ? records : []));
      const units = options.clustered ? personsAmong(kept) : kept.length;
      return timeRatioOf(fitted, { compared, reference, units, level: options.level });
    },
    afterLoss: (lost) => (fit === null ? null : afterLossOf(fit, lost)),
    joint: (times) => (fit === null ? null : jointUnder(fit.prepared, { times })),
  };
}

function afterLossOf(
  { prepared, records, kept }: Fit,
  { isLost, cells, day: time, factors, line }: Lost,
): LossUnder {
  const lost = records.map((record) => Number(isLost(record)));
  const parted = cells === null ? {} : { cells: kept.map((row) => cells[row]!) };
  return lossUnder({ prepared, lost, ...parted }, { time, factors, line });
}

const turnedRound = ({ shares, restrictedMean }: ModelledDifference): ModelledDifference => ({
  shares: shares.map(({ time, ...figure }) => ({ time, ...negative(figure) })),
  restrictedMean: negative(restrictedMean),
});

const negative = ({ estimate, lower, upper, ...same }: VisitDifference): VisitDifference => {
  const less = (value: number | null) => (value === null ? null : -value);
  return { ...same, estimate: less(estimate), lower: less(upper), upper: less(lower) };
};

/** The models of the records of groups in which somebody returned, and what they say. */
interface Fit {
  readonly prepared: VisitModels;
  readonly fitted: IncidenceBetweenVisits;
  readonly records: readonly OutcomeRecord[];
  /** Places of these records among all. */
  readonly kept: readonly number[];
}

function fitOf(
  members: readonly Members[],
  options: ModelOptions & { readonly returned: readonly boolean[] },
): Fit | null {
  const { returned, clustered, covariates, level, horizonDay: horizon } = options;
  const places = members.flatMap(({ records }, i) => records.map(() => i));
  const all = members.flatMap(({ records }) => records);
  const kept = places.flatMap((place, row) => (returned[place] ? [row] : []));
  if (kept.length === 0) return null;
  const records = kept.map((row) => all[row]!);
  const { clusters } = columnsOf(records, { clustered }).timeToEvent;
  const prepared = visitModelsOf(
    {
      ...spanColumnsOf(records, options),
      groups: kept.map((row) => places[row]!),
      ...(clusters === undefined ? {} : { clusters }),
      ...(covariates === undefined
        ? {}
        : {
            covariates: {
              ...covariates,
              columns: covariates.columns.map((column) => kept.map((row) => column[row]!)),
            },
          }),
    },
    { end: causeOf("milestone"), laws: chosenAmong, level, horizon },
  );
  const fitted = incidenceUnder(prepared, { times: daysOf(members, options) });
  return { prepared, fitted, records, kept };
}

/** Whole weeks up to the last day that is drawn, and the landmarks. */
export function daysOf(
  members: readonly Members[],
  { landmarks, horizonDay }: Pick<ModelOptions, "landmarks" | "horizonDay">,
): number[] {
  const last = members.reduce(
    (latest, { records }) => records.reduce((day, { time }) => Math.max(day, time), latest),
    0,
  );
  const weeks = Math.max(1, Math.ceil(Math.min(last, 2 * horizonDay) / 7));
  const days = Array.from({ length: weeks }, (_, week) => 7 * (week + 1));
  return [...new Set([...days, ...landmarks.map(({ day }) => day)])].sort((a, b) => a - b);
}

function modelTold(fitted: IncidenceBetweenVisits | null): Modelled["model"] {
  const own = fitted?.models.find(({ end }) => end === fitted.end);
  return {
    form: own?.form ?? null,
    law: own?.law ?? null,
    aic: own?.aic ?? null,
    laws: (own?.compared ?? []).map(({ fit: { law, aic } }) => ({ law, aic })),
    other_ends: (fitted?.models ?? [])
      .filter(({ end }) => end !== fitted!.end)
      .flatMap(({ end, law, aic }) => {
        const name = competingEnds.find((one) => causeOf(one) === end);
        return name === undefined ? [] : [{ end: name, law, aic }];
      }),
    reason: fitted === null ? "no-events" : fitted.reason,
  };
}

/** A figure of the model with its limits, or why there is none. */
export const estimateOfVisits = ({ estimate: value, lower, upper, reason }: VisitFigure): Estimate =>
  value === null ? missing(reason ?? "no-rows") : estimateOf({ value, lower, upper, reason });
