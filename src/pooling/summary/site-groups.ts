import { causeOf } from "../../cohort/columns.js";
import { competingEnds } from "../../schema/terms.js";
import { incidenceCurve } from "../../statistics/index.js";
import type { Analysed } from "../../study/analysed.js";
import { personsAmong } from "../../study/columns.js";
import { type Group, type Grouping, hasSpans } from "../../study/groups.js";
import type { Pair } from "../../study/pairs.js";
import type { JointFigureSet } from "./figures.js";
import { type Asked, crudeDifference, figuresOfGroup } from "./figures-by-days.js";
import { spansDifference, spansOfGroup } from "./figures-in-spans.js";
import { figuresOfOtherEnd } from "./other-end-figures.js";
import { standardisedDifferenceOf } from "./standardised-figures.js";

export type SummaryFamily = "all" | "grade" | "compared";

/** A group of a site with its figures, before it is settled what may leave. */
export interface ExactGroup {
  readonly family: SummaryFamily;
  readonly label: string;
  readonly entry: Grouping["entry"];
  /** Whether every return stands on a day, or the model of spans speaks. */
  readonly path: "days" | "spans";
  readonly n: number;
  readonly persons: number;
  readonly events: number;
  /** The person of each injury, by the injury's id; they stay at the site. */
  readonly members: ReadonlyMap<string, string>;
  readonly set: JointFigureSet;
  readonly otherEnds: readonly ExactOtherEnd[];
}

export interface ExactOtherEnd {
  readonly end: (typeof competingEnds)[number];
  readonly events: number;
  readonly persons: number;
  readonly set: JointFigureSet;
}

type Sides = Readonly<Record<"compared" | "reference", number>>;

/** Two groups of a site compared. */
export interface ExactComparison {
  readonly compared: string;
  readonly reference: string;
  readonly adjustedFor: readonly string[];
  readonly strata: readonly string[];
  readonly path: ExactGroup["path"];
  readonly n: Sides;
  readonly persons: Sides;
  readonly events: Sides;
  readonly set: JointFigureSet;
}

/** Everybody, each grade, and each compared group. */
export function exactGroups({ all, grades, groups, specification }: Analysed): ExactGroup[] {
  return [all, grades, groups].flatMap((grouping) =>
    grouping.groups.map((group, place) => groupOf(group, { grouping, place, asked: specification })),
  );
}

function groupOf(
  group: Group,
  { grouping, place, asked }: { readonly grouping: Grouping; readonly place: number; readonly asked: Asked },
): ExactGroup {
  const { label, records } = group;
  const spans =
    hasSpans(group) && grouping.modelled !== null
      ? spansOfGroup({ modelled: grouping.modelled, place, units: group.columns.units }, asked)
      : null;
  return {
    family: grouping.family as SummaryFamily,
    label,
    entry: grouping.entry,
    path: spans === null ? "days" : "spans",
    n: records.length,
    persons: personsAmong(records),
    events: records.filter(({ end }) => end === "milestone").length,
    members: new Map(records.map(({ injury, person }) => [injury, person])),
    set: spans ?? figuresOfGroup(group, asked),
    otherEnds: competingEnds.flatMap((end) => {
      const own = records.filter((record) => record.end === end);
      if (own.length === 0) return [];
      const curve = incidenceCurve(group.columns.competing, { cause: causeOf(end) });
      const set = figuresOfOtherEnd({ columns: group.columns, curve, cause: causeOf(end) }, asked);
      return [{ end, events: own.length, persons: personsAmong(own), set }];
    }),
  };
}

/** Each compared group against the reference: as they are, and like for like where something is held equal. */
export const exactComparisons = ({ pairs, specification }: Analysed): ExactComparison[] =>
  pairs.flatMap((pair) => [asTheyAre(pair, specification), ...likeForLike(pair, specification)]);

type Records = Readonly<Record<"compared" | "reference", Group["records"]>>;

const countsOf = (records: Records) => {
  const each = (count: (own: Group["records"]) => number): Sides => ({
    compared: count(records.compared),
    reference: count(records.reference),
  });
  return {
    n: each((own) => own.length),
    persons: each(personsAmong),
    events: each((own) => own.filter(({ end }) => end === "milestone").length),
  };
};

function asTheyAre(pair: Pair, asked: Asked): ExactComparison {
  const { compared, reference, spans } = pair;
  return {
    compared: compared.label,
    reference: reference.label,
    adjustedFor: [],
    strata: [],
    path: spans === null ? "days" : "spans",
    ...countsOf({ compared: compared.records, reference: reference.records }),
    set:
      spans === null
        ? crudeDifference(pair, asked)
        : spansDifference(
            {
              modelled: spans.model,
              places: spans.places,
              units: { compared: compared.columns.units, reference: reference.columns.units },
            },
            asked,
          ),
  };
}

function likeForLike(pair: Pair, asked: Asked): ExactComparison[] {
  const { compared, reference, standardised, spans } = pair;
  const common = { compared: compared.label, reference: reference.label };
  if (standardised !== null) {
    const { strata, records } = standardised;
    const set = standardisedDifferenceOf(standardised, asked);
    const adjustedFor = asked.comparison.strata;
    return [{ ...common, adjustedFor, strata, path: "days", ...countsOf(records), set }];
  }
  const adjusted = spans?.adjusted ?? null;
  if (adjusted === null) return [];
  const { fields, strata, records, model } = adjusted;
  const counts = countsOf(records);
  const places = { compared: 0, reference: 1 };
  const set = spansDifference({ modelled: model, places, units: counts.persons }, asked);
  return [{ ...common, adjustedFor: fields, strata, path: "spans", ...counts, set }];
}
