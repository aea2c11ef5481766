import Papa from "papaparse";
import { dateOfDay, dayNumber } from "../../../../src/schema/index.js";
import { isOpen, type Knowledge } from "./clinic.js";

/** A shared folder as a stranger finds it: the text of each file by name. */
export type Folder = Readonly<Record<string, string>>;

type Row = Readonly<Record<string, string>>;

const rowsOf = (folder: Folder, table: string): readonly Row[] =>
  Papa.parse<Row>(folder[`${table}.csv`] ?? "", { header: true, skipEmptyLines: true }).data;

/** What the settings of the copy admit, read from its own disclosure. */
function settingsOf(folder: Folder) {
  const { settings } = JSON.parse(folder["disclosure.json"]!);
  return {
    // the copies of before had no window: a record ended at the close
    window: (settings.closingWindow ?? 1) as number,
    shift:
      settings.dates === "shifted" ? ((settings.shiftDays + (settings.closingWindow ?? 0)) as number) : null,
  };
}

/** Scores of the days on which an injury may have happened: logarithms of likelihoods, without those that are impossible. */
export type Scores = ReadonlyMap<number, number>;

/** A contact lies on a day on which the clinic is open but for slips; where it may have been moved, the odds are weaker. */
const odds = { open: Math.log(0.97 / 2), closed: Math.log(0.03 / 5) };

/**
 * The days on which each injury may have happened, by everything in the folder and the knowledge: the record lies
 * between the first day and the close, whoever is still followed had the last contact at the close or within the stated
 * window before it, contacts fall on days on which clinics are open, months keep the length that the copy kept, shifted
 * dates are shifted by at most the stated number of days.
 */
export function possibleDays(folder: Folder, knowledge: Knowledge): ReadonlyMap<string, Scores> {
  const { window, shift } = settingsOf(folder);
  const contacts = contactsOf(folder);
  return new Map(
    rowsOf(folder, "injuries").map((row) => {
      const start = dayNumber(row.injury_date!);
      const span = dayNumber(row.last_contact_date!) - start;
      const isFollowed = row.end_status === "in_follow_up";
      const after = (contacts.get(row.injury_id!) ?? []).map((day) => day - start);
      const scores = new Map<number, number>();
      const from = shift === null ? knowledge.first : Math.max(knowledge.first, start - shift);
      const to = Math.min(knowledge.close - span, shift === null ? Number.POSITIVE_INFINITY : start + shift);
      for (let day = from; day <= to; day++) {
        // days of contact may be told three days away
        if (
          isFollowed &&
          (day + span < knowledge.close - window + 1 - slackOf(window) || day + span > knowledge.close)
        )
          continue;
        if (!monthsFit(row, { day, start })) continue;
        scores.set(
          day,
          after.reduce((sum, later) => sum + (isOpen(day + later) ? odds.open : odds.closed), 0),
        );
      }
      return [row.injury_id!, scores];
    }),
  );
}

const slackOf = (window: number): number => (window === 1 ? 0 : 3);

function contactsOf(folder: Folder): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, Set<number>>();
  const add = (injury: string, date: string | undefined) => {
    if (date) found.set(injury, (found.get(injury) ?? new Set()).add(dayNumber(date)));
  };
  for (const row of rowsOf(folder, "injuries")) {
    add(row.injury_id!, row.first_visit_date);
    if (row.full_climbing_precision === "day") add(row.injury_id!, row.full_climbing_date);
  }
  for (const table of ["visits", "imaging"])
    for (const row of rowsOf(folder, table)) add(row.injury_id!, row.date);
  for (const row of rowsOf(folder, "treatments")) add(row.injury_id!, row.start_date);
  return new Map([...found].map(([injury, days]) => [injury, [...days]]));
}

/** A date that still says "month" stood on the same day of a month as long. */
function monthsFit(row: Row, { day, start }: { readonly day: number; readonly start: number }): boolean {
  if (row.full_climbing_precision !== "month") return true;
  const told = dayNumber(row.full_climbing_date!);
  const real = day + told - start;
  return dateOfDay(real).slice(8) === dateOfDay(told).slice(8) && monthOf(real) === monthOf(told);
}

function monthOf(day: number): number {
  const first = dayNumber(`${dateOfDay(day).slice(0, 8)}01`);
  return dayNumber(`${dateOfDay(first + 31).slice(0, 8)}01`) - first;
}

/** The likeliest day; of days alike the one in the middle. Null where no day is possible. */
export function bestDay(scores: Scores): number | null {
  const most = Math.max(...scores.values());
  const best = [...scores].filter(([, score]) => score === most).map(([day]) => day);
  return best[Math.floor(best.length / 2)] ?? null;
}

/** What several copies say together: days possible in all of them. */
export function together(copies: readonly ReadonlyMap<string, Scores>[]): ReadonlyMap<string, Scores> {
  const [first, ...others] = copies;
  return new Map(
    [...first!].map(([injury, scores]) => {
      const all = others.map((copy) => copy.get(injury)).filter((each): each is Scores => each !== undefined);
      const days = [...scores].filter(([day]) => all.every((each) => each.has(day)));
      return [
        injury,
        new Map(days.map(([day, score]) => [day, all.reduce((sum, each) => sum + each.get(day)!, score)])),
      ];
    }),
  );
}

/** The site of each injury whose site is hidden: by its rater where another row has both, else by the weeks of its visits. */
export function guessedSites(folder: Folder, knowledge: Knowledge): ReadonlyMap<string, string> {
  const injuries = rowsOf(folder, "injuries");
  const sites = new Map(injuries.map((row) => [row.injury_id!, row.site_id ?? ""]));
  const raterOf = new Map(rowsOf(folder, "imaging").map((row) => [row.injury_id!, row.rater ?? ""]));
  const siteOfRater = new Map<string, string>();
  for (const [injury, rater] of raterOf) {
    const site = sites.get(injury);
    if (site && rater) siteOfRater.set(rater, site);
  }
  const visits = contactsOf(folder);
  // which name a site has is told by the rows that have one: the schedule that fits them best
  const named = new Map<string, string>();
  for (const site of new Set([...sites.values()].filter((name) => name !== ""))) {
    const own = injuries.filter((row) => row.site_id === site);
    named.set(
      bestSchedule(
        own.flatMap((row) => weeksOf(row, visits)),
        knowledge,
      ),
      site,
    );
  }
  return new Map(
    injuries
      .filter((row) => !row.site_id)
      .map((row) => {
        const byRater = siteOfRater.get(raterOf.get(row.injury_id!) ?? "");
        const schedule = bestSchedule(weeksOf(row, visits), knowledge);
        return [row.injury_id!, byRater ?? named.get(schedule) ?? schedule];
      }),
  );
}

function weeksOf(row: Row, visits: ReadonlyMap<string, readonly number[]>): readonly number[] {
  return (visits.get(row.injury_id!) ?? []).map((day) => (day - dayNumber(row.injury_date!)) / 7);
}

function bestSchedule(weeks: readonly number[], { schedules }: Knowledge): string {
  const cost = (schedule: readonly number[]) =>
    weeks.reduce(
      (sum, week) => sum + Math.min(1, ...[0, ...schedule].map((each) => Math.abs(week - each - 0.3))),
      0,
    );
  return Object.entries(schedules).sort(([, one], [, other]) => cost(one) - cost(other))[0]![0];
}

/** The grade of each injury whose grade is hidden or joined, by the pulleys, their extents and the operation. */
export function guessedGrades(folder: Folder): ReadonlyMap<string, string> {
  const operated = new Set(
    rowsOf(folder, "treatments")
      .filter(({ treatment }) => treatment === "surgery")
      .map(({ injury_id }) => injury_id!),
  );
  return new Map(
    rowsOf(folder, "injuries")
      .filter(({ grade }) => grade === "unknown" || grade === "4_undivided")
      .map((row) => [row.injury_id!, gradeOf(row, operated.has(row.injury_id!))]),
  );
}

function gradeOf({ pulleys = "", pulley_extents = "", bowstringing }: Row, isOperated: boolean): string {
  if (bowstringing === "visible" || isOperated) return "4b";
  if (pulleys.includes("|")) return "4a";
  if (pulley_extents === "strain") return "1";
  return pulleys === "A2" && pulley_extents === "complete" ? "3" : "2";
}

/** Names of injuries in their order in the folder. */
export const orderOf = (folder: Folder): readonly string[] =>
  rowsOf(folder, "injuries").map((row) => row.injury_id!);
