import type { InjuryRow } from "../schema/injuries.js";
import type { Generator } from "../statistics/shared/random.js";
import { choose, chooseIndex, happens, normalBetween } from "./chance.js";
import type { Scenario } from "./scenario.js";
import type { ScenarioSite } from "./scenario-site.js";

/** A person as drawn: what all their injuries share. */
export interface Person {
  readonly id: string;
  readonly site: ScenarioSite;
  readonly sex: "female" | "male";
  readonly age: number;
  readonly yearsClimbing: number;
  readonly dominantHand: NonNullable<InjuryRow["dominant_hand"]>;
  readonly bodyMassKg: number;
  readonly heightCm: number;
  /** Index into `frenchLevels` (levels.ts): the number of the level less 1. */
  readonly level: number;
  /** What their return times share, a standard normal draw. */
  readonly shared: number;
}

/** Bodies and habits that no result depends on: design choices. */
const bodies = {
  female: { height: { mean: 167, sd: 6 }, massIndex: { mean: 20.8, sd: 1.5 } },
  male: { height: { mean: 179, sd: 7 }, massIndex: { mean: 22.2, sd: 1.6 } },
} as const;
const dominantHands = { right: 0.86, left: 0.11, both: 0.03 } as const;

/** Draws one person; the number makes the id, `P007`. */
export function drawPerson(
  { scenario, number }: { readonly scenario: Scenario; readonly number: number },
  generator: Generator,
): Person {
  const { persons, sites } = scenario;
  const site =
    sites[
      chooseIndex(
        sites.map(({ share }) => share),
        generator,
      )
    ]!;
  const sex = happens(persons.male_share, generator) ? "male" : "female";
  const age = Math.floor(normalBetween(persons.age, { lowest: 17, highest: 62.99, generator }));
  const height = normalBetween(bodies[sex].height, { lowest: 150, highest: 205, generator });
  const massIndex = normalBetween(bodies[sex].massIndex, { lowest: 17.5, highest: 28, generator });
  const level = normalBetween(persons.level[sex], { lowest: 8, highest: 29, generator });
  return {
    id: `P${String(number).padStart(3, "0")}`,
    site,
    sex,
    age,
    yearsClimbing: Math.max(1, Math.round((age - 14) * generator.uniform())),
    dominantHand: choose(dominantHands, generator),
    bodyMassKg: Math.round(massIndex * (height / 100) ** 2 * 2) / 2,
    heightCm: Math.round(height),
    level: Math.round(level) - 1,
    shared: generator.normal(),
  };
}
