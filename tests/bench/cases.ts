import type { BenchCase } from "./case.js";
import { competingCases } from "./cases-competing.js";
import { curveCases } from "./cases-curves.js";
import { hazardCases } from "./cases-hazards.js";
import { intervalCases } from "./cases-intervals.js";
import { readingCases } from "./cases-reading.js";

export const cases: readonly BenchCase[] = [
  ...curveCases,
  ...hazardCases,
  ...competingCases,
  ...intervalCases,
  ...readingCases,
];
