import { dateOfDay } from "../schema/dates.js";
import type { TreatmentRow, treatmentRow } from "../schema/treatments.js";
import type { Generator } from "../statistics/shared/random.js";
import { choose, chooseIndex, happens } from "./chance.js";
import type { DeclaredCells, DrawnCells } from "./declared-cells.js";
import type { DrawnInjury } from "./injury.js";
import type { Scenario } from "./scenario.js";

/** An episode in days from the injury; `to` null while it goes on. */
interface DrawnEpisode {
  readonly treatment: TreatmentRow["treatment"];
  readonly from: number;
  readonly to: number | null;
  readonly reason: TreatmentRow["reason_ended"];
}

/** What goes with each treatment; design choices that no result depends on. */
const details = {
  tape: {
    kinds: { h_tape: 8, circular: 1, figure_eight: 1 },
    hours: [8, 10, 12, 16],
    role: "hand therapist",
  },
  ring: { kinds: { thermoplastic_ring: 9, other_ring: 1 }, hours: [20, 22, 23, 24], role: "hand therapist" },
  surgery: {
    kinds: { retinaculum_graft: 3, tendon_graft_two_loops: 3, tendon_graft_one_loop: 2, direct_suture: 2 },
    hours: [],
    role: "hand surgeon",
  },
  rest: { kinds: { no_climbing: 1 }, hours: [], role: "hand therapist" },
  rehabilitation: {
    kinds: { home_programme: 2, supervised_programme: 1 },
    hours: [],
    role: "hand therapist",
  },
} as const;
const adherence = { always: 3, mostly: 5, partly: 2, none: 0.3 } as const;

/** Writes the treatments of one injury down, in order of their start; nothing begins after the last contact. */
export function treatmentRowsOf(
  {
    scenario,
    drawn,
    declared,
  }: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly declared: (generator: Generator) => DeclaredCells<typeof treatmentRow>;
  },
  generator: Generator,
): TreatmentRow[] {
  const { place, followUp, pattern } = drawn;
  const episodes = [
    ...backgroundEpisodes(drawn, generator),
    ...chosenEpisodes({ scenario, drawn }, generator),
  ];
  return episodes
    .filter(({ from }) => from <= followUp.lastContact)
    .sort((a, b) => a.from - b.from)
    .map(({ treatment, from, to, reason }): TreatmentRow => {
      const about = details[treatment as keyof typeof details];
      const ended = to !== null && to <= followUp.lastContact;
      const hours = about.hours.length > 0 ? about.hours[generator.integer(about.hours.length)]! : null;
      const cells: DrawnCells<typeof treatmentRow> = {
        injury_id: place.id,
        treatment,
        kind: choose(about.kinds as Readonly<Record<NonNullable<TreatmentRow["kind"]>, number>>, generator),
        start_date: dateOfDay(place.day + from),
        end_date: ended ? dateOfDay(place.day + to) : null,
        hours_per_day: hours,
        hours_per_day_worn: hours === null ? null : hours - generator.integer(4),
        days_per_week: hours === null ? null : 7,
        adherence: hours === null ? null : choose(adherence, generator),
        reason_ended: ended ? reason : null,
        pulleys_rebuilt: treatment === "surgery" ? pattern.pulleys : null,
        provider_role: about.role,
      };
      return { ...declared(generator), ...cells };
    });
}

/** Rest from the first visit on and, from half the way to easy climbing, a loading programme: for some. */
function backgroundEpisodes({ course, easyClimbing }: DrawnInjury, generator: Generator): DrawnEpisode[] {
  const { firstVisit } = course;
  const episodes: DrawnEpisode[] = [];
  if (firstVisit + 3 < easyClimbing && (course.treatment === "none" || happens(0.3, generator))) {
    const to = Math.min(easyClimbing - 1, firstVisit + 7 + generator.integer(8));
    episodes.push({ treatment: "rest", from: firstVisit, to, reason: "planned_end" });
  }
  const start = Math.max(firstVisit + 4, Math.round(easyClimbing / 2));
  if (start < easyClimbing && happens(0.5, generator))
    episodes.push({
      treatment: "rehabilitation",
      from: start,
      to: course.fullClimbing,
      reason: "planned_end",
    });
  return episodes;
}

/** The first treatment and what it was changed for, if it was. */
function chosenEpisodes(
  { scenario, drawn }: { readonly scenario: Scenario; readonly drawn: DrawnInjury },
  generator: Generator,
): DrawnEpisode[] {
  const { treatment, start, fullClimbing } = drawn.course;
  if (treatment === "none" || start === null) return [];
  if (treatment === "surgery") return [{ treatment, from: start, to: start, reason: "planned_end" }];
  const change = changeOf({ scenario, drawn, treatment, start }, generator);
  if (change === null)
    return [{ treatment, from: start, to: Math.max(start, fullClimbing), reason: "return_to_climbing" }];
  return [
    { treatment, from: start, to: change.day, reason: "changed_treatment" },
    change.to === "surgery"
      ? { treatment: "surgery", from: change.day, to: change.day, reason: "planned_end" }
      : {
          treatment: "ring",
          from: change.day,
          to: Math.max(change.day, fullClimbing),
          reason: "return_to_climbing",
        },
  ];
}

/** Whether and when the first treatment is changed: to a ring after one to four weeks, to surgery after four to nine. */
function changeOf(
  given: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly treatment: "tape" | "ring";
    readonly start: number;
  },
  generator: Generator,
): { readonly to: "ring" | "surgery"; readonly day: number } | null {
  const { tape_to_ring, to_surgery } = given.scenario.treatment;
  const { grade, easyClimbing } = given.drawn;
  const ring = given.treatment === "tape" ? tape_to_ring[grade] : 0;
  const surgery = Math.min(to_surgery[grade], 1 - ring);
  const chosen = chooseIndex([1 - ring - surgery, ring, surgery], generator);
  if (chosen === 0) return null;
  const day = given.start + (chosen === 1 ? 7 + generator.integer(21) : 28 + generator.integer(35));
  return day < easyClimbing ? { to: chosen === 1 ? "ring" : "surgery", day } : null;
}
