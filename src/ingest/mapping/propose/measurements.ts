import type { Field } from "../../../schema/field.js";
import { isAge } from "../apply/age-text.js";
import { birthEvidence } from "./births.js";
import { contentReader } from "./content.js";
import type { FileOrder } from "./date-orders.js";
import { looksLikeFraction, looksLikeTimeSince } from "./date-shapes.js";
import type { Matching } from "./match-columns.js";
import { countPassing, type Profile, speaksOf } from "./profile.js";
import { type Dated, shareInSequence } from "./sequence.js";

/** What is known about a file when a column is looked at that no field was given. */
export interface Surroundings {
  /** Fields without a column. */
  readonly free: readonly Field[];
  readonly matching: Matching;
  readonly order: FileOrder;
  readonly dated: readonly Dated[];
}

/** Share of the filled cells that must be readable. */
const leastShare = 0.8;
const leastWords = 0.6;
/** Of a column of dates, the rest may say that the thing has not happened. */
const leastDated = 0.5;
const mostFields = 12;

/**
 * The fields that a column may hold though its name does not say so: of a column of dates, times since the injury,
 * distances or known words, the fields of that kind that are free, the likeliest first. Of any other column none.
 */
export function fieldsMeasured(
  profile: Profile,
  { free, matching, order, dated }: Surroundings,
): readonly Field[] {
  if (profile.filled.length === 0) return [];
  const birth = birthEvidence(profile, { order, injury: dated.find(({ when }) => when === "injury") });
  if (birth?.isOfBirths === true && birth.births === "dates") return free.filter(isAge);
  const isDated = isOfDates(profile) && (order.order === null || mayFollowInjury(profile, { order, dated }));
  const isDistance = looksLikeDistance(profile);
  const fitting = free.filter((field) => {
    if (field.kind === "choice" || field.kind === "list") return holdsWordsOf(field, profile);
    const isDateField = field.kind === "date" || field.kind === "period";
    if (isDateField ? !isDated : !isDistance || field.unit !== "mm") return false;
    return (contentReader(field)(profile).share ?? 0) >= leastShare;
  });
  const likelihood = new Map(matching.couldBe.get(profile.name)?.map(({ field, name }) => [field, name]));
  return fitting
    .map((field, i) => ({ field, place: i, name: likelihood.get(field) ?? 0 }))
    .sort((one, other) => other.name - one.name || one.place - other.place)
    .slice(0, mostFields)
    .map(({ field }) => field);
}

/** Words that nothing else looks like: not yes and no, which many columns hold. */
function holdsWordsOf(field: Field, profile: Profile): boolean {
  if (field.terms?.includes("yes") || profile.distinct.size < 2) return false;
  const { share, power } = contentReader(field)(profile);
  return power === 1 && (share ?? 0) >= leastWords;
}

function isOfDates({ distinct, dates, filled, read }: Profile): boolean {
  const isTime = (cell: string) =>
    looksLikeTimeSince(cell) || looksLikeFraction(cell) || (read.counted !== null && /^\d/.test(cell));
  const measured = countPassing({ distinct }, (cell) => dates.has(cell) || isTime(cell));
  return measured >= filled.length * leastDated;
}

/** Dates before the injury are of nothing that follows from it. */
function mayFollowInjury(profile: Profile, { order, dated }: Pick<Surroundings, "order" | "dated">): boolean {
  const share = shareInSequence({ when: "course", profile }, { others: dated, order: order.order! });
  return share === null || share >= 1 - leastShare;
}

const writtenInMillimetres = /\d\s*(?:mm|cm)\b/i;
const withDecimals = /^[<>]?\s*\d+[.,]\d+/;

/** Numbers of the size of a distance that have decimals or a unit of length, under no name of something else. */
function looksLikeDistance(profile: Profile): boolean {
  const { filled, read } = profile;
  if (speaksOf(profile, ["distance", "scan"]) || read.unit === "mm" || read.unit === "cm") return true;
  if (speaksOf(profile, ["pain", "mass", "height", "years", "age", "level", "grade", "grip"])) return false;
  const fine = countPassing(profile, (cell) => writtenInMillimetres.test(cell) || withDecimals.test(cell));
  return fine >= filled.length * leastDated;
}
