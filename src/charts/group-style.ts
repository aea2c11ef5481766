/** How one group looks: never by colour alone. */
export interface GroupStyle {
  readonly colour: string;
  /** Dashes and gaps in widths of the line; empty for an unbroken line. */
  readonly dash: readonly number[];
  readonly shape: string;
}

/**
 * Six looks, in the order of the groups. The colours were searched for: at least 16 apart (CIEDE2000) under simulated
 * protanopia, deuteranopia and tritanopia, at least 4.5 : 1 against white, dark and light in turn for grey print.
 */
export const groupStyles: readonly GroupStyle[] = [
  { colour: "#1f1ca8", dash: [], shape: "circle" },
  { colour: "#bb5373", dash: [3.2, 1.4], shape: "square" },
  { colour: "#154a0c", dash: [1, 1], shape: "triangle-up" },
  { colour: "#416eea", dash: [5.5, 1.3, 1, 1.3], shape: "diamond" },
  { colour: "#66173f", dash: [7, 2], shape: "triangle-down" },
  { colour: "#667b12", dash: [2.4, 1.1, 1, 1.1, 1, 1.1], shape: "cross" },
];

/** The look of the group at a place in the report's order; a group after the last look starts over. */
export const groupStyle = (
  { styles }: { readonly styles: readonly GroupStyle[] },
  index: number,
): GroupStyle => styles[index % styles.length]!;
