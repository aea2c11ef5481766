import { SettingsError } from "../schema/settings/settings-error.js";

/** A study file that cannot be followed: every problem at once, in the order of the file. */
export class PlanError extends SettingsError {
  override readonly name = "PlanError";
}
