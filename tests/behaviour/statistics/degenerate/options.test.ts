import { describe, expect, it } from "vitest";
import { ArgumentError } from "../../../../src/statistics/index.js";
import { wellFormed } from "./cases.js";
import { numberHelpers } from "./exempt.js";
import { exported } from "./exported.js";
import { type Member, type ObjectParameter, signatureOf } from "./signatures.js";
import { type Given, set, table } from "./table.js";

/** Functions without data that take options all the same. */
const beside: Readonly<Record<string, Given>> = {
  equalPrecisionCritical: [{ from: 0.1, to: 0.6 }, {}],
  hallWellnerCritical: [{ from: 0.1, to: 0.6 }, {}],
  eventsForRatio: [{ hazardRatio: 1.5 }],
  powerOfEvents: [{ hazardRatio: 1.5, events: 60 }],
  shareSeen: [{ rate: 0.05, followUp: 26 }],
  powerOfShares: [{ one: 0.6, other: 0.8, first: 40, second: 40 }],
  sizeOfShares: [{ one: 0.6, other: 0.8 }],
  sizeOfMeans: [{ difference: 1, deviation: 2 }],
  sizeOfPairs: [{ difference: 1, deviation: 2 }],
  sizeOfDifference: [{ difference: 7, deviation: 40 }],
  sizeForShareWidth: [{ share: 0.7, width: 0.2 }],
  widthOfShare: [{ share: 0.7, size: 80 }],
  sizeForIntraclass: [{ intraclass: 0.8, width: 0.2 }],
  recruits: [{ size: 100 }],
};

/** Parameters that take what another function returned, or anything that has the same in it: more is no fault there. */
const mayHoldMore = ["curve", "fit", "model", "riskSets", "difference", "mean", "share", "incidence"];
const isResult = (name: string, parameter: ObjectParameter): boolean =>
  mayHoldMore.includes(parameter.name) ||
  (["differenceOf", "ratioOf", "shareDifference"].includes(name) && ["a", "b"].includes(parameter.name)) ||
  (name === "incidenceAt" && parameter.place === 0);

const isOptions = ({ name }: ObjectParameter): boolean => name === "options" || name === "question";

interface Try {
  readonly what: string;
  readonly given: Given;
  /** Argument that the error must name. */
  readonly argument: string;
  /** What its message must hold. */
  readonly holds: readonly string[];
}

/** Nothing of these is an object of columns or options. */
const noObjects = [7, "text", null, [], true];

const wrongContainers = (given: Given, { name, place }: ObjectParameter): readonly Try[] =>
  noObjects.map((value) => ({
    what: `${name} is ${JSON.stringify(value)}`,
    given: set(given, String(place), value),
    argument: name.startsWith("__") ? "columns" : name,
    holds: [],
  }));

const wrongNames = (given: Given, { place, members }: ObjectParameter): readonly Try[] =>
  members.map(({ name }) => ({
    what: `"${name}x" beside or for "${name}"`,
    given: set(given, `${place}.${name}x`, 1),
    argument: `${name}x`,
    holds: [`did you mean "${name}"?`, ...members.map((member) => `"${member.name}"`)],
  }));

/** Values of other kinds than the type of the option allows. */
function wrongValues({ words, numbers, isNumber, isArray, isObject }: Member): readonly unknown[] {
  return [
    "no such word",
    null,
    true,
    ...(isNumber ? [Number.NaN] : numbers.length > 0 ? [99] : [7]),
    ...(isArray ? [] : [[]]),
    ...(isObject ? [] : [{}]),
    ...(words.length > 0 ? [words[0]?.toUpperCase()] : []),
  ];
}

const wrongKinds = (given: Given, { place, members }: ObjectParameter): readonly Try[] =>
  members.flatMap((member) =>
    [...wrongValues(member), ...(member.mayBeLeftOut ? [] : [undefined])].map((value) => ({
      what: `${member.name} = ${JSON.stringify(value)}`,
      given: set(given, `${place}.${member.name}`, value),
      argument: member.name,
      holds: typeof value === "string" ? member.words.map((word) => `"${word}"`) : [],
    })),
  );

const wrongLevels = (given: Given, { place, members }: ObjectParameter): readonly Try[] =>
  members
    .filter(({ name }) => /level$/i.test(name))
    .flatMap(({ name }) =>
      [0, 1, -0.5, 1.5, 95, "0.95"].map((value) => ({
        what: `${name} = ${JSON.stringify(value)}`,
        given: set(given, `${place}.${name}`, value),
        argument: name,
        holds: [],
      })),
    );

function triesOf(name: string, given: Given, parameters: readonly ObjectParameter[]): readonly Try[] {
  return parameters.flatMap((parameter) => {
    const whole = parameter.place < given.length ? given : [...given, {}];
    return [
      ...wrongContainers(whole, parameter),
      ...(isResult(name, parameter) ? [] : wrongNames(whole, parameter)),
      ...(isOptions(parameter) ? [...wrongKinds(whole, parameter), ...wrongLevels(whole, parameter)] : []),
    ];
  });
}

/** Nothing, or how the call was not refused as it must be. */
function faultOf(of: unknown, { what, given, argument, holds }: Try): readonly string[] {
  try {
    (of as (...given: Given) => unknown)(...given);
  } catch (error) {
    if (!(error instanceof ArgumentError)) return [`${what}: threw ${String(error)}`];
    const named = error.argument.split(/[.[]/)[0] === argument;
    const missing = holds.filter((text) => !error.message.includes(text));
    return named && missing.length === 0 ? [] : [`${what}: refused with: ${error.message}`];
  }
  return [`${what}: answered`];
}

const functions = (await exported())
  .filter(({ name }) => !numberHelpers.includes(name) && name !== "ArgumentError")
  .map((one) => ({ ...one, parameters: signatureOf(one) }));
const givenOf = ({ name, of }: { readonly name: string; readonly of: unknown }): Given | undefined =>
  table.find((row) => row.of === of)?.given(wellFormed) ?? beside[name];

describe("a word, a name or a kind that is not known is refused by name, with the known ones", () => {
  it.each(functions.filter(({ parameters }) => parameters.length > 0))("$name", (one) => {
    const given = givenOf(one);
    expect(given, "arguments to try it with").toBeDefined();
    const tries = triesOf(one.name, given!, one.parameters);
    expect(tries.flatMap((trial) => faultOf(one.of, trial))).toEqual([]);
  });

  it("reads options, words and columns from the declarations", () => {
    const options = functions.flatMap(({ parameters }) => parameters.filter(isOptions));
    const members = options.flatMap((parameter) => parameter.members);
    expect(options.length).toBeGreaterThan(80);
    expect(members.filter(({ words }) => words.length > 0).length).toBeGreaterThan(50);
    expect(members.filter(({ isNumber }) => isNumber).length).toBeGreaterThan(100);
  });
});
