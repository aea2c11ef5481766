import { type KeptCohort, keptCohort } from "../cohort/kept-cohort.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import { byGrade, compared, everybody, type Grouping, type Settled } from "./groups.js";
import { type Pair, pairsOf } from "./pairs.js";
import type { Plan } from "./plan.js";
import { knownReturnsOf } from "./spans/known-returns.js";
import { specificationOf } from "./specification.js";

/** The records of a study in their groups: what every figure starts from. */
export interface Analysed {
  readonly specification: Settled;
  readonly linked: KeptCohort["linked"];
  readonly derived: ReturnType<KeptCohort["derived"]>;
  readonly known: ReturnType<typeof knownReturnsOf>;
  readonly all: Grouping;
  readonly grades: Grouping;
  readonly groups: Grouping;
  readonly pairs: readonly Pair[];
}

/**
 * Links the tables, derives a record an injury, settles how inexact returns are counted, and groups the records.
 *
 * @param read typed tables with their row account
 * @param plan the study file with its defaults filled in
 * @param options cohort: these tables as linked and derived, where more than one thing is asked of them
 * @throws Error when the tables were read with another meaning of person ids than the plan's
 */
export function analysedOf(
  read: ReadCohort,
  plan: Plan,
  { cohort = keptCohort(read.tables) }: { readonly cohort?: KeptCohort | undefined } = {},
): Analysed {
  const asked = specificationOf(plan);
  assertSamePersons(read, plan);
  const { linked } = cohort;
  const derived = cohort.derived(asked.question);
  const { records } = derived;
  const byDays = { ...asked, path: "days" as const };
  const onDays = { all: everybody(records, byDays), compared: compared(records, byDays) };
  const known = knownReturnsOf(onDays, asked);
  const specification = { ...asked, path: known.path };
  const inSpans = known.path === "spans";
  const groups = inSpans ? compared(records, specification) : onDays.compared;
  return {
    specification,
    linked,
    derived,
    known,
    all: inSpans ? everybody(records, specification) : onDays.all,
    grades: byGrade(records, specification),
    groups,
    pairs: pairsOf(groups, specification),
  };
}

/** Who is one person was settled when the tables were read: the plan may not mean something else. */
function assertSamePersons({ tables }: ReadCohort, { data: { person_ids = "per_site" } }: Plan): void {
  if (tables.personIds === person_ids) return;
  throw new Error(
    `The study says person_ids: ${person_ids}, but the tables were read with personIds "${tables.personIds}". Read them with { personIds: "${person_ids}" }.`,
  );
}
