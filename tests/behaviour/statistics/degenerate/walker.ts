/** What is wrong with a result, in words; and the reasons that it gives. */
export interface Findings {
  readonly faults: readonly string[];
  readonly reasons: ReadonlySet<string>;
}

/** Members that tell why something is missing, or are null where there is nothing to tell. */
const tells = new Set(["reason", "reasons", "limitsReason", "limit", "status"]);
const isTyped = (value: object): boolean => ArrayBuffer.isView(value) && !(value instanceof DataView);
const isPlain = (value: object): boolean =>
  Array.isArray(value) || [Object.prototype, null].includes(Object.getPrototypeOf(value));

/**
 * Walks a result: every number is finite, every null has a reason in its own object or above it, so have limits on one point, and nothing would be lost in JSON but
 * the kind of a typed array. `onePoint`: paths whose two limits may fall together, as ordered values do. `documented`: paths that may be null without reason because the doc comment says when, `[]` for any place.
 */
export function walk(
  result: unknown,
  documented: readonly string[],
  onePoint: readonly string[] = [],
): Findings {
  const faults: string[] = [];
  const reasons = new Set<string>();

  function visit(value: unknown, path: string, excused: boolean): void {
    if (typeof value === "number") {
      if (!Number.isFinite(value)) faults.push(`${path} is ${value}`);
    } else if (value === null) {
      if (!excused && !documented.includes(path.replaceAll(/\[\d+\]/g, "[]")))
        faults.push(`${path} is null without a reason`);
    } else if (typeof value === "object") {
      if (isTyped(value)) visitAll(Array.from(value as Float64Array).entries(), path, excused);
      else if (!isPlain(value)) faults.push(`${path} is a ${value.constructor.name}: not safe in JSON`);
      else if (Array.isArray(value)) visitAll(value.entries(), path, excused);
      else visitObject(value as Record<string, unknown>, path, excused);
    } else if (typeof value !== "string" && typeof value !== "boolean")
      faults.push(`${path} is ${typeof value}: not safe in JSON`);
  }

  function visitAll(entries: Iterable<[number, unknown]>, path: string, excused: boolean): void {
    for (const [index, member] of entries) visit(member, `${path}[${index}]`, excused);
  }

  function visitObject(object: Record<string, unknown>, path: string, excused: boolean): void {
    const told = [object.reason, object.limitsReason, object.status, object.reasons]
      .flat()
      .filter((reason): reason is string => typeof reason === "string" && reason !== "ok");
    for (const reason of told) reasons.add(reason);
    // an object that could tell a reason and does not is not excused by those above it
    const nowExcused = told.length > 0 || (excused && !("reason" in object));
    if (!nowExcused && !onePoint.includes(path.replaceAll(/\[\d+\]/g, "[]")))
      faults.push(...faultsOfLimits(object, path));
    for (const [name, member] of Object.entries(object))
      if (!tells.has(name)) visit(member, path === "" ? name : `${path}.${name}`, nowExcused);
  }

  visit(result, "", false);
  return { faults, reasons };
}

/** Members that hold both limits. */
const pairs = ["limits", "percentile", "basic", "normal", "normalWithoutBias", "studentised"];

/** Limits on one point claim certainty, and limits the wrong way round nothing at all: neither stands without a reason. */
function faultsOfLimits(object: Record<string, unknown>, path: string): readonly string[] {
  const both = [
    ...Object.keys(object)
      .filter((name) => /lower$/i.test(name))
      .map(
        (name) =>
          [
            name,
            [
              object[name],
              object[
                name
                  .replace("ower", "pper")
                  .replace(/L(?=pper)/, "U")
                  .replace(/l(?=pper)/, "u")
              ],
            ],
          ] as const,
      ),
    ...pairs.flatMap((name) => (Array.isArray(object[name]) ? [[name, object[name]] as const] : [])),
  ];
  return both.flatMap(([name, [lower, upper]]) =>
    typeof lower === "number" && typeof upper === "number" && !(lower < upper)
      ? [`${name} in ${path || "the answer"}: ${lower} to ${upper} without a reason`]
      : [],
  );
}

/** Freezes objects and arrays all the way down; typed arrays cannot be frozen and are compared instead. */
export function deepFreeze<T>(value: T): T {
  if (typeof value !== "object" || value === null || isTyped(value) || Object.isFrozen(value)) return value;
  for (const member of Object.values(value)) deepFreeze(member);
  return Object.freeze(value);
}
