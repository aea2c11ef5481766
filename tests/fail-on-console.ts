import { afterEach, beforeEach, expect, vi } from "vitest";

/** A library that prints is a library that surprises: any console output fails the test that caused it. */
const methods = ["log", "info", "warn", "error", "debug"] as const;
const said: string[] = [];

beforeEach(() => {
  said.length = 0;
  for (const method of methods) {
    vi.spyOn(console, method).mockImplementation((...words: unknown[]) => {
      said.push(`${method}: ${words.map(String).join(" ")}`);
    });
  }
});

afterEach(() => {
  vi.restoreAllMocks();
  expect(said, "console output during a test").toEqual([]);
});
