// A scenario: everything an invented cohort is drawn from

export { completeScenario, readScenario, ScenarioError } from "./read-scenario.js";
export {
  largestSeed,
  mostInjuries,
  type Scenario,
  type ScenarioAsWritten,
  scenarioSchema,
} from "./scenario.js";

// A cohort drawn from it, and the effects that are true in it

export { drawCohort, type SyntheticCohort } from "./draw.js";
export { type Contrast, type Truth, type TruthOptions, trueEffects } from "./truth.js";
export type { Simulated, TruthCell } from "./truth-cells.js";

// The cohort as files

export { tableText } from "../schema/table-text.js";
export { type ConsortiumTruth, inventConsortium } from "./consortium.js";
export { inventCohort, inventDirtySheet, inventTables, type SyntheticFile } from "./invent.js";
export { singleSheetRows } from "./single-sheet.js";

// The cohort as it arrives from a busy clinic

export { type SpoiltSheet, spoilSheet } from "./spoil.js";
export type { Expected, Fault } from "./spoiling.js";
