// A site's own columns into ours: asked for only where a file has a mapping or is to get one

export { applyMapping, type MappedFile } from "./apply/apply-mapping.js";
export { type ChosenGrid, type FileToFit, gridToFit } from "./choose/choose-sheet.js";
export { bookLine, codesFor, type FileOfCodes, type FoundBook } from "./choose/code-books.js";
export { type OddShape, oddShapeOf } from "./choose/odd-shapes.js";
export { SheetError } from "./choose/sheet-error.js";
export { freeAnswerHint, takeAnswer } from "./free-answer.js";
export { type Mapping, mappingSchema, type Undecided } from "./mapping.js";
export { mappingNameFor } from "./mapping-name.js";
export { openMapped } from "./open-mapped.js";
export { type Preview, previewOf } from "./preview.js";
export { type CodeBook, codeBookOf } from "./propose/code-book.js";
export { type Proposal, type ProposeOptions, proposeMapping } from "./propose/propose.js";
export { MappingError, readMapping } from "./read-mapping.js";
export {
  isAboutColumns,
  nothingSaid,
  proposalSaid,
  proposeOptionsOf,
  type Said,
  sayAnswer,
  sayColumn,
  withAnswersSaid,
} from "./said.js";
export { isSchemaForFile, mappingSchemaFor } from "./schema-for-file.js";
export { settleQuestion } from "./settle.js";
export { tableOf } from "./table-of.js";
export { type MappingComments, mappingText } from "./write-mapping.js";
