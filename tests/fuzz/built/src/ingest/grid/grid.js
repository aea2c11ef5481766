/** Whether nothing but spaces stands in a cell. */
export const isBlankCell = (cell) => cell === "" || cell.trim() === "";
