export {
  type IncidenceAfterLossOptions,
  incidenceAfterLoss,
} from "./after-loss/incidence-after-loss.js";
export type {
  DifferenceAfterVisits,
  FigureAtFactor,
  IncidenceAfterLoss,
  ShareAfterVisits,
  VisitsWithLoss,
} from "./after-loss/loss-types.js";
export type { VisitColumns } from "./columns.js";
export type { ModelForm } from "./end-model.js";
export {
  type GapColumns,
  type GapOptions,
  type GapSummary,
  type GapWidths,
  gapWidths,
  type KeptFor,
} from "./gap-widths.js";
export {
  type IncidenceBetweenVisitsOptions,
  incidenceBetweenVisits,
} from "./incidence-between-visits.js";
export type {
  DifferenceBetweenVisits,
  GroupBetweenVisits,
  IncidenceBetweenVisits,
  ModelOfEnd,
  VisitShare,
} from "./incidence-types.js";
export {
  type IncidenceBounds,
  type IncidenceBoundsOptions,
  type IncidenceOfEnd,
  type IntervalIncidence,
  type IntervalIncidenceOptions,
  incidenceBounds,
  intervalIncidence,
  type MassIntervals,
} from "./interval-incidence.js";
export { type Reading, type ThreeReadings, threeReadings } from "./three-readings.js";
export type { VisitDifference, VisitFigure } from "./visit-figures.js";
