import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readScenario, ScenarioError, scenarioSchema } from "../../../src/synthetic/index.js";

const shortest = 'name: a\ntitle: "SYNTHETIC"\nseed: 1\ninjuries: 10\nsites: [{ id: site-a }]\n';

describe("a scenario file", () => {
  it("needs a name, a title, a seed, a number of injuries and a site; the rest has defaults", () => {
    const scenario = readScenario("scenario.yaml", shortest);
    expect(scenario.return.hazard_ratio.ring).toBe(1.35);
    expect(scenario.sites[0]?.visit_weeks.length).toBeGreaterThan(0);
  });

  it("is refused with every wrong field at once, what was found and what was expected", () => {
    const wrong = "name: Big Clinic\ntitle: x\nseed: -1\ninjuries: 10\nsites: [{ id: Hospital }]\n";
    const read = () => readScenario("scenario.yaml", wrong);
    expect(read).toThrow(ScenarioError);
    expect(read).toThrow(/scenario\.yaml/);
    for (const part of ['"name"', '"Big Clinic"', '"seed"', "-1", '"sites.0.id"', "site-a"]) {
      expect(read).toThrow(part);
    }
  });

  it("is refused with its line when it is not YAML", () => {
    expect(() => readScenario("scenario.yaml", "name: [a\n")).toThrow(/this is not YAML.*line/);
  });

  it("is refused where the data would be closed while injuries still happen", () => {
    const text = `${shortest}accrual_months: 24\nadministrative_end_months: 24\n`;
    expect(() => readScenario("scenario.yaml", text)).toThrow(/at least 2 more than accrual_months/);
  });

  it("has a JSON Schema in which each field of the first two levels is described", () => {
    type Node = { description?: string; properties?: Record<string, Node>; items?: Node };
    const schema = z.toJSONSchema(scenarioSchema, { io: "input" }) as Node;
    const undescribed = (node: Node, path: string): string[] =>
      Object.entries(node.properties ?? {}).flatMap(([key, child]) => [
        ...(child.description || /^[1-4][ab]?$/.test(key) ? [] : [`${path}${key}`]),
        ...(path === "" ? undescribed(child, `${key}.`) : []),
      ]);
    expect(undescribed(schema, "")).toEqual([]);
  });
});
