import { dateOfDay, dayNumber } from "../../../../src/schema/index.js";
import { type Generator, seededGenerator } from "../../../../src/statistics/shared/random.js";
import { sheetOf } from "../../ingest/sheets.js";
import { reading } from "../cohorts.js";

/** What somebody knows who lives there: nothing of it stands in a shared folder. */
export interface Knowledge {
  /** The day on which the data were closed, which everybody still followed has as last contact. */
  readonly close: number;
  /** The day on which the first patient was seen. */
  readonly first: number;
  /** Weekdays on which the clinics are open, Sunday 0. */
  readonly open: readonly number[];
  /** Days on which clinics are closed. */
  readonly holidays: ReadonlySet<number>;
  /** Weeks in which each site sees people. */
  readonly schedules: Readonly<Record<string, readonly number[]>>;
}

/** An invented injury as it stands at the clinic. */
export interface Truth {
  readonly injury: string;
  readonly person: string;
  readonly site: string;
  readonly day: number;
  readonly grade: string;
  readonly atClose: boolean;
  readonly toTheMonth: boolean;
}

const weekday = (day: number): number => (((day + 4) % 7) + 7) % 7;

export const knowledge: Knowledge = {
  close: dayNumber("2024-06-28"),
  first: dayNumber("2022-01-04"),
  open: [2, 5],
  holidays: new Set(
    ["04-15", "05-01", "05-26", "12-25", "12-26", "01-01"].flatMap((day) =>
      ["2022", "2023", "2024"].map((year) => dayNumber(`${year}-${day}`)),
    ),
  ),
  schedules: { "site-a": [3, 6, 9, 12, 20], "site-b": [6, 12, 26, 52], "site-c": [4, 8, 13, 30] },
};

export const isOpen = (day: number): boolean =>
  knowledge.open.includes(weekday(day)) && !knowledge.holidays.has(day);

/** The next day on which the clinic is open. */
function nextOpen(day: number): number {
  let at = day;
  while (!isOpen(at)) at += 1;
  return at;
}

const sites = ["site-a", "site-b", "site-c"] as const;
const kinds = [
  { grade: "1", pulleys: "A2", extents: "strain", bowstringing: "none" },
  { grade: "2", pulleys: "A4", extents: "complete", bowstringing: "none" },
  { grade: "3", pulleys: "A2", extents: "complete", bowstringing: "imaging_only" },
  { grade: "4a", pulleys: "A2|A3", extents: "complete|complete", bowstringing: "imaging_only" },
  { grade: "4b", pulleys: "A2|A3", extents: "complete|complete", bowstringing: "visible" },
] as const;

const oneOf = <T>(draw: Generator, from: readonly T[]): T => from[draw.integer(from.length)]!;

type Row = Record<string, string>;

/**
 * A cohort that the toolkit's own generator could not have made: clinics that are open on Tuesdays and Fridays, the closing
 * date as last contact of everybody still followed, raters and weeks of visits of each site, months by their fifteenth.
 *
 * @param options people; close: day on which these data were closed, the known one where not stated
 */
export function clinic({
  people,
  seed = 1,
  close = knowledge.close,
}: {
  readonly people: number;
  readonly seed?: number;
  readonly close?: number;
}) {
  const draw = seededGenerator(20_240_628, seed);
  const tables = {
    injuries: [] as Row[],
    treatments: [] as Row[],
    imaging: [] as Row[],
    visits: [] as Row[],
  };
  const truths: Truth[] = [];
  for (let at = 0; at < people; at++) {
    const person = `P${String(at + 1).padStart(3, "0")}`;
    const story = storyOf(person, { draw, at });
    if (story.day < close) truths.push(tell(story, { tables, close }));
  }
  const plan = { data: { closed_on: dateOfDay(close) }, distance: { threshold_mm: 2 } };
  const sheets = Object.entries(tables).map(([table, rows]) => sheetOf(table as keyof typeof tables, rows));
  const siteRows = sites.map((site_id) => ({
    site_id,
    definition_full: "all grips",
    definition_easy: "on the wall",
  }));
  return {
    truths,
    read: reading([...sheets, sheetOf("sites", siteRows)], plan as unknown as Parameters<typeof reading>[1]),
  };
}

interface Story {
  readonly person: string;
  readonly site: (typeof sites)[number];
  readonly day: number;
  readonly kind: (typeof kinds)[number];
  readonly rater: string;
  readonly sex: string;
  readonly age: number;
  readonly hand: string;
  readonly finger: string;
  readonly visits: readonly number[];
  /** The visit at which full climbing was found, and the last one. */
  readonly back: number;
  readonly lost: number | null;
  readonly toTheMonth: boolean;
}

function storyOf(person: string, { draw, at }: { readonly draw: Generator; readonly at: number }): Story {
  const site = oneOf(draw, sites);
  const span = knowledge.close - knowledge.first;
  const day = at === 0 ? knowledge.first : knowledge.first + draw.integer(span - 10);
  // every fourth was hurt in the last half-year, so that many are still followed
  const recent = at % 4 === 1 ? knowledge.close - 20 - draw.integer(170) : day;
  const first = nextOpen(recent + 1 + draw.integer(6));
  return {
    person,
    site,
    day: recent,
    kind: kinds[draw.integer(10) < 2 ? 3 + draw.integer(2) : draw.integer(3)]!,
    rater: `${site}-r${draw.integer(2)}`,
    sex: oneOf(draw, ["female", "male"]),
    age: 18 + draw.integer(30),
    hand: oneOf(draw, ["left", "right"]),
    finger: oneOf(draw, ["ring", "ring", "middle"]),
    visits: [
      first,
      ...knowledge.schedules[site]!.map((week) => nextOpen(recent + 7 * week + draw.integer(3))),
    ],
    back: 2 + draw.integer(3),
    lost: draw.integer(10) === 0 ? 1 + draw.integer(2) : null,
    toTheMonth: draw.integer(6) === 0,
  };
}

function tell(
  story: Story,
  {
    tables,
    close,
  }: {
    readonly tables: Record<"injuries" | "treatments" | "imaging" | "visits", Row[]>;
    readonly close: number;
  },
): Truth {
  const injury = `${story.person}-1`;
  const visits = story.visits.filter((day, place) => day <= close && place <= (story.lost ?? 99));
  const back = visits[story.back] ?? null;
  const done = visits.length === story.visits.length || (story.lost !== null && visits.length > story.lost);
  const last = done ? visits.at(-1)! : close;
  const text = (day: number) => dateOfDay(day);
  const middle = back === null ? "" : story.toTheMonth ? `${text(back).slice(0, 8)}15` : text(back);
  const { grade, pulleys, extents, bowstringing } = story.kind;
  tables.injuries.push({
    injury_id: injury,
    person_id: story.person,
    site_id: story.site,
    injury_date: text(story.day),
    first_visit_date: visits[0] === undefined ? "" : text(visits[0]),
    sex: story.sex,
    age_at_injury: String(story.age),
    hand: story.hand,
    finger: story.finger,
    grade,
    pulleys,
    pulley_extents: extents,
    bowstringing,
    last_contact_date: text(last),
    end_status: done ? (story.lost === null ? "completed" : "lost") : "in_follow_up",
    full_climbing_date: back !== null && middle > text(last) ? text(last) : middle,
    full_climbing_precision: back === null ? "" : story.toTheMonth ? "month" : "day",
  });
  for (const day of visits) {
    tables.visits.push({
      injury_id: injury,
      date: text(day),
      full_climbing: back !== null && day >= back ? "yes" : "no",
    });
  }
  if (visits[0] !== undefined) {
    tables.treatments.push({
      injury_id: injury,
      treatment: grade === "4b" ? "surgery" : "ring",
      start_date: text(visits[0]),
      end_date: "",
    });
    tables.imaging.push({
      injury_id: injury,
      date: text(visits[0]),
      modality: "ultrasound",
      pulley: "A2",
      position: "loaded",
      distance_mm: "3",
      rater: story.rater,
    });
  }
  const { person, site, day, toTheMonth } = story;
  return { injury, person, site, day, grade, atClose: !done, toTheMonth: toTheMonth && back !== null };
}
