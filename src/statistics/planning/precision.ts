import { normalCritical } from "../shared/distributions.js";
import { confidenceLevel, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { rootBetween } from "../shared/root.js";

const shareWidthOptions = {
  /** The share that is expected. */
  share: needed(number("open share")),
  /** Width of the interval from limit to limit. */
  width: needed(number("open share")),
  /** Default 0.95. */
  level: confidenceLevel,
};
export interface SizeForShareWidthOptions extends OptionsOf<typeof shareWidthOptions> {}

const widthOfShareOptions = {
  share: shareWidthOptions.share,
  /** People. */
  size: needed(number("positive")),
  level: confidenceLevel,
};
export interface WidthOfShareOptions extends OptionsOf<typeof widthOfShareOptions> {}

const scoreWidth = ({ share, size, z }: { share: number; size: number; z: number }): number =>
  (2 * z * Math.sqrt((share * (1 - share)) / size + (z / (2 * size)) ** 2)) / (1 + z ** 2 / size);

/**
 * Width of the score interval of a share where exactly that share of the people is found, from limit to limit.
 *
 * @throws ArgumentError naming the option at fault
 * @source Wilson 1927, J Am Stat Assoc 22:209
 */
export function widthOfShare(options: WidthOfShareOptions): number {
  const { share, size, level } = readOptions(widthOfShareOptions, options);
  return scoreWidth({ share, size, z: normalCritical(level) });
}

/**
 * People with whom the score interval of a share by a landmark is as wide as asked, nobody lost before it.
 *
 * @returns a number that is not rounded
 * @throws ArgumentError naming the option at fault
 * @source Wilson 1927, J Am Stat Assoc 22:209
 */
export function sizeForShareWidth(options: SizeForShareWidthOptions): number {
  const { share, width, level } = readOptions(shareWidthOptions, options);
  const z = normalCritical(level);
  const apart = (log: number) => scoreWidth({ share, size: Math.exp(log), z }) - width;
  // between 2 z sqrt(p q / n) and that of a share of one half; below, the interval is nearly the whole axis
  return Math.exp(rootBetween(apart, [Math.log(1e-12), Math.log((10 * z ** 2) / width ** 2)]));
}

const intraclassOptions = {
  /** The agreement between raters that is expected. */
  intraclass: needed(number("open share")),
  /** Readings of each finger, each by another rater; 2 or more. */
  raters: number("positive count", 2),
  /** Width of the interval from limit to limit. */
  width: needed(number("open share")),
  /** Default 0.95. */
  level: confidenceLevel,
};
export interface SizeForIntraclassOptions extends OptionsOf<typeof intraclassOptions> {}

/**
 * Fingers that so many raters read for an interval of their intraclass correlation as wide as asked.
 *
 * n = 1 + 8 z^2 (1 - r)^2 (1 + (k - 1) r)^2 / (k (k - 1) width^2), r the correlation, k the raters; an approximation that is good to a few fingers.
 *
 * @returns a number that is not rounded; infinite for a single rater
 * @throws ArgumentError naming the option at fault
 * @source Bonett 2002, Stat Med 21:1331
 */
export function sizeForIntraclass(options: SizeForIntraclassOptions): number {
  const { intraclass, raters, width, level } = readOptions(intraclassOptions, options);
  const spread = (1 - intraclass) * (1 + (raters - 1) * intraclass);
  return 1 + (8 * (normalCritical(level) * spread) ** 2) / (raters * (raters - 1) * width ** 2);
}
