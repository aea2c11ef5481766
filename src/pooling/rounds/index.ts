// the coordinator

export { type FitKind, firstPoint, proposePoint } from "./propose-point.js";

// a site

export { type AnsweringSite, answerPoint, type NamedPoint } from "./answer-point.js";

// the files

export { canonicalText } from "../../schema/ordered-keys.js";
export type { NamedAnswer } from "./check-answers.js";
export { type NamedText, type RoundFile, readRoundFile } from "./read-round-file.js";
export {
  type AnswerFile,
  answerFileSchema,
  type FitFile,
  type FitModel,
  fitFileSchema,
  type PointFile,
  pointFileSchema,
} from "./round-files.js";
export { type Sha256, sealedText } from "./seal.js";
