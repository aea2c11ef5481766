import { dateOfDay } from "../schema/dates.js";
import type { ImagingRow, imagingRow } from "../schema/imaging.js";
import type { Generator } from "../statistics/shared/random.js";
import { happens } from "./chance.js";
import type { DeclaredCells, DrawnCells } from "./declared-cells.js";
import type { DrawnInjury } from "./injury.js";
import type { Scenario } from "./scenario.js";

interface Distances {
  readonly rest: number;
  readonly loaded: number;
}

const smallestMm = 0.3;

type Drawn = DrawnCells<typeof imagingRow>;

/**
 * Writes the scans of one injury down: rest and loaded at the first visit, and again at the first visit from the planned
 * week on, or else at the last visit. A reading is the true distance plus an error, to a tenth of a millimetre.
 */
export function imagingRowsOf(
  {
    declared,
    ...injury
  }: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly declared: (generator: Generator) => DeclaredCells<typeof imagingRow>;
  },
  generator: Generator,
): ImagingRow[] {
  return scansOf(injury, generator).map((cells) => ({ ...declared(generator), ...cells }));
}

function scansOf(
  { scenario, drawn }: { readonly scenario: Scenario; readonly drawn: DrawnInjury },
  generator: Generator,
): Drawn[] {
  const { imaging } = scenario;
  if (!happens(imaging.first_share, generator)) return [];
  const { followUp, course } = drawn;
  const before = drawDistances({ scenario, drawn }, generator);
  const rows = scan({ scenario, drawn, day: course.firstVisit, distances: before }, generator);
  const day = followUp.visits.find((visit) => visit >= imaging.last_from_week * 7) ?? followUp.visits.at(-1)!;
  if (day <= course.firstVisit || !happens(imaging.last_share, generator)) return rows;
  const change = imaging.change_loaded_mm[course.treatment] + imaging.change_sd_mm * generator.normal();
  const after = { loaded: before.loaded + change, rest: before.rest + change / 3 };
  return [...rows, ...scan({ scenario, drawn, day, distances: after }, generator)];
}

/** The true distances at the first visit. */
function drawDistances(
  { scenario, drawn }: { readonly scenario: Scenario; readonly drawn: DrawnInjury },
  generator: Generator,
): Distances {
  const { loaded_mm, rest_mm, correlation } = scenario.imaging;
  const common = generator.normal();
  const own = correlation * common + Math.sqrt(1 - correlation ** 2) * generator.normal();
  const at = drawn.grade;
  return {
    loaded: loaded_mm[at].mean + loaded_mm[at].sd * common,
    rest: rest_mm[at].mean + rest_mm[at].sd * own,
  };
}

/** Two readings of one day. */
function scan(
  what: {
    readonly scenario: Scenario;
    readonly drawn: DrawnInjury;
    readonly day: number;
    readonly distances: Distances;
  },
  generator: Generator,
): Drawn[] {
  const read = (mm: number) => mm + what.scenario.imaging.error_sd_mm * generator.normal();
  const rest = Math.max(smallestMm, read(what.distances.rest));
  const loaded = Math.max(rest, read(what.distances.loaded));
  return [
    reading(what, { position: "rest", mm: rest, pip: 0, dip: 0 }),
    reading(what, { position: "loaded", mm: loaded, pip: 40, dip: 10 }),
  ];
}

const reading = (
  { drawn: { place, pattern, person }, day }: { readonly drawn: DrawnInjury; readonly day: number },
  at: {
    readonly position: ImagingRow["position"];
    readonly mm: number;
    readonly pip: number;
    readonly dip: number;
  },
): Drawn => ({
  injury_id: place.id,
  date: dateOfDay(place.day + day),
  pulley: pattern.pulleys[0]!,
  position: at.position,
  distance_mm: tenths(at.mm),
  pip_angle_deg: at.pip,
  dip_angle_deg: at.dip,
  rater: person.site.id.replace("site-", "r-"),
});

const tenths = (mm: number): number => Math.round(Math.min(15, mm) * 10) / 10;
