import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/browser/**"],
    // Many tests wait for processes of their own, so that a processor kept free for Vitest itself would idle.
    maxWorkers: "100%",
    // Nothing in src/ keeps state in a module, so files can share what they import.
    isolate: false,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    env: { TZ: "Pacific/Chatham" },
  },
});
