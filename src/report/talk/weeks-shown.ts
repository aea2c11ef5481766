/** What a climber asks about: a month and a half, ten weeks, a quarter and half a year. */
const usualWeeks: readonly number[] = [6, 10, 13, 26];
/** More rows than this do not fit on a page that is to be read across a table. */
const mostRows = 6;

/**
 * The landmarks of a study that a page shows: weeks 6, 10, 13 and 26 where the study reads all of them, otherwise its own;
 * always with its main landmark, if it reads that. Of more than six, the first, the main one, the last and others spread evenly.
 */
export function weeksShown(landmarks: readonly number[], main: number): readonly number[] {
  const all = landmarks.toSorted((one, other) => one - other);
  const wanted = usualWeeks.every((week) => all.includes(week))
    ? all.filter((week) => usualWeeks.includes(week) || week === main)
    : all;
  if (wanted.length <= mostRows) return wanted;
  const last = wanted.length - 1;
  const spread = Array.from({ length: mostRows }, (_, i) => wanted[Math.round((i * last) / (mostRows - 1))]!);
  if (spread.includes(main) || !all.includes(main)) return spread;
  // the one next to it makes room, but for the first and the last
  const nearest = spread
    .slice(1, -1)
    .reduce((best, week) => (Math.abs(week - main) < Math.abs(best - main) ? week : best));
  return spread.map((week) => (week === nearest ? main : week)).toSorted((one, other) => one - other);
}
