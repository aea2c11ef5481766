import { agreementAndResampling } from "./agreement-and-resampling.js";
import { groupsOverTime } from "./groups-over-time.js";
import type { Method } from "./method.js";
import { planning } from "./planning.js";
import { pooledExactly } from "./pooled-exactly.js";
import { pooling } from "./pooling.js";
import { regressions } from "./regressions.js";
import { timeToEvent } from "./time-to-event.js";
import { valuesAndShares } from "./values-and-shares.js";

/** Every method of the layer, by subject. `src/statistics/METHODS.md` is made from it. */
export const methods: readonly { readonly subject: string; readonly methods: readonly Method[] }[] = [
  { subject: "Time to event", methods: timeToEvent },
  { subject: "Groups compared over time: tests, hazards, competing events", methods: groupsOverTime },
  { subject: "Regression", methods: regressions },
  { subject: "Values and proportions", methods: valuesAndShares },
  { subject: "Sites together exactly: tables of risk sets, rounds", methods: pooledExactly },
  { subject: "Answers of sites pooled", methods: pooling },
  { subject: "Planning a study", methods: planning },
  { subject: "Agreement, resampling and tools", methods: agreementAndResampling },
];
