import type { Chance } from "./chance.js";
import { cameToClinic, type Life, livePerson, type Person } from "./life.js";
import type { Grade, Program } from "./program.js";

/** A cohort as a clinic keeps it: its files as text. */
export interface Files {
  readonly study: string;
  readonly injuries: string;
  readonly treatments: string;
  /** Null where the day of each return is written down. */
  readonly visits: string | null;
}

const closedOn = "2023-12-31";
const firstDay = Date.UTC(2021, 0, 1);
const recruitedFor = 730;
const dayLength = 86_400_000;

/** A cohort of n injuries of people who came to the clinic. */
export function drawFiles(
  program: Program,
  { n, chance }: { readonly n: number; readonly chance: Chance },
): Files {
  const injuries: string[] = [];
  const treatments: string[] = [];
  const visits: string[] = [];
  for (let person = 1; injuries.length < n; person++) {
    const came = livePerson(program, chance)
      .filter(cameToClinic)
      .slice(0, n - injuries.length);
    const rows = rowsOf({ person, came, program }, chance);
    injuries.push(...rows.injuries);
    treatments.push(...rows.treatments);
    visits.push(...rows.visits);
  }
  return {
    study: studyText(program.visits !== null),
    injuries: fileOf(injuryColumns, injuries),
    treatments: fileOf(["injury_id", "treatment", "start_date"], treatments),
    visits: program.visits === null ? null : fileOf(["injury_id", "date", "kind", "full_climbing"], visits),
  };
}

const studyText = (hasVisits: boolean): string =>
  [
    "study: drawn",
    'title: "SYNTHETIC: a cohort that a program drew"',
    "synthetic: true",
    "data:",
    "  injuries: injuries.csv",
    "  treatments: treatments.csv",
    ...(hasVisits ? ["  visits: visits.csv"] : []),
    `  closed_on: ${closedOn}`,
    "",
  ].join("\n");

const fileOf = (columns: readonly string[], rows: readonly string[]): string =>
  `${[columns.join(","), ...rows].join("\n")}\n`;

const injuryColumns = [
  "injury_id",
  "person_id",
  "site_id",
  "injury_date",
  "first_visit_date",
  "hand",
  "finger",
  "pulleys",
  "grade",
  "sex",
  "age_at_injury",
  "last_contact_date",
  "end_status",
  "full_climbing_date",
  "full_climbing_precision",
  "gave_up_date",
  "new_rupture_date",
];
const fingers = ["ring", "middle"];
const pulleys: Readonly<Record<Grade, string>> = { "2": "A2", "3": "A2", "4a": "A2|A3" };

interface Came {
  /** Number of the person. */
  readonly person: number;
  readonly came: Person;
  readonly program: Program;
}

function rowsOf({ person, came, program }: Came, { uniform }: Chance) {
  const injured = Math.floor(uniform() * recruitedFor);
  const sex = uniform() < 0.4 ? "female" : "male";
  const age = String(18 + Math.floor(uniform() * 35));
  const on = (day: number) => new Date(firstDay + (injured + day) * dayLength).toISOString().slice(0, 10);
  const known = came.map((life) => knownOf(life, program, uniform));
  return {
    injuries: came.map((life, i) => {
      const { last, status, seen } = heard(life, known[i]!);
      const ifSeen = (day: number) => (day <= last ? on(day) : "");
      return [
        `P${person}-${i + 1}`,
        `P${person}`,
        "a",
        on(0),
        on(life.comes),
        "left",
        fingers[i]!,
        pulleys[life.grade],
        uniform() < program.gradeMissing ? "unknown" : life.grade,
        sex,
        age,
        on(last),
        status,
        known[i]!.visits === null && seen && life.back <= last ? on(life.back) : "",
        program.written.to,
        ifSeen(life.gaveUp),
        ifSeen(Math.min(life.rupturedBefore, life.rupturedAfter)),
      ].join(",");
    }),
    treatments: came.map((life, i) => `P${person}-${i + 1},${life.treatment},${on(life.comes)}`),
    visits: came.flatMap((life, i) =>
      visitDays(life, known[i]!).map(
        (day) => `P${person}-${i + 1},${on(day)},clinic,${life.back <= day ? "yes" : "no"}`,
      ),
    ),
  };
}

/** What is known of one injury: where its return is written down, no visits are needed for it. */
function knownOf({ treatment }: Life, program: Program, uniform: Chance["uniform"]): Program {
  const share = program.written.share[treatment];
  return share > 0 && uniform() < share ? { ...program, visits: null } : program;
}

/** Until when the clinic heard of an injury, how that ended, and whether it saw the return. */
function heard(life: Life, program: Program) {
  const end = Math.min(life.gaveUp, life.heardUntil);
  const last = program.visits === null ? end : lastDayKnown(life, program);
  const status = life.gaveUp <= life.heardUntil ? "gave_up" : "";
  return { last, status, seen: life.back <= last };
}

/** With visits alone nothing is known after the last of them but the day of an end that was told. */
function lastDayKnown(life: Life, program: Program): number {
  const told = [life.gaveUp, life.rupturedBefore].filter((day) => day <= life.heardUntil);
  return Math.max(...visitDays(life, program), ...told);
}

/** Days of the visits: the first, and those of the schedule while the clinic hears of the injury and nothing has ended it. */
function visitDays(life: Life, { visits }: Program): readonly number[] {
  if (visits === null) return [];
  const until = Math.min(life.heardUntil, life.gaveUp, life.rupturedBefore);
  const scheduled = visits[life.treatment].map((week) => 7 * week);
  return [life.comes, ...scheduled.filter((day) => day > life.comes && day <= until)];
}
