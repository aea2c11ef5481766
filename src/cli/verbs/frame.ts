import { basename, dirname, join, resolve } from "node:path";
import type { FigureSettings, FigureSettingsAsWritten } from "../../report/figure/index.js";
import { folderFormats, listedFiles, type OutputFile } from "../../run/manifest.js";
import { counted, oneLine } from "../../schema/index.js";
import { jsonText } from "../../schema/json-text.js";
import type { Results } from "../../study/index.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256 } from "../machine.js";
import { readSettingsFile } from "../read-input.js";
import { resultsIn } from "../report-results.js";
import type { Terminal } from "../terminal.js";
import { toolkitVersion } from "../version.js";
import { refuseFolder, writeFolder } from "../writing/index.js";

export interface FrameOptions {
  readonly for?: string;
  readonly figures?: readonly string[];
  readonly as?: readonly string[];
  readonly dpi?: number;
  readonly groups?: readonly string[];
  readonly names?: Readonly<Record<string, string>>;
  readonly until?: number;
  readonly title?: string;
  readonly without?: readonly string[];
  readonly colours?: readonly string[];
  readonly settings?: string;
  readonly into?: string;
  readonly list?: boolean;
  readonly replace?: boolean;
}

/** Draws figures from the results of a finished report, at their final size; or lists what there is to draw. */
export async function frame(folder: string, options: FrameOptions, terminal: Terminal): Promise<ExitCode> {
  const { results, inputs } = await resultsIn(folder, "");
  const drawn = await import("../../report/figure/index.js");
  if (options.list === true) {
    terminal.say(await listText(results));
    return exitCodes.done;
  }
  const settings = drawn.completeFigureSettings({
    ...(await settingsFile(options, terminal)),
    ...settingsOf(options),
  });
  const into = options.into ?? join(dirname(resolve(folder)), `figures-${settings.for}`);
  const writing = {
    inputs: [...inputs, ...(options.settings === undefined ? [] : [options.settings])],
    replace: options.replace === true && ("folder of figures" as const),
    tell: terminal.say,
  };
  await refuseFolder(into, writing);
  const files = await drawnFiles(results, settings, terminal);
  await writeFolder(into, files, writing);
  terminal.say(
    doneText({ into, files, results, warnings: drawn.colourWarnings(settings, groupCount(results)) }),
  );
  return exitCodes.done;
}

const groupCount = ({ plan, curves }: Results): number =>
  Math.max(plan.compare.groups.length, ...curves.map((family) => family.curves.length));

async function drawnFiles(
  results: Results,
  settings: FigureSettings,
  terminal: Terminal,
): Promise<readonly OutputFile[]> {
  const [{ figureFiles }, { fontFaceCss }, { renderSvg }, { renderPng }, { renderPdf }] = await Promise.all([
    import("../../report/figure/index.js"),
    import("../../report/font-files.js"),
    import("../../report/render-svg.js"),
    import("../../report/render-png.js"),
    import("../../report/render-pdf.js"),
  ]);
  const figures = await figureFiles(results, settings, {
    drawSvg: renderSvg,
    drawPng: renderPng,
    drawPdf: renderPdf,
    fontCss: fontFaceCss(),
    progress: (title) => terminal.progress(`drawing: ${title}`),
  });
  const files: OutputFile[] = [...figures, { path: "figure-settings.json", content: jsonText(settings) }];
  const manifest = {
    format: folderFormats["folder of figures"],
    toolkit_version: toolkitVersion(),
    synthetic: results.plan.synthetic,
    outputs: listedFiles(files, sha256),
  };
  return [...files, { path: "manifest.json", content: jsonText(manifest) }];
}

async function settingsFile(
  { settings }: FrameOptions,
  { notice }: Terminal,
): Promise<FigureSettingsAsWritten> {
  if (settings === undefined) return {};
  const { readFigureSettings } = await import("../../report/figure/index.js");
  const name = basename(settings);
  const { text } = await readSettingsFile(settings, {
    what: "file of figure settings",
    by: "with --settings",
    name,
    notice,
  });
  return readFigureSettings(name, text);
}

/** Parts of a figure that can be left out, and their names in the settings. */
const parts: Readonly<Record<string, keyof NonNullable<FigureSettingsAsWritten["show"]>>> = {
  title: "title",
  band: "band",
  "numbers-at-risk": "numbers_at_risk",
  "usual-windows": "usual_windows",
};

/** The options that were given, as settings; what is wrong with them is found where the settings are checked. */
function settingsOf(options: FrameOptions): FigureSettingsAsWritten {
  const unknown = options.without?.find((part) => !Object.hasOwn(parts, part));
  if (unknown !== undefined)
    throw new CommandError(
      exitCodes.usage,
      `"${oneLine(unknown)}" cannot be left out of a figure.\n  --without takes: ${Object.keys(parts).join(", ")}.`,
    );
  const given = {
    for: options.for,
    figures: options.figures,
    formats: options.as,
    dots_per_inch: options.dpi,
    groups: options.groups,
    names: options.names,
    until_weeks: options.until,
    title: options.title,
    show: options.without && Object.fromEntries(options.without.map((part) => [parts[part]!, false])),
    colours:
      options.colours?.length === 1 && !options.colours[0]!.startsWith("#")
        ? options.colours[0]
        : options.colours,
  };
  return Object.fromEntries(
    Object.entries(given).filter(([, value]) => value !== undefined),
  ) as FigureSettingsAsWritten;
}

async function listText(results: Results): Promise<string> {
  const { groupsOf, listedFigures } = await import("../../report/figure/index.js");
  const { labelOf } = await import("../../words/terms.js");
  const named = (label: string) => (labelOf(label) === label ? label : `${label} (${labelOf(label)})`);
  return [
    "Figures of this report (--figures):",
    ...listedFigures(results).map(({ id, title }) => `  ${id}: ${oneLine(title)}`),
    "Groups (--groups, --names):",
    ...groupsOf(results).map((label) => `  ${oneLine(named(label))}`),
  ].join("\n");
}

function doneText({
  into,
  files,
  results,
  warnings,
}: {
  readonly into: string;
  readonly files: readonly OutputFile[];
  readonly results: Results;
  readonly warnings: readonly string[];
}): string {
  const figures = files.filter(({ path }) => path.endsWith(".txt")).length;
  return [
    ...warnings.map((warning) => `Colours: ${warning}`),
    `${counted(figures, "figure", "figures")}: ${into}${results.plan.synthetic ? " (SYNTHETIC data)" : ""}`,
    "  Beside each lies a text file with its caption and the figure in words.",
    "  Times of return are general information about a group, not advice for one finger. A licensed clinician decides.",
  ].join("\n");
}
