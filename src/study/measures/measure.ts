import type { BothSides, Pair } from "../pairs.js";
import type { Estimate, leftOutReasons } from "../results-parts.js";
import type { Specification } from "../specification.js";

/** Units of effects: a share of 1, days, a ratio, millimetres. */
export const effectUnits = ["share", "d", "ratio", "mm"] as const;
export type EffectUnit = (typeof effectUnits)[number];

/** A difference of two figures: 0 means no difference. */
export const difference = { scale: "difference", nullValue: 0, axis: "linear" } as const;
/** A ratio of two figures: 1 means no difference, and half is as far from it as double. */
export const ratio = { scale: "ratio", nullValue: 1, axis: "logarithmic" } as const;

/** What every reader of a measure must know of it: sections, figures, tables, sentences and methods take it from here. */
export interface MeasureFacts {
  readonly unit: EffectUnit;
  readonly scale: "difference" | "ratio";
  /** The value that means no difference between the groups. */
  readonly nullValue: number;
  /** How the axis of a figure is divided. */
  readonly axis: "linear" | "logarithmic";
  /** What is compared: the return to climbing, or the tendon-phalanx distance. */
  readonly outcome: "return" | "distance";
  /** What a value above the null value means for the patients of the compared group. */
  readonly above: "better" | "worse";
  /** What the day of an effect is: the landmark at which it is read, the horizon up to which it counts; null without a day. */
  readonly day: "landmark" | "horizon" | null;
  /** What it is computed from. Measures of one basis stand together, crude ones before adjusted ones. */
  readonly basis: "curves" | "hazards" | "distances";
}

type Sides = Readonly<Record<"compared" | "reference", number>>;

/** One estimate of a measure for two groups, with whatever is not the same for every effect of the two. */
export interface Estimated<Method extends string = string> {
  readonly method: Method;
  readonly estimate: Estimate;
  readonly standard_error: number | null;
  readonly p: number | null;
  /** Whether it is the one of its measure that the plain words and the forest show. */
  readonly main: boolean;
  /** The landmark or the horizon, where the measure has one. */
  readonly at_day?: number;
  /** The injuries that it rests on; those of both groups where left out. */
  readonly sides?: BothSides;
  /** How many of them enter it, where it is about something else than their return. */
  readonly n?: Sides;
  readonly events?: Sides;
  /** Whether the interval allows for several injuries of one person; as for the groups where left out. */
  readonly clustered?: boolean;
  readonly strata_used?: readonly string[];
  readonly left_out?: readonly {
    readonly stratum: string;
    readonly n: number;
    readonly reason: (typeof leftOutReasons)[number];
  }[];
}

/** An estimate with something held equal between the groups. */
export interface Adjusted<Method extends string = string> extends Estimated<Method> {
  /** What is held equal: at least one field. */
  readonly adjusted_for: readonly string[];
}

/** A way of comparing two groups: its facts, and how it is computed. */
export interface Measure<Key extends string = string, Method extends string = string> extends MeasureFacts {
  /** Its name in results, and of its words. */
  readonly key: Key;
  /** The methods that its estimates can be by. */
  readonly methods: readonly Method[];
  /** Its estimates for a pair: none where the data do not hold what it compares. */
  readonly estimate: (
    pair: Pair,
    specification: Specification,
  ) => { readonly crude: readonly Estimated<Method>[]; readonly adjusted: readonly Adjusted<Method>[] };
}

/** A measure whose key and methods the compiler knows by name. */
export const measure = <const Key extends string, const Method extends string>(
  one: Measure<Key, Method>,
): Measure<Key, Method> => one;
