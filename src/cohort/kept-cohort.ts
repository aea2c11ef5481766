import type { CohortTables } from "../schema/cohort-tables.js";
import { deriveCohort } from "./derive.js";
import { linkTables } from "./link.js";
import type { Question } from "./question.js";
import type { DerivedCohort, LinkedInjury } from "./record.js";

/** A cohort as linked, and the records by the question that was asked of it last. */
export interface KeptCohort {
  readonly linked: readonly LinkedInjury[];
  /** The records of the cohort; the same once more while the question is the same. */
  readonly derived: (question: Question) => DerivedCohort;
}

/** Links tables once, and derives a record an injury only where the question is another one than the last: for whoever asks several things of a cohort. */
export function keptCohort(tables: CohortTables): KeptCohort {
  const linked = linkTables(tables);
  let last: { readonly asked: string; readonly cohort: DerivedCohort } | null = null;
  return {
    linked,
    derived: (question) => {
      const asked = JSON.stringify(question);
      if (last?.asked !== asked) last = { asked, cohort: deriveCohort(linked, question) };
      return last.cohort;
    },
  };
}
