// Figures drawn again from a finished report, at the size of the place where they are shown

export { captionFile, captionOf } from "./caption.js";
export { ChoiceError } from "./choice-error.js";
export { groupsOf } from "./choose.js";
export { colourWarnings } from "./colours.js";
export { type FigureDrawing, figureFiles, type ListedFigure, listedFigures } from "./figure-files.js";
export {
  colourSets,
  type FigureSettings,
  type FigureSettingsAsWritten,
  figureFormats,
  figureSettingsSchema,
} from "./figure-settings.js";
export { completeFigureSettings, FigureSettingsError, readFigureSettings } from "./read-figure-settings.js";
