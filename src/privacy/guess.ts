/** What stands beside a cell that was left out: by column, the words found there. */
export type Beside = ReadonlyMap<string, readonly string[]>;

/** A row whose cell somebody tries to read back from what stands beside it. */
export interface Guessed {
  readonly person: string;
  readonly truth: string;
  readonly beside: Beside;
}

/** For each column and word, in how many rows of each truth it stands. */
type Counts = Map<string, Map<string, Map<string, number>>>;

/** Rows of a truth in which a word was never seen count as if it had been seen in half a one. */
const half = 0.5;

/**
 * How many cells are read back: each by the truth that is likeliest after what stands beside it in the columns named, as
 * learned from all other people (a naive Bayes rule; whoever knows the sites from elsewhere could do that).
 *
 * @param rows every row whose truth is known
 * @param options columns to look at; isWanted: the rows whose cells are counted
 * @source Maron 1961, J ACM 8:404
 */
export function readBack(
  rows: readonly Guessed[],
  {
    columns,
    isWanted,
  }: { readonly columns: readonly string[]; readonly isWanted: (place: number) => boolean },
): number {
  const model = { counts: new Map() as Counts, truths: new Map<string, number>() };
  for (const row of rows) learn(row, { columns, model, times: 1 });
  const ofPerson = new Map<string, number[]>();
  for (const [place, { person }] of rows.entries()) {
    ofPerson.set(person, [...(ofPerson.get(person) ?? []), place]);
  }
  let hits = 0;
  for (const places of ofPerson.values()) {
    const wanted = places.filter(isWanted);
    if (wanted.length === 0) continue;
    for (const place of places) learn(rows[place]!, { columns, model, times: -1 });
    hits += wanted.filter(
      (place) => likeliest(rows[place]!, { columns, model }) === rows[place]!.truth,
    ).length;
    for (const place of places) learn(rows[place]!, { columns, model, times: 1 });
  }
  return hits;
}

interface Model {
  readonly counts: Counts;
  readonly truths: Map<string, number>;
}

function learn(
  { truth, beside }: Guessed,
  {
    columns,
    model,
    times,
  }: { readonly columns: readonly string[]; readonly model: Model; readonly times: 1 | -1 },
): void {
  model.truths.set(truth, (model.truths.get(truth) ?? 0) + times);
  for (const column of columns) {
    const words = inner(model.counts, column);
    for (const word of beside.get(column) ?? []) {
      const truths = inner(words, word);
      truths.set(truth, (truths.get(truth) ?? 0) + times);
    }
  }
}

function inner<V>(outer: Map<string, Map<string, V>>, key: string): Map<string, V> {
  const found = outer.get(key) ?? new Map<string, V>();
  outer.set(key, found);
  return found;
}

function likeliest(
  { beside }: Guessed,
  { columns, model }: { readonly columns: readonly string[]; readonly model: Model },
): string {
  let best = { truth: "", score: Number.NEGATIVE_INFINITY };
  for (const [truth, rows] of model.truths) {
    if (rows === 0) continue;
    let score = Math.log(rows);
    for (const column of columns) {
      for (const word of beside.get(column) ?? []) {
        const seen = model.counts.get(column)?.get(word)?.get(truth) ?? 0;
        score += Math.log((seen + half) / (rows + 1));
      }
    }
    if (score > best.score) best = { truth, score };
  }
  return best.truth;
}

/** Cells that are right by always saying the commonest truth among the rows that look alike in the column itself. */
export function commonestTruth(
  rows: readonly Guessed[],
  {
    visible,
    isWanted,
  }: { readonly visible: readonly string[]; readonly isWanted: (place: number) => boolean },
): number {
  const groups = new Map<string, Map<string, number>>();
  for (const [place, { truth }] of rows.entries()) {
    if (!isWanted(place)) continue;
    const truths = inner(groups, visible[place]!);
    truths.set(truth, (truths.get(truth) ?? 0) + 1);
  }
  return [...groups.values()].reduce((sum, truths) => sum + Math.max(...truths.values()), 0);
}
