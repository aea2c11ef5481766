import { Document, isMap, isScalar, isSeq, type Node, type Pair, type Scalar, type YAMLMap } from "yaml";
import { yamlText } from "../../schema/settings/yaml-text.js";
import type { Mapping } from "./mapping.js";

/** What is said beside the settings, as comments: evidence by key of the mapping, and by column of ours. */
export interface MappingComments {
  readonly head: readonly string[];
  readonly settings: Readonly<Record<string, string>>;
  readonly columns: Readonly<Record<string, string>>;
}

/** Settings in the order in which a person reads them. */
const order = [
  "mapping",
  "table",
  "one_row",
  "injuries_in_row",
  "sheet",
  "header_rows",
  "leave_out_rows",
  "date_order",
  "two_digit_years_until",
  "day_numbers_from",
  "decimal_sign",
  "columns",
  "not_used",
  "undecided",
  "seen",
] as const satisfies readonly (keyof Mapping)[];

/** A mapping as YAML, each guess with its evidence as a comment. Reading it gives the same mapping. */
export function mappingText(mapping: Mapping, { head, settings, columns }: MappingComments): string {
  const filled = order.filter((key) => mapping[key] !== undefined && !isEmptyList(mapping[key]));
  const document = new Document(Object.fromEntries(filled.map((key) => [key, mapping[key]])), {
    aliasDuplicateObjects: false,
  });
  document.commentBefore = head.map((line) => ` ${line}`).join("\n");
  const map = document.contents as YAMLMap;
  for (const [key, comment] of Object.entries(settings)) {
    const node = document.get(key, true);
    if (isScalar(node)) node.comment = ` ${oneLine(comment)}`;
  }
  const rules = document.get("columns", true);
  if (isMap(rules)) for (const pair of rules.items) layOut(pair, columns[String((pair.key as Scalar).value)]);
  const questions = document.get("undecided", true);
  if (isSeq(questions)) for (const question of questions.items) layOutQuestion(question);
  const seen = document.get("seen", true);
  if (isMap(seen)) flowLists(seen);
  for (const pair of map.items) {
    if (pair !== map.items[0] && ["columns", "not_used", "undecided", "seen"].includes(keyOf(pair))) {
      (pair.key as Scalar).spaceBefore = true;
    }
  }
  const says = {
    columns: "How each column of the toolkit is read, with the evidence",
    undecided: undecidedSays,
    seen: seenSays,
  };
  for (const pair of map.items) {
    const said = says[keyOf(pair) as keyof typeof says];
    if (said !== undefined) (pair.key as Scalar).commentBefore = ` ${said}`;
  }
  return yamlText(document, { lineWidth: 0, nullStr: "" });
}

const undecidedSays =
  'Questions to be answered before the mapping can be used: write one of the choices after each "answer:"';
const seenSays = "What the file looked like: the next export is compared with this";

const isEmptyList = (value: unknown): boolean => Array.isArray(value) && value.length === 0;
const keyOf = (pair: Pair): string => String((pair.key as Scalar).value);
const oneLine = (text: string): string => text.replaceAll(/\s+/g, " ");

/** A rule that only says where it comes from stands on one line. */
function layOut(pair: Pair, comment: string | undefined): void {
  const rule = pair.value as Node;
  if (comment !== undefined) (pair.key as Scalar).commentBefore = ` ${oneLine(comment)}`;
  if (isMap(rule) && rule.items.length === 1) rule.flow = true;
}

/** The keys that the answer goes to on one line, and a place for the answer. */
function layOutQuestion(question: unknown): void {
  if (!isMap(question)) return;
  const decides = question.get("decides", true);
  if (isSeq(decides)) decides.flow = true;
  if (!question.has("answer")) question.set("answer", null);
}

function flowLists(map: YAMLMap): void {
  for (const pair of map.items) {
    const value = pair.value!;
    if (!isScalar(value)) (value as { flow?: boolean }).flow = true;
  }
}
