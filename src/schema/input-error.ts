/**
 * Something that a person gave cannot be used: a study file, a mapping, a scenario, a table. Its message is for that
 * person and says where, what was found, what was expected and how to correct it. Everything else that is thrown is
 * a fault of the toolkit.
 */
export abstract class InputError extends Error {}
