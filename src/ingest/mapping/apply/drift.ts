import { nearest } from "../../../schema/near.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import type { AskMapping } from "../../text/ask-about-file.js";
import type { Mapping } from "../mapping.js";
import { sourcesOf } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { orderEvidence, orderOf } from "../propose/date-orders.js";
import { medianOf } from "../propose/numbers.js";
import { type Profile, profilesOf } from "../propose/profile.js";
import type { MappedColumn } from "./mapped-column.js";

/** What a file is compared with. */
export interface DriftContext {
  readonly mapping: Mapping;
  readonly columns: readonly MappedColumn[];
  readonly ask: AskMapping;
}

/** Says how a file differs from the one that was mapped: columns, units, order of dates. */
export function askAboutDrift(sheet: ShapedSheet, context: DriftContext): void {
  const added = newColumns(sheet, context);
  askAboutGone(added, context);
  const first = new Set(context.columns.map(({ sources }) => sources[0]?.name));
  const columns = sheet.columns.filter(({ name }) => first.has(name));
  const profiles = new Map(profilesOf({ ...sheet, columns }).map((profile) => [profile.name, profile]));
  for (const column of context.columns) {
    const profile = profiles.get(column.sources[0]?.name ?? "");
    if (profile === undefined) continue;
    askAboutMedian(column, { ...context, profile });
    askAboutOrder(column, { ...context, profile });
  }
  for (const name of added)
    context.ask({ code: "mapping-column-new", severity: "look-at", column: name, found: name });
}

function newColumns({ columns }: ShapedSheet, { mapping }: DriftContext): readonly string[] {
  const used = Object.values(mapping.columns).flatMap(sourcesOf);
  const known = new Set([...used, ...mapping.not_used, ...(mapping.seen?.columns ?? [])].map(comparedText));
  return columns.map(({ name }) => name).filter((name) => !known.has(comparedText(name)));
}

/** A column that is gone stops the run where a blank would say something or every row needs it. */
function askAboutGone(added: readonly string[], { columns, ask }: DriftContext): void {
  const missing = new Map<string, MappedColumn[]>();
  for (const column of columns) {
    const there = new Set(column.sources.map(({ name }) => comparedText(name)));
    for (const name of sourcesOf(column.rule)) {
      if (!there.has(comparedText(name))) missing.set(name, [...(missing.get(name) ?? []), column]);
    }
  }
  for (const [name, wanted] of missing) {
    const isNeeded = wanted.some(
      ({ field, rule, sources }) =>
        rule.ticked !== undefined ||
        (sources.length === 0 && (field.required || field.blankSays !== undefined)),
    );
    const near = nearest(name, added);
    const target = wanted.map(({ field }) => field.name).join(", ");
    ask({
      code: "mapping-column-gone",
      severity: isNeeded ? "stop" : "look-at",
      column: name,
      found: name,
      facts: { target, ...(near === null ? {} : { near }) },
    });
  }
}

/** A median that moved by such a factor did not move by chance. */
const shift = { from: 5, to: 20 } as const;
const fewest = 3;

function askAboutMedian(
  { field, rule }: MappedColumn,
  { mapping, profile, ask }: DriftContext & { readonly profile: Profile },
): void {
  const before = mapping.seen?.medians?.[field.name];
  const now = medianOf(profile.filled);
  if (rule.from === undefined || before === undefined || now === null || profile.filled.length < fewest)
    return;
  if (before === 0 || field.unit === undefined) return;
  const factor = Math.max(now / before, before / now);
  if (!(factor >= shift.from && factor <= shift.to)) return;
  ask({
    code: "mapping-unit-shifted",
    severity: "stop",
    column: profile.name,
    found: String(now),
    facts: { before },
  });
}

function askAboutOrder(
  { field, rule }: MappedColumn,
  { mapping, profile, ask }: DriftContext & { readonly profile: Profile },
): void {
  if (field.kind !== "date" && field.kind !== "period") return;
  const stated = rule.date_order ?? mapping.date_order;
  const shown = orderOf(orderEvidence(profile));
  if (shown === null || shown === "both" || shown === stated || stated === "year-first") return;
  const place = stated === "day-first" ? /^\d{1,2}\D+(?:1[3-9]|[23]\d)\D/ : /^(?:1[3-9]|[23]\d)\D/;
  const example = [...profile.distinct.keys()].find((cell) => place.test(cell)) ?? profile.name;
  ask({
    code: "mapping-date-order-changed",
    severity: "stop",
    column: profile.name,
    found: example,
    facts: { order: stated },
  });
}
