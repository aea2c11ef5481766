import type { ErrorCode } from "yaml";

/** What is wrong with a text that is to be YAML, and how to correct it. Never the words of the parser, nor the text. */
export interface YamlWords {
  readonly expected: string;
  readonly correction: string;
}

const usual =
  'Write "key: value" lines, nested keys indented with two spaces, and put words that contain a colon in quotation marks.';
const notYaml = (why: string, correction: string = usual): YamlWords => ({
  expected: `this is not YAML: ${why}.`,
  correction,
});

const indented = notYaml(
  "the beginning of this line does not match the lines above it",
  "Begin the keys of one level in the same column, and indent with spaces.",
);
const unexpected = notYaml("there is something here that does not belong here");
const alias = {
  expected: "is a reference to another place of the file (*name), which is not read.",
  correction: "Write the value itself here.",
};
const anchor = {
  expected: "is a name for a value (&name), which is not read.",
  correction: "Remove it, and write the value itself wherever it is needed.",
};
const tag = {
  expected: "is a tag (!name), which is not read.",
  correction: "Remove it: the key decides how the value is read.",
};
const directive = {
  expected: "is a directive (a line that begins with %), which is not read.",
  correction: "Remove the line; the file is read as YAML 1.2.",
};
const documents = {
  expected: "is the beginning of a second document in the file.",
  correction:
    'A file contains one document only: remove this line ("---" or "...") and whatever belongs to the other document.',
};

/** Signs of YAML that a file of settings does without. */
export const refusedSigns = { alias, anchor, tag, "directive-line": directive } as const;

/** What a value, or a key, may not be. */
export const refusedParts = {
  deep: {
    expected: "is nested more deeply than any setting.",
    correction:
      "Remove brackets or indentation that do not belong here. Settings are nested at most six levels deep.",
  },
  control: {
    expected: "is a control character, which does not belong in a text.",
    correction: "Delete it, and check the letters next to it: the file may be damaged.",
  },
  documents,
  merge: {
    expected: "is a merge key (<<), which is not read.",
    correction: "Write the keys themselves here.",
  },
  composite: {
    expected: "is a key made of several values.",
    correction: "Write a word as the key, in quotation marks if it begins with a bracket.",
  },
  nameless: {
    expected: "is a value without a key.",
    correction: 'Write its key before it, in the form "key: value".',
  },
  prototype: {
    expected: 'is a key that is not read: "__proto__" has another meaning for the program.',
    correction: "Rename the column, or change the word in its cells, here and in the table.",
  },
} as const;

/** One sentence for each kind of error of the parser. */
export const yamlWords: Readonly<Record<ErrorCode, YamlWords>> = {
  ALIAS_PROPS: alias,
  BAD_ALIAS: alias,
  BAD_COLLECTION_TYPE: tag,
  BAD_DIRECTIVE: directive,
  BAD_DQ_ESCAPE: notYaml(
    "a backslash inside quotation marks is followed by a character that cannot follow it",
    "Use single quotation marks ('...'), in which a backslash has no special meaning, or write the backslash twice.",
  ),
  BAD_INDENT: indented,
  BAD_PROP_ORDER: unexpected,
  BAD_SCALAR_START: notYaml("a word cannot begin with this character", "Put the word in quotation marks."),
  BLOCK_AS_IMPLICIT_KEY: notYaml(
    "there is a second colon on this line",
    "Put the text in quotation marks if a colon is part of it; otherwise begin a new line.",
  ),
  BLOCK_IN_FLOW: notYaml(
    "there are indented lines inside brackets",
    "Write either brackets with commas, for example [ring, tape], or one entry per line.",
  ),
  DUPLICATE_KEY: { expected: "appears twice.", correction: "Keep one of the two." },
  IMPOSSIBLE: unexpected,
  KEY_OVER_1024_CHARS: notYaml(
    "a key is longer than 1024 characters",
    "Look for a quotation mark or bracket that is not closed.",
  ),
  MISSING_CHAR: notYaml(
    "a punctuation mark is missing here",
    "Look for a quotation mark or bracket that is not closed, a missing comma between entries, or a missing space after a colon.",
  ),
  MULTILINE_IMPLICIT_KEY: notYaml(
    "a key extends over several lines",
    'Write "key: value" on one line, and close quotation marks and brackets.',
  ),
  MULTIPLE_ANCHORS: anchor,
  MULTIPLE_DOCS: documents,
  MULTIPLE_TAGS: tag,
  NON_STRING_KEY: refusedParts.composite,
  RESOURCE_EXHAUSTION: refusedParts.deep,
  TAB_AS_INDENT: notYaml("the line is indented by a tab", "Indent with spaces instead of tabs."),
  TAG_RESOLVE_FAILED: tag,
  UNEXPECTED_TOKEN: unexpected,
};
