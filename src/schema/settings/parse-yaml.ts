import { Composer, CST, type Document, Lexer, LineCounter, type Node, Parser } from "yaml";
import type { SettingsProblem } from "./settings-error.js";
import { refusedParts, refusedSigns, type YamlWords, yamlWords } from "./yaml-words.js";

/** Larger files of settings are not read, bytes (and characters, of which there are never more). */
export const largestSettings = 1_000_000;

/** Open collections of the parser; each level of keys takes two. Ours are nested at most six deep. */
const mostOpen = 40;
/** More problems than are ever told are not looked for. */
const mostSought = 100;

/** A text of settings as the nodes of YAML, or what is wrong with it. */
export interface ParsedYaml {
  readonly contents: Node | null;
  /** With any problem the contents are not to be used. */
  readonly problems: readonly SettingsProblem[];
  readonly placeAt: PlaceAt;
}

/** Line and column of a place in the text, both from 1. */
export type PlaceAt = (offset: number) => { readonly line: number; readonly column: number };

/**
 * Parses a text as YAML 1.2, without what settings do without: aliases, anchors, tags, directives, several documents.
 * So a small text cannot stand for a large value. No problem repeats the text, which may be of another file altogether.
 */
export function parseYaml(given: string): ParsedYaml {
  // a carriage return by itself ends a line in YAML (1.2.2, 5.4), and not to the parser; places stay as they are
  const text = given.replaceAll(/\r(?!\n)/g, "\n");
  const placeAt = placesOf(text);
  const problems: SettingsProblem[] = [];
  const refuse = (offset: number, words: YamlWords): void => {
    if (problems.length < mostSought) problems.push({ ...placeAt(offset), at: "", ...words });
  };
  if (text.length > largestSettings) {
    refuse(0, tooLarge(text.length));
    return { contents: null, problems, placeAt };
  }
  for (const { index } of text.matchAll(controlCharacters)) refuse(index, refusedParts.control);
  // the signs by which the parser marks what it has seen are among the control characters
  if (problems.length > 0) return { contents: null, problems, placeAt };
  const { tokens, isTooDeep } = tokensOf(text, refuse);
  if (isTooDeep) return { contents: null, problems, placeAt };
  const documents = composed(tokens, text);
  for (const { errors } of documents) {
    for (const { code, pos } of errors) {
      const { line } = placeAt(pos[0]);
      if (!problems.some((known) => known.line === line)) refuse(pos[0], yamlWords[code]);
    }
  }
  if (documents[1] !== undefined) refuse(documents[1].range[0], refusedParts.documents);
  return { contents: documents[0]?.contents ?? null, problems, placeAt };
}

/** How many bytes or characters there are, and how many there may be. */
export const tooLarge = (size: number): YamlWords => ({
  expected: `this file contains ${size} characters, but at most ${largestSettings} are read.`,
  correction:
    "Check that it is the right file: a file of settings rarely contains more than 100,000 characters.",
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const controlCharacters = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g;

/** The tokens of a text; nothing is composed of them yet, so that depth is bounded before anything calls itself. */
function tokensOf(
  text: string,
  refuse: (offset: number, words: YamlWords) => void,
): { readonly tokens: readonly CST.Token[]; readonly isTooDeep: boolean } {
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let isScalar = false;
  for (const lexeme of new Lexer().lex(text)) {
    const { offset } = parser;
    const type = isScalar ? "scalar" : CST.tokenType(lexeme);
    if (type !== null && type in refusedSigns)
      refuse(offset, refusedSigns[type as keyof typeof refusedSigns]);
    isScalar = !isScalar && lexeme === CST.SCALAR;
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (parser.stack.length > mostOpen) {
      refuse(offset, refusedParts.deep);
      return { tokens, isTooDeep: true };
    }
  }
  tokens.push(...parser.end());
  return { tokens, isTooDeep: false };
}

function composed(tokens: readonly CST.Token[], text: string): readonly Document.Parsed[] {
  // keys that stand twice are found where the value is made: the parser's way takes the square of their number
  const composer = new Composer({ version: "1.2", uniqueKeys: false, logLevel: "silent" });
  return [...composer.compose(tokens, true, text.length)];
}

function placesOf(text: string): PlaceAt {
  const lines = new LineCounter();
  lines.addNewLine(0);
  for (let end = text.indexOf("\n"); end !== -1; end = text.indexOf("\n", end + 1)) lines.addNewLine(end + 1);
  return (offset) => {
    const { line, col } = lines.linePos(offset);
    return { line, column: col };
  };
}
