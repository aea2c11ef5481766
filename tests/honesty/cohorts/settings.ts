import type { Setting } from "../setting.js";

export const sentenceSettings: readonly Setting[] = [];
