import { dateOfDay, dayNumber, type IsoDate } from "../schema/dates.js";
import { type ImagingRow, imagingRow } from "../schema/imaging.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type SiteRow, siteRow } from "../schema/sites.js";
import { type TreatmentRow, treatmentRow } from "../schema/treatments.js";
import { type VisitRow, visitRow } from "../schema/visits.js";
import { type Generator, seededGenerator } from "../statistics/shared/random.js";
import { happens } from "./chance.js";
import { type DrawnCells, declaredCells } from "./declared-cells.js";
import { accrualDays, closingDay } from "./follow-up.js";
import { imagingRowsOf } from "./imaging-rows.js";
import { drawInjury, drawPlace, type Place } from "./injury.js";
import { declaredOfInjuries, injuryRowOf } from "./injury-row.js";
import { drawDateHabit } from "./milestone-dates.js";
import { drawPerson, type Person } from "./person.js";
import type { Scenario } from "./scenario.js";
import type { ScenarioSite } from "./scenario-site.js";
import { treatmentRowsOf } from "./treatment-rows.js";
import { visitRowsOf } from "./visit-rows.js";

/** An invented cohort: the rows of each table, injuries in order of their date, and the day the data were closed. */
export interface SyntheticCohort {
  readonly injuries: readonly InjuryRow[];
  readonly treatments: readonly TreatmentRow[];
  readonly imaging: readonly ImagingRow[];
  readonly visits: readonly VisitRow[];
  readonly sites: readonly SiteRow[];
  readonly closedOn: IsoDate;
}

/**
 * Draws an invented cohort from a scenario. The same scenario, seed and stream give the same rows.
 *
 * @param options seed: that of the scenario unless given; stream: the replicate, 0 unless given
 * @example
 * drawCohort(completeScenario({ name: "a", title: "A", seed: 1, injuries: 40, sites: [{ id: "site-a" }] })).injuries.length // => 40
 */
export function drawCohort(
  scenario: Scenario,
  { seed = scenario.seed, stream = 0 }: { readonly seed?: number; readonly stream?: number } = {},
): SyntheticCohort {
  const generator = seededGenerator(seed, stream);
  const declared = declaredBy({ seed, stream });
  const injuries: InjuryRow[] = [];
  const treatments: TreatmentRow[] = [];
  const imaging: ImagingRow[] = [];
  const visits: VisitRow[] = [];
  for (const { person, place } of drawPlaces(scenario, generator)) {
    const drawn = drawInjury({ scenario, person, place }, generator);
    const habit = drawDateHabit({ scenario, site: person.site }, generator);
    const row = injuryRowOf({ scenario, drawn, habit, declared: declared.injuries }, generator);
    injuries.push(row);
    treatments.push(...treatmentRowsOf({ scenario, drawn, declared: declared.treatments }, generator));
    imaging.push(...imagingRowsOf({ scenario, drawn, declared: declared.imaging }, generator));
    visits.push(...visitRowsOf({ scenario, drawn, row, declared: declared.visits }, generator));
  }
  const closedOn = dateOfDay(closingDay(scenario));
  return {
    injuries,
    treatments,
    imaging,
    visits,
    sites: scenario.sites.map((site) => ({ ...declared.sites(generator), ...siteCellsOf(site) })),
    closedOn,
  };
}

/** What makes the declared cells of each table of a cohort. */
const declaredBy = (cohort: { readonly seed: number; readonly stream: number }) => ({
  injuries: declaredOfInjuries(cohort),
  treatments: declaredCells(treatmentRow, cohort),
  imaging: declaredCells(imagingRow, cohort),
  visits: declaredCells(visitRow, cohort),
  sites: declaredCells(siteRow, cohort),
});

interface PersonAndPlace {
  readonly person: Person;
  readonly place: Place;
}

/** Who was hurt, where and when: persons in the order of their first injury, injuries in the order of their day. */
function drawPlaces(scenario: Scenario, generator: Generator): readonly PersonAndPlace[] {
  const accrual = accrualDays(scenario);
  const twice = Array.from({ length: scenario.injuries }, () =>
    happens(scenario.persons.several_injuries_share, generator),
  );
  const first = dayNumber(scenario.first_day);
  const days = personsNeeded(twice, scenario.injuries).map(() => first + generator.integer(accrual));
  days.sort((a, b) => a - b);
  const all: PersonAndPlace[] = [];
  for (const [index, day] of days.entries()) {
    const person = drawPerson({ scenario, number: index + 1 }, generator);
    const place = drawPlace({ scenario, id: `${person.id}-1`, day }, generator);
    const isTwice = twice[index]! && all.length + (days.length - index) < scenario.injuries;
    const places = isTwice
      ? secondPlace({ scenario, person, place, end: first + accrual }, generator)
      : [place];
    all.push(...places.map((each) => ({ person, place: each })));
  }
  return all.sort((a, b) => a.place.day - b.place.day);
}

/** The persons, marked with whether they have two injuries, who make up that many injuries together. */
function personsNeeded(twice: readonly boolean[], injuries: number): readonly boolean[] {
  let counted = 0;
  const end = twice.findIndex((isTwice) => {
    counted += isTwice ? 2 : 1;
    return counted >= injuries;
  });
  return twice.slice(0, end + 1);
}

const neighbours = { index: "middle", middle: "ring", ring: "middle", little: "ring" } as const;

/** The place of a first injury with that of a second: the neighbour in the same moment, or the other hand later. */
function secondPlace(
  given: {
    readonly scenario: Scenario;
    readonly person: Person;
    readonly place: Place;
    readonly end: number;
  },
  generator: Generator,
): readonly Place[] {
  const { person, place, end, scenario } = given;
  const id = `${person.id}-2`;
  const finger = neighbours[place.finger];
  if (happens(scenario.persons.same_moment_share, generator)) {
    const eventId = `${person.id}-e1`;
    return [
      { ...place, eventId },
      { ...place, eventId, id, finger },
    ];
  }
  const day = place.day + generator.integer(Math.max(1, end - place.day));
  const hand = place.hand === "left" ? "right" : "left";
  return [
    place,
    { id, eventId: null, day, yearsLater: Math.floor((day - place.day) / 365.25), hand, finger },
  ];
}

const siteCellsOf = (site: ScenarioSite): DrawnCells<typeof siteRow> => ({
  site_id: site.id,
  name: `SYNTHETIC ${site.id}`,
  definition_easy: site.definition_easy,
  definition_full: site.definition_full,
  definition_previous: site.definition_previous,
  visit_schedule: `${site.visit_weeks.join(", ")} weeks`,
  how_people_come: site.how_people_come,
  threshold_mm: site.threshold_mm,
});
