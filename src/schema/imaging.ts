import { z } from "zod";
import { optional, required } from "./field.js";
import * as terms from "./terms.js";

/** One row a reading of the tendon-phalanx distance. */
export const imagingRow = z.strictObject({
  injury_id: required.identifier({
    sharing: { rename: "injury" },
    description: "The injury imaged, as in the injuries table",
    example: "P09-1",
  }),
  date: required.date({ sharing: "move", description: "Day of the reading", example: "2024-03-08" }),
  modality: required.choice(terms.modalities, {
    sharing: "keep",
    description: "How it was imaged",
    example: "ultrasound",
  }),
  pulley: required.choice(terms.pulleys, {
    sharing: "keep",
    description: "Level of the reading",
    example: "A2",
  }),
  position: required.choice(terms.positions, {
    sharing: "keep",
    description: "Finger at rest, actively loaded, or flexed without load",
    example: "loaded",
  }),
  distance_mm: required.number({
    sharing: "keep",
    description: "Tendon-phalanx distance, palmar cortex to the near surface of the flexor tendon",
    example: "3.4",
    minimum: 0,
    maximum: 15,
    unit: "mm",
  }),
  bound: optional.choice(terms.bounds, {
    sharing: "keep",
    description: "Whether the distance is exact or a bound (below, above); blank is read as exact",
    example: "exact",
    blankSays: "an exact distance",
  }),
  side: optional.choice(terms.sides, {
    sharing: "keep",
    description: "Injured finger, or the same finger of the other hand; blank is read as injured",
    example: "injured",
    blankSays: "the injured finger",
  }),
  taped: optional.choice(["yes", "no"], {
    sharing: "keep",
    description: "Measured with tape on; blank is read as no",
    example: "no",
    blankSays: "without tape",
  }),
  warmed_up: optional.choice(["yes", "no"], {
    sharing: "keep",
    description: "Measured after warming up",
    example: "no",
  }),
  pip_angle_deg: optional.number({
    sharing: "keep",
    description: "Flexion of the PIP joint during the reading",
    example: "40",
    minimum: 0,
    maximum: 120,
    unit: "deg",
  }),
  dip_angle_deg: optional.number({
    sharing: "keep",
    description: "Flexion of the DIP joint during the reading, extension negative",
    example: "10",
    minimum: -40,
    maximum: 90,
    unit: "deg",
  }),
  rater: optional.identifier({ sharing: { rename: "rater" }, description: "Coded rater", example: "r1" }),
  reading: optional.integer({
    sharing: "keep",
    description: "Number of the reading, where one rater repeats it",
    example: "1",
    minimum: 1,
    maximum: 9,
  }),
  blinded: optional.choice(["yes", "no"], {
    sharing: "keep",
    description: "Rater unaware of treatment",
    example: "yes",
  }),
  comment: optional.text({
    sharing: "leave-out",
    description: "Free words; never analysed, never exported",
    example: "swollen",
  }),
});

export type ImagingRow = z.infer<typeof imagingRow>;
