import type { Mapping, Undecided } from "../mapping.js";
import { notUsedAnswer } from "../meaning.js";
import { tableOf } from "../table-of.js";

/** First and last distances, the day of the scan, and the day that the single sheet takes where there is none. */
const scans = [
  { which: "first", day: "date_first_scan", otherwise: "first_visit" },
  { which: "last", day: "date_last_scan", otherwise: null },
] as const;

/** The columns of ours that hold the distances of a scan. */
export const distancesOf = (which: string): readonly string[] => [
  `distance_rest_${which}`,
  `distance_loaded_${which}`,
];

/**
 * Asks once for the day of distances of which the file has no day of scan: that of another column, or none, in which case
 * the distances are not used, since a distance is compared by its day.
 */
export function questionsAboutScans(mapping: Mapping): readonly Undecided[] {
  if (mapping.table !== "single_sheet" || mapping.one_row === "visit") return [];
  const { columns, undecided } = mapping;
  const isAsked = (field: string) =>
    undecided.some(
      ({ decides, choices }) => Object.hasOwn(choices, field) || decides.some(([, name]) => name === field),
    );
  return scans.flatMap(({ which, day, otherwise }): Undecided[] => {
    const measured = distancesOf(which).filter((name) => columns[name]?.from !== undefined);
    const isGiven = columns[day] !== undefined || (otherwise !== null && columns[otherwise] !== undefined);
    if (measured.length === 0 || isGiven || isAsked(day) || (otherwise !== null && isAsked(otherwise)))
      return [];
    return [
      {
        question: `The ${which} distances have no day of scan. On which day were they taken?`,
        decides: [["day_of_scan", which]],
        choices: {
          ...daysIn(mapping),
          [notUsedAnswer]:
            "the day is not known: do not use these distances, which are compared by their day",
        },
      },
    ];
  });
}

/** The columns of the file that hold days, by what they are. */
function daysIn(mapping: Mapping): Readonly<Record<string, string>> {
  const dated = tableOf(mapping).fields.filter(({ when }) => when !== undefined);
  return Object.fromEntries(
    dated.flatMap(({ name, description }): [string, string][] => {
      const from = mapping.columns[name]?.from;
      return typeof from === "string" ? [[from, `on that day (${description.split(";")[0]})`]] : [];
    }),
  );
}
