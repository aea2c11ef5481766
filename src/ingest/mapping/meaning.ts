/** Key of a question about what a column of the file holds: the answer is a column of ours. */
export const meaningKey = "meaning";
/** Answer to such a question: nothing that is asked for. */
export const notUsedAnswer = "not_used";
