/**
 * French sport levels in the order of the common number scale: the first is number 1, `7a` is number 17.
 * @source Draper et al. 2015, Sports Technology 8:88
 */
export const frenchLevels =
  "1 2 2+ 3- 3 3+ 4 4+ 5 5+ 6a 6a+ 6b 6b+ 6c 6c+ 7a 7a+ 7b 7b+ 7c 7c+ 8a 8a+ 8b 8b+ 8c 8c+ 9a 9a+ 9b 9b+".split(
    " ",
  );

/** The level so many half-grade steps above (or, negative, below) another, within the scale. */
export const levelAt = (index: number): string =>
  frenchLevels[Math.min(frenchLevels.length - 1, Math.max(0, index))]!;
