import { isMap, isScalar, isSeq, type Node, type Pair, Scalar } from "yaml";
import type { PlaceAt } from "./parse-yaml.js";
import type { SettingsProblem } from "./settings-error.js";
import { refusedParts, type YamlWords } from "./yaml-words.js";

/** A value as the file says it, with where it stands. */
export interface Written {
  readonly value: unknown;
  /** Offset of its key, or of itself in a list. */
  readonly at: number;
  /** Text of a value that stands without quotation marks; null for any other. */
  readonly plain: string | null;
  /** By key, or by place in a list. */
  readonly inner: ReadonlyMap<string, Written>;
}

const nothing: Written = { value: undefined, at: 0, plain: null, inner: new Map() };

/**
 * The value of YAML nodes. A number is one only where it is written as a program would write it: 007, 0x1F, 1e400 and
 * .nan stay the text that they are until a key asks for a number. Objects have no prototype, so that no key of a file
 * reaches anything but itself.
 */
export function writtenValue(
  contents: Node | null,
  placeAt: PlaceAt,
): { readonly written: Written; readonly problems: readonly SettingsProblem[] } {
  const problems: SettingsProblem[] = [];
  const refuse: Refuse = (offset, words) => problems.push({ ...placeAt(offset), at: "", ...words });
  return {
    written: contents === null ? nothing : valueOfNode(contents, { at: 0, refuse, placeAt }),
    problems,
  };
}

type Refuse = (offset: number, words: YamlWords) => void;
interface Context {
  readonly at: number;
  readonly refuse: Refuse;
  readonly placeAt: PlaceAt;
}

function valueOfNode(node: unknown, context: Context): Written {
  if (isMap(node)) return mapOf(node.items, context);
  if (isSeq(node)) {
    const inner = node.items.map((item, i): [string, Written] => [
      String(i),
      valueOfNode(item, { ...context, at: (item as Node | null)?.range?.[0] ?? context.at }),
    ]);
    const value = inner.map(([, { value }]) => value);
    return { value, at: context.at, plain: null, inner: new Map(inner) };
  }
  if (!isScalar(node)) return { ...nothing, value: null, at: context.at };
  const isPlain = node.type === Scalar.PLAIN;
  const plain = isPlain ? (node.source ?? "") : null;
  return { value: isPlain ? plainValue(node) : node.value, at: context.at, plain, inner: new Map() };
}

function plainValue({ value, source = "" }: Scalar): unknown {
  return typeof value === "number" && String(value) !== source ? source : value;
}

function mapOf(items: readonly Pair[], context: Context): Written {
  const inner = new Map<string, Written>();
  const value: Record<string, unknown> = Object.create(null);
  for (const pair of items) {
    const key = pair.key as Node | null;
    const at = key?.range?.[0] ?? context.at;
    const words = refusalOf(key);
    if (words !== null) {
      context.refuse(at, words);
      continue;
    }
    const name = keyText(key as Scalar);
    const before = inner.get(name);
    if (before !== undefined) {
      context.refuse(at, standsTwice(context.placeAt(before.at).line));
      continue;
    }
    const one = valueOfNode(pair.value, { ...context, at });
    inner.set(name, one);
    value[name] = one.value;
  }
  return { value, at: context.at, plain: null, inner };
}

/** A key is a text, whatever else it might be read as. */
const keyText = ({ type, source = "", value }: Scalar): string =>
  type === Scalar.PLAIN ? source : String(value);

const standsTwice = (line: number): YamlWords => ({
  expected: `is a key that already appears in line ${line}.`,
  correction: "Keep one of the two.",
});

function refusalOf(key: Node | null): YamlWords | null {
  if (key === null) return refusedParts.nameless;
  if (!isScalar(key)) return refusedParts.composite;
  if (key.type === Scalar.PLAIN && (key.source ?? "") === "") return refusedParts.nameless;
  if (key.type === Scalar.PLAIN && key.source === "<<") return refusedParts.merge;
  return keyText(key) === "__proto__" ? refusedParts.prototype : null;
}
