import type { Concept } from "./languages/language.js";
import type { HeaderSign } from "./said-of-field.js";

// Signs that several fields share: the linked tables and the single sheet, or each of a kind

type Signs = readonly HeaderSign[];

export const person: Signs = [
  { needs: ["person"], also: ["number"] },
  { needs: ["number"], weight: 0.75 },
];
export const site: Signs = [{ needs: ["site"], also: ["number"] }];
export const firstVisit: Signs = [
  { needs: ["first", "visit"], also: ["date"] },
  { needs: ["first", "contact"], also: ["date"] },
  { needs: ["visit"], also: ["date"], weight: 0.8 },
];
export const injuryDate: Signs = [
  { needs: ["injury", "date"] },
  { needs: ["injury"], weight: 0.9 },
  { needs: ["date"], weight: 0.55 },
];
export const lastContact: Signs = [
  { needs: ["contact"], also: ["last", "date"] },
  { needs: ["last", "visit"], also: ["date"] },
  { needs: ["last"], also: ["date"], weight: 0.75 },
];
export const gaveUp: Signs = [{ needs: ["gave_up"], also: ["climbing", "date"] }];
export const newRupture: HeaderSign = { needs: ["new_rupture"], also: ["date"] };

/** How a column is called that tells of a return. */
export const milestone = (concept: Concept): Signs => [
  { needs: [concept], also: ["return", "climbing", "date", "previous", "level", "duration", "start"] },
  { needs: ["return", "climbing"], also: ["date", "duration"], weight: 0.7 },
  { needs: ["return"], also: ["date", "duration"], weight: 0.7 },
];
/** Whether a return was reached by a visit: less is said of it than of its day. */
export const reached = (concept: Concept): Signs => milestone(concept).slice(0, 1);

/** The injury that a row of another table belongs to. */
export const ofInjury: Signs = [
  { needs: ["injury", "number"] },
  { needs: ["injury"], weight: 0.8 },
  { needs: ["number"], weight: 0.75 },
  { needs: ["person"], also: ["number"], weight: 0.5 },
];
/** The day of a scan or a visit, in a table of them. */
export const dayOfRow: Signs = [
  { needs: ["date"], also: ["scan", "visit", "contact"] },
  { needs: ["visit"], also: ["date"], weight: 0.85 },
  { needs: ["scan"], also: ["date"], weight: 0.7 },
  { needs: ["contact"], also: ["date"], weight: 0.7 },
];
/** The kind of a treatment or a visit, in a table of them. */
export const kindOfRow: Signs = [
  { needs: ["kind"], also: ["treatment"] },
  { needs: ["kind", "visit"] },
  { needs: ["kind", "contact"] },
  { needs: ["contact"], weight: 0.5 },
];
/** Of both hands, what is not of the other one. */
export const ofBoth = (concept: Concept): Signs => [
  { needs: [concept], also: ["injury", "hand", "finger", "mass"] },
];
export const ofOther = (concept: Concept): Signs => [
  { needs: [concept, "other_side"], also: ["hand", "finger", "mass"] },
];

/** A distance of the single sheet; a scan that is not said to be the last is the first. */
export const distanceAt = (position: "rest" | "loaded", order: "first" | "last"): Signs => [
  { needs: ["distance", position, order], also: ["scan", "pulley", "reading"] },
  { needs: ["scan", position, order], also: ["pulley", "reading"], weight: 0.9 },
  ...(order === "last"
    ? ([
        { needs: ["distance", position, "second"], also: ["scan", "pulley", "reading"] },
        { needs: ["distance", position, "end"], also: ["scan", "pulley", "reading"] },
        { needs: ["distance", position, "after"], also: ["scan", "pulley", "reading"], weight: 0.9 },
      ] as const)
    : ([
        { needs: ["distance", position], also: ["scan", "pulley", "reading"], weight: 0.85 },
        { needs: ["distance", position, "before"], also: ["scan", "pulley", "reading"], weight: 0.9 },
      ] as const)),
];
