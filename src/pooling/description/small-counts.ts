import { type Counting, countingOf, shareOf } from "../../study/small-cells/counting.js";
import type { Fewest } from "../../study/small-cells/index.js";
import type {
  DescribedField,
  ExactDescription,
  ExactField,
  ExactNumbers,
  Numbers,
  SiteDescription,
} from "./site-description.js";

/**
 * A description of which no count tells of fewer people than the smallest cell: such a count is left out, every other one is
 * rounded to a multiple of it, and so that no group is found by subtraction a part is left out also where the rest of its whole
 * is small. Figures have so few digits that none tells of a single person.
 *
 * @param description as it was made
 * @param fewest from how many rows on a count is told (`fewestRows` of the site's tables)
 */
export function withoutSmallCounts(description: ExactDescription, fewest: Fewest): SiteDescription {
  const counting = countingOf(fewest);
  const { analysed, injuries, persons, imaging, schedule, returns, loss } = description;
  const { told, part, rounded, roundedEstimate } = counting;
  const lost = part(loss.lost, analysed);
  return {
    ...description,
    injuries: told(injuries),
    analysed: told(analysed),
    persons: told(persons, fewest.people),
    fields: description.fields.map((field) => fieldWithout(field, counting)),
    imaging: imaging === null ? null : imagingWithout(imaging, { counting, fewest }),
    schedule: {
      seen: part(schedule.seen, analysed),
      contacts: numbersWithout(schedule.contacts, { counting, injuries: schedule.seen }),
      days_between: numbersWithout(schedule.days_between, { counting, injuries: schedule.longest_gap.n }),
      longest_gap: numbersWithout(schedule.longest_gap, { counting }),
    },
    returns: {
      ...returns,
      n: part(returns.n, analysed),
      known: partsWithout(returns.known, { whole: returns.n, counting }),
      wide: part(returns.wide, returns.n),
      wide_share: shareOf(part(returns.wide, returns.n), told(returns.n)),
      span_days: numbersWithout(returns.span_days, { counting }),
    },
    ends: partsWithout(description.ends, { whole: analysed, counting }),
    loss: {
      ...loss,
      lost,
      share: shareOf(lost, told(analysed)),
      completeness: counting.isEnough(analysed) ? rounded(loss.completeness, { shareOf: analysed }) : null,
    },
    follow_up_days: counting.isEnoughFor("median", analysed)
      ? roundedEstimate(description.follow_up_days, "week")
      : { value: null, lower: null, upper: null, reason: "small-cell" },
    small_cells: { choice: "leave-out", smallest: fewest.people },
  };
}

function fieldWithout(field: ExactField, counting: Counting): DescribedField {
  const { n, known, counts, numbers } = field;
  return {
    ...field,
    n: counting.told(n),
    known: counting.part(known, n),
    counts: counts === null ? null : partsWithout(counts, { whole: n, counting }),
    numbers: numbers === null ? null : numbersWithout(numbers, { counting }),
  };
}

type ExactCounts = readonly { readonly code: string; readonly n: number }[];

const partsWithout = (
  counts: ExactCounts,
  { whole, counting }: { readonly whole: number; readonly counting: Counting },
): SiteDescription["ends"] => counts.map(({ code, n }) => ({ code, n: counting.part(n, whole) }));

/** What is told of a number: nothing where too few injuries are behind it. */
function numbersWithout(
  numbers: ExactNumbers,
  { counting, injuries = numbers.n }: { readonly counting: Counting; readonly injuries?: number },
): Numbers {
  const { isEnough, isEnoughFor, rounded, told } = counting;
  const kept = (value: number | null, isTold: boolean) => (isTold ? rounded(value, "other") : null);
  const some = injuries > 0 && isEnough(injuries);
  return {
    n: some ? told(numbers.n) : told(injuries),
    mean: kept(numbers.mean, some),
    standard_deviation: kept(numbers.standard_deviation, some),
    median: kept(numbers.median, isEnoughFor("median", injuries)),
    lower_quartile: kept(numbers.lower_quartile, isEnoughFor("quartile", injuries)),
    upper_quartile: kept(numbers.upper_quartile, isEnoughFor("quartile", injuries)),
  };
}

/** Readings count as told where so many of them are certainly of enough people. */
function imagingWithout(
  imaging: NonNullable<ExactDescription["imaging"]>,
  { counting, fewest }: { readonly counting: Counting; readonly fewest: Fewest },
): NonNullable<SiteDescription["imaging"]> {
  const ofReadings = (n: number) => counting.told(n, fewest.rows.imaging);
  const counts = (list: ExactCounts) => list.map(({ code, n }) => ({ code, n: ofReadings(n) }));
  return {
    readings: ofReadings(imaging.readings),
    injuries: counting.told(imaging.injuries),
    modalities: counts(imaging.modalities),
    raters: imaging.raters,
    readings_with_rater: ofReadings(imaging.readings_with_rater),
    read_by_several: counting.part(imaging.read_by_several, imaging.injuries),
    blinded: counts(imaging.blinded),
  };
}
