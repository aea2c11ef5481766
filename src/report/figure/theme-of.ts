import { type Theme, themes } from "../../charts/index.js";
import { stylesOf } from "./colours.js";
import type { FigureSettings } from "./figure-settings.js";

/** The look of the figures: that of the place where they are shown, with what was chosen. */
export function themeOf(settings: FigureSettings): Theme {
  const theme: Theme = themes[settings.for];
  const { title, band, numbers_at_risk, usual_windows } = settings.show;
  return {
    ...theme,
    styles: stylesOf(settings),
    shown: {
      ...theme.shown,
      title: title ?? (settings.title !== undefined || theme.shown.title),
      ownTitle: settings.title ?? null,
      band,
      atRisk: numbers_at_risk,
      windows: usual_windows,
    },
  };
}
