import { checkSettings, readSettings } from "../../schema/settings/read-settings.js";
import { SettingsError } from "../../schema/settings/settings-error.js";
import {
  type FigureSettings,
  type FigureSettingsAsWritten,
  figureSettingsSchema,
} from "./figure-settings.js";

/** Figure settings that cannot be followed: every problem at once. */
export class FigureSettingsError extends SettingsError {
  override readonly name = "FigureSettingsError";
}

const form = { schema: figureSettingsSchema, what: "the figure settings" };

/**
 * What a file of figure settings says, before any default is filled in.
 *
 * @throws FigureSettingsError with all problems at once, each with its line and column
 */
export function readFigureSettings(file: string, text: string): FigureSettingsAsWritten {
  const { value, problems, written } = readSettings<FigureSettings>(text, form);
  if (value === null) throw new FigureSettingsError(file, problems);
  return written as FigureSettingsAsWritten;
}

/** Settings with every default filled in. @throws FigureSettingsError as `readFigureSettings`, without lines */
export function completeFigureSettings(written: FigureSettingsAsWritten): FigureSettings {
  const { value, problems } = checkSettings<FigureSettings>(written, form);
  if (value === null) throw new FigureSettingsError("figure settings", problems);
  return value;
}
