import { counted } from "../../schema/counted.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { InputError } from "../../schema/input-error.js";
import type { SiteRead } from "./site-read.js";

/** Rows of several sites do not go together. */
export class JoinError extends InputError {
  override readonly name = "JoinError";
}

/** Pairs of rows that are told one by one. */
const told = 5;

/**
 * Refuses injuries that are recorded at two sites: the same person, day, hand and finger. Dates on calendars of their own cannot
 * be compared between sites, so that sites with such dates are left alone.
 *
 * @param sites whose equal person ids are one person
 */
export function refuseTwice(sites: readonly SiteRead[]): void {
  const first = new Map<string, { readonly site: string; readonly where: string }>();
  const twice: string[] = [];
  for (const { site, read } of sites.filter(({ ownCalendars }) => !ownCalendars)) {
    for (const { file, row, values } of read.tables.injuries) {
      const { person_id, injury_date, hand, finger } = values;
      const key = JSON.stringify([person_id, injury_date, hand, finger]);
      const where = `${oneLine(file)}, row ${row} (site ${site})`;
      const before = first.get(key);
      if (before === undefined) first.set(key, { site, where });
      else if (before.site !== site) twice.push(`${where} is the injury of ${before.where}`);
    }
  }
  if (twice.length === 0) return;
  const more = twice.length > told ? [`and ${twice.length - told} more`] : [];
  throw new JoinError(
    `${counted(twice.length, "injury is", "injuries are")} recorded at two sites, with the same person, day, hand and finger: ${[...twice.slice(0, told), ...more].join("; ")}.\n  Person ids are shared, so it would count twice. Leave the row out at one of the sites, or write person_ids: per_site if equal ids are different people.`,
  );
}
