import { z } from "zod";
import type { Said } from "./field.js";
import { circumstanceFields } from "./injury-fields/circumstances.js";
import { courseFields } from "./injury-fields/course.js";
import { fingerFields } from "./injury-fields/finger.js";
import { personFields } from "./injury-fields/person.js";
import type { Covariate, SheetPlace } from "./said-of-field.js";

/** What every field of the injuries says besides what any field says. */
type InjuryField = z.ZodType & Said<{ readonly sheet: SheetPlace; readonly covariate: Covariate }>;

const fields = {
  ...personFields,
  ...fingerFields,
  ...circumstanceFields,
  ...courseFields,
} as const satisfies Readonly<Record<string, InjuryField>>;

/** One row per injured finger a time. */
export const injuryRow = z.strictObject(fields);

export type InjuryRow = z.infer<typeof injuryRow>;
