import type { ErrorCode } from "yaml";

/** What is wrong with a text that is to be YAML, and how to correct it. Never the words of the parser, nor the text. */
export interface YamlWords {
  readonly expected: string;
  readonly mend: string;
}

const usual =
  'Write "key: value" lines, nested keys indented by two spaces, and quote words that hold a colon.';
const notYaml = (why: string, mend: string = usual): YamlWords => ({
  expected: `this is not YAML: ${why}.`,
  mend,
});

const indented = notYaml(
  "the beginning of this line does not match the lines above it",
  "Begin the keys of one level in the same column, and indent by spaces.",
);
const unexpected = notYaml("something stands here that cannot stand here");
const alias = {
  expected: "is a reference to another place of the file (*name), which is not read.",
  mend: "Write the value out here.",
};
const anchor = {
  expected: "is a name for a value (&name), which is not read.",
  mend: "Remove it, and write the value out wherever it is meant.",
};
const tag = {
  expected: "is a tag (!name), which is not read.",
  mend: "Remove it: a value is read as its key asks.",
};
const directive = {
  expected: "is a directive (a line that begins with %), which is not read.",
  mend: "Remove the line; the file is read as YAML 1.2.",
};
const documents = {
  expected: "is the beginning of a second document in the file.",
  mend: 'Keep one document a file: remove this line ("---" or "...") and what does not belong to it.',
};

/** Signs of YAML that a file of settings does without. */
export const refusedSigns = { alias, anchor, tag, "directive-line": directive } as const;

/** What a value, or a key, may not be. */
export const refusedParts = {
  deep: {
    expected: "is nested deeper than any setting.",
    mend: "Remove brackets or indentation that do not belong here; settings are nested at most six deep.",
  },
  control: {
    expected: "is a character that cannot be seen and that no text holds.",
    mend: "Delete it, and look at the letters beside it: the file may be damaged.",
  },
  documents,
  merge: {
    expected: "is a merge key (<<), which is not read.",
    mend: "Write the keys out here.",
  },
  composite: {
    expected: "is a key made of several values.",
    mend: "Write a word as the key; quote it where it begins with a bracket.",
  },
  nameless: { expected: "is a value without a key.", mend: 'Write its key before it, as "key: value".' },
  prototype: {
    expected: 'is a key that is not read: "__proto__" means something else to the program.',
    mend: "Give the column, or the word in its cells, another name, here and in the table.",
  },
} as const;

/** One sentence for each kind of error of the parser. */
export const yamlWords: Readonly<Record<ErrorCode, YamlWords>> = {
  ALIAS_PROPS: alias,
  BAD_ALIAS: alias,
  BAD_COLLECTION_TYPE: tag,
  BAD_DIRECTIVE: directive,
  BAD_DQ_ESCAPE: notYaml(
    "a backslash inside quotation marks is followed by something that it does not go with",
    "Use single quotation marks ('...'), in which a backslash stands for itself, or write it twice.",
  ),
  BAD_INDENT: indented,
  BAD_PROP_ORDER: unexpected,
  BAD_SCALAR_START: notYaml("a word cannot begin with this character", "Put the word in quotation marks."),
  BLOCK_AS_IMPLICIT_KEY: notYaml(
    "a second colon stands on this line",
    "Put the text in quotation marks where a colon is part of it; else begin a new line.",
  ),
  BLOCK_IN_FLOW: notYaml(
    "indented lines stand inside brackets",
    "Write either brackets with commas, as [ring, tape], or one entry a line.",
  ),
  DUPLICATE_KEY: { expected: "stands twice.", mend: "Keep one of the two." },
  IMPOSSIBLE: unexpected,
  KEY_OVER_1024_CHARS: notYaml(
    "a key is longer than 1024 characters",
    "Look for a quotation mark or bracket that is not closed.",
  ),
  MISSING_CHAR: notYaml(
    "a sign is missing here",
    "Look for a quotation mark or bracket that is not closed, a comma between entries, and a space behind the colon.",
  ),
  MULTILINE_IMPLICIT_KEY: notYaml(
    "a key runs over several lines",
    'Write "key: value" on one line; close quotation marks and brackets.',
  ),
  MULTIPLE_ANCHORS: anchor,
  MULTIPLE_DOCS: documents,
  MULTIPLE_TAGS: tag,
  NON_STRING_KEY: refusedParts.composite,
  RESOURCE_EXHAUSTION: refusedParts.deep,
  TAB_AS_INDENT: notYaml("a tab stands where the line is indented", "Indent by spaces instead of tabs."),
  TAG_RESOLVE_FAILED: tag,
  UNEXPECTED_TOKEN: unexpected,
};
