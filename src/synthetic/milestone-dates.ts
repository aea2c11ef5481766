import { dateOfDay, dayNumber } from "../schema/dates.js";
import type { Precision } from "../schema/terms.js";
import type { Generator } from "../statistics/shared/random.js";
import type { Scenario } from "./scenario.js";
import type { ScenarioSite } from "./scenario-site.js";

/** How the milestones of one injury are dated. `heaped` looks exact, but is a whole number of weeks. */
export type DateHabit = "day" | "heaped" | "week" | "month" | "between_visits";

/** A milestone as it stands in the data, in days from the injury; a year and month are kept by the fifteenth. */
export interface WrittenMilestone {
  readonly day: number | null;
  readonly precision: Precision | null;
  readonly notBefore: number | null;
  readonly notAfter: number | null;
}

/** Draws how the milestones of one injury at this site are dated. */
export function drawDateHabit(
  { scenario, site }: { readonly scenario: Scenario; readonly site: ScenarioSite },
  generator: Generator,
): DateHabit {
  const { week_share, month_share, between_visits_share } = site.dates;
  let left = generator.uniform();
  for (const [habit, share] of [
    ["week", week_share],
    ["month", month_share],
    ["between_visits", between_visits_share],
  ] as const) {
    if (left < share) return habit;
    left -= share;
  }
  return generator.uniform() < scenario.heaped_share ? "heaped" : "day";
}

const unknown: WrittenMilestone = { day: null, precision: null, notBefore: null, notAfter: null };

/**
 * Writes a milestone down. One reached after the last contact, or never, is not known. A rounded day stays between the
 * injury and the last contact, and rounding keeps the order of the milestones.
 *
 * @param reached true day, or null for never
 */
export function writeMilestone(
  reached: number | null,
  seen: {
    readonly habit: DateHabit;
    readonly injuryDay: number;
    readonly lastContact: number;
    readonly visits: readonly number[];
  },
): WrittenMilestone {
  if (reached === null || reached > seen.lastContact) return unknown;
  if (seen.habit === "between_visits") return betweenVisits(reached, seen.visits);
  const within = (day: number) => Math.min(seen.lastContact, Math.max(1, day));
  switch (seen.habit) {
    case "day":
      return { ...unknown, day: reached, precision: "day" };
    case "heaped":
      return { ...unknown, day: within(Math.round(reached / 7) * 7), precision: "day" };
    case "week":
      return { ...unknown, day: within(Math.round(reached / 7) * 7), precision: "week" };
    case "month":
      return {
        ...unknown,
        day: within(fifteenth(seen.injuryDay + reached) - seen.injuryDay),
        precision: "month",
      };
  }
}

/** The first visit at or after the milestone, and the one before it, or else the injury. */
function betweenVisits(reached: number, visits: readonly number[]): WrittenMilestone {
  const index = visits.findIndex((visit) => visit >= reached);
  return { ...unknown, notBefore: visits[index - 1] ?? 0, notAfter: visits[index] ?? null };
}

const fifteenth = (day: number): number => dayNumber(`${dateOfDay(day).slice(0, 7)}-15`);
