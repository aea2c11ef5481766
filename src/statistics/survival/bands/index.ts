export { type ClusteredBand, type ClusteredBandOptions, clusteredBand } from "./clustered-band.js";
export {
  type BandRange,
  equalPrecisionCritical,
  hallWellnerCritical,
} from "./critical-values.js";
export {
  type DifferenceBand,
  type DifferenceBandOptions,
  type DifferencePoint,
  differenceBand,
} from "./difference-band.js";
export {
  type BandKind,
  type BandOptions,
  type SimultaneousBand,
  simultaneousBand,
} from "./simultaneous-band.js";
