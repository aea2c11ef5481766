import { needed, number, type OptionsOf, readOptions } from "../shared/options.js";

const recruitsOptions = {
  /** Injuries that would be enough if each were of another person and nobody were lost. */
  size: needed(number("positive")),
  /** Injuries a person has on average, or people a site has. Default 1. */
  perCluster: number("positive", 1),
  /** Standard deviation of that number over its mean. Default 0: all alike. */
  variation: number("not negative", 0),
  /** Correlation of two outcomes of one person, or site. Default 0. */
  intraclass: number("share below one", 0),
  /** Part that is lost before the outcome. Default 0. */
  loss: number("share below one", 0),
};
export interface RecruitsOptions extends OptionsOf<typeof recruitsOptions> {}

/** How many have to come into a study; not rounded. */
export interface Recruits {
  readonly designEffect: number;
  readonly injuries: number;
  readonly clusters: number;
}

/**
 * Injuries, and people or sites with them, that have to come into a study: a size made larger for several injuries of one person (or people of
 * one site) and for those lost.
 *
 * Design effect: 1 + ((1 + v^2) m - 1) r, m the number in a cluster on average, v its variation and r the correlation; 1 at least.
 *
 * @throws ArgumentError naming the option at fault
 * @source Donner, Birkett & Buck 1981, Am J Epidemiol 114:906; unequal clusters: Eldridge, Ashby & Kerry 2006, Int J Epidemiol 35:1292
 * @example
 * recruits({ size: 100, perCluster: 2, intraclass: 0.5, loss: 0.2 }) // => { designEffect: 1.5, injuries: 187.5, clusters: 93.75 }
 */
export function recruits(options: RecruitsOptions): Recruits {
  const { size, perCluster, variation, intraclass, loss } = readOptions(recruitsOptions, options);
  const designEffect = Math.max(1, 1 + ((1 + variation ** 2) * perCluster - 1) * intraclass);
  const injuries = (size * designEffect) / (1 - loss);
  return { designEffect, injuries, clusters: injuries / perCluster };
}
