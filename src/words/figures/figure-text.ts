/** What a figure says beside its drawing, in words. */
export interface FigureText {
  /** Small letters, digits and hyphens: it names the files. */
  readonly id: string;
  readonly title: string;
  readonly subtitle: string;
  /** Text alternative: what is shown, with the main numbers. The title stands before it wherever it is read, and is not repeated. */
  readonly description: string;
  /** Sentences under the figure. */
  readonly notes: readonly string[];
  /** The data are invented; the drawing says so. */
  readonly synthetic: boolean;
  /** Shows single injuries, not only aggregates: think before it leaves the site. */
  readonly individual: boolean;
}
