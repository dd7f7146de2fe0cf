import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "src/**/*.test.tsx", "test/**/*.test.ts"],
    exclude: ["test/e2e/**"],
    testTimeout: 30_000,
    maxWorkers: 2,
  },
});
