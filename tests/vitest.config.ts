import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/fail-on-console.ts"],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    coverage: { provider: "v8", include: ["src/**/*.ts"], reporter: ["text-summary"] },
  },
});
