import { z } from "zod";
import { presets } from "../../charts/index.js";

/** Kinds of file that a figure can be drawn as. */
export const figureFormats = ["svg", "png", "pdf"] as const;
export type FigureFormat = (typeof figureFormats)[number];

/** Sets of colours of our own. */
export const colourSets = ["standard", "ordered", "grey"] as const;

const colour = z
  .string()
  .regex(/^#[0-9a-fA-F]{6}$/, "a colour as #rrggbb, such as #1f1ca8")
  .transform((text) => text.toLowerCase());

const names = z.record(z.string(), z.string().min(1).max(60));

/** Everything that can be chosen about figures drawn from a finished report. */
export const figureSettingsSchema = z
  .strictObject({
    for: z
      .enum(presets)
      .default("screen")
      .describe("Where the figures will be shown: sets size, fonts and lines"),
    figures: z
      .array(z.string())
      .min(1)
      .optional()
      .describe("Figures to draw, by their ids; all if not given"),
    formats: z
      .array(z.enum(figureFormats))
      .min(1)
      .default([...figureFormats]),
    dots_per_inch: z
      .union([z.literal(300), z.literal(600)])
      .default(300)
      .describe("Resolution of PNG files"),
    groups: z
      .array(z.string())
      .min(1)
      .optional()
      .describe("Groups to draw, in this order; figures without any of them are drawn as they are"),
    names: names.default({}).describe("Names of your own for groups"),
    until_weeks: z.number().positive().max(2000).optional().describe("Last week of the axis of time"),
    show: z
      .strictObject({
        title: z.boolean().optional().describe("By default on a screen, a slide and a poster"),
        band: z.boolean().default(true).describe("Confidence limits of curves"),
        numbers_at_risk: z.boolean().default(true),
        usual_windows: z.boolean().default(true),
      })
      .prefault({}),
    title: z.string().min(1).max(200).optional().describe("A title of your own, for a single figure"),
    colours: z
      .union([z.enum(colourSets), z.array(colour).min(1).max(12)])
      .default("standard")
      .describe("A set of ours, or colours of your own in the order of the groups"),
  })
  .describe("Choices for figures drawn from a finished report");

export type FigureSettings = z.output<typeof figureSettingsSchema>;
export type FigureSettingsAsWritten = z.input<typeof figureSettingsSchema>;
