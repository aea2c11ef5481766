import { sentenceSettings } from "./cohorts/settings.js";
import { intervalSettings } from "./intervals/settings.js";
import type { Setting } from "./setting.js";

/** Every setting, in the order of the table. */
export const settings: readonly Setting[] = [...sentenceSettings, ...intervalSettings];
