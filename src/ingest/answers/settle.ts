import { type AnswerAccount, assertAnswersBalance } from "../../schema/accounting.js";
import type { AnswerCode, DataQuery } from "../../schema/data-query.js";
import { queryList } from "../../schema/query-list.js";
import { byKey } from "../rules/link-rule.js";
import { asWrittenIn } from "../table/file-words.js";
import type { Files, FileWords } from "../text/rows-of-file.js";
import { type Amendments, amended, cellKey, noAmendments, rowKey } from "./answered-files.js";
import { type Answer, type Answers, askAboutAnswer } from "./read-answers.js";
import { type NamedQuery, register } from "./register.js";
import { rowNames } from "./row-names.js";

/** One reading of the files: whatever it gives, with every query. */
export interface Pass {
  readonly queries: readonly DataQuery[];
}

/** A query, and how to say it in the words of its file as that reading found them. */
export interface RaisedQuery extends NamedQuery {
  readonly asWritten: FileWords["asWritten"];
}

/** The last reading, with the answers in place. */
export interface Settled<P extends Pass> {
  readonly pass: P;
  /** Queries that are still open, at most 200 of a kind, and those about the answers themselves. */
  readonly queries: readonly DataQuery[];
  /** Every query that is still open. */
  readonly open: readonly NamedQuery[];
  /** Every query that was raised, answered or not, once each, with the words of the reading that raised it. */
  readonly raised: readonly RaisedQuery[];
  /** Says a query of the last reading in the words of its file. */
  readonly asWritten: FileWords["asWritten"];
  readonly account: AnswerAccount;
}

/**
 * Reads the files with the site's answers in place.
 *
 * The files are read as they are; every query gets its id; answers to these ids take effect; the files are read again,
 * since a changed cell can end a query or raise another, which may be answered as well; and so on until a reading
 * brings no new answer to bear. Ids come from the cells as they stand in the file, so that they stay whatever the
 * answers to other queries have changed. Each answer takes effect once, so that the readings come to an end.
 *
 * @param files as they were read; they are left as they are
 * @param options answers: the lines of the file of answers; read: one reading of files, keeping every query
 */
export function settle<P extends Pass>(
  files: Files,
  { answers, read }: { readonly answers: Answers; readonly read: (files: Files) => P },
): Settled<P> {
  const ids = register(rowNames(files));
  const held = heldAnswers(answers);
  const amendments = noAmendments();
  const raised = new Map<string, RaisedQuery>();
  let pass: P;
  let named: readonly NamedQuery[];
  let isNew: boolean;
  let asWritten: FileWords["asWritten"];
  do {
    const present = amended(files, amendments);
    pass = read(present);
    asWritten = asWrittenIn(present);
    named = ids.nameAll(pass.queries);
    for (const query of named) if (!raised.has(query.id)) raised.set(query.id, { ...query, asWritten });
    isNew = takeEffect(named, { held, amendments });
  } while (isNew);
  return {
    pass,
    ...openAmong(named, { held, answers }),
    raised: [...raised.values()],
    asWritten,
    account: accountOf(answers, { held, amendments }),
  };
}

/** What became of an answer so far. */
type Fate = "waiting" | "used" | "contradictory" | "elsewhere" | "not-possible";

/** The answers to one query. */
interface Held {
  readonly answer: Answer;
  /** Further lines that say the same. */
  readonly repeated: readonly Answer[];
  /** Lines that say something else: then none of them is used. */
  readonly others: readonly Answer[];
  fate: Fate;
}

type HeldAnswers = ReadonlyMap<string, Held>;

function heldAnswers({ given }: Answers): HeldAnswers {
  const byId = byKey(given, ({ values }) => values.id);
  return new Map(
    [...byId].map(([id, lines]) => {
      const answer = lines[0]!;
      const saysSame = (line: Answer) => line.answer === answer.answer && line.newValue === answer.newValue;
      const others = lines.filter((line) => !saysSame(line));
      const fate: Fate = others.length > 0 ? "contradictory" : "waiting";
      return [id, { answer, repeated: lines.slice(1).filter(saysSame), others, fate }] as const;
    }),
  );
}

/** Brings answers to bear on the queries that a reading raised; tells whether the files must be read again. */
function takeEffect(
  named: readonly NamedQuery[],
  { held, amendments }: { readonly held: HeldAnswers; readonly amendments: Amendments },
): boolean {
  const changes = new Map<string, { held: Held; text: string }[]>();
  let isNew = false;
  for (const one of named) {
    const found = held.get(one.id);
    if (found?.fate !== "waiting") continue;
    found.fate = fateOf(one, found.answer);
    if (found.fate !== "used") continue;
    const { answer, newValue } = found.answer;
    if (answer === "leave-out") {
      amendments.leftOut.set(rowKey(one.query)!, one.query);
      isNew = true;
    } else if (answer === "change") {
      const cell = cellKey(one)!;
      const wanted = changes.get(cell) ?? [];
      wanted.push({ held: found, text: newValue! });
      changes.set(cell, wanted);
    }
  }
  for (const [cell, wanted] of changes) {
    const agreed = wanted.every(({ text }) => text === wanted[0]!.text);
    if (agreed) {
      amendments.cells.set(cell, wanted[0]!.text);
      isNew = true;
    } else {
      for (const one of wanted) one.held.fate = "contradictory";
    }
  }
  return isNew;
}

function fateOf(one: NamedQuery, { values, answer }: Answer): Fate {
  const isElsewhere =
    (values.rule !== null && values.rule !== one.query.code) ||
    (values.column !== null && one.query.column !== null && values.column !== one.query.column);
  if (isElsewhere) return "elsewhere";
  if (answer === "change" && cellKey(one) === null) return "not-possible";
  if (answer === "leave-out" && rowKey(one.query) === null) return "not-possible";
  return "used";
}

/** Queries of the last reading that no answer has settled, and those about the answers. */
function openAmong(
  named: readonly NamedQuery[],
  { held, answers }: { readonly held: HeldAnswers; readonly answers: Answers },
): Pick<Settled<Pass>, "open" | "queries"> {
  const open = named.filter(({ id }) => {
    const found = held.get(id);
    return found?.fate !== "used" || found.answer.answer === "change";
  });
  const withoutEffect = new Set(open.flatMap(({ id }) => (isUsed(held.get(id)) ? [held.get(id)] : [])));
  const queries = queryList();
  for (const { query } of open) queries.add(query);
  for (const query of answers.queries) queries.add(query);
  const leavesAside = new Set(
    named.flatMap(({ id, query }) =>
      query.severity === "set-aside" && isUsed(held.get(id)) ? [held.get(id)] : [],
    ),
  );
  for (const found of held.values()) {
    const code = withoutEffect.has(found)
      ? "answer-without-effect"
      : leavesAside.has(found) && found.answer.answer === "stands"
        ? "answer-leaves-row-aside"
        : codeOf[found.fate];
    if (code === null) continue;
    for (const { row, values } of [found.answer, ...found.repeated, ...found.others]) {
      queries.add(askAboutAnswer({ file: answers.file, row, values }, code));
    }
  }
  return { open, queries: queries.all() };
}

const isUsed = (held: Held | undefined): boolean => held?.fate === "used";

const codeOf: Readonly<Record<Fate, Extract<AnswerCode, `answer-${string}`> | null>> = {
  waiting: "answer-stale",
  used: null,
  contradictory: "answer-contradictory",
  elsewhere: "answer-elsewhere",
  "not-possible": "answer-not-possible",
};

function accountOf(
  { file, read, given, blank, unreadable }: Answers,
  { held, amendments }: { readonly held: HeldAnswers; readonly amendments: Amendments },
): AnswerAccount {
  const used = { stands: 0, change: 0, "leave-out": 0 };
  const notUsed = { stale: 0, contradictory: 0, unreadable: unreadable.length };
  let repeated = 0;
  for (const { answer, repeated: again, others, fate } of held.values()) {
    const lines = 1 + again.length + others.length;
    if (fate === "used") {
      used[answer.answer] += 1;
      repeated += again.length;
    } else if (fate === "waiting") notUsed.stale += lines;
    else if (fate === "contradictory") notUsed.contradictory += lines;
    else notUsed.unreadable += lines;
  }
  const account: AnswerAccount = {
    file,
    read,
    blank: blank.length,
    used,
    repeated,
    notUsed,
    cellsChanged: amendments.cells.size,
    rowsLeftOut: amendments.leftOut.size,
  };
  assertAnswersBalance(account);
  if (given.length + blank.length + unreadable.length !== read)
    throw new Error(`${file}: a line of the answers is lost: this is a fault of the toolkit`);
  return account;
}
