import ts from "typescript";
import { indexes, pathOf } from "./exported.js";

/** What a member of an object may be, as the compiler reads its type. */
export interface Member {
  readonly name: string;
  readonly mayBeLeftOut: boolean;
  readonly words: readonly string[];
  readonly numbers: readonly number[];
  readonly isNumber: boolean;
  readonly isArray: boolean;
  readonly isObject: boolean;
}

/** A parameter that takes an object: options, columns, a result of another function. */
export interface ObjectParameter {
  readonly name: string;
  readonly place: number;
  readonly members: readonly Member[];
}

const program = ts.createProgram(indexes.map(pathOf), {
  module: ts.ModuleKind.NodeNext,
  target: ts.ScriptTarget.ES2022,
  lib: ["lib.es2023.d.ts"],
  strict: true,
  exactOptionalPropertyTypes: true,
  noEmit: true,
  types: [],
});
const checker = program.getTypeChecker();

const isArrayLike = (type: ts.Type): boolean =>
  checker.isArrayType(type) ||
  checker.isTupleType(type) ||
  ["ArrayLike", "PValues"].includes((type.aliasSymbol ?? type.symbol)?.name ?? "");

const partsOf = (type: ts.Type): readonly ts.Type[] => (type.isUnion() ? type.types : [type]);

function memberOf(symbol: ts.Symbol, at: ts.Node): Member {
  const parts = partsOf(checker.getTypeOfSymbolAtLocation(symbol, at));
  const objects = parts.filter(
    (part) => (part.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) !== 0,
  );
  return {
    name: symbol.name,
    mayBeLeftOut: (symbol.flags & ts.SymbolFlags.Optional) !== 0,
    words: parts.flatMap((part) => (part.isStringLiteral() ? [part.value] : [])),
    numbers: parts.flatMap((part) => (part.isNumberLiteral() ? [part.value] : [])),
    isNumber: parts.some((part) => (part.flags & ts.TypeFlags.Number) !== 0),
    isArray: objects.some(isArrayLike),
    isObject: objects.some((part) => !isArrayLike(part)),
  };
}

function objectParameters(signature: ts.Signature): readonly ObjectParameter[] {
  return signature.parameters.flatMap((parameter, place) => {
    const at = parameter.valueDeclaration as ts.ParameterDeclaration;
    const type = checker.getNonNullableType(checker.getTypeOfSymbolAtLocation(parameter, at));
    const isObject = (type.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) !== 0;
    if (!isObject || isArrayLike(type)) return [];
    const members = checker.getPropertiesOfType(type).map((member) => memberOf(member, at));
    return [{ name: parameter.name, place, members }];
  });
}

/** The object parameters of a function that an index exports, read from its declaration. */
export function signatureOf(exported: {
  readonly index: string;
  readonly name: string;
}): readonly ObjectParameter[] {
  const file = program.getSourceFile(pathOf(exported.index))!;
  const module = checker.getSymbolAtLocation(file)!;
  const found = checker.getExportsOfModule(module).find(({ name }) => name === exported.name)!;
  const symbol = found.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(found) : found;
  const [signature] = checker.getTypeOfSymbolAtLocation(symbol, file).getCallSignatures();
  return signature === undefined ? [] : objectParameters(signature);
}
