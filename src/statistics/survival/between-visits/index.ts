export type { VisitColumns } from "./columns.js";
export type { EndModel, ModelForm, Piece } from "./end-model.js";
export {
  type GapColumns,
  type GapOptions,
  type GapSummary,
  type GapWidths,
  gapWidths,
  type KeptFor,
} from "./gap-widths.js";
export {
  type DifferenceBetweenVisits,
  type GroupBetweenVisits,
  type IncidenceBetweenVisits,
  type IncidenceBetweenVisitsOptions,
  incidenceBetweenVisits,
  type VisitShare,
} from "./incidence-between-visits.js";
export {
  type IncidenceBounds,
  type IncidenceOfEnd,
  type IntervalIncidence,
  type IntervalIncidenceOptions,
  incidenceBounds,
  intervalIncidence,
  type MassIntervals,
} from "./interval-incidence.js";
export { type Reading, type ThreeReadings, threeReadings } from "./three-readings.js";
export type { VisitFigure } from "./visit-figures.js";
