import { setFlagsFromString } from "node:v8";

/**
 * A command runs for seconds and calls thousands of functions a few times each. The engine optimises a function after a budget of work;
 * at its own setting a third of the processor time of a small report goes into code that hardly runs any more. With four times that budget
 * the report takes a fifth less, and a large one no longer than before. No result depends on it.
 */
export const optimiseLater = (): void => setFlagsFromString("--interrupt-budget=270336");
