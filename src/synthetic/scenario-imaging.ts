import { z } from "zod";
import { byGrade, meanAndSd, share } from "./scenario-grade.js";

const change = z.number().min(-10).max(10);

/** Tendon-phalanx distances in mm, of the first injured pulley. */
export const scenarioImaging = z
  .strictObject({
    first_share: share("Share scanned at the first visit").default(0.92), // design choice
    last_share: share("Share of these that are scanned again at a later visit").default(0.8), // design choice
    last_from_week: z
      .number()
      .positive()
      .max(260)
      .default(10) // design choice
      .describe("The second scan is at the first visit from this week on, otherwise at the last visit"),
    // Loaded: order of the cadaver fingers of Iruretagoiena et al. 2023, Front Bioeng Biotechnol 11:1123857 (intact 0.95,
    // partial 2.1 to 3.1, complete 3.7), and 5.1 in three complete ruptures, Klauser et al. 1999, Am J Sports Med 27:733.
    loaded_mm: byGrade(meanAndSd("Loaded distance"), "Loaded distance at the first scan, mm").default({
      "1": { mean: 1.2, sd: 0.25 },
      "2": { mean: 2.2, sd: 0.4 },
      "3": { mean: 3.5, sd: 0.5 },
      "4a": { mean: 4.3, sd: 0.6 },
      "4b": { mean: 5.1, sd: 0.8 },
    }),
    // 1.4 (SD 0.7) at rest in 34 injured climbers, Klauser et al. 1999; by grade a design choice.
    rest_mm: byGrade(meanAndSd("Distance at rest"), "Distance at rest at the first scan, mm").default({
      "1": { mean: 0.8, sd: 0.15 },
      "2": { mean: 1.2, sd: 0.2 },
      "3": { mean: 1.6, sd: 0.3 },
      "4a": { mean: 1.9, sd: 0.35 },
      "4b": { mean: 2.3, sd: 0.4 },
    }),
    correlation: z
      .number()
      .min(-0.95)
      .max(0.95)
      .default(0.5) // design choice
      .describe("Correlation of the two distances within a grade"),
    change_loaded_mm: z
      .strictObject({ tape: change, ring: change, surgery: change, none: change })
      .default({ tape: -0.2, ring: -0.6, surgery: -1.6, none: -0.1 }) // design choice: invented, not a finding
      .describe("Mean change of the loaded distance by first treatment, mm; at rest a third of it"),
    change_sd_mm: z.number().min(0).max(5).default(0.25).describe("Spread of the change between fingers, mm"),
    error_sd_mm: z
      .number()
      .min(0)
      .max(5)
      .default(0.15)
      .describe("Error of one reading, standard deviation, mm"),
  })
  .describe("Imaging; no reading below 0.3 mm is drawn, and none loaded below the one at rest");
