// The library: the same functions that the command line calls, layer by layer.

export * as charts from "./charts/index.js";
export * as cohort from "./cohort/index.js";
export * as exchange from "./exchange/index.js";
export * as ingest from "./ingest/index.js";
export * as mapping from "./ingest/mapping/index.js";
export * as stream from "./ingest/stream/index.js";
export * as pooling from "./pooling/index.js";
export * as privacy from "./privacy/index.js";
export * as report from "./report/index.js";
export * as run from "./run/index.js";
export * as schema from "./schema/index.js";
export * as statistics from "./statistics/index.js";
export * as study from "./study/index.js";
export * as synthetic from "./synthetic/index.js";
export * as words from "./words/index.js";
